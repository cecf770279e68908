"""When the samples of packets were taken: the board's clock, mapped to the run's (`drivers.board_clock`).

Of the packets that arrive together, the board's time of the very last sample is set against the arrival; the
other samples stand before it by the board's own measure. Pure.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from itertools import groupby
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from drivers.board_clock import BoardClock
from drivers.formats.packet_stream import PacketRun
from drivers.packet_ticks import Losses, PacketTicks, PlacedPacket

__all__ = ["LostStretch", "PacketTimes", "TimedRun"]

_TICK_S = 1e-6  # while the board has not said
_UNCERTAINTY_S = 0.002  # least latency and fit, in the simulation of tests/drivers/test_board_clock.py
_ARRIVAL_UNCERTAINTY_S = 0.016  # latency timer of common USB adapters (common practice, no source)

Floats = NDArray[np.float64]


class LostStretch(NamedTuple):
    """From the last sample before to the first one after (run seconds), and what is missing between."""

    begin_s: float
    end_s: float
    packets: int
    samples: int
    is_restart: bool


@dataclass(frozen=True, slots=True, eq=False)
class TimedRun:
    """Packets between two starts of the board, with the times of their samples.

    `times_s` : float64, shape (m, instants), run seconds, never decreasing from one run to the next.
    `ticks` : int64, shape (m, instants), unwrapped. `is_sure` : bool, shape (m,). `missing` : the stretches
    among and right before these samples from which some were lost.
    """

    run: PacketRun
    times_s: Floats
    ticks: NDArray[np.int64]
    is_sure: NDArray[np.bool_]
    missing: tuple[LostStretch, ...] = ()


class PacketTimes:
    """Stamps the packets of one board, from one opening of its line to the next.

    `losses` are those of all openings.
    """

    def __init__(self) -> None:
        self.losses = Losses()
        self._tick_s = _TICK_S
        self._ticks = PacketTicks(_TICK_S)
        self.begin(-math.inf)

    def begin(self, not_before_s: float) -> None:
        """Start anew, because the line was opened; what was measured of the sample rate stays.

        `not_before_s` : floor of all times, run seconds: what was delivered before.
        """
        self._follow_anew(self._ticks.spacing)
        self._last_s = self._arrival_s = not_before_s

    def declare_tick(self, ticks_per_s: int) -> None:
        """Take the board's word for the length of its tick; another one than before begins anew."""
        if 1.0 / ticks_per_s != self._tick_s:
            self._tick_s = 1.0 / ticks_per_s
            self._follow_anew(0.0)

    def declare_spacing(self, ticks: float) -> None:
        """Take the ticks from sample to sample until they are measured."""
        self._ticks.declare(ticks)

    def _follow_anew(self, spacing: float) -> None:
        self._ticks = PacketTicks(self._tick_s, spacing, self.losses)
        self._clock = BoardClock(self._tick_s)
        self._segment = 0

    @property
    def last_s(self) -> float:
        """The last time that was given, run seconds."""
        return self._last_s

    @property
    def spacing(self) -> float:
        """The usual ticks from sample to sample, 0 while nothing tells."""
        return self._ticks.spacing

    @property
    def rate_per_s(self) -> float | None:
        """Samples of each channel per second, None while nothing tells."""
        return 1.0 / (self._ticks.spacing * self._tick_s) if self._ticks.spacing else None

    @property
    def facts(self) -> Mapping[str, str | float]:
        """How times are made, for `Instrument.clock`."""
        if not self._clock.is_fitted:
            return {"method": "arrival", "uncertainty_s": _ARRIVAL_UNCERTAINTY_S, "tick_s": self._tick_s}
        return {
            "method": "board-clock, lower envelope",
            "uncertainty_s": max(_UNCERTAINTY_S, self._tick_s),
            "tick_s": self._tick_s,
            "skew_ppm": self._clock.skew * 1e6,
            "offset_s": self._clock.offset_s,
            "segments": float(self._segment),
        }

    @property
    def has_wrong_rate(self) -> bool:
        """Whether the board's seconds differ from ours by more than 1 %."""
        return self._clock.has_wrong_rate

    def stamp(self, run: PacketRun, arrivals_s: Floats) -> list[TimedRun]:
        """Return the packets of a run with their times, in one piece for each start of the board.

        `arrivals_s` : float64, shape (m,), when the last byte of each packet arrived (run seconds). A packet
        that came twice is left out.
        """
        instants = run.codes.shape[1]
        rows: list[tuple[int, PlacedPacket, float]] = []
        for row, (sequence, counter, flags, arrival_s) in enumerate(
            zip(
                run.sequence.tolist(),
                run.ticks.tolist(),
                run.flags.tolist(),
                arrivals_s.tolist(),
                strict=True,
            )
        ):
            self._arrival_s = max(self._arrival_s, arrival_s)
            placed = self._ticks.follow(sequence, counter, instants, flags, self._arrival_s)
            if placed is not None:
                rows.append((row, placed, self._arrival_s))
        return [self._piece(run, list(part)) for _, part in groupby(rows, key=lambda entry: entry[1].segment)]

    def _piece(self, run: PacketRun, rows: list[tuple[int, PlacedPacket, float]]) -> TimedRun:
        """Set the last sample of these packets against its arrival, and all others before it."""
        placed = [entry[1] for entry in rows]
        before_s, is_restart = self._last_s, 0 < self._segment < placed[0].segment
        if placed[0].segment != self._segment:
            self._segment = placed[0].segment
            self._clock = BoardClock(self._tick_s)
        first = np.array([one.ticks for one in placed], np.int64)[:, np.newaxis]
        spacing = np.array([one.spacing for one in placed])[:, np.newaxis]
        ticks = _never_decreasing(first + np.rint(spacing * np.arange(run.codes.shape[1])).astype(np.int64))
        stamp = self._clock.stamp(int(ticks[-1, -1]), rows[-1][2])
        back_s = (ticks - ticks[-1, -1]) * (self._tick_s * (1.0 + self._clock.skew))
        times_s = np.maximum(stamp.time_s + back_s, self._last_s)
        self._last_s = float(times_s[-1, -1])
        is_measured = np.array([one.is_measured for one in placed])
        return TimedRun(
            run=run[np.array([entry[0] for entry in rows])],
            times_s=times_s,
            ticks=ticks,
            is_sure=is_measured & (not stamp.is_uncertain),
            missing=_lost_stretches(placed, times_s, before_s, is_restart),
        )


def _never_decreasing(rows: NDArray[np.int64]) -> NDArray[np.int64]:
    """Lift what lies below the largest before it, row after row: a spacing that was measured too large."""
    lifted: NDArray[np.int64] = np.maximum.accumulate(rows.ravel()).reshape(rows.shape)
    return lifted


def _lost_stretches(
    placed: list[PlacedPacket], times_s: Floats, before_s: float, is_restart: bool
) -> tuple[LostStretch, ...]:
    """Return where samples are missing; `before_s` is the time of the last sample before these."""
    found = []
    for row, one in enumerate(placed):
        restarts = is_restart and row == 0
        if not (one.lost_packets or one.lost_samples or restarts):
            continue
        begin_s = float(times_s[row - 1, -1]) if row else before_s
        end_s = float(times_s[row, 0])
        if math.isfinite(begin_s) and end_s > begin_s:
            found.append(LostStretch(begin_s, end_s, one.lost_packets, one.lost_samples, restarts))
    return tuple(found)
