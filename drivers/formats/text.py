"""Lines of text that a board prints: bytes in, readings out. Pure; the line forms are in `text_cells`.

Lines end with LF; CR before it is dropped, and a byte-order mark. A line may end in `` *HH``, the exclusive
or of the bytes before the blank, in hexadecimal; it is then checked. Bytes that were lost on the way show
as a wrong check, a wrong number of columns, or a number of odd shape.
"""

from __future__ import annotations

import functools
import math
import operator
import re
from dataclasses import dataclass

from drivers.formats.number_shape import NumberShape, UsualShape, is_jump, lost_a_character
from drivers.formats.text_cells import Cell, Header, NotCells, Row, parse_cells, separator_of
from drivers.formats.text_columns import BoardTime, ColumnRule, Picked
from drivers.formats.text_form import ColumnNames, UsualForm
from drivers.formats.text_rows import RowShape, TextRows, has_doubtful_jump, shape_of_line
from drivers.samples import Quality

__all__ = ["BoardTime", "RefusedLine", "TextDecoder", "TextReading", "TextRows"]

_LINE_LIMIT = 256
_BYTE_ORDER_MARK = "\ufeff"
_CHECK = re.compile(rb"(.*) \*([0-9A-Fa-f]{2})\s*", re.DOTALL)
_CHECKS_TO_EXPECT = 3
_MANY_BYTES = 1024  # below it, arrays cost more than they save


@dataclass(frozen=True, slots=True)
class TextReading:
    """One reading: its line, the value in volts (or counts, if a scale was given), and the board's time.

    `value` is +inf or -inf for overload. `bytes_after` counts the bytes of the same `feed` that came
    after this line.
    """

    raw: bytes
    value: float
    quality: Quality
    time: BoardTime | None
    bytes_after: int


@dataclass(frozen=True, slots=True)
class RefusedLine:
    """A line that gave no reading; `code` is stable, `why` is for people."""

    raw: bytes
    code: str
    why: str


