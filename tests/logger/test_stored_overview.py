"""The curve of a recording that stays in its file is that of its readings, from near and from afar."""

from __future__ import annotations

import h5py
import numpy as np
import pytest

from drivers.samples import Quality
from logger import archived_channel, stored_column
from logger.archived_channel import ArchivedChannel
from logger.channel_overview import overview_of
from logger.overview import Overview
from logger.reader import read_recording
from logger.recording import Gap
from logger.stored_overview import StoredOverview
from tests.logger.stored_files import write_file

SAMPLES = 600_000


def long_channel(seed: int):
    """Times with jitter and a pause, values with spikes and overload."""
    random = np.random.default_rng(seed)
    steps = random.choice([0.001, 0.0015, 0.003], SAMPLES)
    steps[250_000] = 400.0
    values = 2.2 + 0.01 * random.standard_normal(SAMPLES)
    values[random.integers(0, SAMPLES, 40)] = 27.0
    values[100_000:100_200], quality = np.inf, np.zeros(SAMPLES, np.uint8)
    quality[100_000:100_200] = Quality.OVERLOAD
    return np.cumsum(steps), values, quality


@pytest.fixture(scope="module")
def files(tmp_path_factory):
    """The same readings with the levels as the archive makes them, and without."""
    folder, columns = tmp_path_factory.mktemp("long"), long_channel(1)
    plain = write_file(folder / "plain.h5", {"cell_voltage": columns}, chunk=16384)
    with_levels = write_file(folder / "levels.h5", {"cell_voltage": columns}, chunk=16384)
    with h5py.File(with_levels, "r+") as file:
        levels = archived_channel._Overview(file["run/cell_voltage"])
        levels.add(columns[1])
        levels.finish()
    return {"levels": with_levels, "no levels": plain, "columns": columns}


def stored(files, which: str) -> StoredOverview:
    recording = read_recording(files[which], is_own=True, held_samples=0)
    overview = overview_of(recording.channels[0], (Gap(1.0, 2.0, "cell_voltage", "unplugged"),))
    assert isinstance(overview, StoredOverview)
    return overview


@pytest.fixture(scope="module")
def whole(files) -> Overview:
    times, values, _ = files["columns"]
    return Overview.of(times, values)


@pytest.mark.parametrize("which", ["levels", "no levels"])
@pytest.mark.parametrize("seed", range(6))
def test_columns_from_near_are_exact(files, whole, which, seed):
    random = np.random.default_rng(seed)
    times = files["columns"][0]
    overview = stored(files, which)
    first = int(random.integers(0, SAMPLES - 60_000))
    edges = np.linspace(times[first], times[first + int(random.integers(500, 60_000))], 301)
    found, known = overview.columns(edges), whole.columns(edges)
    np.testing.assert_array_equal(found.low, known.low)
    np.testing.assert_array_equal(found.high, known.high)
    assert overview.count_between(edges[0], edges[-1]) == whole.count_between(edges[0], edges[-1])
    both = (one.samples_between(edges[0], edges[-1]) for one in (overview, whole))
    for mine, theirs in zip(*both, strict=True):
        np.testing.assert_array_equal(mine, theirs)


@pytest.mark.parametrize("which", ["levels", "no levels"])
@pytest.mark.parametrize("columns", [20, 57, 150])
def test_columns_from_afar_are_those_of_edges_moved_by_an_eighth(files, whole, which, columns):
    """What a column shows lies in it or within an eighth of its width; nothing inside it is missed."""
    overview, times = stored(files, which), files["columns"][0]
    edges = np.linspace(times[0], np.nextafter(times[-1], np.inf), columns + 1)
    found = overview.columns(edges)
    width = (SAMPLES / columns) / 8 + 64  # readings by which an edge may be off
    numbers = np.searchsorted(times, edges)
    values = np.where(np.isfinite(files["columns"][1]), files["columns"][1], np.nan)
    for k in range(columns):
        outer = values[max(int(numbers[k] - width), 0) : int(numbers[k + 1] + width) + 1]
        inner = values[int(numbers[k] + width) : int(numbers[k + 1] - width)]
        if inner.size and np.isfinite(inner).any():
            assert found.low[k] <= np.nanmin(inner)
            assert found.high[k] >= np.nanmax(inner)
        if found.has_data[k]:
            assert found.low[k] >= np.nanmin(outer)
            assert found.high[k] <= np.nanmax(outer)
    assert np.nanmax(found.high) == np.nanmax(values)
    assert np.nanmin(found.low) == np.nanmin(values)
    assert np.count_nonzero(found.high > 20) == np.count_nonzero(whole.columns(edges).high > 20)


