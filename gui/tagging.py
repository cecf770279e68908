"""What hands do to a run: moments and steps of the run sheet, all of which can be undone."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QObject

from gui.moment_acts import MomentActs
from gui.session import Session
from gui.sheet_texts import step_name
from gui.words import translate
from logger.bench_tables import Step
from logger.moments import SIMULATED, Moment
from logger.nearby_step import REACH_S, STEP_KINDS, nearest_step_s
from logger.run_sheet import RunSheet, Wait, step_label

__all__ = ["StepOffer", "Tagging"]

LEAST_MOVE_S = 0.3
"""A moment this near to the step already lies there."""


class StepOffer:
    """A moment, and the step of the voltage that it may belong to (run seconds)."""

    def __init__(self, moment: Moment, step_s: float) -> None:
        self.moment, self.step_s = moment, step_s


class Tagging(MomentActs):
    """Moments and run sheet of one session, with one stack of what can be undone."""

    def __init__(self, session: Session, parent: QObject | None = None) -> None:
        super().__init__(session, parent)
        self._session = session
        self.sheet = RunSheet.of(session.plan.bench.steps)
        self._offered: set[tuple[str, float]] = set()

    def offer(self, now_s: float) -> StepOffer | None:
        """Return a step near a recent moment that a person tagged, once for each; None: nothing to offer."""
        for moment in reversed(self._session.moments):
            if now_s - moment.time_s > 2 * REACH_S:
                break
            if moment.kind not in STEP_KINDS or moment.label.endswith(SIMULATED):
                continue
            found = self._session.overview.samples_between(moment.time_s - REACH_S, moment.time_s + REACH_S)
            step_s = None if found is None else nearest_step_s(*found, moment.time_s)
            if step_s is None or abs(step_s - moment.time_s) < LEAST_MOVE_S:
                continue
            if self._is_nearer_to_another(step_s, moment):
                continue
            if (moment.id, step_s) not in self._offered:
                self._offered.add((moment.id, step_s))
                return StepOffer(moment, step_s)
        return None

    def _is_nearer_to_another(self, step_s: float, moment: Moment) -> bool:
        """Tell whether another act was tagged nearer to a step: the step is that one's then."""
        distance_s = abs(step_s - moment.time_s)
        others = (one for one in self._session.moments if one.kind in STEP_KINDS and one.id != moment.id)
        return any(abs(step_s - one.time_s) < distance_s for one in others)

    # ------------------------------------------------------------ run sheet

    def do_step(self, time_s: float) -> Moment | None:
        """Do the next step of the sheet at run time `time_s`, and tag it; None when all are done.

        Raises
        ------
        LoggerError : the run has not begun.
        """
        step, before = self.sheet.next_step, self.sheet
        if step is None:
            return None
        moment = self._session.add_moment(step.kind, step_label(step), time_s)
        self.newest_id = moment.id
        after = before.done(moment.time_s, moment.id)
        self.sheet = after

        def redo() -> None:
            self._remove(moment.id, False)
            self.sheet = after

        def undo() -> None:
            self._remove(moment.id, True)
            self.sheet = before

        self._push(translate("Tagging", "Step: {words}").format(words=step_name(step)), redo, undo)
        return moment

    def skip_step(self) -> None:
        """Leave the next step out."""
        self._change_sheet(translate("Tagging", "Skip a step"), self.sheet.skipped())

    def repeat_step(self) -> None:
        """Put the last step that was done before the next one, to be done once more."""
        self._change_sheet(translate("Tagging", "Repeat a step"), self.sheet.repeated())

    def plan_steps(self, steps: Sequence[Step]) -> None:
        """Put other steps in the place of those to come."""
        self._change_sheet(translate("Tagging", "Change the steps"), self.sheet.with_steps_to_do(steps))

    def follow(self) -> None:
        """Tick the steps off that were tagged in another way."""
        followed = self.sheet.following(self._session.moments)
        if followed != self.sheet:
            self.sheet = followed
            self.changed.emit()

    def wait(self) -> Wait:
        """Return what is awaited before the next step."""
        view, settling = self._session.view, self._session.plan.bench.settling
        if view is None:
            return self.sheet.wait(self._session.now_s, "cannot_tell", None, settling.window_s)
        return self.sheet.wait(self._session.now_s, view.verdict, view.seconds_needed, settling.window_s)

    def _change_sheet(self, words: str, after: RunSheet) -> None:
        before = self.sheet
        if after == before:
            return

        def set_sheet(sheet: RunSheet) -> None:
            self.sheet = sheet

        set_sheet(after)
        self._push(words, lambda: set_sheet(after), lambda: set_sheet(before))
