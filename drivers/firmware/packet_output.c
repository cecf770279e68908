/* Output as packets: numbered, checked, many samples each; a greeting, and once a second what the codes mean. */
#include <string.h>

#include "board.h"
#include "output.h"
#include "packets.h"
#include "timebase.h"
#include "uart.h"
#include "watchdog.h"

#define SEND_AFTER_US 100000UL /* a packet leaves after 100 ms at the latest */
#define INFO_EVERY_MS 1000UL
#define TICKS_PER_S 1000000UL
#define TOP_CODE INT16_MAX

#define TEXT_OF(number) TEXT(number)
#define TEXT(number) #number

/* At most 70 % of the wire at one sample a millisecond. */
_Static_assert(PACKET_DATA_LENGTH * 10UL * 1000UL / PACKET_MAX_CODES * 10UL <= UART_BAUD * 7UL,
	       "packets come faster than the wire carries them");

static const char greeting[] PROGMEM = "Galvanote board, firmware " TEXT_OF(FIRMWARE_VERSION) ", started by ";

static struct packet_data filling;
static struct packet_info info;
static uint32_t info_due_ms;
static uint16_t samples_each;
static bool lost_before; /* samples, right before those that are being filled in */

static void send_text(const char *text, uint8_t length)
{
	uint8_t wire[PACKET_WIRE_LENGTH];
	uint8_t count = packet_of_text(wire, text, length);

	while (!uart_send((const char *)wire, count))
		; /* at the start only: the interrupt makes room */
}

static void greet(void)
{
	char text[PACKET_MAX_TEXT];

	strcpy_P(text, greeting);
	strcat_P(text, watchdog_start_reason());
	send_text(text, (uint8_t)strlen(text));
}

static void describe(PGM_P description)
{
	char text[PACKET_MAX_TEXT];

	/* A text may be longer than a packet: it goes in pieces, cut anywhere. */
	for (size_t left = strlen_P(description); left > 0;) {
		uint8_t length = left < sizeof text ? (uint8_t)left : (uint8_t)sizeof text;

		memcpy_P(text, description, length);
		send_text(text, length);
		description += length;
		left -= length;
	}
}

static void send_info_if_due(void)
{
	uint8_t wire[PACKET_WIRE_LENGTH];

	if ((int32_t)(timebase_ms() - info_due_ms) < 0)
		return;
	if (uart_send((const char *)wire, packet_of_info(wire, &info)))
		info_due_ms += INFO_EVERY_MS;
}

void output_begin(const struct sampler *sampler)
{
	info.ticks_per_s = TICKS_PER_S;
	info.ticks_per_sample = sampler->period_us;
	info.range_code = filling.range_code = sampler->range_code;
	info.step_tenth_nV = sampler->step_tenth_nV;
	samples_each = (uint16_t)(SEND_AFTER_US / sampler->period_us);
	if (samples_each > PACKET_MAX_CODES)
		samples_each = PACKET_MAX_CODES;
	greet();
	describe(sampler->description);
	info_due_ms = timebase_ms();
	send_info_if_due();
}

/* Send what was filled; what finds no room is counted, and its number is left out. */
static void send_filled(void)
{
	uint8_t wire[PACKET_WIRE_LENGTH];

	if (lost_before)
		filling.flags |= PACKET_OVERFLOW;
	lost_before = !uart_send((const char *)wire, packet_of_data(wire, &filling));
	if (lost_before)
		info.dropped += filling.count;
	filling.sequence++;
	filling.count = 0;
	filling.flags = 0;
}

bool output_sample(const struct sample *sample)
{
	send_info_if_due();
	if (sample->failed) {
		/* The times of those before it stay regular; the next packet has a time of its own. */
		filling.flags |= PACKET_SENSOR_ERROR;
		if (filling.count > 0)
			send_filled();
		return false;
	}
	if (filling.count == 0)
		filling.time_us = sample->time_us;
	if (sample->clipped)
		filling.flags |= PACKET_CLIPPED;
	filling.codes[filling.count++] = sample->clipped && sample->code > 0 ? TOP_CODE : sample->code;
	if (filling.count < samples_each)
		return false;
	send_filled();
	return true;
}
