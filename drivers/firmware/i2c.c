#include "i2c.h"

#include <avr/interrupt.h>
#include <avr/io.h>
#include <util/twi.h>

#include "board.h"

#define BUS_HZ 400000UL
#define PATIENCE 2000U /* turns of the waiting loop: above 500 us, a byte takes 23 us */

_Static_assert(F_CPU >= 36UL * BUS_HZ, "this clock is too slow for the bus");

void i2c_begin(void)
{
	/* The chip's own pull-ups are weak (20 to 50 kilo-ohm), but hold an empty bus at rest; a converter
	 * brings stronger ones. */
	PORTC |= _BV(PORTC4) | _BV(PORTC5);
	TWSR = 0;
	TWBR = (uint8_t)((F_CPU / BUS_HZ - 16UL) / 2UL);
	TWCR = _BV(TWEN);
}

static volatile bool is_over;
static volatile uint8_t status_at_end;

/* The end of a step is told by the interrupt: the emulator of the tests leaves the flag up meanwhile. */
ISR(TWI_vect)
{
	status_at_end = TWSR & TW_STATUS_MASK;
	is_over = true;
	TWCR = _BV(TWEN); /* the flag stays up, and the bus waits */
}

/* Let the bus do what `control` says and return its status, 0 if it never ends. */
static uint8_t step(uint8_t control)
{
	uint16_t left = PATIENCE;

	is_over = false;
	TWCR = _BV(TWINT) | _BV(TWEN) | _BV(TWIE) | control;
	while (!is_over)
		if (--left == 0)
			return 0;
	return status_at_end;
}

static void stop(void)
{
	uint16_t left = PATIENCE;

	TWCR = _BV(TWINT) | _BV(TWEN) | _BV(TWSTO);
	while (TWCR & _BV(TWSTO))
		if (--left == 0) {
			TWCR = 0; /* lets go of a bus that is held down; the next start tries anew */
			return;
		}
}

/* Whether the device took what was sent, an address or a byte. (The emulator of the tests reports an address
 * that was taken like a byte.) */
static bool is_taken(uint8_t status)
{
	return status == TW_MT_SLA_ACK || status == TW_MT_DATA_ACK;
}

static bool address(uint8_t device, uint8_t direction)
{
	uint8_t status = step(_BV(TWSTA));

	if (status != TW_START && status != TW_REP_START)
		return false;
	TWDR = (uint8_t)(device << 1 | direction);
	status = step(0);
	return direction == TW_READ ? status == TW_MR_SLA_ACK : is_taken(status);
}

bool i2c_write(uint8_t device, const uint8_t *bytes, uint8_t count)
{
	bool answered = address(device, TW_WRITE);

	while (answered && count--) {
		TWDR = *bytes++;
		answered = is_taken(step(0));
	}
	stop();
	return answered;
}

bool i2c_read_word(uint8_t device, uint16_t *word)
{
	bool answered = address(device, TW_READ);
	uint8_t high = 0;

	if (answered) {
		answered = step(_BV(TWEA)) == TW_MR_DATA_ACK;
		high = TWDR;
	}
	if (answered) {
		answered = step(0) == TW_MR_DATA_NACK;
		*word = (uint16_t)high << 8 | TWDR;
	}
	stop();
	return answered;
}
