#include "timebase.h"

#include <avr/interrupt.h>
#include <avr/io.h>
#include <util/atomic.h>

_Static_assert(F_CPU % 8000UL == 0, "a millisecond must be a whole number of timer counts");
_Static_assert(TIMEBASE_COUNTS_PER_MS >= 1000UL, "the timer counts microseconds or finer");
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

static uint64_t now_us(void)
{
	uint32_t ms;
	uint16_t counts;

	ATOMIC_BLOCK(ATOMIC_RESTORESTATE)
	{
		counts = TCNT1;
		ms = now_ms;
		/* The timer has turned, but the interrupt that counts it waits for us. */
		if (TIFR1 & _BV(OCF1A) && counts < TIMEBASE_COUNTS_PER_MS / 2)
			ms++;
	}
	return ms * 1000ULL + counts / (TIMEBASE_COUNTS_PER_MS / 1000U);
}

uint32_t timebase_us(void)
{
	return (uint32_t)now_us();
}

uint64_t timebase_whole_us(uint32_t time_us)
{
	uint64_t now = now_us();

	return now - (uint32_t)((uint32_t)now - time_us);
}
