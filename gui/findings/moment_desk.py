"""Changing the moments of a finished run: on the strip under the curve, in the list, and in words."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from PySide6.QtCore import QObject, Qt, Signal

from gui.chart.chart import Chart
from gui.findings.finished_moments import FinishedMoments
from gui.findings.moment_pane import MomentPane
from gui.moment_acts import MomentActs
from gui.theme import Theme
from gui.widgets.moment_entry import MomentEntry, MomentWords
from logger.errors import LoggerError
from logger.moment_edits import Changes
from logger.moments import clean_label
from logger.recording import Recording

__all__ = ["MomentDesk"]


class MomentDesk(QObject):
    """Turns gestures on `chart`, `pane` and `entry` into acts that can be undone.

    Attributes
    ----------
    refused : emitted with a line that says what could not be done, and why.
    taken : emitted with nothing when words are kept that were refused before.
    pictures_wanted : emitted with the id of the moment whose pictures are to be seen.
    pictures_left : emitted with how many pictures of a moment stay in the file though it was removed.
    """

    refused = Signal(str)
    taken = Signal()
    pictures_wanted = Signal(str)
    pictures_left = Signal(int)

    def __init__(self, theme: Theme, chart: Chart, recording: Recording, parent: QObject) -> None:
        super().__init__(parent)
        self._chart = chart
        self.keeper = FinishedMoments(recording)
        self.acts = MomentActs(self.keeper, self)
        self.pane, self.entry = MomentPane(theme), MomentEntry(theme)
        self._refused: tuple[Changes, str] = Changes(), ""
        chart.strip.is_movable = True
        chart.moment_chosen.connect(self.edit)
        chart.moment_moved.connect(self.move_to)
        self.pane.list.chosen_changed.connect(chart.strip.show_chosen)
        self.pane.list.edit_wanted.connect(self.edit)
        self.pane.list.remove_wanted.connect(self.remove)
        self.pane.list.pictures_wanted.connect(self.pictures_wanted)
        self.pane.add.clicked.connect(lambda _checked=False: self.add())
        self.entry.kept.connect(self._keep_words)
        self.entry.left.connect(lambda: chart.setFocus(Qt.FocusReason.OtherFocusReason))

    def add(self) -> None:
        """Add a note in the middle of what the curve shows, and ask when it was and what happened."""
        if not self._settle():
            return
        frame = self._chart.frame
        middle_s = 0.0 if frame is None else (frame.left_s + frame.right_s) / 2
        self._try(lambda: self._open(self.acts.tag("note", max(middle_s, 0.0)).id))

    def edit(self, moment_id: str) -> None:
        """Ask for other words, kind or time of a moment."""
        if self._settle():
            self.pane.list.choose(moment_id)
            self._open(moment_id)

    def remove(self, moment_id: str) -> None:
        """Remove a moment; its pictures stay, or undoing could not bring them back."""
        if not self._settle():
            return
        count = len(self.acts.pictures_of(moment_id))
        self._try(lambda: self.acts.remove(moment_id))
        if count and self.acts.moment(moment_id) is None:
            self.pictures_left.emit(count)

    def move_to(self, moment_id: str, time_s: float) -> None:
        """Give a moment another time."""
        self._try(lambda: self.acts.edit(moment_id, time_s=time_s))

    def undo(self) -> None:
        """Undo the last change; words being typed are one."""
        if self._settle():
            self._try(self.acts.undo)

    def redo(self) -> None:
        """Do once more what was undone."""
        if self._settle():
            self._try(self.acts.redo)

    def start_again(self, recording: Recording) -> None:
        """Take the moments as they are in the file: what was changed could not be kept."""
        self.keeper.start_again(recording)
        self.acts.stack.clear()

    def make_again(self, changes: Changes) -> None:
        """Make changes once more that could not be kept."""
        self.keeper.make_again(changes)
        self.acts.changed.emit()

    @property
    def refused_words(self) -> tuple[Changes, str]:
        """What was typed, refused, and stands in its field still, with the reason; else nothing."""
        return self._refused if self.entry.is_open else (Changes(), "")

    def _settle(self) -> bool:
        """Keep words being typed. False where they are refused: they stay, and nothing else is done first."""
        self.entry.settle()
        return not self.entry.is_open

    def _open(self, moment_id: str) -> None:
        moment = self.acts.moment(moment_id)
        if moment is not None:
            self.entry.open(moment, self.acts.number_of(moment_id), edits_time=True)

    def _keep_words(self, words: MomentWords) -> None:
        """Keep what was typed; what cannot be kept stays in its field, to be changed, copied or left."""
        known, was_refused = self.acts.moment(words.id), bool(self._refused[0])
        self._refused = Changes(), ""
        try:
            self.acts.bring_back(words.id)  # others may have removed it meanwhile; what is typed counts
            self.acts.take_words(words.id, words.kind, words.label, words.time_s)
        except LoggerError as error:
            now, label = self.acts.moment(words.id), clean_label(words.label)
            # Where only the time cannot be, the words have been kept.
            if known is not None and now is not None and (now.kind, now.label) != (words.kind, label):
                typed = replace(known, kind=words.kind, label=label)
                self._refused = Changes((typed,)), str(error)
                self.entry.open_again(known, self.acts.number_of(words.id), words)
            self.refused.emit(str(error))
        else:
            if was_refused:
                self.taken.emit()

    def _try(self, act: Callable[[], object]) -> None:
        try:
            act()
        except LoggerError as error:
            self.refused.emit(str(error))
