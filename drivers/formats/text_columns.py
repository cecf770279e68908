"""Which cell of a row is the voltage and which the board's time, and what only the user can tell."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace
from decimal import Decimal

from drivers.formats.text_cells import Cell, NotCells, Row, time_unit_of, voltage_unit_of

__all__ = ["VOLT_UNITS", "BoardTime", "ColumnRule", "Picked"]

VOLT_UNITS = {"V": Decimal(1), "VDC": Decimal(1), "mV": Decimal("0.001")}
"""The units of a voltage, each with its size in volts."""

_TICKS_PER_SECOND_OF_TEXT = Decimal(1_000_000)
_TICKS_LIMIT = 1 << 62  # no board counts so far; a recording's ticks are 64 bits wide
_ROWS_TO_TAKE_NAME = 2
_RIVALS_TOLERATED = 1 / 3
_DIGITS_OF_A_NUMBER = 5


@dataclass(frozen=True, slots=True)
class BoardTime:
    """The board's time: whole `ticks` of `unit` (``ms``, ``us``, or "" while nothing tells)."""

    ticks: int
    unit: str


@dataclass(frozen=True, slots=True)
class Picked:
    """The cell that is the voltage, in volts if it has a unit, and the board's time if there is one."""

    cell: Cell
    time: BoardTime | None


