"""A recording as CSV tables (RFC 4180) with a Frictionless data package that describes them."""

from __future__ import annotations

import csv
import hashlib
import io
import itertools
import json
import re
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

from drivers.samples import Quality
from logger.analysis.chosen_windows import chosen_windows, told_windows
from logger.clean_text import clean_text
from logger.export.atomic import refuse_what_exists, written_together
from logger.export.channel_files import channel_files, plain_name
from logger.export.findings_rows import findings_rows
from logger.export.older_set import PACKAGE_NAME, left_over
from logger.export.picture_files import PICTURE_FIELDS, picture_files, written_pictures
from logger.export.reading_lines import ROWS_AT_ONCE, reading_lines
from logger.export.spreadsheet_text import guard_formula
from logger.moment_pictures import MomentPicture
from logger.progress import Progress
from logger.recording import ChannelData, Recording
from logger.version import PROGRAM, VERSION

__all__ = ["export_csv", "left_over_by_tables", "table_files"]

BYTE_ORDER_MARK = "\ufeff"
NOTHING_TOLD: Mapping[str, Any] = {}


def export_csv(
    recording: Recording,
    out: Path,
    findings: Mapping[str, Any] | None = None,
    *,
    replace: bool = False,
    decimal_comma: bool = False,
    progress: Progress | None = None,
) -> list[Path]:
    """Write the readings to `out` and, beside it, further channels, moments, pictures, gaps, findings, …

    `out` holds the cell voltage (else the first channel). Numbers have every digit that the recording holds,
    so that nothing is lost; overload is written as inf or -inf. Usually they have a dot; with `decimal_comma`
    they have a comma, fields are parted by semicolons, and a byte order mark tells a spreadsheet that it is
    UTF-8. Without `findings` there is no table of them. The files appear all together or not at all. Where
    they replace older ones, what the older data package names and the new one does not is removed.

    Raises
    ------
    OutputExists : one of the files exists and may not be replaced; nothing was written.
    Cancelled : `progress` was told to stop.
    LoggerError : the folder cannot be written, or a file to be removed was changed since it was written.
    """
    tables = _Tables(recording, out, findings, decimal_comma)
    refuse_what_exists(tables.paths, replace=replace)
    left_over_by_tables(tables.paths)
    with written_together(replace=replace, obsolete=lambda: left_over_by_tables(tables.paths)) as begin:
        return tables.write(begin, progress or Progress())


def table_files(recording: Recording, out: Path, *, has_findings: bool) -> list[Path]:
    """Return every file that `export_csv` writes, the data package last."""
    return _Tables(recording, out, {} if has_findings else None, decimal_comma=False).paths


def left_over_by_tables(files: Sequence[Path]) -> list[Path]:
    """Return the files of an older set of tables that the new one, `files`, has not.

    Raises
    ------
    LoggerError : one of them was changed since it was written.
    """
    return left_over(files[-1], [path.name for path in files])


