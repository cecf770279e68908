"""A person corrects the moments of a finished run: the findings follow, the file keeps it, all is undone."""

from __future__ import annotations

import os
from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from gui.findings.finished_moments import FinishedMoments
from gui.moment_acts import MomentActs
from gui.pages.findings_page import FindingsPage
from logger.errors import LoggerError
from logger.moment_edits import edit
from logger.moments import Moment, MomentError, new_moment
from logger.reader import read_recording
from logger.reanalysis import analyse_again
from tests.gui.controls import assert_nothing_clips, assert_reachable_and_named
from tests.gui.finished_run import Show, changed, in_file, label_of, of_kind, phase_end, typed
from tests.gui.test_findings_page import show, whole  # noqa: F401 - fixtures


def drag_flag(page: FindingsPage, moment: Moment, by_px: float) -> None:
    frame = page.chart.frame
    assert frame is not None
    x = float(frame.x(moment.time_s))
    begin = page.chart.places.strip.topLeft() + QPoint(round(x), 19)
    end = begin + QPoint(round(by_px), 0)
    QTest.mousePress(page.chart, Qt.MouseButton.LeftButton, pos=begin)
    for share in (0.3, 0.7, 1.0):
        QTest.mouseMove(page.chart, begin + (end - begin) * share)
    QTest.mouseRelease(page.chart, Qt.MouseButton.LeftButton, pos=end)
    QApplication.processEvents()


def test_a_flag_is_dragged_and_the_findings_follow_and_it_is_undone(show: Show) -> None:  # noqa: F811
    host, page = show()
    host.frame()
    salt = of_kind(page, "salt_added")
    assert phase_end(page, "before") == pytest.approx(300.0, abs=1)
    drag_flag(page, salt, -25)
    moved_s = of_kind(page, "salt_added").time_s
    assert moved_s < 280
    host.until(lambda: phase_end(page, "before") < 280, "the findings that follow")
    host.until_idle()
    assert phase_end(page, "before") == pytest.approx(moved_s, abs=1)
    assert in_file(page)["salt_added"] == (pytest.approx(moved_s), "2 drops")
    assert page.acts.stack.undoText() == "Move a moment"
    page.undo()
    host.until(lambda: phase_end(page, "before") > 299, "the findings before")
    host.until_idle()
    assert in_file(page)["salt_added"][0] == 300.0
    history = read_recording(page.finished.recording.path).moments_history
    assert [m.time_s for m, _ in history] == [300.0, pytest.approx(moved_s)]


def test_words_time_and_kind_are_typed_and_a_moment_is_added_and_removed(show: Show) -> None:  # noqa: F811
    host, page = show()
    page.views.tabs["moments"].click()
    host.frame()
    assert_reachable_and_named(page)
    page.moments.pane.add.click()
    entry = page.moments.entry
    assert entry.isVisible()
    host.frame()
    assert_nothing_clips(entry)
    entry._time.setText("20:30")
    QTest.keyClicks(entry._label, "stirrer hums")
    QTest.keyClick(entry._label, Qt.Key.Key_Return)
    assert not entry.isVisible()
    host.until_idle()
    assert in_file(page)["note"] == (1230.0, "stirrer hums")
    page.moments.pane.list.choose(of_kind(page, "note").id)
    QTest.keyClick(page.moments.pane.list._list, Qt.Key.Key_Delete)
    host.until_idle()
    assert "note" not in in_file(page)
    page.undo()
    host.until_idle()
    assert in_file(page)["note"] == (1230.0, "stirrer hums")
    page.redo()
    host.until_idle()
    assert "note" not in in_file(page)


def test_quick_changes_are_kept_in_their_order(show: Show) -> None:  # noqa: F811
    host, page = show()
    salt = of_kind(page, "salt_added")
    for number in range(6):
        page.moments.move_to(salt.id, 290.0 - number)
        if number % 2:
            host.frame()
    host.until_idle()
    assert in_file(page)["salt_added"][0] == 285.0
    assert page.finished.recording.moments == page.moments.keeper.moments
    assert phase_end(page, "before") == pytest.approx(285.0, abs=1)


@pytest.mark.parametrize("by_x", [-3000, 3000])
def test_a_flag_dragged_beyond_either_end_stays_within_the_recording(show: Show, by_x: int) -> None:  # noqa: F811
    host, page = show()
    host.until_idle()
    page.resize(1200, 700)
    page.chart.refresh(page.finished.recording.duration_s)
    salt, chart = of_kind(page, "salt_added"), page.chart
    assert chart.frame is not None
    begin = chart.places.strip.topLeft() + QPoint(round(chart.frame.x(salt.time_s)), 19)
    QTest.mousePress(chart, Qt.MouseButton.LeftButton, pos=begin)
    for share in (0.3, 1.0):
        QTest.mouseMove(chart, begin + QPoint(round(share * by_x), 0))
    QTest.mouseRelease(chart, Qt.MouseButton.LeftButton, pos=begin + QPoint(by_x, 0))
    host.until_idle()
    wanted_s = page.finished.recording.duration_s if by_x > 0 else 0.0
    assert in_file(page)["salt_added"][0] == pytest.approx(wanted_s, abs=1e-6)
    assert "moment" not in host.told


