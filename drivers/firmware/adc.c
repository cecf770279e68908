/* The chip's own 10-bit converter on pin A0 (ADC0), one conversion a millisecond.
 *
 * A single step is reference/1024, 4.883 mV at 5 V. A mean resolves finer than that only when noise of about
 * half a step or more stirs the last bit (it mostly does on USB supply); on a perfectly quiet input it moves
 * in whole steps. Gain error (the supply) and offset (up to two steps) stay: a mean removes noise, not error.
 */
#include <avr/interrupt.h>
#include <avr/io.h>
#include <util/atomic.h>

#include "board.h"
#include "sampler.h"
#include "timebase.h"

#define STEPS 1024UL
#define TOP_CODE (STEPS - 1)
#define RING 64 /* samples that may wait: the greeting takes some 30 ms */

_Static_assert(F_CPU / 128UL >= 50000UL && F_CPU / 128UL <= 200000UL, "converter clock for full resolution");
_Static_assert((RING & (RING - 1)) == 0, "the index wraps by masking");

/* Clock/128 = 125 kHz, inside the 50 to 200 kHz that the data sheet asks for at full resolution. */
#define SWITCHED_ON (_BV(ADEN) | _BV(ADPS2) | _BV(ADPS1) | _BV(ADPS0))

#define TEXT_OF(number) TEXT(number)
#define TEXT(number) #number

static const char description[] PROGMEM =
	"10-bit converter on A0, range 0 to " TEXT_OF(REFERENCE_MV) " mV (AVcc, nominal) in 1024 steps";

struct conversion {
	uint32_t time_us;
	uint16_t code;
};

static struct conversion ring[RING];
static volatile uint8_t ring_head; /* next place to fill, moved by the interrupt only */
static volatile uint8_t ring_tail; /* next to take, moved by the main program only */
static uint32_t begun_us;	   /* touched by interrupts only */

/* Compare B falls in the middle of each millisecond: away from the tick, which it would otherwise
 * wait for. Started from an interrupt, a conversion may begin some microseconds late (another interrupt
 * going on); at the pace at which a cell moves that is nothing. */
ISR(TIMER1_COMPB_vect)
{
	/* Written whole: reading it back and setting a bit would also clear a waiting ADIF. */
	ADCSRA = SWITCHED_ON | _BV(ADIE) | _BV(ADSC);
	begun_us = timebase_ms() * 1000UL + 500UL;
}

ISR(ADC_vect)
{
	uint8_t next = (ring_head + 1) & (RING - 1);
	uint16_t code = ADC;

	if (next == ring_tail)
		return; /* no room: the times of its neighbours show the hole */
	ring[ring_head] = (struct conversion){.time_us = begun_us, .code = code};
	ring_head = next;
}

static void begin(void)
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

static bool take(struct sample *sample)
{
	struct conversion conversion;

	if (ring_tail == ring_head)
		return false;
	conversion = ring[ring_tail];
	ring_tail = (ring_tail + 1) & (RING - 1);
	*sample = (struct sample){
		.time_us = conversion.time_us,
		.code = (int16_t)conversion.code,
		/* At the top code the voltage may be anything above. */
		.clipped = conversion.code == TOP_CODE,
	};
	return true;
}

/* The code for a voltage is V/reference*1024, its transitions half a step below (data sheet,
 * "ADC Conversion Result" and "ADC Accuracy Definitions"), so code/1024 is the middle of its step. */
const struct sampler adc_sampler = {
	.description = description,
	.step_tenth_nV = (uint32_t)(REFERENCE_MV * 10000000ULL / STEPS),
	.period_us = 1000,
	.range_code = 16,
	.begin = begin,
	.take = take,
};
