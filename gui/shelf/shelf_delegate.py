"""How a recording looks on the shelf: tick, small curve, title, what is special about it."""

from __future__ import annotations

from PySide6.QtCore import (
    QEvent,
    QLineF,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    QPointF,
    QRectF,
    QSize,
    Qt,
)
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QMouseEvent, QPainter, QPen, QPolygonF
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem

from gui.fonts import font
from gui.shelf.entry_texts import date_text, length_text, state_text, title_text
from gui.shelf.run_colours import run_colour
from gui.shelf.shelf_model import ENTRY_ROLE, NUMBER_ROLE
from gui.shelf.small_curve import SmallCurve
from gui.theme import Theme
from logger.shelf_entry import ShelfEntry

__all__ = ["ShelfDelegate"]

HEIGHT = 72
TICK_ROOM = 44
BOX = 20.0
CURVE_WIDTH, CURVE_SHARE = 132.0, 0.24


class ShelfDelegate(QStyledItemDelegate):
    """Paints one recording a row; a click on its left end ticks it."""

    def __init__(self, theme: Theme, parent: QObject) -> None:
        super().__init__(parent)
        self._theme = theme

    def sizeHint(self, _option: QStyleOptionViewItem, _index: QModelIndex | QPersistentModelIndex) -> QSize:
        """Rows of one height."""
        return QSize(320, HEIGHT)

    def paint(
        self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        """Paint the row."""
        entry, number = index.data(ENTRY_ROLE), index.data(NUMBER_ROLE)
        colours = self._theme.colours
        rect = QRectF(option.rect).adjusted(2, 2, -2, -2)
        state = option.state
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if state & QStyle.StateFlag.State_Selected:
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(QColor(colours.band))
            painter.drawRoundedRect(rect, 10, 10)
        if state & QStyle.StateFlag.State_HasFocus:
            painter.setPen(QPen(QColor(colours.curve), 2))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRoundedRect(rect.adjusted(1, 1, -1, -1), 9, 9)
        if entry.state == "finished":
            self._paint_tick(painter, rect, number)
        width = min(CURVE_WIDTH, CURVE_SHARE * rect.width())
        curve = QRectF(rect.left() + TICK_ROOM, rect.top() + 9, width, rect.height() - 18)
        colour = colours.curve if number is None else run_colour(colours, number)
        if entry.state == "damaged":
            self._paint_no_curve(painter, curve)
        else:
            small = SmallCurve.of(entry, curve.width())
            if (shown_V := small.voltages()) is not None:
                small.paint(painter, curve, shown_V, QColor(colour))
        self._paint_words(painter, QRectF(rect).adjusted(TICK_ROOM + width + 16, 9, -8, -9), entry)
        painter.restore()

    def editorEvent(
        self,
        event: QEvent,
        model: object,
        _option: QStyleOptionViewItem,
        index: QModelIndex | QPersistentModelIndex,
    ) -> bool:
        """Tick on a click at the left end, and on the space bar."""
        present = index.data(Qt.ItemDataRole.CheckStateRole)
        if present is None:
            return False
        is_click = event.type() == QEvent.Type.MouseButtonRelease and isinstance(event, QMouseEvent)
        if is_click and event.position().x() > TICK_ROOM:  # type: ignore[attr-defined]
            return False
        is_space = event.type() == QEvent.Type.KeyPress and event.key() == Qt.Key.Key_Space  # type: ignore[attr-defined]
        if not (is_click or is_space):
            return False
        wanted = (
            Qt.CheckState.Unchecked
            if Qt.CheckState(present) == Qt.CheckState.Checked
            else Qt.CheckState.Checked
        )
        return bool(model.setData(index, wanted, Qt.ItemDataRole.CheckStateRole))  # type: ignore[attr-defined]

    def _paint_tick(self, painter: QPainter, rect: QRectF, number: int | None) -> None:
        colours = self._theme.colours
        box = QRectF(rect.left() + 12, rect.center().y() - BOX / 2, BOX, BOX)
        if number is None:
            painter.setPen(QPen(QColor(colours.outline), 1.4))
            painter.setBrush(QColor(colours.raised))
            painter.drawRoundedRect(box, 6, 6)
            return
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(run_colour(colours, number)))
        painter.drawRoundedRect(box, 6, 6)
        painter.setPen(QColor(colours.paper))
        painter.setFont(font(12.5, "semibold"))
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, str(number + 1))

    def _paint_no_curve(self, painter: QPainter, place: QRectF) -> None:
        colours = self._theme.colours
        painter.setPen(QPen(QColor(colours.warning), 1.6))
        painter.drawLine(QLineF(place.left(), place.center().y(), place.right(), place.center().y()))
        middle = place.center()
        painter.setBrush(QColor(colours.paper))
        painter.drawPolygon(
            QPolygonF([middle + QPointF(0, -12), middle + QPointF(13, 10), middle + QPointF(-13, 10)])
        )
        painter.setFont(font(13, "semibold"))
        painter.setPen(QColor(colours.warning))
        painter.drawText(QRectF(middle.x() - 8, middle.y() - 8, 16, 18), Qt.AlignmentFlag.AlignCenter, "!")

    def _paint_words(self, painter: QPainter, place: QRectF, entry: ShelfEntry) -> None:
        colours = self._theme.colours
        _line(painter, place, title_text(entry), font(14.5, "medium"), colours.ink)
        below = place.adjusted(0, 20, 0, 0)
        about = " · ".join(part for part in (date_text(entry), length_text(entry)) if part)
        if entry.state == "damaged":
            about = entry.path.name
        _line(painter, below, about, font(12.5), colours.quiet)
        special, lowest = state_text(entry), below.adjusted(0, 17, 0, 0)
        if special:
            colour = {"damaged": colours.warning, "cut_off": colours.warning}.get(entry.state, colours.moment)
            letters = font(12.5, "medium")
            _line(painter, lowest, special, letters, colour)
            lowest.setLeft(lowest.left() + QFontMetricsF(letters).horizontalAdvance(special) + 10)
        if entry.state != "damaged":
            _line(painter, lowest, entry.path.name, font(12.5), colours.quiet)


def _line(painter: QPainter, place: QRectF, text: str, letters: QFont, colour: str) -> None:
    painter.setFont(letters)
    painter.setPen(QColor(colour))
    fits = QFontMetricsF(painter.font()).elidedText(text, Qt.TextElideMode.ElideRight, place.width())
    painter.drawText(
        QRectF(place.left(), place.top(), place.width(), 18), Qt.AlignmentFlag.AlignVCenter, fits
    )
