"""What an emulated instrument is: bytes in, bytes out at their times, no port and no clock of its own."""

from __future__ import annotations

from typing import Protocol

__all__ = ["Device", "Unplugged"]


class Unplugged(Exception):
    """The device has been told to vanish from its line at this point."""


class Device(Protocol):
    """An instrument at the far end of a line. Times are seconds of whoever drives it, never going back."""

    def attach(self, now_s: float) -> None:
        """Notice that a program has opened the line."""

    def receive(self, data: bytes, now_s: float) -> None:
        """Take bytes that the program sent."""

    def next_due_s(self) -> float | None:
        """Return when `take` will next have something, or None while only a query would bring it."""

    def take(self, now_s: float) -> bytes:
        """Return the bytes that are on the line by `now_s`, each of them once.

        Raises
        ------
        Unplugged : the device vanishes now; what it had sent before was returned by earlier calls.
        """
