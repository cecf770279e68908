/* One reading: what a converter hands to an output. */
#ifndef READING_H
#define READING_H

#include <stdbool.h>
#include <stdint.h>

struct reading {
	uint32_t time_ms;   /* board time at which the voltage was true; wraps after 49.7 days */
	int32_t voltage_uV; /* at the pin, by the nominal reference; without meaning when overloaded */
	bool overload;      /* the voltage was at or above the end of the range, so it is not known */
};

#endif
