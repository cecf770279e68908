"""Question and answer with a SCPI meter: one query at a time, and never the answer to another one.

Answers carry no number, so an answer that comes too late looks exactly like the answer to the next query.
After anything unexpected the dialogue therefore asks something whose answer cannot be taken for a reading
(``*IDN?`` or ``SYST:ERR?``) and throws away every line before that answer. A meter sends answers in the
order of the queries, so no reading can be left over once it has come.
"""

from __future__ import annotations

import contextlib
from collections.abc import Callable
from typing import NamedTuple

from drivers.errors import SourceLost
from drivers.formats.scpi import AnswerLines, parse_error, parse_reading
from drivers.link import Link
from drivers.run_clock import RunClock

__all__ = ["QUIET_S", "SIDE_WAIT_S", "Answer", "Dialogue"]

QUIET_S = 0.3
"""Silence after which nothing more of an earlier answer is expected (host seconds)."""

SIDE_WAIT_S = 1.0
"""How long to wait for what needs no measurement (host seconds)."""

_OBEYS_ITS_KEYS = (550, -203)  # makers' code (from memory); SCPI-1999: command protected
_LineTest = Callable[[bytes], bool]
_COMMAS_OF_AN_IDENTITY = 2  # of four fields, one comma lost; an error's answer has one
_SETTLE_LIMIT_S = 2.0
_STRAY_BLANKS = b"\r\n\x11\x13\x00 "


class Answer(NamedTuple):
    """An answer line, when the query had left, and when the line's last byte arrived (run seconds)."""

    line: bytes
    sent_s: float
    arrived_s: float


class Dialogue:
    """Commands and queries over an open link.

    `has_echo` tells that the line repeats commands; `is_in_step` that the next line to come can only be
    the answer to the next query; `has_taken_over` that ``SYST:REM`` was sent.

    Parameters
    ----------
    link : open; owned by the caller.
    clock : the run's clock, the one the link was opened with.
    """

    def __init__(self, link: Link, clock: RunClock) -> None:
        self.has_echo = False
        self.is_in_step = False
        self.has_taken_over = False
        self._link = link
        self._clock = clock
        self._lines = AnswerLines()
        self._identity: bytes | None = None
        self._answers_errors = False

    def tell(self, command: str) -> None:
        """Send a command that has no answer."""
        self._link.write(command.encode("ascii") + b"\n")

    def ask(self, query: str, wait_s: float) -> Answer | None:
        """Send `query` and return its answer, or None if none came within `wait_s` host seconds.

        Afterwards `is_in_step` is false if no answer came, or more than one line of it.
        """
        self.watch(0.0)
        self._lines.reset()
        sent_s = self._link.write(query.encode("ascii") + b"\n")
        deadline_s = sent_s + wait_s * self._clock.speed
        may_be_echo = True
        while (left_s := self._left_s(deadline_s)) > 0:
            data, time_s = self._link.read(left_s)
            lines = self._lines.feed(data)
            if lines and may_be_echo:
                may_be_echo = False
                if lines[0].strip().upper() == query.encode("ascii").upper():
                    self.has_echo = True
                    lines = lines[1:]
            if lines:
                if len(lines) > 1 or self._lines.has_partial:
                    self.is_in_step = False
                return Answer(lines[0], sent_s, time_s)
        self.is_in_step = False
        return None

    def watch(self, wait_s: float) -> None:
        """Listen for `wait_s` host seconds while nothing was asked; what comes then puts us out of step."""
        deadline_s = self._clock.now_s() + wait_s * self._clock.speed
        while True:
            stray = self._link.read(max(self._left_s(deadline_s), 0.0)).data
            if stray.strip(_STRAY_BLANKS):
                self.is_in_step = False
            if not stray and self._left_s(deadline_s) <= 0:
                return

    def settle(self, quiet_s: float = QUIET_S) -> bool:
        """Read and throw away until nothing has come for `quiet_s` host seconds.

        Returns whether it fell silent; a line that talks for 2 s without being asked does not.
        """
        limit_s = self._clock.now_s() + max(_SETTLE_LIMIT_S, 2 * quiet_s) * self._clock.speed
        while self._clock.now_s() < limit_s:
            if not self._link.read(quiet_s).data:
                return True
        return False

    def identify(self, wait_s: float) -> str:
        """Ask ``*IDN?`` and return the identity verbatim, "" if none came within `wait_s` host seconds.

        A line without a comma (a banner), or one that is a reading (a late answer), is no identity:
        IEEE 488.2 section 10.14 wants four fields.
        """
        line = self._ask_until("*IDN?", wait_s, lambda line: b"," in line and parse_reading(line).is_misfit)
        if line is None:
            return ""
        self._identity = line
        return line.decode("ascii", errors="replace").strip()

    def oldest_error(self, wait_s: float) -> tuple[int, str] | None:
        """Ask ``SYST:ERR?``; None if the meter does not answer that within `wait_s` host seconds."""
        line = self._ask_until("SYST:ERR?", wait_s, lambda line: parse_error(line) is not None)
        if line is None:
            return None
        self._answers_errors = True
        return parse_error(line)

    def take_over_if_asked(self) -> tuple[int, str] | None:
        """Ask for the oldest error; take over (``SYST:REM``) if it is that the meter obeys only its keys."""
        error = self.oldest_error(SIDE_WAIT_S)
        if error is not None and error[0] in _OBEYS_ITS_KEYS:
            self.take_over()
        return error

    def take_over(self) -> None:
        """Tell the meter to obey the line (``SYST:REM``)."""
        self.tell("SYST:REM")
        self.has_taken_over = True

    def hand_back(self) -> None:
        """Give the meter its keys back (``SYST:LOC``), if they were taken."""
        if self.has_taken_over:
            self.has_taken_over = False
            with contextlib.suppress(SourceLost):
                self.tell("SYST:LOC")

    def get_in_step(self, wait_s: float) -> bool:
        """Make sure that no earlier answer can still come, and return whether that is certain.

        A meter that answers neither ``*IDN?`` nor ``SYST:ERR?`` leaves only a long silence to go by.
        """
        if self._identity is not None:
            self._ask_until("*IDN?", wait_s, self._is_identity)
        elif self._answers_errors:
            self.oldest_error(wait_s)
        else:
            self.is_in_step = self.settle(wait_s)
        return self.is_in_step

    def _is_identity(self, line: bytes) -> bool:
        """Whether a line can only be the answer to ``*IDN?``, if perhaps with a lost byte."""
        has_fields = line.count(b",") >= _COMMAS_OF_AN_IDENTITY and parse_reading(line).is_misfit
        return line == self._identity or has_fields

    def _ask_until(self, query: str, wait_s: float, is_it: _LineTest) -> bytes | None:
        """Ask, pass over every other line, and be in step once the one that `is_it` has come."""
        self._lines.reset()
        sent_s = self._link.write(query.encode("ascii") + b"\n")
        deadline_s = sent_s + wait_s * self._clock.speed
        while (left_s := self._left_s(deadline_s)) > 0:
            lines = self._lines.feed(self._link.read(left_s).data)
            for position, line in enumerate(lines):
                if is_it(line):
                    self.is_in_step = position == len(lines) - 1 and not self._lines.has_partial
                    return line
        self.is_in_step = False
        return None

    def _left_s(self, deadline_s: float) -> float:
        return (deadline_s - self._clock.now_s()) / self._clock.speed
