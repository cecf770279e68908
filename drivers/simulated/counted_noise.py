"""Noise by count: the draw belongs to its number, not to when it is asked for.

A simulated reading must not depend on how a run is cut into blocks, on which samples were skipped while
a cable was out, or on the order in which two readers ask. So each draw is a hash of seed, stream and
counter. The hash is the output function of SplitMix64 (Steele, Lea and Flood, "Fast splittable
pseudorandom number generators", OOPSLA 2014, with the constants of Stafford's mix 13); numpy's own
generators promise neither this nor the same numbers in every version.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

__all__ = ["counters_of_times", "hashes", "normals", "uniforms"]

Counters = NDArray[np.uint64]

_GOLDEN = 0x9E3779B97F4A7C15
_FIRST, _SECOND = np.uint64(0xBF58476D1CE4E5B9), np.uint64(0x94D049BB133111EB)
_WORD = 2**64
_ANGLE_STREAM = 0x5DEECE66D  # any number far from the small ones that name streams


def hashes(key: int, counters: Counters) -> Counters:
    """Return 64 mixed bits for each counter; counters 0, 1, ... give SplitMix64's sequence of seed `key`."""
    bits = (counters + np.uint64(1)) * np.uint64(_GOLDEN) + np.uint64(key % _WORD)
    bits = (bits ^ (bits >> np.uint64(30))) * _FIRST
    bits = (bits ^ (bits >> np.uint64(27))) * _SECOND
    return bits ^ (bits >> np.uint64(31))


def uniforms(seed: int, stream: int, counters: Counters) -> NDArray[np.float64]:
    """Return one number within (0, 1), ends excluded, for each counter of `stream`."""
    bits = hashes(_key(seed, stream), counters)
    return ((bits >> np.uint64(11)).astype(np.float64) + 0.5) * 2.0**-53


def normals(seed: int, stream: int, counters: Counters) -> NDArray[np.float64]:
    """Return one draw of mean 0 and variance 1 for each counter of `stream`.

    By Box and Muller, Ann. Math. Stat. 29 (1958) 610; the angle has a stream of its own.
    """
    radius = np.sqrt(-2.0 * np.log(uniforms(seed, stream, counters)))
    angle = 2.0 * np.pi * uniforms(seed, stream + _ANGLE_STREAM, counters)
    return np.asarray(radius * np.cos(angle), dtype=np.float64)


def counters_of_times(times_s: NDArray[np.float64]) -> Counters:
    """Return a counter for each time: its bits, so that the same instant always reads the same."""
    return (np.ascontiguousarray(times_s, dtype=np.float64) + 0.0).view(np.uint64)  # + 0.0: -0.0 is 0.0


def _key(seed: int, stream: int) -> int:
    # Hashed twice, so that neighbouring seeds and streams start far apart in the sequence.
    first = int(hashes(seed, np.zeros(1, dtype=np.uint64))[0])
    return int(hashes(first + stream, np.zeros(1, dtype=np.uint64))[0])
