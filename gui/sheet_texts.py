"""The words of the run sheet: what comes next, and what is awaited before it."""

from __future__ import annotations

import math

from gui.kind_words import kind_words
from gui.live_texts import rough_time
from gui.numbers import clock_text
from gui.words import translate
from logger.bench_tables import Step
from logger.run_sheet import RunSheet, Wait

__all__ = ["announcement", "next_hint", "next_words", "step_name"]


def step_name(step: Step) -> str:
    """Return what to do in a step: its own words, or the name of its kind."""
    return step.label or kind_words(step.kind)


def next_words(sheet: RunSheet) -> str:
    """Return what the large button says."""
    step = sheet.next_step
    if step is not None:
        return step_name(step)
    if sheet.lines:
        return translate("Run sheet", "All steps are done")
    return translate("Run sheet", "Plan the steps of this run")


def next_hint(sheet: RunSheet, wait: Wait) -> str:
    """Return the smaller line on the button: whether to wait, and for how long still."""
    if sheet.next_step is None:
        if not sheet.lines:
            return translate("Run sheet", "the space bar then does one after the other")
        return _awaited_at_last(wait)
    return _awaited(wait, translate("Run sheet", "when you like"))


def _awaited_at_last(wait: Wait) -> str:
    """Say what is awaited when no step is left to go on to: only the end of the run is."""
    if wait.until == "will":
        return translate("Run sheet", "stop and save when you like")
    if wait.is_over and wait.until == "time":
        return translate("Run sheet", "the time is up: the run can end")
    if wait.is_over:
        return translate("Run sheet", "the voltage has settled: the run can end")
    if wait.until == "time":
        time = clock_text(math.ceil(wait.left_s or 0.0))
        return translate("Run sheet", "the run can end in {time}").format(time=time)
    return _awaited(wait, "")


def _awaited(wait: Wait, at_will: str) -> str:
    if wait.until == "will":
        return at_will
    if wait.until == "time":
        if wait.is_over:
            return translate("Run sheet", "the time is up: go on")
        return translate("Run sheet", "in {time}").format(time=clock_text(math.ceil(wait.left_s or 0.0)))
    if wait.is_over:
        return translate("Run sheet", "the voltage has settled: go on")
    if wait.left_s is None:
        return translate("Run sheet", "wait until the voltage has settled")
    return translate("Run sheet", "wait until settled, about {time} more").format(
        time=rough_time(wait.left_s)
    )


def announcement(wait: Wait, step: Step | None) -> str:
    """Return what is said once when a wait is over."""
    if step is None:
        return (
            translate("Run sheet", "The voltage has settled: the run can end.")
            if wait.until == "settled"
            else translate("Run sheet", "The time is up: the run can end.")
        )
    text = (
        translate("Run sheet", "The voltage has settled. Next: {step} (space bar)")
        if wait.until == "settled"
        else translate("Run sheet", "The time is up. Next: {step} (space bar)")
    )
    return text.format(step=step_name(step))
