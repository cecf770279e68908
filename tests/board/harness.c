/* A board on the bench that is not there: runs a firmware in an emulated ATmega328P in real time,
 * with its USART0 on a pseudo terminal and a chosen voltage on its converter input A0.
 *
 *     harness firmware.elf [--profile FILE] [--noise-lsb X] [--seed N] [--boot-delay S]
 *                          [--i2c-converter] [--keep-running] [--end-with-stdin]
 *
 * Prints "READY /dev/pts/N". Like a board on USB, it restarts when its port is opened and begins to
 * speak --boot-delay seconds later (default 0.2); with --keep-running it runs from the start and
 * opening changes nothing. What it sends while nobody has the port open is lost, as on a wire.
 *
 * A profile has a line "time_s volts" for each corner; between corners the voltage is linear, and two
 * corners at the same time make a step. Its time begins when the board (re)starts by the port being
 * opened, or with the program when --keep-running. Lines on stdin: "volts X" (from now on, instead of
 * the profile), "reset" (the reset button), "hang" (the main program stops; interrupts go on),
 * "drop N" (the next N packets, up to a zero byte each, get lost on the wire), "unplug converter" and "plug
 * converter" (the 16-bit converter on the two-wire bus, which --i2c-converter puts there).
 * SIGTERM, SIGINT or, with --end-with-stdin, the end of stdin ends it.
 */
#define _GNU_SOURCE
#include <getopt.h>
#include <poll.h>
#include <signal.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#include <avr_adc.h>
#include <avr_uart.h>
#include <sim_avr.h>
#include <sim_elf.h>

#include "harness.h"
#include "i2c_converter.h"
#include "port.h"
#include "voltage.h"

#define CLOCK_HZ 16000000UL
#define SLICE_NS 1000000 /* how long the emulator runs before the program sleeps again */
#define NS_PER_S 1000000000LL
#define RJMP_TO_ITSELF 0xCFFF

struct options {
	const char *elf, *profile;
	double noise_lsb, boot_delay_s;
	uint64_t seed;
	bool i2c_converter, keep_running, end_with_stdin;
};

static struct {
	avr_t *avr;
	void (*core_reset)(avr_t *avr);
	bool powered;
	int64_t start_ns;              /* wall clock at which the emulated cycles below began */
	avr_cycle_count_t start_cycle; /* profile time is counted from here as well */
	avr_flashaddr_t hung_at;       /* where "hang" overwrote the program */
	uint8_t hung_code[2];
	bool is_hung;
	bool may_receive; /* the UART has room for another byte */
	unsigned packets_to_drop;
	bool at_packet_begin, is_dropping;
} board;

static volatile sig_atomic_t must_end;

static void end_on_signal(int number)
{
	(void)number;
	must_end = 1;
}

void fail(const char *format, ...)
{
	va_list arguments;

	va_start(arguments, format);
	fputs("harness: ", stderr);
	vfprintf(stderr, format, arguments);
	fputc('\n', stderr);
	va_end(arguments);
	exit(1);
}

static void on_conversion(avr_irq_t *irq, uint32_t value, void *param)
{
	double time_s = (double)(board.avr->cycle - board.start_cycle) / CLOCK_HZ;

	(void)irq, (void)value, (void)param;
	avr_raise_irq(avr_io_getirq(board.avr, AVR_IOCTL_ADC_GETIRQ, ADC_IRQ_ADC0),
		      voltage_millivolts(time_s));
}

static void on_sent(avr_irq_t *irq, uint32_t byte, void *param)
{
	(void)irq, (void)param;
	if (board.at_packet_begin)
		board.is_dropping = board.packets_to_drop > 0;
	board.at_packet_begin = byte == 0;
	if (board.at_packet_begin && board.is_dropping)
		board.packets_to_drop--;
	if (!board.is_dropping)
		port_send((uint8_t)byte);
}

static void on_room(avr_irq_t *irq, uint32_t value, void *param)
{
	(void)irq, (void)value;
	board.may_receive = param != NULL;
}

static void receive(void)
{
	avr_irq_t *to_board = avr_io_getirq(board.avr, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_INPUT);
	uint8_t bytes[8]; /* about what 115200 baud carries in a slice */
	size_t count = board.may_receive ? port_receive(bytes, sizeof bytes) : 0;

	for (size_t i = 0; i < count; i++)
		avr_raise_irq(to_board, bytes[i]);
}

