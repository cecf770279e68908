"""Reading one curve off, with what else is known of a reading: its flags, gaps beside it, its moment."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from gui.chart.frame import Frame
from gui.chart.notes import Notes
from gui.chart.reading_card import ReadingCard
from gui.chart.reading_mark import Marked, ReadingMark, Ring, Spot
from gui.chart.reading_texts import decimals_of, reading_words
from gui.chart.reading_view import ReadingView
from logger.overview import Overview
from logger.reading_off import CurveReadings, Reading

__all__ = ["RunReading"]


class RunReading(ReadingView[Reading]):
    """Reads the curve of one run off, in the words of its notes."""

    def __init__(self, chart: QWidget) -> None:
        overview = Overview()
        super().__init__(chart, CurveReadings(overview), ReadingMark())
        self._overview = overview
        self._notes = Notes()
        self._decimals = 0

    def show_overview(self, overview: Overview) -> None:
        """Read off the curve of another run; nothing at first."""
        self._overview, self._decimals = overview, 0
        self.read_from(CurveReadings(overview))

    def show_notes(self, notes: Notes) -> None:
        """Name the moments of `notes` from the next frame on."""
        self._notes = notes

    def marked(self, here: Reading, since: Reading | None, frame: Frame) -> Marked:
        """Mark the reading, with when, how much and what else on a card."""
        # Once more decimals are seen they stay: the number does not jump between 2.01 and 2.012.
        self._decimals = max(self._decimals, decimals_of(here.value))
        words = reading_words(here, since, self._overview, self._notes, frame, self._decimals)
        return Marked(_spot(here), None if since is None else _spot(since), ReadingCard(words), words.spoken)


def _spot(reading: Reading) -> Spot:
    return Spot(reading.time_s, (Ring(reading.time_s, reading.value),))
