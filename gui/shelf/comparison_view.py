"""Several runs side by side: curves over one another, a table, and what they say together."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil
from pathlib import Path

from PySide6.QtCore import Signal
from PySide6.QtGui import QFontMetricsF
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QVBoxLayout,
    QWidget,
)

from gui.fonts import font
from gui.message_words import message_words
from gui.shelf.comparison_table import ComparisonTable
from gui.shelf.comparison_texts import (
    ComparedRow,
    alignment_text,
    caution_texts,
    comparison_sentences,
    row_of,
)
from gui.shelf.overlay_chart import OverlayChart
from gui.shelf.overlay_view import OverlayRun
from gui.theme import Theme
from gui.widgets.choice_box import ChoiceBox
from gui.widgets.flow_layout import FlowLayout
from gui.widgets.scroll_pane import scroll_pane
from gui.widgets.text_button import text_button
from gui.widgets.text_label import text_label
from gui.words import translate
from logger.alignment import START, alignments, distinct_names, zero_s
from logger.analysis.run_comparison import RunComparison
from logger.shelf_run import ShelfRun

__all__ = ["ComparisonView"]


class ComparisonView(QWidget):
    """Shows loaded runs and their comparison.

    Attributes
    ----------
    cleared : emitted with nothing when all ticks are to go.
    report_wanted : emitted with nothing when the comparison is to be written to a file.
    """

    cleared = Signal()
    report_wanted = Signal()

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self._runs: tuple[ShelfRun, ...] = ()
        self._missing: tuple[Path, ...] = ()
        self._names: tuple[str, ...] = ()
        self._comparison: RunComparison | None = None
        self._heading = QLabel()
        self._heading.setFont(font(17, "semibold"))
        self.align = ChoiceBox(theme)
        self.align.setFont(font(13.5))
        self.align.setAccessibleName(translate("Shelf", "Align the runs at"))
        self.align.activated.connect(lambda _number: self._show_chart())
        self.chart = OverlayChart(theme)
        self._below = QWidget()
        self._rows = QVBoxLayout(self._below)
        self._build()
        theme.changed.connect(self._show_table)

    def _build(self) -> None:
        words = QLabel(translate("Shelf", "Aligned at"))
        words.setFont(font(13.5))
        words.setProperty("look", "quiet")
        words.setBuddy(self.align)
        clear = text_button(translate("Shelf", "Take all ticks away"), "flat", size_px=13)
        clear.clicked.connect(lambda _checked=False: self.cleared.emit())
        self.report = text_button(translate("Shelf", "Report for the class …"), size_px=13)
        self.report.setEnabled(False)
        self.report.clicked.connect(lambda _checked=False: self.report_wanted.emit())
        aligned = QWidget()
        row = QHBoxLayout(aligned)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(10)
        row.addWidget(words)
        row.addWidget(self.align)
        top = FlowLayout(across=18, down=4)
        top.addWidget(self._heading)
        top.addWidget(clear)
        top.begin_part()
        top.addWidget(aligned)
        top.addWidget(self.report)
        self._rows.setContentsMargins(0, 0, 10, 0)
        self._rows.setSpacing(6)
        scroll = scroll_pane(self._below, translate("Shelf", "Table of the runs"))
        scroll.setMinimumHeight(90)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(8)
        layout.addLayout(top)
        layout.addWidget(self.chart, 3)
        layout.addWidget(scroll, 2)

    def show_runs(self, runs: Sequence[ShelfRun], missing: Sequence[Path]) -> None:
        """Show the runs loaded so far; those in the files that are `missing` are to come, in that order."""
        self._runs, self._missing = tuple(runs), tuple(missing)
        self._names = distinct_names(
            [run.recording.title for run in runs], [run.recording.path for run in runs]
        )
        loading = len(missing)
        text = translate("Shelf", "{count} runs over one another").format(count=len(runs) + loading)
        # Its last words take their room from the start: nothing beside it moves when all are read.
        self._heading.setMinimumWidth(ceil(QFontMetricsF(self._heading.font()).horizontalAdvance(text)))
        if loading:
            text = translate("Shelf", "{count} runs, {loading} to be read …").format(
                count=len(runs) + loading, loading=loading
            )
        self._heading.setText(text)
        present = self.align.currentData()
        found = alignments([(run.recording, run.findings) for run in runs])
        self.align.clear()
        for one in found:
            self.align.addItem(alignment_text(one, len(runs)), one.key)
        self.align.setCurrentIndex(max(self.align.findData(present), 0))
        self._comparison = None
        self.report.setEnabled(False)
        self._show_chart()
        self._show_table()

    def show_comparison(self, comparison: RunComparison | None, why_not: str) -> None:
        """Show what the runs say together, or why that cannot be told."""
        self._comparison = comparison
        self.report.setEnabled(comparison is not None)
        self._show_table(why_not)

    @property
    def key(self) -> str:
        """What the runs are aligned at."""
        return str(self.align.currentData() or START)

    def _show_chart(self) -> None:
        shown = []
        for number, (run, name) in enumerate(zip(self._runs, self._names, strict=True)):
            at_s = zero_s(self.key, run.recording, run.findings)
            if at_s is not None:
                shown.append(OverlayRun(run.overview, at_s, name, number))
        self.chart.show_runs(shown, self.align.currentText(), self._why_no_curve())

    def _why_no_curve(self) -> str:
        if self._missing:
            return translate("Window", "Opening {name}").format(name=self._missing[0].name)
        return translate("Shelf", "None of these runs has a reading of the cell voltage.")

    def _show_table(self, why_not: str = "") -> None:
        while (item := self._rows.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        if self._runs:  # headings of nothing would stand about while the first run is read
            self._rows.addWidget(self._table())
        if self._comparison is not None:
            for sentence in comparison_sentences(self._comparison):
                self._rows.addWidget(_wrapped(sentence, 14))
            for caution in caution_texts(self._comparison, self._run_names()):
                self._rows.addWidget(_wrapped(caution, 13, "quiet"))
        elif why_not:
            self._rows.addWidget(
                _wrapped(
                    translate("Shelf", "Not compared: {why}.").format(why=message_words(why_not)),
                    13.5,
                    "quiet",
                )
            )
        self._rows.addStretch(1)

    def _run_names(self) -> dict[str, str]:
        """Return how the table calls each compared file."""
        pairs = zip(self._runs, self._names, strict=True)
        return {run.compared.file: name for run, name in pairs if run.compared is not None}

    def _table(self) -> QWidget:
        at_equal = self._comparison is not None and self._comparison.at_equal_current
        saved = (
            translate("Shelf", "Saved at equal current")
            if at_equal
            else translate("Shelf", "Saved, as measured")
        )
        rows = [
            (name, str(run.recording.path), self._cells(run, at_equal))
            for run, name in zip(self._runs, self._names, strict=True)
        ]
        return ComparisonTable(self._theme, rows, saved)

    def _cells(self, run: ShelfRun, at_equal: bool) -> ComparedRow:
        if run.compared is None:
            return ComparedRow("", "–", "–", "–", message_words(run.trouble))
        compared = run.compared
        if self._comparison is not None:
            compared = next((c for c in self._comparison.runs if c.uuid == compared.uuid), compared)
        return row_of(compared, at_equal_current=at_equal)


def _wrapped(text: str, size: float, look: str = "") -> QLabel:
    label = text_label(text, size, look=look, selectable=True)
    label.setWordWrap(True)
    return label
