/* Registers, ranges, rates and the byte order on the bus are those of the converter's data sheet (SBAS444). */
#include "i2c_converter.h"

#include <avr_twi.h>
#include <math.h>
#include <stddef.h>
#include <stdint.h>

#include "voltage.h"

#define ADDRESS 0x48
#define CLOCK_HZ 16000000.0

static const double full_scale_V[8] = {6.144, 4.096, 2.048, 1.024, 0.512, 0.256, 0.256, 0.256};
static const double rate_per_s[8] = {8, 16, 32, 64, 128, 250, 475, 860};

static struct {
	avr_t *avr;
	avr_irq_t *to_board;
	const avr_cycle_count_t *start_cycle;
	bool is_plugged, is_selected, has_pointer;
	uint8_t pointer, bytes_written, bytes_read;
	uint16_t config, conversion, written;
	avr_cycle_count_t ready_at; /* when the conversion that runs is over */
	int16_t next_code;
} device = {.is_plugged = true, .config = 0x8583};

static void finish_if_over(void)
{
	if (device.avr->cycle >= device.ready_at)
		device.conversion = (uint16_t)device.next_code;
}

/* It measures from now on for 1/rate: the voltage at the middle counts. */
static void start_conversion(void)
{
	double conversion_s = 1.0 / rate_per_s[device.config >> 5 & 7];
	double now_s = (double)(device.avr->cycle - *device.start_cycle) / CLOCK_HZ;
	double codes = voltage_volts(now_s + conversion_s / 2) / full_scale_V[device.config >> 9 & 7] * 32768.0;

	device.next_code = (int16_t)lround(fmin(fmax(codes, -32768.0), 32767.0));
	device.ready_at = device.avr->cycle + (avr_cycle_count_t)(conversion_s * CLOCK_HZ);
}

static void answer(uint8_t message, uint8_t data)
{
	avr_raise_irq(device.to_board, avr_twi_irq_msg(message, ADDRESS << 1, data));
}

static void take_byte(uint8_t byte)
{
	if (device.bytes_written == 0)
		device.pointer = byte & 3;
	else
		device.written = (uint16_t)(device.written << 8 | byte);
	if (++device.bytes_written == 3 && device.pointer == 1) {
		device.config = device.written;
		if (device.config & 0x8000)
			start_conversion();
	}
}

static uint8_t next_byte(void)
{
	uint16_t word;

	finish_if_over();
	word = device.pointer == 0 ? device.conversion : device.config;
	return (uint8_t)(device.bytes_read++ % 2 == 0 ? word >> 8 : word);
}

static void on_bus(avr_irq_t *irq, uint32_t value, void *param)
{
	avr_twi_msg_irq_t message = {.u.v = value};

	(void)irq, (void)param;
	if (message.u.twi.msg & TWI_COND_STOP)
		device.is_selected = false;
	if (message.u.twi.msg & TWI_COND_START) {
		device.is_selected = device.is_plugged && message.u.twi.addr >> 1 == ADDRESS;
		device.bytes_written = device.bytes_read = 0;
		if (device.is_selected)
			answer(TWI_COND_ACK, 1);
	}
	if (!device.is_selected || !device.is_plugged)
		return;
	if (message.u.twi.msg & TWI_COND_WRITE) {
		answer(TWI_COND_ACK, 1);
		take_byte(message.u.twi.data);
	}
	if (message.u.twi.msg & TWI_COND_READ)
		answer(TWI_COND_READ, next_byte());
}

void i2c_converter_connect(avr_t *avr, const avr_cycle_count_t *start_cycle)
{
	device.avr = avr;
	device.start_cycle = start_cycle;
	device.to_board = avr_io_getirq(avr, AVR_IOCTL_TWI_GETIRQ(0), TWI_IRQ_INPUT);
	avr_irq_register_notify(avr_io_getirq(avr, AVR_IOCTL_TWI_GETIRQ(0), TWI_IRQ_OUTPUT), on_bus, NULL);
}

void i2c_converter_plug(bool is_plugged)
{
	device.is_plugged = is_plugged;
}
