/* The packets of the board as bytes on the wire. Pure: no registers, so that it is tested on any computer.
 * Their form: drivers/formats/packet.py of the program that reads them. */
#ifndef PACKETS_H
#define PACKETS_H

#include <stdint.h>

#define PACKET_MAX_CODES 32
#define PACKET_MAX_TEXT 100
#define PACKET_AROUND 4 /* check, code of the stuffing, ending zero */
#define PACKET_DATA_LENGTH (11 + 2 * PACKET_MAX_CODES + PACKET_AROUND)
#define PACKET_WIRE_LENGTH (1 + PACKET_MAX_TEXT + PACKET_AROUND) /* the longest there is */

#define PACKET_CLIPPED 1
#define PACKET_OVERFLOW 2
#define PACKET_SENSOR_ERROR 4

struct packet_data {
	uint16_t sequence;
	uint32_t time_us; /* of the first code */
	uint8_t count;	  /* of codes, at most PACKET_MAX_CODES */
	uint8_t range_code;
	uint8_t flags;
	int16_t codes[PACKET_MAX_CODES];
};

struct packet_info {
	uint32_t ticks_per_s;
	uint32_t ticks_per_sample;
	uint32_t dropped; /* samples that the board could not send */
	uint8_t range_code;
	uint32_t step_tenth_nV;
};

/* Each writes a whole packet with its ending zero into `wire` and returns its length. */
uint8_t packet_of_data(uint8_t wire[PACKET_WIRE_LENGTH], const struct packet_data *data);
uint8_t packet_of_info(uint8_t wire[PACKET_WIRE_LENGTH], const struct packet_info *info);
uint8_t packet_of_text(uint8_t wire[PACKET_WIRE_LENGTH], const char *text, uint8_t length);

#endif