/* ---- the board ---- */

static int64_t now_ns(void)
{
	struct timespec now;

	clock_gettime(CLOCK_MONOTONIC, &now);
	return now.tv_sec * NS_PER_S + now.tv_nsec;
}

static void log_trouble(avr_t *avr, const int level, const char *format, va_list arguments)
{
	(void)avr;
	if (level == LOG_ERROR)
		vfprintf(stderr, format, arguments);
}

static void no_sleep(avr_t *avr, avr_cycle_count_t cycles)
{
	(void)avr, (void)cycles; /* pacing is done once a slice, in run_slice */
}

static void on_reset(avr_t *avr)
{
	if (board.is_hung)
		memcpy(avr->flash + board.hung_at, board.hung_code, 2);
	board.is_hung = false;
	if (board.core_reset)
		board.core_reset(avr);
}

static void make_board(const char *elf)
{
	static elf_firmware_t firmware;
	uint32_t uart_flags = 0;

	avr_global_logger_set(log_trouble);
	if (access(elf, R_OK) || elf_read_firmware(elf, &firmware))
		fail("cannot read the firmware %s", elf);
	board.avr = avr_make_mcu_by_name("atmega328p");
	if (!board.avr || avr_init(board.avr))
		fail("this simavr has no atmega328p");
	firmware.frequency = CLOCK_HZ;
	firmware.vcc = firmware.avcc = firmware.aref = SUPPLY_MV;
	avr_load_firmware(board.avr, &firmware);
	board.avr->sleep = no_sleep;
	board.core_reset = board.avr->reset;
	board.avr->reset = on_reset;

	/* By default simavr prints what it sends and sleeps when the UART is polled. */
	avr_ioctl(board.avr, AVR_IOCTL_UART_SET_FLAGS('0'), &uart_flags);
	avr_irq_t *uart = avr_io_getirq(board.avr, AVR_IOCTL_UART_GETIRQ('0'), 0);
	avr_irq_register_notify(uart + UART_IRQ_OUTPUT, on_sent, NULL);
	avr_irq_register_notify(uart + UART_IRQ_OUT_XON, on_room, &board);
	avr_irq_register_notify(uart + UART_IRQ_OUT_XOFF, on_room, NULL);
	avr_irq_register_notify(avr_io_getirq(board.avr, AVR_IOCTL_ADC_GETIRQ, ADC_IRQ_OUT_TRIGGER),
				on_conversion, NULL);
}

static void press_reset(void)
{
	avr_reset(board.avr);
	avr_regbit_set(board.avr, board.avr->reset_flags.extrf);
}

static void start_board(int64_t at_ns)
{
	press_reset();
	board.start_ns = at_ns;
	board.start_cycle = board.avr->cycle;
	board.powered = true;
	port_drop();
}

/* Overwrite the instruction at which the sleeping main program will go on with a jump to itself. */
static void hang_board(void)
{
	if (!board.powered || board.is_hung)
		return;
	for (int i = 0; i < 1000000 && board.avr->state != cpu_Sleeping; i++)
		avr_run(board.avr);
	board.hung_at = board.avr->pc;
	memcpy(board.hung_code, board.avr->flash + board.hung_at, 2);
	board.avr->flash[board.hung_at] = RJMP_TO_ITSELF & 0xFF;
	board.avr->flash[board.hung_at + 1] = RJMP_TO_ITSELF >> 8;
	board.is_hung = true;
}

static void obey(const char *line)
{
	double volts;
	unsigned packets;

	if (sscanf(line, "volts %lf", &volts) == 1)
		voltage_set(volts);
	else if (strcmp(line, "reset") == 0)
		press_reset();
	else if (strcmp(line, "hang") == 0)
		hang_board();
	else if (sscanf(line, "drop %u", &packets) == 1)
		board.packets_to_drop = packets;
	else if (strcmp(line, "unplug converter") == 0)
		i2c_converter_plug(false);
	else if (strcmp(line, "plug converter") == 0)
		i2c_converter_plug(true);
	else
		fprintf(stderr, "harness: not understood: %s\n", line);
}

