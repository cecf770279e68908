"""The view for the wall: one number and one sentence, to be read from eight metres."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, Qt, Signal
from PySide6.QtGui import QColor, QFontMetricsF, QKeyEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from gui.fonts import font
from gui.theme import Theme
from gui.words import translate

__all__ = ["WallView", "WallWords"]

MARGIN_SHARE = 0.035
NUMBER_SHARE = 0.42
SENTENCE_SHARE = 0.062
VERDICT_SHARE = 0.072
FIGURE_SHARE = 0.056
SMALL_SHARE = 0.034
TOP_WITHOUT_NUMBER = 0.4


@dataclass(frozen=True, slots=True)
class WallWords:
    """What stands on the wall; empty texts are left out.

    `figures` are pairs of name and value; `danger` is a text that takes the place of everything but the
    number and of `tagged`, what was tagged just now; `saving_caption` stands above `saved`; `is_settled`,
    `is_saving_sure` and `stale` say how verdict, saving and number are shown.
    """

    number: str = ""
    unit: str = "V"
    sentence: str = ""
    verdict: str = ""
    saved: str = ""
    saving_caption: str = ""
    is_saving_sure: bool = False
    next_step: str = ""
    tagged: str = ""
    figures: tuple[tuple[str, str], ...] = ()
    stale: str = ""
    danger: str = ""
    is_settled: bool = False


class WallView(QWidget):
    """Paints `WallWords` as large as the screen allows. Text is at least a thirtieth of its height.

    Attributes
    ----------
    left : emitted with nothing when the user goes back (Esc).
    """

    left = Signal()

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self._words = WallWords()
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setAccessibleName(translate("Wall view", "View for the wall"))
        theme.changed.connect(self.update)

    def show_words(self, words: WallWords) -> None:
        """Show what has changed."""
        if words == self._words:
            return
        self._words = words
        told = words.danger or words.sentence, words.verdict, words.tagged
        spoken = (f"{words.number} {words.unit}", words.stale, *told)
        self.setAccessibleDescription(" ".join(text for text in spoken if text))
        self.update()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Esc goes back."""
        if event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        else:
            super().keyPressEvent(event)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint number, sentence, verdict and figures from top to bottom."""
        painter = QPainter(self)
        try:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.fillRect(self.rect(), QColor(self._theme.colours.paper))
            margin = MARGIN_SHARE * self.width()
            area = QRectF(self.rect()).adjusted(margin, margin * 0.6, -margin, -margin * 0.8)
            top = (
                self._paint_number(painter, area)
                if self._words.number
                else self.height() * TOP_WITHOUT_NUMBER
            )
            if self._words.danger:
                bottom = self._paint_last_line(painter, area, self._words.tagged, "moment")
                self._paint_danger(painter, QRectF(area.left(), top, area.width(), bottom - top))
                return
            top = self._paint_text(painter, area, top, self._words.sentence, SENTENCE_SHARE, "ink")
            look = "settled" if self._words.is_settled else "ink"
            top = self._paint_text(painter, area, top, self._words.verdict, VERDICT_SHARE, look, "semibold")
            self._paint_figures(painter, area)
        finally:
            painter.end()

    def _paint_number(self, painter: QPainter, area: QRectF) -> float:
        words, colours = self._words, self._theme.colours
        size = NUMBER_SHARE * self.height()
        room = area.width() * (0.98 if not words.saved else 0.66)
        whole = QFontMetricsF(font(size, "light")).horizontalAdvance(words.number) + size * 0.4
        size *= min(1.0, room / max(whole, 1.0))
        baseline = area.top() + NUMBER_SHARE * self.height() * 0.86
        painter.setFont(font(size, "light"))
        painter.setPen(QColor(colours.quiet if words.stale else colours.ink))
        painter.drawText(QPointF(area.left() - size * 0.05, baseline), words.number)
        metrics = QFontMetricsF(painter.font())
        right = area.left() + metrics.horizontalAdvance(words.number) + size * 0.03
        below = max(0.0, metrics.tightBoundingRect(words.number).bottom())  # a decimal comma's tail
        painter.setFont(font(size * 0.34))
        painter.setPen(QColor(colours.quiet))
        painter.drawText(QPointF(right, baseline), words.unit)
        if words.stale:
            painter.setFont(font(SMALL_SHARE * self.height(), "medium"))
            painter.setPen(QColor(colours.warning))
            painter.drawText(area, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignTop, words.stale)
        elif words.saved:
            self._paint_saved(painter, area, baseline)
        return baseline + max(0.04 * self.height(), below + 0.015 * self.height())

    def _paint_saved(self, painter: QPainter, area: QRectF, baseline: float) -> None:
        """The saving, to the right of the number; green where it is sure."""
        colours = self._theme.colours
        painter.setPen(QColor(colours.settled if self._words.is_saving_sure else colours.ink))
        room = QRectF(
            area.right() - area.width() * 0.32, area.top(), area.width() * 0.32, baseline - area.top()
        )
        size = 0.085 * self.height()
        wide = QFontMetricsF(font(size, "semibold")).horizontalAdvance(self._words.saved)
        painter.setFont(font(size * min(1.0, room.width() / max(wide, 1.0)), "semibold"))
        align = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignBottom
        painter.drawText(room, align, self._words.saved)
        painter.setFont(font(SMALL_SHARE * self.height()))
        painter.drawText(room.adjusted(0, 0, 0, -size * 1.25), align, self._words.saving_caption)

    def _paint_text(
        self, painter: QPainter, area: QRectF, top: float, text: str, share: float, look: str,
        weight: str = "regular",
    ) -> float:  # fmt: skip
        """Write `text` over at most two lines, smaller where it must; return where the next may begin."""
        if not text:
            return top
        size = share * self.height()
        flags = Qt.TextFlag.TextWordWrap | Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop
        room = QRectF(area.left(), top, area.width(), 2.75 * size)
        for _ in range(12):
            painter.setFont(font(size, weight))
            needed = painter.boundingRect(room, flags, text)
            if needed.height() <= room.height() + 1:
                break
            size *= 0.93
        painter.setPen(QColor(getattr(self._theme.colours, look)))
        painter.drawText(room, flags, text)
        return needed.bottom() + 0.016 * self.height()

    def _paint_figures(self, painter: QPainter, area: QRectF) -> None:
        """A line of figures, and at the very bottom what was tagged just now, or else the next step."""
        colours, height = self._theme.colours, self.height()
        if self._words.tagged:
            bottom = self._paint_last_line(painter, area, self._words.tagged, "moment")
        else:
            bottom = self._paint_last_line(painter, area, self._words.next_step, "quiet")
        figures = self._words.figures
        if not figures:
            return
        top = bottom - 2.35 * FIGURE_SHARE * height
        painter.setPen(QPen(QColor(colours.rule), 2))
        painter.drawLine(QPointF(area.left(), top), QPointF(area.right(), top))
        width = area.width() / len(figures)
        for i, (name, value) in enumerate(figures):
            room = QRectF(area.left() + i * width, top, width - 12, bottom - top)
            painter.setFont(font(SMALL_SHARE * height))
            painter.setPen(QColor(colours.quiet))
            painter.drawText(room.adjusted(0, 0.012 * height, 0, 0), Qt.AlignmentFlag.AlignTop, name)
            painter.setFont(font(FIGURE_SHARE * height, "medium"))
            painter.setPen(QColor(colours.ink))
            painter.drawText(room, Qt.AlignmentFlag.AlignBottom, value)

    def _paint_last_line(self, painter: QPainter, area: QRectF, text: str, look: str) -> float:
        """Write one line at the very bottom; return where what stands above it may end."""
        if not text:
            return area.bottom()
        line = 1.4 * SMALL_SHARE * self.height()
        room = QRectF(area.left(), area.bottom() - line, area.width(), line)
        painter.setFont(font(SMALL_SHARE * self.height(), "medium"))
        painter.setPen(QColor(getattr(self._theme.colours, look)))
        fits = QFontMetricsF(painter.font()).elidedText(text, Qt.TextElideMode.ElideRight, room.width())
        painter.drawText(room, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignBottom, fits)
        return room.top() - 0.012 * self.height()

    def _paint_danger(self, painter: QPainter, room: QRectF) -> None:
        """A field in the colour of danger with the words in it: seen, and read, from afar."""
        colours = self._theme.colours
        painter.setPen(QPen(QColor(colours.danger), max(3.0, 0.006 * self.height())))
        painter.setBrush(QColor(colours.danger_soft))
        painter.drawRoundedRect(room, 18, 18)
        inner = room.adjusted(0.03 * self.width(), 0.02 * self.height(), -0.03 * self.width(), 0)
        top = self._paint_text(
            painter, inner, inner.top(), translate("Wall view", "Danger"), VERDICT_SHARE, "danger", "semibold"
        )
        self._paint_text(painter, inner, top, self._words.danger, VERDICT_SHARE, "ink", "medium")
