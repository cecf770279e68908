"""The shelf: finds recordings, reads them out of harm's way, and remembers what it read."""

from __future__ import annotations

import json
import os
import sys
import textwrap
import time
from pathlib import Path
from typing import Any

import h5py
import numpy as np
import pytest

from logger.errors import LoggerError
from logger.shelf import Shelf, recordings_in
from logger.shelf_child import small_curve, summary
from logger.shelf_entry import CURVE_COLUMNS, EntryError, ShelfEntry, matches
from logger.shelf_reader import ShelfReader
from tests.logger.shelf_files import write_recording


class FakeReader:
    """Tells of every file what it is told to, and counts."""

    def __init__(self) -> None:
        self.asked: list[str] = []
        self.answer: dict[str, Any] = {
            "state": "finished", "title": "Strip 4", "samples": 3,
            "low_V": [1.0, None], "high_V": [2.0, None],
        }  # fmt: skip

    def read(self, path: Path) -> dict[str, Any]:
        self.asked.append(path.name)
        return self.answer

    def close(self) -> None:
        pass


def shelf(tmp_path: Path) -> tuple[Shelf, FakeReader]:
    reader = FakeReader()
    return Shelf(tmp_path / "kept", reader=reader), reader  # type: ignore[arg-type]


def folder_with(tmp_path: Path, *names: str) -> Path:
    folder = tmp_path / "runs"
    folder.mkdir(exist_ok=True)
    for age, name in enumerate(names):
        (folder / name).write_bytes(b"x")
        os.utime(folder / name, ns=(10**18 - age * 10**9,) * 2)
    return folder


def entries(made: Shelf, folder: Path) -> list[ShelfEntry]:
    found: list[ShelfEntry] = []
    made.read_folder(folder, found.append)
    return found


def test_a_journal_counts_where_there_is_no_recording_of_that_name(tmp_path: Path) -> None:
    folder = folder_with(tmp_path, "new.h5", "cut.h5.journal", "old.h5", "old.h5.journal", "notes.txt")
    (folder / "below.h5").mkdir()
    assert [p.name for p in recordings_in(folder)] == ["new.h5", "cut.h5.journal", "old.h5"]


def test_a_folder_that_cannot_be_read_is_told_with_a_remedy(tmp_path: Path) -> None:
    with pytest.raises(LoggerError, match="choose another one"):
        recordings_in(tmp_path / "nowhere")


def test_what_was_read_is_kept_until_the_file_changes(tmp_path: Path) -> None:
    folder = folder_with(tmp_path, "a.h5", "b.h5")
    first, reader = shelf(tmp_path)
    assert [e.title for e in entries(first, folder)] == ["Strip 4", "Strip 4"]
    assert reader.asked == ["a.h5", "b.h5"]
    second, reader = shelf(tmp_path)
    again = entries(second, folder)
    assert reader.asked == []
    assert again[0].low_V == (1.0, None)
    (folder / "b.h5").write_bytes(b"longer")
    third, reader = shelf(tmp_path)
    entries(third, folder)
    assert reader.asked == ["b.h5"]


def test_a_running_recording_is_looked_at_each_time(tmp_path: Path) -> None:
    folder = folder_with(tmp_path, "a.h5.journal")
    for _ in range(2):
        made, reader = shelf(tmp_path)
        reader.answer = {"state": "recording"}
        entries(made, folder)
        assert reader.asked == ["a.h5.journal"]


@pytest.mark.parametrize(
    "kept",
    [
        "",
        "null",
        "[]",
        '{"version": 1}',
        '{"version": 1, "entries": [{"path": 3}]}',
        "[" * 100_000,
        '{"version": 9}',
    ],
)
def test_damaged_notes_of_the_shelf_cost_nothing_but_time(tmp_path: Path, kept: str) -> None:
    folder = folder_with(tmp_path, "a.h5")
    made, _reader = shelf(tmp_path)
    entries(made, folder)
    (file,) = (tmp_path / "kept").iterdir()
    file.write_text(kept, encoding="utf-8")
    made, reader = shelf(tmp_path)
    assert len(entries(made, folder)) == 1
    assert reader.asked == ["a.h5"]


