"""Readings, moments and gaps as CSV (RFC 4180) with a Frictionless data package that describes them."""

from __future__ import annotations

import csv
import hashlib
import io
import itertools
import json
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path
from typing import Any

from drivers.samples import Quality
from logger.errors import OutputExists
from logger.export.atomic import written_whole
from logger.recording import ChannelData, Recording
from logger.version import PROGRAM, VERSION

__all__ = ["export_csv", "guard_formula", "unguard_formula"]

ROWS_AT_ONCE = 65536
FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r")
"""A spreadsheet may take a text that begins with one of these for a formula (CWE-1236, OWASP ASVS)."""


def guard_formula(text: str) -> str:
    """Put an apostrophe before a text that a spreadsheet might run as a formula."""
    return f"'{text}" if text.startswith(FORMULA_STARTS) else text


def unguard_formula(text: str) -> str:
    """Undo `guard_formula`."""
    return text[1:] if text.startswith("'") and text[1:].startswith(FORMULA_STARTS) else text


def export_csv(recording: Recording, out: Path, *, replace: bool = False) -> list[Path]:
    """Write the readings to `out` and, beside it, further channels, moments, gaps and the data package.

    `out` holds the cell voltage (else the first channel). Numbers have a dot and every digit that the
    recording holds, so that nothing is lost; overload is written as inf or -inf.

    Raises
    ------
    OutputExists : one of the files exists and may not be replaced; nothing was written.
    LoggerError : the folder cannot be written.
    """
    main = recording.channel("cell_voltage") or (recording.channels[0] if recording.channels else None)
    stem = out.with_suffix("")
    places = {
        channel.name: out if channel is main else _beside(stem, f"{channel.name}.csv")
        for channel in recording.channels
    }
    moments_path, gaps_path = _beside(stem, "moments.csv"), _beside(stem, "gaps.csv")
    package = _beside(stem, "datapackage.json")
    for path in (*places.values(), moments_path, gaps_path, package):
        if path.exists() and not replace:
            raise OutputExists(f"{path} exists; choose another name, or add --replace")
    resources: list[dict[str, Any]] = []
    written: list[Path] = []

    def write(path: Path, name: str, fields: list[dict[str, str]], rows: Iterable[str]) -> None:
        resources.append({**_write(path, [f["name"] for f in fields], rows), "name": name, **_schema(fields)})
        written.append(path)

    for channel in recording.channels:
        write(
            places[channel.name],
            channel.name.replace("_", "-"),
            _reading_fields(channel),
            _reading_rows(channel),
        )
    moments = [[repr(m.time_s), m.kind, guard_formula(m.label), m.id, m.noted_at] for m in recording.moments]
    write(moments_path, "moments", _MOMENT_FIELDS, _rows(moments))
    gaps = [[repr(g.begin_s), repr(g.end_s), g.channel, guard_formula(g.reason)] for g in recording.gaps]
    write(gaps_path, "gaps", _GAP_FIELDS, _rows(gaps))
    with written_whole(package) as part:
        part.write_text(
            json.dumps(_package(recording, resources), ensure_ascii=False, indent=2) + "\n", "utf-8"
        )
    return [*written, package]


def _beside(stem: Path, ending: str) -> Path:
    return stem.with_name(f"{stem.name}.{ending}")


_MOMENT_FIELDS = [
    {"name": "time_s", "type": "number", "description": "seconds since the start of the run"},
    {"name": "kind", "type": "string"},
    {"name": "label", "type": "string", "description": "an apostrophe guards texts that look like formulas"},
    {"name": "id", "type": "string"},
    {"name": "noted_at", "type": "string", "description": "when it was written down, ISO 8601"},
]
_GAP_FIELDS = [
    {"name": "begin_s", "type": "number"},
    {"name": "end_s", "type": "number"},
    {"name": "channel", "type": "string"},
    {"name": "reason", "type": "string"},
]


def _reading_fields(channel: ChannelData) -> list[dict[str, str]]:
    bits = ", ".join(f"{bit.value} {bit.name.lower()}" for bit in Quality if bit.name)
    return [
        {"name": "time_s", "type": "number", "description": "seconds since the start of the run"},
        {"name": f"{channel.name}_{channel.unit}", "type": "number", "description": "inf and -inf: overload"},
        {"name": "quality", "type": "integer", "description": f"0 good, else a sum of: {bits}"},
    ]


def _reading_rows(channel: ChannelData) -> Iterator[str]:
    for begin in range(0, channel.times_s.size, ROWS_AT_ONCE):
        part = slice(begin, begin + ROWS_AT_ONCE)
        columns = (
            map(repr, channel.times_s[part].tolist()),
            map(repr, channel.values[part].tolist()),
            map(str, channel.quality[part].tolist()),
        )
        yield "\r\n".join(map(",".join, zip(*columns, strict=True))) + "\r\n"


def _rows(rows: Iterable[Sequence[str]]) -> Iterator[str]:
    for row in rows:
        text = io.StringIO()
        csv.writer(text, lineterminator="\r\n").writerow(row)
        yield text.getvalue()


def _write(path: Path, header: list[str], texts: Iterable[str]) -> dict[str, Any]:
    """Write one table; return its path, size and checksum for the data package."""
    digest = hashlib.sha256()
    size = 0
    with written_whole(path) as part, part.open("wb") as file:
        for text in itertools.chain((",".join(header) + "\r\n",), texts):
            data = text.encode()
            file.write(data)
            digest.update(data)
            size += len(data)
    return {"path": path.name, "bytes": size, "hash": f"sha256:{digest.hexdigest()}"}


def _schema(fields: list[dict[str, str]]) -> dict[str, Any]:
    return {
        "profile": "tabular-data-resource",
        "format": "csv",
        "mediatype": "text/csv",
        "encoding": "utf-8",
        "dialect": {"delimiter": ",", "lineTerminator": "\r\n", "quoteChar": '"', "doubleQuote": True},
        "schema": {"fields": fields},
    }


def _package(recording: Recording, resources: list[dict[str, Any]]) -> dict[str, Any]:
    return {
        "profile": "tabular-data-package",
        "name": "galvanote-run",
        "id": recording.uuid,
        "title": recording.title,
        "created": recording.start_time,
        "description": f"Run of {recording.duration_s:.1f} s, exported from {recording.path.name}",
        "sources": [{"title": recording.path.name}],
        "contributors": [{"title": f"{PROGRAM} {VERSION}", "role": "wrangler"}],
        "resources": resources,
    }
