/* Samples into readings: the mean over one line period. Pure: no registers, so that it is tested anywhere. */
#ifndef AVERAGING_H
#define AVERAGING_H

#include <stdbool.h>
#include <stdint.h>

#include "reading.h"

struct averaging {
	uint32_t step_tenth_nV;
	uint16_t samples_each; /* samples in one reading */
	uint16_t half_ms;      /* from its begin to its middle */

	uint64_t begin_us;
	int32_t code_sum;
	uint16_t samples;
	bool clipped;
};

/* Add one sample; true when *reading is complete. */
bool averaging_add(struct averaging *averaging, uint64_t time_us, int16_t code, bool clipped,
		   struct reading *reading);

/* A sample is missing: what was begun is given up, for a mean with a hole is not that of its middle. */
void averaging_give_up(struct averaging *averaging);

#endif