/* Return false at the end of stdin. */
static bool read_commands(void)
{
	static char line[200];
	static size_t length;
	char byte;
	struct pollfd input_ready = {.fd = STDIN_FILENO, .events = POLLIN};

	while (poll(&input_ready, 1, 0) > 0 && input_ready.revents & (POLLIN | POLLHUP)) {
		if (read(STDIN_FILENO, &byte, 1) != 1)
			return false;
		if (byte != '\n' && length < sizeof line - 1) {
			line[length++] = byte;
		} else {
			line[length] = '\0';
			length = 0;
			obey(line);
		}
	}
	return true;
}

/* Run the emulator up to the wall clock, then sleep out the slice: a core is busy only for the
 * instructions that the board really executes. */
static void run_slice(int64_t slice_end_ns)
{
	struct timespec until = {slice_end_ns / NS_PER_S, slice_end_ns % NS_PER_S};

	clock_nanosleep(CLOCK_MONOTONIC, TIMER_ABSTIME, &until, NULL);
	if (!board.powered || now_ns() < board.start_ns)
		return;
	avr_cycle_count_t due =
		board.start_cycle + (avr_cycle_count_t)(now_ns() - board.start_ns) * (CLOCK_HZ / 1000000) / 1000;
	while (board.avr->cycle < due && !must_end) {
		int state = avr_run(board.avr);

		if (state == cpu_Done || state == cpu_Crashed)
			fail("the firmware crashed at 0x%04x", board.avr->pc);
	}
}

/* ---- the program ---- */

static struct options parse(int count, char **words)
{
	static const struct option known[] = {
		{"profile", required_argument, NULL, 'p'},    {"noise-lsb", required_argument, NULL, 'n'},
		{"seed", required_argument, NULL, 's'},	      {"boot-delay", required_argument, NULL, 'b'},
		{"i2c-converter", no_argument, NULL, 'i'},
		{"keep-running", no_argument, NULL, 'k'},     {"end-with-stdin", no_argument, NULL, 'e'},
		{NULL, 0, NULL, 0},
	};
	struct options options = {.boot_delay_s = 0.2, .seed = 1};
	int key;

	while ((key = getopt_long(count, words, "", known, NULL)) != -1) {
		switch (key) {
		case 'p': options.profile = optarg; break;
		case 'n': options.noise_lsb = atof(optarg); break;
		case 's': options.seed = strtoull(optarg, NULL, 10); break;
		case 'b': options.boot_delay_s = atof(optarg); break;
		case 'i': options.i2c_converter = true; break;
		case 'k': options.keep_running = true; break;
		case 'e': options.end_with_stdin = true; break;
		default: exit(2);
		}
	}
	if (optind != count - 1) {
		fputs("harness: name one firmware file\n", stderr);
		exit(2);
	}
	options.elf = words[optind];
	return options;
}

int main(int count, char **words)
{
	struct options options = parse(count, words);
	struct sigaction end = {.sa_handler = end_on_signal};
	bool has_commands = true;

	sigaction(SIGTERM, &end, NULL);
	sigaction(SIGINT, &end, NULL);
	voltage_set_noise(options.noise_lsb, options.seed);
	if (options.profile)
		voltage_read_profile(options.profile);
	make_board(options.elf);
	if (options.i2c_converter)
		i2c_converter_connect(board.avr, &board.start_cycle);
	const char *name = port_open();
	if (options.keep_running)
		start_board(now_ns());
	printf("READY %s\n", name);
	fflush(stdout);

	for (int64_t next_ns = now_ns(); !must_end; next_ns += SLICE_NS) {
		if (next_ns < now_ns() - SLICE_NS)
			next_ns = now_ns(); /* the computer was busy: the board catches up, the pacing need not */
		run_slice(next_ns);
		if (port_was_opened() && !options.keep_running)
			start_board(now_ns() + (int64_t)(options.boot_delay_s * NS_PER_S));
		receive();
		port_deliver();
		if (has_commands && !read_commands()) {
			has_commands = false;
			if (options.end_with_stdin)
				break;
		}
	}
	if (port_lost() > 0)
		fprintf(stderr, "harness: %lu bytes were not read in time and are lost\n", port_lost());
	return 0;
}
