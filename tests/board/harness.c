/* A board on the bench that is not there: runs a firmware in an emulated ATmega328P in real time,
 * with its USART0 on a pseudo terminal and a chosen voltage on its converter input A0.
 *
 *     harness firmware.elf [--profile FILE] [--noise-lsb X] [--seed N] [--boot-delay S]
 *                          [--keep-running] [--end-with-stdin]
 *
 * Prints "READY /dev/pts/N". Like a board on USB, it restarts when its port is opened and begins to
 * speak --boot-delay seconds later (default 0.2); with --keep-running it runs from the start and
 * opening changes nothing. What it sends while nobody has the port open is lost, as on a wire.
 *
 * A profile has a line "time_s volts" for each corner; between corners the voltage is linear, and two
 * corners at the same time make a step. Its time begins when the board (re)starts by the port being
 * opened, or with the program when --keep-running. Lines on stdin: "volts X" (from now on, instead of
 * the profile), "reset" (the reset button), "hang" (the main program stops; interrupts go on).
 * SIGTERM, SIGINT or, with --end-with-stdin, the end of stdin ends it.
 */
#define _GNU_SOURCE
#include <errno.h>
#include <fcntl.h>
#include <getopt.h>
#include <math.h>
#include <poll.h>
#include <signal.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/inotify.h>
#include <termios.h>
#include <time.h>
#include <unistd.h>

#include <avr_adc.h>
#include <avr_uart.h>
#include <sim_avr.h>
#include <sim_elf.h>

#define CLOCK_HZ 16000000UL
#define SUPPLY_MV 5000
#define SLICE_NS 1000000 /* how long the emulator runs before the program sleeps again */
#define NS_PER_S 1000000000LL
#define MAX_CORNERS 1000
#define RJMP_TO_ITSELF 0xCFFF

struct corner {
	double time_s, volts;
};

struct options {
	const char *elf, *profile;
	double noise_lsb, boot_delay_s;
	uint64_t seed;
	bool keep_running, end_with_stdin;
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
} board;

static struct {
	struct corner corners[MAX_CORNERS];
	size_t count;
	double noise_lsb;
	uint64_t random_state;
} input;

static struct {
	int master_fd;
	int watch_fd; /* tells when the other end is opened and closed */
	int readers;  /* how many have it open now */
	bool may_receive;
	uint8_t outgoing[4096];
	size_t waiting;
	unsigned long lost;
} port;

static volatile sig_atomic_t must_end;

static void end_on_signal(int number)
{
	(void)number;
	must_end = 1;
}

static void fail(const char *format, ...)
{
	va_list arguments;

	va_start(arguments, format);
	fputs("harness: ", stderr);
	vfprintf(stderr, format, arguments);
	fputc('\n', stderr);
	va_end(arguments);
	exit(1);
}

/* ---- the voltage on A0 ---- */

static double profile_volts(double time_s)
{
	size_t i;

	if (input.count == 0)
		return 0.0;
	/* The last corner at or before the time: of two at the same time the later one counts. */
	for (i = input.count; i > 0 && input.corners[i - 1].time_s > time_s; i--)
		;
	if (i == 0)
		return input.corners[0].volts;
	if (i == input.count)
		return input.corners[i - 1].volts;
	struct corner a = input.corners[i - 1], b = input.corners[i];
	return a.volts + (b.volts - a.volts) * (time_s - a.time_s) / (b.time_s - a.time_s);
}

static double uniform(void)
{
	/* xorshift64* (S. Vigna, ACM TOMS 42 (2016) 30); never exactly zero, for the logarithm below */
	input.random_state ^= input.random_state >> 12;
	input.random_state ^= input.random_state << 25;
	input.random_state ^= input.random_state >> 27;
	return ((double)((input.random_state * 0x2545F4914F6CDD1DULL) >> 11) + 0.5) / 9007199254740992.0;
}

static double gaussian(void)
{
	return sqrt(-2.0 * log(uniform())) * cos(2.0 * M_PI * uniform());
}

/* simavr takes whole millivolts and floors mV*1023/reference. The data sheet's converter rounds
 * V*1024/reference ("ADC Conversion Result", "ADC Accuracy Definitions"). So the true code is worked
 * out here, and simavr is given the smallest millivolts that make it show that code. */
static uint32_t millivolts_for(double volts)
{
	double steps = volts * 1024.0 * 1000.0 / SUPPLY_MV;

	if (input.noise_lsb > 0.0)
		steps += input.noise_lsb * gaussian();
	long code = lround(fmin(fmax(steps, 0.0), 1023.0));
	return (uint32_t)((code * SUPPLY_MV + 1022) / 1023);
}

static void on_conversion(avr_irq_t *irq, uint32_t value, void *param)
{
	double time_s = (double)(board.avr->cycle - board.start_cycle) / CLOCK_HZ;

	(void)irq, (void)value, (void)param;
	avr_raise_irq(avr_io_getirq(board.avr, AVR_IOCTL_ADC_GETIRQ, ADC_IRQ_ADC0),
		      millivolts_for(profile_volts(time_s)));
}

static void set_volts(double volts)
{
	input.corners[0] = (struct corner){0.0, volts};
	input.count = 1;
}

