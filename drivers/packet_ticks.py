"""Where each packet stands on the board's own clock, and what the stream has lost. Pure.

A packet carries the board's counter at its first sample. How far apart its samples are is measured from one
packet to the next, never taken from a nominal rate, which may be 10 % off: it is the time between the last
two packets over the samples of the former, if none was lost in between and it is within half of what is
usual; else the usual one, the median of the last 15. Until two packets have come, only the board can tell.
"""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass
from typing import NamedTuple

from drivers.formats.packet import Flag

__all__ = ["Losses", "PacketTicks", "PlacedPacket"]

_REMEMBERED = 15
_BAND = 0.5
_WRAP = 1 << 32
_SEQUENCES = 1 << 16
_OVERFLOW, _SENSOR_ERROR = int(Flag.OVERFLOW), int(Flag.SENSOR_ERROR)  # flags are tested in every packet
_EARLY_S = 1.0  # no packet comes from the future; so much jitter is left to the computer


class PlacedPacket(NamedTuple):
    """A packet on the board's clock.

    `ticks` : the counter at its first sample, unwrapped since the board started. `spacing` : ticks from
    sample to sample, 0 while nothing tells. `is_measured` : whether it was measured at this packet.
    `segment` counts the starts of the board. `lost_packets` are missing right before this one by their
    numbers, `lost_samples` (of each channel) by the board's time.
    """

    ticks: int
    spacing: float
    is_measured: bool
    segment: int
    lost_packets: int = 0
    lost_samples: int = 0


@dataclass(slots=True)
class Losses:
    """Sums so far; `samples` are those of each channel."""

    packets: int = 0
    samples: int = 0
    duplicates: int = 0
    restarts: int = 0


class _Packet(NamedTuple):
    sequence: int
    counter: int
    instants: int
    flags: int
    arrival_s: float


class PacketTicks:
    """Follows the packets of one board, in the order in which they arrive.

    Parameters
    ----------
    tick_s : seconds of one tick.
    spacing : ticks from sample to sample as known from before, 0 if not.
    losses : where what is missing is added up.
    """

    def __init__(self, tick_s: float, spacing: float = 0.0, losses: Losses | None = None) -> None:
        self.losses = Losses() if losses is None else losses
        self._tick_s = tick_s
        self._spacings: deque[float] = deque([spacing] if spacing > 0 else [], maxlen=_REMEMBERED)
        self._last: _Packet | None = None
        self._ticks = 0
        self._segment = 0
        self._least_lateness_s = 0.0

    @property
    def spacing(self) -> float:
        """The usual ticks from sample to sample, 0 while nothing tells."""
        if not self._spacings:
            return 0.0
        return sorted(self._spacings)[len(self._spacings) // 2]

    def declare(self, spacing: float) -> None:
        """Take the board's word for the ticks from sample to sample, while it has not been measured."""
        if spacing > 0 and not self._spacings:
            self._spacings.append(spacing)

    def follow(
        self, sequence: int, counter: int, instants: int, flags: int, arrival_s: float
    ) -> PlacedPacket | None:
        """Take the next packet and return where it stands; None if it is the one before once more.

        `instants` : samples of each channel in it; `arrival_s` : run seconds, never decreasing.
        """
        packet = _Packet(sequence, counter, instants, flags, arrival_s)
        last, self._last = self._last, packet
        if last is None:
            return self._begin(packet)
        skipped = (sequence - last.sequence - 1) % _SEQUENCES
        step = (counter - last.counter) % _WRAP
        if skipped == _SEQUENCES - 1 and step == 0:
            self.losses.duplicates += 1
            return None
        if self._has_restarted(skipped, step, packet, last):
            self.losses.restarts += 1
            return self._begin(packet)
        self._ticks += step
        self._least_lateness_s = min(self._least_lateness_s, self._lateness_s(arrival_s))
        return self._go_on(skipped, step, packet, last)

    def _begin(self, packet: _Packet) -> PlacedPacket:
        self._segment += 1
        self._ticks = packet.counter
        self._least_lateness_s = self._lateness_s(packet.arrival_s)
        return PlacedPacket(packet.counter, self.spacing, packet.instants == 1, self._segment)

    def _has_restarted(self, skipped: int, step: int, packet: _Packet, last: _Packet) -> bool:
        """Whether the numbers went back, or the counter further than it can have.

        A counter that went back looks like one that went on by almost a whole turn.
        """
        silence_s = packet.arrival_s - last.arrival_s
        if skipped >= _SEQUENCES // 2 or silence_s > self._tick_s * _WRAP / 2:
            return True
        lateness_s = self._lateness_s(packet.arrival_s) - step * self._tick_s
        return lateness_s < self._least_lateness_s - _EARLY_S

    def _lateness_s(self, arrival_s: float) -> float:
        return arrival_s - self._ticks * self._tick_s

    def _go_on(self, skipped: int, step: int, packet: _Packet, last: _Packet) -> PlacedPacket:
        usual = self.spacing
        spacing = step / last.instants
        is_whole = not (skipped or packet.flags & _OVERFLOW or last.flags & _SENSOR_ERROR)
        if is_whole and step:
            self._spacings.append(spacing)
        if is_whole and (not usual or abs(spacing - usual) <= _BAND * usual):
            return PlacedPacket(self._ticks, spacing, True, self._segment)
        lost = max(round(step / usual) - last.instants, 0) if usual else 0
        self.losses.packets += skipped
        self.losses.samples += lost
        return PlacedPacket(self._ticks, usual, packet.instants == 1, self._segment, skipped, lost)
