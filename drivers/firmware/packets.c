#include "packets.h"

#define DATA 1
#define INFO 2
#define TEXT 3
#define INFO_VERSION 1
#define INPUT 0
#define UNIT_GAIN 1000000UL

/* A packet while it is written: its bytes stand from place 1 on, place 0 is for the stuffing. */
_Static_assert(PACKET_DATA_LENGTH <= PACKET_WIRE_LENGTH && PACKET_WIRE_LENGTH < 254, "one code byte is enough");

struct packet {
	uint8_t *wire;
	uint8_t length;
};

static void put(struct packet *packet, uint8_t byte)
{
	packet->wire[++packet->length] = byte;
}

static void put_2(struct packet *packet, uint16_t number)
{
	put(packet, (uint8_t)number);
	put(packet, (uint8_t)(number >> 8));
}

static void put_4(struct packet *packet, uint32_t number)
{
	put_2(packet, (uint16_t)number);
	put_2(packet, (uint16_t)(number >> 16));
}

/* CRC-16/CCITT-FALSE: polynomial 1021, from FFFF, not reflected. */
static uint16_t check_of(const uint8_t *bytes, uint8_t count)
{
	uint16_t check = 0xFFFF;

	while (count--) {
		check ^= (uint16_t)(*bytes++ << 8);
		for (uint8_t bit = 0; bit < 8; bit++)
			check = (uint16_t)(check & 0x8000 ? check << 1 ^ 0x1021 : check << 1);
	}
	return check;
}

/* Add the check, stuff in place (COBS: each zero becomes the distance to the next one), end with a zero.
 * Packets are shorter than 254 bytes, so there is one code byte more and never another. */
static uint8_t finish(struct packet *packet)
{
	uint8_t last_zero = 0;

	put_2(packet, check_of(packet->wire + 1, packet->length));
	for (uint8_t place = 1; place <= packet->length; place++) {
		if (packet->wire[place] != 0)
			continue;
		packet->wire[last_zero] = place - last_zero;
		last_zero = place;
	}
	packet->wire[last_zero] = packet->length + 1 - last_zero;
	packet->wire[packet->length + 1] = 0;
	return packet->length + 2;
}

uint8_t packet_of_data(uint8_t wire[PACKET_WIRE_LENGTH], const struct packet_data *data)
{
	struct packet packet = {.wire = wire};

	put(&packet, DATA);
	put_2(&packet, data->sequence);
	put_4(&packet, data->time_us);
	put(&packet, data->count);
	put(&packet, 1 << INPUT);
	put(&packet, data->range_code);
	put(&packet, data->flags);
	for (uint8_t i = 0; i < data->count; i++)
		put_2(&packet, (uint16_t)data->codes[i]);
	return finish(&packet);
}

uint8_t packet_of_info(uint8_t wire[PACKET_WIRE_LENGTH], const struct packet_info *info)
{
	struct packet packet = {.wire = wire};

	put(&packet, INFO);
	put(&packet, INFO_VERSION);
	put_4(&packet, info->ticks_per_s);
	put_4(&packet, info->ticks_per_sample);
	put_4(&packet, info->dropped);
	put(&packet, 1); /* ranges */
	put(&packet, info->range_code);
	put_4(&packet, info->step_tenth_nV);
	put(&packet, 1); /* inputs */
	put(&packet, INPUT);
	put_4(&packet, UNIT_GAIN);
	put_4(&packet, 0); /* offset */
	return finish(&packet);
}

uint8_t packet_of_text(uint8_t wire[PACKET_WIRE_LENGTH], const char *text, uint8_t length)
{
	struct packet packet = {.wire = wire};

	put(&packet, TEXT);
	while (length--)
		put(&packet, (uint8_t)*text++);
	return finish(&packet);
}
