/* The pseudo terminal that stands for the board's USB port. */
#ifndef PORT_H
#define PORT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* Make the pseudo terminal and return the name under which readers open it. */
const char *port_open(void);

/* Whether a reader has opened the port, which nobody had open, since the last call. */
bool port_was_opened(void);

/* A byte from the board; kept until port_deliver. */
void port_send(uint8_t byte);

/* Hand the bytes kept to the reader. With nobody there, or a reader that does not read, they are gone, as
 * on a wire without handshake: keeping them would hand a later reader the voltages of the past. */
void port_deliver(void);

/* Forget the bytes kept: the board was switched off under them. */
void port_drop(void);

/* Bytes from the reader for the board, at most `limit`; return how many there were. */
size_t port_receive(uint8_t *bytes, size_t limit);

/* How many bytes a reader who had the port open was too slow to take. */
unsigned long port_lost(void);

#endif
