#ifndef HARNESS_H
#define HARNESS_H

/* Say on stderr what went wrong and end the program with status 1. */
__attribute__((format(printf, 1, 2), noreturn)) void fail(const char *format, ...);

#endif
