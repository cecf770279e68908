"""The finished file: its form, by the names of the contract, for readers that no one here wrote."""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
import sys
import uuid
from datetime import UTC, datetime, timedelta

import h5py
import numpy as np
import pytest

from drivers.samples import Samples
from logger.archive import assemble, finish, part_of
from logger.errors import RecordingError
from logger.inspection import inspect
from logger.journal import FrameType, JournalWriter, journal_of
from logger.moment_edits import add
from logger.moments import new_moment
from logger.payload import encode_json, encode_samples
from logger.reader import read_recording
from logger.recovery import recover
from tests.logger.fakes import block
from tests.logger.nexus_rules import broken_rules

CHANNEL = {"index": 0, "name": "cell_voltage", "role": "cell_voltage", "unit": "V"}
INSTRUMENT = {
    "address": "scpi:/dev/ttyUSB0",
    "identity": "bench meter",
    "clock": {"method": "query midpoint"},
}


def head(**changes):
    return {
        "uuid": str(uuid.uuid4()),
        "title": "Strip 4, second dip",
        "start_time": "2026-03-05T10:00:00.000+01:00",
        "time_zone": "Europe/Berlin",
        "version": "0.1.0",
        "speed": 1.0,
        "replace": False,
        "bench_toml": 'title = "Strip 4"\n',
        **changes,
    }


def journal(path, blocks, *, ended=True, **changes):
    writer = JournalWriter(journal_of(path), head(**changes))
    writer.append(FrameType.CHANNEL, encode_json({**CHANNEL, "instrument": INSTRUMENT}))
    for one in blocks:
        writer.append(FrameType.SAMPLES, encode_samples(0, one))
    writer.append(FrameType.MOMENT, encode_json(new_moment(0.2, "salt_added", "2 Tropfen µ").as_dict()))
    writer.append(FrameType.ANCHOR, encode_json({"time_s": 0.0, "utc": "2026-03-05T09:00:00.000+00:00"}))
    gap = {"id": "g", "begin_s": 0.3, "end_s": 0.4, "channel": "cell_voltage", "reason": "cable pulled"}
    writer.append(FrameType.GAP, encode_json({**gap, "end_s": None}))
    writer.append(FrameType.GAP, encode_json(gap))
    if ended:
        writer.append(
            FrameType.END, encode_json({"time_s": 60.0, "end_time": "2026-03-05T10:01:00.000+01:00"})
        )
    writer.close()
    return journal_of(path)


@pytest.fixture
def recording(tmp_path):
    path = tmp_path / "run.h5"
    finish(journal(path, [block(100 * k, 100) for k in range(50)]))
    return path


def test_h5py_alone_finds_everything_by_the_names_of_the_contract(recording):
    with h5py.File(recording) as file:
        assert file.attrs["default"] == "run"
        run = file["run"]
        assert run.attrs["default"] == "cell_voltage"
        assert run["title"][()].decode() == "Strip 4, second dip"
        assert run["start_time"][()].decode() == "2026-03-05T10:00:00.000+01:00"
        assert run["end_time"][()].decode() == "2026-03-05T10:01:00.000+01:00"
        assert run["duration"][()] == 60
        assert run["program_name"].attrs["version"] == "0.1.0"
        data = run["cell_voltage"]
        np.testing.assert_array_equal(data["value"][()], 2.0 + np.arange(5000) * 1e-6)
        assert data["time"].dtype == data["value"].dtype == np.float64
        assert data["quality"].dtype == np.uint8
        assert data.attrs["role"] == "cell_voltage"
        assert "1=overload" in data["quality"].attrs["meanings"]
        assert run["clock/time_zone"][()].decode() == "Europe/Berlin"
        assert run["moments/kind"][0].decode() == "salt_added"
        assert run["moments/label"][0].decode() == "2 Tropfen µ"
        assert run["gaps/reason"][0].decode() == "cable pulled"
        assert (run["gaps/begin"][0], run["gaps/end"][0]) == (0.3, 0.4)
        assert run["bench"].attrs["toml"] == 'title = "Strip 4"\n'
        assert run["instrument/cell_voltage/address"][()].decode() == "scpi:/dev/ttyUSB0"
        assert run["instrument/cell_voltage/clock/method"][()].decode() == "query midpoint"
        assert "findings" not in run


def test_the_file_keeps_the_nexus_rules(recording):
    with h5py.File(recording) as file:
        assert broken_rules(file) == []


