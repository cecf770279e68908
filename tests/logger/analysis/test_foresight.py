"""What levels foretell saves time and decides nothing: findings are those of the readings, bit for bit."""

from __future__ import annotations

import json
from contextlib import suppress

import h5py
import numpy as np
import pytest

from drivers.samples import Quality
from logger import stored_column
from logger.analysis import readings
from logger.analysis.findings import findings
from logger.analysis.first_look import look_through
from logger.analysis.foresight import Foresight
from logger.analysis.run_analysis import analyse_run
from logger.analysis.states import StateRuns, state_thresholds
from logger.progress import Cancelled, Progress
from logger.reader import read_recording
from logger.stored_file import StoredFile
from tests.logger.analysis.test_findings_of_a_file import BENCH, lesson
from tests.logger.stored_files import write_file

BUCKET = 64


def levels_of(values):
    finite = np.where(np.isfinite(values), values, np.nan)[: values.size // BUCKET * BUCKET]
    rows = finite.reshape(-1, BUCKET)
    return np.stack([np.fmin.reduce(rows, axis=1), np.fmax.reduce(rows, axis=1)])


def written(folder, change=None, level=None, bench=BENCH):
    """A lesson in a file, with a level that is as `level` makes it of the right one."""
    times, values, quality, moments = lesson(3, 4.0)
    if change is not None:
        times, values, quality = change(times, values, quality)
    path = write_file(
        folder / "run.h5",
        {"cell_voltage": (times, values, quality)},
        bench_toml=bench,
        moments=moments,
    )
    rows = levels_of(values)
    with h5py.File(path, "a") as file:
        overview = file.create_group("run/cell_voltage/overview")
        overview[f"level_{BUCKET}"] = rows if level is None else level(rows)
    return path


def both(path):
    return (read_recording(path, is_own=True, held_samples=held) for held in (10**9, 0))


@pytest.fixture(autouse=True)
def short_blocks(monkeypatch):
    monkeypatch.setattr(readings, "PIECE", 256)
    monkeypatch.setattr(stored_column, "BLOCK", 256)


def as_it_is(times, values, quality):
    return times, values, quality


def with_a_gap(times, values, quality):
    kept = np.ones(times.size, bool)
    kept[700:900] = kept[3000:3100] = False
    return times[kept], values[kept], quality[kept]


def with_unmarked_overload(times, values, quality):
    values[2000:2040], values[3000:3300], values[5] = np.inf, np.nan, -np.inf
    return times, values, quality


def with_marked_overload(times, values, quality):
    values[2000:2040], quality[2000:2040] = np.inf, Quality.OVERLOAD
    return times, values, quality


def reversed_for_a_while(times, values, quality):
    values[1000:1500] *= -1.0
    return times, values, quality


def with_spikes(times, values, quality):
    values[[0, 255, 256, 257, 1023, 1024, -1]] = 26.9
    values[[511, 512, 513]] = 26.95
    values[2559:2562] = 0.01
    return times, values, quality


CHANGES = (
    as_it_is,
    with_a_gap,
    with_unmarked_overload,
    with_marked_overload,
    reversed_for_a_while,
    with_spikes,
)


def right(rows):
    return rows


def always_settled(rows):
    return np.stack([np.full(rows.shape[1], 2.1), np.full(rows.shape[1], 2.2)])


def shifted(rows):
    return rows + 0.001


def one_bucket_wrong(rows):
    rows[1, 40] += 1e-9
    return rows


def always_open(rows):
    return np.full_like(rows, 26.9)


def all_missing(rows):
    return np.full_like(rows, np.nan)


LEVELS = (right, always_settled, shifted, one_bucket_wrong, always_open, all_missing)


@pytest.mark.parametrize("level", LEVELS)
@pytest.mark.parametrize("change", CHANGES)
def test_findings_are_those_of_the_readings(change, level, tmp_path):
    whole, stored = both(written(tmp_path, change, level))
    known = json.dumps(findings(whole))
    assert json.dumps(findings(stored)) == known
    assert json.dumps(findings(stored)) == known  # once more, all of it known by now


@pytest.mark.parametrize("bench", ["", '[supply]\nstack_voltage_V = "?"\n'])
@pytest.mark.parametrize("level", [right, always_settled])
def test_without_a_current_all_is_looked_at_all_the_same(bench, level, tmp_path):
    whole, stored = both(written(tmp_path, with_spikes, level, bench=bench))
    assert json.dumps(findings(stored)) == json.dumps(findings(whole))
    assert stored.channels[0].values.was_read


def test_the_first_look_reads_only_where_something_happens(tmp_path, monkeypatch):
    whole, stored = both(written(tmp_path))
    limits = state_thresholds(1.23, 26.97)
    known = StateRuns(limits)
    seen = look_through(whole.channels[0].values, known)
    read = []
    plain = StoredFile.read
    monkeypatch.setattr(StoredFile, "read", lambda *a: read.append(a[3] - a[2]) or plain(*a))
    assert Foresight(stored.channels[0], ()).is_used
    read.clear()
    found = StateRuns(limits)
    assert look_through(stored.channels[0].values, found) == seen
    assert sum(read) < 0.5 * stored.channels[0].values.size
    assert found.intervals(whole.channels[0].times_s) == known.intervals(whole.channels[0].times_s)


def test_a_damaged_level_foretells_nothing(tmp_path):
    path = written(tmp_path)
    with h5py.File(path, "a") as file:
        rows = file[f"run/cell_voltage/overview/level_{BUCKET}"][...]
        del file[f"run/cell_voltage/overview/level_{BUCKET}"]
        made = file.create_dataset(
            f"run/cell_voltage/overview/level_{BUCKET}", data=rows, chunks=(2, 32), compression="gzip"
        )
        where = made.id.get_chunk_info(0)
    with path.open("r+b") as raw:
        raw.seek(where.byte_offset + 2)
        raw.write(b"\xff" * 40)
    whole, stored = both(path)
    assert not Foresight(stored.channels[0], ()).is_used
    assert json.dumps(findings(stored)) == json.dumps(findings(whole))


def test_an_analysis_that_is_stopped_leaves_nothing_foretold(tmp_path):
    whole, stored = both(written(tmp_path, with_a_gap, always_settled))
    stopping = Progress()
    stopping.cancel()
    with suppress(Cancelled):
        analyse_run(stored, progress=stopping)
    times_s, values = stored.channels[0].times_s, stored.channels[0].values
    assert values.bounds(slice(0, values.size)) is None
    assert times_s.step_bounds(slice(0, times_s.size))[1] > 20.0
    assert json.dumps(findings(stored)) == json.dumps(findings(whole))
