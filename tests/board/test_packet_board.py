"""The packet firmware in an emulated microcontroller, with either converter, recorded by the real command."""

from __future__ import annotations

import json
import subprocess
import time
from collections.abc import Iterator
from pathlib import Path

import h5py
import numpy as np
import pytest

from drivers.registry import make_source
from drivers.run_clock import HostClock
from drivers.samples import Delivery, Quality
from tests.board.conftest import StartBoard, _boards
from tests.board.emulated import STEP_V, Profile
from tests.board.test_recorded_board import galvanote

pytestmark = pytest.mark.board

CONVERTERS = {
    "own": ((), STEP_V, 1000.0, "10-bit converter on A0"),
    "i2c": (("--i2c-converter",), 125e-6, 500.0, "16-bit converter on I2C"),
}
FINE_STEP_V = 125e-6
SAMPLES_A_PACKET = 32


@pytest.fixture
def start_packet_board(harness: Path, firmware: Path, tmp_path: Path) -> Iterator[StartBoard]:
    yield from _boards(harness, firmware.with_name("galvanote-board-packets.elf"), tmp_path)


def read_for(source, duration_s: float) -> Delivery:
    """All that comes in so many seconds, as one delivery."""
    samples, notices, missing = [], [], []
    until_s = time.monotonic() + duration_s
    while time.monotonic() < until_s:
        delivery = source.read(0.2)
        samples += delivery.samples
        notices += delivery.notices
        missing += delivery.missing
    return Delivery(tuple(samples), tuple(notices), (), tuple(missing))


def values_of(delivery: Delivery) -> np.ndarray:
    return np.concatenate([block.values for block in delivery.samples])


@pytest.mark.parametrize("converter", CONVERTERS)
def test_the_boards_codes_are_the_voltage_at_its_times(start_packet_board: StartBoard, converter: str):
    options, step_V, rate, words = CONVERTERS[converter]
    ramp = Profile(((0.0, 0.5), (20.0, 2.5)))
    board = start_packet_board(ramp, *options)
    with make_source(f"packet:{board.port}") as source:
        source.open(HostClock())
        delivery = read_for(source, 3.0)
        known = source.instrument
    ticks = np.concatenate([block.board_ticks for block in delivery.samples])
    values = values_of(delivery)
    assert words in known.identity
    assert known.details["rate_per_s"] == pytest.approx(rate, rel=0.01)
    assert known.details["dropped"] == known.details["crc_errors"] == 0
    assert delivery.missing == ()
    # the board's clock begins some ms after the profile's: the time of the emulated start
    expected_V = ramp.at(ticks * 1e-6)
    assert np.abs(values - expected_V).max() < step_V + 0.1 * 0.02
    assert np.abs(values / step_V - np.rint(values / step_V)).max() < 1e-6
    spacing = np.diff(ticks)
    assert np.median(spacing) == pytest.approx(1e6 / rate, abs=2)


@pytest.mark.parametrize("converter", CONVERTERS)
def test_at_the_end_of_the_range_it_is_overload(start_packet_board: StartBoard, converter: str):
    options, *_ = CONVERTERS[converter]
    board = start_packet_board(Profile(((0.0, 5.4),)), *options)
    with make_source(f"packet:{board.port}") as source:
        source.open(HostClock())
        blocks = read_for(source, 1.5).samples
    assert all(np.isposinf(block.values).all() for block in blocks)
    assert all((block.quality & Quality.OVERLOAD).all() for block in blocks)


def test_a_converter_that_goes_and_comes_back(start_packet_board: StartBoard):
    """Nothing is made up meanwhile, the other converter does not step in, and the same one goes on."""
    board = start_packet_board(Profile(((0.0, 1.5),)), "--i2c-converter")
    with make_source(f"packet:{board.port}") as source:
        source.open(HostClock())
        before = read_for(source, 1.0)
        board.tell("unplug converter")
        away = read_for(source, 4.0)  # the watchdog restarts the board after 2 s without a voltage
        board.tell("plug converter")
        back = read_for(source, 4.0)
        known = source.instrument
    for delivery in (before, back):
        assert np.abs(values_of(delivery)[-100:] - 1.5).max() <= FINE_STEP_V / 2 + 1e-9
    good = [block.values[block.quality & Quality.SUSPECT == 0] for block in (*away.samples, *back.samples)]
    assert np.abs(np.concatenate(good) - 1.5).max() <= FINE_STEP_V / 2 + 1e-9
    times_s = np.concatenate([b.times_s for d in (before, away, back) for b in d.samples])
    assert 2.0 < np.diff(times_s).max() < 8.0
    assert "10-bit" not in known.identity
    assert not any("10-bit" in notice.text for notice in (*away.notices, *back.notices))


def record(out: Path, port: str, duration: str, during=lambda: None) -> dict:
    process = subprocess.Popen(
        galvanote("record", "--source", f"packet:{port}", "--out", str(out), "--for", duration, "--json"),
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
    assert process.stderr is not None
    try:
        first = process.stderr.readline()
        assert first.startswith("Recording to"), first
        during()
        printed, said = process.communicate(timeout=200)
    finally:
        process.kill()
        process.wait()
    assert process.returncode == 0, said
    return json.loads(printed)


@pytest.mark.parametrize("converter", CONVERTERS)
def test_recorded_by_the_real_command_without_a_lost_packet(
    start_packet_board: StartBoard, tmp_path: Path, converter: str
):
    """The short form of tests/campaigns/board_recording.py."""
    options, _, rate, _ = CONVERTERS[converter]
    board = start_packet_board(Profile(((0.0, 1.9960),)), *options)
    out = tmp_path / "run.h5"
    found = record(out, board.port, "6s")
    assert found["gaps"] == []
    with h5py.File(out) as file:
        ticks = file["run/cell_voltage/board_ticks"][:]
    assert ticks.size > 4 * rate
    # By the board's clock: a busy computer runs the emulated board, and its times, unevenly.
    assert ticks.size == pytest.approx((ticks[-1] - ticks[0]) * 1e-6 * rate + 1, abs=2)


def test_packets_dropped_on_purpose_are_a_gap_of_their_length(start_packet_board: StartBoard, tmp_path: Path):
    board = start_packet_board(Profile(((0.0, 1.9960),)), "--i2c-converter")
    out = tmp_path / "run.h5"

    def drop() -> None:
        time.sleep(2.5)
        board.tell("drop 3")

    found = record(out, board.port, "6s", drop)
    lost = [gap for gap in found["gaps"] if "packets of the board were lost" in gap["reason"]]
    assert len(lost) == 1
    # three in a row; one of them may have been the info packet of that second
    packets = int(lost[0]["reason"].split()[0])
    assert packets in (2, 3)
    length_s = lost[0]["end_s"] - lost[0]["begin_s"]
    # A packet has 0.064 s; the emulated board's clock runs unevenly where the machine is busy.
    assert length_s == pytest.approx((packets * SAMPLES_A_PACKET + 1) / 500.0, abs=0.025)
