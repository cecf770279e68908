"""What hands do to the moments of a run or of a recording, all of which can be undone."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, Protocol

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QUndoCommand, QUndoStack

from gui.kind_words import kind_words
from gui.words import translate
from logger.attachments import Attachment
from logger.errors import LoggerError
from logger.moments import Moment

__all__ = ["MomentActs", "MomentKeeper"]


MOST_ACTS = 200
"""So many can be undone: each remembers what was, that of a picture its bytes."""


class MomentKeeper(Protocol):
    """Who keeps the moments: a run in progress, or a finished recording."""

    @property
    def moments(self) -> tuple[Moment, ...]:
        """The living moments in order of time."""

    def add_moment(self, kind: str, label: str, time_s: float) -> Moment:
        """Keep a new moment at run time `time_s`; LoggerError where it cannot be."""

    def edit_moment(self, moment_id: str, **changes: Any) -> Moment:
        """Change fields of a moment (see `Moment.edited`); LoggerError where it cannot be."""

    @property
    def attachments(self) -> tuple[Attachment, ...]:
        """The pictures of all moments, in the order in which they came."""

    def attach(self, moment_id: str, file_name: str, data: bytes, known_id: str = "") -> Attachment:
        """Attach a picture to a moment, under the id that it had before; LoggerError where it cannot be."""

    def detach(self, attachment: Attachment) -> None:
        """Remove a picture; LoggerError where it cannot be."""

    def picture(self, attachment: Attachment) -> bytes:
        """Return the bytes of a picture; LoggerError where it is gone. May take long."""


class MomentActs(QObject):
    """The moments of one keeper, with one stack of what can be undone.

    Everything is kept at once; undoing is one more edit, so the recording's history holds both.

    Attributes
    ----------
    changed : emitted with nothing when something was done, undone or redone.
    """

    changed = Signal()

    def __init__(self, keeper: MomentKeeper, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.keeper = keeper
        self.stack = QUndoStack(self)
        self.stack.setUndoLimit(MOST_ACTS)
        self._failures: list[LoggerError] = []
        self.newest_id: str | None = None
        """The moment that was tagged last: its words can follow."""

    def tag(self, kind: str, time_s: float, label: str = "") -> Moment:
        """Keep a moment at run time `time_s`.

        Raises
        ------
        LoggerError : the run has not begun, or the time cannot be.
        """
        moment = self.keeper.add_moment(kind, label, time_s)
        self.newest_id = moment.id
        words = translate("Tagging", "Tag: {words}").format(words=kind_words(kind))
        self._push(words, lambda: self._remove(moment.id, False), lambda: self._remove(moment.id, True))
        return moment

    def edit(
        self,
        moment_id: str,
        *,
        kind: str | None = None,
        label: str | None = None,
        time_s: float | None = None,
    ) -> None:
        """Change a moment.

        Raises
        ------
        LoggerError : no such moment, or a value that cannot be.
        """
        old = self.moment(moment_id)
        if old is None:
            return
        new = self.keeper.edit_moment(moment_id, kind=kind, label=label, time_s=time_s)
        if (new.kind, new.label, new.time_s) == (old.kind, old.label, old.time_s):
            return
        moved = new.time_s != old.time_s
        words = translate("Tagging", "Move a moment") if moved else translate("Tagging", "Words of a moment")
        self._push(words, lambda: self._set(new), lambda: self._set(old))

    def take_words(self, moment_id: str, kind: str, label: str, time_s: float | None) -> None:
        """Change a moment as it was typed; where its time cannot be, the words are kept all the same.

        Raises
        ------
        LoggerError : what could not be kept, and why.
        """
        try:
            self.edit(moment_id, kind=kind, label=label, time_s=time_s)
        except LoggerError:
            if time_s is not None:
                self.edit(moment_id, kind=kind, label=label)
            raise

    def remove(self, moment_id: str) -> Moment | None:
        """Remove a moment, and return what it was."""
        moment = self.moment(moment_id)
        if moment is not None:
            self._remove(moment_id, True)
            words = translate("Tagging", "Remove a moment")
            self._push(words, lambda: self._remove(moment_id, True), lambda: self._remove(moment_id, False))
        return moment

    def bring_back(self, moment_id: str) -> None:
        """Bring a removed moment back with its pictures, whatever was done since."""
        if self.moment(moment_id) is None:
            self._remove(moment_id, False)
            words = translate("Tagging", "Bring a moment back")
            self._push(words, lambda: self._remove(moment_id, False), lambda: self._remove(moment_id, True))

    def moment(self, moment_id: str | None) -> Moment | None:
        """Return the living moment of that id."""
        return next((m for m in self.keeper.moments if m.id == moment_id), None)

    def number_of(self, moment_id: str) -> int:
        """Return the number on the flag of a moment; 0 where there is none."""
        return next((i for i, m in enumerate(self.keeper.moments, 1) if m.id == moment_id), 0)

    # ------------------------------------------------------------ pictures

    def pictures_of(self, moment_id: str) -> tuple[Attachment, ...]:
        """Return the pictures of a moment."""
        return tuple(one for one in self.keeper.attachments if one.moment_id == moment_id)

    def attach(self, moment_id: str, file_name: str, data: bytes) -> None:
        """Attach a picture to a moment.

        Raises
        ------
        LoggerError : it is no picture, or too large.
        """
        one = self.keeper.attach(moment_id, file_name, data)
        words = translate("Tagging", "Attach a picture")
        self._push(words, lambda: self._attach_again(one, data), lambda: self.keeper.detach(one))

    def detach(self, attachment: Attachment, data: bytes) -> None:
        """Remove a picture; `data` are its bytes, so that it can be brought back.

        Raises
        ------
        LoggerError : it is not there any more.
        """
        self.keeper.detach(attachment)
        words = translate("Tagging", "Remove a picture")
        self._push(
            words, lambda: self.keeper.detach(attachment), lambda: self._attach_again(attachment, data)
        )

    def _attach_again(self, known: Attachment, data: bytes) -> None:
        self.keeper.attach(known.moment_id, known.file_name, data, known.id)

    # ------------------------------------------------------------ undoing

    def undo(self) -> None:
        """Undo the last change.

        Raises
        ------
        LoggerError : it could not be undone, and is not offered again.
        """
        self._step(self.stack.undo)

    def redo(self) -> None:
        """Do once more what was undone. Raises as `undo`."""
        self._step(self.stack.redo)

    def _step(self, step: Callable[[], None]) -> None:
        self._failures.clear()
        step()
        self.changed.emit()
        if self._failures:
            raise self._failures.pop()

    def _remove(self, moment_id: str, removed: bool) -> None:
        self.keeper.edit_moment(moment_id, removed=removed)

    def _set(self, moment: Moment) -> None:
        self.keeper.edit_moment(moment.id, kind=moment.kind, label=moment.label, time_s=moment.time_s)

    def _push(self, words: str, redo: Callable[[], None], undo: Callable[[], None]) -> None:
        self.stack.push(_Act(words, redo, undo, self._failures))
        self.changed.emit()


class _Act(QUndoCommand):
    """Has been done already when it is pushed: the first redo does nothing.

    What fails is left in `failures` and no longer offered: the stack takes for done whatever it has called,
    and the binding would change the words of an error that passes through it.
    """

    def __init__(
        self, words: str, redo: Callable[[], None], undo: Callable[[], None], failures: list[LoggerError]
    ) -> None:
        super().__init__(words)
        self._redo, self._undo, self._failures = redo, undo, failures
        self._is_first = True

    def redo(self) -> None:
        if not self._is_first:
            self._try(self._redo)
        self._is_first = False

    def undo(self) -> None:
        self._try(self._undo)

    def _try(self, act: Callable[[], None]) -> None:
        try:
            act()
        except LoggerError as error:
            self._failures.append(error)
            self.setObsolete(True)
