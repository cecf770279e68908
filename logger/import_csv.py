"""Text tables of other origin: readings, moments and gaps, taken as they are or refused."""

from __future__ import annotations

import contextlib
import csv
import math
import os
import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path
from typing import TextIO

import numpy as np
from numpy.typing import NDArray

from drivers.samples import Quality
from logger.clean_text import clean_text
from logger.errors import LoggerError
from logger.export.spreadsheet_text import unguard_formula
from logger.moments import Moment, MomentError, check_length, check_number, new_moment
from logger.progress import Progress
from logger.recording import Gap
from logger.special_file import is_special

__all__ = [
    "CHANNEL",
    "ImportRefused",
    "Readings",
    "read_column",
    "read_gaps",
    "read_moments",
    "read_readings",
    "table_rows",
]


_ID = re.compile("[0-9a-f]{32}")
_NUMERAL = re.compile(r"[-+.0-9A-Za-z]+")
"""What may be a number. Python itself takes 1_0 for ten, and the digits of any script."""

_BITS = re.compile("[0-9]{1,3}")

CHANNEL = "cell_voltage"
"""Name and role of the channel that is made."""

LONGEST_S = 366 * 86400.0
HIGHEST_V = 10_000.0
LONGEST_HEADER = 2**20
LINES_AT_ONCE = 4096
LONGEST_SHOWN = 300
RECORDING_ENDING = ".h5"
HIGHEST_STACK_V = 60.0
"""The limit of extra-low voltage, as for the stack of a bench file."""
AFTERTHOUGHT_S = 3600.0
"""A moment may be tagged that long after the last reading; later ones belong to another run."""


class ImportRefused(LoggerError, ValueError):
    """A text file cannot be taken as readings or moments: file, line, reason, remedy."""


@dataclass(frozen=True, slots=True)
class Readings:
    """Readings of one channel: run seconds, volts, quality bits; all of shape (n,)."""

    times_s: NDArray[np.float64]
    values: NDArray[np.float64]
    quality: NDArray[np.uint8]


def read_readings(
    path: Path, *, time: str = "time_s", voltage: str = "cell_voltage_V", progress: Progress | None = None
) -> Readings:
    """Read a CSV of readings with a header line.

    Fields are parted by commas, or by semicolons or tabs; then a decimal comma is taken too. Columns are
    found by name; others are left alone but for ``quality`` (bits, as exported). inf is taken only where the
    quality says overload: nothing else that is not a finite number is a reading.

    Raises
    ------
    ImportRefused : missing or doubled column, no reading, a field that is no number, time running backwards.
    """
    readings = read_column(path, time=time, column=voltage, check=_check_voltage, progress=progress)
    if not readings.times_s.size:
        raise ImportRefused(f"{path} holds no reading below its header line")
    _check_unit(path, readings.values)
    return readings


def read_column(
    path: Path,
    *,
    column: str,
    time: str = "time_s",
    check: Callable[[str, float], None] | None = None,
    progress: Progress | None = None,
) -> Readings:
    """Read one column of numbers of a CSV with their times and quality; see `read_readings`. It may be empty.

    `check` is given each finite value and where it stands ("file, line n"), to refuse it; `progress` is told
    how much of the file is read.

    Raises
    ------
    ImportRefused : as `read_readings`.
    """
    times: list[float] = []
    values: list[float] = []
    quality: list[int] = []
    previous_s = -math.inf
    for where, row in table_rows(path, (time, column), optional=("quality",), progress=progress):
        bits = _bits(where, row.get("quality", "0"))
        at_s = _number(where, time, row[time])
        value = _number(where, column, row[column], may_be_infinite=bool(bits & Quality.OVERLOAD))
        if at_s < previous_s:
            raise ImportRefused(
                f"{where}: time runs backwards ({at_s:g} s after {previous_s:g} s); sort the lines, "
                "or cut the file where a new run begins"
            )
        if at_s > LONGEST_S:
            raise ImportRefused(f"{where}: {at_s:g} s is over a year; times are seconds since the start")
        if check and math.isfinite(value):
            check(where, value)
        previous_s = at_s
        times.append(at_s)
        values.append(value)
        quality.append(bits)
    if times and times[0] < 0:
        raise ImportRefused(
            f"{path}: the first time is {times[0]:g} s; times count from the start of the run, from 0"
        )
    return Readings(np.array(times), np.array(values), np.array(quality, np.uint8))


