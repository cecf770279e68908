"""The column beside the curve: the voltage, its state in words, drift, and what follows from it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QSizePolicy, QVBoxLayout, QWidget

from gui.live_texts import STALE_S, age_text, big_unit, big_voltage, drift_text, rows
from gui.numbers import clock_text, plain
from gui.pages.side_width import side_width
from gui.theme import Theme
from gui.widgets.big_number import USUAL_PX, BigNumber
from gui.widgets.drift_bar import DriftBar
from gui.widgets.moment_list import MomentList
from gui.widgets.rule import rule
from gui.widgets.text_label import text_label
from gui.widgets.value_table import ValueTable
from gui.words import translate

if TYPE_CHECKING:
    from logger.assessment_view import AssessmentView

__all__ = ["LivePanel"]

WIDTH = 348
NARROW = 286
WIDEST = 460
NARROW_PAGE, HIGH_PAGE = 1000, 760
"""Width of the page below which the column is narrower, height from which the voltage may be larger."""
FULL_PAGE = 700
"""Height from which the page has room for targets of full size, as in a window of 768 pixels."""
ABOVE, ABOVE_LOW = 12, 2
GAPS = 18
"""Pixels that the spaces between name, value and note take."""
SENTENCE_HEIGHT = 46
VERDICT_HEIGHT = 57
"""Two and three lines, so that the column jumps only for the longest texts."""


class LivePanel(QWidget):
    """Shows an `AssessmentView`, and the list of moments below."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.number = BigNumber(theme)
        self._sentence = text_label("", 17)
        self._sentence.setWordWrap(True)
        self._sentence.setMinimumHeight(SENTENCE_HEIGHT)
        self._sentence.setAccessibleName(translate("Live panel", "State of the cell"))
        self._caption = text_label("", 12.5, look="quiet")
        self._caption.setWordWrap(True)
        self._drift = DriftBar(theme)
        self._verdict = text_label("", 14, weight="medium")
        self._verdict.setWordWrap(True)
        self._verdict.setMinimumHeight(VERDICT_HEIGHT)
        self._verdict.setAlignment(Qt.AlignmentFlag.AlignTop)
        self._verdict.setAccessibleName(translate("Live panel", "Drift and verdict"))
        self._table = ValueTable()
        self.moments = MomentList(theme)
        self._build()
        self.take_room(NARROW_PAGE, 0)

    def _build(self) -> None:
        layout = self._column = QVBoxLayout(self)
        layout.setSpacing(0)
        layout.addWidget(self.number)
        layout.addSpacing(8)
        layout.addWidget(self._sentence)
        layout.addSpacing(12)
        layout.addWidget(self._caption)
        layout.addSpacing(12)
        layout.addWidget(self._drift)
        layout.addSpacing(2)
        layout.addWidget(self._verdict)
        layout.addSpacing(4)
        layout.addWidget(rule())
        layout.addSpacing(6)
        layout.addWidget(self._table)
        layout.addSpacing(6)
        layout.addWidget(rule())
        layout.addSpacing(4)
        layout.addWidget(self.moments, 1)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Expanding)

    def take_room(self, page_width: int, page_height: int) -> None:
        """Take the share of a page of so many pixels; on a large one the voltage is larger, too."""
        width = NARROW if page_width < NARROW_PAGE else side_width(page_width, WIDTH, WIDEST)
        self.setFixedWidth(width)
        self._table.limit_to(width - GAPS)
        is_large = width > WIDTH and page_height >= HIGH_PAGE
        is_low = page_height < FULL_PAGE
        self._column.setContentsMargins(0, ABOVE_LOW if is_low else ABOVE, 0, 0)
        self.moments.show_low(is_low)
        self.number.ask_for(round(USUAL_PX * width / WIDTH) if is_large else USUAL_PX)

    def show_voltage(self, voltage_V: float | None, age_s: float | None) -> None:
        """Show the newest reading and, when it is old, its age (host seconds)."""
        stale = ""
        if voltage_V is None:
            self.number.show_value(big_voltage(None), "", " ")
            return
        if age_s is not None and age_s > STALE_S:
            stale = translate("Live panel", "no new reading, last {age}").format(age=age_text(age_s))
        self.number.show_value(big_voltage(voltage_V), big_unit(voltage_V), stale)

    def show_view(self, view: AssessmentView, sentence: str, *, is_over: bool = False) -> None:
        """Show state in a sentence, drift and table; `is_over` tells that no more readings come."""
        _set(self._sentence, sentence)
        window = _window_words(view.drift_window_s)
        caption = translate("Live panel", "Drift over {window}, against the settling limit")
        _set(self._caption, caption.format(window=window))
        self._drift.show_drift(view.drift_mV_per_min, view.drift_interval90_mV_per_min, view.limit_mV_per_min)
        _set(self._verdict, drift_text(view, is_over=is_over))
        look = "settled" if view.verdict == "settled" else ""
        if self._verdict.property("look") != look:
            self._verdict.setProperty("look", look)
            self._verdict.style().polish(self._verdict)
        self._table.show_rows(rows(view))

    def show_words(self, sentence: str) -> None:
        """Show only a sentence: nothing has been judged yet."""
        _set(self._sentence, sentence)
        _set(self._caption, translate("Live panel", "Drift, against the settling limit"))


def _window_words(window_s: float | None) -> str:
    if not window_s:
        return translate("Live panel", "the last readings")
    if window_s < 90:
        return translate("Live panel", "the last {time}").format(time=plain(window_s, 0, "s"))
    return translate("Live panel", "the last {time}").format(time=f"{clock_text(window_s)}\u00a0min")


def _set(label: QLabel, text: str) -> None:
    if label.text() != text:
        label.setText(text)
