"""Reading several runs off at one time: each its own reading there, in its own decimals."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtWidgets import QWidget

from gui.chart.frame import Frame
from gui.chart.reading_mark import Marked, ReadingMark, Ring, Spot
from gui.chart.reading_texts import decimals_of, time_decimals_of
from gui.chart.reading_view import ReadingView
from gui.shelf.overlay_card import OverlayCard
from gui.shelf.overlay_reading_texts import overlay_words
from gui.shelf.overlay_view import OverlayRun
from gui.shelf.run_colours import run_colour
from logger.aligned_reading import AlignedReading, AlignedReadings
from logger.reading_off import Reading

__all__ = ["OverlayReading"]


class OverlayReading(ReadingView[AlignedReading]):
    """Reads the runs of an overlay off, in their colours and under their numbers."""

    def __init__(self, chart: QWidget) -> None:
        self._readings = AlignedReadings(())
        super().__init__(chart, self._readings, ReadingMark(run_colour))
        self._numbers: tuple[int, ...] = ()
        self._decimals: list[int] = []
        self._time_decimals = 1

    def show_runs(self, runs: Sequence[OverlayRun]) -> None:
        """Read other runs off where the cursor is; at another zero, or of none of those before, nothing."""
        self._numbers = tuple(run.number for run in runs)
        self._decimals = [0] * len(runs)
        self._time_decimals = max((time_decimals_of(run.overview) for run in runs), default=1)
        before, self._readings = self._readings, AlignedReadings(runs)
        if self._readings.counts_like(before):
            self.read_on_from(self._readings, lambda read: self._readings.within(read.time_s))
        else:
            self.read_from(self._readings)

    def marked(self, here: AlignedReading, since: AlignedReading | None, frame: Frame) -> Marked:
        """Mark the reading of each run, with all of them on a card."""
        for place, reading in enumerate(here.readings):
            if isinstance(reading, Reading):  # once more decimals are seen they stay, as with one run
                self._decimals[place] = max(self._decimals[place], decimals_of(reading.value))
        words = overlay_words(here, since, frame, self._numbers, self._decimals, self._time_decimals)
        other = None if since is None else self._spot(since)
        return Marked(self._spot(here), other, OverlayCard(words), words.spoken)

    def _spot(self, read: AlignedReading) -> Spot:
        rings = (
            Ring(reading.time_s, reading.value, number)
            for reading, number in zip(read.readings, self._numbers, strict=True)
            if isinstance(reading, Reading)
        )
        return Spot(read.time_s, tuple(rings))
