"""The run sheet as a path along the bottom: what is done, what comes next, what follows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from gui.fonts import font
from gui.theme import Theme
from gui.words import translate

__all__ = ["PathStep", "SheetPath"]

DISC = 10.0
GAP = 20.0
LONGEST_WORDS = 150.0
HEIGHT = 34


@dataclass(frozen=True, slots=True)
class PathStep:
    """One step: its words, and whether it is ``done``, ``skipped``, ``now`` or ``to_do``."""

    words: str
    state: str


class SheetPath(QWidget):
    """Ticks for what is done, a bold number for the next step; words where there is room.

    When not all words fit, those of the steps furthest from the next one are left out, the discs stay.
    """

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self._steps: tuple[PathStep, ...] = ()
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setFixedHeight(HEIGHT)
        self.setAccessibleName(translate("Run sheet", "Steps of the run"))
        theme.changed.connect(self.update)

    def show_steps(self, steps: Sequence[PathStep]) -> None:
        """Take the steps."""
        if tuple(steps) == self._steps:
            return
        self._steps = tuple(steps)
        now = next((i for i, step in enumerate(steps) if step.state == "now"), None)
        if now is None:
            words = translate("Run sheet", "All steps are done") if steps else ""
        else:
            words = translate("Run sheet", "Step {number} of {count}: {words}").format(
                number=now + 1, count=len(steps), words=steps[now].words
            )
        self.setAccessibleDescription(words)
        self.setToolTip("\n".join(f"{i}  {step.words}" for i, step in enumerate(steps, start=1)))
        self.update()

    def sizeHint(self) -> QSize:
        """Some steps."""
        return QSize(400, HEIGHT)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint the steps."""
        painter = QPainter(self)
        try:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            x = 1.0
            for number, (step, room) in enumerate(self._rooms(), start=1):
                x = self._paint_step(painter, x, number, step, room)
        finally:
            painter.end()

    def _rooms(self) -> list[tuple[PathStep, float]]:
        """Return the room for the words of each step; 0: only the disc."""
        now = next((i for i, step in enumerate(self._steps) if step.state == "now"), len(self._steps))
        rooms = [0.0] * len(self._steps)
        left = self.width() - 4 - len(self._steps) * (2 * DISC + 8)
        whole = [QFontMetricsF(self._font_of(one)).horizontalAdvance(one.words) + 1 for one in self._steps]
        if sum(whole) + len(whole) * (8 + GAP) <= left:
            return list(zip(self._steps, whole, strict=True))
        nearest = sorted(range(len(self._steps)), key=lambda i: (abs(i - now - 0.2), i))
        for i in nearest:
            wanted = (whole[i] if i == now else min(whole[i], LONGEST_WORDS)) + 8 + GAP
            if wanted <= left:
                rooms[i] = wanted - 8 - GAP
                left -= wanted
            else:
                break
        for i in nearest:  # what nobody took is for words that would be cut off
            if rooms[i]:
                more = min(whole[i] - rooms[i], left)
                rooms[i] += more
                left -= more
        return list(zip(self._steps, rooms, strict=True))

    def _font_of(self, step: PathStep) -> QFont:
        return font(13.5, "semibold" if step.state == "now" else "regular")

    def _paint_step(self, painter: QPainter, x: float, number: int, step: PathStep, room: float) -> float:
        colours = self._theme.colours
        disc = QRectF(x, self.height() / 2 - DISC, 2 * DISC, 2 * DISC)
        is_now = step.state == "now"
        if step.state == "done":
            self._paint_tick(painter, disc)
        else:
            painter.setPen(QPen(QColor(colours.ink if is_now else colours.outline), 1.7 if is_now else 1.0))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawEllipse(disc)
            painter.setFont(font(12, "semibold" if is_now else "regular"))
            painter.setPen(QColor(colours.ink if is_now else colours.quiet))
            mark = "–" if step.state == "skipped" else str(number)
            painter.drawText(disc, Qt.AlignmentFlag.AlignCenter, mark)
        if not room:
            return disc.right() + 8
        written = font(13.5, "semibold" if is_now else "regular")
        if step.state == "skipped":
            written.setStrikeOut(True)
        painter.setFont(written)
        painter.setPen(QColor(colours.ink if is_now else colours.quiet))
        words = QFontMetricsF(written).elidedText(step.words, Qt.TextElideMode.ElideRight, room)
        place = QRectF(disc.right() + 8, 0, room + 2, self.height())
        painter.drawText(place, Qt.AlignmentFlag.AlignVCenter, words)
        return disc.right() + 8 + room + GAP

    def _paint_tick(self, painter: QPainter, disc: QRectF) -> None:
        colours = self._theme.colours
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(colours.settled))
        painter.drawEllipse(disc)
        pen = QPen(QColor(colours.paper), 1.8)
        pen.setCapStyle(Qt.PenCapStyle.RoundCap)
        painter.setPen(pen)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        c = disc.center()
        painter.drawPolyline(QPolygonF([c + QPointF(-4, 0.3), c + QPointF(-1.2, 3.2), c + QPointF(4.2, -3)]))
