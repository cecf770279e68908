/* A board that reads one voltage and sends it with its own time. See README.md. */
#include <avr/interrupt.h>
#include <avr/sleep.h>

#include "output.h"
#include "sampler.h"
#include "timebase.h"
#include "uart.h"
#include "watchdog.h"

/* The 16-bit converter when it answers. After the watchdog a board goes on with the one it had: if that was
 * lost, another input must not slip into the run under the same name. */
static const struct sampler *choose_sampler(void)
{
	return watchdog_keep(ads1115_is_there()) ? &ads1115_sampler : &adc_sampler;
}

int main(void)
{
	const struct sampler *sampler;
	struct sample sample;

	watchdog_begin();
	timebase_begin();
	uart_begin();
	sei();
	sampler = choose_sampler();
	sampler->begin();
	output_begin(sampler);

	/* Idle between interrupts: a quiet processor is a quiet converter. Deeper sleep would stop the
	 * timer and the UART. A reading that is finished just before sleeping waits for the next
	 * tick, less than a millisecond. */
	set_sleep_mode(SLEEP_MODE_IDLE);
	for (;;) {
		if (sampler->take(&sample)) {
			if (output_sample(&sample))
				watchdog_reading_delivered();
		} else {
			sleep_mode();
		}
	}
}
