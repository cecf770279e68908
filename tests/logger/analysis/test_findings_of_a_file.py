"""Findings are the same, bit for bit, whether the readings lie in memory or stay in their file."""

from __future__ import annotations

import json
from pathlib import Path

import numpy as np
import pytest

from drivers.samples import Quality
from drivers.simulated.cell import LessonCell
from logger import stored_column
from logger.analysis import readings
from logger.analysis.findings import findings
from logger.analysis.growth_curve import growth_curve
from logger.moments import new_moment
from logger.reader import read_recording
from logger.recording import Gap
from tests.logger.stored_files import write_file

BENCH = (Path(__file__).resolve().parents[3] / "recordings" / "example-bench.toml").read_text("utf-8")
BATH = (np.linspace(0.0, 1600.0, 400), np.linspace(22.0, 22.4, 400), np.zeros(400, np.uint8))


def lesson(seed: int, rate: float):
    """Times, values and quality of a simulated lesson, and its moments."""
    cell = LessonCell("demo", seed=seed)
    times = np.arange(0.0, cell.duration_s, 1.0 / rate)
    values = np.round(cell.block(times), 4)
    moments = tuple(new_moment(one.time_s, one.kind, one.label) for one in cell.moments)
    return times, values, np.zeros(times.size, np.uint8), moments


def as_recorded(times, values, quality):
    return times, values, quality


def held_and_repeated(times, values, quality):
    random = np.random.default_rng(1)
    quality[random.random(times.size) < 0.05] |= np.uint8(Quality.HOLD)
    quality[random.random(times.size) < 0.02] |= np.uint8(Quality.REPEAT)
    quality[:900] |= np.uint8(Quality.SUSPECT)
    quality[5] |= np.uint8(Quality.RELATIVE)
    return times, values, quality


def with_gaps_and_overload(times, values, quality):
    values[2000:2040], quality[2000:2040] = np.inf, Quality.OVERLOAD
    kept = np.ones(times.size, bool)
    kept[700:900] = kept[3000:3100] = kept[-400:-300] = False
    return times[kept], values[kept], quality[kept]


def reversed_leads(times, values, quality):
    return times, -values, quality


def equal_times(times, values, quality):
    return np.floor(times), values, quality


CHANGES = (as_recorded, held_and_repeated, with_gaps_and_overload, reversed_leads, equal_times)


@pytest.mark.parametrize("bench", [BENCH, ""], ids=["bench", "no bench"])
@pytest.mark.parametrize("change", CHANGES)
@pytest.mark.parametrize(("seed", "piece", "block"), [(1, 1000, 700), (2, 256, 1024)])
def test_findings_are_the_same_bit_for_bit(change, bench, seed, piece, block, tmp_path, monkeypatch):
    monkeypatch.setattr(readings, "PIECE", piece)
    monkeypatch.setattr(stored_column, "BLOCK", block)
    *columns, moments = lesson(seed, 4.0)
    channels = {"cell_voltage": change(*columns), "bath": BATH}
    gaps = (Gap(175.0, 225.0, "cell_voltage", "unplugged"),)
    path = write_file(
        tmp_path / "run.h5", channels, chunk=100, gaps=gaps, bench_toml=bench, moments=moments[seed - 1 :]
    )
    whole, stored = (read_recording(path, is_own=True, held_samples=held) for held in (10**9, 0))
    known, found = findings(whole), findings(stored)
    assert json.dumps(found) == json.dumps(known)
    assert found["phases"]
    in_memory, in_file = growth_curve(whole, known), growth_curve(stored, found)
    assert (in_memory is None) == (in_file is None)
    if in_memory is not None:
        np.testing.assert_array_equal(in_file.voltage_V, in_memory.voltage_V)
