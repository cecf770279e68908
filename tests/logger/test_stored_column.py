"""Readings that stay in their file are the same numbers as those taken into memory, whatever is asked for."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

import h5py
import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from drivers.samples import Quality
from logger import stored_column
from logger.analysis.readings import step_bounds
from logger.block_cache import BlockCache
from logger.chunk_table import ChunkTable
from logger.errors import RecordingError
from logger.reader import read_recording
from logger.stored_column import StoredColumn, StoredTimes
from logger.vetting import vet
from tests.logger.stored_files import PLAIN, write_file

FILTERS = (PLAIN, {"compression": "gzip"}, {"shuffle": True}, {}, {**PLAIN, "fletcher32": True})
BITS = (0, Quality.OVERLOAD, Quality.HOLD, Quality.SUSPECT | Quality.REPEAT, Quality.LOW_BATTERY)


def rough_channel(seed: int, count: int) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Times with jitter, equal ones and gaps; values with overload; all bits of quality."""
    random = np.random.default_rng(seed)
    times = np.cumsum(random.choice([0.0, 0.1, 0.1, 0.1 / 3, 40.0], count))
    values = random.choice([2.2, 2.3, -2.2, 26.9, np.inf, -np.inf], count) + random.normal(0, 1e-3, count)
    return times, values, random.choice(np.array(BITS, np.uint8), count)


def both(path: Path):
    """The recording in memory and in its file."""
    return (read_recording(path, is_own=True, held_samples=held) for held in (10**9, 0))


@settings(max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    seed=st.integers(0, 10**6),
    counts=st.lists(st.integers(1, 700), min_size=1, max_size=3),
    chunk=st.one_of(st.none(), st.integers(1, 300)),
    block=st.integers(1, 400),
    filters=st.sampled_from(FILTERS),
    data=st.data(),
)
def test_slices_and_searches_are_those_of_the_whole(seed, counts, chunk, block, filters, data, monkeypatch):
    names = ("cell_voltage", "bath", "room")
    channels = {
        name: rough_channel(seed + k, n) for k, (name, n) in enumerate(zip(names, counts, strict=False))
    }
    monkeypatch.setattr(stored_column, "BLOCK", block)
    with tempfile.TemporaryDirectory() as folder:
        path = write_file(Path(folder) / "run.h5", channels, chunk=chunk, filters=filters)
        whole, lazy = both(path)
        for held, stored in zip(whole.channels, lazy.channels, strict=True):
            assert (held.name, held.role, held.unit) == (stored.name, stored.role, stored.unit)
            assert isinstance(stored.times_s, StoredTimes)
            for name in ("times_s", "values", "quality"):
                column, known = getattr(stored, name), getattr(held, name)
                assert isinstance(column, StoredColumn)
                assert (column.size, column.dtype, column.nbytes) == (known.size, known.dtype, known.nbytes)
                for _ in range(4):
                    begin, end = data.draw(st.integers(-750, 750)), data.draw(st.integers(-750, 750))
                    np.testing.assert_array_equal(column[begin:end], known[begin:end])
                np.testing.assert_array_equal(column[:], known)
                assert column[-1] == known[-1]
            limits = data.draw(
                st.lists(st.sampled_from([*held.times_s.tolist(), -1.0, 1e9, 17.0]), max_size=5)
            )
            for side in ("left", "right"):
                found = stored.times_s.searchsorted(limits, side)
                np.testing.assert_array_equal(found, held.times_s.searchsorted(limits, side))


def test_a_pass_reads_each_block_once_and_the_cache_is_bounded(tmp_path, monkeypatch):
    monkeypatch.setattr(stored_column, "BLOCK", 1000)
    path = write_file(tmp_path / "run.h5", {"cell_voltage": rough_channel(1, 50_000)}, chunk=100)
    cache = BlockCache(limit_bytes=40_000)
    monkeypatch.setattr("logger.stored_channel.shared_cache", lambda: cache)
    values = read_recording(path, is_own=True, held_samples=0).channels[0].values
    loads = []
    load = StoredColumn._load
    monkeypatch.setattr(StoredColumn, "_load", lambda self, block: loads.append(block) or load(self, block))
    for begin in range(0, values.size, 700):
        values[begin : begin + 700]
        assert cache.held_bytes <= 40_000
    assert sorted(loads) == list(range(50))


def test_a_recording_replaced_by_an_edit_is_read_on(tmp_path):
    channel = rough_channel(2, 5000)
    path = write_file(tmp_path / "run.h5", {"cell_voltage": channel})
    values = read_recording(path, is_own=True, held_samples=0).channels[0].values
    np.testing.assert_array_equal(values[:100], channel[1][:100])
    os.replace(write_file(tmp_path / "edited.h5", {"cell_voltage": channel}, chunk=50), path)
    np.testing.assert_array_equal(values[4000:], channel[1][4000:])


def test_another_recording_of_that_name_is_refused_in_one_line(tmp_path):
    channel = rough_channel(3, 5000)
    path = write_file(tmp_path / "run.h5", {"cell_voltage": channel})
    values = read_recording(path, is_own=True, held_samples=0).channels[0].values
    os.replace(write_file(tmp_path / "other.h5", {"cell_voltage": channel}, uuid="6" * 32), path)
    with pytest.raises(RecordingError, match=r"^.*run\.h5 is another recording than when it was opened.*$"):
        values[:]


def test_a_file_that_is_gone_is_told_in_one_line(tmp_path):
    path = write_file(tmp_path / "run.h5", {"cell_voltage": rough_channel(4, 5000)})
    values = read_recording(path, is_own=True, held_samples=0).channels[0].values
    path.unlink()
    with pytest.raises(RecordingError, match=r"^.*run\.h5 cannot be read any further.*open it again$"):
        values[:]


