"""Room on the disk by hand: 17 bytes a reading in the journal, the same and a tenth more in the file."""

from __future__ import annotations

from pathlib import Path

import pytest

from logger.disk_room import disk_room, look_at_disk


def test_a_slow_meter_has_room_for_ever_and_a_fast_board_has_not() -> None:
    assert not disk_room(10**9, 10**6, 3.0).is_low
    fast = disk_room(10**9, 10**6, 1e5)
    # (1e9 - 1.1e6 - 1e8) bytes at 1e5 * 17 * 2.1 bytes a second
    assert fast.left_s == pytest.approx(898.9e6 / 3.57e6)
    assert fast.is_low


def test_what_was_recorded_needs_its_room_once_more() -> None:
    assert disk_room(10**9, 0, 3.0).is_low is False
    assert disk_room(10**9, 900_000_000, 3.0).is_low
    assert disk_room(10**9, 920_000_000, 3.0).left_s == 0.0


def test_a_slow_meter_on_a_small_disk_is_not_told_that_seconds_are_left() -> None:
    """25 MB do for days at 3 * 17 * 2.1 bytes a second; the window said: room for about 10 s more."""
    small = disk_room(25_000_000, 134_000, 3.0)
    assert small.is_low
    assert small.left_s is None
    assert disk_room(25_000_000, 134_000, 1e5).left_s == 0.0


def test_without_readings_only_the_spare_counts() -> None:
    assert disk_room(10**9, 0, 0.0).left_s is None
    assert disk_room(50_000_000, 0, 0.0).is_low


def test_a_real_disk_is_looked_at_and_a_missing_file_tells_nothing(tmp_path: Path) -> None:
    journal = tmp_path / "a.h5.journal"
    assert look_at_disk(journal, 3.0) is None
    journal.write_bytes(b"x" * 1000)
    found = look_at_disk(journal, 3.0)
    assert found is not None
    assert found.free_bytes > 0
