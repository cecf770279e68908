/* The voltage at the converter's input, and what the converter makes of it. */
#define _GNU_SOURCE
#include "voltage.h"

#include <errno.h>
#include <math.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

#include "harness.h"

#define MAX_CORNERS 1000

struct corner {
	double time_s, volts;
};

static struct corner corners[MAX_CORNERS];
static size_t corner_count;
static double noise_lsb;
static uint64_t random_state = 1;

void voltage_set_noise(double steps, uint64_t seed)
{
	noise_lsb = steps;
	random_state = seed * 0x9E3779B97F4A7C15ULL | 1; /* xorshift must not start at 0 */
}

static double profile_volts(double time_s)
{
	size_t i;

	if (corner_count == 0)
		return 0.0;
	/* The last corner at or before the time: of two at the same time the later one counts. */
	for (i = corner_count; i > 0 && corners[i - 1].time_s > time_s; i--)
		;
	if (i == 0)
		return corners[0].volts;
	if (i == corner_count)
		return corners[i - 1].volts;
	struct corner a = corners[i - 1], b = corners[i];
	return a.volts + (b.volts - a.volts) * (time_s - a.time_s) / (b.time_s - a.time_s);
}

static double uniform(void)
{
	/* xorshift64* (S. Vigna, ACM TOMS 42 (2016) 30); never exactly zero, for the logarithm below */
	random_state ^= random_state >> 12;
	random_state ^= random_state << 25;
	random_state ^= random_state >> 27;
	return ((double)((random_state * 0x2545F4914F6CDD1DULL) >> 11) + 0.5) / 9007199254740992.0;
}

static double gaussian(void)
{
	return sqrt(-2.0 * log(uniform())) * cos(2.0 * M_PI * uniform());
}

double voltage_volts(double time_s)
{
	return profile_volts(time_s);
}

/* simavr takes whole millivolts and floors mV*1023/reference. The data sheet's converter rounds
 * V*1024/reference ("ADC Conversion Result", "ADC Accuracy Definitions"). So the true code is worked
 * out here, and simavr is given the smallest millivolts that make it show that code. */
uint32_t voltage_millivolts(double time_s)
{
	double steps = profile_volts(time_s) * 1024.0 * 1000.0 / SUPPLY_MV;

	if (noise_lsb > 0.0)
		steps += noise_lsb * gaussian();
	long code = lround(fmin(fmax(steps, 0.0), 1023.0));
	return (uint32_t)((code * SUPPLY_MV + 1022) / 1023);
}

void voltage_set(double volts)
{
	corners[0] = (struct corner){0.0, volts};
	corner_count = 1;
}

void voltage_read_profile(const char *path)
{
	FILE *file = fopen(path, "r");
	char line[200];
	unsigned number = 0;

	if (!file)
		fail("cannot read the profile %s: %s", path, strerror(errno));
	while (fgets(line, sizeof line, file)) {
		struct corner corner;
		char rest;

		number++;
		if (line[strspn(line, " \t\r\n")] == '\0' || line[0] == '#')
			continue;
		if (sscanf(line, "%lf %lf %c", &corner.time_s, &corner.volts, &rest) != 2)
			fail("%s line %u is not \"time_s volts\"", path, number);
		if (corner_count > 0 && corner.time_s < corners[corner_count - 1].time_s)
			fail("%s line %u: time runs backwards", path, number);
		if (corner_count == MAX_CORNERS)
			fail("%s has more than %d corners", path, MAX_CORNERS);
		corners[corner_count++] = corner;
	}
	fclose(file);
}