class _Tables:
    """The tables of one recording, and what the data package says of each."""

    def __init__(
        self, recording: Recording, out: Path, findings: Mapping[str, Any] | None, decimal_comma: bool
    ) -> None:
        self._recording, self._findings, self._decimal_comma = recording, findings, decimal_comma
        stem = out.with_suffix("")

        def beside(ending: str) -> Path:
            return stem.with_name(f"{stem.name}.{ending}")

        self._places = channel_files(recording, out, ("moments", "gaps", "findings", "pictures"))
        self._moments, self._gaps = beside("moments.csv"), beside("gaps.csv")
        self._findings_path, self._bench = beside("findings.csv"), beside("bench.toml")
        self._pictures_path, self._pictures = beside("pictures.csv"), picture_files(recording, beside)
        self._package = beside("datapackage.json")
        self._resources: list[dict[str, Any]] = []

    @property
    def paths(self) -> list[Path]:
        """Every file that is written, the data package last."""
        found = [*self._places, self._moments, self._gaps]
        found += [self._findings_path] if self._findings is not None else []
        found += [self._bench] if self._recording.bench_toml else []
        found += [self._pictures_path, *(path for _, path in self._pictures)] if self._pictures else []
        return [*found, self._package]

    def write(self, begin_file: Callable[[Path], Path], progress: Progress) -> list[Path]:
        """Write every file under the name that `begin_file` gives for it; return those written."""
        recording, written = self._recording, list[Path]()

        def begin(path: Path) -> Path:
            written.append(path)
            return begin_file(path)

        lines = sum(channel.times_s.size for channel in recording.channels)
        total = max(1, lines + sum(_as_lines(one) for one, _ in self._pictures))
        done = 0
        for channel, path in zip(recording.channels, self._places, strict=True):
            share = progress.part(done / total, (done + channel.times_s.size) / total)
            blocks = reading_lines(channel, decimal_comma=self._decimal_comma)
            counted = _counted(blocks, channel.times_s.size, share)
            told = _told_of(channel)
            self._write(begin, path, plain_name(channel.name), _reading_fields(channel), counted, told)
            done += channel.times_s.size
        moments = [(m.time_s, m.kind, m.label, m.id, m.noted_at) for m in recording.moments]
        self._write_rows(begin, self._moments, "moments", _MOMENT_FIELDS, moments)
        gaps = [(g.begin_s, g.end_s, g.channel, g.reason) for g in recording.gaps]
        self._write_rows(begin, self._gaps, "gaps", _GAP_FIELDS, gaps)
        if self._findings is not None:
            rows = findings_rows(self._findings)
            self._write_rows(begin, self._findings_path, "findings", _FINDING_FIELDS, rows)
        if recording.bench_toml:
            self._write_bench(begin)
        if self._pictures:
            self._write_pictures(begin, progress.part(done / total, 1.0))
        text = json.dumps(_package(recording, self._resources), ensure_ascii=False, indent=2)
        begin(self._package).write_text(text + "\n", "utf-8", newline="\n")
        return written

    def _write_rows(
        self, begin: Callable[[Path], Path], path: Path, name: str, fields: list[dict[str, Any]],
        rows: Iterable[Sequence[float | int | str | None]],
    ) -> None:  # fmt: skip
        delimiter = ";" if self._decimal_comma else ","
        text = io.StringIO()
        writer = csv.writer(text, lineterminator="\r\n", delimiter=delimiter)
        writer.writerows([self._cell(value) for value in row] for row in rows)
        self._write(begin, path, name, fields, [text.getvalue().encode()])

    def _cell(self, value: float | int | str | None) -> str:
        if value is None:
            return ""
        if isinstance(value, int):
            return str(value)
        if isinstance(value, str):
            return guard_formula(value)
        return repr(float(value)).replace(".", "," if self._decimal_comma else ".")

    def _write(
        self, begin: Callable[[Path], Path], path: Path, name: str, fields: list[dict[str, Any]],
        blocks: Iterable[bytes], told: Mapping[str, Any] = NOTHING_TOLD,
    ) -> None:  # fmt: skip
        """Write one table; note for the data package its size and checksum, and what is `told` of it."""
        digest, size = hashlib.sha256(), 0
        delimiter, start = (";", BYTE_ORDER_MARK) if self._decimal_comma else (",", "")
        with begin(path).open("wb") as file:
            header = (start + delimiter.join(str(field["name"]) for field in fields) + "\r\n").encode()
            for block in itertools.chain((header,), blocks):
                file.write(block)
                digest.update(block)
                size += len(block)
        self._resources.append(
            {
                "name": self._resource_name(name),
                "path": path.name,
                "bytes": size,
                "hash": f"sha256:{digest.hexdigest()}",
                **told,
                **_schema(fields, self._decimal_comma),
            }
        )

    def _write_pictures(self, begin: Callable[[Path], Path], progress: Progress) -> None:
        rows, resources = [], []
        for row, resource in written_pictures(self._recording, self._pictures, begin):
            rows.append(row)
            resources += [] if resource is None else [resource]
            progress.reach(len(rows) / len(self._pictures))
        self._write_rows(begin, self._pictures_path, "pictures", PICTURE_FIELDS, rows)
        for resource in resources:
            self._resources.append({**resource, "name": self._resource_name(resource["name"])})

    def _resource_name(self, wanted: str) -> str:
        """Return a name that the data package takes and that no other table of it has."""
        base = name = re.sub(r"[^a-z0-9]+", "-", wanted.lower()).strip("-") or "table"
        number = 2
        while any(one["name"] == name for one in self._resources):
            name, number = f"{base}-{number}", number + 1
        return name

    def _write_bench(self, begin: Callable[[Path], Path]) -> None:
        data = self._recording.bench_toml.encode(errors="replace")  # it may have been damaged
        begin(self._bench).write_bytes(data)
        self._resources.append(
            {
                "name": "bench",
                "path": self._bench.name,
                "bytes": len(data),
                "hash": f"sha256:{hashlib.sha256(data).hexdigest()}",
                "profile": "data-resource",
                "format": "toml",
                "mediatype": "application/toml",
                "description": "the bench file as it was used",
            }
        )


