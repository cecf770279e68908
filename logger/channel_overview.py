"""The overview of a channel of a finished recording, in memory or in its file."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from logger.overview import Overview
from logger.recording import ChannelData, Gap
from logger.stored_column import StoredTimes
from logger.stored_overview import StoredOverview

__all__ = ["overview_of"]


def overview_of(channel: ChannelData, gaps: Iterable[Gap], *, prepared: bool = True) -> Overview:
    """Return the looks at all readings of a channel.

    Parameters
    ----------
    prepared : look at all times of a long recording before it is drawn; else its first picture is there at
        once, and `StoredOverview.prepare` is left to the caller.

    Raises
    ------
    RecordingError : a long recording cannot be read, and it was to be prepared.
    """
    if not channel.times_s.size:
        return Overview(channel.name)
    if isinstance(channel.times_s, StoredTimes):
        stored = StoredOverview(channel, gaps)
        if prepared:
            stored.prepare()
            stored.check()
        return stored
    times_s, values, quality = channel.times_s, channel.values, channel.quality
    assert isinstance(times_s, np.ndarray)
    assert isinstance(values, np.ndarray)
    assert isinstance(quality, np.ndarray)
    return Overview.of(times_s, values, quality=quality, gaps=gaps, channel=channel.name)
