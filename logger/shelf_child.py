"""The process that reads recordings for a shelf: it may hang or die, the program does not.

It takes one path a line (a JSON string) on stdin and answers one line of JSON each on stdout. Whoever
started it sets the time limit and ends it.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from logger.errors import LoggerError
from logger.journal import SUFFIX
from logger.moments import KINDS, SIMULATED
from logger.reader import read_recording
from logger.recording import IMPORTED, START_OF_PACKAGE, Recording, is_simulated_cell
from logger.shelf_entry import CURVE_COLUMNS
from logger.vetting import reason_to_refuse

__all__ = ["main", "small_curve", "summary"]

SLICE = 1 << 20
"""Readings taken into memory at once."""

READINGS_A_COLUMN, FEWEST_COLUMNS = 3, 2

LABELS_LIMIT = 4000
Vector = NDArray[np.float64]


def summary(path: Path) -> dict[str, Any]:
    """Return what a shelf shows of a recording or journal: the fields of `ShelfEntry` that it can tell."""
    if path.name.endswith(SUFFIX):
        return _of_journal(read_recording(path))
    reason = reason_to_refuse(path)
    if reason is not None:
        return {"state": "damaged", "problem": reason}
    return _of_file(path)


def small_curve(
    times_s: Any, values_V: Any, begin_s: float, end_s: float
) -> tuple[list[float | None], list[float | None]]:
    """Return smallest and largest finite value of each of equal parts of [begin_s, end_s].

    What a damaged file holds outside of it is left out. There are up to `CURVE_COLUMNS` parts, fewer where
    single readings would lie alone in them.

    Parameters
    ----------
    times_s, values_V : shape (n,), arrays or datasets; read in slices. Never decreasing times.
    """
    columns = min(CURVE_COLUMNS, max(values_V.shape[0] // READINGS_A_COLUMN, FEWEST_COLUMNS))
    low, high = np.full(columns, np.inf), np.full(columns, -np.inf)
    scale = columns / max(end_s - begin_s, 1e-9)
    for first in range(0, values_V.shape[0], SLICE):
        times: Vector = np.asarray(times_s[first : first + SLICE], np.float64)
        values: Vector = np.asarray(values_V[first : first + SLICE], np.float64)
        usable = np.isfinite(values) & (times >= begin_s) & (times <= end_s)
        column = np.minimum(((times[usable] - begin_s) * scale).astype(np.int64), columns - 1)
        np.minimum.at(low, column, values[usable])
        np.maximum.at(high, column, values[usable])
    return _plain(low), _plain(high)


def _plain(values: Vector) -> list[float | None]:
    return [round(float(v), 6) if np.isfinite(v) else None for v in values]


def _of_journal(recording: Recording) -> dict[str, Any]:
    channel = recording.channel("cell_voltage")
    times = np.empty(0) if channel is None else channel.times_s
    values = np.empty(0) if channel is None else channel.values
    labels = [(m.kind, m.label) for m in recording.moments]
    return {
        "state": "recording" if recording.is_running else "cut_off",
        "title": recording.title,
        "start_time": recording.start_time if recording.has_known_start else "",
        "duration_s": recording.duration_s,
        **_curve(times, values, recording.duration_s),
        **_tags(labels, is_simulated=channel is not None and channel.is_simulated),
    }


def _of_file(path: Path) -> dict[str, Any]:
    """Read a finished file in bounded memory, whatever its length."""
    import h5py

    with h5py.File(path, "r") as file:
        if "run" not in file or "start_time" not in file["run"]:
            return {"state": "damaged", "problem": "it is an HDF5 file, but no recording of this program"}
        run = file["run"]
        group = next((g for g in run.values() if g.attrs.get("role") == "cell_voltage"), None)
        times = np.empty(0) if group is None else group["time"]
        values = np.empty(0) if group is None else group["value"]
        name = "" if group is None else group.name.rpartition("/")[2]
        duration_s = float(run["duration"].attrs.get("exact", run["duration"][()]))
        kinds, labels = (_texts(run, f"moments/{column}") for column in ("kind", "label"))
        return {
            "state": "finished",
            "title": _text(run, "title"),
            "start_time": _start(run, name),
            "duration_s": duration_s,
            **_curve(times, values, duration_s),
            **_tags(list(zip(kinds, labels, strict=True)), is_simulated=_is_simulated(run, name)),
        }


def _curve(times_s: Any, values_V: Any, duration_s: float) -> dict[str, Any]:
    count = int(values_V.shape[0])
    if not count:
        return {"samples": 0, "last_V": None, "low_V": [], "high_V": []}
    low, high = small_curve(times_s, values_V, 0.0, duration_s)
    tail: Vector = np.asarray(values_V[max(0, count - 1000) :], np.float64)
    finite = tail[np.isfinite(tail)]
    last_V = float(finite[-1]) if finite.size else None
    return {"samples": count, "last_V": last_V, "low_V": low, "high_V": high}


def _is_simulated(run: Any, channel: str) -> bool:
    """Tell what `ChannelData.is_simulated` tells of a channel in memory."""
    sensor = f"instrument/{channel}"
    return is_simulated_cell(
        _text(run, f"{sensor}/address"), _text(run, f"{sensor}/details/original_address")
    )


def _tags(moments: list[tuple[str, str]], *, is_simulated: bool) -> dict[str, Any]:
    words = "; ".join(f"{KINDS.get(kind, kind)} {label}".strip() for kind, label in moments)
    simulated = is_simulated or any(label.endswith(SIMULATED) for _, label in moments)
    return {"labels": words[:LABELS_LIMIT], "moments": len(moments), "is_simulated": simulated}


def _start(run: Any, channel: str) -> str:
    """Return when the run began; empty where nobody knows (see `Recording.has_known_start`)."""
    sensor = f"instrument/{channel}"
    is_imported = _text(run, f"{sensor}/address").startswith(IMPORTED)
    is_known = not is_imported or _text(run, f"{sensor}/clock/start") == START_OF_PACKAGE
    return _text(run, "start_time") if is_known else ""


def _text(run: Any, name: str) -> str:
    value = run[name][()] if name in run else b""
    return value.decode(errors="replace") if isinstance(value, bytes) else str(value)


def _texts(run: Any, name: str) -> list[str]:
    found = run[name][()] if name in run else ()
    return [t.decode(errors="replace") if isinstance(t, bytes) else str(t) for t in found]


def main() -> int:
    """Answer until stdin ends."""
    for line in sys.stdin:
        path = Path(json.loads(line))
        try:
            answer = summary(path)
        except (
            LoggerError,
            OSError,
            RuntimeError,
            LookupError,
            ValueError,
            TypeError,
            AttributeError,
        ) as error:
            answer = {"state": "damaged", "problem": " ".join(str(error).split())[:300]}
        sys.stdout.write(json.dumps(answer) + "\n")
        sys.stdout.flush()
    return 0


if __name__ == "__main__":
    sys.exit(main())
