/* The board's clock: Timer/Counter1, one round a millisecond. */
#ifndef TIMEBASE_H
#define TIMEBASE_H

#include <stdint.h>

#include "board.h"

/* Timer counts in one millisecond; half a microsecond each at 16 MHz. */
#define TIMEBASE_COUNTS_PER_MS (F_CPU / 8UL / 1000UL)

/* Start the clock at zero. Interrupts may still be off. */
void timebase_begin(void);

/* Milliseconds since the start; wraps after 49.7 days. May be called from interrupts too. */
uint32_t timebase_ms(void);

/* Microseconds since the start, in half-microsecond steps; wraps after 71.6 minutes. Main program only. */
uint32_t timebase_us(void);

/* The whole time, in microseconds since the start, of something that happened less than 71 minutes ago, when
 * timebase_us() was `time_us`. Main program only. */
uint64_t timebase_whole_us(uint32_t time_us);

#endif
