#include "lines.h"

/* printf is left out on purpose: with floats it costs 3 kB and a deep stack for two numbers. */
static char *put_number(char *at, uint32_t number, uint8_t least_digits)
{
	char reversed[10];
	uint8_t digits = 0;

	do {
		reversed[digits++] = (char)('0' + number % 10);
		number /= 10;
	} while (number != 0 || digits < least_digits);
	while (digits > 0)
		*at++ = reversed[--digits];
	return at;
}

static char *put_volts(char *at, int32_t voltage_uV)
{
	/* The magnitude is taken unsigned, for -INT32_MIN has no int32_t. */
	uint32_t magnitude_uV = voltage_uV < 0 ? 0U - (uint32_t)voltage_uV : (uint32_t)voltage_uV;
	uint32_t tenths_mV = (magnitude_uV + 50) / 100;

	if (voltage_uV < 0 && tenths_mV != 0)
		*at++ = '-';
	at = put_number(at, tenths_mV / 10000, 1);
	*at++ = '.';
	return put_number(at, tenths_mV % 10000, 4);
}

uint8_t line_of_reading(char line[LINE_MAX_LENGTH], const struct reading *reading)
{
	char *at = put_number(line, reading->time_ms, 1);

	*at++ = ',';
	if (reading->overload) {
		*at++ = 'O';
		*at++ = 'L';
	} else {
		at = put_volts(at, reading->voltage_uV);
	}
	*at++ = '\r';
	*at++ = '\n';
	return (uint8_t)(at - line);
}
