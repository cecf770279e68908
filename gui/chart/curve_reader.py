"""Which reading is read off the curve: a cursor for the keyboard, and the place under the pointer."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent

from gui.chart.frame import Frame
from gui.chart.notes import Notes
from gui.chart.reading_texts import ReadingWords, decimals_of, reading_words
from logger.overview import Overview
from logger.reading_off import (
    Reading,
    first_reading,
    last_reading,
    nearest_reading,
    reading_after,
    reading_before,
)

__all__ = ["CurveReader"]

LARGE_STEP = 0.1
"""Share of the picture that Ctrl with an arrow goes."""

SAME_PLACE = 6.0
"""A click so few pixels from the cursor takes it away."""

ENTER = (Qt.Key.Key_Return, Qt.Key.Key_Enter)
ARROWS = (Qt.Key.Key_Left, Qt.Key.Key_Right)


class CurveReader(QObject):
    """Keeps the reading that is read off, and the one it is compared with.

    `here` stays on its reading while others come in. The pointer only shows what lies under it, and gives
    way to a cursor that was set by key or click.

    Attributes
    ----------
    moved : emitted with nothing when something else is read off.
    stepped : emitted with the run time of the reading to which the cursor was set, so that it is brought into
        view and spoken.
    """

    moved = Signal()
    stepped = Signal(float)

    def __init__(self) -> None:
        super().__init__()
        self._overview = Overview()
        self._pointer_x: float | None = None
        self._hovered: Reading | None = None
        self._cursor: Reading | None = None
        self._decimals = 0
        self.since: Reading | None = None

    def show_overview(self, overview: Overview) -> None:
        """Read from the curve of another run, from nowhere."""
        self._overview, self._decimals = overview, 0
        self.clear()

    def clear(self) -> None:
        """Read nothing off."""
        self._cursor = self._hovered = self.since = None

    @property
    def here(self) -> Reading | None:
        """The reading that is read off."""
        return self._cursor or self._hovered

    @property
    def has_cursor(self) -> bool:
        """Tell whether the cursor was set, so that arrows move it."""
        return self._cursor is not None

    def words(self, notes: Notes, frame: Frame) -> ReadingWords | None:
        """Return the words for what is read off."""
        here = self.here
        if here is None:
            return None
        # Once more decimals are seen they stay: the number does not jump between 2.01 and 2.012.
        self._decimals = max(self._decimals, decimals_of(here.value))
        return reading_words(here, self.since, self._overview, notes, frame, self._decimals)

    # ------------------------------------------------------------ the keyboard

    def takes_key(self, event: QKeyEvent, frame: Frame, *, is_following: bool) -> bool:
        """Do what a key means here; return whether it means anything.

        Enter sets the cursor: on the newest reading while following, else in the middle. Then arrows move
        it, by a tenth of the picture with Ctrl; with Shift, or after Enter, it is compared with the reading
        it came from.
        """
        key, held = event.key(), event.modifiers()
        if key in ENTER:
            # A long press is one press: it must not compare a reading with itself.
            if not event.isAutoRepeat():
                self._enter(frame, is_following=is_following)
        elif self._cursor is None:
            return False
        elif key == Qt.Key.Key_Escape:
            self.leave()
        elif key in ARROWS:
            self._compare_if(held)
            self._step(
                key == Qt.Key.Key_Right, frame, is_large=bool(held & Qt.KeyboardModifier.ControlModifier)
            )
        elif key in (Qt.Key.Key_Home, Qt.Key.Key_End):
            self._compare_if(held)
            self._set((first_reading if key == Qt.Key.Key_Home else last_reading)(self._overview))
        else:
            return False
        return True

    def leave(self) -> None:
        """Compare no more; when nothing was compared, take the cursor away."""
        if self.since is not None:
            self.since = None
        else:
            self._cursor = None
        self.moved.emit()

    def _enter(self, frame: Frame, *, is_following: bool) -> None:
        if self._cursor is not None:
            self.since = self._cursor
            self._set(self._cursor)
        elif is_following:
            self._set(last_reading(self._overview))
        else:
            self._set(nearest_reading(self._overview, (frame.left_s + frame.right_s) / 2))

    def _compare_if(self, held: Qt.KeyboardModifier) -> None:
        if held & Qt.KeyboardModifier.ShiftModifier and self.since is None:
            self.since = self._cursor

    def _step(self, is_forward: bool, frame: Frame, *, is_large: bool) -> None:
        assert self._cursor is not None
        share = LARGE_STEP if is_large else 1.0 / frame.width
        step: Callable[[Overview, Reading, float], Reading] = reading_after if is_forward else reading_before
        self._set(step(self._overview, self._cursor, share * (frame.right_s - frame.left_s)))

    def _set(self, reading: Reading | None) -> None:
        if reading is not None:
            self._cursor = reading
            self.moved.emit()
            self.stepped.emit(reading.time_s)

    # ------------------------------------------------------------ the pointer

    def point_at(self, x: float | None, frame: Frame) -> None:
        """Show what lies under the pointer, at pixel `x` of the curve; None where it is elsewhere."""
        self._pointer_x = x
        if self.follow_pointer(frame):
            self.moved.emit()

    def follow_pointer(self, frame: Frame) -> bool:
        """Find anew what lies under the pointer, the curve having moved; return whether it is another."""
        before = self._hovered
        self._hovered = None
        if self._pointer_x is not None and 0 <= self._pointer_x <= frame.width:
            found = nearest_reading(self._overview, frame.time_s(self._pointer_x))
            if found is not None and frame.shows(found.time_s):
                self._hovered = found
        return self._hovered != before and self._cursor is None

    def click(self, x: float, frame: Frame, *, compares: bool) -> None:
        """Set the cursor there, or take it away where it already is; `compares` keeps where it was."""
        found = nearest_reading(self._overview, frame.time_s(x))
        if found is None or not frame.shows(found.time_s):
            return  # within a gap that fills the picture, the pointer shows none either
        if self._cursor is None:
            self.since = None
        elif compares:
            self.since = self.since or self._cursor
        elif abs(frame.x(self._cursor.time_s) - x) <= SAME_PLACE:
            self._cursor = self.since = None
            self.moved.emit()
            return
        self._set(found)