class ColumnRule:
    """Picks the cells of each row.

    Where names tell what is there (JSON, pairs), a column that was chosen by its number, or taken as the only
    voltage, is from then on known by its name: lines may leave out others, or this one.

    Parameters
    ----------
    column : the user's choice, a number from 1 or a name; "" to take the only voltage there is.
    takes_counts : whether whole numbers without a unit may be taken, because the user gave a scale.
    takes_any_unit : whether units other than volts may be taken, because the channel is no voltage.
    """

    def __init__(self, column: str = "", *, takes_counts: bool = False, takes_any_unit: bool = False) -> None:
        self.column = column
        self._takes_counts = takes_counts
        self._takes_any_unit = takes_any_unit
        self._decimal_columns: set[int] = set()
        self._columns = 0
        self._name = ""
        self._names_seen: Counter[str] = Counter()
        self._place_taken: int | None = None

    @property
    def recorded(self) -> str | int | None:
        """The name or the place, from 0, by which the column is known; None before the first was picked."""
        is_by_place = not self.column or _is_number(self.column)
        return self._place_taken if is_by_place or self._place_taken is None else self.column

    def see(self, row: Row) -> None:
        """Take note of the names of a row, also of one that is not picked from."""
        if row.form != "columns" and not self._name:
            place = self._any_place(row)
            if isinstance(place, int):
                self._names_seen[row.cells[place].name] += 1

    def pick(self, row: Row) -> Picked | NotCells:
        """Return the voltage and the time of `row`, or why it cannot be told which they are."""
        if len(row.cells) != self._columns:
            self._columns = len(row.cells)
            self._decimal_columns.clear()
        self._decimal_columns |= {
            place for place, cell in enumerate(row.cells) if cell.shape is not None and not cell.is_whole
        }
        place = self._place(row)
        if isinstance(place, NotCells):
            return place
        cell = row.cells[place]
        refusal = self._refusal(cell, place, row.form)
        if refusal is not None:
            return refusal
        self._place_taken = place
        return Picked(_in_volts(cell), self._time(row, place))

    def _place(self, row: Row) -> int | NotCells:
        """Find the place of the voltage: the chosen column, or the only one that can be it."""
        if row.form == "columns" or (self.column and not _is_number(self.column)):
            return self._any_place(row)
        if not self._name:
            place = self._any_place(row)
            objection = self._take_name(row.cells[place].name) if isinstance(place, int) else place
            if objection is not None:
                return objection
        names = [cell.name for cell in row.cells]
        if self._name in names:
            return names.index(self._name)
        return NotCells(
            "name_missing",
            f"a line without {self._name}, which is recorded (it has {', '.join(names)}). If another one is "
            f"meant, name it in the address: column={names[0]}",
        )

    def _take_name(self, name: str) -> NotCells | None:
        """Settle on a name that comes again and again; say why not, where others do too."""
        times = self._names_seen[name]
        rivals = self._names_seen.total() - times
        if rivals > times * _RIVALS_TOLERATED:
            known = ", ".join(sorted(self._names_seen))
            return NotCells(
                "column_needed",
                f"several names may be the voltage ({known}). Add the one to record to the address, for "
                f"example column={name}; a list of names fills a channel each.",
            )
        if times < _ROWS_TO_TAKE_NAME:
            return NotCells("first_row", "the first line of its kind")
        self._name = name
        return None

    def _any_place(self, row: Row) -> int | NotCells:
        """Find the place by this row alone."""
        if self.column:
            return self._chosen(row)
        places = [place for place, cell in enumerate(row.cells) if self._may_be_voltage(row, place, cell)]
        if len(places) == 1:
            return places[0]
        if not places:
            return self._no_voltage(row)
        named = ", ".join(row.cells[place].name or str(place + 1) for place in places)
        example = row.cells[places[0]].name or places[0] + 1
        return NotCells(
            "column_needed",
            f"several columns may be the voltage ({named}). Add the one to record to the address, for "
            f"example column={example}; a list of columns fills a channel each.",
        )

    def _chosen(self, row: Row) -> int | NotCells:
        if _is_number(self.column) and 1 <= int(self.column) <= len(row.cells):
            return int(self.column) - 1
        names = [cell.name for cell in row.cells]
        if self.column in names:
            return names.index(self.column)
        known = ", ".join(filter(None, names)) or f"1 to {len(names)}"
        if not any(names) and not _is_number(self.column):
            return NotCells(
                "header_missing",
                f"no line has named the columns yet, so {self.column} is not known. Press the board's reset "
                f"button if it prints the names when it starts, or give the number: column={known}.",
            )
        return NotCells(
            "column_missing" if row.form == "columns" else "name_missing",
            f"the lines have no column {self.column} (they have {known}). Change column= in the address.",
        )

    def _may_be_voltage(self, row: Row, place: int, cell: Cell) -> bool:
        if cell.is_empty:
            return place == self._place_taken
        if cell.unit:
            return cell.unit in VOLT_UNITS
        if cell.name:
            return voltage_unit_of(cell.name) is not None
        if place == 0 and len(row.cells) > 1 and cell.is_whole:
            return False  # a time or a count
        return self._takes_counts or place in self._decimal_columns or cell.value is None

    def _no_voltage(self, row: Row) -> NotCells:
        if any(cell.unit for cell in row.cells):
            units = ", ".join(cell.unit for cell in row.cells if cell.unit)
            return NotCells("not_volts", f"the lines are in {units}, not in V or mV. Set the board to volts.")
        if any(cell.is_empty for cell in row.cells):
            return _no_value()
        names = [cell.name for cell in row.cells if cell.name and time_unit_of(cell.name) is None]
        if names and not all(cell.is_whole for cell in row.cells):
            return NotCells(
                "column_needed",
                f"no name says which column is the voltage ({', '.join(names)}). Add column={names[0]} to "
                "the address if that is the one.",
            )
        return _counts()

    def _refusal(self, cell: Cell, place: int, form: str) -> NotCells | None:
        """Say why a chosen cell must not be recorded, or None if it may."""
        if cell.unit and cell.unit not in VOLT_UNITS and not self._takes_any_unit:
            return NotCells(
                "not_volts", f"the column is in {cell.unit}, not in V or mV. Choose another column."
            )
        is_bare = cell.is_whole and not cell.unit and voltage_unit_of(cell.name) != "mV"
        if is_bare and not self._takes_counts:
            if place not in self._decimal_columns:
                return _counts()
            if form == "columns":  # json and pairs may leave out decimals that are 0
                return NotCells("damaged", f"{cell.value} is whole, where the numbers before had decimals")
        if cell.value is None and not cell.overload:
            return _no_value()
        return None

    def _time(self, row: Row, voltage_place: int) -> BoardTime | None:
        for place, cell in enumerate(row.cells):
            unit = time_unit_of(cell.name) if cell.name else None
            if unit is not None and place != voltage_place and cell.value is not None:
                return _board_time(cell, unit)
        first = row.cells[0]
        if len(row.cells) > 1 and voltage_place != 0 and not first.name and first.is_whole and not first.unit:
            return _board_time(first, "")
        return None


def _board_time(cell: Cell, unit: str) -> BoardTime | None:
    """Return the time that a cell tells, None for a number beyond all counters."""
    assert cell.value is not None
    if unit == "s" or not cell.is_whole:
        time = BoardTime(int(cell.value * _TICKS_PER_SECOND_OF_TEXT), "us")
    else:
        time = BoardTime(int(cell.value), unit)
    return time if abs(time.ticks) < _TICKS_LIMIT else None


def _is_number(column: str) -> bool:
    return column.isascii() and column.isdigit() and len(column) < _DIGITS_OF_A_NUMBER


def _in_volts(cell: Cell) -> Cell:
    factor = VOLT_UNITS.get(cell.unit or voltage_unit_of(cell.name) or "", Decimal(1))
    return cell if cell.value is None or factor == 1 else replace(cell, value=cell.value * factor)


def _no_value() -> NotCells:
    return NotCells("no_value", "the board says that it has no value")


def _counts() -> NotCells:
    return NotCells(
        "raw_counts",
        "the numbers are whole: counts of a converter, not volts. Add scale= (volts per count) to the "
        "address, for example scale=0.0048828125.",
    )
