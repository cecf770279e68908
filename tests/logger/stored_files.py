"""Recordings written straight with h5py, in the layout of the contract, with any chunks and filters."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import h5py
import numpy as np

from logger.moments import Moment
from logger.recording import Gap

__all__ = ["write_file"]

PLAIN = {"shuffle": True, "compression": "gzip", "compression_opts": 4}


def write_file(
    path: Path,
    channels: Mapping[str, tuple[np.ndarray, np.ndarray, np.ndarray]],
    *,
    chunk: int | None = 64,
    filters: Mapping[str, object] = PLAIN,
    gaps: tuple[Gap, ...] = (),
    moments: tuple[Moment, ...] = (),
    bench_toml: str = "",
    uuid: str = "5" * 32,
) -> Path:
    """Write times, values and quality of channels, the cell voltage first; without `chunk` in one piece."""
    with h5py.File(path, "w") as file:
        run = file.create_group("run")
        run.attrs["default"] = next(iter(channels))
        texts = {
            "title": "invented",
            "start_time": "2024-05-14T10:00:00+02:00",
            "entry_identifier_uuid": uuid,
        }
        for name, text in texts.items():
            run[name] = text
        run["clock/time_zone"] = "Europe/Berlin"
        run["clock/time"], run["clock/utc"] = np.empty(0), np.empty(0, h5py.string_dtype())
        last_s = max((float(times[-1]) for times, _, _ in channels.values() if times.size), default=0.0)
        run["duration"] = last_s
        run.create_group("bench").attrs["toml"] = bench_toml
        for name, columns in channels.items():
            group = run.create_group(name)
            role = "cell_voltage" if name == "cell_voltage" else "temperature"
            group.attrs.update(NX_class="NXdata", role=role)
            for column, data in zip(("time", "value", "quality"), columns, strict=True):
                layout = {} if chunk is None else {"chunks": (chunk,), "maxshape": (None,), **filters}
                group.create_dataset(column, data=data, **layout)
            group["value"].attrs["units"] = "V"
        for name, rows in (
            ("moments", {"time": [m.time_s for m in moments]}),
            ("gaps", {"begin": [g.begin_s for g in gaps], "end": [g.end_s for g in gaps]}),
        ):
            for column, numbers in rows.items():
                run[f"{name}/{column}"] = np.array(numbers, "f8")
        for column in ("kind", "label", "id", "noted_at"):
            run[f"moments/{column}"] = np.array([getattr(m, column) for m in moments], h5py.string_dtype())
        for column in ("channel", "reason"):
            run[f"gaps/{column}"] = np.array([getattr(g, column) for g in gaps], h5py.string_dtype())
    return path
