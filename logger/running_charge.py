"""The charge of a run in progress, added up as readings come in."""

from __future__ import annotations

from array import array

import numpy as np
from numpy.typing import NDArray

__all__ = ["RunningCharge"]


class RunningCharge:
    """Adds up the current over time by the trapezoidal rule.

    Only between two readings that both electrolyse: neither a lift-out nor a short counts. A stretch
    without readings between two of them, or with overload only, counts as electrolysis, as in the best value
    of the findings.

    Not locked: the owner's lock guards it.
    """

    def __init__(self) -> None:
        self.total_C = 0.0
        self._last: tuple[float, float] | None = None  # time and current of the last reading, if it counts
        self._marked_s, self._marked_C = array("d"), array("d")

    def mark(self, at_s: float) -> None:
        """Remember what has passed by `at_s`, the time of the last reading: 16 bytes a mark."""
        self._marked_s.append(at_s)
        self._marked_C.append(self.total_C)

    def until(self, at_s: float) -> float:
        """Return what had passed by a run time, in a straight line between two marks."""
        if not self._marked_s or at_s >= self._marked_s[-1]:
            return self.total_C  # since the last mark some seconds have passed
        return float(np.interp(at_s, np.array(self._marked_s), np.array(self._marked_C), left=0.0))

    def add(
        self, times_s: NDArray[np.float64], current_A: NDArray[np.float64], electrolyses: NDArray[np.bool_]
    ) -> None:
        """Take a block, shapes (n,), times never decreasing; `electrolyses` tells which readings count.

        Where the current is no number, or infinite, nothing is known: as if nothing had been read.
        """
        if not (is_known := np.isfinite(current_A)).all():
            times_s, current_A, electrolyses = times_s[is_known], current_A[is_known], electrolyses[is_known]
        if times_s.size == 0:
            return
        current_A = np.where(electrolyses, current_A, 0.0)
        if self._last is not None and electrolyses[0]:
            self.total_C += 0.5 * (self._last[1] + float(current_A[0])) * float(times_s[0] - self._last[0])
        both = electrolyses[1:] & electrolyses[:-1]
        pieces = 0.5 * (current_A[1:] + current_A[:-1]) * np.diff(times_s)
        self.total_C += float(pieces[both].sum())
        self._last = (float(times_s[-1]), float(current_A[-1])) if electrolyses[-1] else None