def test_the_nexus_rules_see_what_is_broken(recording):
    with h5py.File(recording, "r+") as file:
        file.attrs["default"] = "nowhere"
    with h5py.File(recording) as file:
        assert broken_rules(file) != []


def test_h5dump_reads_the_voltages(recording):
    if shutil.which("h5dump") is None:
        pytest.skip("h5dump is not installed (Debian: hdf5-tools)")
    told = subprocess.run(
        ["h5dump", "-m", "%.9f", "-d", "/run/cell_voltage/value", "-s", "0", "-c", "3", str(recording)],
        capture_output=True,
        text=True,
        check=True,
    ).stdout
    assert re.findall(r"\d\.\d{9}", told) == ["2.000000000", "2.000001000", "2.000002000"]


def test_xarray_opens_it_with_time_as_coordinate(recording):
    xarray = pytest.importorskip("xarray")
    pytest.importorskip("h5netcdf")
    with xarray.open_dataset(recording, engine="h5netcdf", group="run/cell_voltage") as data:
        assert data["value"].dims == ("time",)
        assert float(data["value"].sel(time=10.0)) == pytest.approx(2.001)


def test_levels_hold_the_exact_minimum_and_maximum(tmp_path):
    rng = np.random.default_rng(1)
    n = 64 * 64 * 3 + 77
    values = rng.normal(2, 1, n)
    values[100], values[5000] = np.inf, 99.0
    times = np.arange(n) / 10
    blocks, begin = [], 0
    while begin < n:
        end = min(n, begin + int(rng.integers(1, 700)))
        blocks.append(
            Samples(
                "",
                times[begin:end],
                values[begin:end],
                np.where(np.isinf(values[begin:end]), 1, 0).astype("u1"),
            )
        )
        begin = end
    path = tmp_path / "run.h5"
    finish(journal(path, blocks))
    with h5py.File(path) as file:
        overview = file["run/cell_voltage/overview"]
        for bucket in (64, 256, 1024, 4096):
            level = overview[f"level_{bucket}"]
            covered = level.attrs["samples_covered"]
            assert covered == n // bucket * bucket
            rows = np.where(np.isfinite(values[:covered]), values[:covered], np.nan).reshape(-1, bucket)
            np.testing.assert_array_equal(level[0], np.nanmin(rows, 1))
            np.testing.assert_array_equal(level[1], np.nanmax(rows, 1))
        assert "level_16384" not in overview


def test_a_run_that_was_cut_off_says_so_and_has_an_end(tmp_path):
    path = tmp_path / "run.h5"
    finish(journal(path, [block(0, 100)], ended=False))
    with h5py.File(path) as file:
        assert file["run/duration"].attrs["cut_off"]
        assert file["run/duration"].attrs["exact"] == 0.99
        assert file["run/end_time"][()].decode() == "2026-03-05T10:00:00.990+01:00"
        assert broken_rules(file) == []


def test_board_ticks_are_kept_beside_the_times(tmp_path):
    plain = block(0, 10)
    ticking = Samples("", plain.times_s, plain.values, plain.quality, np.arange(10, dtype=np.int64) * 1000)
    path = tmp_path / "run.h5"
    finish(journal(path, [ticking]))
    with h5py.File(path) as file:
        np.testing.assert_array_equal(file["run/cell_voltage/board_ticks"][()], np.arange(10) * 1000)


def test_archiving_twice_gives_the_same_recording(recording, tmp_path):
    again = tmp_path / "again.h5"
    one = journal(again, [block(0, 100)])
    kept = one.read_bytes()
    finish(one)
    first = read_recording(again)
    one.write_bytes(kept)  # as after a power cut between the rename and the journal's removal
    assert finish(one) == again
    assert not one.exists()
    assert read_recording(again).uuid == first.uuid


def test_another_run_of_that_name_is_never_overwritten(recording, tmp_path):
    first = read_recording(recording).uuid
    made = finish(journal(recording, [block(0, 7)]))
    assert made == tmp_path / "run (2).h5"
    assert read_recording(recording).uuid == first
    assert read_recording(made).channels[0].values.size == 7


def test_a_recording_replaced_on_purpose_survives_a_cut_before_the_rename(recording):
    made = finish(journal(recording, [block(0, 7)], replace=True))
    assert made == recording
    assert read_recording(recording).channels[0].values.size == 7


