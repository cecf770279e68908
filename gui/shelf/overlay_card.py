"""The card of the overlay: what each run reads at one time, behind its number in its colour."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter

from gui.chart.reading_card import PADDING_X, PADDING_Y, paint_ground
from gui.disc import paint_disc
from gui.fonts import font
from gui.shelf.overlay_reading_texts import OverlayWords, RunWords
from gui.shelf.run_colours import run_colour
from gui.theme import Colours

__all__ = ["OverlayCard"]

TIME_PX, ABOUT_PX = 14.5, 12.5
BETWEEN, BETWEEN_COLUMNS = 10.0, 14.0
NO_VALUE = "–"
MOST_MORE = 210.0
"""Pixels of width for what else is to be known of a run; the rest of it is cut."""


class _Size(NamedTuple):
    """One of the sizes the card is written in, in pixels."""

    head: float
    line: float
    disc: float
    value: float
    more: float


LARGE = _Size(22.0, 20.0, 7.5, 14.0, 12.5)
SMALL = _Size(18.0, 16.0, 6.5, 12.5, 11.5)
LEAST = _Size(16.0, 13.0, 5.5, 10.0, 10.0)


class _Layout(NamedTuple):
    """How the runs are laid out: in so many columns, with so much of what else is to be known of each."""

    size: _Size
    columns: int
    told: int
    value_width: float
    more_width: float
    width: float
    height: float

    @property
    def column_width(self) -> float:
        wide = 2 * self.size.disc + BETWEEN / 2 + self.value_width
        return wide + (BETWEEN + self.more_width if self.more_width else 0.0)


@dataclass(frozen=True, slots=True)
class OverlayCard:
    """Tells the time in its head, below it every run: no run is left out where there is little room.

    Where it does not fit it is laid out in columns, then written smaller, then tells less of what else is
    to be known of each run, all of which a screen reader is told.
    """

    words: OverlayWords

    def size(self, width: float, height: float) -> tuple[float, float]:
        """What the runs take in the largest layout that fits."""
        layout = self._layout(width, height)
        return min(layout.width, width), min(layout.height, height)

    def paint(self, painter: QPainter, place: QRectF, colours: Colours) -> None:
        """Paint head and runs."""
        layout = self._layout(place.width(), place.height())
        inner = paint_ground(painter, place, colours)
        size, words = layout.size, self.words
        side = Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft
        head = QRectF(inner.left(), inner.top(), inner.width(), size.head)
        time_font = font(TIME_PX, "semibold")
        painter.setFont(time_font)
        painter.setPen(QColor(colours.ink))
        painter.drawText(head, side, words.time)
        head.setLeft(head.left() + QFontMetricsF(time_font).horizontalAdvance(words.time) + BETWEEN)
        _write(painter, head, ", ".join(words.about), ABOUT_PX, colours.quiet)
        rows = math.ceil(len(words.runs) / layout.columns)
        for number, run in enumerate(words.runs):
            column, row = divmod(number, rows)
            left = inner.left() + column * (layout.column_width + BETWEEN_COLUMNS)
            top = head.bottom() + row * size.line
            self._paint_run(painter, QRectF(left, top, layout.column_width, size.line), run, layout, colours)

    def _paint_run(
        self, painter: QPainter, line: QRectF, run: RunWords, layout: _Layout, colours: Colours
    ) -> None:
        size = layout.size
        middle = QPointF(line.left() + size.disc, line.center().y())
        paint_disc(painter, middle, size.disc, run.number + 1, colours, run_colour(colours, run.number))
        left = line.left() + 2 * size.disc + BETWEEN / 2
        value = QRectF(left, line.top(), layout.value_width + 1, line.height())
        _write(painter, value, run.value or NO_VALUE, size.value, colours.ink, "semibold")
        if layout.more_width:
            more = QRectF(value.right() + BETWEEN - 1, line.top(), layout.more_width + 1, line.height())
            _write(painter, more, _more(run, layout.told), size.more, colours.quiet)

    def _layout(self, width: float, height: float) -> _Layout:
        """Return the first layout that fits; where none does, the narrowest one that is low enough."""
        layouts = list(self._layouts())
        fitting = (one for one in layouts if one.width <= width and one.height <= height)
        low_enough = [one for one in layouts if one.height <= height] or layouts[-1:]
        return next(fitting, min(low_enough, key=lambda one: one.width))

    def _layouts(self) -> Iterator[_Layout]:
        """Go through all layouts, those that are read best first."""
        words, count = self.words, len(self.words.runs)
        head_width = QFontMetricsF(font(TIME_PX, "semibold")).horizontalAdvance(words.time) + 1
        if words.about:
            about = QFontMetricsF(font(ABOUT_PX)).horizontalAdvance(", ".join(words.about))
            head_width += BETWEEN + about
        for told in reversed(range(1 + max((len(run.more) for run in words.runs), default=0))):
            for size in (LARGE, SMALL) if told else (LARGE, SMALL, LEAST):
                value_font = QFontMetricsF(font(size.value, "semibold"))
                value = max(
                    (value_font.horizontalAdvance(run.value or NO_VALUE) for run in words.runs), default=0.0
                )
                more_font = QFontMetricsF(font(size.more))
                wanted = (more_font.horizontalAdvance(_more(run, told)) for run in words.runs)
                more = min(max(wanted, default=0.0), MOST_MORE)
                for columns in range(1, max(count, 1) + 1):
                    rows = math.ceil(count / columns)
                    tall = size.head + rows * size.line + 2 * PADDING_Y
                    made = _Layout(size, columns, told, value, more, 0.0, tall)
                    wide = columns * made.column_width + (columns - 1) * BETWEEN_COLUMNS
                    yield made._replace(width=max(wide, head_width) + 2 * PADDING_X + 1)


def _more(run: RunWords, told: int) -> str:
    return ", ".join(run.more[:told])


def _write(
    painter: QPainter, place: QRectF, text: str, size_px: float, colour: str, weight: str = ""
) -> None:
    """Write one line, cut where there is no room."""
    written = font(size_px, weight) if weight else font(size_px)
    painter.setFont(written)
    painter.setPen(QColor(colour))
    cut = QFontMetricsF(written).elidedText(text, Qt.TextElideMode.ElideRight, place.width())
    painter.drawText(place, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, cut)
