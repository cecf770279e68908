/* The chip's own 10-bit converter on pin A0 (ADC0), averaged over one line period.
 *
 * One conversion a millisecond; their sum over LINE_PERIOD_MS is one reading. A single step is
 * reference/1024, 4.883 mV at 5 V. The mean resolves finer than that only when noise of about half
 * a step or more stirs the last bit (it mostly does on USB supply); on a perfectly quiet input the
 * reading moves in whole steps. Gain error (the supply) and offset (up to two steps) stay: the
 * average removes noise, not error.
 */
#include <avr/interrupt.h>
#include <avr/io.h>
#include <util/atomic.h>

#include "board.h"
#include "converter.h"
#include "timebase.h"

#define CONVERSIONS LINE_PERIOD_MS
#define STEPS 1024L
#define TOP_CODE (STEPS - 1)

_Static_assert(CONVERSIONS % 2 == 0, "the middle of the window must be a whole millisecond");
_Static_assert(CONVERSIONS >= 4 && CONVERSIONS <= 1000, "the watchdog waits for a reading up to 2 s");
_Static_assert(F_CPU / 128UL >= 50000UL && F_CPU / 128UL <= 200000UL, "converter clock for full resolution");

/* Clock/128 = 125 kHz, inside the 50 to 200 kHz that the data sheet asks for at full resolution. */
#define SWITCHED_ON (_BV(ADEN) | _BV(ADPS2) | _BV(ADPS1) | _BV(ADPS0))

#define TEXT_OF(number) TEXT(number)
#define TEXT(number) #number

const char converter_description[] PROGMEM =
	"10-bit converter on A0, range 0 to " TEXT_OF(REFERENCE_MV) " mV (AVcc, nominal) in 1024 steps, "
	"each reading the mean of " TEXT_OF(LINE_PERIOD_MS) " conversions over " TEXT_OF(LINE_PERIOD_MS) " ms, "
	"its time their middle";

struct window {
	uint32_t begin_ms;
	uint32_t code_sum;
	uint16_t conversions;
	bool reached_top;
};

static struct window filling; /* touched by interrupts only */
static struct window finished;
static volatile bool finished_is_new;

/* Compare B falls in the middle of each millisecond: away from the tick, which it would otherwise
 * wait for, and so that the mean time of a window is a whole number of milliseconds. Started from
 * an interrupt, a conversion may begin some microseconds late (another interrupt going on); at the
 * pace at which a cell moves that is nothing. */
ISR(TIMER1_COMPB_vect)
{
	/* Written whole: reading it back and setting a bit would also clear a waiting ADIF. */
	ADCSRA = SWITCHED_ON | _BV(ADIE) | _BV(ADSC);
	if (filling.conversions == 0)
		filling.begin_ms = timebase_ms();
}

ISR(ADC_vect)
{
	uint16_t code = ADC;

	filling.code_sum += code;
	/* At the top code the voltage may be anything above: a mean with it would be too low and
	 * look true. */
	filling.reached_top |= code == TOP_CODE;
	if (++filling.conversions < CONVERSIONS)
		return;
	finished = filling;
	finished_is_new = true;
	filling = (struct window){0};
}

void converter_begin(void)
{
	DIDR0 = _BV(ADC0D); /* no digital input buffer on the pin: it only draws current there */
	ADMUX = _BV(REFS0); /* reference AVcc with the capacitor at AREF, channel ADC0 */

	/* The first conversion after switching on also starts the analog circuit: not to be used. */
	ADCSRA = SWITCHED_ON | _BV(ADSC);
	while (ADCSRA & _BV(ADSC))
		;
	ADCSRA = SWITCHED_ON | _BV(ADIF); /* a flag is cleared by writing one to it */

	OCR1B = TIMEBASE_COUNTS_PER_MS / 2 - 1;
	TIFR1 = _BV(OCF1B);
	TIMSK1 |= _BV(OCIE1B);
}

/* The code for a voltage is V/reference*1024, its transitions half a step below (data sheet,
 * "ADC Conversion Result" and "ADC Accuracy Definitions"), so code/1024 is the middle of its step. */
static int32_t voltage_of_sum(uint32_t code_sum)
{
	const uint64_t scale = (uint64_t)STEPS * CONVERSIONS;

	return (int32_t)((code_sum * (REFERENCE_MV * 1000ULL) + scale / 2) / scale);
}

bool converter_take(struct reading *reading)
{
	struct window window;
	bool is_new;

	ATOMIC_BLOCK(ATOMIC_RESTORESTATE)
	{
		window = finished;
		is_new = finished_is_new;
		finished_is_new = false;
	}
	if (!is_new)
		return false;
	reading->time_ms = window.begin_ms + CONVERSIONS / 2;
	reading->voltage_uV = voltage_of_sum(window.code_sum);
	reading->overload = window.reached_top;
	return true;
}
