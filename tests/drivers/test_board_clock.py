"""The board's clock mapped to the run's: against least squares, through stalls, wraps, restarts, damage."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray
from scipy.spatial import ConvexHull

from drivers.board_clock import BoardClock, BoardStamp, decide_tick_s, lower_envelope

SKEW = 80e-6  # the board's clock is slow by this: one board second lasts 1 + SKEW run seconds
LEAST_LATENCY_S = 0.001
TIMER_S = 0.016  # latency timer of common USB adapters (FTDI AN232B-04)
WRAP = 1 << 32


def simulated(
    seed: int, *, duration_s: float = 60.0, rate: float = 10.0, stalls: float = 0.0
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Return board seconds and arrivals: uniform 0..16 ms late, and some 200 ms late on average."""
    draw = np.random.default_rng(seed)
    board_s = np.arange(0.0, duration_s, 1 / rate)
    late_s = LEAST_LATENCY_S + draw.uniform(0.0, TIMER_S, board_s.size)
    late_s += np.where(draw.uniform(size=board_s.size) < stalls, draw.exponential(0.2, board_s.size), 0.0)
    arrival_s = np.maximum.accumulate(board_s * (1 + SKEW) + late_s)
    return board_s, arrival_s


def errors(fit: tuple[float, float], board_s: NDArray[np.float64]) -> tuple[float, float, float]:
    """Return the error of the skew, and spread and mean of mapped minus true times, of one fit."""
    intercept_s, slope = fit
    wrong_s = intercept_s + (slope - SKEW) * board_s
    return abs(slope - SKEW), float(np.ptp(wrong_s)), float(wrong_s.mean())


def least_squares(x: NDArray[np.float64], y: NDArray[np.float64]) -> tuple[float, float]:
    slope, intercept = np.polyfit(x, y, 1)
    return float(intercept), float(slope)


class TestLowerEnvelope:
    @pytest.mark.parametrize("stalls", [0.0, 0.02])
    def test_it_beats_least_squares_on_one_sided_latency(self, stalls: float):
        """Medians over 40 seeds; 80 ppm, 10 lines a second, one minute, as boards over USB behave."""
        hull, squares = [], []
        for seed in range(40):
            board_s, arrival_s = simulated(seed, stalls=stalls)
            hull.append(errors(lower_envelope(board_s, arrival_s - board_s), board_s))
            squares.append(errors(least_squares(board_s, arrival_s - board_s), board_s))
        hull_skew, hull_spread_s, hull_bias_s = np.median(hull, axis=0)
        squares_skew, squares_spread_s, squares_bias_s = np.median(squares, axis=0)
        assert hull_skew < 4e-6
        assert hull_spread_s < 0.25e-3
        assert hull_bias_s == pytest.approx(LEAST_LATENCY_S, abs=0.3e-3)
        assert squares_skew > 2 * hull_skew
        assert squares_spread_s > 2 * hull_spread_s
        assert squares_bias_s > 0.008

    def test_without_latency_it_is_exact(self):
        x = np.linspace(0.0, 60.0, 601)
        intercept, slope = lower_envelope(x, 0.25 + 3e-5 * x)
        assert intercept == pytest.approx(0.25, abs=1e-12)
        assert slope == pytest.approx(3e-5, abs=1e-13)

    def test_one_point_and_points_of_one_x(self):
        assert lower_envelope(np.array([2.0]), np.array([0.5])) == (0.5, 0.0)
        assert lower_envelope(np.array([2.0, 2.0]), np.array([0.5, 0.3])) == (0.3, 0.0)

    @given(st.integers(0, 10_000), st.integers(3, 200))
    @settings(max_examples=60)
    def test_no_point_lies_below_it_and_two_lie_on_it(self, seed: int, n: int):
        """The same edge is one of scipy's convex hull (Qhull)."""
        draw = np.random.default_rng(seed)
        x, y = np.sort(draw.uniform(0, 100, n)), draw.normal(size=n)
        intercept, slope = lower_envelope(x, y)
        above = y - (intercept + slope * x)
        assert above.min() > -1e-9
        touching = np.flatnonzero(above < 1e-9)
        assert touching.size >= 2
        assert x[touching[0]] <= (x[0] + x[-1]) / 2 <= x[touching[-1]]
        assert set(touching) <= set(ConvexHull(np.column_stack([x, y])).vertices)


