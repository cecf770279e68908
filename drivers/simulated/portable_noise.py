"""Pseudo-random noise that has the same digits on every computer and in every language.

For tests and worked examples whose figures are written down. The generator is the multiplicative
congruential one with multiplier 16807 and modulus 2^31 - 1 (Park and Miller, Comm. ACM 31 (1988) 1192;
used with first term 1234567890 for the test data of NIST Special Publication 1065, section 12.4).
The simulated cell itself uses `counted_noise`, whose draws do not depend on their order.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

__all__ = ["FIRST_TERM", "autoregressive", "normals", "uniforms"]

FIRST_TERM = 1234567890
MULTIPLIER = 16807
MODULUS = 2**31 - 1
UNIFORMS_A_NORMAL = 12  # the sum of twelve uniform deviates has variance 1


def uniforms(count: int, seed: int = FIRST_TERM) -> NDArray[np.float64]:
    """Return u_1..u_count in (0, 1); `seed` is the first term n_1, and u_i = n_i / (2^31 - 1).

    Raises
    ------
    ValueError : the seed is not within 1..2^31 - 2 (the generator would stand still).
    """
    if not 1 <= seed < MODULUS:
        raise ValueError(f"the portable noise needs a seed of 1 to {MODULUS - 1}, not {seed}")
    terms = np.empty(count, dtype=np.int64)
    term = seed
    for i in range(count):
        terms[i] = term
        term = term * MULTIPLIER % MODULUS
    return terms / MODULUS


def normals(count: int, seed: int = FIRST_TERM) -> NDArray[np.float64]:
    """Return g_1..g_count of mean 0 and variance 1: each a sum of twelve uniforms, less six."""
    blocks = uniforms(UNIFORMS_A_NORMAL * count, seed).reshape(count, UNIFORMS_A_NORMAL)
    return np.asarray(blocks.sum(axis=1) - UNIFORMS_A_NORMAL / 2, dtype=np.float64)


def autoregressive(count: int, phi: float, seed: int = FIRST_TERM) -> NDArray[np.float64]:
    """Return e_1..e_count of variance 1 with correlation `phi` between neighbours.

    e_1 = g_1, then e_k = phi e_(k-1) + sqrt(1 - phi^2) g_k.

    Raises
    ------
    ValueError : `phi` is not within -1..1.
    """
    if not -1 <= phi <= 1:
        raise ValueError(f"a correlation lies within -1 and 1, not {phi}")
    values = normals(count, seed)
    fresh = math.sqrt(1 - phi**2)
    for k in range(1, count):
        values[k] = phi * values[k - 1] + fresh * values[k]
    return values
