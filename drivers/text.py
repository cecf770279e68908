"""A board that prints lines of text, unasked. Nothing is ever sent to it."""

from __future__ import annotations

import math
import re
from collections.abc import Collection, Iterable

from drivers.address import Address
from drivers.channel_lists import ChannelLists
from drivers.channel_options import ChannelOptions
from drivers.errors import AddressError, CannotOpen, SourceLost, SourceRefused
from drivers.formats.text import RefusedLine
from drivers.link import Link, OpenPort, open_port
from drivers.notice_limit import NoticeLimit
from drivers.run_clock import RunClock
from drivers.samples import Delivery, MissingStretch, Notice, Samples
from drivers.source import Channel, Instrument, Source
from drivers.text_column import TextColumn

__all__ = ["TextSource"]

_BAUD = 115200
_OPEN_WAIT_S = 3.5  # a boot loader runs 0.5 to 2 s
_OPEN_SLICE_S = 0.25
_PATIENT_CODES = ("column_missing", "header_missing", "name_missing")  # later lines may bring it
_LINES_TO_UNDERSTAND = 3  # the first is cut off, the second only tells the form
_OTHERS_WAIT_S = 1.0  # for the other columns, after the first has given a reading
_HOLD_S = 1.5  # after the first reading, to learn what the board's counter counts
_GREETING_S = 3.0
_GREETING_LINES = 40
_NOT_UNDERSTOOD_S = 3.0
_LINE_END_S = 2.0
_ENOUGH_BYTES = 64
_TEXT_SHARE = 0.7
_TEXT_BYTES = bytes(range(0x20, 0x7F)) + b"\t\r\n"
_INTERVALS = 10  # of silence, before a board counts as silent


