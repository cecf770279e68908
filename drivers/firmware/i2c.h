/* The two-wire bus, as its only master; interrupts must be on. Every wait has an end: a bus that is stuck, or a
 * device that has gone, must not stop the board. */
#ifndef I2C_H
#define I2C_H

#include <stdbool.h>
#include <stdint.h>

void i2c_begin(void);

/* Write `count` bytes to the device; false if it does not answer. */
bool i2c_write(uint8_t device, const uint8_t *bytes, uint8_t count);

/* Read two bytes, the higher one first; false if the device does not answer. */
bool i2c_read_word(uint8_t device, uint16_t *word);

#endif
