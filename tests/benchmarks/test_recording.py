"""The benchmarks of recording run, and what they record is right; speed itself is not judged here."""

from __future__ import annotations

import sys

import pytest

pytestmark = pytest.mark.skipif(sys.platform != "linux", reason="figures of processes come from /proc")


def test_both_ways_of_writing_are_measured(tmp_path, capsys: pytest.CaptureFixture[str]):
    from tests.benchmarks.recording import speed

    speed(tmp_path, 1, 0.01)  # asserts that everything became durable
    assert "100 kHz" in capsys.readouterr().out
    assert list(tmp_path.iterdir()) == []


def test_archiving_two_minutes_takes_little_memory(tmp_path):
    from tests.benchmarks.recording import archiving

    assert archiving(tmp_path, 1 / 30)


def test_a_killed_live_process_is_started_again_and_nothing_is_lost(tmp_path):
    from tests.benchmarks.following import SCENES, played

    row, _ = played(SCENES[1], tmp_path, 5.0)
    assert row[-1] == "right"
