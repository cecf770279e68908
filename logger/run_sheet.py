"""The run sheet: the planned steps, which are done, and when it is time for the next one.

Values only: every change gives a new sheet, so that whoever shows one can keep the earlier ones for undoing.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Literal

from logger.bench import UNTIL_SETTLED
from logger.bench_tables import Step
from logger.duration import DurationError, parse_duration_s
from logger.moments import KINDS, Moment
from logger.settling_watch import VerdictWord

__all__ = ["Outcome", "RunSheet", "SheetLine", "Wait", "hold_text", "parse_hold", "step_label", "step_words"]

Outcome = Literal["to_do", "done", "skipped"]

LABELLED = frozenset({"resistor_changed", "temperature", "photo", "note"})
"""Kinds whose moments say little without a label; for the others the step's words are an instruction."""

TOGETHER_S = 1.0
"""A moment this little older than the last step may still belong to the next one."""


@dataclass(frozen=True, slots=True)
class SheetLine:
    """One step and what became of it; `at_s` is run time, `moment_id` the moment that it tagged."""

    step: Step
    outcome: Outcome = "to_do"
    at_s: float | None = None
    moment_id: str | None = None


@dataclass(frozen=True, slots=True)
class Wait:
    """What is awaited before the next step.

    Attributes
    ----------
    until : ``settled``, ``time``, or ``will`` (go on when you like).
    left_s : about how long still, in run seconds; None: no telling.
    is_over : it is time for the next step.
    """

    until: Literal["settled", "time", "will"]
    left_s: float | None
    is_over: bool


@dataclass(frozen=True, slots=True)
class RunSheet:
    """Steps in their order: those done or skipped first, then those to do."""

    lines: tuple[SheetLine, ...] = ()

    @classmethod
    def of(cls, steps: Iterable[Step]) -> RunSheet:
        """Return a sheet of which nothing is done yet."""
        return cls(tuple(SheetLine(step) for step in steps))

    @property
    def position(self) -> int:
        """How many steps are done or skipped."""
        return next((i for i, line in enumerate(self.lines) if line.outcome == "to_do"), len(self.lines))

    @property
    def next_step(self) -> Step | None:
        """The step that comes next; None when all are done."""
        return self.lines[self.position].step if self.position < len(self.lines) else None

    @property
    def last_done(self) -> SheetLine | None:
        """The last step that was done (not skipped), or None."""
        done = [line for line in self.lines[: self.position] if line.outcome == "done"]
        return done[-1] if done else None

    def done(self, at_s: float, moment_id: str | None = None) -> RunSheet:
        """Return the sheet with the next step done at run time `at_s`."""
        return self._settled("done", at_s, moment_id)

    def skipped(self) -> RunSheet:
        """Return the sheet with the next step skipped."""
        return self._settled("skipped", None, None)

    def repeated(self) -> RunSheet:
        """Return the sheet with the last step that was done to be done once more, next."""
        last = self.last_done
        if last is None:
            return self
        here = self.position
        return RunSheet((*self.lines[:here], SheetLine(last.step), *self.lines[here:]))

    def with_steps_to_do(self, steps: Iterable[Step]) -> RunSheet:
        """Return the sheet with other steps to come; those done or skipped stay."""
        return RunSheet((*self.lines[: self.position], *(SheetLine(step) for step in steps)))

    def following(self, moments: Iterable[Moment]) -> RunSheet:
        """Return the sheet with steps ticked off whose moments were tagged in another way.

        Only the next step is ever ticked, and only by a moment of its kind that no other step has and that
        is not older than the last step: a moment out of turn leaves the sheet to the person.
        """
        sheet = self
        for moment in sorted(moments, key=lambda one: one.time_s):
            step, last = sheet.next_step, sheet.last_done
            if step is None:
                break
            used = {line.moment_id for line in sheet.lines}
            after_s = -math.inf if last is None or last.at_s is None else last.at_s - TOGETHER_S
            if moment.kind == step.kind and moment.id not in used and moment.time_s >= after_s:
                sheet = sheet.done(moment.time_s, moment.id)
        return sheet

    def wait(self, now_s: float, verdict: VerdictWord, seconds_needed: float | None, window_s: float) -> Wait:
        """Return what is awaited before the next step.

        Parameters
        ----------
        now_s : present run time.
        verdict, seconds_needed : of the settling rule, at present.
        window_s : its window. The rule needs one window to judge and one to hold, so a verdict from sooner
            after the step than one window belongs to the time before it.
        """
        line = self.lines[self.position - 1] if self.position else None
        if line is None or line.outcome != "done" or line.at_s is None:
            return Wait("will", None, False)
        waited_s = now_s - line.at_s
        if line.step.until_settled:
            is_fresh = waited_s >= window_s
            if is_fresh and verdict == "settled":
                return Wait("settled", 0.0, True)
            known = is_fresh and seconds_needed is not None and math.isfinite(seconds_needed)
            return Wait("settled", seconds_needed if known else None, False)
        if line.step.hold_s is not None:
            left_s = max(0.0, line.step.hold_s - waited_s)
            return Wait("time", left_s, left_s == 0.0)
        return Wait("will", None, False)

    def _settled(self, outcome: Outcome, at_s: float | None, moment_id: str | None) -> RunSheet:
        here = self.position
        if here == len(self.lines):
            return self
        line = replace(self.lines[here], outcome=outcome, at_s=at_s, moment_id=moment_id)
        return RunSheet((*self.lines[:here], line, *self.lines[here + 1 :]))


def step_label(step: Step) -> str:
    """Return the label for the moment of a step: its words where the kind alone says too little."""
    return step.label if step.kind in LABELLED else ""


def step_words(step: Step) -> str:
    """Return what to do in this step, in words."""
    return step.label or KINDS[step.kind]


def hold_text(step: Step) -> str:
    """Return the wait after a step as it is written in a bench file; empty: go on at will."""
    if step.until_settled:
        return UNTIL_SETTLED
    if step.hold_s is None:
        return ""
    whole = round(step.hold_s)
    if whole != step.hold_s:
        return f"{step.hold_s:g}s"
    for unit, seconds in (("h", 3600), ("m", 60)):
        if whole % seconds == 0:
            return f"{whole // seconds}{unit}"
    return f"{whole}s"


def parse_hold(text: str) -> tuple[float | None, bool]:
    """Return hold in seconds, and whether to wait until settled, from a text as in a bench file.

    Raises
    ------
    DurationError : neither empty, nor a duration, nor the words for settled; the message says how to write.
    """
    words = " ".join(text.split()).lower()
    if not words:
        return None, False
    if words == UNTIL_SETTLED:
        return None, True
    try:
        return parse_duration_s(words), False
    except DurationError:
        raise DurationError(
            f'{text!r} is no time to wait; write for example 90s, 15m or "{UNTIL_SETTLED}"'
        ) from None
