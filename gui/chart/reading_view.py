"""Reading values off curves: what is read, painted over them, and told to who does not see it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Generic

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent, QKeyEvent
from PySide6.QtWidgets import QApplication, QWidget

from gui.chart.curve_reader import CurveReader, Read
from gui.chart.frame import Frame
from gui.chart.reading_mark import Marked, ReadingMark
from gui.words import translate
from logger.reading_off import Readable

__all__ = ["ReadingView"]


class ReadingView(QObject, Generic[Read]):
    """Joins the reader, its mark, and the words of the chart for a screen reader.

    A subclass says what is marked and told of what is read off.

    Attributes
    ----------
    changed : emitted with nothing when the mark has to be painted again.
    wanted : emitted with a time that is to be brought into the picture.
    """

    changed = Signal()
    wanted = Signal(float)

    def __init__(self, chart: QWidget, readable: Readable[Read], mark: ReadingMark) -> None:
        super().__init__(chart)
        self._chart = chart
        self._frame: Frame | None = None
        self._about = self._spoken = ""
        chart.setWhatsThis(
            translate(
                "Reading",
                "Return sets a cursor on a reading, the arrows move it. Return again, or Shift with an "
                "arrow, compares two. Esc leaves.",
            )
        )
        self.reader: CurveReader[Read] = CurveReader(readable)
        self.mark = mark
        self.reader.moved.connect(self._show)
        self.reader.stepped.connect(self._speak)

    def marked(self, here: Read, since: Read | None, frame: Frame) -> Marked:
        """Return what is painted and told of what is read off, and of what it is compared with."""
        raise NotImplementedError

    def read_from(self, readable: Readable[Read]) -> None:
        """Read off another curve, or others; nothing at first."""
        self.reader.read_from(readable)
        self._show()

    def read_on_from(self, readable: Readable[Read], read_again: Callable[[Read], Read | None]) -> None:
        """Read off another curve, or others, where the cursor is (see `CurveReader.read_on_from`)."""
        self.reader.read_on_from(readable, read_again)
        self._show()

    def clear(self) -> None:
        """Read nothing off."""
        self.reader.clear()
        self._show()

    def show_frame(self, frame: Frame) -> None:
        """Take the picture there is now."""
        self._frame = frame
        self.reader.follow_pointer(frame)
        if self.reader.here is not None or self.mark.is_shown:
            self._show()

    @property
    def cursor_share(self) -> float | None:
        """Share of the picture's width at which the cursor is; None where there is none in it."""
        here, frame = self.reader.here, self._frame
        if frame is None or here is None or not self.reader.has_cursor or not frame.shows(here.time_s):
            return None
        return float(frame.x(here.time_s)) / frame.width

    def takes_key(self, event: QKeyEvent, *, is_following: bool) -> bool:
        """Do what a key means for reading off; return whether it means anything."""
        return self._frame is not None and self.reader.takes_key(
            event, self._frame, is_following=is_following
        )

    def click(self, x: float) -> None:
        """Set the cursor by a click at pixel `x` of the curve; with Shift, compare with where it was."""
        held = QApplication.keyboardModifiers()
        if self._frame is not None:
            self.reader.click(x, self._frame, compares=bool(held & Qt.KeyboardModifier.ShiftModifier))

    def point_at(self, x: float | None) -> None:
        """Show what lies under the pointer; None where that is not on the curve."""
        if self._frame is not None:
            self.reader.point_at(x, self._frame)

    def describe(self, words: str) -> None:
        """Say what the curve shows as a whole; what is read off comes before it."""
        self._about = words
        self._describe()

    def _show(self) -> None:
        reader = self.reader
        marked = None
        if self._frame is not None and reader.here is not None:
            marked = self.marked(reader.here, reader.since, self._frame)
        self.mark.show_marked(marked, is_cursor=reader.has_cursor)
        self._spoken = marked.spoken if marked is not None and reader.has_cursor else ""
        self._describe()
        self.changed.emit()

    def _describe(self) -> None:
        text = f"{self._spoken}. {self._about}" if self._spoken else self._about
        if text != self._chart.accessibleDescription():
            self._chart.setAccessibleDescription(text)

    def _speak(self, time_s: float) -> None:
        if self._frame is not None and not self._frame.shows(time_s):
            self.wanted.emit(time_s)
        event = QAccessibleAnnouncementEvent(self._chart, self._spoken)
        # The next step says what counts then: what is being spoken of the one before may be cut short.
        event.setPoliteness(QAccessible.AnnouncementPoliteness.Assertive)
        QAccessible.updateAccessibility(event)
