"""The emulated board as an instrument: read by the text source, recorded and analysed by real commands."""

from __future__ import annotations

import json
import subprocess
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import h5py
import numpy as np
import pytest
from numpy.typing import NDArray

from drivers.errors import SourceLost
from drivers.registry import make_source
from drivers.run_clock import HostClock
from drivers.samples import Quality, Samples
from drivers.source import Source
from tests.board.conftest import StartBoard
from tests.board.emulated import STEP_V, Profile

pytestmark = pytest.mark.board

BOOT_S = 0.2  # how long the emulated board is silent after its port was opened
HALF_STRETCH_S = 0.05  # a line carries the middle of 100 ms and leaves at their end
TICK_S = 0.001

RAMP = Profile(((0.0, 1.0), (1.5, 1.0), (2.5, 2.2506), (3.0, 2.2506), (3.0, 1.996)))


def collect(source: Source, enough: Callable[[list[Samples]], bool], within_s: float) -> list[Samples]:
    blocks: list[Samples] = []
    deadline_s = time.monotonic() + within_s
    while not enough(blocks):
        assert time.monotonic() < deadline_s, f"not within {within_s} s: {blocks[-3:]}"
        blocks += source.read(0.2).samples
    return blocks


def with_board_time(
    blocks: list[Samples],
) -> tuple[NDArray[np.int64], NDArray[np.float64], NDArray[np.float64]]:
    """Return board ticks, run times and values of the samples that carry the board's time."""
    timed = [(block, block.board_ticks) for block in blocks if block.board_ticks is not None]
    return (
        np.concatenate([ticks for _, ticks in timed]),
        np.concatenate([block.times_s for block, _ in timed]),
        np.concatenate([block.values for block, _ in timed]),
    )


def count(blocks: list[Samples]) -> int:
    return sum(len(block) for block in blocks)


def test_the_text_source_gives_the_boards_volts_at_the_boards_times(start_board: StartBoard) -> None:
    board = start_board(RAMP)
    clock = HostClock()
    with make_source(f"text:{board.port}") as source:
        opened_s = clock.now_s()
        source.open(clock)
        blocks = collect(source, lambda blocks: count(blocks) >= 40, within_s=8)
        assert source.instrument.identity.startswith("# Galvanote board, firmware 1, started by reset pin\n")
    ticks, times_s, volts = with_board_time(blocks)
    assert len(ticks) >= 25
    assert np.diff(ticks).tolist() == [100] * (len(ticks) - 1)
    expected_V = [RAMP.mean_around(tick * TICK_S) for tick in ticks]
    np.testing.assert_allclose(volts, expected_V, rtol=0, atol=STEP_V / 2 + 0.00005)
    # The host cannot know that a line leaves half a stretch after the time it carries.
    true_s = opened_s + BOOT_S + ticks * TICK_S + HALF_STRETCH_S
    # A busy computer makes lines late, never early; the earliest of ten is hardly late.
    late_s = times_s[-10:] - true_s[-10:]
    assert -0.01 < late_s.min() < 0.15
    assert np.median(np.diff(times_s)) == pytest.approx(0.1, abs=0.005)


def test_an_overload_of_the_board_reaches_the_samples_as_infinite(start_board: StartBoard) -> None:
    board = start_board(Profile(((0.0, 5.4), (0.4, 5.4), (0.4, 2.0))))
    with make_source(f"text:{board.port}") as source:
        source.open(HostClock())
        blocks = collect(source, lambda blocks: count(blocks) >= 8, within_s=5)
    values = np.concatenate([block.values for block in blocks])
    overloaded = (np.concatenate([block.quality for block in blocks]) & Quality.OVERLOAD) != 0
    assert values[0] == np.inf
    assert overloaded.tolist() == np.isposinf(values).tolist()
    assert values[-1] == pytest.approx(2.0, abs=STEP_V / 2 + 0.00005)


def test_a_board_that_restarts_by_its_watchdog_goes_on_in_the_same_run(start_board: StartBoard) -> None:
    board = start_board(Profile(((0.0, 1.5),)))
    with make_source(f"text:{board.port}") as source:
        source.open(HostClock())
        blocks = collect(source, lambda blocks: count(blocks) >= 15, within_s=5)
        board.tell("hang")
        blocks += collect(source, lambda blocks: count(blocks) >= 15, within_s=8)
    ticks, times_s, volts = with_board_time(blocks)
    restarts = np.flatnonzero(np.diff(ticks) < 0)
    assert restarts.size == 1, "the board's clock began anew once"
    pause_s = np.diff(times_s)[restarts[0]]
    assert 1.5 < pause_s < 3.0, "the watchdog waits two seconds"
    assert np.all(np.diff(times_s) >= 0)
    np.testing.assert_allclose(volts, 1.5, rtol=0, atol=STEP_V / 2 + 0.00005)


def test_a_pulled_cable_is_told_as_the_loss_of_the_source(start_board: StartBoard) -> None:
    board = start_board()
    with make_source(f"text:{board.port}") as source:
        source.open(HostClock())
        collect(source, lambda blocks: count(blocks) >= 3, within_s=5)
        board.unplug()
        with pytest.raises(SourceLost, match=board.port):
            collect(source, lambda blocks: False, within_s=3)


# ---- a compressed lesson by the real commands


