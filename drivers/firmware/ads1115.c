/* A 16-bit converter of the ADS1115 kind on the I2C pins (A4 data, A5 clock), its input AIN0 against GND.
 *
 * Registers, ranges and rates: its data sheet (SBAS444). It converts singly, on our word and by our clock: its
 * own is 10 % off, and nobody would know when a free-running conversion began. 860 conversions a second take
 * 1.163 ms each, 1.28 ms at the slowest, so one every 2 ms is always finished.
 */
#include "board.h"
#include "i2c.h"
#include "sampler.h"
#include "timebase.h"

#define DEVICE 0x48
#define CONVERSION_REGISTER 0
#define CONFIG_REGISTER 1

#define START 0x8000
#define INPUT_0_TO_GROUND 0x4000
#define RANGE_4096_MV 0x0200
#define SINGLE 0x0100
#define RATE_860 0x00E0
#define COMPARATOR_OFF 0x0003
#define CONFIG (START | INPUT_0_TO_GROUND | RANGE_4096_MV | SINGLE | RATE_860 | COMPARATOR_OFF)

#define PERIOD_US 2000UL
#define HALF_CONVERSION_US 582UL /* from the start to the middle of what is measured */

static const char description[] PROGMEM =
	"16-bit converter on I2C, input 0 to ground, range -4096 to 4096 mV in steps of 0.125 mV";

static uint32_t due_us, started_us;
static bool is_converting;

static bool start_conversion(void)
{
	static const uint8_t words[] = {CONFIG_REGISTER, CONFIG >> 8, CONFIG & 0xFF};

	started_us = timebase_us();
	return i2c_write(DEVICE, words, sizeof words);
}

static bool read_code(int16_t *code)
{
	static const uint8_t pointer[] = {CONVERSION_REGISTER};
	uint16_t word = 0;

	if (!i2c_write(DEVICE, pointer, sizeof pointer) || !i2c_read_word(DEVICE, &word))
		return false;
	*code = (int16_t)word;
	return true;
}

bool ads1115_is_there(void)
{
	static const uint8_t pointer[] = {CONFIG_REGISTER};

	i2c_begin();
	return i2c_write(DEVICE, pointer, sizeof pointer);
}

static void begin(void)
{
	due_us = timebase_us();
	is_converting = false;
}

static bool take(struct sample *sample)
{
	bool had_started = is_converting, has_code = false;
	int16_t code = 0;
	uint32_t middle_us = started_us + HALF_CONVERSION_US;

	if ((int32_t)(timebase_us() - due_us) < 0)
		return false;
	if (had_started)
		has_code = read_code(&code);
	due_us += PERIOD_US;
	if ((int32_t)(timebase_us() - due_us) > 0)
		due_us = timebase_us() + PERIOD_US; /* the processor was busy: do not catch up */
	if (!has_code)
		i2c_begin(); /* also frees a bus that was stuck */
	is_converting = start_conversion();
	if (!had_started && is_converting)
		return false; /* the very first, or the first after a failure: nothing was converted before it */
	*sample = (struct sample){
		.time_us = middle_us,
		.code = code,
		.clipped = code == INT16_MAX || code == INT16_MIN,
		.failed = !has_code,
	};
	return true;
}

const struct sampler ads1115_sampler = {
	.description = description,
	.step_tenth_nV = 1250000,
	.period_us = PERIOD_US,
	.range_code = 1,
	.begin = begin,
	.take = take,
};
