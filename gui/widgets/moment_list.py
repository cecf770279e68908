"""The moments of a run in a list, newest at the bottom."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QFontMetricsF, QKeyEvent, QPainter, QResizeEvent
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QListView,
    QPushButton,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QVBoxLayout,
    QWidget,
)

from gui.disc import paint_disc
from gui.fonts import font
from gui.icons import icon
from gui.kind_words import whole_words
from gui.numbers import clock_text
from gui.theme import Theme
from gui.widgets.moment_model import MOMENT_ROLE, PICTURES_ROLE, MomentModel
from gui.widgets.text_button import LOW_PX, TARGET_PX, text_button
from gui.words import translate
from logger.attachments import Attachment
from logger.moments import Moment

__all__ = ["MomentList"]

ROW_HEIGHT = 26
PICTURE_SIGN = 15
"""Side of the sign that a moment has pictures."""


class MomentList(QWidget):
    """Numbers, times and words; the chosen one can be edited or removed.

    Parameters
    ----------
    empty : what is said where there is none; None: how one is tagged.
    is_growing : the run is in progress, and its newest moment is kept in view; else the first is.

    Attributes
    ----------
    edit_wanted, remove_wanted, pictures_wanted : emitted with a moment's id.
    chosen_changed : emitted with the id of the moment that is chosen now; empty for none.
    """

    chosen_changed = Signal(str)

    pictures_wanted = Signal(str)

    edit_wanted = Signal(str)
    remove_wanted = Signal(str)

    def __init__(
        self,
        theme: Theme,
        parent: QWidget | None = None,
        *,
        empty: str | None = None,
        is_growing: bool = True,
    ) -> None:
        super().__init__(parent)
        self._is_growing = is_growing
        self._model = MomentModel()
        self._list = _List(is_growing)
        self._list.setModel(self._model)
        self._list.setItemDelegate(_Delegate(theme, self._list))
        self._list.activated.connect(lambda _index: self._emit(self.edit_wanted))
        self._list.remove_pressed.connect(lambda: self._emit(self.remove_wanted))
        self._list.selectionModel().selectionChanged.connect(self._take_choice)
        self._empty = QLabel(_empty_words() if empty is None else empty)
        self._empty.setWordWrap(True)
        self._empty.setFont(font(13))
        self._empty.setProperty("look", "quiet")
        self._empty.setAlignment(Qt.AlignmentFlag.AlignTop)
        self._edit = _button(
            translate("Moment list", "Edit"), translate("Moment list", "Edit the chosen moment (Enter)")
        )
        self._remove = _button(
            translate("Moment list", "Remove"), translate("Moment list", "Remove the chosen moment (Delete)")
        )
        self._pictures = _button(
            translate("Moment list", "Pictures"),
            translate("Moment list", "Pictures of the chosen moment (Ctrl+I)"),
        )
        self._buttons = (self._pictures, self._edit, self._remove)
        self._pictures.clicked.connect(lambda: self._emit(self.pictures_wanted))
        self._edit.clicked.connect(lambda: self._emit(self.edit_wanted))
        self._remove.clicked.connect(lambda: self._emit(self.remove_wanted))
        self._build()
        self._enable()
        self.show_low(False)

    def show_low(self, is_low: bool) -> None:
        """Give the moments, not the buttons above them, the room of a low window."""
        for button in self._buttons:
            button.setMinimumHeight(LOW_PX if is_low else TARGET_PX)

    def _build(self) -> None:
        title = QLabel(translate("Moment list", "Moments"))
        title.setFont(font(13))
        title.setProperty("look", "quiet")
        head = QHBoxLayout()
        head.setSpacing(2)
        head.addWidget(title, 1)
        for button in self._buttons:
            head.addWidget(button)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(2)
        layout.addLayout(head)
        layout.addWidget(self._empty, 1)
        layout.addWidget(self._list, 1)

    def show_moments(self, moments: tuple[Moment, ...], attachments: tuple[Attachment, ...] = ()) -> None:
        """Show `moments`, in order of time; the chosen one stays chosen, a new one is scrolled to.

        Those that have pictures are marked.
        """
        self._empty.setVisible(not moments)
        self._list.setVisible(bool(moments))
        present = self._list.currentIndex().data(MOMENT_ROLE)
        if present is not None and present.id not in {moment.id for moment in moments}:
            self._list.selectionModel().clear()  # else Qt chose its neighbour, for the next Delete to remove
        was_empty = not self._model.moments
        new = self._model.show(moments, attachments)
        if new and not was_empty:
            self._list.scrollTo(self._model.index(new[-1]))
        elif new and self._is_growing:
            self._list.scrollToBottom()

    def choose(self, moment_id: str) -> None:
        """Choose and show the moment of that id."""
        row = self._model.row_of(moment_id)
        if row is not None:
            self._list.setCurrentIndex(self._model.index(row))
            self._list.scrollTo(self._model.index(row))

    @property
    def chosen_id(self) -> str | None:
        """Id of the chosen moment, or None."""
        chosen = self._list.selectionModel().selectedIndexes()
        return chosen[0].data(MOMENT_ROLE).id if chosen else None

    def _take_choice(self) -> None:
        self._enable()
        self.chosen_changed.emit(self.chosen_id or "")

    def _emit(self, signal: Any) -> None:
        if self.chosen_id is not None:
            signal.emit(self.chosen_id)

    def _enable(self) -> None:
        for button in self._buttons:
            button.setEnabled(self.chosen_id is not None)


class _List(QListView):
    remove_pressed = Signal()

    def __init__(self, is_growing: bool) -> None:
        super().__init__()
        self._is_growing = is_growing
        self.setAccessibleName(translate("Moment list", "Moments of the run"))
        self.setFrameShape(QListView.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setUniformItemSizes(True)
        self.setMinimumHeight(2 * ROW_HEIGHT)
        # One of our own: of one that Qt made the binding would have to find the type, for 40 ms at the start.
        self.setViewport(QWidget())
        self.setMouseTracking(True)

    def sizeHint(self) -> QSize:
        """Two rows; it takes what is left of the column."""
        return QSize(200, 2 * ROW_HEIGHT)

    def minimumSizeHint(self) -> QSize:
        """The same."""
        return self.sizeHint()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """The newest of a run in progress stays in view when a bar above takes room."""
        bar = self.verticalScrollBar()
        was_at_end = self._is_growing and bar.value() == bar.maximum()
        super().resizeEvent(event)
        if was_at_end:
            self.scrollToBottom()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Delete, Qt.Key.Key_Backspace):
            self.remove_pressed.emit()
        elif event.text() and event.text().isprintable() and event.text() != " ":
            event.ignore()  # letters are keys of the window here, not a search in the list
        else:
            super().keyPressEvent(event)


class _Delegate(QStyledItemDelegate):
    def __init__(self, theme: Theme, parent: QWidget) -> None:
        super().__init__(parent)
        self._theme = theme

    def sizeHint(self, _option: QStyleOptionViewItem, _index: QModelIndex | QPersistentModelIndex) -> QSize:
        return QSize(100, ROW_HEIGHT)

    def paint(
        self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        number, moment = index.row() + 1, index.data(MOMENT_ROLE)
        colours = self._theme.colours
        rect = QRectF(option.rect)
        state = option.state
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if state & QStyle.StateFlag.State_Selected:
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(QColor(colours.band))
            painter.drawRoundedRect(rect.adjusted(0, 1, -2, -1), 6, 6)
        paint_disc(painter, QPointF(rect.left() + 10.5, rect.center().y()), 8.5, number, colours)
        painter.setFont(font(13))
        painter.setPen(QColor(colours.quiet))
        time = clock_text(moment.time_s)
        painter.drawText(rect.adjusted(26, 0, 0, 0), Qt.AlignmentFlag.AlignVCenter, time)
        left = 26 + max(QFontMetricsF(painter.font()).horizontalAdvance(time), 38) + 8
        painter.setPen(QColor(colours.ink))
        words = whole_words(moment)
        room = rect.adjusted(left, 0, -6, 0)
        if index.data(PICTURES_ROLE):
            top = rect.center().y() - PICTURE_SIGN / 2
            place = QRectF(room.right() - PICTURE_SIGN, top, PICTURE_SIGN, PICTURE_SIGN)
            icon("picture", colours.quiet).paint(painter, place.toRect())
            room.adjust(0, 0, -PICTURE_SIGN - 6, 0)
        metrics = QFontMetricsF(painter.font())
        words = metrics.elidedText(words, Qt.TextElideMode.ElideRight, room.width())
        painter.drawText(room, Qt.AlignmentFlag.AlignVCenter, words)
        painter.restore()


def _button(words: str, tip: str) -> QPushButton:
    button = text_button(words, "flat", size_px=13, tip=tip)
    button.setMinimumWidth(TARGET_PX)
    button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
    return button


def _empty_words() -> str:
    return translate(
        "Moment list", "Press M when something happens: the time is kept at once, words can follow."
    )
