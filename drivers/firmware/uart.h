/* Sending over USART0, 8 data bits, no parity, 1 stop bit, from a ring buffer by interrupt. */
#ifndef UART_H
#define UART_H

#include <avr/pgmspace.h>
#include <stdbool.h>
#include <stdint.h>

void uart_begin(void);

/* Queue all `count` bytes and return true, or, when there is no room for all, none and return
 * false: half a line could be read as another number. */
bool uart_send(const char *bytes, uint8_t count);

/* Queue a text from program memory, waiting for room. Interrupts must be on. */
void uart_send_text_P(PGM_P text);

#endif
