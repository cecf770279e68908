/* The pseudo terminal that stands for the board's USB port. */
#define _GNU_SOURCE
#include "port.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/inotify.h>
#include <termios.h>
#include <unistd.h>

#include "harness.h"

static int master_fd;
static int watch_fd; /* tells when the other end is opened and closed */
static int readers;  /* how many have it open now */
static uint8_t outgoing[4096];
static size_t waiting;
static unsigned long lost;

const char *port_open(void)
{
	struct termios line;
	int slave_fd;
	const char *name;

	master_fd = posix_openpt(O_RDWR | O_NOCTTY | O_CLOEXEC);
	if (master_fd < 0 || grantpt(master_fd) || unlockpt(master_fd))
		fail("cannot make a pseudo terminal: %s", strerror(errno));
	name = ptsname(master_fd);
	slave_fd = open(name, O_RDWR | O_NOCTTY | O_CLOEXEC);
	if (slave_fd < 0 || tcgetattr(slave_fd, &line))
		fail("cannot open %s: %s", name, strerror(errno));
	/* Raw before anybody opens it: in the usual mode early bytes are echoed back to the board and
	 * carriage returns altered. */
	cfmakeraw(&line);
	if (tcsetattr(slave_fd, TCSANOW, &line))
		fail("cannot set %s to raw: %s", name, strerror(errno));
	close(slave_fd);
	fcntl(master_fd, F_SETFL, O_NONBLOCK);
	/* Watched as a file: a hang-up on the master side would not show a reader who closes and opens
	 * again at once. */
	watch_fd = inotify_init1(IN_NONBLOCK | IN_CLOEXEC);
	if (watch_fd < 0 || inotify_add_watch(watch_fd, name, IN_OPEN | IN_CLOSE) < 0)
		fail("cannot watch %s: %s", name, strerror(errno));
	return name;
}

bool port_was_opened(void)
{
	struct inotify_event event; /* a watched file that is no folder has no name in its events */
	bool was_opened = false;

	while (read(watch_fd, &event, sizeof event) == sizeof event) {
		if (event.mask & IN_CLOSE)
			readers--;
		if (event.mask & IN_OPEN && readers++ == 0)
			was_opened = true;
	}
	return was_opened;
}

void port_send(uint8_t byte)
{
	if (waiting < sizeof outgoing)
		outgoing[waiting++] = byte;
	else
		lost++;
}

void port_deliver(void)
{
	ssize_t written;

	if (readers > 0 && waiting > 0) {
		written = write(master_fd, outgoing, waiting);
		lost += waiting - (size_t)(written < 0 ? 0 : written);
	}
	waiting = 0;
}

void port_drop(void)
{
	waiting = 0;
}

size_t port_receive(uint8_t *bytes, size_t limit)
{
	ssize_t count = readers > 0 ? read(master_fd, bytes, limit) : 0;

	return count < 0 ? 0 : (size_t)count;
}

unsigned long port_lost(void)
{
	return lost;
}
