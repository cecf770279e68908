"""Which reading is read off: a cursor for the keyboard, and the place under the pointer."""

from __future__ import annotations

from collections.abc import Callable
from typing import Generic, Protocol, TypeVar

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent

from gui.chart.frame import Frame
from logger.reading_off import Readable

__all__ = ["CurveReader", "Read"]

LARGE_STEP = 0.1
"""Share of the picture that Ctrl with an arrow goes."""

SAME_PLACE = 6.0
"""A click so few pixels from the cursor takes it away."""

ENTER = (Qt.Key.Key_Return, Qt.Key.Key_Enter)
ARROWS = (Qt.Key.Key_Left, Qt.Key.Key_Right)


class _AtATime(Protocol):
    @property
    def time_s(self) -> float: ...


Read = TypeVar("Read", bound=_AtATime)
"""What is read off at one time: a reading of a curve, or those of several curves."""


class CurveReader(QObject, Generic[Read]):
    """Keeps what is read off, and what it is compared with.

    `here` stays where it is while other readings come in. The pointer only shows what lies under it, and
    gives way to a cursor that was set by key or click.

    Attributes
    ----------
    moved : emitted with nothing when something else is read off.
    stepped : emitted with the time to which the cursor was set, so that it is brought into view and spoken.
    """

    moved = Signal()
    stepped = Signal(float)

    def __init__(self, readable: Readable[Read]) -> None:
        super().__init__()
        self._readable = readable
        self._pointer_x: float | None = None
        self._hovered: Read | None = None
        self._cursor: Read | None = None
        self.since: Read | None = None

    def read_from(self, readable: Readable[Read]) -> None:
        """Read from another curve, or others, from nowhere."""
        self._readable = readable
        self.clear()

    def read_on_from(self, readable: Readable[Read], read_again: Callable[[Read], Read | None]) -> None:
        """Read from another curve, or others, where the cursor is.

        `read_again` returns what is read there now of what was read before, None where there is nothing:
        then the cursor goes.
        """
        cursor = None if self._cursor is None else read_again(self._cursor)
        since = None if cursor is None or self.since is None else read_again(self.since)
        self.read_from(readable)
        self._cursor, self.since = cursor, since

    def clear(self) -> None:
        """Read nothing off."""
        self._cursor = self._hovered = self.since = None

    @property
    def here(self) -> Read | None:
        """What is read off."""
        return self._cursor or self._hovered

    @property
    def has_cursor(self) -> bool:
        """Tell whether the cursor was set, so that arrows move it."""
        return self._cursor is not None

    # ------------------------------------------------------------ the keyboard

    def takes_key(self, event: QKeyEvent, frame: Frame, *, is_following: bool) -> bool:
        """Do what a key means here; return whether it means anything.

        Enter sets the cursor: on the newest reading while following, else in the middle. Then arrows move
        it, by a tenth of the picture with Ctrl; with Shift, or after Enter, it is compared with the place
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
            self._set(self._readable.first() if key == Qt.Key.Key_Home else self._readable.last())
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
            self._set(self._readable.last())
        else:
            self._set(self._readable.nearest((frame.left_s + frame.right_s) / 2))

    def _compare_if(self, held: Qt.KeyboardModifier) -> None:
        if held & Qt.KeyboardModifier.ShiftModifier and self.since is None:
            self.since = self._cursor

    def _step(self, is_forward: bool, frame: Frame, *, is_large: bool) -> None:
        assert self._cursor is not None
        share = LARGE_STEP if is_large else 1.0 / frame.width
        step = self._readable.after if is_forward else self._readable.before
        self._set(step(self._cursor, share * (frame.right_s - frame.left_s)))

    def _set(self, read: Read | None) -> None:
        if read is not None:
            self._cursor = read
            self.moved.emit()
            self.stepped.emit(read.time_s)

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
            found = self._readable.nearest(frame.time_s(self._pointer_x))
            if found is not None and frame.shows(found.time_s):
                self._hovered = found
        return self._hovered != before and self._cursor is None

    def click(self, x: float, frame: Frame, *, compares: bool) -> None:
        """Set the cursor there, or take it away where it already is; `compares` keeps where it was."""
        found = self._readable.nearest(frame.time_s(x))
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
