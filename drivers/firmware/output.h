/* What every output form offers. One file implements it and is chosen in the Makefile (OUTPUT=). */
#ifndef OUTPUT_H
#define OUTPUT_H

#include "reading.h"

/* Say who is speaking. Call once, with interrupts on; may take some hundredths of a second. */
void output_begin(void);

/* Send one reading. Never waits: a reading for which there is no room is left out whole. */
void output_reading(const struct reading *reading);

#endif
