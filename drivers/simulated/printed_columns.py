"""Lines of several columns, as an emulated board prints them: board time and any quantities of the cell.

The inverse of `drivers.formats.text_cells`. Pure.
"""

from __future__ import annotations

import difflib
import json
import math
from collections.abc import Callable, Collection, Sequence

from drivers.errors import AddressError

__all__ = ["LINE_STYLES", "TIME_COLUMNS", "PrintedColumns", "check_columns"]

TIME_COLUMNS = {"time_us": 1, "time_ms": 1000}
"""Columns that hold the board's own time, and how many of its microseconds one count lasts."""

_WRAP = 1 << 32
_SEPARATORS = {"commas": ",", "tabs": "\t", "semicolons": ";", "blanks": " "}
_DECIMALS_AND_UNIT = {"temperature": (2, "C")}
_OF_VOLTAGES = (4, "V")


class PrintedColumns:
    """How a board prints its columns.

    Parameters
    ----------
    columns : names, each a quantity or one of `TIME_COLUMNS`, in the order in which they are printed.
    style : one of `LINE_STYLES`; ``semicolons`` has decimal commas, ``pairs`` carries units.
    """

    def __init__(self, columns: Sequence[str], style: str = "commas") -> None:
        self.columns = tuple(columns)
        self._style = style
        self._write = _STYLES[style]

    @property
    def quantities(self) -> tuple[str, ...]:
        """The columns that are no times, in their order."""
        return tuple(name for name in self.columns if name not in TIME_COLUMNS)

    @property
    def header(self) -> str:
        """A first line that names the columns; "" where each line does."""
        return _SEPARATORS[self._style].join(self.columns) if self._style in _SEPARATORS else ""

    def line(self, board_us: int, values: Sequence[float]) -> str:
        """Return one line, without its end: the board's microseconds and a value for each quantity."""
        left = iter(values)
        texts = [
            str(board_us // TIME_COLUMNS[name] % _WRAP) if name in TIME_COLUMNS else _number(name, next(left))
            for name in self.columns
        ]
        return self._write(self.columns, texts)


def check_columns(columns: Sequence[str], known: Collection[str]) -> None:
    """Refuse columns that cannot be printed.

    Raises
    ------
    AddressError : none is a quantity, one is named twice, or unknown (the nearest known one is given).
    """
    for name in columns:
        if name not in known:
            near = difflib.get_close_matches(name, known, n=1, cutoff=0.5)
            hint = f"; did you mean {near[0]}?" if near else ""
            raise AddressError(f"no column {name!r} can be emulated{hint} (known: {', '.join(known)})")
        if columns.count(name) > 1:
            raise AddressError(f"the column {name} is named twice; name each once")
    if all(name in TIME_COLUMNS for name in columns):
        raise AddressError("only times would be printed; add a quantity, for example cell_voltage")


def _number(name: str, value: float) -> str:
    return f"{value:.{_DECIMALS_AND_UNIT.get(name, _OF_VOLTAGES)[0]}f}"


def _separated(separator: str) -> Callable[[Sequence[str], Sequence[str]], str]:
    def write(_: Sequence[str], texts: Sequence[str]) -> str:
        line = separator.join(texts)
        return line.replace(".", ",") if separator == ";" else line

    return write


def _json(names: Sequence[str], texts: Sequence[str]) -> str:
    cells = (
        f"{json.dumps(name)}:{text if math.isfinite(float(text)) else 'null'}"
        for name, text in zip(names, texts, strict=True)
    )
    return f"{{{','.join(cells)}}}"


def _pairs(names: Sequence[str], texts: Sequence[str]) -> str:
    return " ".join(f"{name}={text}{_unit(name, text)}" for name, text in zip(names, texts, strict=True))


def _unit(name: str, text: str) -> str:
    if name in TIME_COLUMNS or not math.isfinite(float(text)):
        return ""
    return _DECIMALS_AND_UNIT.get(name, _OF_VOLTAGES)[1]


_STYLES = {name: _separated(separator) for name, separator in _SEPARATORS.items()} | {
    "json": _json,
    "pairs": _pairs,
}
LINE_STYLES = tuple(_STYLES)
"""The ways to print several columns."""