class TestDecidingTheTick:
    @pytest.mark.parametrize(("tick_s", "per_second"), [(1e-3, 1000), (1e-6, 1_000_000)])
    def test_milliseconds_and_microseconds(self, tick_s: float, per_second: int):
        board_s, arrival_s = simulated(1, duration_s=2.0)
        assert decide_tick_s((board_s * per_second).astype(int).tolist(), arrival_s.tolist()) == tick_s

    def test_a_wrap_meanwhile(self):
        board_s, arrival_s = simulated(1, duration_s=2.0)
        ticks = ((board_s * 1e6).astype(int) + WRAP - 900_000) % WRAP
        assert decide_tick_s(ticks.tolist(), arrival_s.tolist()) == 1e-6

    @pytest.mark.parametrize("factor", [0.79, 1.21, 10.0])
    def test_a_rate_that_is_off_by_more_than_a_fifth(self, factor: float):
        board_s, arrival_s = simulated(1, duration_s=2.0)
        assert (
            decide_tick_s((board_s * 1000 * factor).round().astype(int).tolist(), arrival_s.tolist()) is None
        )

    def test_a_line_number_and_a_voltage_are_no_time(self):
        _, arrival_s = simulated(1, duration_s=2.0)
        assert decide_tick_s(list(range(20)), arrival_s.tolist()) is None
        assert decide_tick_s([512, 510, 511, 509, 512, 510], arrival_s[:6].tolist()) is None
        assert decide_tick_s([1], [0.0]) is None

    def test_a_name_leaves_only_its_unit(self):
        board_s, arrival_s = simulated(1, duration_s=2.0)
        ticks = (board_s * 1000).astype(int).tolist()
        assert decide_tick_s(ticks, arrival_s.tolist(), "ms") == 1e-3
        assert decide_tick_s(ticks, arrival_s.tolist(), "us") is None


def stamped(
    board_s: NDArray[np.float64], arrival_s: NDArray[np.float64], *, start: int = 0
) -> tuple[BoardClock, list[BoardStamp]]:
    clock = BoardClock(1e-6)
    ticks = ((board_s * 1e6).round().astype(int) + start) % WRAP
    return clock, [clock.stamp(int(t), float(a)) for t, a in zip(ticks, arrival_s, strict=True)]


def times(stamps: list[BoardStamp]) -> NDArray[np.float64]:
    return np.array([stamp.time_s for stamp in stamps])


