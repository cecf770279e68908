"""Turns what a port throws into the errors of this floor, with the remedy for people.

The texts of the causes were seen on pyserial 3.5 (Linux by trial; macOS and Windows from its issue
threads); the remedies are those of common practice.
"""

from __future__ import annotations

import errno
import os
import re
from datetime import datetime

import serial

from drivers.errors import CannotOpen, NotReadable, SourceLost

__all__ = ["PORT_ERRORS", "another_device", "cannot_open", "source_lost"]

try:  # POSIX only; its error is no OSError, and pyserial lets it through
    import termios

    _TERMINAL_ERRORS: tuple[type[Exception], ...] = (termios.error,)
except ImportError:
    _TERMINAL_ERRORS = ()

PORT_ERRORS: tuple[type[Exception], ...] = (
    serial.SerialException,
    OSError,
    TypeError,  # pyserial after a close from elsewhere: its handle is None
    ValueError,  # a URL or a speed that pyserial does not take
    *_TERMINAL_ERRORS,
)
"""Everything that opening, reading or writing a port was seen to raise."""

_ERRNO_IN_TEXT = re.compile(r"Errno (-?\d+)|Error\((\d+)|WinError (\d+)|: \((\d+), ")
_NUMBER_OF_ERROR = re.compile(r"\[(?:Errno|WinError) -?\d+\] ?")
_BUSY = (errno.EAGAIN, errno.EBUSY, errno.EWOULDBLOCK)
_NAME_UNKNOWN = re.compile(r"name or service|nodename|getaddrinfo|name resolution", re.IGNORECASE)
_GONE = "returned no data"  # pyserial, POSIX: the descriptor is readable for ever and empty


def cannot_open(port: str, baud: int, error: Exception) -> CannotOpen:
    """Return the `CannotOpen` that tells a person why `port` did not open and what to do."""
    return CannotOpen(_opening_text(port, baud, error))


def another_device(port: str) -> NotReadable:
    """Return the error for a port at which another adapter is now than the one that was there."""
    return NotReadable(
        f"On {port} is now another device than the one this run was begun with. Plug that one in again, or "
        "end the run and begin a new one."
    )


def source_lost(port: str, error: Exception) -> SourceLost:
    """Return the `SourceLost` for an error while reading or writing `port`."""
    seen = _NUMBER_OF_ERROR.sub("", str(error))  # it stands on the wall, before a class
    at = datetime.now().astimezone().strftime("%H:%M:%S")
    if _GONE in str(error) and os.path.exists(port):
        return SourceLost(
            f"{port} stopped at {at}: it is still there but gives no data ({seen}). Either the instrument "
            "was disconnected, or another program is reading the port at the same time: close it (serial "
            "monitors, modem manager)."
        )
    if isinstance(error, serial.SerialTimeoutException):
        return SourceLost(
            f"The instrument on {port} takes no bytes since {at} ({seen}). Is it switched on, and is its "
            "flow control off?"
        )
    if "://" in port:
        return SourceLost(
            f"The connection to {port} ended at {at} ({seen}). Everything up to then is kept. Start the "
            "program at the other end again."
        )
    if _GONE in str(error):  # says no more than that the port is gone
        return SourceLost(
            f"The instrument on {port} was disconnected at {at}. Everything up to then is kept. "
            "Plug it in again."
        )
    return SourceLost(
        f"The instrument on {port} was disconnected at {at} ({seen}). Everything up to then is kept. "
        "Plug it in again."
    )


def _opening_text(port: str, baud: int, error: Exception) -> str:
    number, seen = _errno_of(error), str(error)
    if "://" in port:
        return _network_text(port, number, seen)
    if number == errno.ENOENT:
        return f"{port} is not there. Plug in the cable or choose another port."
    if number in _BUSY or (number == errno.EACCES and os.name == "nt"):
        return (
            f"{port} is in use by another program. Close it: a serial monitor, or a second copy of this one."
        )
    if number == errno.EACCES:
        return (
            f"You may not use {port} yet. Run: sudo usermod -aG dialout $USER (on Arch: uucp), "
            "then log out and in."
        )
    if number in (errno.ENOTTY, errno.EISDIR):
        return f"{port} is not a serial port. Choose another port."
    if number == errno.EIO:
        return f"{port} exists, but no device is behind it. Plug in the cable or choose another port."
    if "baud" in seen.lower():
        return (
            f"{port} does not take {baud} baud ({seen}). Choose the speed that the instrument's manual names."
        )
    return f"{port} could not be opened: {seen}. Check the cable, or choose another port."


def _network_text(port: str, number: int | None, seen: str) -> str:
    if "protocol" in seen and "not known" in seen:
        return (
            f"{port}: this kind of link is not known. Use a device, socket://HOST:PORT or rfc2217://HOST:PORT"
        )
    if number in (errno.ECONNREFUSED, 10061):
        return (
            f"Nobody is listening at {port}. Start the serial server or emulator there, or check the number."
        )
    if "'<=' not supported" in seen or "debug|info" in seen:
        return f"{port}: the number of the port is missing or impossible. It reads socket://HOST:PORT."
    if _NAME_UNKNOWN.search(seen):
        return f"{port}: that host is not known here. Check its name, or write its number."
    if "timed out" in seen or number in (errno.ETIMEDOUT, errno.EHOSTUNREACH, errno.ENETUNREACH, 10060):
        return f"{port} does not answer. Is that computer on, and on the same network?"
    return f"{port} could not be opened: {seen}. Check the address; it reads socket://HOST:PORT."


def _errno_of(error: Exception) -> int | None:
    """Find the system's error number, which pyserial often keeps only inside its text."""
    if isinstance(error, OSError) and error.errno is not None:
        return error.errno
    if isinstance(error, _TERMINAL_ERRORS) and error.args and isinstance(error.args[0], int):
        return error.args[0]
    found = _ERRNO_IN_TEXT.search(str(error))
    return int(next(filter(None, found.groups()))) if found else None
