"""What hands do to the moments of a run or of a recording, all of which can be undone."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, Protocol

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QUndoCommand, QUndoStack

from gui.kind_words import kind_words
from gui.words import translate
from logger.moments import Moment

__all__ = ["MomentActs", "MomentKeeper"]


class MomentKeeper(Protocol):
    """Who keeps the moments: a run in progress, or a finished recording."""

    @property
    def moments(self) -> tuple[Moment, ...]:
        """The living moments in order of time."""

    def add_moment(self, kind: str, label: str, time_s: float) -> Moment:
        """Keep a new moment at run time `time_s`; LoggerError where it cannot be."""

    def edit_moment(self, moment_id: str, **changes: Any) -> Moment:
        """Change fields of a moment (see `Moment.edited`); LoggerError where it cannot be."""


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
        self._keeper = keeper
        self.stack = QUndoStack(self)
        self.newest_id: str | None = None
        """The moment that was tagged last: its words can follow."""

    def tag(self, kind: str, time_s: float, label: str = "") -> Moment:
        """Keep a moment at run time `time_s`.

        Raises
        ------
        LoggerError : the run has not begun, or the time cannot be.
        """
        moment = self._keeper.add_moment(kind, label, time_s)
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
        new = self._keeper.edit_moment(moment_id, kind=kind, label=label, time_s=time_s)
        if (new.kind, new.label, new.time_s) == (old.kind, old.label, old.time_s):
            return
        moved = new.time_s != old.time_s
        words = translate("Tagging", "Move a moment") if moved else translate("Tagging", "Words of a moment")
        self._push(words, lambda: self._set(new), lambda: self._set(old))

    def remove(self, moment_id: str) -> Moment | None:
        """Remove a moment, and return what it was."""
        moment = self.moment(moment_id)
        if moment is not None:
            self._remove(moment_id, True)
            words = translate("Tagging", "Remove a moment")
            self._push(words, lambda: self._remove(moment_id, True), lambda: self._remove(moment_id, False))
        return moment

    def moment(self, moment_id: str | None) -> Moment | None:
        """Return the living moment of that id."""
        return next((m for m in self._keeper.moments if m.id == moment_id), None)

    def number_of(self, moment_id: str) -> int:
        """Return the number on the flag of a moment; 0 where there is none."""
        return next((i for i, m in enumerate(self._keeper.moments, 1) if m.id == moment_id), 0)

    # ------------------------------------------------------------ undoing

    def undo(self) -> None:
        """Undo the last change."""
        self.stack.undo()
        self.changed.emit()

    def redo(self) -> None:
        """Do once more what was undone."""
        self.stack.redo()
        self.changed.emit()

    def _remove(self, moment_id: str, removed: bool) -> None:
        self._keeper.edit_moment(moment_id, removed=removed)

    def _set(self, moment: Moment) -> None:
        self._keeper.edit_moment(moment.id, kind=moment.kind, label=moment.label, time_s=moment.time_s)

    def _push(self, words: str, redo: Callable[[], None], undo: Callable[[], None]) -> None:
        self.stack.push(_Act(words, redo, undo))
        self.changed.emit()


class _Act(QUndoCommand):
    """Has been done already when it is pushed: the first redo does nothing."""

    def __init__(self, words: str, redo: Callable[[], None], undo: Callable[[], None]) -> None:
        super().__init__(words)
        self._redo, self._undo = redo, undo
        self._is_first = True

    def redo(self) -> None:
        if not self._is_first:
            self._redo()
        self._is_first = False

    def undo(self) -> None:
        self._undo()
