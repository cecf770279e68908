/* What every output form offers. One file implements it and is chosen in the Makefile (OUTPUT=). */
#ifndef OUTPUT_H
#define OUTPUT_H

#include "sampler.h"

/* Say who is speaking. Call once, with interrupts on; may take some hundredths of a second. */
void output_begin(const struct sampler *sampler);

/* Take one sample; return true when a voltage went out or found no room. Never waits: what finds no room is
 * left out whole. */
bool output_sample(const struct sample *sample);

#endif