@pytest.mark.parametrize(
    "answer",
    [
        {},
        {"state": "eaten"},
        {"samples": -1},
        {"low_V": "xx", "high_V": "xx"},
        {"title": 3},
        {"low_V": [1.0]},
    ],
)
def test_a_child_that_tells_nonsense_makes_a_damaged_entry(tmp_path: Path, answer: dict[str, Any]) -> None:
    made, reader = shelf(tmp_path)
    reader.answer = answer
    path = folder_with(tmp_path, "a.h5") / "a.h5"
    entry = made.read_file(path)
    assert (entry.state, entry.path) == ("damaged", path)


def test_what_could_not_be_read_is_read_again_after_the_others(tmp_path: Path) -> None:
    """A file that may be read by now, or a computer that was busy, stayed damaged until the file changed."""
    folder = folder_with(tmp_path, "a.h5", "b.h5")
    first, reader = shelf(tmp_path)
    reader.answer = {"state": "damaged", "problem": "it may not be read; check its permissions"}
    assert {e.state for e in entries(first, folder)} == {"damaged"}
    (folder / "c.h5").write_bytes(b"new")
    os.utime(folder / "c.h5", (0, 0))  # the oldest
    second, reader = shelf(tmp_path)
    assert {e.state for e in entries(second, folder)} == {"finished"}
    assert reader.asked == ["c.h5", "a.h5", "b.h5"]
    third, reader = shelf(tmp_path)
    entries(third, folder)
    assert reader.asked == []


def test_an_entry_survives_json() -> None:
    entry = ShelfEntry(Path("a.h5"), "finished", title="ü", low_V=(None, 1.5), high_V=(None, 2.5), last_V=2.0)
    assert ShelfEntry.from_dict(json.loads(json.dumps(entry.as_dict()))) == entry
    with pytest.raises(EntryError):
        ShelfEntry.from_dict({})


def test_search_takes_every_word_anywhere() -> None:
    entry = ShelfEntry(
        Path("/x/run 7.h5"),
        "finished",
        title="Strip 4, Cobalt",
        start_time="2026-11-25",
        labels="Salt added 2 drops",
    )
    assert matches(entry, "COBALT drops")
    assert matches(entry, "2026-11")
    assert matches(entry, "")
    assert not matches(entry, "cobalt nickel")


def test_the_small_curve_holds_every_spike() -> None:
    times = np.arange(0.0, 10000.0)
    values = np.full(10000, 2.0)
    values[[3, 5000, 9999]] = 9.0, np.inf, 1.0
    low, high = small_curve(times, values, 0.0, 9999.0)
    assert len(low) == len(high) == CURVE_COLUMNS
    assert high[0] == 9.0
    assert low[-1] == 1.0
    assert max(v for v in high if v is not None) == 9.0  # overload is no voltage
    times = np.append(np.linspace(0.0, 10.0, 5000), np.linspace(90.0, 100.0, 5000))
    gap_low, _ = small_curve(times, np.full(10000, 2.0), 0.0, 100.0)
    assert gap_low.count(None) == pytest.approx(0.8 * CURVE_COLUMNS, abs=2)


@pytest.mark.parametrize("count", [1, 2, 3, 10, 100, 1000])
def test_the_small_curve_of_few_readings_has_no_holes(count: int) -> None:
    """A meter that reads every five seconds does not leave gaps between its readings."""
    low, high = small_curve(5.0 * np.arange(count), np.full(count, 2.0), 0.0, max(5.0 * (count - 1), 1.0))
    assert len(low) == len(high) <= CURVE_COLUMNS
    if count >= 3:
        assert None not in low


@pytest.mark.parametrize("cut_off", [False, True])
def test_the_small_curve_begins_with_the_run_and_not_with_its_first_reading(
    tmp_path: Path, cut_off: bool
) -> None:
    """Where a meter answered late, the voltages stood at other times than those below the curve."""
    times = np.arange(30.0, 60.0, 0.1)
    path = write_recording(tmp_path / "late.h5", times, np.full(times.size, 2.0), [], cut_off=cut_off)
    told = summary(path)
    assert told["duration_s"] == pytest.approx(60.0, abs=1.0)
    has_data = [v is not None for v in told["low_V"]]
    first = has_data.index(True)
    assert first / len(has_data) == pytest.approx(30.0 / told["duration_s"], abs=2 / len(has_data))
    assert not any(has_data[:first])


def test_what_lies_beyond_the_run_is_not_in_its_small_curve() -> None:
    low, high = small_curve(np.array([0.0, 1.0, 2.0, 50.0]), np.array([2.0, 2.0, 2.0, 9.0]), 0.0, 2.0)
    assert (low[-1], high[-1]) == (2.0, 2.0)


