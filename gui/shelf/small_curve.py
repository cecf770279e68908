"""The small curve of a recording: all between smallest and largest reading of each part of the run."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF

from logger.scale import Range, span_to_show, voltages_to_show
from logger.shelf_entry import ShelfEntry

__all__ = ["SmallCurve"]

HALF_STROKE = 0.6
DOT = 4.0
"""Most pixels that a column takes which stands alone: a single reading is no stretch of time."""

FAR = 1e5
"""Pixels beyond the curve's place that are painted like any farther away: Qt loses what lies much farther."""

COLUMNS_A_PIXEL = 2.0
"""More would be painted over one another; on a finer screen this is one a pixel."""


@dataclass(frozen=True, slots=True, eq=False)
class SmallCurve:
    """The curve in columns of equal parts of the run.

    Attributes
    ----------
    low_V, high_V : shape (m,); smallest and largest reading of each part, NaN without any.
    """

    low_V: NDArray[np.float64]
    high_V: NDArray[np.float64]

    @classmethod
    def of(cls, entry: ShelfEntry, width: float) -> SmallCurve:
        """Return the curve of `entry` in no more columns than make a difference in `width` pixels."""
        most = max(round(COLUMNS_A_PIXEL * width), 1)
        low = np.array([np.nan if v is None else v for v in entry.low_V])
        high = np.array([np.nan if v is None else v for v in entry.high_V])
        return cls(_at_most(most, low, np.fmin), _at_most(most, high, np.fmax))

    def voltages(self) -> Range | None:
        """Return the lowest and highest voltage to show, None where nothing was read."""
        shown = voltages_to_show(self.low_V, self.high_V) if self.low_V.size else None
        if shown is None:
            return None
        middle_V, half_V = sum(shown) / 2, span_to_show(*shown) / 2
        return middle_V - half_V, middle_V + half_V

    def paint(self, painter: QPainter, place: QRectF, range_V: Range, colour: QColor) -> None:
        """Paint it into `place`, whose width is the run, each column in the middle of its part.

        The height shows `range_V`; what lies beyond is cut off.
        """
        low_V, high_V = range_V
        rows = np.stack([self.high_V, self.low_V])
        rows = np.clip((rows - low_V) / (high_V - low_V) * place.height(), -FAR, FAR)
        rows = place.bottom() - rows
        rows[0] -= HALF_STROKE
        rows[1] += HALF_STROKE
        step = place.width() / max(self.low_V.size, 1)
        x = place.left() + step * (np.arange(self.low_V.size) + 0.5)
        painter.save()
        painter.setClipRect(place.adjusted(-1, -2, 1, 2))
        painter.setPen(QPen(colour, 0.6))
        painter.setBrush(colour)
        for begin, end in _unbroken(np.isfinite(self.low_V)):
            rim = min(step, DOT) / 2 if end - begin == 1 else step / 2
            columns = np.r_[begin, begin:end, end - 1]
            places = np.r_[x[begin] - rim, x[begin:end], x[end - 1] + rim]
            upper, lower = ([*map(QPointF, places, row[columns])] for row in rows)
            painter.drawPolygon(QPolygonF(upper + lower[::-1]))
        painter.restore()


def _at_most(columns: int, values: NDArray[np.float64], take: np.ufunc) -> NDArray[np.float64]:
    """Return `values` in no more than so many columns, each with what `take` finds in it; NaN is no value."""
    together = -(-values.size // columns)
    if together <= 1:
        return values
    padded = np.append(values, np.full(-values.size % together, np.nan))
    found: NDArray[np.float64] = take.reduce(padded.reshape(-1, together), axis=1)
    return found


def _unbroken(has_data: NDArray[np.bool_]) -> list[tuple[int, int]]:
    """Return begin and end of each unbroken stretch of columns with readings."""
    edges = np.flatnonzero(np.diff(np.concatenate(([False], has_data, [False])).astype(np.int8)))
    return [(int(a), int(b)) for a, b in edges.reshape(-1, 2)]
