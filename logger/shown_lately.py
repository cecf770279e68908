"""The last readings as the meter showed them: their digits tell when it, or its range, is another."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

__all__ = ["ShownLately"]

KEPT = 1000

Floats = NDArray[np.float64]


class ShownLately:
    """Keeps the last readings of a run, so many that the step of a display shows in them."""

    def __init__(self) -> None:
        self._times_s: Floats = np.empty(0)
        self._shown_V: Floats = np.empty(0)

    def add(self, times_s: Floats, shown_V: Floats) -> None:
        """Take readings, shapes (n,), in order of time."""
        self._times_s = np.concatenate([self._times_s, times_s[-KEPT:]])[-KEPT:]
        self._shown_V = np.concatenate([self._shown_V, shown_V[-KEPT:]])[-KEPT:]

    def since(self, begin_s: float, end_s: float = np.inf) -> Floats:
        """Return the readings kept from `begin_s` to `end_s`, both included, shape (m,); m may be 0."""
        first = int(np.searchsorted(self._times_s, begin_s, "left"))
        return self._shown_V[first : int(np.searchsorted(self._times_s, end_s, "right"))]