def test_a_left_over_part_is_no_hindrance(tmp_path):
    path = tmp_path / "run.h5"
    part_of(path).write_bytes(b"half a file")
    finish(journal(path, [block(0, 7)]))
    assert sorted(p.name for p in tmp_path.iterdir()) == ["run.h5"]


def test_a_journal_without_a_valid_head_is_left_alone(tmp_path):
    path = tmp_path / "run.h5.journal"
    path.write_bytes(b"\0" * 100)
    assert finish(path) is None
    assert path.exists()


@pytest.mark.skipif(sys.platform != "linux", reason="reads the peak memory from /proc")
def test_assembling_stays_small_in_memory(tmp_path):
    path = tmp_path / "run.h5"
    n = 200_000
    one = journal(path, [block(n * k, n, rate=1e5) for k in range(40)])
    code = (
        "import sys; from pathlib import Path; from logger.archive import assemble;"
        "assemble(Path(sys.argv[1]), Path(sys.argv[2]));"
        "print(Path('/proc/self/status').read_text().split('VmHWM:')[1].split()[0])"
    )
    told = subprocess.run(
        [sys.executable, "-c", code, str(one), str(part_of(path))],
        capture_output=True,
        text=True,
        check=True,
        env={**os.environ, "PYTHONPATH": os.getcwd()},
    ).stdout
    assert int(told) < 120_000  # kB; the samples alone are 136 MB


def test_a_full_disk_while_assembling_leaves_no_file(tmp_path):
    with pytest.raises((OSError, RuntimeError)):
        assemble(journal(tmp_path / "run.h5", [block(0, 10)]), tmp_path / "no folder" / "x")