class TestBoardClock:
    @pytest.mark.parametrize("stalls", [0.0, 0.02])
    def test_times_are_true_to_a_millisecond_through_stalls(self, stalls: float):
        board_s, arrival_s = simulated(3, duration_s=300.0, stalls=stalls)
        clock, stamps = stamped(board_s, arrival_s + 5.0)
        wrong_s = times(stamps) - (board_s * (1 + SKEW) + 5.0)
        settled = board_s > 60.0
        assert np.abs(wrong_s[settled] - LEAST_LATENCY_S).max() < 1.5e-3
        assert clock.skew == pytest.approx(SKEW, abs=2e-6)
        assert not clock.has_wrong_rate

    def test_the_first_ten_seconds_are_uncertain(self):
        board_s, arrival_s = simulated(3, duration_s=60.0)
        _, stamps = stamped(board_s, arrival_s)
        uncertain = np.array([stamp.is_uncertain for stamp in stamps])
        assert uncertain[board_s < 10.0].all()
        assert not uncertain[board_s >= 20.0].any()

    @given(
        seed=st.integers(0, 10_000),
        rate=st.sampled_from([0.5, 3.0, 10.0, 50.0]),
        stalls=st.sampled_from([0.0, 0.02, 0.2]),
        start=st.sampled_from([0, WRAP - 20_000_000, WRAP - 1]),
        damage=st.sampled_from([0.0, 0.05]),
    )
    @settings(max_examples=40)
    def test_times_never_decrease_nor_pass_their_arrival(
        self, seed: int, rate: float, stalls: float, start: int, damage: float
    ):
        board_s, arrival_s = simulated(seed, duration_s=90.0, rate=rate, stalls=stalls)
        draw = np.random.default_rng(seed + 1)
        board_s = board_s + np.where(
            draw.uniform(size=board_s.size) < damage, draw.normal(0, 50, board_s.size), 0
        )
        _, stamps = stamped(board_s, arrival_s, start=start)
        assert (np.diff(times(stamps)) >= 0).all()
        assert (times(stamps) <= arrival_s + 1e-9).all()

    def test_the_counter_may_wrap(self):
        board_s, arrival_s = simulated(4, duration_s=60.0)
        clock, stamps = stamped(board_s, arrival_s, start=WRAP - 30_000_000)
        assert clock.segments == 1
        assert np.diff([stamp.ticks for stamp in stamps]).tolist() == [100_000] * (board_s.size - 1)
        assert max(stamp.ticks or 0 for stamp in stamps) > WRAP

    def test_a_restart_of_the_board_begins_a_segment(self):
        board_s, arrival_s = simulated(5, duration_s=60.0)
        restarted_s = np.where(board_s < 30.0, board_s + 500.0, board_s - 30.0)
        clock, stamps = stamped(restarted_s, arrival_s)
        assert clock.segments == 2
        damaged = [place for place, stamp in enumerate(stamps) if stamp.is_damaged]
        assert damaged == [300]  # one line cannot tell a restart from a damaged time
        wrong_s = times(stamps) - board_s
        assert np.abs(wrong_s[np.abs(board_s - 30.0) > 0.15]).max() < 0.03

    def test_a_damaged_time_moves_nothing_but_its_own_line(self):
        board_s, arrival_s = simulated(6, duration_s=120.0)
        wrong_board_s = board_s.copy()
        wrong_board_s[800] += 3.0
        wrong_board_s[900] -= 40.0
        clock, stamps = stamped(wrong_board_s, arrival_s)
        assert clock.segments == 1
        assert [place for place, stamp in enumerate(stamps) if stamp.is_damaged] == [800, 900]
        assert stamps[800].time_s == arrival_s[800]
        assert stamps[800].ticks is None
        others = np.delete(times(stamps) - board_s * (1 + SKEW), [800, 900])
        assert np.abs(others[300:]).max() < 3e-3

    @pytest.mark.parametrize("rate", [2.0, 20.0])
    @pytest.mark.parametrize("frozen_s", [(6.0, 106.0), (60.0, 400.0), (0.5, 30.0)])
    @pytest.mark.parametrize("chunk", [1, 20, 10_000])
    def test_lines_that_waited_while_the_program_stood_still_keep_their_times(
        self, rate: float, frozen_s: tuple[float, float], chunk: int
    ):
        """Suspended, or swapped out: the system keeps what comes, and all of it is read at once afterwards.

        It is read in pieces of `chunk` lines, 5 ms apart; what the board's clock says is true throughout.
        """
        board_s, arrival_s = simulated(7, duration_s=frozen_s[1] + 60.0, rate=rate)
        waited = (arrival_s >= frozen_s[0]) & (arrival_s < frozen_s[1])
        pieces = np.arange(waited.sum()) // chunk
        arrival_s[waited] = frozen_s[1] + 0.005 * pieces
        arrival_s = np.maximum.accumulate(arrival_s)
        clock, stamps = stamped(board_s, arrival_s)
        assert clock.segments == 1
        assert not clock.has_wrong_rate
        assert not any(stamp.is_damaged for stamp in stamps)
        assert (np.diff(times(stamps)) >= 0).all()
        assert np.abs(times(stamps) - board_s * (1 + SKEW)).max() < 0.05

    def test_a_wrong_rate_is_still_found(self):
        """A board whose seconds are a tenth too long, its lines read as they come."""
        board_s, arrival_s = simulated(8, duration_s=120.0)
        clock, _ = stamped(board_s * 0.9, arrival_s)
        assert clock.has_wrong_rate
        assert clock.skew == pytest.approx(1 / 0.9 - 1, rel=0.02)

    def test_a_long_silence_begins_a_segment(self):
        clock = BoardClock(1e-6)
        clock.stamp(1_000_000, 1.0)
        stamp = clock.stamp(5, 1.0 + 2200.0)  # more than half of 71.58 min
        assert clock.segments == 2
        assert not stamp.is_damaged
        assert stamp.time_s == 2201.0

    def test_a_rate_that_is_off_by_more_than_a_hundredth_is_told(self):
        board_s, arrival_s = simulated(7, duration_s=60.0)
        clock, _ = stamped(board_s * 1.03, arrival_s)
        assert clock.has_wrong_rate
        assert clock.skew == pytest.approx(1 / 1.03 - 1, abs=1e-3)

    def test_a_late_first_line_is_mended(self):
        board_s, arrival_s = simulated(8, duration_s=60.0)
        arrival_s = arrival_s.copy()
        arrival_s[:6] = 0.6
        clock, stamps = stamped(board_s, arrival_s)
        assert clock.segments == 1
        assert np.abs(times(stamps) - board_s)[200:].max() < 0.02

    def test_memory_is_bounded_at_a_thousand_lines_a_second(self):
        clock = BoardClock(1e-6)
        for k in range(50_000):
            clock.stamp(k * 1000, k * 0.001)
        assert clock._segment is not None
        assert len(clock._segment._points) <= 502