def test_a_real_recording_is_told_as_it_is(tmp_path: Path) -> None:
    times = np.arange(0, 60, 0.5)
    path = write_recording(tmp_path / "ü 1.h5", times, 2.0 + times / 100, [(5.0, "salt_added", "2 drops")])
    reader = ShelfReader()
    try:
        told = reader.read(path)
        assert told["state"] == "finished", told
        assert told["title"] == "Invented"
        assert told["samples"] == times.size
        assert told["labels"] == "Salt added 2 drops"
        assert told["last_V"] == pytest.approx(2.595)
        assert told["duration_s"] >= 59.5
        journal = write_recording(tmp_path / "cut.h5", times, 2.0 + times / 100, [], cut_off=True)
        cut = reader.read(journal)
        assert (cut["state"], cut["samples"]) == ("cut_off", times.size)
        no_recording = tmp_path / "other.h5"
        with h5py.File(no_recording, "x") as file:
            file.create_dataset("x", data=np.zeros(3), dtype="f8")
        assert reader.read(no_recording)["state"] == "damaged"
        (tmp_path / "text.h5").write_text("no HDF5 at all")
        assert reader.read(tmp_path / "text.h5")["state"] == "damaged"
        with h5py.File(tmp_path / "link.h5", "x") as file:
            file["run"] = h5py.ExternalLink("other.h5", "/")
        assert "link" in reader.read(tmp_path / "link.h5")["problem"]
        assert reader.read(tmp_path / "gone.h5")["state"] == "damaged"
        assert reader.read(path) == told  # the same child goes on
        assert reader.read(Path(os.path.relpath(path)))["state"] == "finished"
    finally:
        reader.close()


def child(tmp_path: Path, body: str) -> list[str]:
    """A child that does something else than it should."""
    script = tmp_path / "child.py"
    script.write_text("import json, os, sys, time\nfor line in sys.stdin:\n" + textwrap.indent(body, "    "))
    return [sys.executable, str(script)]


def test_a_file_that_keeps_the_child_busy_is_given_up(tmp_path: Path) -> None:
    path = folder_with(tmp_path, "a.h5") / "a.h5"
    reader = ShelfReader(child(tmp_path, "time.sleep(600)"), limit_s=0.2)
    began_s = time.monotonic()
    assert "takes too long" in reader.read(path)["problem"]
    assert time.monotonic() - began_s < 60
    reader.close()


def test_a_file_that_kills_the_child_costs_only_that_file(tmp_path: Path) -> None:
    folder = folder_with(tmp_path, "bad.h5", "good.h5")
    body = 'os._exit(9) if "bad" in line else print(json.dumps({"state": "finished"}), flush=True)'
    reader = ShelfReader(child(tmp_path, body))
    try:
        assert "breaks" in reader.read(folder / "bad.h5")["problem"]
        assert reader.read(folder / "good.h5") == {"state": "finished"}
    finally:
        reader.close()


def test_stopping_ends_a_shelf_that_reads(tmp_path: Path) -> None:
    folder = folder_with(tmp_path, "a.h5", "b.h5")
    made = Shelf(
        None, reader=ShelfReader(child(tmp_path, 'print(json.dumps({"state": "finished"}), flush=True)'))
    )
    found: list[ShelfEntry] = []

    def take(entry: ShelfEntry) -> None:
        found.append(entry)
        made.stop()

    assert made.read_folder(folder, take) == 1


def test_a_shelf_that_is_given_up_ends_after_the_present_file(tmp_path: Path) -> None:
    folder = folder_with(tmp_path, "a.h5", "b.h5")
    made = Shelf(
        tmp_path / "kept",
        reader=ShelfReader(child(tmp_path, 'print(json.dumps({"state": "finished"}), flush=True)')),
    )
    found: list[ShelfEntry] = []

    def take(entry: ShelfEntry) -> None:
        found.append(entry)
        made.end()

    assert made.read_folder(folder, take) == 1
    assert [entry.state for entry in found] == ["finished"]
    assert not (tmp_path / "kept").exists()  # half a folder is not kept as a whole one


def test_times_out_of_range_do_not_break_the_summary(tmp_path: Path) -> None:
    times = np.array([0.0, 1.0, 2.0])
    path = write_recording(tmp_path / "a.h5", times, np.array([2.0, np.inf, 2.1]), [])
    told = summary(path)
    assert told["last_V"] == pytest.approx(2.1)
