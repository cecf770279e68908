"""The simulated cell as a source: ``cell:demo?seed=3&rate=3&speed=120&noise=lesson&fault=dropouts``."""

from __future__ import annotations

import math

import numpy as np

from drivers.address import Address
from drivers.channel_options import ChannelOptions
from drivers.errors import AddressError, CannotOpen, SourceEnded, SourceLost
from drivers.run_clock import RunClock
from drivers.samples import Delivery, Quality, Samples, TaggedMoment
from drivers.simulated.cell import LessonCell
from drivers.simulated.lesson import Outage
from drivers.simulated.lesson_fault import parse_faults
from drivers.source import Channel, Instrument, Source

__all__ = ["CellSource"]

DEFAULT_RATE = 3.0  # readings a second, as of a usual handheld meter
SLOWEST_RATE, FASTEST_RATE = 0.001, 100_000.0
LARGEST_SEED = 2**53  # up to here every whole number survives being written as a decimal number
DELIVERY_EVERY_S = 0.02  # host seconds: more often would only cost
LONGEST_BLOCK_S = 0.1  # host seconds' worth of samples in one delivery, when the reader is late ...
LARGEST_BLOCK = 50_000  # ... but never more samples than this


class CellSource(Source):
    """Delivers the readings of a `LessonCell` as the run's clock passes their times.

    Sample n is at n / rate seconds, exactly. A reader that comes late gets everything it missed, in
    bounded blocks. If rate times speed is more than the computer manages, the samples fall behind the
    run's clock; none is left out. The lesson ends with `SourceEnded`.

    Raises
    ------
    AddressError : unknown lesson, noise or fault, or a number out of range.
    """

    def __init__(self, address: Address) -> None:
        super().__init__(address)
        self._options = ChannelOptions.from_address(address)
        self._rate = address.number("rate", DEFAULT_RATE, low=SLOWEST_RATE, high=FASTEST_RATE)
        self._speed = address.number("speed", 1.0, low=1.0, high=10_000.0)
        seed = address.integer("seed", 0, low=0, high=LARGEST_SEED)
        try:
            faults = parse_faults(address.options.get("fault", ""))
            self._cell = LessonCell(address.port, seed, address.options.get("noise", "lesson"), faults)
        except AddressError as error:
            raise AddressError(f"{address.text}: {error}") from error
        self.silent_after_s = max(Source.silent_after_s, 3.0 / self._rate)
        self._clock: RunClock | None = None
        self._was_open = False
        self._next = 0  # number of the sample to deliver next
        self._end = _first_at_or_after(self._cell.duration_s, self._rate)
        self._moments = list(self._cell.moments)
        self._unplugs = [outage for outage in self._cell.outages if outage.is_unplugged]
        self._lost: Outage | None = None
        self._delivered_s = -math.inf

    @property
    def channels(self) -> tuple[Channel, ...]:
        """The one channel, named by the address."""
        return (self._options.channel,)

    @property
    def speed(self) -> float:
        """Run seconds per host second, as the address asks."""
        return self._speed

    @property
    def instrument(self) -> Instrument:
        """The cell, said to be simulated; its truth is in the details under ``truth_...``."""
        name = {"name": self._options.name} if self._options.name else {}
        truth = {f"truth_{name}": value for name, value in self._cell.truth.items()}
        return Instrument(
            address=self.address.text,
            identity="simulated cell (invented data)",
            clock={"method": "simulated, sample n at n / rate", "uncertainty_s": 0.0},
            calibration=self._options.calibration,
            details={
                **name,
                "lesson": self.address.port,
                "seed": float(self._cell.seed),
                "noise": self._cell.noise,
                "fault": ",".join(sorted(self._cell.faults)),
                "rate_per_s": self._rate,
                **truth,
            },
        )

    def open(self, clock: RunClock) -> None:
        """Start the lesson with the run, or go on in it where the run is by now.

        Raises
        ------
        CannotOpen : the fault ``unplug`` still holds.
        """
        if self._lost is not None and clock.now_s() < self._lost.end_s:
            raise CannotOpen(
                f"{self.address.text}: the simulated cable is still out; wait until "
                f"{self._lost.end_s:g} s of the run (now {clock.now_s():.1f} s)"
            )
        self._lost = None
        if self._was_open:
            self._next = max(self._next, _first_at_or_after(clock.now_s(), self._rate))
        self._was_open = True
        self._clock = clock

    def read(self, timeout_s: float) -> Delivery:
        """Return the samples and moments whose times have passed; see `Source.read`."""
        clock = self._clock
        if clock is None or self._lost is not None:
            raise SourceLost(f"{self.address.text}: the simulated cell is not open; open it (again) to read")
        self._wait(clock, timeout_s)
        now_s = clock.now_s()
        self._check_cable(now_s)
        if self._next >= self._end and now_s >= self._cell.duration_s:
            raise SourceEnded(f"{self.address.text}: the simulated lesson is over")
        begin, self._next = self._next, self._last_to_deliver(now_s, clock.speed)
        samples = self._samples(begin, self._next)
        moments = self._take_moments(min(now_s, self._next / self._rate))
        if samples or moments:
            self._delivered_s = now_s
        return Delivery(samples, (), moments)

    def close(self) -> None:
        """Let go of the clock; the lesson goes on without being read."""
        self._clock = None

    def _wait(self, clock: RunClock, timeout_s: float) -> None:
        """Wait until something is due, but neither longer than asked nor for a mere handful of samples."""
        due_s = min(self._next / self._rate, self._cell.duration_s)
        if self._moments:
            due_s = min(due_s, self._moments[0].time_s)
        until_s = max(due_s, self._delivered_s + DELIVERY_EVERY_S * clock.speed)
        clock.sleep_s(min(until_s - clock.now_s(), timeout_s * clock.speed))

    def _check_cable(self, now_s: float) -> None:
        """Raise `SourceLost` once the next unplugging is due and all before it has been delivered."""
        if not self._unplugs:
            return
        outage = self._unplugs[0]
        if now_s >= outage.begin_s and self._next >= _first_at_or_after(outage.begin_s, self._rate):
            self._lost = self._unplugs.pop(0)
            raise SourceLost(
                f"{self.address.text}: the simulated cable was pulled at {outage.begin_s:g} s of the run; "
                f"open the source again after {outage.end_s:g} s"
            )

    def _last_to_deliver(self, now_s: float, speed: float) -> int:
        """Return the number of the first sample that is not to be delivered now."""
        first_not_due = _first_at_or_after(np.nextafter(now_s, np.inf), self._rate)
        limit = min(LARGEST_BLOCK, max(1, int(LONGEST_BLOCK_S * speed * self._rate)))
        last = min(first_not_due, self._next + limit, self._end)
        if self._unplugs:
            last = min(last, _first_at_or_after(self._unplugs[0].begin_s, self._rate))
        return max(last, self._next)

    def _samples(self, begin: int, end: int) -> tuple[Samples, ...]:
        """Return samples number `begin` to `end` - 1, without those that were never sent."""
        times_s = np.arange(begin, end, dtype=np.float64) / self._rate
        readings = self._cell.block(times_s)
        was_sent = np.isfinite(readings)
        for outage in self._cell.outages:
            was_sent &= (times_s < outage.begin_s) | (times_s >= outage.end_s)
        times_s, values = times_s[was_sent], self._options.apply(readings[was_sent])
        if not times_s.size:
            return ()
        quality = np.full(times_s.size, Quality.GOOD, dtype=np.uint8)
        return (Samples(self._options.channel.name, times_s, values, quality),)

    def _take_moments(self, until_s: float) -> tuple[TaggedMoment, ...]:
        taken = tuple(moment for moment in self._moments if moment.time_s <= until_s)
        del self._moments[: len(taken)]
        return taken


def _first_at_or_after(time_s: float, rate: float) -> int:
    """Return the smallest number n >= 0 with n / rate >= time_s, in the very arithmetic of the samples."""
    number = max(0, math.ceil(time_s * rate))
    while number / rate < time_s:
        number += 1
    while number > 0 and (number - 1) / rate >= time_s:
        number -= 1
    return number