def _check_voltage(where: str, value: float) -> None:
    if abs(value) > HIGHEST_V:
        raise ImportRefused(f"{where}: {value:g} V cannot be a cell's voltage; is the column in volts?")


def _check_unit(path: Path, values: NDArray[np.float64]) -> None:
    finite = np.abs(values[np.isfinite(values)])
    middle_V = float(np.median(finite)) if finite.size else 0.0
    if middle_V > HIGHEST_STACK_V:
        raise ImportRefused(
            f"{path}: half of the readings are {middle_V:g} V or more, and neither a cell nor its stack goes "
            f"beyond {HIGHEST_STACK_V:g} V; if the column is in millivolts, divide it by 1000 first"
        )


def read_moments(path: Path, *, last_reading_s: float = LONGEST_S) -> tuple[Moment, ...]:
    """Read a CSV of moments with the columns time_s, kind and label, of a run with that last reading.

    The columns id and noted_at, as exported, are taken where they are there.

    Raises
    ------
    ImportRefused : missing column, unknown kind, a time that is no number or long after the run, a label
        that must hold a number and does not, or is too long.
    """
    found = []
    ids: set[str] = set()
    for where, row in table_rows(path, ("time_s", "kind", "label"), optional=("id", "noted_at")):
        try:
            label = unguard_formula(row["label"])
            check_length(label)
            moment = new_moment(_number(where, "time_s", row["time_s"]), row["kind"], label)
            moment = _known_again(moment, row, ids)
            if moment.time_s > last_reading_s + AFTERTHOUGHT_S:
                raise MomentError(
                    f"{moment.time_s:g} s is long after the last reading ({last_reading_s:g} s)"
                )
            check_number(moment)
            found.append(moment)
        except MomentError as error:
            raise ImportRefused(f"{where}: {error}") from error
    return tuple(found)


def _known_again(moment: Moment, row: dict[str, str], ids: set[str]) -> Moment:
    """Give a moment the id and the date that it had where it was exported from."""
    known, noted_at = row.get("id", ""), row.get("noted_at", "")
    if _ID.fullmatch(known) and known not in ids:
        ids.add(known)
        moment = replace(moment, id=known)
    with contextlib.suppress(ValueError):
        if datetime.fromisoformat(noted_at).utcoffset() is not None:
            moment = replace(moment, noted_at=noted_at)
    return moment


def read_gaps(path: Path, channels: Mapping[str, str]) -> tuple[Gap, ...]:
    """Read a CSV of gaps with the columns begin_s, end_s, channel and reason.

    `channels` are the names of the channels in a recording by those in the table; others do not count.

    Raises
    ------
    ImportRefused : missing column, a time that is no number, or a gap that ends before it begins.
    """
    found = []
    for where, row in table_rows(path, ("begin_s", "end_s", "channel", "reason")):
        begin_s = _number(where, "begin_s", row["begin_s"])
        end_s = _number(where, "end_s", row["end_s"])
        if not 0 <= begin_s <= end_s <= LONGEST_S:
            raise ImportRefused(
                f"{where}: a gap from {begin_s:g} s to {end_s:g} s cannot be; correct or remove it"
            )
        name = channels.get(unguard_formula(row["channel"]))
        if name is not None:
            found.append(Gap(begin_s, end_s, name, clean_text(unguard_formula(row["reason"]))))
    return tuple(found)