def test_what_it_tells_of_the_run_is_the_same(files, whole):
    overview = stored(files, "levels")
    assert len(overview) == len(whole)
    assert overview.extent_s == whole.extent_s
    assert overview.last == whole.last
    np.testing.assert_array_equal(overview.overloads_s, whole.overloads_s)
    assert overview.gaps_s.tolist() == [[1.0, 2.0]]
    made = stored(files, "no levels").levels()
    for bucket, rows in whole.levels().items():
        np.testing.assert_array_equal(overview.levels()[bucket], rows)
        if bucket in made:
            np.testing.assert_array_equal(made[bucket], rows)
    assert len(made) == 5


def test_the_first_picture_reads_few_readings(files, monkeypatch):
    recording = read_recording(files["levels"], is_own=True, held_samples=0)
    reads = []
    load = stored_column.StoredColumn._load
    monkeypatch.setattr(
        stored_column.StoredColumn, "_load", lambda self, block: reads.append(block) or load(self, block)
    )
    overview = overview_of(recording.channels[0], (), prepared=False)
    first_s, last_s = overview.extent_s
    found = overview.columns(np.linspace(first_s, last_s, 301))
    assert found.has_data.any()
    assert len(reads) <= 1  # the readings behind the last whole bucket
    assert overview.revision == 0
    overview.prepare()
    assert overview.revision == 1


def test_a_damaged_level_is_told_and_the_rest_goes_on(files, tmp_path):
    path = tmp_path / "damaged.h5"
    path.write_bytes(files["levels"].read_bytes())
    with h5py.File(path, "r") as file:
        place = file["run/cell_voltage/overview/level_1024"].id.get_chunk_info(0)
    with path.open("r+b") as file:
        file.seek(place.byte_offset + 10)
        file.write(b"\xff" * 200)
    recording = read_recording(path, is_own=True, held_samples=0)
    overview = overview_of(recording.channels[0], (), prepared=False)
    first_s, last_s = overview.extent_s
    assert not overview.columns(np.linspace(first_s, last_s, 50)).has_data.any()
    assert "level_1024 cannot be read" in overview.trouble
    assert "\n" not in overview.trouble
    assert overview.columns(np.linspace(first_s, first_s + 10, 50)).has_data.all()


def test_the_archive_and_the_test_make_the_same_levels(tmp_path, files):
    """The levels above are made by a part of the archive; here the whole of it makes them."""
    from drivers.samples import Samples

    with h5py.File(tmp_path / "run.h5", "w") as file, h5py.File(files["levels"], "r") as other:
        channel = ArchivedChannel(file.create_group("cell_voltage"))
        channel.add(Samples("cell_voltage", *files["columns"]))
        channel.finish()
        made, known = file["cell_voltage/overview"], other["run/cell_voltage/overview"]
        assert set(made) == set(known)
        for name in made:
            np.testing.assert_array_equal(made[name][()], known[name][()])


def test_a_channel_without_readings_has_an_empty_curve(tmp_path):
    none = np.empty(0)
    columns = {"cell_voltage": (none, none, np.empty(0, np.uint8)), "bath": long_channel(2)}
    recording = read_recording(write_file(tmp_path / "run.h5", columns), is_own=True, held_samples=0)
    overview = overview_of(recording.channels[0], recording.gaps, prepared=False)
    assert len(overview) == 0
    assert overview.extent_s is None
