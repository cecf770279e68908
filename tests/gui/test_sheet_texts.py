"""The words of the run sheet: what comes next, and what is awaited before it."""

from __future__ import annotations

import pytest

from gui.sheet_texts import next_hint, next_words
from logger.bench_tables import Step
from logger.run_sheet import RunSheet, Wait

AT_WORK = RunSheet.of([Step("electrodes_in", "Back in", until_settled=True)])
DONE = AT_WORK.done(60.0)


@pytest.mark.parametrize(
    ("wait", "hint"),
    [
        (Wait("will", None, True), "stop and save when you like"),
        (Wait("settled", None, True), "the voltage has settled: the run can end"),
        (Wait("settled", None, False), "wait until the voltage has settled"),
        (Wait("time", 0.0, True), "the time is up: the run can end"),
        (Wait("time", 89.5, False), "the run can end in 1:30"),
    ],
)
def test_after_the_last_step_the_run_can_end_and_nobody_is_sent_on(wait: Wait, hint: str) -> None:
    assert next_words(DONE) == "All steps are done"
    assert next_hint(DONE, wait) == hint


def test_before_a_step_it_is_said_when_to_go_on() -> None:
    assert next_hint(AT_WORK, Wait("settled", None, True)) == "the voltage has settled: go on"
    assert next_hint(AT_WORK, Wait("time", 89.5, False)) == "in 1:30"
