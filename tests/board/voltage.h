/* The voltage at the converter's input, and what the converter makes of it. */
#ifndef VOLTAGE_H
#define VOLTAGE_H

#include <stdint.h>

#define SUPPLY_MV 5000

/* Read corners from a file (its form: harness.c); ends the program on a fault in it. */
void voltage_read_profile(const char *path);

/* From now on a constant voltage, instead of a profile. */
void voltage_set(double volts);

/* Gaussian noise added to each conversion, in steps of the converter (1/1024 of the supply). */
void voltage_set_noise(double steps, uint64_t seed);

/* What to give simavr for one conversion at profile time `time_s`. Draws new noise at each call. */
uint32_t voltage_millivolts(double time_s);

/* The voltage at profile time `time_s` itself, without noise. */
double voltage_volts(double time_s);

#endif