def _as_lines(picture: MomentPicture) -> int:
    """Return about how many lines of readings take as long as a picture (5 ms against 0.4 µs a line)."""
    return 10_000 + picture.attachment.size_bytes // 100


def _counted(blocks: Iterable[bytes], rows: int, progress: Progress) -> Iterator[bytes]:
    """Pass blocks of lines on, and tell how many of the rows are done."""
    for number, block in enumerate(blocks, 1):
        yield block
        progress.reach(number * ROWS_AT_ONCE / max(rows, 1))


_GUARDED = "an apostrophe guards texts that look like formulas"
_MOMENT_FIELDS: list[dict[str, Any]] = [
    {"name": "time_s", "type": "number", "description": "seconds since the start of the run"},
    {"name": "kind", "type": "string"},
    {"name": "label", "type": "string", "description": _GUARDED},
    {"name": "id", "type": "string"},
    {"name": "noted_at", "type": "string", "description": "when it was written down, ISO 8601"},
]
_GAP_FIELDS: list[dict[str, Any]] = [
    {"name": "begin_s", "type": "number"},
    {"name": "end_s", "type": "number"},
    {"name": "channel", "type": "string"},
    {"name": "reason", "type": "string", "description": _GUARDED},
]
_FINDING_FIELDS: list[dict[str, Any]] = [
    {"name": "quantity", "type": "string", "description": "the unit is the end of its name"},
    {"name": "value", "type": "number", "description": "empty where the data do not support it"},
    {"name": "text", "type": "string", "description": _GUARDED},
]


def _reading_fields(channel: ChannelData) -> list[dict[str, Any]]:
    bits = ", ".join(f"{bit.value} {bit.name.lower()}" for bit in Quality if bit.name)
    return [
        {"name": "time_s", "type": "number", "description": "seconds since the start of the run"},
        {
            "name": f"{plain_name(channel.name)}_{plain_name(channel.unit)}",
            "type": "number",
            "description": "inf and -inf: overload",
        },
        {"name": "quality", "type": "integer", "description": f"0 good, else a sum of: {bits}"},
    ]


def _schema(fields: list[dict[str, Any]], decimal_comma: bool) -> dict[str, Any]:
    if decimal_comma:
        fields = [{**one, "decimalChar": ","} if one["type"] == "number" else one for one in fields]
    return {
        "profile": "tabular-data-resource",
        "format": "csv",
        "mediatype": "text/csv",
        "encoding": "utf-8-sig" if decimal_comma else "utf-8",
        "dialect": {
            "delimiter": ";" if decimal_comma else ",",
            "lineTerminator": "\r\n",
            "quoteChar": '"',
            "doubleQuote": True,
        },
        "schema": {"fields": fields},
    }


def _told_of(channel: ChannelData) -> dict[str, Any]:
    """Return what the data package tells of a channel, so that it can come back as what it was."""
    simulated = {"simulated": True} if channel.is_simulated else {}
    return {"channel": {"name": channel.name, "role": channel.role, "unit": channel.unit, **simulated}}


def _package(recording: Recording, resources: list[dict[str, Any]]) -> dict[str, Any]:
    name = clean_text(recording.path.name)
    chosen = chosen_windows(recording.findings_json)
    return {
        "profile": "tabular-data-package"
        if all(one["profile"] == "tabular-data-resource" for one in resources)
        else "data-package",
        "name": PACKAGE_NAME,
        "id": recording.uuid,
        "title": clean_text(recording.title),
        **({"created": recording.start_time} if recording.has_known_start else {}),
        "run": {
            "time_zone": recording.time_zone,
            "duration_s": recording.duration_s,
            **({"settled": told_windows(chosen)} if chosen else {}),
        },
        "description": f"Run of {recording.duration_s:.1f} s, exported from {name}",
        "sources": [{"title": name}],
        "contributors": [{"title": f"{PROGRAM} {VERSION}", "role": "wrangler"}],
        "resources": resources,
    }
