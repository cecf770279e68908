"""Many lines of one shape taken apart at once, as rows of an array. Pure. `TextDecoder` is the exact way.

Only lines that the exact way would accept without a second look are taken: a pattern made from a line that it
has read matches all of them, or none is taken. Values are the same to the last bit.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from drivers.formats.number_shape import JUMP, JUMP_SHARE, NumberShape, lost_a_character
from drivers.formats.text_columns import BoardTime

__all__ = ["RowShape", "TextRows", "has_doubtful_jump", "shape_of_line"]

_INTEGER = re.compile(rb"\d{1,15}")  # exact as float64
_TWO_DIGITS = 10.0
_DECIMAL = re.compile(rb"[+-]?\d{1,9}\.(\d{1,9})")


@dataclass(frozen=True, slots=True, eq=False)
class TextRows:
    """Lines that became readings, in order.

    `values` : float64, shape (n,); volts, or counts where a scale was given. `ticks` : int64, shape (n,), or
    None where the board sends no time; `unit` is that of `BoardTime`. `bytes_after` : int64, shape (n,);
    bytes of the same feed after each line. `raw` : the lines, with their ends.
    """

    raw: bytes
    values: NDArray[np.float64]
    ticks: NDArray[np.int64] | None
    unit: str
    bytes_after: NDArray[np.int64]

    def __len__(self) -> int:
        return int(self.values.size)

    def rows(self) -> Iterator[tuple[bytes, float, BoardTime | None, int]]:
        """Yield raw line, value, board time and bytes after, line by line."""
        ticks = [None] * len(self) if self.ticks is None else self.ticks.tolist()
        for raw, value, tick, after in zip(
            self.raw.split(b"\n"), self.values.tolist(), ticks, self.bytes_after.tolist(), strict=False
        ):
            yield raw.rstrip(b"\r"), value, None if tick is None else BoardTime(tick, self.unit), after


@dataclass(frozen=True, slots=True)
class RowShape:
    """What lines look like: a pattern for any number of whole ones, and which column is what."""

    pattern: re.Pattern[bytes]
    columns: int
    value_place: int
    value_shape: NumberShape
    time_place: int | None
    unit: str

    def take(self, whole: bytes, bytes_behind: int) -> TextRows | None:
        """Return the rows of `whole`, which ends with a line's end; None unless all lines have this shape.

        `bytes_behind` : bytes of the feed after `whole`.
        """
        if not self.pattern.fullmatch(whole):
            return None
        numbers = np.fromstring(whole.translate(_TO_COMMAS, b"\r"), sep=",")
        ends = np.flatnonzero(np.frombuffer(whole, np.uint8) == ord("\n"))
        if numbers.size != ends.size * self.columns:
            return None
        table = numbers.reshape(-1, self.columns)
        ticks = None if self.time_place is None else table[:, self.time_place].astype(np.int64)
        return TextRows(
            raw=whole,
            values=np.ascontiguousarray(table[:, self.value_place]),
            ticks=ticks,
            unit=self.unit,
            bytes_after=(len(whole) - ends - 1 + bytes_behind).astype(np.int64),
        )


_TO_COMMAS = bytes.maketrans(b"\n\t", b",,")


def has_doubtful_jump(before: float, values: NDArray[np.float64]) -> bool:
    """Whether any of `values`, shape (n,), may be what is left of the one before it.

    See `number_shape.lost_a_character`; `before` is the one before the first.
    """
    earlier = np.concatenate(([before], values[:-1]))
    jumps = np.abs(values - earlier) > np.maximum(JUMP, JUMP_SHARE * np.abs(earlier))
    places = np.flatnonzero(jumps & ((earlier < 0) | (earlier >= _TWO_DIGITS)))
    pairs = zip(earlier[places].tolist(), values[places].tolist(), strict=True)
    return any(lost_a_character(one, next_one) for one, next_one in pairs)


def shape_of_line(raw: bytes, value: float, time: BoardTime | None) -> RowShape | None:
    """Return the shape of a line, without its LF, that was read as `value` at `time`; None if it has none.

    It has one if it consists of whole numbers and numbers with decimals, separated by commas or TABs, and
    leaves no doubt which are value and time.
    """
    body = raw.rstrip(b"\r")
    separator = b"\t" if b"\t" in body else b","
    tokens = body.split(separator)
    parts: list[bytes] = []
    value_places: list[int] = []
    time_places: list[int] = []
    decimals = 0
    for place, token in enumerate(tokens):
        found = _DECIMAL.fullmatch(token)
        if found is not None:
            parts.append(rb"[+-]?\d{1,9}\.\d{%d}" % len(found[1]))
            if float(token) == value:
                value_places.append(place)
                decimals = len(found[1])
        elif _INTEGER.fullmatch(token):
            parts.append(rb"\d{1,15}")
            if time is not None and int(token) == time.ticks:
                time_places.append(place)
        else:
            return None
    if len(value_places) != 1 or len(time_places) != (time is not None):
        return None
    return RowShape(
        pattern=re.compile(rb"(?:" + separator.join(parts) + rb"\r?\n)*"),
        columns=len(tokens),
        value_place=value_places[0],
        value_shape=NumberShape(decimals, True, 0),
        time_place=time_places[0] if time_places else None,
        unit=time.unit if time is not None else "",
    )