static void read_profile(const char *path)
{
	FILE *file = fopen(path, "r");
	char line[200];
	unsigned number = 0;

	if (!file)
		fail("cannot read the profile %s: %s", path, strerror(errno));
	while (fgets(line, sizeof line, file)) {
		struct corner corner;
		char rest;

		number++;
		if (line[strspn(line, " \t\r\n")] == '\0' || line[0] == '#')
			continue;
		if (sscanf(line, "%lf %lf %c", &corner.time_s, &corner.volts, &rest) != 2)
			fail("%s line %u is not \"time_s volts\"", path, number);
		if (input.count > 0 && corner.time_s < input.corners[input.count - 1].time_s)
			fail("%s line %u: time runs backwards", path, number);
		if (input.count == MAX_CORNERS)
			fail("%s has more than %d corners", path, MAX_CORNERS);
		input.corners[input.count++] = corner;
	}
	fclose(file);
}

/* ---- the pseudo terminal ---- */

static const char *open_port(void)
{
	struct termios line;
	int slave_fd;
	const char *name;

	port.master_fd = posix_openpt(O_RDWR | O_NOCTTY | O_CLOEXEC);
	if (port.master_fd < 0 || grantpt(port.master_fd) || unlockpt(port.master_fd))
		fail("cannot make a pseudo terminal: %s", strerror(errno));
	name = ptsname(port.master_fd);
	slave_fd = open(name, O_RDWR | O_NOCTTY | O_CLOEXEC);
	if (slave_fd < 0 || tcgetattr(slave_fd, &line))
		fail("cannot open %s: %s", name, strerror(errno));
	/* Raw before anybody opens it: in the usual mode early bytes are echoed back to the board and
	 * carriage returns altered. */
	cfmakeraw(&line);
	if (tcsetattr(slave_fd, TCSANOW, &line))
		fail("cannot set %s to raw: %s", name, strerror(errno));
	close(slave_fd);
	fcntl(port.master_fd, F_SETFL, O_NONBLOCK);
	/* Watched as a file: a hang-up on the master side would not show a reader who closes and opens
	 * again at once. */
	port.watch_fd = inotify_init1(IN_NONBLOCK | IN_CLOEXEC);
	if (port.watch_fd < 0 || inotify_add_watch(port.watch_fd, name, IN_OPEN | IN_CLOSE) < 0)
		fail("cannot watch %s: %s", name, strerror(errno));
	return name;
}

static void on_sent(avr_irq_t *irq, uint32_t byte, void *param)
{
	(void)irq, (void)param;
	if (port.waiting < sizeof port.outgoing)
		port.outgoing[port.waiting++] = (uint8_t)byte;
	else
		port.lost++;
}

static void on_room(avr_irq_t *irq, uint32_t value, void *param)
{
	(void)irq, (void)value;
	port.may_receive = param != NULL;
}

/* Nobody there, or a reader that does not read: the bytes are gone, as on a wire without handshake.
 * Keeping them would hand a later reader the voltages of the past. */
static void deliver(void)
{
	ssize_t written = 0;

	if (port.readers > 0 && port.waiting > 0) {
		written = write(port.master_fd, port.outgoing, port.waiting);
		if (written < 0)
			written = 0;
		port.lost += port.waiting - (size_t)written;
	}
	port.waiting = 0;
}

static void receive(void)
{
	avr_irq_t *to_board = avr_io_getirq(board.avr, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_INPUT);
	uint8_t bytes[8]; /* about what 115200 baud carries in a slice */
	ssize_t count = port.may_receive ? read(port.master_fd, bytes, sizeof bytes) : 0;

	for (ssize_t i = 0; i < count; i++)
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
	avr_irq_register_notify(uart + UART_IRQ_OUT_XON, on_room, &port);
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
	port.waiting = 0;
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

	if (sscanf(line, "volts %lf", &volts) == 1)
		set_volts(volts);
	else if (strcmp(line, "reset") == 0)
		press_reset();
	else if (strcmp(line, "hang") == 0)
		hang_board();
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

static void watch_port(const struct options *options)
{
	struct inotify_event event; /* a watched file that is no folder has no name in its events */

	while (read(port.watch_fd, &event, sizeof event) == sizeof event) {
		if (event.mask & IN_CLOSE)
			port.readers--;
		if (event.mask & IN_OPEN && port.readers++ == 0 && !options->keep_running)
			start_board(now_ns() + (int64_t)(options->boot_delay_s * NS_PER_S));
	}
	if (port.readers > 0)
		receive();
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
	input.noise_lsb = options.noise_lsb;
	input.random_state = options.seed * 0x9E3779B97F4A7C15ULL | 1; /* xorshift must not start at 0 */
	if (options.profile)
		read_profile(options.profile);
	make_board(options.elf);
	const char *name = open_port();
	if (options.keep_running)
		start_board(now_ns());
	printf("READY %s\n", name);
	fflush(stdout);

	for (int64_t next_ns = now_ns(); !must_end; next_ns += SLICE_NS) {
		if (next_ns < now_ns() - SLICE_NS)
			next_ns = now_ns(); /* the computer was busy: the board catches up, the pacing need not */
		run_slice(next_ns);
		watch_port(&options);
		deliver();
		if (has_commands && !read_commands()) {
			has_commands = false;
			if (options.end_with_stdin)
				break;
		}
	}
	if (port.lost > 0)
		fprintf(stderr, "harness: %lu bytes were not read in time and are lost\n", port.lost);
	return 0;
}
