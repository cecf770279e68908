"""The data package of an earlier export: what it says of a run, and which file beside it holds what."""

from __future__ import annotations

import hashlib
import json
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path
from typing import Any

from drivers.samples import ROLES
from logger.analysis.chosen_windows import ChosenWindow, chosen_windows
from logger.clean_text import clean_text
from logger.errors import LoggerError
from logger.export.channel_files import plain_name
from logger.export.older_set import PACKAGE_NAME
from logger.import_csv import CHANNEL
from logger.recording import LONGEST_S
from logger.special_file import is_special

__all__ = ["PACKAGE_ENDING", "ListedChannel", "Package", "PackageRefused", "package_beside", "read_package"]

PACKAGE_ENDING = ".datapackage.json"
"""What an export puts behind its own name; a package that was renamed since has any other."""

LARGEST_BYTES = 16 * 2**20
VOLTAGE_FIELD = f"{CHANNEL}_V"
LONGEST_UNIT = 20
LONGEST_TOLD = 80
LONGEST_TITLE = 500
TABLES = ("moments", "gaps", "pictures", "bench", "findings")
PICTURE = "picture-"
POSSIBLE_YEARS = range(1900, 9000)
"""A start in others is a slip; near the ends of the calendar the end of a run has no date (no source)."""


class PackageRefused(LoggerError, ValueError):
    """A data package cannot be imported: file, reason, remedy."""


@dataclass(frozen=True, slots=True)
class ListedChannel:
    """A channel that a package tells of: where its readings are, in which column, and what it is.

    `listed_name` is what the other tables of the package call it; `name` what a recording takes.
    """

    path: Path
    column: str
    listed_name: str
    name: str
    role: str
    unit: str
    is_simulated: bool = False


@dataclass(frozen=True, slots=True)
class Package:
    """A data package as an export writes it.

    `start_time` (ISO 8601 with offset) and `duration_s` are None where they are not told. `tables` are the
    files that it names beside it, by their names in it (moments, gaps, bench, pictures); `voltage_name` is
    what they call the channel of the readings, `voltage_column` its column, `is_simulated` tells whether the
    simulated cell made them; `channels` are the further ones, `left_out` the files of which it does not tell
    what they are, and `elsewhere` what does not lie beside it; `digests` the checksums of all these files;
    `chosen` the settled stretches that a person chose.
    """

    readings: Path
    title: str = ""
    start_time: str | None = None
    time_zone: str = ""
    duration_s: float | None = None
    tables: dict[str, Path] = field(default_factory=dict)
    voltage_name: str = ""
    voltage_column: str = VOLTAGE_FIELD
    is_simulated: bool = False
    channels: tuple[ListedChannel, ...] = ()
    left_out: tuple[str, ...] = ()
    elsewhere: tuple[str, ...] = ()
    digests: dict[Path, str] = field(default_factory=dict)
    chosen: dict[str, ChosenWindow] = field(default_factory=dict)

    @property
    def recorded_name(self) -> str:
        """What the channel of the readings is called in a recording."""
        return plain_name(self.voltage_name) if self.voltage_name else CHANNEL

    def is_changed(self, path: Path) -> bool:
        """Tell whether a file is another than the package was made for. Raises OSError."""
        digest = self.digests.get(path)
        if not digest:
            return False
        with path.open("rb") as file:
            return f"sha256:{hashlib.file_digest(file, 'sha256').hexdigest()}" != digest


def package_beside(readings: Path) -> Package | None:
    """Return the package of an export whose readings these are, where it lies beside them; else None."""
    path = readings.parent / (readings.stem + PACKAGE_ENDING)
    try:
        return read_package(path) if path.is_file() else None
    except PackageRefused:
        return None  # of another program; the readings are taken as they are


def read_package(path: Path) -> Package:
    """Read a data package of an export.

    Raises
    ------
    PackageRefused : it cannot be read, is of another program, or names no readings of a cell voltage.
    """
    document = _document(path)
    if document.get("name") != PACKAGE_NAME:
        raise PackageRefused(
            f"{path} is no data package of an exported run; import its table of readings instead, with "
            "--time and --voltage"
        )
    resources = _objects(document.get("resources"))
    files = {name: one for one in resources if (name := _plain_file(one.get("path")))}
    main = _readings(path, files)
    run = document.get("run")
    run = run if isinstance(run, dict) else {}
    further = {name: one for name, one in files.items() if name != main and "quality" in _fields(one)}
    voltage = _channel(path.with_name(main), files[main])
    names = {voltage.name if voltage else CHANNEL}
    channels: dict[str, ListedChannel] = {}
    for name, one in further.items():
        told = _channel(path.with_name(name), one)
        if told and told.name not in names:
            channels[name] = told
            names.add(told.name)
    return Package(
        readings=path.with_name(main),
        title=clean_text(str(document.get("title") or ""), LONGEST_TITLE),
        start_time=_date(document.get("created")),
        time_zone=clean_text(str(run.get("time_zone") or ""))[:100],
        duration_s=_seconds(run.get("duration_s")),
        tables={str(one.get("name")): path.with_name(name) for name, one in files.items()},
        chosen=chosen_windows(json.dumps(run)),
        voltage_name=voltage.listed_name if voltage else "",
        voltage_column=voltage.column if voltage else VOLTAGE_FIELD,
        is_simulated=bool(voltage and voltage.is_simulated),
        channels=tuple(channels.values()),
        digests={path.with_name(name): str(one.get("hash") or "") for name, one in files.items()},
        left_out=tuple(
            name for name, one in files.items() if name not in (main, *channels) and not _is_table(one)
        ),
        elsewhere=tuple(_told(one.get("path")) for one in resources if not _plain_file(one.get("path"))),
    )


