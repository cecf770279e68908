"""The run sheet by hand cases: steps done, skipped, repeated, followed, and waits that end."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logger.bench_tables import Step
from logger.duration import DurationError
from logger.moments import new_moment
from logger.run_sheet import RunSheet, Wait, hold_text, parse_hold, step_label, step_words

DRY = Step("dry_cell", "Connect everything", hold_s=45.0)
BUFFER = Step("buffer_in", until_settled=True)
SALT = Step("salt_added", "Add the salt drop by drop")
SHEET = RunSheet.of((DRY, BUFFER, SALT))


def outcomes(sheet: RunSheet) -> list[str]:
    return [line.outcome for line in sheet.lines]


def test_steps_are_done_in_their_order() -> None:
    assert SHEET.next_step == DRY
    sheet = SHEET.done(3.0, "a")
    assert (sheet.position, sheet.next_step, sheet.last_done) == (1, BUFFER, sheet.lines[0])
    assert (sheet.lines[0].at_s, sheet.lines[0].moment_id) == (3.0, "a")
    assert SHEET.position == 0  # the earlier sheet is untouched: that is what undoing returns to
    sheet = sheet.skipped().done(9.0)
    assert outcomes(sheet) == ["done", "skipped", "done"]
    assert sheet.next_step is None
    assert sheet.done(10.0) == sheet


def test_a_step_is_done_once_more() -> None:
    sheet = SHEET.done(1.0).done(2.0).repeated()
    assert [line.step for line in sheet.lines] == [DRY, BUFFER, BUFFER, SALT]
    assert sheet.next_step == BUFFER
    assert SHEET.repeated() == SHEET
    skipped = SHEET.done(1.0).skipped().repeated()
    assert skipped.next_step == DRY  # what was skipped was not done, so it is not done again


def test_steps_to_come_can_be_changed_while_the_run_goes_on() -> None:
    sheet = SHEET.done(1.0).with_steps_to_do((SALT,))
    assert [line.step for line in sheet.lines] == [DRY, SALT]
    assert outcomes(sheet) == ["done", "to_do"]


def test_a_moment_tagged_otherwise_ticks_its_step() -> None:
    moments = [new_moment(0.0, "dry_cell"), new_moment(45.0, "buffer_in"), new_moment(50.0, "note")]
    sheet = SHEET.following(moments)
    assert outcomes(sheet) == ["done", "done", "to_do"]
    assert sheet.lines[1].at_s == 45.0
    assert sheet.following(moments) == sheet  # each moment counts once


def test_a_moment_out_of_turn_ticks_nothing() -> None:
    assert SHEET.following([new_moment(5.0, "salt_added")]) == SHEET
    later = SHEET.done(100.0)
    assert later.following([new_moment(30.0, "buffer_in")]) == later


def test_a_hold_counts_down_and_ends() -> None:
    sheet = SHEET.done(10.0)
    assert sheet.wait(30.0, "cannot_tell", None, 60.0) == Wait("time", 25.0, False)
    assert sheet.wait(55.0, "cannot_tell", None, 60.0) == Wait("time", 0.0, True)


def test_until_settled_ends_with_the_verdict_of_this_step_not_with_that_of_the_one_before() -> None:
    sheet = SHEET.done(10.0).done(100.0)
    assert sheet.wait(105.0, "settled", 0.0, 60.0) == Wait("settled", None, False)
    assert sheet.wait(170.0, "not_yet", 40.0, 60.0) == Wait("settled", 40.0, False)
    assert sheet.wait(170.0, "not_yet", float("inf"), 60.0) == Wait("settled", None, False)
    assert sheet.wait(220.0, "settled", 0.0, 60.0) == Wait("settled", 0.0, True)


def test_without_hold_and_after_a_skipped_step_one_goes_on_at_will() -> None:
    for sheet in (SHEET, SHEET.skipped(), RunSheet(), SHEET.done(1).done(2).done(3)):
        assert sheet.wait(9.0, "settled", 0.0, 60.0) == Wait("will", None, False)


def test_the_words_of_a_step() -> None:
    assert step_words(SALT) == "Add the salt drop by drop"
    assert step_words(BUFFER) == "Buffer in"
    assert step_label(SALT) == ""
    assert step_label(Step("resistor_changed", "4.7k")) == "4.7k"


@pytest.mark.parametrize(
    ("text", "step"),
    [("", SALT), ("45s", DRY), ("until settled", BUFFER), ("15m", Step("note", hold_s=900.0)),
     ("2h", Step("note", hold_s=7200.0)), ("1.5s", Step("note", hold_s=1.5))],
)  # fmt: skip
def test_waits_are_written_as_in_a_bench_file(text: str, step: Step) -> None:
    assert hold_text(step) == text
    assert parse_hold(text) == (step.hold_s, step.until_settled)


def test_a_wait_that_is_none_is_refused_in_words() -> None:
    with pytest.raises(DurationError, match="until settled"):
        parse_hold("a while")


@given(st.lists(st.sampled_from(["do", "skip", "repeat", "undo"]), max_size=30))
def test_whatever_is_done_what_is_over_comes_first_and_undoing_leads_back(acts: list[str]) -> None:
    past, sheet = [SHEET], SHEET
    for number, act in enumerate(acts):
        if act == "undo":
            sheet = past.pop() if len(past) > 1 else past[0]
            continue
        past.append(sheet)
        sheet = {"do": sheet.done(float(number)), "skip": sheet.skipped(), "repeat": sheet.repeated()}[act]
        over = [line.outcome != "to_do" for line in sheet.lines]
        assert over == sorted(over, reverse=True)
    while len(past) > 1:
        sheet = past.pop()
    assert past[0] == SHEET
