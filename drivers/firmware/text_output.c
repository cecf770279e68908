/* Output as text lines: a banner, a header line, then "millis,volts" for each reading. */
#include "averaging.h"
#include "board.h"
#include "lines.h"
#include "output.h"
#include "timebase.h"
#include "uart.h"
#include "watchdog.h"

/* At most 70 % of the wire, which carries a byte in ten bit times. */
_Static_assert(LINE_MAX_LENGTH * 10UL * 1000UL * 10UL <= UART_BAUD * LINE_PERIOD_MS * 7UL,
	       "lines come faster than the wire carries them");
_Static_assert(LINE_PERIOD_MS % 2 == 0, "the middle of a reading must be a whole millisecond");
_Static_assert(LINE_PERIOD_MS >= 4 && LINE_PERIOD_MS <= 1000, "the watchdog waits for a reading up to 2 s");

#define TEXT_OF(number) TEXT(number)
#define TEXT(number) #number

static const char greeting[] PROGMEM = "# Galvanote board, firmware " TEXT_OF(FIRMWARE_VERSION) ", started by ";
static const char line_end[] PROGMEM = "\r\n";
static const char comment[] PROGMEM = "# ";
static const char means[] PROGMEM =
	", each reading the mean over " TEXT_OF(LINE_PERIOD_MS) " ms, its time their middle\r\n";
static const char header[] PROGMEM = "t_ms,voltage_V\r\n";

static struct averaging averaging;

void output_begin(const struct sampler *sampler)
{
	averaging.step_tenth_nV = sampler->step_tenth_nV;
	averaging.samples_each = (uint16_t)(LINE_PERIOD_MS * 1000UL / sampler->period_us);
	averaging.half_ms = LINE_PERIOD_MS / 2;
	uart_send_text_P(greeting);
	uart_send_text_P(watchdog_start_reason());
	uart_send_text_P(line_end);
	uart_send_text_P(comment);
	uart_send_text_P(sampler->description);
	uart_send_text_P(means);
	uart_send_text_P(header);
}

bool output_sample(const struct sample *sample)
{
	struct reading reading;
	char line[LINE_MAX_LENGTH];

	if (sample->failed) {
		averaging_give_up(&averaging);
		return false;
	}
	if (!averaging_add(&averaging, timebase_whole_us(sample->time_us), sample->code, sample->clipped,
			   &reading))
		return false;
	/* A line that finds no room is left out whole; the times of its neighbours show the gap. */
	uart_send(line, line_of_reading(line, &reading));
	return true;
}
