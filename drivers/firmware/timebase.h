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

#endif
