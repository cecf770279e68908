"""What disturbs the simulated voltage: bubbles, stirring, drift, the meter's own noise.

Each disturbance is a function of time alone, made once from the seed for the whole lesson. After its
end the slow ones begin again, so that an emulated meter may go on reading.
"""

from __future__ import annotations

import difflib
import itertools
import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from drivers.errors import AddressError
from drivers.simulated import counted_noise

__all__ = ["NOISES", "Disturbances", "Noise", "SlowNoise", "find_noise"]

Array = NDArray[np.float64]

KNOTS_PER_CORRELATION_TIME = 100
STIRRING_HZ = 4.83
VOLTS_PER_KELVIN = -2e-3
WARMING_TIME_S = 1800.0
FLICKER_TIMES_S = tuple(10 ** (k / 2) for k in range(7))  # 1 s to 1000 s, two a decade
BUBBLE_LIFE_S = (5.0, 30.0)
BUBBLE_LARGEST_MASK = 0.03

_READING, _BUBBLES, _PHASE, _LIVES, _MASKS, _FLICKER = range(6)  # streams of the counted noise


@dataclass(frozen=True, slots=True)
class Noise:
    """How strong each disturbance is; 0 leaves it out.

    `reading_V` is white; `bubbles_V` an Ornstein-Uhlenbeck process with `bubbles_time_s`; `masks` lets
    growing bubbles cover up to 3 % of the electrodes for 5-30 s and break off; `stirring_V` is the
    amplitude of a sine; `flicker_V` is 1/f, rms in each decade; `warming_K` is the final warming, at
    -2 mV/K; `sag_V_per_hour` what the loaded stack loses.
    """

    reading_V: float = 0.0
    bubbles_V: float = 0.0
    bubbles_time_s: float = 9.5
    masks: bool = False
    stirring_V: float = 0.0
    flicker_V: float = 0.0
    warming_K: float = 0.0
    sag_V_per_hour: float = 0.0


NOISES: dict[str, Noise] = {
    "quiet": Noise(),
    "lesson": Noise(reading_V=0.3e-3, bubbles_V=2e-3),
    "rough": Noise(
        reading_V=0.3e-3,
        bubbles_V=2e-3,
        masks=True,
        stirring_V=1e-3,
        flicker_V=0.5e-3,
        warming_K=0.5,
        sag_V_per_hour=0.2,
    ),
}
"""The noises by the names that an address may use. ``lesson`` is the usual one."""


def find_noise(name: str) -> Noise:
    """Return a noise by name.

    Raises
    ------
    AddressError : there is none of that name; the nearest known one is given.
    """
    if name not in NOISES:
        near = difflib.get_close_matches(name, NOISES, n=1, cutoff=0.5)
        hint = f"; did you mean {near[0]}?" if near else ""
        raise AddressError(f"the simulated cell has no noise {name!r}{hint} (known: {', '.join(NOISES)})")
    return NOISES[name]


class SlowNoise:
    """An Ornstein-Uhlenbeck process of mean 0: deviation `sd`, correlation exp(-lag / `correlation_s`).

    Exact at knots a hundredth of the correlation time apart, straight between them (which takes 0.3 %
    of the variance). Repeats after about `span_s`.
    """

    def __init__(self, sd: float, correlation_s: float, span_s: float, seed: int, stream: int) -> None:
        self._step_s = correlation_s / KNOTS_PER_CORRELATION_TIME
        count = math.ceil(span_s / self._step_s) + 1
        draws = counted_noise.normals(seed, stream, np.arange(count, dtype=np.uint64))
        phi = math.exp(-1 / KNOTS_PER_CORRELATION_TIME)
        fresh = math.sqrt(1 - phi * phi)
        steps = itertools.accumulate(draws.tolist(), lambda last, draw: phi * last + fresh * draw)
        self._knots = sd * np.fromiter(steps, dtype=np.float64, count=count)

    def __call__(self, times_s: Array) -> Array:
        """Return the process at `times_s` (0 or more, any order)."""
        position = times_s / self._step_s
        whole = np.floor(position)
        part = position - whole
        index = whole.astype(np.int64) % self._knots.size
        ahead = (index + 1) % self._knots.size
        return self._knots[index] * (1 - part) + self._knots[ahead] * part


class Disturbances:
    """The disturbances of one lesson.

    Parameters
    ----------
    noise : how strong they are.
    seed : which of the possible lessons; the same seed gives the same one.
    span_s : how long the lesson lasts.
    """

    def __init__(self, noise: Noise, seed: int, span_s: float) -> None:
        self.noise = noise
        self._seed = seed
        self._slow: list[SlowNoise] = []
        if noise.bubbles_V:
            self._slow.append(SlowNoise(noise.bubbles_V, noise.bubbles_time_s, span_s, seed, _BUBBLES))
        if noise.flicker_V:
            # Relaxations evenly spaced in log time add up to 1/f; two a decade share its variance
            # (van der Ziel, Physica 16 (1950) 359).
            each_V = noise.flicker_V / math.sqrt(2)
            self._slow += [
                SlowNoise(each_V, time_s, span_s, seed, _FLICKER + k)
                for k, time_s in enumerate(FLICKER_TIMES_S)
            ]
        self._phase = 2 * math.pi * float(counted_noise.uniforms(seed, _PHASE, np.zeros(1, np.uint64))[0])
        self._bubbles = _Bubbles(seed, span_s) if noise.masks else None

    def reading_V(self, times_s: Array) -> Array:
        """Return the meter's own noise, one draw for each instant."""
        if not self.noise.reading_V:
            return np.zeros_like(times_s)
        counters = counted_noise.counters_of_times(times_s)
        return self.noise.reading_V * counted_noise.normals(self._seed, _READING, counters)

    def cell_V(self, times_s: Array) -> Array:
        """Return what bubbles, stirring, flicker and warming add while current flows."""
        total = np.zeros_like(times_s)
        for slow in self._slow:
            total += slow(times_s)
        if self.noise.stirring_V:
            total += self.noise.stirring_V * np.sin(2 * np.pi * STIRRING_HZ * times_s + self._phase)
        if self.noise.warming_K:
            total += VOLTS_PER_KELVIN * self.warming_K(times_s)
        return total

    def warming_K(self, times_s: Array) -> Array:
        """Return by how much the cell has become warmer."""
        return np.asarray(-self.noise.warming_K * np.expm1(-times_s / WARMING_TIME_S), dtype=np.float64)

    def masked_part(self, times_s: Array) -> Array | None:
        """Return which part of the electrodes bubbles cover, 0 to 0.03; None where they never do."""
        return None if self._bubbles is None else self._bubbles.masked_part(times_s)


class _Bubbles:
    """One bubble after the other: it grows evenly, breaks off, and the next begins."""

    def __init__(self, seed: int, span_s: float) -> None:
        shortest_s, longest_s = BUBBLE_LIFE_S
        counters = np.arange(math.ceil(span_s / shortest_s) + 1, dtype=np.uint64)
        lives_s = shortest_s + (longest_s - shortest_s) * counted_noise.uniforms(seed, _LIVES, counters)
        self._largest = BUBBLE_LARGEST_MASK * counted_noise.uniforms(seed, _MASKS, counters)
        self._ends_s = np.cumsum(lives_s)
        self._lives_s = lives_s

    def masked_part(self, times_s: Array) -> Array:
        times_s = times_s % self._ends_s[-1]
        index = np.searchsorted(self._ends_s, times_s, side="right")
        grown = 1 - (self._ends_s[index] - times_s) / self._lives_s[index]
        return np.asarray(self._largest[index] * grown, dtype=np.float64)
