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
from dataclasses import dataclass, replace

from drivers.formats.number_shape import UsualShape
from drivers.formats.text_cells import Header, NotCells, Row, parse_cells
from drivers.formats.text_columns import BoardTime, ColumnRule, Picked
from drivers.formats.text_rows import RowShape, TextRows, shape_of_line
from drivers.samples import Quality

__all__ = ["BoardTime", "RefusedLine", "TextDecoder", "TextReading", "TextRows"]

_LINE_LIMIT = 256
_BYTE_ORDER_MARK = "\ufeff"
_CHECK = re.compile(rb"(.*) \*([0-9A-Fa-f]{2})\s*", re.DOTALL)
_CHECKS_TO_EXPECT = 3
_ROWS_TO_CHANGE_FORM = 2
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
        self._names: tuple[str, ...] = ()
        self._checks_seen = 0
        self._is_first = True
        self._form: tuple[str, ...] | None = None
        self._other_form: tuple[str, ...] | None = None
        self._other_rows = 0
        self._last: TextReading | None = None
        self._shape: RowShape | None = None

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
        self._lines.leave(data[end:])
        self._usual.note_many(shape.value_shape, len(rows))
        self._other_rows = 0
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
            self._names = cells.names
            return None
        if isinstance(cells, NotCells):
            return RefusedLine(raw, cells.code, cells.why)
        if is_first:
            return None
        return self._reading(self._named(cells), raw, bytes_after)

    def _checked(self, raw: bytes) -> bytes | None:
        """Return the line without its check, or None if that is wrong, or missing where it is usual."""
        found = _CHECK.fullmatch(raw)
        if found is None:
            return raw if self._checks_seen < _CHECKS_TO_EXPECT else None
        if functools.reduce(operator.xor, found.group(1), 0) != int(found.group(2), 16):
            return None
        self._checks_seen += 1
        return found.group(1)

    def _named(self, row: Row) -> Row:
        if row.form != "columns" or len(row.cells) != len(self._names):
            return row
        return replace(
            row, cells=tuple(replace(c, name=n) for c, n in zip(row.cells, self._names, strict=True))
        )

    def _reading(self, row: Row, raw: bytes, bytes_after: int) -> TextReading | RefusedLine | None:
        if not self._has_usual_form(row):
            if self._form is None:
                return None
            return RefusedLine(raw, "damaged", f"the line {raw!r} has other columns than those before")
        picked = self._rule.pick(row)
        if not isinstance(picked, Picked):
            return RefusedLine(raw, picked.code, picked.why)
        cell = picked.cell
        quality = Quality.GOOD
        if cell.value is None:
            value, quality = math.copysign(math.inf, cell.overload), Quality.OVERLOAD
        else:
            value = float(cell.value)
            if cell.shape is not None:
                ends_in_zero = cell.shape.decimals > 0 and cell.value.as_tuple().digits[-1] == 0
                if self._usual.is_odd(cell.shape, ends_in_zero=ends_in_zero):
                    quality = Quality.SUSPECT
        reading = TextReading(raw, value, quality, picked.time, bytes_after)
        self._last = reading if quality == Quality.GOOD and not cell.unit else None
        return reading

    def _has_usual_form(self, row: Row) -> bool:
        """Take note of the row's form; a new one is believed when it has come twice running."""
        form: tuple[str, ...] = (row.form,)
        if row.form == "columns":  # elsewhere the names tell what is there
            form = (row.form, *(cell.name or str(place) for place, cell in enumerate(row.cells)))
        if form == self._form:
            self._other_rows = 0
            return True
        self._other_rows = self._other_rows + 1 if form == self._other_form else 1
        self._other_form = form
        if self._other_rows < _ROWS_TO_CHANGE_FORM:
            return False
        self._form, self._other_rows = form, 0
        return True


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
