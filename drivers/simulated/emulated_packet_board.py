"""An emulated board that sends packets: samples of its inputs with its own clock, unasked."""

from __future__ import annotations

import math
import random
from collections.abc import Callable, Collection, Mapping, Sequence

import numpy as np
from numpy.typing import NDArray

from drivers.formats.packet import RANGE_STEPS_V, BoardInfo, Flag, encode_data, encode_info, encode_text
from drivers.simulated.faults import Faults, Outbox

__all__ = ["EmulatedPacketBoard", "Signal"]

Signal = Callable[[NDArray[np.float64]], NDArray[np.float64]]
"""From times in seconds of the cell, never going back, shape (n,), to volts, shape (n,)."""

_LONGEST_WAIT_S = 0.1
_LEAST_PAUSE_S = 0.004  # a USB adapter hands over what came meanwhile in one piece, too
_MOST_AT_ONCE = 1000  # packets
_TICKS_PER_S = 1_000_000
_ENDS = (-32768, 32767)


class EmulatedPacketBoard:
    """A board with a converter of 16 bits, as a `Device`.

    Parameters
    ----------
    signals : one for each input, from input 0 on.
    speed : seconds of the cell per second of the line.
    rate : samples of each input per second.
    most_instants : samples of each input in one packet; a packet leaves after 100 ms at the latest.
    range_code : of the converter. gain : of the divider before every input.
    skew_ppm : how much the board's clock is too fast, millionths.
    start_ticks : what the board's counter shows after it starts.
    latency_s : each packet leaves up to this much after its last sample, at random.
    boot_s : silence after a program has opened the line and thereby restarted the board.
    info_every_s : pause between info packets; 0 for a board that sends none.
    lose : numbers, from 0, of data packets that are counted but never sent.
    restart_at : number of a data packet before which the board restarts by itself.
    flags : what single data packets, by number, say of themselves.
    """

    def __init__(
        self,
        signals: Sequence[Signal],
        *,
        speed: float = 1.0,
        faults: Faults | None = None,
        rate: float = 860.0,
        most_instants: int = 32,
        range_code: int = 2,
        gain: float = 1.0,
        skew_ppm: float = 0.0,
        start_ticks: int = 0,
        latency_s: float = 0.0,
        boot_s: float = 0.1,
        info_every_s: float = 1.0,
        lose: Collection[int] = (),
        restart_at: int | None = None,
        flags: Mapping[int, Flag] | None = None,
    ) -> None:
        self._signals = signals
        self._speed = speed
        self._faults = faults or Faults()
        self._rate = rate
        self._instants = max(1, min(most_instants, int(rate * _LONGEST_WAIT_S)))
        self._range_code = range_code
        self._gain = gain
        self._ticks_per_s = _TICKS_PER_S * (1.0 + skew_ppm * 1e-6)
        self._start_ticks = start_ticks or self._faults.first_count(_TICKS_PER_S)
        self._latency_s = latency_s
        self._boot_s = boot_s
        self._info_every_s = info_every_s
        self._lose = lose
        self._restart_at = restart_at or self._faults.reboot_after or None
        self._flags = flags or {}
        self._outbox = Outbox(self._faults)
        self._random = random.Random(self._faults.seed)
        self._sent = 0
        self._taken_s = -math.inf
        self._start(0.0)

    def attach(self, now_s: float) -> None:
        """Restart, as boards do when a program opens the line."""
        self._outbox.clear()
        self._start(now_s + self._boot_s)

    def receive(self, data: bytes, now_s: float) -> None:
        """Take no notice: this board listens to nobody."""

    def next_due_s(self) -> float | None:
        """Return when the next packet leaves or is full; those that come thick leave together."""
        waiting_s = self._outbox.next_due_s()
        due_s = self._full_s() if waiting_s is None else min(waiting_s, self._full_s())
        return max(due_s, self._taken_s + _LEAST_PAUSE_S)

    def take(self, now_s: float) -> bytes:
        """Take the samples that are due and return the packets that have left."""
        while (full_s := self._full_s()) <= now_s:
            if self._sent == self._restart_at:
                self._restart_at = None
                self._start(full_s + self._boot_s)
                continue
            self._post_packets(self._due_packets(now_s))
        taken = self._outbox.take(now_s)
        if taken:
            self._taken_s = now_s
        return taken

    def _start(self, started_s: float) -> None:
        self._started_s = started_s
        self._count = 0  # samples of each input since the start
        self._sequence = 0
        self._info_s = started_s
        if self._faults.banner:
            self._outbox.post(started_s, encode_text(self._faults.banner))

    def _full_s(self, ahead: int = 0) -> float:
        """When the last sample of the packet that is being filled is taken, or of one so many ahead."""
        return self._started_s + (self._count + (ahead + 1) * self._instants) / self._rate

    def _due_packets(self, now_s: float) -> int:
        """Return how many packets are full by now, 1 at least; none beyond a restart."""
        due = int((now_s - self._started_s) * self._rate - self._count) // self._instants
        before_restart = _MOST_AT_ONCE if self._restart_at is None else self._restart_at - self._sent
        due = max(1, min(due, before_restart, _MOST_AT_ONCE))
        return due - 1 if due > 1 and self._full_s(due - 1) > now_s else due  # what rounding made of it

    def _post_packets(self, packets: int) -> None:
        """Take the samples of so many packets at once and post these, each when it is full."""
        times_s = self._started_s + (self._count + 1 + np.arange(packets * self._instants)) / self._rate
        signals = [self._codes(signal(times_s * self._speed)) for signal in self._signals]
        codes = np.column_stack(signals).reshape(packets, -1)
        is_clipped = ((codes == _ENDS[0]) | (codes == _ENDS[1])).any(axis=1)
        for row in range(packets):
            self._post_packet(float(times_s[row * self._instants]), codes[row], bool(is_clipped[row]))

    def _post_packet(self, first_s: float, codes: NDArray[np.int16], is_clipped: bool) -> None:
        full_s = self._full_s()
        if self._info_every_s and full_s >= self._info_s:
            self._info_s += self._info_every_s
            self._outbox.post(full_s, encode_info(self._info()))
        flags = self._flags.get(self._sent, Flag(0)) | (Flag.CLIPPED if is_clipped else Flag(0))
        if self._sent not in self._lose:
            packet = encode_data(
                self._sequence,
                self._start_ticks + round((first_s - self._started_s) * self._ticks_per_s),
                codes,
                mask=(1 << len(self._signals)) - 1,
                range_code=self._range_code,
                flags=flags,
            )
            self._outbox.post(full_s + self._random.uniform(0.0, self._latency_s), packet)
        self._count += self._instants
        self._sequence += 1
        self._sent += 1

    def _codes(self, volts: NDArray[np.float64]) -> NDArray[np.int16]:
        codes = np.rint(volts / self._gain / RANGE_STEPS_V[self._range_code])
        return np.clip(codes, *_ENDS).astype(np.int16)

    def _info(self) -> BoardInfo:
        return BoardInfo(
            ticks_per_s=_TICKS_PER_S,
            sample_ticks=round(_TICKS_PER_S / self._rate),
            steps_V={self._range_code: RANGE_STEPS_V[self._range_code]},
            gains=dict.fromkeys(range(len(self._signals)), self._gain),
        )
