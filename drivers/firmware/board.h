/* What is particular to the board and to this build: change it here or with -D, nowhere else. */
#ifndef BOARD_H
#define BOARD_H

#define FIRMWARE_VERSION 1

#ifndef F_CPU
#define F_CPU 16000000UL /* Hz, the crystal or resonator on the board */
#endif

#ifndef UART_BAUD
#define UART_BAUD 115200UL
#endif

/* Nominal voltage at AVcc, the converter's reference. It is the USB supply and may be off by some
 * per cent: the host corrects it against a trusted meter, the firmware never does, so that raw
 * readings keep one meaning for ever. */
#ifndef REFERENCE_MV
#define REFERENCE_MV 5000
#endif

/* One line each 100 ms. 100 ms holds five whole periods of 50 Hz and six of 60 Hz, so that hum
 * from the mains averages to nothing. Keep to multiples of 100 ms for that. */
#ifndef LINE_PERIOD_MS
#define LINE_PERIOD_MS 100
#endif

#endif
