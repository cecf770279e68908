/* What every converter offers. The board chooses at its start: the 16-bit converter when one answers, else
 * the chip's own. */
#ifndef SAMPLER_H
#define SAMPLER_H

#include <avr/pgmspace.h>
#include <stdbool.h>
#include <stdint.h>

struct sample {
	uint32_t time_us; /* board time at which the voltage was true; wraps after 71.6 minutes */
	int16_t code;
	bool clipped; /* the voltage was at or beyond the end of the range, so it is not known */
	bool failed;  /* the converter did not answer: there is no code */
};

struct sampler {
	PGM_P description;     /* for the banner: resolution, input, range */
	uint32_t step_tenth_nV; /* what one code is, in units of 0.1 nV */
	uint16_t period_us;    /* from one sample to the next */
	uint8_t range_code;    /* tells this range from that of the other converter */
	void (*begin)(void);   /* start converting for ever; the time base runs */

	/* Put the next sample into *sample and return true, or return false when there is none yet. */
	bool (*take)(struct sample *sample);
};

extern const struct sampler adc_sampler;
extern const struct sampler ads1115_sampler;

/* Whether a 16-bit converter answers on the I2C pins. */
bool ads1115_is_there(void);

#endif
