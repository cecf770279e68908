/* A board that reads one voltage and prints it with its own time. See README.md. */
#include <avr/interrupt.h>
#include <avr/sleep.h>

#include "converter.h"
#include "output.h"
#include "timebase.h"
#include "uart.h"
#include "watchdog.h"

int main(void)
{
	struct reading reading;

	watchdog_begin();
	timebase_begin();
	uart_begin();
	converter_begin();
	sei();
	output_begin();

	/* Idle between interrupts: a quiet processor is a quiet converter. Deeper sleep would stop the
	 * timer and the UART. A reading that is finished just before sleeping waits for the next
	 * tick, less than a millisecond. */
	set_sleep_mode(SLEEP_MODE_IDLE);
	for (;;) {
		if (converter_take(&reading)) {
			output_reading(&reading);
			watchdog_reading_delivered();
		} else {
			sleep_mode();
		}
	}
}