def table_rows(
    path: Path,
    columns: tuple[str, ...],
    optional: tuple[str, ...] = (),
    progress: Progress | None = None,
) -> Iterator[tuple[str, dict[str, str]]]:
    """Yield ("file, line n", the wanted fields by name) for each line below the header."""
    if path.suffix.casefold() == RECORDING_ENDING:
        raise ImportRefused(f"{path} is a recording already; galvanote analyse and export take it as it is")
    if is_special(path):
        raise ImportRefused(f"{path} is no ordinary file; save what it gives as a file, and import that")
    try:
        with path.open(encoding="utf-8-sig", newline="") as file:
            delimiter = _delimiter(file.readline(LONGEST_HEADER))
            file.seek(0)
            lines = _lines(path, file if progress is None else _followed(file, progress), delimiter)
            header = [name.strip() for name in next(lines, (0, []))[1]]
            places = _places(path, header, columns, optional)
            for number, row in lines:
                if not any(field.strip() for field in row):
                    continue
                where = f"{path}, line {number}"
                if len(row) != len(header):
                    raise ImportRefused(
                        f"{where}: {len(row)} fields where the header names {len(header)}; "
                        "complete the line or remove it"
                    )
                found = {name: row[place].strip() for name, place in places.items()}
                if delimiter != ",":
                    found |= {name: _with_dot(found[name]) for name in found if name not in _TEXTS}
                yield where, found
    except UnicodeDecodeError as error:
        raise ImportRefused(f"{path} is not a text file in UTF-8; save it as CSV (UTF-8)") from error
    except OSError as error:
        raise ImportRefused(
            f"{path} cannot be read ({error.strerror}); check the name and permissions"
        ) from error


def _followed(file: TextIO, progress: Progress) -> Iterator[str]:
    """Pass lines on, and tell how much of the file has been read."""
    size = max(os.fstat(file.fileno()).st_size, 1)
    for number, line in enumerate(file):
        if number % LINES_AT_ONCE == 0:
            progress.reach(file.buffer.tell() / size)
        yield line


def _lines(path: Path, file: Iterable[str], delimiter: str) -> Iterator[tuple[int, list[str]]]:
    """Yield the number and the fields of each line. A line break within quotes does not end a line."""
    lines = csv.reader(file, strict=True, delimiter=delimiter)
    try:
        for row in lines:
            yield lines.line_num, row
    except csv.Error as error:
        raise ImportRefused(
            f"{path}, line {max(lines.line_num, 1)} is no line of CSV ({error}); correct or remove it"
        ) from error


_TEXTS = frozenset(
    {"kind", "label", "id", "noted_at", "channel", "reason", "file", "moment_id", "file_name", "media_type"}
    | {"sha256", "added_at", "note"}
)
"""Columns that hold no number: a comma in them is no decimal mark."""


def _with_dot(text: str) -> str:
    """Return a number with a dot in place of its comma; 1.000,5 stays what it is, and is refused as that."""
    return text if "." in text else text.replace(",", ".")


def _delimiter(header: str) -> str:
    """Semicolons or tabs in the header tell a table of countries that may write 2,25."""
    return "," if "," in header else next((mark for mark in ";\t" if mark in header), ",")


def _places(
    path: Path, header: list[str], columns: tuple[str, ...], optional: tuple[str, ...]
) -> dict[str, int]:
    if not any(header):
        raise ImportRefused(f"{path} is empty; its first line must name the columns {','.join(columns)}")
    for name in columns:
        if header.count(name) != 1:
            problem = "is not there" if name not in header else "stands there twice"
            raise ImportRefused(
                f"{path}, line 1: the column {name} {problem} (found: {_shown(', '.join(header))}); "
                "name the columns; of readings, say with --time and --voltage how yours are called"
            )
    return {name: header.index(name) for name in (*columns, *(o for o in optional if o in header))}


def _shown(text: str) -> str:
    """Return what stands in a file, fit for a message."""
    return clean_text(text, LONGEST_SHOWN)


def _number(where: str, name: str, text: str, *, may_be_infinite: bool = False) -> float:
    try:
        value = float(text if _NUMERAL.fullmatch(text) else "")
    except ValueError:
        hint = "; decimals take a dot" if "," in text else "; remove the line if nothing was read"
        raise ImportRefused(f"{where}: {name} {_shown(text)!r} is not a number{hint}") from None
    if math.isnan(value) or (math.isinf(value) and not may_be_infinite):
        raise ImportRefused(
            f"{where}: {name} is {_shown(text)}, not a finite number; remove the line if nothing was read"
        )
    return value


def _bits(where: str, text: str) -> int:
    if not _BITS.fullmatch(text) or int(text) > 255:
        raise ImportRefused(f"{where}: quality {_shown(text)!r} is not a whole number from 0 to 255")
    return int(text)
