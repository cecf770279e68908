"""A field to choose from a list, with an arrow in the colours of the program."""

from __future__ import annotations

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import (
    QComboBox,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionComboBox,
    QStylePainter,
    QWidget,
)

from gui.theme import Theme

__all__ = ["ChoiceBox"]


LIST_EDGES = 30
SCREEN_EDGES = 4
MOST_ROWS = 16
"""A longer list scrolls; none of the program's own is."""


class ChoiceBox(QComboBox):
    """A combo box whose style sheet leaves no arrow, so it draws its own; what does not fit ends in dots."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self.setMaxVisibleItems(MOST_ROWS)
        self.setItemDelegate(QStyledItemDelegate(self))  # the combo box's own ignores the style sheet

    def showPopup(self) -> None:
        """Open the list, as wide as its longest line; where the screen cuts it, with a scroll bar."""
        self.view().setAccessibleName(self.accessibleName())  # the list takes the keys, and had no name
        room, longest = self.screen().availableGeometry(), self.view().sizeHintForColumn(0) + LIST_EDGES
        self.view().setMinimumWidth(min(longest, room.width() - SCREEN_EDGES))
        # The style would show none: its own lists are as long as they are.
        self.view().setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAsNeeded)
        super().showPopup()
        popup = self.view().window()  # it begins where the box does, wide as it may be
        popup.move(max(room.left(), min(popup.x(), room.right() + 1 - popup.width())), popup.y())

    def paintEvent(self, _event: QPaintEvent) -> None:
        """The style's field, then the arrow."""
        painter = QStylePainter(self)
        option = QStyleOptionComboBox()
        self.initStyleOption(option)
        style = QStyle
        room = self.style().subControlRect(
            style.ComplexControl.CC_ComboBox, option, style.SubControl.SC_ComboBoxEditField, self
        )
        option.currentText = self.fontMetrics().elidedText(
            self.currentText(), Qt.TextElideMode.ElideRight, room.width()
        )
        try:
            painter.drawComplexControl(style.ComplexControl.CC_ComboBox, option)
            if not self.isEditable():
                painter.drawControl(style.ControlElement.CE_ComboBoxLabel, option)
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setPen(QPen(QColor(self._theme.colours.quiet), 1.6))
            x, y = self.width() - 17.0, self.height() / 2 - 1.5
            painter.drawPolyline(QPolygonF([QPointF(x - 4, y), QPointF(x, y + 4), QPointF(x + 4, y)]))
        finally:
            painter.end()
