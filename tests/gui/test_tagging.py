"""Moments and steps of a run can be undone, and a step of the voltage is offered, not taken."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest
from PySide6.QtWidgets import QApplication

from gui.moment_acts import MOST_ACTS
from gui.session import Session
from gui.tagging import Tagging
from logger.errors import LoggerError
from logger.moments import MomentError
from tests.gui.fakes import FakeRun, running_session


@pytest.fixture
def run(qapp: QApplication, tmp_path: Path) -> Iterator[tuple[Tagging, Session, FakeRun]]:
    session, fake = running_session(tmp_path / "a.h5")
    fake.clock.time_s = 100.0
    yield Tagging(session), session, fake
    session.close()


Run = tuple[Tagging, Session, FakeRun]


def test_a_tag_is_undone_and_redone(run: Run) -> None:
    tagging, session, _fake = run
    moment = tagging.tag("salt_added", 90.0)
    assert tagging.stack.undoText() == "Tag: Salt added"
    tagging.undo()
    assert session.moments == ()
    tagging.redo()
    assert [(m.id, m.kind) for m in session.moments] == [(moment.id, "salt_added")]


def test_words_and_time_are_undone_one_after_the_other(run: Run) -> None:
    tagging, session, _fake = run
    moment = tagging.tag("note", 90.0)
    tagging.edit(moment.id, label="brown")
    tagging.edit(moment.id, time_s=80.0)
    tagging.edit(moment.id, label="brown")  # no change, so nothing to undo
    assert tagging.stack.count() == 3
    tagging.undo()
    assert [(m.time_s, m.label) for m in session.moments] == [(90.0, "brown")]
    tagging.undo()
    assert [(m.time_s, m.label) for m in session.moments] == [(90.0, "")]
    tagging.redo()
    tagging.redo()
    assert [(m.time_s, m.label) for m in session.moments] == [(80.0, "brown")]


def test_what_is_remembered_for_undoing_has_an_end(run: Run) -> None:
    tagging, session, _fake = run
    for k in range(MOST_ACTS + 5):
        tagging.tag("note", float(k))
    assert tagging.stack.count() == MOST_ACTS
    while tagging.stack.canUndo():
        tagging.undo()
    assert [m.time_s for m in session.moments] == [0.0, 1.0, 2.0, 3.0, 4.0]


def test_a_removal_is_undone(run: Run) -> None:
    tagging, session, _fake = run
    moment = tagging.tag("note", 90.0, "keep me")
    tagging.remove(moment.id)
    assert session.moments == ()
    tagging.undo()
    assert [m.label for m in session.moments] == ["keep me"]
    assert tagging.remove("nobody") is None


def test_what_cannot_be_undone_is_told_in_its_own_words_and_offered_no_more(
    run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    tagging, session, fake = run
    tagging.tag("note", 80.0)
    tagging.tag("salt_added", 90.0)

    def refuse(*_: object, **__: object) -> None:
        raise LoggerError("the run has ended")

    with monkeypatch.context() as patched:
        patched.setattr(fake, "edit_moment", refuse)
        with pytest.raises(LoggerError, match=r"^the run has ended$"):
            tagging.undo()
    assert not tagging.stack.canRedo(), "nothing was undone"
    assert tagging.stack.undoText() == "Tag: Note"
    tagging.undo()
    tagging.redo()
    assert [m.kind for m in session.moments] == ["note", "salt_added"]


def test_what_the_run_refuses_is_not_undone(run: Run) -> None:
    tagging, _session, _fake = run
    moment = tagging.tag("note", 90.0)
    with pytest.raises(MomentError):
        tagging.edit(moment.id, kind="lunch")
    assert tagging.stack.count() == 1


def test_a_step_tags_its_moment_and_undoing_takes_both_back(run: Run) -> None:
    tagging, session, _fake = run
    first = tagging.sheet
    tagging.do_step(95.0)
    assert [(m.kind, m.time_s) for m in session.moments] == [("dry_cell", 95.0)]
    assert tagging.sheet.position == 1
    tagging.follow()
    assert tagging.sheet.position == 1  # its own moment does not count twice
    tagging.undo()
    assert session.moments == ()
    assert tagging.sheet == first
    tagging.redo()
    assert tagging.sheet.position == 1


def test_steps_are_skipped_repeated_changed_and_undone(run: Run) -> None:
    tagging, _session, _fake = run
    first = tagging.sheet
    tagging.skip_step()
    assert tagging.sheet.lines[0].outcome == "skipped"
    tagging.do_step(96.0)
    tagging.repeat_step()
    assert tagging.sheet.next_step == tagging.sheet.lines[1].step
    tagging.plan_steps(())
    assert tagging.sheet.next_step is None
    assert tagging.do_step(97.0) is None
    for _ in range(4):
        tagging.undo()
    assert tagging.sheet == first


def test_a_moment_of_the_due_kind_ticks_its_step(run: Run) -> None:
    tagging, _session, _fake = run
    tagging.tag("dry_cell", 10.0)
    tagging.follow()
    assert tagging.sheet.position == 1


def test_a_step_is_offered_to_the_moment_that_was_tagged_nearest_to_it(run: Run) -> None:
    """Electrodes that went in late: the step was offered to the swap before them, and the bar showed that."""
    tagging, _session, fake = run
    times_s = np.arange(60.0, 100.0, 1 / 3)
    fake.push(times_s, np.where((times_s >= 70.0) & (times_s < 90.0), 27.0, 2.2))
    out, _swap, back = (
        tagging.tag(kind, time_s)
        for kind, time_s in (("electrodes_out", 74.0), ("solution_swapped", 81.0), ("electrodes_in", 83.0))
    )
    offers = [tagging.offer(100.0) for _ in range(3)]
    assert [(one.moment.id, round(one.step_s)) for one in offers if one] == [(back.id, 90), (out.id, 70)]


def test_a_step_of_the_voltage_is_offered_once_and_only_for_what_a_person_tagged(run: Run) -> None:
    tagging, session, fake = run
    times_s = np.arange(60.0, 100.0, 1 / 3)
    fake.push(times_s, np.where(times_s < 90.0, 2.2, 27.0))
    assert tagging.offer(100.0) is None
    fake.add_moment("electrodes_out", "electrodes lifted out (simulated)", 92.0)
    tagging.tag("note", 92.0)
    assert tagging.offer(100.0) is None
    moment = tagging.tag("electrodes_out", 92.0)
    offer = tagging.offer(100.0)
    assert offer is not None
    assert (offer.moment.id, offer.step_s) == (moment.id, pytest.approx(90.0))
    assert tagging.offer(100.0) is None
    assert [m.time_s for m in session.moments if m.id == moment.id] == [92.0]  # nothing was moved
