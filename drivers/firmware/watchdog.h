/* The watchdog: restarts a board that has stopped delivering readings. */
#ifndef WATCHDOG_H
#define WATCHDOG_H

#include <avr/pgmspace.h>
#include <stdbool.h>

/* From now on the board restarts unless a reading is reported within two seconds. */
void watchdog_begin(void);

/* A reading went out. Only this feeds the watchdog: a loop that still turns while the converter,
 * the clock or the interrupts are dead must not keep the board alive. */
void watchdog_reading_delivered(void);

/* Remember `choice` over a start by the watchdog, and return what is remembered: after any other start, `choice`. */
bool watchdog_keep(bool choice);

/* Why the board started, in words, in program memory. */
PGM_P watchdog_start_reason(void);

#endif
