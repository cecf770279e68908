#include "timebase.h"

#include <avr/interrupt.h>
#include <avr/io.h>
#include <util/atomic.h>

_Static_assert(F_CPU % 8000UL == 0, "a millisecond must be a whole number of timer counts");
_Static_assert(TIMEBASE_COUNTS_PER_MS <= 65536UL, "the timer has 16 bits");

static volatile uint32_t now_ms;

ISR(TIMER1_COMPA_vect)
{
	now_ms++;
}

void timebase_begin(void)
{
	/* Mode 4, "Clear Timer on Compare Match (CTC)", clock/8. The hardware reloads itself, so
	 * a late interrupt never makes a millisecond longer. */
	TCCR1A = 0;
	TCCR1B = _BV(WGM12) | _BV(CS11);
	OCR1A = TIMEBASE_COUNTS_PER_MS - 1;
	TCNT1 = 0;
	TIMSK1 |= _BV(OCIE1A);
}

uint32_t timebase_ms(void)
{
	uint32_t copy;

	/* Four bytes are four loads: the interrupt must not fall between them. */
	ATOMIC_BLOCK(ATOMIC_RESTORESTATE)
	{
		copy = now_ms;
	}
	return copy;
}
