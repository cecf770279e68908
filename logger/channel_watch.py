"""Tells which channels of one source fall silent while its other channels go on. Pure; run seconds."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

__all__ = ["ChannelWatch"]

_PERIODS = 10
_READINGS_TO_TELL = 4
_OTHERS_TO_TELL = 3  # blocks of other channels since its last reading; one may just be the first of all
_FEW_READINGS_S = 10.0  # patience with a channel whose rhythm is not known yet


@dataclass(slots=True)
class _Rhythm:
    count: int = 0
    first_s: float = 0.0
    last_s: float = 0.0
    is_silent: bool = False
    others_since: int = 0

    def patience_s(self, least_s: float) -> float:
        """Return how long it may be silent: ten of its own periods, for some channels are slow."""
        if self.count == 0:
            return least_s
        if self.count < _READINGS_TO_TELL:
            return max(least_s, _FEW_READINGS_S)
        return max(least_s, _PERIODS * (self.last_s - self.first_s) / (self.count - 1))


class ChannelWatch:
    """Follows the channels of one source.

    Parameters
    ----------
    names : of all its channels.
    """

    def __init__(self, names: Iterable[str]) -> None:
        self._rhythms = {name: _Rhythm() for name in names}
        self._begin_s: float | None = None

    def note(self, channel: str, first_s: float, last_s: float, count: int) -> bool:
        """Take note of `count` readings of a channel from `first_s` to `last_s`.

        Returns whether they end a silence that was told.
        """
        rhythm = self._rhythms[channel]
        is_back = rhythm.is_silent
        if self._begin_s is None:
            self._begin_s = first_s
        if rhythm.count == 0:
            rhythm.first_s = first_s
        for other in self._rhythms.values():
            other.others_since += 1
        rhythm.count += count
        rhythm.last_s, rhythm.is_silent, rhythm.others_since = last_s, False, 0
        return is_back

    def newly_silent(self, least_s: float) -> list[tuple[str, float]]:
        """Return channel and duration of each silence that was not told yet and is longer than usual.

        `least_s` : no shorter pause is a silence. What all channels share is none: nothing goes on then.
        """
        now_s = max((rhythm.last_s for rhythm in self._rhythms.values()), default=0.0)
        found = []
        for name, rhythm in self._rhythms.items():
            silent_s = now_s - (rhythm.last_s if rhythm.count else self._begin_s or 0.0)
            may_tell = not rhythm.is_silent and rhythm.others_since >= _OTHERS_TO_TELL
            if may_tell and silent_s > rhythm.patience_s(least_s):
                rhythm.is_silent = True
                found.append((name, silent_s))
        return found