def test_a_damaged_journal_is_kept_beside_what_could_be_read(tmp_path):
    one = journal(tmp_path / "run.h5", [block(100 * k, 100) for k in range(10)])
    data = bytearray(one.read_bytes())
    data[len(data) // 2] ^= 1
    one.write_bytes(data)
    assert [f.what for f in inspect(one).findings if f.is_whole is False] == ["rest"]
    outcome = recover(one)
    assert outcome.outcome == "partly"
    assert 0 < read_recording(tmp_path / "run.h5").channels[0].values.size < 1000
    assert (tmp_path / "run.h5.journal.damaged").read_bytes() == bytes(data)
    assert sorted(p.name for p in tmp_path.iterdir()) == ["run.h5", "run.h5.journal.damaged"]


def test_a_journal_torn_at_its_end_leaves_nothing_behind(tmp_path):
    one = journal(tmp_path / "run.h5", [block(100 * k, 100) for k in range(10)], ended=False)
    one.write_bytes(one.read_bytes()[:-7])
    assert recover(one).outcome == "recovered"
    assert [p.name for p in tmp_path.iterdir()] == ["run.h5"]


def test_a_run_over_the_end_of_daylight_saving_time_keeps_its_length(tmp_path):
    """02:30 summer time to 02:10 winter time are 40 min: the dates carry their offsets (ISO 8601)."""
    path = journal_of(tmp_path / "run.h5")
    writer = JournalWriter(path, head(start_time="2026-10-25T02:30:00.000+02:00", time_zone="Europe/Berlin"))
    end = {"time_s": 2400.0, "end_time": "2026-10-25T02:10:00.000+01:00"}
    writer.append(FrameType.END, encode_json(end))
    writer.close()
    recording = read_recording(finish(path))
    assert recording.duration_s == 2400.0
    with h5py.File(recording.path) as file:
        dates = [
            datetime.fromisoformat(file[f"run/{name}"].asstr()[()]) for name in ("start_time", "end_time")
        ]
    assert (dates[1] - dates[0]).total_seconds() == 2400.0


@pytest.mark.parametrize("set_by_s", [-7200.0, 86_400.0, 0.5])
def test_a_clock_that_was_set_leaves_start_and_end_as_far_apart_as_the_run_is_long(tmp_path, set_by_s):
    """ISO 8601 dates of a run of 40 min; the clock was set in its middle, which the anchors keep."""
    path = journal_of(tmp_path / "run.h5")
    writer = JournalWriter(path, head())
    start = datetime.fromisoformat(head()["start_time"])
    for at_s, shown_s in ((0.0, 0.0), (1200.0, 1200.0 + set_by_s), (2400.0, 2400.0 + set_by_s)):
        shown = (start + timedelta(seconds=shown_s)).astimezone(UTC).isoformat(timespec="milliseconds")
        writer.append(FrameType.ANCHOR, encode_json({"time_s": at_s, "utc": shown}))
    shown = (start + timedelta(seconds=2400.0 + set_by_s)).isoformat(timespec="milliseconds")
    writer.append(FrameType.END, encode_json({"time_s": 2400.0, "end_time": shown}))
    writer.close()
    recording = read_recording(finish(path))
    end = datetime.fromisoformat(str(recording.end_time))
    assert (end - start).total_seconds() == pytest.approx(2400.0, abs=2.0)
    assert end.utcoffset() == start.utcoffset()
    last = datetime.fromisoformat(recording.anchors[-1].utc)
    assert (last - start).total_seconds() == 2400.0 + set_by_s


def test_anchors_that_are_no_dates_leave_the_end_as_it_is_told(tmp_path):
    path = journal_of(tmp_path / "run.h5")
    writer = JournalWriter(path, head())
    for at_s, utc in ((0.0, "yesterday"), (60.0, "2026-03-05T09:01:00.000")):
        writer.append(FrameType.ANCHOR, encode_json({"time_s": at_s, "utc": utc}))
    end_time = "2026-03-05T10:01:00.000+01:00"
    writer.append(FrameType.END, encode_json({"time_s": 60.0, "end_time": end_time}))
    writer.close()
    assert read_recording(finish(path)).end_time == end_time


@pytest.mark.parametrize("long", [1, 20_000])
@pytest.mark.parametrize("spoil", [np.flip, lambda times_s: times_s * np.nan, lambda times_s: times_s - 1e6])
def test_a_journal_with_times_that_no_reader_takes_is_not_given_up(tmp_path, long, spoil):
    good = block(0, 10)
    bad = block(10, 10 * long)
    bad = Samples(bad.channel, spoil(bad.times_s), bad.values, bad.quality)
    path = journal(tmp_path / "run.h5", [good, bad])
    before = path.read_bytes()
    outcome = recover(path)
    assert outcome.outcome == "failed"
    assert "not as a recorder writes it: in /run/cell_voltage" in outcome.message
    assert path.read_bytes() == before
    assert os.listdir(tmp_path) == [path.name]


def test_a_text_that_hdf5_cannot_hold_keeps_no_run_from_being_recovered(tmp_path):
    writer = JournalWriter(journal_of(tmp_path / "run.h5"), head(version="0\0"))
    content = {**CHANNEL, "instrument": INSTRUMENT, "role": "other\0"}
    writer.append(FrameType.CHANNEL, json.dumps(content).encode())
    writer.append(FrameType.SAMPLES, encode_samples(0, block(0, 10)))
    writer.close()
    outcome = recover(writer.path)
    assert outcome.outcome == "recovered", outcome.message
    assert read_recording(tmp_path / "run.h5").channels[0].values.size == 10


def spoilt(recording, name, **content):
    with h5py.File(recording, "r+") as file:
        del file[name]
        file.create_dataset(name, **content)
    return recording


@pytest.mark.parametrize("shape", [(), (2, 3)])
@pytest.mark.parametrize("column", ["time", "value", "quality"])
def test_a_column_that_is_none_is_said_to_be(recording, column, shape):
    found = inspect(spoilt(recording, f"run/cell_voltage/{column}", data=np.zeros(shape)))
    told = {finding.what: finding for finding in found.findings}
    assert not found.is_whole
    assert told[f"cell_voltage/{column}"].text == "it is no column of values"


@pytest.mark.parametrize("data", [np.empty(0, "i8"), np.int64(3), np.zeros(9, "i8")])
def test_moments_with_too_few_revisions_are_refused_in_words(recording, data):
    with pytest.raises(RecordingError, match="the columns of the moments differ in length"):
        read_recording(spoilt(recording, "run/moments/revision", data=data))


def test_two_moments_of_one_id_are_refused_in_words(recording):
    """One of them was shown, and the other was lost with the next edit."""
    add(recording, 0.4, "note", "second")
    with h5py.File(recording, "r") as file:
        first, *others = file["run/moments/id"].asstr()[()]
    with pytest.raises(RecordingError, match="two of the moments have one id"):
        read_recording(spoilt(recording, "run/moments/id", data=[first] * (1 + len(others))))