class TextSource(Source):
    """Readings that a board prints (see `drivers.source.Source`).

    Parameters
    ----------
    address : ``text:PORT``; keys ``baud`` (115200), ``column`` (number from 1, or name) and those of a
        channel; ``scale`` in volts per count turns whole numbers into readings. Several columns of the same
        lines, ``column=2,3``, fill a channel each; further keys may be lists then, see `ChannelLists`.
    opener : opens the port; a fake in tests.

    Raises
    ------
    AddressError : a key lists more entries than there are columns, a column is named twice, or whatever
        `ChannelLists` refuses.
    """

    def __init__(self, address: Address, *, opener: OpenPort = open_port) -> None:
        super().__init__(address)
        self._plan = _planned(address)
        baud = address.integer("baud", _BAUD, low=50, high=12_000_000)
        self._link = Link(address.port, baud, opener=opener)
        self._clock: RunClock | None = None
        self._run: RunClock | None = None  # stays after close: times go on in the same run
        self._limit = NoticeLimit()
        self._details: dict[str, str | float] = {}
        self._has_been_open = False  # in this run
        self._columns = self._new_columns()
        self._begin(0.0)

    def _new_columns(self) -> list[TextColumn]:
        return [TextColumn(options, name, -math.inf) for name, options in self._plan]

    def _begin(self, now_s: float) -> None:
        """Start anew: the line was opened."""
        self._opened_s = self._understood_s = self._line_s = now_s
        self._greeting: list[str] = []
        self._pending: list[Delivery] = []
        self._hold_until_s = -math.inf
        self._bytes = self._text_bytes = self._returns = self._lines_unread = 0

    @property
    def channels(self) -> tuple[Channel, ...]:
        """A channel for each column; one where the address names none."""
        return tuple(options.channel for _, options in self._plan)

    @property
    def instrument(self) -> Instrument:
        """The board's greeting as identity, and how its lines are read and timed as it stands now."""
        details = dict(self._details)
        if column := self.address.options.get("column"):
            details["column"] = column
        if name := self._plan[0][1].name:
            details["name"] = name
        return Instrument(
            address=self.address.text,
            identity="\n".join(self._greeting),
            clock=self._columns[0].times.facts,
            calibration=self._calibration(),
            details=details,
        )

    def open(self, clock: RunClock) -> None:
        """Open the port and listen until the first reading, at most 3.5 s; a silent board is no error.

        Raises
        ------
        CannotOpen : no such port.
        SourceRefused : what the board prints needs the user's word, or is no text.
        """
        self.close()
        self._link.open(clock)
        if clock is self._run:
            last_s = max(column.times.last_s for column in self._columns)
            for column in self._columns:
                column.begin_again(last_s)
        else:
            self._columns = self._new_columns()
            self._has_been_open = False
        self._begin(clock.now_s())
        self._clock = self._run = clock
        try:
            self._listen(clock)
        except SourceLost as error:
            self.close()
            raise CannotOpen(str(error)) from error
        except BaseException:
            self.close()
            raise
        self._details = dict(self._link.details())
        self._has_been_open = True

    def read(self, timeout_s: float) -> Delivery:
        """Return the readings of the lines that have arrived; see `Source.read`.

        Those of the first second or so come together, once their times can be told.
        """
        if self._clock is None:
            raise SourceLost(f"{self.address.text} is not open. Open it first.")
        if self._pending:
            return self._pending.pop(0)
        try:
            notices = self._receive(timeout_s)
        except SourceLost:
            if not any(column.has_lines for column in self._columns):
                raise
            self._hold_until_s = -math.inf  # deliver what is here; the next call fails again
            notices = []
        now_s = self._clock.now_s()
        if self._is_held_back(now_s):
            return Delivery(notices=tuple(notices))
        samples: list[Samples] = []
        missing: list[MissingStretch] = []
        for column in self._columns:
            blocks, stretches = column.release()
            samples += blocks
            missing += stretches
        notices += self._missing_notices(missing, now_s)
        return Delivery(samples=tuple(samples), notices=tuple(notices), missing=tuple(missing))

    def close(self) -> None:
        """Close the port."""
        self._link.close()
        self._clock = None

    def _listen(self, clock: RunClock) -> None:
        until_s = clock.now_s() + _OPEN_WAIT_S * clock.speed
        while clock.now_s() < until_s:
            notices = self._receive(_OPEN_SLICE_S)
            if notices:
                self._pending.append(Delivery(notices=tuple(notices)))
            self._raise_question(_PATIENT_CODES)
            if all(column.has_lines for column in self._columns):
                break
            if any(column.has_lines for column in self._columns):
                until_s = min(until_s, clock.now_s() + _OTHERS_WAIT_S * clock.speed)
        self._raise_question(())
        if any(column.has_lines for column in self._columns):
            self._hold_until_s = clock.now_s() + _HOLD_S * clock.speed
            return
        if self._bytes >= _ENOUGH_BYTES and self._text_bytes < _TEXT_SHARE * self._bytes:
            raise SourceRefused(f"What arrives from {self.address.port} is no text. {self._speed_hint()}")

    def _raise_question(self, not_yet: Collection[str]) -> None:
        """Raise what only the user can tell, except for questions of the codes `not_yet`.

        Where other columns give readings, only a column that is not there is worth it, and only at first: no
        run ends for it.
        """
        has_readings = any(column.has_lines for column in self._columns)
        for column in self._columns:
            question = column.question
            if question is None or column.has_lines or question.code in not_yet:
                continue
            if not has_readings or (question.code == "column_missing" and not self._has_been_open):
                raise SourceRefused(f"The board on {self.address.port}: {question.why}")

    def _is_held_back(self, now_s: float) -> bool:
        """Hold the first lines back until they tell what the board's counter counts, or for a while."""
        if now_s < self._hold_until_s:
            are_ready = [column.prepare() for column in self._columns if column.has_lines]
            if not all(are_ready):
                return True
            self._hold_until_s = -math.inf
        return False

    def _receive(self, timeout_s: float) -> list[Notice]:
        """Read the link once; return what there is to say. Readings wait in the columns."""
        data, arrived_s = self._link.read(timeout_s)
        self._bytes += len(data)
        self._text_bytes += len(data) - len(data.translate(None, _TEXT_BYTES))
        if b"\n" in data:
            self._line_s = arrived_s
        self._returns += data.count(b"\r")
        self._lines_unread += data.count(b"\n")
        fed = [column.feed(data, arrived_s, self._link.byte_time_s) for column in self._columns]
        notices: list[Notice] = []
        for line in _each_once(line for _, refused in fed for line in refused):
            notices += self._refused(line, arrived_s)
        if count := max(count for count, _ in fed):
            self._learn_pace(count, arrived_s)
        return notices + self._health(bool(data), arrived_s)

    def _calibration(self) -> dict[str, str | float]:
        """Return what turns numbers of the lines into values, by channel where there are several."""
        facts: dict[str, str | float] = {}
        for _, options in self._plan:
            prefix = f"{options.channel.name}_" if len(self._plan) > 1 else ""
            facts |= {prefix + key: value for key, value in options.calibration.items()}
        return facts

    def _refused(self, line: RefusedLine, now_s: float) -> tuple[Notice, ...]:
        if line.code == "not_a_reading" and now_s - self._opened_s < _GREETING_S:
            text = line.raw.decode("utf-8", errors="replace")
            if len(self._greeting) < _GREETING_LINES and text.isprintable():
                self._greeting.append(text)
            return ()
        return self._limit.pass_on(line.code, f"Not recorded: {line.why}", now_s, is_refusal=True)

    def _learn_pace(self, readings: int, now_s: float) -> None:
        self._lines_unread = 0
        interval_s = (now_s - self._understood_s) / readings
        self.silent_after_s = max(type(self).silent_after_s, _INTERVALS * interval_s)
        self._understood_s = now_s

    def _health(self, has_data: bool, now_s: float) -> list[Notice]:
        """Say that data come but give no reading, and what the clock has to complain about."""
        complaints = [column.times.complaint() for column in self._columns]
        complaint = next(filter(None, complaints), "")
        if complaint:
            return [*self._limit.pass_on("board_clock", complaint, now_s)]
        is_slow = 0 < self._lines_unread < _LINES_TO_UNDERSTAND
        if not has_data or is_slow or now_s - self._understood_s < _NOT_UNDERSTOOD_S:
            return []
        no_end = ""
        if now_s - self._line_s > _LINE_END_S:
            no_end = (
                " Lines end in CR alone: let the board print LF too." if self._returns else " No line ends."
            )
        text = f"Data arrive from {self.address.port} but cannot be understood.{no_end} {self._speed_hint()}"
        return [*self._limit.pass_on("not_understood", text, now_s, is_refusal=True)]

    def _missing_notices(self, missing: list[MissingStretch], now_s: float) -> tuple[Notice, ...]:
        if not missing:
            return ()
        text = (
            f"Of the board on {self.address.port} readings are missing: {missing[-1].reason}. They stay a "
            "gap. If this goes on, check its supply and the cable, or let it print less often."
        )
        return self._limit.pass_on("readings_missing", text, now_s)

    def _speed_hint(self) -> str:
        if self._link.byte_time_s == 0:
            return "Is it a board that prints lines?"
        return f"The speed of {self._link.baud} baud may be wrong: add baud= to the address."


