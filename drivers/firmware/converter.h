/* What every converter offers. One file implements it and is chosen in the Makefile (CONVERTER=). */
#ifndef CONVERTER_H
#define CONVERTER_H

#include <avr/pgmspace.h>
#include <stdbool.h>

#include "reading.h"

/* One sentence for the banner, in program memory: resolution, reference, averaging. */
extern const char converter_description[] PROGMEM;

/* Start converting for ever. Call once, with the time base running. */
void converter_begin(void);

/* Put the next finished reading into *reading and return true, or return false when there is none. */
bool converter_take(struct reading *reading);

#endif
