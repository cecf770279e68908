"""Small recordings on disk, written as the program writes them."""

from __future__ import annotations

import uuid
from collections.abc import Sequence
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from drivers.samples import Samples
from logger.archive import assemble
from logger.journal import FrameType, JournalWriter, journal_of
from logger.moments import new_moment
from logger.payload import encode_json, encode_samples


def write_recording(
    path: Path,
    times_s: NDArray[np.float64],
    values_V: NDArray[np.float64],
    moments: Sequence[tuple[float, str, str]] = (),
    *,
    title: str = "Invented",
    bench_toml: str = "",
    cut_off: bool = False,
    start_time: str = "2026-03-05T10:00:00.000+01:00",
) -> Path:
    """Write a recording, or, `cut_off`, only its journal; return what was written."""
    journal = journal_of(path)
    head = {
        "uuid": str(uuid.uuid4()),
        "title": title,
        "start_time": start_time,
        "time_zone": "Europe/Berlin",
        "version": "0.1.0",
        "speed": 1.0,
        "replace": False,
        "bench_toml": bench_toml,
    }
    writer = JournalWriter(journal, head)
    channel = {"index": 0, "name": "cell_voltage", "role": "cell_voltage", "unit": "V"}
    instrument = {"address": "scpi:/dev/ttyUSB0", "identity": "bench meter"}
    writer.append(FrameType.CHANNEL, encode_json({**channel, "instrument": instrument}))
    quality = np.where(np.isinf(values_V), 1, 0).astype(np.uint8)
    writer.append(FrameType.SAMPLES, encode_samples(0, Samples("cell_voltage", times_s, values_V, quality)))
    for moment in moments:
        writer.append(FrameType.MOMENT, encode_json(new_moment(*moment).as_dict()))
    if not cut_off:
        end = {"time_s": float(times_s[-1]), "end_time": "2026-03-05T10:30:00.000+01:00"}
        writer.append(FrameType.END, encode_json(end))
    writer.sync()
    writer.close()
    if cut_off:
        return journal
    assemble(journal, path)
    journal.unlink()
    return path
