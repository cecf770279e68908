"""A large button that shows which key does the same."""

from __future__ import annotations

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import (
    QColor,
    QFont,
    QFontMetricsF,
    QKeySequence,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
)
from PySide6.QtWidgets import QPushButton, QSizePolicy, QWidget

from gui.fonts import font
from gui.theme import Theme
from gui.tips import tip
from gui.words import translate

__all__ = ["KeyButton", "key_words"]

PADDING = 20
LEAST_SHARE = 0.6
"""Of the words; where the key leaves them less room, it is left out."""
CAP_PADDING = 9


class KeyButton(QPushButton):
    """Words, a second smaller line if any, and the key on a cap at the right.

    Parameters
    ----------
    look : "primary" (filled), "moment" (outlined in the colour of moments) or "flat" (small, for what is
        needed less often); see `gui.theme`.
    """

    def __init__(
        self, theme: Theme, words: str, key: str, look: str, *, hint: str = "", parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._theme, self._words, self._key, self._hint = theme, words, key_words(key), hint
        self._look = look
        self._is_small = look == "flat"
        self._padding = 8 if self._is_small else PADDING
        self._size = 13 if self._is_small else 17
        self.setProperty("look", look)
        self.setAccessibleName(words)
        self.setAccessibleDescription(_described(hint, self._key))
        self.setToolTip(_tip(words, hint, self._key))
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        # A click must not take the keys: the space bar is the next step, not the last button once more.
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)

    def show_words(self, words: str, hint: str = "") -> None:
        """Change what the button says."""
        if (words, hint) != (self._words, self._hint):
            self._words, self._hint = words, hint
            self.setAccessibleName(words)
            self.setAccessibleDescription(_described(hint, self._key))
            self.setToolTip(_tip(words, hint, self._key))
            self.updateGeometry()
            self.update()

    def show_look(self, look: str) -> None:
        """Change the look: "plain", "primary" or "ready" (it is time)."""
        if look != self._look:
            self._look = look
            self.setProperty("look", look)
            self.style().polish(self)
            self.update()

    def show_key(self, key: str) -> None:
        """Change which key does the same at present."""
        key = key_words(key)
        if key != self._key:
            self._key = key
            self.setToolTip(_tip(self._words, self._hint, key))
            self.setAccessibleDescription(_described(self._hint, key))
            self.updateGeometry()
            self.update()

    def sizeHint(self) -> QSize:
        """Room for words and key cap."""
        words = QFontMetricsF(self._words_font()).horizontalAdvance(self._words)
        hint = QFontMetricsF(font(12.5)).horizontalAdvance(self._hint)
        width = max(words, hint) + self._cap_width() + 2 * self._padding + (10 if self._is_small else 16)
        return QSize(round(width), 30 if self._is_small else 60)

    def _words_font(self) -> QFont:
        return font(self._size, "medium" if self._is_small else "semibold")

    def _cap_font(self) -> QFont:
        return font(11.5 if self._is_small else 13, "medium")

    def _cap_width(self) -> float:
        side = 6 if self._is_small else CAP_PADDING
        return QFontMetricsF(self._cap_font()).horizontalAdvance(self._key) + 2 * side

    def _colour(self) -> QColor:
        colours = self._theme.colours
        if not self.isEnabled():
            return QColor(colours.outline)
        names = {
            "primary": colours.paper,
            "ready": colours.paper,
            "moment": colours.moment,
            "plain": colours.ink,
        }
        return QColor(names.get(self._look, colours.ink if self.underMouse() else colours.quiet))

    def _cap(self) -> QRectF:
        height, width = 18.0 if self._is_small else 23.0, self._cap_width()
        right = self.width() - self._padding + (2 if self._is_small else 4)
        return QRectF(right - width, (self.height() - height) / 2, width, height)

    def has_cap(self) -> bool:
        """Tell whether there is room for the key beside most of the words."""
        words = QFontMetricsF(self._words_font()).horizontalAdvance(self._words)
        return self._cap().left() - self._padding - 4 >= LEAST_SHARE * words

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        """Take both clicks of a double click for one press: hands in gloves click twice."""
        event.accept()

    def paintEvent(self, event: QPaintEvent) -> None:
        """The style's ground, then words and cap."""
        super().paintEvent(event)
        painter = QPainter(self)
        try:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            cap = self._cap()
            room = QRectF(self._padding, 0, cap.left() - self._padding - 4, self.height())
            if not self.has_cap():  # what to do comes before the key that does it, which the tip names
                room.setRight(self.width() - self._padding)
            painter.setPen(self._colour())
            if self._hint:
                _write(painter, room.adjusted(0, -18, 0, 0), self._words, self._words_font())
                _write(painter, room.adjusted(0, 24, 0, 0), self._hint, font(12.5))
            else:
                _write(painter, room, self._words, self._words_font())
            if self.has_cap():
                painter.setPen(QPen(self._colour(), 1.2))
                painter.drawRoundedRect(cap, cap.height() / 4, cap.height() / 4)
                painter.setFont(self._cap_font())
                painter.drawText(cap, Qt.AlignmentFlag.AlignCenter, self._key)
        finally:
            painter.end()


def key_words(key: str) -> str:
    """Return a key as the keyboard of this language bears it: Ctrl is Strg in German."""
    return QKeySequence(key).toString(QKeySequence.SequenceFormat.NativeText) or key


def _write(painter: QPainter, room: QRectF, text: str, written: QFont) -> None:
    """Write what fits."""
    painter.setFont(written)
    fits = QFontMetricsF(written).elidedText(text, Qt.TextElideMode.ElideRight, room.width())
    painter.drawText(room, Qt.AlignmentFlag.AlignVCenter, fits)


def _described(hint: str, key: str) -> str:
    return translate("Key button", "{hint} Key: {key}").format(hint=hint, key=key).strip()


def _tip(words: str, hint: str, key: str) -> str:
    return tip(f"{words} ({key})" if not hint else f"{words}: {hint} ({key})")
