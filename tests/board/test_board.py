"""Our own board program in an emulated microcontroller, read over a pseudo terminal like a real board."""

from __future__ import annotations

import re
import time
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
import serial

from tests.board.conftest import StartBoard
from tests.board.emulated import STEP_V, Board, Profile, build_firmware

pytestmark = pytest.mark.board

READING = re.compile(rb"(\d+),(\d\.\d{4}|OL)")
STEP_TIME_MS = 100
ROUNDING_V = 0.00005  # four decimals are printed


class Reader:
    """Reads whole lines from a port as they come."""

    def __init__(self, port: str) -> None:
        self.serial = serial.Serial(port, 115200, timeout=0.1)
        self.raw = b""
        self.arrivals_s: list[float] = []

    def lines(self) -> list[bytes]:
        return self.raw.split(b"\r\n")[:-1]

    def until(self, enough: Callable[[list[bytes]], bool], within_s: float = 8.0) -> list[bytes]:
        deadline_s = time.monotonic() + within_s
        while not enough(self.lines()):
            assert time.monotonic() < deadline_s, f"not within {within_s} s; seen: {self.raw[-300:]!r}"
            self.raw += self.serial.read(max(1, self.serial.in_waiting))
            now_s = time.monotonic()
            self.arrivals_s += [now_s] * (len(self.lines()) - len(self.arrivals_s))
        return self.lines()


def has_readings(count: int) -> Callable[[list[bytes]], bool]:
    return lambda lines: sum(READING.fullmatch(line) is not None for line in lines) >= count


def readings(lines: list[bytes]) -> tuple[list[int], list[float]]:
    """Return board times in ms and volts (overload as inf); every line must be a reading."""
    matches = [READING.fullmatch(line) for line in lines]
    assert all(matches), lines
    times_ms = [int(m[1]) for m in matches if m]
    return times_ms, [np.inf if m[2] == b"OL" else float(m[2]) for m in matches if m]


def test_a_started_board_says_what_it_is_and_then_what_its_columns_are(start_board: StartBoard) -> None:
    reader = Reader(start_board().port)
    with reader.serial:
        lines = reader.until(has_readings(1))
    assert lines[0] == b"# Galvanote board, firmware 1, started by reset pin"
    assert lines[1].startswith(b"# 10-bit converter on A0, range 0 to 5000 mV")
    assert lines[2] == b"t_ms,voltage_V"
    assert lines[3] == b"50,0.0000"  # the middle of its first 100 ms


def test_readings_equal_the_input_within_half_a_step_each_100_ms(start_board: StartBoard) -> None:
    # Half a step: the ideal converter of the data sheet ("ADC Accuracy Definitions") rounds, so neither a
    # conversion nor a mean of conversions is further off. Steps, ramps and both ends of the range.
    corners = ((0.0, 0.0), (0.3, 0.0), (0.3, 1.2345), (0.7, 1.2345), (1.2, 2.2506))
    # Ramps are slow enough that the 0.1 ms between reset and the start of the board's clock do not show.
    profile = Profile((*corners, (1.4, 2.2506), (2.0, 1.996), (2.0, 4.99), (2.2, 4.99), (3.2, 0.01)))
    board = start_board(profile)
    reader = Reader(board.port)
    with reader.serial:
        times_ms, volts = readings(reader.until(has_readings(34))[3:])
    assert times_ms == list(range(50, 50 + STEP_TIME_MS * len(times_ms), STEP_TIME_MS))
    expected = [profile.mean_around(time_ms / 1000) for time_ms in times_ms]
    np.testing.assert_allclose(volts, expected, rtol=0, atol=STEP_V / 2 + ROUNDING_V)


def test_the_board_keeps_real_time_and_leaves_the_core_to_others(start_board: StartBoard) -> None:
    board = start_board()
    reader = Reader(board.port)
    with reader.serial:
        reader.until(has_readings(1))
        cpu_before_s, wall_before_s = board.cpu_s(), time.monotonic()
        lines = reader.until(has_readings(31))
        share = (board.cpu_s() - cpu_before_s) / (time.monotonic() - wall_before_s)
    times_ms, _ = readings(lines[3:])
    # A busy computer delays single lines, but never hurries one: the earliest of each end are compared.
    delay_s = np.array(reader.arrivals_s[3:]) - np.array(times_ms) / 1000
    assert np.min(delay_s[-10:]) == pytest.approx(np.min(delay_s[:10]), abs=0.03)
    assert share < 0.3


def test_above_its_range_the_board_says_overload_and_below_it_zero(start_board: StartBoard) -> None:
    # 4.99 V is code 1021.95, rounded 1022: still known. From 1022.5 steps, 4.9927 V, it is the top code.
    profile = Profile(
        ((0.0, 4.99), (0.3, 4.99), (0.3, 5.4), (0.35, 5.4), (0.35, 1.0), (0.5, 1.0), (0.5, -1.0))
    )
    reader = Reader(start_board(profile).port)
    with reader.serial:
        _, volts = readings(reader.until(has_readings(7))[3:])
    assert volts[:3] == [pytest.approx(1022 * STEP_V, abs=ROUNDING_V)] * 3
    assert volts[3] == np.inf  # overloaded for half of its stretch only: a mean would look true
    assert volts[4] == pytest.approx(1.0, abs=STEP_V / 2 + ROUNDING_V)
    assert volts[5:7] == [0.0, 0.0]