@pytest.mark.parametrize("column", ["time", "value", "quality"])
def test_damage_is_told_with_its_place_in_one_line(tmp_path, column):
    path = write_file(tmp_path / "run.h5", {"cell_voltage": rough_channel(5, 5000)}, chunk=1000)
    with h5py.File(path, "r") as file:
        place = file[f"run/cell_voltage/{column}"].id.get_chunk_info(3)
    with path.open("r+b") as file:
        file.seek(place.byte_offset + place.size // 2)
        file.write(b"\xff" * (place.size // 3))
    channel = read_recording(path, is_own=True, held_samples=0).channels[0]
    damaged = {"time": channel.times_s, "value": channel.values, "quality": channel.quality}[column]
    with pytest.raises(
        RecordingError, match=rf"run\.h5 is damaged: cell_voltage/{column} cannot be read"
    ) as told:
        damaged[:]
    assert "\n" not in str(told.value)
    assert "galvanote check" in str(told.value)


@pytest.mark.parametrize(
    ("place", "value", "words"),
    [
        (2500, 1.0, "the times go backwards"),
        (3000, 1.0, "the times go backwards"),
        (7, np.nan, "not numbers"),
    ],
)
def test_times_no_recorder_writes_are_told_when_they_are_read(tmp_path, monkeypatch, place, value, words):
    monkeypatch.setattr(stored_column, "BLOCK", 1000)
    times, values, quality = rough_channel(6, 5000)
    times[place] = value
    path = write_file(tmp_path / "run.h5", {"cell_voltage": (times, values, quality)}, chunk=1000)
    channel = read_recording(path, is_own=True, held_samples=0).channels[0]
    with pytest.raises(RecordingError, match=rf"in channel cell_voltage .*{words}"):
        channel.times_s[:]


def test_what_was_read_once_is_known_without_reading(tmp_path, monkeypatch):
    monkeypatch.setattr(stored_column, "BLOCK", 1000)
    times, values, quality = rough_channel(7, 5500)
    path = write_file(tmp_path / "run.h5", {"cell_voltage": (times, values, quality)}, chunk=100)
    channel = read_recording(path, is_own=True, held_samples=0).channels[0]
    assert channel.values.bounds(slice(0, 10)) is None
    for begin in range(0, 5500, 500):
        part = slice(begin, begin + 500)
        low, high = step_bounds(channel.times_s, part)
        steps = np.diff(times[max(begin - 1, 0) : begin + 500])
        assert low <= steps.min()
        assert high >= steps.max()
        channel.values[part]
        low, high = channel.values.bounds(part)
        assert low <= values[part].min()
        assert high >= values[part].max()
    assert step_bounds(channel.times_s, slice(0, 5500)) == (np.diff(times).min(), np.diff(times).max())


@pytest.mark.parametrize("seed", range(12))
def test_a_spoilt_file_is_refused_or_right_to_the_last_number(tmp_path, seed):
    """Bytes are changed anywhere; each stored chunk has a checksum of its own (Adler-32, RFC 1950)."""
    columns = rough_channel(seed, 3000)
    path = write_file(tmp_path / "run.h5", {"cell_voltage": columns}, chunk=500)
    data, random = bytearray(path.read_bytes()), np.random.default_rng(seed)
    for where in random.integers(0, len(data), 6):
        data[where] ^= int(random.integers(1, 256))
    path.write_bytes(data)
    try:
        channel = read_recording(path, held_samples=0).channels[0]
        found = (channel.times_s[:], channel.values[:], channel.quality[:])
    except RecordingError:
        return
    for mine, known in zip(found, columns, strict=True):
        np.testing.assert_array_equal(mine, known)


def test_chunks_beyond_the_readings_are_left_alone(tmp_path):
    """A file that says of itself to be shorter than it is ended with a fault of the program."""
    channel = rough_channel(1, 7001)
    path = write_file(tmp_path / "run.h5", {"cell_voltage": channel})
    longer, shorter = (count.to_bytes(8, "little") for count in (7001, 2000))
    stored = path.read_bytes()
    assert stored.count(longer) == 3
    path.write_bytes(stored.replace(longer, shorter))
    vet(path)
    whole, lazy = both(path)
    for name, known in zip(("times_s", "values", "quality"), channel, strict=True):
        np.testing.assert_array_equal(getattr(whole.channels[0], name)[:], known[:2000])
        np.testing.assert_array_equal(getattr(lazy.channels[0], name)[:], known[:2000])


@pytest.mark.parametrize(("length", "last"), [(6976, 2**63), (6976, 2**64 - 64), (6912, 6848)])
def test_a_chunk_index_that_lies_is_left_to_the_library(tmp_path, length, last):
    """A place beyond any file ended with a fault; of two chunks for one place one was taken by chance."""
    path = write_file(tmp_path / "run.h5", {"cell_voltage": rough_channel(1, 6976)})
    full, shown, begin, lie = (number.to_bytes(8, "little") for number in (6976, length, 6912, last))
    stored, key = path.read_bytes(), bytes(4) + begin + bytes(8)  # filter mask, begin, within an element
    assert (stored.count(full), stored.count(key)) == (9, 3)
    path.write_bytes(stored.replace(full, shown).replace(key, key.replace(begin, lie)))
    vet(path)
    with h5py.File(path) as file:
        column = file["run/cell_voltage/value"]
        assert (column.shape, column.id.get_num_chunks()) == ((length,), 109)
        assert ChunkTable.of(column) is None
