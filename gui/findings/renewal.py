"""Keeping what a person changed in a recording and analysing it again, off the window's thread. No Qt."""

from __future__ import annotations

import logging
from collections.abc import Callable, Mapping, Sequence
from functools import partial
from typing import TYPE_CHECKING, Any

from gui.findings.finished_moments import FinishedMoments
from gui.findings.unkept import UnkeptChanges, changes_in_words
from gui.job import Job
from gui.jobs import KEEPING_LIMIT_S
from gui.long_job import LongJob
from gui.numbers import plain
from gui.pages.page import PageHost
from gui.words import translate
from logger.analysis.chosen_windows import ChosenWindow
from logger.errors import RecordingBusy
from logger.late_changes import late_changes
from logger.moment_edits import Changes, changes_beyond, keep_changes
from logger.progress import Cancelled, Progress
from logger.reader import read_recording
from logger.recording import Recording

if TYPE_CHECKING:
    from logger.reanalysis import Reanalysis

__all__ = ["Renewal"]

log = logging.getLogger(__name__)

PATIENCE_S = 5.0
"""How long what is to be kept at the end waits for the findings of the change before it."""

LONGEST_S = 2 * KEEPING_LIMIT_S
"""Longer than anybody waits for changes to be kept, and notes then that they may be missing."""

Tell = Callable[["Reanalysis | None", Exception | None, Changes], None]