def _readings(package: Path, files: dict[str, dict[str, Any]]) -> str:
    """Return the file of the cell voltage: the one that has the package's name, else the first."""
    found = [name for name, one in files.items() if _is_cell_voltage(one)]
    if not found:
        raise PackageRefused(
            f"{package} names no readings of a cell voltage; import a table of it with --voltage"
        )
    own = package.name.removesuffix(PACKAGE_ENDING).casefold()  # or .CSV, as it was named
    return next((name for name in found if name.casefold() == f"{own}.csv"), found[0])


def _is_cell_voltage(resource: dict[str, Any]) -> bool:
    """Tell whether a table holds that, be its channel called as it may."""
    told, fields = resource.get("channel"), _fields(resource)
    is_told = isinstance(told, dict) and told.get("role") == CHANNEL and "quality" in fields
    return is_told or VOLTAGE_FIELD in fields


def _channel_name(resource: dict[str, Any]) -> str:
    told = resource.get("channel")
    return str(told.get("name") or "") if isinstance(told, dict) else ""


def _channel(path: Path, resource: dict[str, Any]) -> ListedChannel | None:
    """Return the channel whose readings a table holds; None where the package does not tell what it is."""
    told = resource.get("channel")
    columns = [name for name in _fields(resource) if name not in ("time_s", "quality")]
    if not isinstance(told, dict) or told.get("role") not in ROLES or len(columns) != 1:
        return None
    name, unit = _channel_name(resource), clean_text(str(told.get("unit") or ""))[:LONGEST_UNIT]
    if not name:
        return None
    is_simulated = told.get("simulated") is True
    return ListedChannel(path, columns[0], name, plain_name(name), told["role"], unit, is_simulated)


def _document(path: Path) -> dict[str, Any]:
    try:
        is_like_one = not is_special(path) and path.stat().st_size <= LARGEST_BYTES
        document = json.loads(path.read_text("utf-8")) if is_like_one else None
    except OSError as error:
        raise PackageRefused(
            f"{path} cannot be read ({error.strerror}); check the name and permissions"
        ) from error
    except (ValueError, RecursionError) as error:
        raise PackageRefused(f"{path} is no data package: it is not JSON in UTF-8; check the name") from error
    if not is_like_one:
        raise PackageRefused(f"{path} is no file of the size of a data package; check the name")
    return document if isinstance(document, dict) else {}


def _plain_file(name: Any) -> str:
    """Return the name of a file beside the package; empty for anything else."""
    is_plain = isinstance(name, str) and not set(name) & set("/\\:\0") and name not in ("", ".", "..")
    return name if is_plain else ""


def _is_table(resource: dict[str, Any]) -> bool:
    """Tell whether it is one of the tables beside the readings, or a picture."""
    name = str(resource.get("name"))
    return "quality" not in _fields(resource) and (name in TABLES or name.startswith(PICTURE))


def _told(name: Any) -> str:
    """Return what a package says instead of the name of a file, fit to be shown."""
    return clean_text(str(name), LONGEST_TOLD) or "a table without a name"


def _fields(resource: dict[str, Any]) -> list[str]:
    schema = resource.get("schema")
    fields = schema.get("fields") if isinstance(schema, dict) else None
    return [str(one.get("name")) for one in _objects(fields)]


def _objects(value: Any) -> list[dict[str, Any]]:
    return [one for one in value if isinstance(one, dict)] if isinstance(value, list) else []


def _date(value: Any) -> str | None:
    try:
        date = datetime.fromisoformat(value)
    except (TypeError, ValueError):
        return None
    return str(value) if date.utcoffset() is not None and date.year in POSSIBLE_YEARS else None


def _seconds(value: Any) -> float | None:
    is_number = isinstance(value, int | float) and not isinstance(value, bool)
    return float(value) if is_number and 0 <= value < LONGEST_S else None