BEFORE_V, AFTER_V = 2.2506, 1.9960  # invented, about a lesson's
DRY_V = 5.4  # the whole stack stands on the input, beyond the range
LESSON = (  # when (seconds), what the operator types, what the input then is
    (0.3, "dry_cell", DRY_V),
    (1.8, "buffer_in", BEFORE_V),
    (8.6, "salt_added 20 mg", 2.20),
    (9.0, "", 2.14),
    (9.4, "", 2.10),
    (9.8, "", 2.07),
    (10.4, "electrodes_out", DRY_V),
    (12.0, "solution_swapped", DRY_V),
    (13.0, "electrodes_in", AFTER_V),
)
TYPED = [line.split()[0] for _, line, _ in LESSON if line]
BENCH = """
title = "Compressed lesson on the emulated board (invented)"
[meter]
range_V = 5.0
resolution_V = 0.0001
[settling]
limit_mV_per_min = 20
window_s = 5
"""


def galvanote(*words: str) -> list[str]:
    return [str(Path(sys.executable).with_name("galvanote")), *words]


@dataclass(frozen=True)
class Lesson:
    """What the record command left and said."""

    file: Path
    said: str
    recorded: dict[str, Any]


@pytest.fixture(scope="module")
def lesson(start_module_board: StartBoard, tmp_path_factory: pytest.TempPathFactory) -> Lesson:
    """Record the lesson once, with an operator who types the moments."""
    folder = tmp_path_factory.mktemp("lesson")
    bench, out = folder / "bench.toml", folder / "lesson.h5"
    bench.write_text(BENCH)
    board = start_module_board(Profile(((0.0, DRY_V),)), "--noise-lsb", "0.7", "--seed", "3")
    command = galvanote("record", "--source", f"text:{board.port}", "--bench", str(bench))
    process = subprocess.Popen(
        [*command, "--out", str(out), "--for", "20s", "--json"],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
    assert process.stdin is not None
    assert process.stderr is not None
    try:
        first = process.stderr.readline()
        assert first.startswith("Recording to"), first
        began_s = time.monotonic()
        for at_s, line, volts in LESSON:
            time.sleep(max(0.0, began_s + at_s - time.monotonic()))
            if line:
                process.stdin.write(line + "\n")
                process.stdin.flush()
            board.tell(f"volts {volts}")
        printed, said = process.communicate(timeout=40)
    finally:
        process.kill()
        process.wait()
    assert process.returncode == 0, said
    return Lesson(out, said, json.loads(printed))


def test_the_record_command_records_every_reading_of_the_board(lesson: Lesson) -> None:
    assert lesson.recorded["gaps"] == []
    assert lesson.recorded["moments"] == len(TYPED)
    with h5py.File(lesson.file) as file:
        channel = file["run/cell_voltage"]
        times_s, volts, quality = channel["time"][:], channel["value"][:], channel["quality"][:]
        kinds = [kind.decode() for kind in file["run/moments/kind"][:]]
        moments_s = dict(zip(kinds, file["run/moments/time"][:], strict=True))
    assert kinds == TYPED
    # Neither lost nor doubled, nor timed in bunches: as many as tenths of a second have passed.
    assert times_s[-1] - times_s[0] > 19.0
    assert volts.size == pytest.approx((times_s[-1] - times_s[0]) / 0.1 + 1, abs=2)
    assert np.median(np.diff(times_s)) == pytest.approx(0.1, abs=0.005)
    assert 0 <= np.diff(times_s).min() <= np.diff(times_s).max() < 0.5
    assert np.array_equal(np.isposinf(volts), (quality & Quality.OVERLOAD) != 0)
    before = volts[(times_s > moments_s["buffer_in"] + 0.5) & (times_s < moments_s["salt_added"] - 0.5)]
    after = volts[times_s > moments_s["electrodes_in"] + 0.5]
    for stretch, true_V in ((before, BEFORE_V), (after, AFTER_V)):
        # A conversion scatters by 0.7 of a step and by rounding; a reading is the mean of 100.
        mean_uncertainty_V = STEP_V * np.sqrt(0.7**2 + 1 / 12) / np.sqrt(100 * stretch.size)
        assert stretch.size > 40
        assert stretch.mean() == pytest.approx(true_V, abs=5 * mean_uncertainty_V)


def test_the_analyse_command_finds_the_lessons_voltages_and_the_saving(lesson: Lesson) -> None:
    done = subprocess.run(
        galvanote("analyse", str(lesson.file), "--json"),
        text=True,
        capture_output=True,
        check=False,
        timeout=60,
    )
    assert done.returncode == 0, done.stderr
    (found,) = json.loads(done.stdout)
    assert [phase["phase"] for phase in found["phases"]] == ["dry", "before", "growth", "after"]
    for phase, true_V in (("before", BEFORE_V), ("after", AFTER_V)):
        settled = found["settled"][phase]
        assert settled["is_settled"], settled
        assert settled["voltage_V"] == pytest.approx(true_V, abs=0.0005)
    saved = found["voltage_saved"]
    low_V, high_V = saved["interval95_V"]
    assert low_V <= BEFORE_V - AFTER_V <= high_V
    assert saved["value_V"] == pytest.approx(BEFORE_V - AFTER_V, abs=0.001)
