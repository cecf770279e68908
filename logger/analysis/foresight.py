"""What a long recording foretells of its readings, so that they are gone through once and not twice.

Readings that stay in their file are inflated each time they are gone through, and that takes longer than
anything done with them. What the first look is for, states and gaps, is told by the levels that lie beside
the readings, and by the list of gaps. That is taken on trust, and held against the readings when these are
gone through for the charge. Where it was wrong, the analysis is made anew from the readings alone: no number
ever rests on a level.
"""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import suppress

import numpy as np

from logger.analysis.charge import SHORTEST_GAP_S
from logger.analysis.readings import bounds_of, slices_of
from logger.errors import RecordingError
from logger.recording import ChannelData, Column, Gap
from logger.stored_column import StoredColumn, StoredTimes

__all__ = ["Foresight", "flags_of"]


def flags_of(quality: Column) -> int:
    """Return all bits of quality that any reading has; what is known to be none is not read again."""
    flags = 0
    for part in slices_of(0, quality.size):
        if bounds_of(quality, part) == (0, 0):
            continue
        flags |= int(np.bitwise_or.reduce(quality[part], initial=0))
    return flags


class Foresight:
    """What the columns of a channel foretell, while one analysis goes through them.

    Nothing is foretold where the readings are in memory or were all read before, where no level of the file
    fits, where readings are marked (levels leave out overload), or where gaps are listed.
    """

    def __init__(self, channel: ChannelData, gaps: Sequence[Gap]) -> None:
        self._columns = [one for one in (channel.times_s, channel.values) if isinstance(one, StoredColumn)]
        self.is_used = False
        if all(one.was_read for one in self._columns) or gaps or flags_of(channel.quality):
            return
        with suppress(RecordingError):  # a damaged level foretells nothing; damage is told elsewhere
            self.is_used = _foretell(channel)

    def was_right(self) -> bool:
        """Tell whether the readings are as foretold; what was not read yet is read for it.

        From then on the columns know their bounds from the readings.
        """
        told = [one.confirm() for one in self._columns] if self.is_used else []
        return all(told)

    def withdraw(self) -> None:
        """Have the columns forget it, after an analysis that was not finished."""
        for one in self._columns:
            one.withdraw()


def _foretell(channel: ChannelData) -> bool:
    times_s, values = channel.times_s, channel.values
    if not isinstance(times_s, StoredTimes) or not isinstance(values, StoredColumn):
        return False
    fitting = [one for one in channel.levels if values.block % one == 0]
    if not fitting:
        return False
    level = channel.levels[max(fitting)]
    values.foretell(level.rows(0, level.count), max(fitting))
    times_s.foretell_steps(SHORTEST_GAP_S)
    return True
