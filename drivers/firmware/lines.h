/* Text lines of readings. Pure: no registers, so that it is tested on any computer. */
#ifndef LINES_H
#define LINES_H

#include <stdint.h>

#include "reading.h"

#define LINE_MAX_LENGTH 24 /* "4294967295,-2147.4836\r\n" has 23 */

/* Write "millis,volts\r\n" into `line`, without an ending zero, and return its length. Volts always
 * have four decimals, so that a number which lost a digit on its way is seen to be damaged; an
 * overload is the word OL, never a number. */
uint8_t line_of_reading(char line[LINE_MAX_LENGTH], const struct reading *reading);

#endif
