"""A board that prints lines of text, unasked. Nothing is ever sent to it."""

from __future__ import annotations

import math
from itertools import groupby
from typing import NamedTuple

import numpy as np

from drivers.address import Address
from drivers.board_clock import BoardStamp
from drivers.channel_options import ChannelOptions
from drivers.errors import CannotOpen, SourceLost, SourceRefused
from drivers.formats.text import RefusedLine, TextDecoder, TextReading, TextRows
from drivers.formats.text_columns import ColumnRule
from drivers.line_times import LineTimes
from drivers.link import Link, OpenPort, open_port
from drivers.notice_limit import NoticeLimit
from drivers.run_clock import RunClock
from drivers.samples import Delivery, Notice, Quality, Samples
from drivers.source import Channel, Instrument, Source

__all__ = ["TextSource"]

_BAUD = 115200
_OPEN_WAIT_S = 3.5  # a boot loader runs 0.5 to 2 s
_OPEN_SLICE_S = 0.25
_HOLD_S = 1.5  # after the first reading, to learn what the board's counter counts
_GREETING_S = 3.0
_GREETING_LINES = 40
_REFUSALS_TO_ASK = 3
_NOT_UNDERSTOOD_S = 3.0
_LINE_END_S = 2.0
_ENOUGH_BYTES = 64
_TEXT_SHARE = 0.7
_TEXT_BYTES = bytes(range(0x20, 0x7F)) + b"\t\r\n"
_ASK_CODES = ("column_missing", "column_needed", "comma_ambiguous", "not_volts", "raw_counts")
_NOT_VOLTAGES = ("temperature", "other")
_INTERVALS = 10  # of silence, before a board counts as silent


class _Line(NamedTuple):
    """A reading and when its line had arrived (run seconds)."""

    reading: TextReading
    arrival_s: float


