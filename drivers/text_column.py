"""One column of the lines that a board prints, on its way to a channel."""

from __future__ import annotations

from dataclasses import replace
from itertools import groupby
from typing import NamedTuple

import numpy as np

from drivers.board_clock import BoardStamp
from drivers.channel_options import ChannelOptions
from drivers.formats.text import RefusedLine, TextDecoder, TextReading, TextRows
from drivers.formats.text_columns import ColumnRule
from drivers.line_cadence import LineCadence, MissingReadings
from drivers.line_times import LineTimes
from drivers.samples import MissingStretch, Quality, Samples

__all__ = ["TextColumn"]

_NOT_VOLTAGES = ("temperature", "other")
_ASK_CODES = (
    "column_missing",
    "column_needed",
    "comma_ambiguous",
    "header_missing",
    "name_missing",
    "not_volts",
    "raw_counts",
)
_REFUSALS_TO_ASK = 3


class _Line(NamedTuple):
    """A reading, when its line had arrived (run seconds), and how many lines without a value came before."""

    reading: TextReading
    arrival_s: float
    empty_before: int = 0


class TextColumn:
    """Decodes, holds back until the times can be told, and stamps.

    Every column of a board sees the same bytes and the same times of the board, so that all channels have
    one clock.

    Parameters
    ----------
    options : the channel.
    column : as the address names it, "" for the only voltage there is.
    not_before_s : floor of all times, run seconds.
    """

    def __init__(self, options: ChannelOptions, column: str, not_before_s: float) -> None:
        self.options = options
        is_no_voltage = options.channel.role in _NOT_VOLTAGES
        self._decoder = TextDecoder(
            ColumnRule(column, takes_counts=options.has_scale or is_no_voltage, takes_any_unit=is_no_voltage)
        )
        self.times = LineTimes(not_before_s)
        self._cadence = LineCadence()
        self._last: tuple[bytes, int | None] = b"", None
        self._held: list[_Line] = []
        self._empty = 0  # lines without a value since the last reading
        self._asks: list[RefusedLine] = []

    def begin_again(self, not_before_s: float) -> None:
        """Go on after the port was opened again in the same run.

        What was learned of the lines holds on: a board that says something else now is not the one before.
        """
        self._decoder.begin_again()
        self.times = LineTimes(not_before_s)
        self._cadence.begin_again()
        self._held, self._asks, self._empty = [], [], 0

    @property
    def question(self) -> RefusedLine | None:
        """What only the user can tell, once several lines running have asked for it."""
        return self._asks[-1] if len(self._asks) >= _REFUSALS_TO_ASK else None

    @property
    def has_lines(self) -> bool:
        """Readings are held back."""
        return bool(self._held)

    def feed(self, data: bytes, arrived_s: float, byte_time_s: float) -> tuple[int, list[RefusedLine]]:
        """Take bytes as they came; return how many lines gave a reading, and those that gave none."""
        count, refused = len(self._held), []
        for result in self._decoder.feed_blocks(data):
            if isinstance(result, TextRows):
                for raw, value, time, after in result.rows():
                    reading = TextReading(raw, value, Quality.GOOD, time, after)
                    self._held.append(_Line(reading, arrived_s - after * byte_time_s))
            elif isinstance(result, TextReading):
                at_s = arrived_s - result.bytes_after * byte_time_s
                self._held.append(_Line(result, at_s, self._empty))
                self._empty = 0
            else:
                self._empty += result.code == "no_value"
                refused.append(result)
        self._ask(len(self._held) > count, refused)
        return len(self._held) - count, refused

    def _ask(self, has_readings: bool, refused: list[RefusedLine]) -> None:
        if has_readings:
            self._asks.clear()
        else:
            self._asks += [line for line in refused if line.code in _ASK_CODES]
            del self._asks[:-_REFUSALS_TO_ASK]

    def prepare(self) -> bool:
        """Look at what is held back; return whether its times can be told."""
        return self.times.prepare([(line.reading.time, line.arrival_s) for line in self._held])

    def release(self) -> tuple[list[Samples], list[MissingStretch]]:
        """Return what was held back, in blocks with and without times of the board, and what is missing.

        What was before the run is not of it.
        """
        lines, self._held = self._held, []
        stamped: list[tuple[TextReading, BoardStamp]] = []
        missing: list[MissingReadings] = []
        for line in lines:
            stamp = self.times.stamp(line.reading.time, line.arrival_s)
            missing += self._cadence.follow(
                stamp.time_s, stamp.ticks, self.times.segment, empty=line.empty_before
            )
            reading, this = line.reading, (line.reading.raw, stamp.ticks)
            if this == self._last and stamp.ticks is not None and self._cadence.is_steady:
                reading = replace(reading, quality=reading.quality | Quality.REPEAT)
            self._last = this
            if stamp.time_s >= 0:
                stamped.append((reading, stamp))
        blocks = groupby(stamped, key=lambda entry: entry[1].ticks is not None)
        return (
            [self._block(list(block), has_ticks) for has_ticks, block in blocks],
            [self._stretch(one) for one in missing if one.end_s > 0],
        )

    def _stretch(self, missing: MissingReadings) -> MissingStretch:
        return MissingStretch(
            self.options.channel.name, max(missing.begin_s, 0.0), missing.end_s, _why(missing)
        )

    def _block(self, stamped: list[tuple[TextReading, BoardStamp]], has_ticks: bool) -> Samples:
        return Samples(
            channel=self.options.channel.name,
            times_s=np.array([stamp.time_s for _, stamp in stamped]),
            values=self.options.apply(np.array([reading.value for reading, _ in stamped])),
            quality=np.array([_quality(reading, stamp) for reading, stamp in stamped], dtype=np.uint8),
            board_ticks=np.array([stamp.ticks for _, stamp in stamped], dtype=np.int64)
            if has_ticks
            else None,
        )


def _quality(reading: TextReading, stamp: BoardStamp) -> int:
    quality = reading.quality
    if stamp.is_uncertain:
        quality |= Quality.TIME_UNCERTAIN
    if stamp.is_damaged:
        quality |= Quality.SUSPECT
    return int(quality)


def _why(missing: MissingReadings) -> str:
    if not missing.readings:
        return "the board restarted"
    if missing.empty >= missing.readings:
        return "the board says that it has no value"
    if missing.readings == 1:
        return "one reading is missing by the board's clock"
    return f"{missing.readings} readings are missing by the board's clock"
