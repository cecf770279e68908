"""Averages over parts of a run, made while the whole run is gone through for something else."""

from __future__ import annotations

import math

from logger.analysis.grid import Grid, GridSums, Pieces, grid_of_pieces, grid_to_fill
from logger.analysis.readings import Between, Vector
from logger.analysis.refusal import Refused

__all__ = ["PartAverages"]

Key = tuple[int, int, int]


class PartAverages:
    """The grids of some parts of one run. Reading a long run takes longer than anything done with it.

    `expect` names the parts, `take` is given all readings in order, a piece at a time. Whatever was not
    expected, or not taken to its end, is averaged when it is asked for: the numbers are the same.
    """

    def __init__(self) -> None:
        self._expected: dict[Key, tuple[Between, GridSums]] = {}
        self._made: dict[Key, Grid] = {}
        self._taken = 0

    def expect(self, usable: Between, cells: int) -> None:
        """Have the usable readings of a part averaged."""
        try:
            self._expected[_key(usable, cells)] = usable, grid_to_fill(usable, cells)
        except Refused:
            return  # told to whoever asks for it

    def take(self, first: int, times: Vector, magnitudes: Vector, longest_step_s: float = math.inf) -> None:
        """Take the next readings of the run, of which `first` is the number of the first one.

        No step between them, or before them, is longer than `longest_step_s`.
        """
        if first != self._taken:
            return
        self._taken += times.size
        for usable, sums in self._expected.values():
            rows = slice(max(usable.part.start - first, 0), max(usable.part.stop - first, 0))
            if rows.start < min(rows.stop, times.size):
                sums.add(*usable.of_these(times[rows], magnitudes[rows]), longest_step_s)

    def of(self, pieces: Pieces, cells: int) -> Grid:
        """Return the grid of some readings; see `grid_of_pieces`. What was asked for once is kept."""
        if not isinstance(pieces, Between):
            return grid_of_pieces(pieces, cells)
        key = _key(pieces, cells)
        if key not in self._made:
            _, sums = self._expected.get(key, (None, None))
            is_taken = sums is not None and self._taken >= pieces.part.stop
            self._made[key] = sums.grid() if sums is not None and is_taken else grid_of_pieces(pieces, cells)
        return self._made[key]


def _key(usable: Between, cells: int) -> Key:
    return usable.part.start, usable.part.stop, cells