class TextDecoder:
    """Turns the bytes of a board into readings, in pieces of any size.

    The first line is never a reading, because its beginning may be missing; nor is the first row of a new
    form (another number of columns, other names), because a lost byte may have made it.

    Parameters
    ----------
    rule : which column is the voltage.
    """

    def __init__(self, rule: ColumnRule) -> None:
        self._rule = rule
        self._lines = _Lines()
        self._usual = UsualShape()
        self._form = UsualForm()
        self._names = ColumnNames()
        self._checks_seen = 0
        self._is_first = True
        self._unit = ""
        self._printed: float | None = None  # the last number, in the unit in which it was printed
        self._separator: str | None = None
        self._last: TextReading | None = None
        self._shape: RowShape | None = None

    def begin_again(self) -> None:
        """Go on after the line was interrupted: the next line's beginning may be missing."""
        self._lines.leave(b"")
        self._is_first = True

    @property
    def pending(self) -> int:
        """Bytes of a line that has no end yet."""
        return self._lines.pending

    def feed(self, data: bytes) -> list[TextReading | RefusedLine]:
        """Take bytes as they came and return what the lines that are complete now say."""
        results: list[TextReading | RefusedLine] = []
        for raw, bytes_after in self._lines.feed(data):
            result = self._decode(raw, bytes_after)
            if result is not None:
                results.append(result)
        return results

    def feed_blocks(self, data: bytes) -> list[TextReading | RefusedLine | TextRows]:
        """Do the same as `feed`; many lines of the usual shape come as one `TextRows`."""
        rows = self._rows(data) if len(data) >= _MANY_BYTES else None
        return [rows] if rows is not None else [*self.feed(data)]

    def _rows(self, data: bytes) -> TextRows | None:
        """Return all lines of `data` at once, or None if they must be looked at one by one."""
        if self._shape is None and self._last is not None and not self._checks_seen:
            self._shape = shape_of_line(self._last.raw, self._last.value, self._last.time)
        end = data.rfind(b"\n") + 1
        shape, is_short = self._shape, len(data) - end < _LINE_LIMIT
        if shape is None or not end or not is_short or self._usual.usual != shape.value_shape:
            return None
        rows = shape.take(self._lines.partial + data[:end], len(data) - end)
        if rows is None:
            self._shape = None  # to be made anew from what comes next
            return None
        if self._printed is None or has_doubtful_jump(self._printed, rows.values):
            return None
        self._printed = float(rows.values[-1])
        self._lines.leave(data[end:])
        self._usual.note_many(shape.value_shape, len(rows))
        self._form.note_readings(len(rows))
        return rows

    def _decode(self, raw: bytes, bytes_after: int) -> TextReading | RefusedLine | None:
        is_first, self._is_first = self._is_first, False
        if len(raw) > _LINE_LIMIT + 1:
            return RefusedLine(raw[:_LINE_LIMIT], "damaged", f"a line of more than {_LINE_LIMIT} bytes")
        raw = raw.rstrip(b"\r")
        body = self._checked(raw)
        if body is None:
            return RefusedLine(raw, "damaged", f"the check of the line {raw!r} is wrong or missing")
        text = body.decode("utf-8", errors="replace").removeprefix(_BYTE_ORDER_MARK)
        if not text.strip():
            return None
        cells = parse_cells(text, comma_separates=bool(self._rule.column))
        if isinstance(cells, Header):
            return self._header(cells, raw, separator_of(text.strip(" ")))
        if isinstance(cells, NotCells):
            return RefusedLine(raw, cells.code, cells.why)
        if is_first:
            return None
        result = self._reading(self._names.named(cells), raw, bytes_after)
        if isinstance(result, TextReading) and cells.form == "columns":
            self._separator = separator_of(text.strip(" "))
        return result

    def _checked(self, raw: bytes) -> bytes | None:
        """Return the line without its check, or None if that is wrong, or missing where it is usual."""
        found = _CHECK.fullmatch(raw)
        if found is None:
            return raw if self._checks_seen < _CHECKS_TO_EXPECT else None
        if functools.reduce(operator.xor, found.group(1), 0) != int(found.group(2), 16):
            return None
        self._checks_seen += 1
        return found.group(1)

    def _header(self, header: Header, raw: bytes, separator: str | None) -> RefusedLine | None:
        """Take the names of the columns; a sentence that the board prints between its lines names none."""
        columns = self._form.columns
        if self._form.has_readings and (not columns or separator != self._separator):
            return RefusedLine(raw, "not_a_reading", f"the line {raw!r} holds no reading")
        if columns and len(header.names) != columns and not self._names.are(header.names):
            why = f"the header {raw!r} names {len(header.names)} columns where the lines have {columns}"
            return RefusedLine(raw, "header_unfit", why)
        self._names.take(header.names, self._rule.recorded)
        return None

    def _reading(self, row: Row, raw: bytes, bytes_after: int) -> TextReading | RefusedLine | None:
        self._rule.see(row)
        was_known = self._form.is_known
        if not self._form.is_usual(row):
            return _refused(raw, self._form.objection(raw)) if was_known else None
        unfit = self._names.unfit(row)
        if unfit is not None:
            return _refused(raw, unfit)
        picked = self._names.objection() or self._rule.pick(row)
        if not isinstance(picked, Picked):
            return None if picked.code == "first_row" else _refused(raw, picked)
        self._form.note_readings(1)
        cell = picked.cell
        if cell.value is None:
            value, quality = math.copysign(math.inf, cell.overload), Quality.OVERLOAD
        else:
            value, quality = float(cell.value), self._quality(cell)
        reading = TextReading(raw, value, quality, picked.time, bytes_after)
        self._last = reading if quality == Quality.GOOD and not cell.unit else None
        return reading

    def _quality(self, cell: Cell) -> Quality:
        """Flag a number that is written in another way than those before, or in another unit."""
        assert cell.value is not None
        has_other_unit = cell.unit != self._unit and self._usual.has_any
        self._unit = cell.unit
        if cell.shape is None:
            return Quality.GOOD
        is_doubtful = self._is_doubtful_jump(cell, cell.shape)
        ends_in_zero = cell.shape.decimals > 0 and cell.value.as_tuple().digits[-1] == 0
        is_odd = self._usual.is_odd(cell.shape, ends_in_zero=ends_in_zero)
        return Quality.SUSPECT if is_odd or has_other_unit or is_doubtful else Quality.GOOD

    def _is_doubtful_jump(self, cell: Cell, shape: NumberShape) -> bool:
        """Whether the number is far from the one before, and may owe that to a character that was lost."""
        assert cell.value is not None
        sign, digits, _ = cell.value.as_tuple()
        printed = int("".join(map(str, digits))) / 10**shape.decimals * (-1 if sign else 1)
        if shape.width:  # with an exponent; its width tells
            printed = float(cell.value)
        before, self._printed = self._printed, printed
        if before is None or not is_jump(before, printed):
            return False
        return lost_a_character(before, printed) or not self._usual.is_most_common(shape)


def _refused(raw: bytes, reason: NotCells) -> RefusedLine:
    return RefusedLine(raw, reason.code, reason.why)


class _Lines:
    """Cuts bytes at LF; keeps no more of an endless line than tells that it is one."""

    def __init__(self) -> None:
        self._partial = bytearray()

    @property
    def pending(self) -> int:
        return len(self._partial)

    @property
    def partial(self) -> bytes:
        return bytes(self._partial)

    def leave(self, partial: bytes) -> None:
        """Go on with the beginning of a line."""
        self._partial[:] = partial

    def feed(self, data: bytes) -> list[tuple[bytes, int]]:
        """Return complete lines without their LF, and how many bytes of `data` follow each.

        Of a line beyond the limit enough is left to see that it is.
        """
        lines = []
        begin = 0
        while (end := data.find(b"\n", begin)) >= 0:
            line = bytes(self._partial) + data[begin:end]
            lines.append((line[: _LINE_LIMIT + 2], len(data) - end - 1))
            self._partial.clear()
            begin = end + 1
        self._partial += data[begin : begin + _LINE_LIMIT + 2 - len(self._partial)]
        return lines