class TextSource(Source):
    """Readings that a board prints (see `drivers.source.Source`).

    Parameters
    ----------
    address : ``text:PORT``; keys ``baud`` (115200), ``column`` (number from 1, or name) and those of a
        channel; ``scale`` in volts per count turns whole numbers into readings.
    opener : opens the port; a fake in tests.
    """

    def __init__(self, address: Address, *, opener: OpenPort = open_port) -> None:
        super().__init__(address)
        self._options = ChannelOptions.from_address(address)
        self._column = address.options.get("column", "")
        baud = address.integer("baud", _BAUD, low=50, high=12_000_000)
        self._link = Link(address.port, baud, opener=opener)
        self._clock: RunClock | None = None
        self._run: RunClock | None = None  # stays after close: times go on in the same run
        self._limit = NoticeLimit()
        self._times = LineTimes()
        self._details: dict[str, str | float] = {}
        self._begin(0.0, -math.inf)

    def _begin(self, now_s: float, not_before_s: float) -> None:
        """Forget what was learned of the line."""
        is_no_voltage = self._options.channel.role in _NOT_VOLTAGES
        rule = ColumnRule(
            self._column,
            takes_counts=self._options.has_scale or is_no_voltage,
            takes_any_unit=is_no_voltage,
        )
        self._decoder = TextDecoder(rule)
        self._times = LineTimes(not_before_s)
        self._opened_s = self._understood_s = self._line_s = now_s
        self._greeting: list[str] = []
        self._asks: list[RefusedLine] = []
        self._pending: list[Delivery] = []
        self._held: list[_Line] = []
        self._hold_until_s = -math.inf
        self._bytes = self._text_bytes = 0

    @property
    def channels(self) -> tuple[Channel, ...]:
        """The one channel that the board fills."""
        return (self._options.channel,)

    @property
    def instrument(self) -> Instrument:
        """The board's greeting as identity, and how its lines are read and timed as it stands now."""
        details = dict(self._details)
        if self._column:
            details["column"] = self._column
        if self._options.name:
            details["name"] = self._options.name
        return Instrument(
            address=self.address.text,
            identity="\n".join(self._greeting),
            clock=self._times.facts,
            calibration=self._options.calibration,
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
        self._begin(clock.now_s(), self._times.last_s if clock is self._run else -math.inf)
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

    def read(self, timeout_s: float) -> Delivery:
        """Return the readings of the lines that have arrived; see `Source.read`.

        Those of the first second or so come together, once their times can be told.
        """
        if self._clock is None:
            raise SourceLost(f"{self.address.text} is not open. Open it first.")
        if self._pending:
            return self._pending.pop(0)
        try:
            lines, notices = self._receive(timeout_s)
        except SourceLost:
            if not self._held:
                raise
            self._hold_until_s = -math.inf  # deliver what is here; the next call fails again
            lines, notices = [], []
        return self._delivery(self._released(lines, self._clock.now_s()), notices)

    def close(self) -> None:
        """Close the port."""
        self._link.close()
        self._clock = None

    def _listen(self, clock: RunClock) -> None:
        until_s = clock.now_s() + _OPEN_WAIT_S * clock.speed
        while clock.now_s() < until_s:
            lines, notices = self._receive(_OPEN_SLICE_S)
            if notices:
                self._pending.append(Delivery(notices=tuple(notices)))
            if lines:
                self._held += lines
                self._hold_until_s = clock.now_s() + _HOLD_S * clock.speed
                return
            if len(self._asks) >= _REFUSALS_TO_ASK:
                raise SourceRefused(f"The board on {self.address.port}: {self._asks[-1].why}")
        if self._bytes >= _ENOUGH_BYTES and self._text_bytes < _TEXT_SHARE * self._bytes:
            raise SourceRefused(f"What arrives from {self.address.port} is no text. {self._speed_hint()}")

    def _released(self, lines: list[_Line], now_s: float) -> list[_Line]:
        """Hold the first lines back until they tell what the board's counter counts, or for a while."""
        self._held += lines
        seen = [(line.reading.time, line.arrival_s) for line in self._held]
        if now_s < self._hold_until_s and not self._times.prepare(seen):
            return []
        self._hold_until_s = -math.inf
        released, self._held = self._held, []
        return released

    def _receive(self, timeout_s: float) -> tuple[list[_Line], list[Notice]]:
        """Read the link once; return the readings of the lines that ended, and what there is to say."""
        data, arrived_s = self._link.read(timeout_s)
        self._bytes += len(data)
        self._text_bytes += len(data) - len(data.translate(None, _TEXT_BYTES))
        if b"\n" in data:
            self._line_s = arrived_s
        lines: list[_Line] = []
        notices: list[Notice] = []
        for result in self._decoder.feed_blocks(data):
            if isinstance(result, TextRows):
                lines += [
                    _Line(
                        TextReading(raw, value, Quality.GOOD, time, after),
                        arrived_s - after * self._link.byte_time_s,
                    )
                    for raw, value, time, after in result.rows()
                ]
            elif isinstance(result, TextReading):
                lines.append(_Line(result, arrived_s - result.bytes_after * self._link.byte_time_s))
            else:
                notices += self._refused(result, arrived_s)
        if lines:
            self._learn_pace(len(lines), arrived_s)
        return lines, notices + self._health(bool(data), arrived_s)

    def _delivery(self, lines: list[_Line], notices: list[Notice]) -> Delivery:
        stamped = [(line.reading, self._times.stamp(line.reading.time, line.arrival_s)) for line in lines]
        stamped = [entry for entry in stamped if entry[1].time_s >= 0]  # what was before the run is not of it
        blocks = groupby(stamped, key=lambda entry: entry[1].ticks is not None)
        samples = tuple(self._block(list(block), has_ticks) for has_ticks, block in blocks)
        return Delivery(samples=samples, notices=tuple(notices))

    def _block(self, stamped: list[tuple[TextReading, BoardStamp]], has_ticks: bool) -> Samples:
        return Samples(
            channel=self._options.channel.name,
            times_s=np.array([stamp.time_s for _, stamp in stamped]),
            values=self._options.apply(np.array([reading.value for reading, _ in stamped])),
            quality=np.array([_quality(reading, stamp) for reading, stamp in stamped], dtype=np.uint8),
            board_ticks=np.array([stamp.ticks for _, stamp in stamped], dtype=np.int64)
            if has_ticks
            else None,
        )

    def _refused(self, line: RefusedLine, now_s: float) -> tuple[Notice, ...]:
        if line.code == "not_a_reading" and now_s - self._opened_s < _GREETING_S:
            text = line.raw.decode("utf-8", errors="replace")
            if len(self._greeting) < _GREETING_LINES and text.isprintable():
                self._greeting.append(text)
            return ()
        if line.code in _ASK_CODES:
            self._asks.append(line)
            del self._asks[:-_REFUSALS_TO_ASK]
        return self._limit.pass_on(line.code, f"Not recorded: {line.why}", now_s)

    def _learn_pace(self, readings: int, now_s: float) -> None:
        self._asks.clear()
        interval_s = (now_s - self._understood_s) / readings
        self.silent_after_s = max(type(self).silent_after_s, _INTERVALS * interval_s)
        self._understood_s = now_s

    def _health(self, has_data: bool, now_s: float) -> list[Notice]:
        """Say that data come but give no reading, and what the clock has to complain about."""
        complaint = self._times.complaint()
        if complaint:
            return [*self._limit.pass_on("board_clock", complaint, now_s)]
        if not has_data or now_s - self._understood_s < _NOT_UNDERSTOOD_S:
            return []
        no_end = " No line ends." if now_s - self._line_s > _LINE_END_S else ""
        text = f"Data arrive from {self.address.port} but cannot be understood.{no_end} {self._speed_hint()}"
        return [*self._limit.pass_on("not_understood", text, now_s)]

    def _speed_hint(self) -> str:
        if self._link.byte_time_s == 0:
            return "Is it a board that prints lines?"
        return f"The speed of {self._link.baud} baud may be wrong: add baud= to the address."


def _quality(reading: TextReading, stamp: BoardStamp) -> int:
    quality = reading.quality
    if stamp.is_uncertain:
        quality |= Quality.TIME_UNCERTAIN
    if stamp.is_damaged:
        quality |= Quality.SUSPECT
    return int(quality)
