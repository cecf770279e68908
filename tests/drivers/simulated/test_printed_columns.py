"""What an emulated board prints, read back by the decoder of lines."""

from __future__ import annotations

import math
from decimal import Decimal

import pytest

from drivers.formats.text_cells import Header, Row, parse_cells, time_unit_of
from drivers.simulated.printed_columns import LINE_STYLES, TIME_COLUMNS, PrintedColumns

COLUMNS = ("time_ms", "cell_voltage", "temperature", "shunt_voltage")


@pytest.mark.parametrize("style", LINE_STYLES)
def test_every_style_is_read_back(style: str):
    printed = PrintedColumns(COLUMNS, style)
    assert printed.quantities == ("cell_voltage", "temperature", "shunt_voltage")
    row = parse_cells(printed.line(1_234_567, (2.25101, 22.5, -24.00004)), comma_separates=True)
    assert isinstance(row, Row)
    assert [cell.value for cell in row.cells] == [
        Decimal(1234), Decimal("2.2510"), Decimal("22.50"), Decimal("-24.0000"),
    ]  # fmt: skip
    if style in ("json", "pairs"):
        assert tuple(cell.name for cell in row.cells) == COLUMNS
    if style == "pairs":
        assert [cell.unit for cell in row.cells] == ["", "V", "C", "V"]


@pytest.mark.parametrize("style", LINE_STYLES)
def test_what_is_no_number_is_no_value(style: str):
    row = parse_cells(PrintedColumns(COLUMNS, style).line(0, (math.nan, 22.5, 1.0)), comma_separates=True)
    assert isinstance(row, Row)
    assert row.cells[1].value is None
    assert row.cells[3].value == 1


def test_the_header_names_them_where_lines_do_not():
    header = parse_cells(PrintedColumns(COLUMNS, "tabs").header)
    assert header == Header(COLUMNS)
    assert PrintedColumns(COLUMNS, "json").header == ""


def test_the_board_counts_to_two_to_the_32():
    assert PrintedColumns(("time_us", "cell_voltage")).line((1 << 32) + 5, (1.0,)) == "5,1.0000"
    assert PrintedColumns(("time_ms", "cell_voltage")).line((1 << 32) * 1000, (1.0,)) == "0,1.0000"


def test_names_of_times_tell_their_unit():
    assert [time_unit_of(name) for name in TIME_COLUMNS] == ["us", "ms"]
