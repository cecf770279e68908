#include "uart.h"

#include <avr/interrupt.h>
#include <avr/io.h>

#include "board.h"

/* Double speed (U2X0) comes nearest to 115200 from 16 MHz: UBRR0 = 16 gives 117647, +2.1 %. That is
 * what the data sheet's "Examples of UBRRn Settings" lists, and within its limits for 8 data bits. */
#define UBRR_SETTING ((F_CPU + 4UL * UART_BAUD) / (8UL * UART_BAUD) - 1UL)
#define TRUE_BAUD (F_CPU / (8UL * (UBRR_SETTING + 1UL)))

_Static_assert(TRUE_BAUD * 1000UL / UART_BAUD <= 1025UL && TRUE_BAUD * 1000UL / UART_BAUD >= 975UL,
	       "this clock cannot make this baud rate within 2.5 %");

/* 256 bytes, so that the index wraps by itself; one place stays free to tell full from empty. */
static char ring[256];
static volatile uint8_t ring_head; /* next place to fill, moved by the main program only */
static volatile uint8_t ring_tail; /* next byte to send, moved by the interrupt only */

ISR(USART_UDRE_vect)
{
	/* Asked before sending, not after: put() may switch this interrupt on again just after the byte
	 * it queued has already gone. */
	if (ring_tail == ring_head)
		UCSR0B &= (uint8_t)~_BV(UDRIE0); /* else it would be called again at once, for ever */
	else
		UDR0 = (uint8_t)ring[ring_tail++];
}

void uart_begin(void)
{
	UBRR0 = UBRR_SETTING;
	UCSR0A = _BV(U2X0);
	UCSR0C = _BV(UCSZ01) | _BV(UCSZ00);
	UCSR0B = _BV(TXEN0); /* no receiver: nothing that a port scan sends can disturb the board */
}

static uint8_t room(void)
{
	return (uint8_t)(ring_tail - ring_head - 1);
}

static void put(char byte)
{
	ring[ring_head] = byte;
	ring_head++;
	UCSR0B |= _BV(UDRIE0);
}

bool uart_send(const char *bytes, uint8_t count)
{
	if (room() < count)
		return false;
	while (count--)
		put(*bytes++);
	return true;
}

void uart_send_text_P(PGM_P text)
{
	char byte;

	while ((byte = (char)pgm_read_byte(text++)) != '\0') {
		while (room() == 0)
			;
		put(byte);
	}
}
