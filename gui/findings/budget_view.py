"""Where the uncertainty of the saving comes from, largest first."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent
from PySide6.QtWidgets import QGridLayout, QSizePolicy, QVBoxLayout, QWidget

from gui.findings_texts import BudgetRow
from gui.theme import Theme
from gui.widgets.text_label import text_label
from gui.words import translate

__all__ = ["BudgetView"]


class BudgetView(QWidget):
    """A line for each source: its name, a bar as long as its share, its standard uncertainty."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self._grid = QGridLayout()
        self._grid.setHorizontalSpacing(10)
        self._grid.setVerticalSpacing(6)
        self._total = text_label("", 14)
        self._total.setWordWrap(True)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(10)
        layout.addWidget(self._total)
        layout.addLayout(self._grid)
        layout.addStretch(1)

    def show_rows(self, rows: Sequence[BudgetRow], total: str) -> None:
        """Show the budget, and in words what it sums up to."""
        while (item := self._grid.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        self._total.setText(total)
        for line, row in enumerate(rows):
            name = text_label(row.source, 13.5)
            name.setWordWrap(True)
            kind = text_label(
                translate("Findings", "type {letter}").format(letter=row.kind), 13.5, look="quiet"
            )
            kind.setAlignment(Qt.AlignmentFlag.AlignTop)  # beside the first line of a name that takes two
            value = text_label(row.value, 13.5, weight="medium")
            value.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignTop)
            value.setAccessibleName(f"{row.source}: {row.value}")
            for column, label in enumerate((name, kind, value)):
                self._grid.addWidget(label, 2 * line, column)
            self._grid.addWidget(_Bar(self._theme, row.share), 2 * line + 1, 0, 1, 3)
        self._grid.setColumnStretch(0, 1)


class _Bar(QWidget):
    def __init__(self, theme: Theme, share: float) -> None:
        super().__init__()
        self._theme, self._share = theme, share
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        return QSize(100, 5)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        try:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(QColor(self._theme.colours.band))
            painter.drawRoundedRect(QRectF(0, 0, self.width(), 5), 2.5, 2.5)
            painter.setBrush(QColor(self._theme.colours.settled))
            painter.drawRoundedRect(QRectF(0, 0, max(self._share * self.width(), 2.0), 5), 2.5, 2.5)
        finally:
            painter.end()
