/* Output as text lines: a banner, a header line, then "millis,volts" for each reading. */
#include "board.h"
#include "converter.h"
#include "lines.h"
#include "output.h"
#include "uart.h"
#include "watchdog.h"

/* At most 70 % of the wire, which carries a byte in ten bit times. */
_Static_assert(LINE_MAX_LENGTH * 10UL * 1000UL * 10UL <= UART_BAUD * LINE_PERIOD_MS * 7UL,
	       "lines come faster than the wire carries them");

#define TEXT_OF(number) TEXT(number)
#define TEXT(number) #number

static const char greeting[] PROGMEM = "# Galvanote board, firmware " TEXT_OF(FIRMWARE_VERSION) ", started by ";
static const char line_end[] PROGMEM = "\r\n";
static const char comment[] PROGMEM = "# ";
static const char header[] PROGMEM = "t_ms,voltage_V\r\n";

void output_begin(void)
{
	uart_send_text_P(greeting);
	uart_send_text_P(watchdog_start_reason());
	uart_send_text_P(line_end);
	uart_send_text_P(comment);
	uart_send_text_P(converter_description);
	uart_send_text_P(line_end);
	uart_send_text_P(header);
}

void output_reading(const struct reading *reading)
{
	char line[LINE_MAX_LENGTH];

	/* A line that finds no room is left out whole; the times of its neighbours show the gap. */
	uart_send(line, line_of_reading(line, reading));
}