def test_averaging_resolves_far_below_a_step_when_noise_stirs_the_last_bit(start_board: StartBoard) -> None:
    between_V = 409.5 * STEP_V  # between two codes, where a quiet converter is off by half a step
    profile = Profile(((0.0, between_V),))
    noise_steps = 0.7
    quiet, noisy = (
        Reader(start_board(profile).port),
        Reader(start_board(profile, "--noise-lsb", str(noise_steps), "--seed", "5").port),
    )
    with quiet.serial, noisy.serial:
        _, quiet_volts = readings(quiet.until(has_readings(12))[3:])
        _, noisy_volts = readings(noisy.until(has_readings(12))[3:])
    assert set(quiet_volts) == {round(410 * STEP_V, 4)}
    # One conversion scatters by the noise and by rounding (1/sqrt(12) of a step, JCGM 100 F.2.2.1).
    conversion_V = STEP_V * np.sqrt(noise_steps**2 + 1 / 12)
    error_of_mean_V = conversion_V / np.sqrt(100 * len(noisy_volts))
    assert np.mean(noisy_volts) == pytest.approx(between_V, abs=4 * error_of_mean_V)
    assert 0.4 < np.std(noisy_volts, ddof=1) / (conversion_V / 10) < 2.0  # 10 = sqrt(100 conversions)


def test_what_was_sent_before_the_port_was_opened_does_no_harm(start_board: StartBoard) -> None:
    board = start_board(Profile(((0.0, 2.0),)), "--keep-running")
    time.sleep(0.75)  # the board speaks to nobody meanwhile, banner included
    reader = Reader(board.port)
    with reader.serial:
        lines = reader.until(has_readings(5))
    times_ms, volts = readings(lines[1:])  # the first line may be torn
    assert times_ms[0] > 600, "an old line was kept for a late reader"
    assert np.diff(times_ms).tolist() == [STEP_TIME_MS] * (len(times_ms) - 1)
    assert volts == [pytest.approx(2.0, abs=STEP_V / 2 + ROUNDING_V)] * len(volts)
    assert reader.raw.count(b"\r") == reader.raw.count(b"\n") == reader.raw.count(b"\r\n")


def test_opening_the_port_restarts_the_board_as_on_usb(start_board: StartBoard) -> None:
    board = start_board()
    for _ in range(2):
        reader = Reader(board.port)
        with reader.serial:
            lines = reader.until(has_readings(2))
        assert lines[0].startswith(b"# Galvanote board")
        assert readings(lines[3:])[0][:2] == [50, 150]


def test_a_board_whose_program_hangs_is_restarted_by_its_watchdog(start_board: StartBoard) -> None:
    board = start_board(Profile(((0.0, 1.5),)))
    reader = Reader(board.port)
    with reader.serial:
        before = reader.until(has_readings(2))
        board.tell("hang")
        lines = reader.until(lambda lines: b"50," in [line[:3] for line in lines[len(before) :]])
    assert any(line.endswith(b"started by watchdog") for line in lines)
    assert lines[-1] == before[3]


def test_a_voltage_can_be_set_while_the_board_runs(start_board: StartBoard) -> None:
    board = start_board(Profile(((0.0, 1.0),)))
    reader = Reader(board.port)
    with reader.serial:
        reader.until(has_readings(2))
        board.tell("volts 3.0")
        three = f"{round(3.0 / STEP_V) * STEP_V:.4f}".encode()
        lines = reader.until(lambda lines: lines[-1:] != [] and lines[-1].endswith(b"," + three))
    _, volts = readings(lines[3:])
    between = [value for value in volts if not np.isclose(value, (1.0, 3.0), atol=STEP_V).any()]
    assert len(between) <= 1, "only the stretch in which it was set may lie between"


def test_ending_the_emulator_is_a_pulled_cable_for_the_reader(start_board: StartBoard) -> None:
    board = start_board()
    reader = Reader(board.port)
    with reader.serial:
        reader.until(has_readings(1))
        assert board.unplug() == ""
        with pytest.raises((serial.SerialException, OSError)):
            reader.until(has_readings(1000), within_s=2.0)


def test_another_line_period_is_a_matter_of_one_option(harness: Path, tools: None, tmp_path: Path) -> None:
    elf = build_firmware(tmp_path, "-DLINE_PERIOD_MS=30")
    board = Board(harness, elf)
    reader = Reader(board.port)
    with reader.serial:
        times_ms, _ = readings(reader.until(has_readings(20))[3:])
    board.unplug()
    assert times_ms[:4] == [15, 45, 75, 105]