def test_what_cannot_be_is_refused_and_changes_nothing(show: Show) -> None:  # noqa: F811
    host, page = show()
    page.moments.move_to(of_kind(page, "salt_added").id, 1e6)
    assert "after the end of the run" in host.told["moment"][1]
    assert not page.acts.stack.canUndo()
    host.until_idle()
    assert in_file(page)["salt_added"][0] == 300.0


def test_a_moment_of_the_bench_without_its_number_comes_back_by_undoing(whole: Path, qapp: object) -> None:  # noqa: F811
    """A new one would be refused; this one is in the recording, and undoing it had failed half way."""
    tagged = new_moment(100.0, "resistor_changed", "")
    recording = read_recording(whole)
    acts = MomentActs(FinishedMoments(replace(recording, moments=(*recording.moments, tagged))))
    acts.edit(tagged.id, label="4700")
    acts.undo()
    assert label_of(acts, tagged) == ""
    acts.remove(tagged.id)
    acts.undo()
    assert label_of(acts, tagged) == ""
    with pytest.raises(MomentError, match="must hold the ohms"):
        acts.edit(tagged.id, label="some")


def test_another_recording_under_the_same_name_is_left_alone(show: Show, whole: Path) -> None:  # noqa: F811
    host, page = show()
    path = page.finished.recording.path
    import h5py

    other = path.with_name("other.h5")
    other.write_bytes(whole.read_bytes())
    with h5py.File(other, "r+") as file:
        file["run/entry_identifier_uuid"][()] = "another"
    os.replace(other, path)
    before = path.read_bytes()
    page.moments.move_to(of_kind(page, "salt_added").id, 250.0)
    host.until_idle()
    assert "replaced by another recording" in host.told[changed(host.told)][1]
    assert path.read_bytes() == before


@pytest.mark.parametrize(
    ("error", "trouble"),
    [(LoggerError("no findings"), "no findings"), (MemoryError(), "MemoryError"), (KeyError("a"), "'a'")],
)
def test_findings_of_other_moments_are_not_shown_where_none_can_be_found(
    whole: Path,  # noqa: F811
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    error: Exception,
    trouble: str,
) -> None:
    """Whatever comes of them: changes were told as not in the file where that was no error of the logger."""
    path = tmp_path / "a run.h5"
    path.write_bytes(whole.read_bytes())
    recording = read_recording(path)
    keeper = FinishedMoments(recording)
    salt = next(m for m in keeper.moments if m.kind == "salt_added")
    keeper.edit_moment(salt.id, time_s=250.0)

    def nothing(*_: object) -> None:
        raise error

    monkeypatch.setattr("logger.reanalysis.findings", nothing)
    found = analyse_again(recording, {}, keeper.take_unsaved())
    assert (found.findings, found.trouble) == ({}, trouble)
    assert next(m for m in read_recording(path).moments if m.kind == "salt_added").time_s == 250.0
    with pytest.raises(type(error)):
        analyse_again(recording, {})


def test_a_number_that_a_label_must_hold_is_asked_for(whole: Path) -> None:  # noqa: F811
    keeper = FinishedMoments(read_recording(whole))
    with pytest.raises(MomentError, match="ohms"):
        keeper.add_moment("resistor_changed", "bigger", 100.0)
    with pytest.raises(MomentError, match="no moment with the id"):
        keeper.edit_moment("nobody", label="x")
    assert not keeper.take_unsaved()


def test_what_others_change_in_the_file_comes_to_the_page_with_the_next_change(show: Show) -> None:  # noqa: F811
    """Each window went on with moments of its own, and kept findings of them in the file."""
    host, page = show()
    path, salt = page.finished.recording.path, of_kind(page, "salt_added")
    edit(path, salt.id, label="3 drops")
    edit(path, of_kind(page, "buffer_in").id, removed=True)
    typed(page, "electrodes_out", "dripping")
    host.until_idle()
    shown = {m.kind: (m.time_s, m.label) for m in page.moments.keeper.moments}
    assert shown == in_file(page)
    assert shown["salt_added"][1] == "3 drops"
    assert "buffer_in" not in shown
    typed(page, "salt_added", "4 drops")
    host.until_idle()
    page.undo()
    host.until_idle()
    assert in_file(page)["salt_added"][1] == "3 drops"
    labels = [m.label for m, _ in read_recording(path).moments_history if m.id == salt.id]
    assert labels == ["2 drops", "3 drops", "4 drops"]


def test_what_is_changed_while_the_change_before_is_kept_counts_for_more_than_what_others_made(
    whole: Path,  # noqa: F811
) -> None:
    """The page showed what others had made, and what was done next stood on that: a moment that had just been
    moved was where it had been."""
    recording = read_recording(whole)
    keeper = FinishedMoments(recording)
    salt = next(one for one in keeper.moments if one.kind == "salt_added")
    keeper.edit_moment(salt.id, time_s=280.0)
    theirs = salt.edited(label="3 drops")
    others = tuple(one for one in recording.moments if one.id != salt.id)
    keeper.follow(replace(recording, moments=(*others, theirs.edited(label="4 drops"))))
    assert {m.id: m.time_s for m in keeper.moments}[salt.id] == 280.0
    assert keeper.edit_moment(salt.id, label="5 drops").time_s == 280.0