class Renewal:
    """One job at a time; what is asked for meanwhile follows in one more, on what the last one found.

    Parameters
    ----------
    moments : gives the changes that are still to be kept.
    present : returns the recording as the page shows it.
    tell : is told what each job found, or why it found nothing, and which changes could not be kept then; it
        updates what `present` returns.
    """

    def __init__(
        self, host: PageHost, moments: FinishedMoments, present: Callable[[], Recording], tell: Tell
    ) -> None:
        self._host, self._moments, self._present, self._tell = host, moments, present, tell
        self._wanted: Mapping[str, ChosenWindow] | None = None
        self._chosen: Mapping[str, ChosenWindow] = {}
        self._is_busy = self._will_go_on = False
        self._progress = Progress()
        """That of the last job that keeps changes and then finds again; only the finding can be ended."""
        self._job: Job[Any] | None = None
        self._in_hand: tuple[Changes, ...] = ()
        """What the last job keeps, or waits for, one part after the other; empty once that has been told."""
        self._unkept = UnkeptChanges(host.settings)
        self._given_up = Changes()
        """What the note tells of and is on the page no more."""
        self._last_keeping: Job[Any] | None = None
        self._waiting: list[Callable[[], None]] = []

    @property
    def is_busy(self) -> bool:
        """Tell whether something is being kept or found, or will be at once."""
        return self._is_busy or self._will_go_on

    def ask(self, chosen: Mapping[str, ChosenWindow]) -> None:
        """Keep what has changed and find again with these stretches chosen by hand."""
        self._wanted = self._chosen = chosen
        if not self._is_busy:
            self._begin()

    def afterwards(self, act: Callable[[], None]) -> None:
        """Call `act` once what is kept and found now is on the page; not where the window goes first."""
        self._waiting.append(act)

    def finish(self) -> Job[None]:
        """Keep what is still to be kept, without new findings: the window goes. Returns what to wait for.

        Those of the change before are given up, too: nobody will see them, and opening finds them anew.

        Where it does not go after all (the end of the session was taken back), the findings follow, and what
        could not be kept is tried once more.
        """
        before, begun, recording = self._job, sum(self._in_hand, Changes()), self._present()
        changes = self._moments.take_unsaved()
        in_hand = self._in_hand = (*self._in_hand, changes)
        self._progress.cancel()

        def keep() -> None:
            if before is not None:
                before.wait(PATIENCE_S)  # what it keeps was changed earlier
            try:
                if changes:
                    _keep_after(before, recording, changes)
            finally:
                if begun and before is not None:
                    before.wait(LONGEST_S)  # nothing else would tell whether that is in the file

        def tell(_done: None, error: Exception | None) -> None:
            self._forget_in_hand(in_hand)
            was_cut_short = before is not None and isinstance(before.error, Cancelled)
            failed = before.error if before is not None and begun and not was_cut_short else None
            # Of what failed before nobody has heard yet.
            lost = (begun if failed else Changes()) + (changes if error else Changes())
            if lost:
                self._note((lost,), str(error or failed))
                self._moments.put_back(lost)
            elif changes:
                self._forget_note()  # what could not be kept before is among them
            if changes or lost or was_cut_short:
                self._go_on_if_window_stays()

        self._job = ending = Job(keep, tell, "keep changes")
        if changes:
            self._last_keeping = ending
        return ending

    def note_late(self) -> None:
        """Have the next start tell that what `finish` keeps may be missing: nobody waits for it any more."""
        why = translate("Findings", "That took more than {seconds} s; perhaps it was done all the same.")
        self._note(self._in_hand, why.format(seconds=plain(KEEPING_LIMIT_S, 0)))

    def _note(self, parts: Sequence[Changes], why: str) -> None:
        """Note what may be missing of `parts`, each of which is in the file as a whole or not at all."""
        if not any(parts):
            return
        recording = self._present()
        first, *later = parts  # of which one may have undone what is in the file by now
        together = (self._given_up + first, *later)
        unkept = sum((changes_beyond(recording, part) for part in together), Changes())
        if not unkept:  # all of it was undone
            self._forget_note()
            return
        log.error("changes of %s could not be kept: %s", recording.path, why)
        path, words = recording.path.absolute(), changes_in_words(unkept)
        self._unkept.note(path, words, why, recording.uuid, late_changes(unkept))

    def _forget_note(self) -> None:
        self._unkept.forget()
        self._given_up = Changes()

    def _forget_in_hand(self, parts: tuple[Changes, ...]) -> None:
        if self._in_hand is parts:
            self._in_hand = ()

    def _go_on_if_window_stays(self) -> None:
        """Nobody asks after a job once the window goes: so this comes to nothing then."""
        if self._will_go_on:
            return

        def go_on(_done: None, _error: Exception | None) -> None:
            self._will_go_on = False
            self.ask(self._chosen)

        self._will_go_on = True
        self._host.do(Job(lambda: None, go_on, "go on"))

    def _go_on(self, *, is_cut_short: bool) -> None:
        """Begin what was asked for meanwhile, or let go what waits."""
        if self._wanted is not None:
            self._begin()
        elif is_cut_short:  # on a slow disk `finish` did not see that
            self._go_on_if_window_stays()
        else:
            waiting, self._waiting = self._waiting, []
            for act in waiting:
                act()

    def _begin(self) -> None:
        chosen, self._wanted = self._wanted or {}, None
        recording = self._present()
        changes = self._moments.take_unsaved()
        in_hand = self._in_hand = (changes,)
        kept_last, self._last_keeping = self._last_keeping, None
        self._is_busy = True

        def tell(found: Reanalysis | None, error: Exception | None) -> None:
            self._is_busy = False
            self._forget_in_hand(in_hand)
            is_kept = bool(changes) and (found is not None or isinstance(error, Cancelled))
            if found is None and self._last_keeping is None:
                self._last_keeping = self._job if is_kept else kept_last  # the page does not hold it yet
            lost = Changes() if is_kept else changes
            if lost:  # what was changed meanwhile stands on it
                lost += self._moments.take_unsaved()
            if is_kept:
                self._forget_note()
            elif self._unkept.is_noted:  # and stays so: the window may go before anybody reads the bar
                self._given_up += lost
            if found is not None:
                self._moments.follow(found.recording)
            if found is not None or not is_kept:
                self._tell(found, error, lost)
            self._go_on(is_cut_short=is_kept and found is None)

        def renew(progress: Progress | None = None) -> Reanalysis:
            from logger.reanalysis import analyse_again  # late: the window is to be there soon

            latest = recording if kept_last is None else _as_kept(recording, kept_last)
            return analyse_again(latest, chosen, changes, progress)

        if changes:  # kept first, and then the findings have to follow
            self._progress = Progress()
            self._job = Job(partial(renew, self._progress), tell, "analyse again")
            self._host.do(self._job)
            return
        words = translate("Findings", "Analysing {name}").format(name=recording.path.name)
        self._host.do(LongJob(self._host, words, renew, tell, "analyse again"))


def _keep_after(before: Job[Any] | None, recording: Recording, changes: Changes) -> None:
    """Keep `changes`; where the file is busy, once more after the job `before`. Raises as `keep_changes`."""
    try:
        keep_changes(recording, changes)
    except RecordingBusy:
        if before is None:
            raise
        before.wait(KEEPING_LIMIT_S)  # it holds the file: that of a long run is copied on a slow disk
        keep_changes(recording, changes)


def _as_kept(recording: Recording, keeping: Job[Any]) -> Recording:
    """Return the recording as it is in its file once `keeping` is over.

    Raises
    ------
    RecordingBusy : it is another one by now.
    RecordingError : it cannot be read.
    """
    keeping.wait(KEEPING_LIMIT_S)
    found = read_recording(recording.path)
    if found.uuid != recording.uuid:
        raise RecordingBusy(f"{recording.path} has been replaced by another recording; open it again")
    return found
