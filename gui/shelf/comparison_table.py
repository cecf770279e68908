"""The table of runs that lie over one another: number, name, voltages, what was saved."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QPointF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QGridLayout, QLabel, QSizePolicy, QWidget

from gui.disc import paint_disc
from gui.fonts import font
from gui.shelf.comparison_texts import ComparedRow
from gui.shelf.run_colours import run_colour
from gui.theme import Theme
from gui.tips import tip
from gui.widgets.elided_label import ElidedLabel
from gui.widgets.text_label import breakable, text_label
from gui.words import translate

__all__ = ["ComparisonTable"]

NAME_WIDTH = 60
WIDEST = 900
"""A value far from its name is read in the wrong line."""
NARROW = 600
"""Where the table is narrower, a name stands on a line of its own, above its values."""
COLUMNS = 6
KIND, SAVED = 2, 5


class ComparisonTable(QWidget):
    """Shows each run as (name, path, cells), in the order of their numbers; `saved` is the last heading."""

    def __init__(self, theme: Theme, runs: Sequence[tuple[str, str, ComparedRow]], saved: str) -> None:
        super().__init__()
        self.setMaximumWidth(WIDEST)
        self._is_narrow = False
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(12)
        self._grid.setVerticalSpacing(5)
        self._grid.setColumnStretch(1, 1)
        run, before, after = (
            translate("Shelf", "Run"),
            translate("Shelf", "Before"),
            translate("Shelf", "After"),
        )
        for column, head in ((1, run), (3, before), (4, after), (SAVED, saved)):
            heading = text_label(head, 12.5, look="quiet", wraps=True, selectable=True)
            self._grid.addWidget(heading, 0, column, Qt.AlignmentFlag.AlignBottom)
        self._lines = [_Line(theme, number, *one) for number, one in enumerate(runs)]
        self._arrange()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Look whether there is room for all of a run in one line."""
        super().resizeEvent(event)
        if (self.width() < NARROW) != self._is_narrow:
            self._is_narrow = not self._is_narrow
            self._arrange()

    def _arrange(self) -> None:
        place = 1
        for line in self._lines:
            self._grid.addWidget(line.disc, place, 0, Qt.AlignmentFlag.AlignTop)
            self._grid.addWidget(line.name, place, 1, 1, COLUMNS - 1 if self._is_narrow else 1)
            place += self._is_narrow
            for column, value in enumerate(line.values, start=KIND):
                self._grid.addWidget(value, place, column)
            place += 1
            if line.note is not None:
                self._grid.addWidget(line.note, place, 1, 1, COLUMNS - 1)
                place += 1


class _Line:
    """The widgets of one run."""

    def __init__(self, theme: Theme, number: int, name: str, path: str, cells: ComparedRow) -> None:
        self.disc = _Disc(theme, number)
        self.disc.setToolTip(tip(path))
        self.name = ElidedLabel(NAME_WIDTH)
        self.name.show_text(name)
        self.name.setFont(font(13.5, "medium"))
        self.name.setMinimumWidth(NAME_WIDTH)
        self.name.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self.values = [
            text_label(cells.kind, 13, look="quiet", selectable=True),
            text_label(cells.before, 13, selectable=True),
            text_label(cells.after, 13, selectable=True),
            text_label(cells.saved, 13, weight="semibold", selectable=True),
        ]
        self.note: QLabel | None = None
        if cells.note:
            note = breakable(cells.note)  # a path in it moves no value out of sight
            self.note = text_label(note, 12.5, look="warning", wraps=True, selectable=True)


class _Disc(QWidget):
    """The number of a run in its colour."""

    def __init__(self, theme: Theme, number: int) -> None:
        super().__init__()
        self._theme, self._number = theme, number
        self.setFixedSize(QSize(20, 20))
        self.setAccessibleName(translate("Shelf", "Run {number}").format(number=number + 1))

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        try:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            colours = self._theme.colours
            colour = run_colour(colours, self._number)
            paint_disc(painter, QPointF(10, 10), 9, self._number + 1, colours, colour)
        finally:
            painter.end()
