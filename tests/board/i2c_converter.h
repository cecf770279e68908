/* A 16-bit converter of the ADS1115 kind on the emulated board's two-wire bus. */
#ifndef I2C_CONVERTER_H
#define I2C_CONVERTER_H

#include <sim_avr.h>
#include <stdbool.h>

/* Connect it to the bus; it takes the profile's voltage, whose time begins at *start_cycle. */
void i2c_converter_connect(avr_t *avr, const avr_cycle_count_t *start_cycle);

/* Pull it off the bus, or put it back. */
void i2c_converter_plug(bool is_plugged);

#endif