def _planned(address: Address) -> tuple[tuple[str, ChannelOptions], ...]:
    """Return column and options of each channel that the address names."""
    columns = address.options.get("column", "").split(",")
    lists = ChannelLists(address)
    lists.check_entries(len(columns))
    if impossible := [column for column in columns if re.fullmatch(r"0+|-[0-9]+", column)]:
        raise AddressError(
            f"{address.text}: there is no column {impossible[0]}; columns are counted from 1, for example "
            "column=2, or called by their names"
        )
    plain = [column.lstrip("0") if column.isdecimal() else column for column in columns]
    if len(set(plain)) != len(plain) or (len(columns) > 1 and not all(columns)):
        raise AddressError(
            f"{address.text}: column={address.options['column']} does not list columns; write for example "
            "column=2 or column=2,3 (each once)"
        )
    options = lists.options(tuple((column, _channel_name(column)) for column in columns))
    return tuple(zip(columns, options, strict=True))


def _channel_name(column: str) -> str:
    """Return a name for the channel of a further column: after its number, or its own name."""
    plain = re.sub(r"[^a-z0-9]+", "_", column.lower()).strip("_")
    return plain if plain[:1].isalpha() else f"column_{plain}"


def _each_once(lines: Iterable[RefusedLine]) -> list[RefusedLine]:
    """Leave out what several columns say of one line."""
    return list({(line.raw, line.code): line for line in lines}.values())
