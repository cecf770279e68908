#include "watchdog.h"

#include <avr/io.h>
#include <avr/wdt.h>
#include <stdint.h>

/* Set before main, when variables are not yet cleared: so it must not be one of those. */
static uint8_t start_flags __attribute__((section(".noinit")));
static bool kept __attribute__((section(".noinit")));

/* After a watchdog reset the watchdog stays on at its shortest time, 16 ms, and WDE cannot be cleared
 * while WDRF is set (data sheet, "Watchdog Timer"): without this the board would restart for ever
 * before it reaches main. */
__attribute__((naked, used, section(".init3"))) static void stop_watchdog_at_start(void)
{
	start_flags = MCUSR;
	MCUSR = 0;
	wdt_disable();
}

void watchdog_begin(void)
{
	wdt_enable(WDTO_2S);
}

void watchdog_reading_delivered(void)
{
	wdt_reset();
}

bool watchdog_keep(bool choice)
{
	if (!(start_flags & _BV(WDRF)) || start_flags & _BV(PORF))
		kept = choice;
	return kept;
}

PGM_P watchdog_start_reason(void)
{
	/* The order matters: switching the supply on may set the brown-out and reset-pin flags as well. */
	if (start_flags & _BV(PORF))
		return PSTR("power");
	if (start_flags & _BV(WDRF))
		return PSTR("watchdog");
	if (start_flags & _BV(BORF))
		return PSTR("low supply voltage");
	if (start_flags & _BV(EXTRF))
		return PSTR("reset pin");
	return PSTR("boot loader"); /* which clears the flags before it hands over */
}
