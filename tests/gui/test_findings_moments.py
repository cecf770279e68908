"""A person corrects the moments of a finished run: the findings follow, the file keeps it, all is undone."""

from __future__ import annotations

import errno
import os
import shutil
import threading
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from threading import Event
from typing import Any

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QApplication
from pytestqt.qtbot import QtBot

from gui.findings.finished_moments import FinishedMoments
from gui.findings.unkept import UnkeptChanges, changes_in_words, tell_unkept_changes
from gui.moment_acts import MomentActs
from gui.pages.findings_page import FindingsPage
from gui.session import load_finished
from gui.window import Window
from logger.errors import LoggerError, RecordingBusy
from logger.late_changes import late_changes
from logger.moment_edits import Changes, edit, keep_changes
from logger.moments import Moment, MomentError, new_moment
from logger.progress import Cancelled, Progress
from logger.reader import read_recording
from logger.reanalysis import Reanalysis, analyse_again
from logger.recording import Recording
from tests.gui.controls import assert_nothing_clips, assert_reachable_and_named
from tests.gui.languages import speaking
from tests.gui.page_host import FakeHost
from tests.gui.test_findings_page import show, whole  # noqa: F401 - fixtures
from tests.logger.test_attachments import png

Show = Callable[[], tuple[FakeHost, FindingsPage]]


def of_kind(page: FindingsPage, kind: str) -> Moment:
    return next(m for m in page.moments.keeper.moments if m.kind == kind)


def in_file(page: FindingsPage) -> dict[str, tuple[float, str]]:
    return {m.kind: (m.time_s, m.label) for m in read_recording(page.finished.recording.path).moments}


def label_of(acts: MomentActs, moment: Moment) -> str | None:
    found = acts.moment(moment.id)
    return None if found is None else found.label


def phase_end(page: FindingsPage, name: str) -> float:
    found = next(p for p in page.finished.findings["phases"] if p["phase"] == name)
    return float(found["end_s"])


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


def moved_twice(window: Window, recording: Path, folder: Path) -> tuple[FindingsPage, Moment]:
    """Open a copy of `recording`, and change a moment again before the first change is kept."""
    path = folder / "a run.h5"
    path.write_bytes(recording.read_bytes())
    window.add_findings(load_finished(path))
    (page,) = window.findings_pages
    salt = of_kind(page, "salt_added")
    page.moments.move_to(salt.id, 290.0)
    page.moments.move_to(salt.id, 280.0)
    return page, salt


@pytest.mark.parametrize("ends", ["stop_and_quit", "save_now"])
def test_changes_of_the_last_moment_are_in_the_file_when_the_window_goes(
    window: Window,
    whole: Path,  # noqa: F811
    tmp_path: Path,
    ends: str,
) -> None:
    """What was changed while the findings of the change before were made was lost, and so were words."""
    page, salt = moved_twice(window, whole, tmp_path)
    page.moments.edit(salt.id)
    page.moments.entry._label.setText("3 drops")
    getattr(window, ends)()
    assert in_file(page)["salt_added"] == (280.0, "3 drops")


def test_a_file_that_the_change_before_still_holds_is_waited_for_when_the_window_goes(
    window: Window,
    whole: Path,  # noqa: F811
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """On a slow computer, or of a long run on a slow disk, what was changed last was lost."""
    may_end, tries = Event(), []

    def slow(*arguments: Any) -> Reanalysis:
        assert may_end.wait(30.0)
        return analyse_again(*arguments)

    def busy_at_first(recording: Recording, changes: Changes) -> Recording:
        tries.append(changes)
        if len(tries) == 1:
            may_end.set()
            raise RecordingBusy("being edited by another process")
        return keep_changes(recording, changes)

    monkeypatch.setattr("logger.reanalysis.analyse_again", slow)
    monkeypatch.setattr("gui.findings.renewal.keep_changes", busy_at_first)
    monkeypatch.setattr("gui.findings.renewal.PATIENCE_S", 0.0)
    page, _salt = moved_twice(window, whole, tmp_path)
    window.stop_and_quit()
    assert len(tries) == 2
    assert in_file(page)["salt_added"][0] == 280.0


def frames_until(window: Window, qtbot: QtBot, true: Callable[[], bool]) -> None:
    def look() -> bool:
        window.frame()
        return true()

    qtbot.waitUntil(look, timeout=60_000)


def test_a_window_that_stays_after_the_end_of_the_session_finds_what_was_kept_for_it(
    window: Window,
    qtbot: QtBot,
    whole: Path,  # noqa: F811
    tmp_path: Path,
) -> None:
    """Who took the log-out back saw findings without the last change, and exported the run without it."""
    page, salt = moved_twice(window, whole, tmp_path)
    window.save_now()
    frames_until(window, qtbot, lambda: window._jobs.are_over)
    assert page.finished.recording.moments == page.moments.keeper.moments
    assert phase_end(page, "before") == pytest.approx(280.0, abs=1)
    page.moments.move_to(salt.id, 270.0)
    frames_until(window, qtbot, lambda: window._jobs.are_over)
    assert in_file(page)["salt_added"][0] == 270.0
    assert phase_end(page, "before") == pytest.approx(270.0, abs=1)
    history = read_recording(page.finished.recording.path).moments_history
    assert [m.time_s for m, _ in history] == [300.0, 290.0, 280.0]


def test_a_change_that_could_not_be_kept_for_the_end_is_tried_again_where_the_window_stays(
    window: Window,
    qtbot: QtBot,
    whole: Path,  # noqa: F811
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """It stood on the page as if it were in the file."""
    page, _salt = moved_twice(window, whole, tmp_path)
    with monkeypatch.context() as patch:
        patch.setattr("gui.findings.renewal.keep_changes", refuse)
        window.save_now()
    frames_until(window, qtbot, lambda: window._jobs.are_over)
    assert in_file(page)["salt_added"][0] == 280.0
    assert phase_end(page, "before") == pytest.approx(280.0, abs=1)
    assert bars_of_next_start(window) == []


def test_a_change_that_the_end_kept_at_its_second_try_is_not_told_at_the_next_start(
    window: Window,
    whole: Path,  # noqa: F811
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """It was in the file, and the next start said that it could not be saved."""
    page, _salt = moved_twice(window, whole, tmp_path)
    with monkeypatch.context() as patch:
        patch.setattr("gui.findings.renewal.keep_changes", refuse)
        window.save_now()
    window.stop_and_quit()
    assert in_file(page)["salt_added"][0] == 280.0
    assert bars_of_next_start(window) == []


def test_what_the_end_of_the_session_could_not_keep_is_told_at_the_next_start_though_a_bar_had_told_it(
    window: Window,
    qtbot: QtBot,
    whole: Path,  # noqa: F811
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """The program lives on for a moment after it was told that the session ends: nobody reads a bar then."""
    monkeypatch.setattr("logger.reanalysis.keep_changes", refuse)
    monkeypatch.setattr("gui.findings.renewal.keep_changes", refuse)
    page, salt = moved_twice(window, whole, tmp_path)
    window.save_now()
    frames_until(window, qtbot, lambda: window._jobs.are_over)
    assert "changed" in window.bars.texts
    page.moments.edit(salt.id)
    page.moments.entry._label.setText("5 drops")
    window.stop_and_quit()
    (text,) = bars_of_next_start(window)
    assert "Salt added: 5 drops" in text


def test_a_note_of_changes_goes_once_they_were_made_again_and_kept(
    window: Window,
    qtbot: QtBot,
    whole: Path,  # noqa: F811
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    page, salt = moved_twice(window, whole, tmp_path)
    with monkeypatch.context() as patch:
        patch.setattr("logger.reanalysis.keep_changes", refuse)
        patch.setattr("gui.findings.renewal.keep_changes", refuse)
        window.save_now()
        frames_until(window, qtbot, lambda: window._jobs.are_over)
    page.moments.move_to(salt.id, 280.0)
    frames_until(window, qtbot, lambda: window._jobs.are_over)
    window.stop_and_quit()
    assert in_file(page)["salt_added"][0] == 280.0
    assert bars_of_next_start(window) == []


def refuse(*_: object) -> None:
    raise LoggerError("the folder may not be written")


def bars_of_next_start(window: Window) -> list[str]:
    before = set(window.bars.texts)
    tell_unkept_changes(window)
    return [text for key, text in window.bars.texts.items() if key not in before]


def test_findings_that_nobody_will_see_are_given_up_when_the_window_goes(
    window: Window,
    whole: Path,  # noqa: F811
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """The end waited up to 5 s for them, and again for their being written: 21 s for three runs."""
    cancelled = Event()
    cancel = Progress.cancel

    def note(progress: Progress) -> None:
        cancel(progress)
        cancelled.set()

    def slow(_recording: Recording, _chosen: object, progress: Progress) -> dict[str, object]:
        assert cancelled.wait(20.0)
        progress.reach(0.5)
        raise AssertionError("they were to be given up")

    monkeypatch.setattr(Progress, "cancel", note)
    monkeypatch.setattr("logger.reanalysis.findings", slow)
    page, _salt = moved_twice(window, whole, tmp_path)
    (renewal,) = [job for job in window._jobs._jobs if not job.is_cancellable and not job.is_over]
    window.stop_and_quit()
    assert isinstance(renewal.error, Cancelled)
    assert in_file(page)["salt_added"][0] == 280.0
    assert bars_of_next_start(window) == []


def test_findings_that_were_given_up_are_made_where_the_window_stays(
    window: Window,
    qtbot: QtBot,
    whole: Path,  # noqa: F811
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Also where nothing was left to be kept, and what had been kept was not on the page yet."""
    path = tmp_path / "a run.h5"
    path.write_bytes(whole.read_bytes())
    window.add_findings(load_finished(path))
    (page,) = window.findings_pages
    cancelled = Event()

    def slow(_recording: Recording, _chosen: object, progress: Progress) -> dict[str, object]:
        assert cancelled.wait(20.0)
        progress.reach(0.5)
        raise AssertionError("they were to be given up")

    cancel = Progress.cancel

    def note(progress: Progress) -> None:
        cancel(progress)
        cancelled.set()

    with monkeypatch.context() as patch:
        patch.setattr(Progress, "cancel", note)
        patch.setattr("logger.reanalysis.findings", slow)
        page.moments.move_to(of_kind(page, "salt_added").id, 280.0)
        window.save_now()
    frames_until(window, qtbot, lambda: window._jobs.are_over)
    assert "changed" not in window.bars.texts
    assert in_file(page)["salt_added"][0] == 280.0
    assert of_kind(page, "salt_added").time_s == 280.0
    assert phase_end(page, "before") == pytest.approx(280.0, abs=1)


@pytest.mark.parametrize("ends", ["stop_and_quit", "save_now"])
def test_a_change_that_could_not_be_kept_for_the_end_is_told_at_the_next_start(
    window: Window,
    whole: Path,  # noqa: F811
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    ends: str,
) -> None:
    """Only the log had it; the words that had been typed were nowhere."""
    page, salt = moved_twice(window, whole, tmp_path)
    page.moments.edit(salt.id)
    page.moments.entry._label.setText("3 drops")
    monkeypatch.setattr("gui.findings.renewal.keep_changes", refuse)
    getattr(window, ends)()
    window._keep_changes()  # as after the end of the session: it is noted once
    (text,) = bars_of_next_start(window)
    assert text == (
        "When the program last ended, changes of a run.h5 could not be saved: 4:40 Salt added: 3 drops. "
        "the folder may not be written."
    )
    (button,) = [b for b in window.bars.findChildren(QAbstractButton) if b.text() == "Show its findings"]
    opened: list[Path] = []
    monkeypatch.setattr(window.recordings, "open", opened.append)
    button.click()
    assert opened == [page.finished.recording.path]
    window.untell("unkept 0")
    assert bars_of_next_start(window) == [], "it is told once"


def press(window: Window, words: str) -> None:
    found = [b for b in window.bars.findChildren(QAbstractButton) if b.text() == words]
    (button,) = [b for b in found if b.isVisibleTo(window)]  # one that was replaced goes a little later
    button.click()


def test_what_could_not_be_kept_is_made_at_the_next_start_where_it_is_wanted(
    window: Window,
    qtbot: QtBot,
    whole: Path,  # noqa: F811
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Its words were told, and had all to be typed again."""
    page, salt = moved_twice(window, whole, tmp_path)
    frames_until(window, qtbot, lambda: window._jobs.are_over)
    page.moments.edit(salt.id)
    page.moments.entry._label.setText("3 drops")
    with monkeypatch.context() as patch:
        patch.setattr("gui.findings.renewal.keep_changes", refuse)
        patch.setattr("logger.reanalysis.keep_changes", refuse)
        window.stop_and_quit()
    assert in_file(page)["salt_added"] == (280.0, "2 drops")
    (text,) = bars_of_next_start(window)
    assert "4:40 Salt added: 3 drops" in text
    opened: list[Path] = []
    monkeypatch.setattr(window.recordings, "open", opened.append)
    press(window, "Make them now")
    frames_until(window, qtbot, lambda: bool(opened))
    assert in_file(page)["salt_added"] == (280.0, "3 drops")
    assert opened == [page.finished.recording.path]
    assert "unkept 0" not in window.bars.texts


def test_what_could_not_be_kept_is_not_made_over_what_was_changed_since(
    window: Window,
    qtbot: QtBot,
    whole: Path,  # noqa: F811
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    page, salt = moved_twice(window, whole, tmp_path)
    frames_until(window, qtbot, lambda: window._jobs.are_over)
    page.moments.edit(salt.id)
    page.moments.entry._label.setText("3 drops")
    with monkeypatch.context() as patch:
        patch.setattr("gui.findings.renewal.keep_changes", refuse)
        patch.setattr("logger.reanalysis.keep_changes", refuse)
        window.stop_and_quit()
    path = page.finished.recording.path
    edit(path, salt.id, label="4 drops")
    bars_of_next_start(window)
    press(window, "Make them now")
    frames_until(window, qtbot, lambda: "since" in window.bars.texts["unkept 0"])
    assert window.bars.texts["unkept 0"] == (
        "The moment at 4:40 has been changed in a run.h5 since; look at it, and change it by hand. "
        "Not in the file: 4:40 Salt added: 3 drops."
    )
    assert in_file(page)["salt_added"] == (280.0, "4 drops")


def test_a_note_of_an_earlier_version_tells_and_offers_nothing_to_make(window: Window) -> None:
    window.settings.setValue("changes_not_kept/earlier", '["a.h5", "4:40 hums", "The disk is full."]')
    (text,) = bars_of_next_start(window)
    assert text.endswith("4:40 hums. The disk is full. Look at its moments, and make again what is missing.")
    labels = [b.text() for b in window.bars.findChildren(QAbstractButton)]
    assert "Show its findings" in labels
    assert "Make them now" not in labels


def test_a_change_whose_keeping_fails_while_the_window_goes_is_told_at_the_next_start(
    window: Window,
    whole: Path,  # noqa: F811
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("logger.reanalysis.keep_changes", refuse)
    moved_twice(window, whole, tmp_path)
    window.stop_and_quit()
    (text,) = bars_of_next_start(window)
    assert "4:50 Salt added: 2 drops" in text


def test_changes_that_fail_one_after_the_other_are_told_in_one_bar_with_the_last_words(
    window: Window,
    whole: Path,  # noqa: F811
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """A moment stood there twice: as it was added, and with the words that were typed for it."""
    monkeypatch.setattr("logger.reanalysis.keep_changes", refuse)
    monkeypatch.setattr("gui.findings.renewal.keep_changes", refuse)
    moved_twice(window, whole, tmp_path)
    window._keep_changes()
    window.stop_and_quit()
    (text,) = bars_of_next_start(window)
    assert "4:40 Salt added: 2 drops. the" in text
    assert "4:50" not in text


def test_a_change_that_could_not_be_kept_and_was_told_of_is_not_told_again(
    window: Window,
    qtbot: QtBot,
    whole: Path,  # noqa: F811
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("logger.reanalysis.keep_changes", refuse)
    moved_twice(window, whole, tmp_path)
    frames_until(window, qtbot, lambda: window._jobs.are_over)
    assert "changed" in window.bars.texts
    window.stop_and_quit()
    assert bars_of_next_start(window) == []


def test_a_change_that_takes_too_long_to_keep_is_told_at_the_next_start(
    window: Window,
    qtbot: QtBot,
    whole: Path,  # noqa: F811
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    may_end = Event()

    def slow(recording: Recording, changes: Changes) -> Recording:
        assert may_end.wait(30.0)
        return keep_changes(recording, changes)

    monkeypatch.setattr("gui.findings.renewal.keep_changes", slow)
    monkeypatch.setattr("gui.jobs.KEEPING_LIMIT_S", 0.0)
    moved_twice(window, whole, tmp_path)
    window.stop_and_quit()
    may_end.set()
    names = {"analyse again", "keep changes"}
    qtbot.waitUntil(lambda: names.isdisjoint(one.name for one in threading.enumerate()), timeout=60_000)
    (text,) = bars_of_next_start(window)
    assert "4:40 Salt added: 2 drops. That took more than 30 s; perhaps it was done all the same." in text


def test_the_reason_is_told_in_the_language_of_the_next_start(
    qapp: QApplication, window: Window, tmp_path: Path
) -> None:
    why = f"{tmp_path}/a.h5 could not be changed ({os.strerror(errno.ENOSPC)}); it is as it was"
    UnkeptChanges(window.settings).note(tmp_path / "a.h5", "4:40 Salz: 3 Tropfen", why)
    with speaking(qapp, "de"):
        (text,) = bars_of_next_start(window)
    assert "(der Datenträger ist voll)" in text
    assert "could not" not in text


@pytest.mark.parametrize(
    "damaged", ["", "{", "5", '["a.h5"]', '["a.h5", "b", "c", "d", [{"moment_id": 5}]]', "[" * 100_000]
)
def test_what_is_damaged_in_the_settings_is_passed_over_at_the_start(damaged: str, window: Window) -> None:
    window.settings.setValue("changes_not_kept/damaged", damaged)
    UnkeptChanges(window.settings).note(Path("run.h5"), "1:30 hums", "The disk is full.")
    (text,) = bars_of_next_start(window)
    assert "1:30 hums" in text
    assert not window.settings.contains("changes_not_kept/damaged")


def test_a_removed_moment_and_pictures_are_told_in_words(qapp: object) -> None:
    gone, note = new_moment(61.0, "stirring_on", ""), new_moment(2.0, "note", "hums")
    changes = Changes((note, gone, gone.edited(removed=True)), ({}, {}))
    assert changes_in_words(changes) == "0:02 hums; 1:01 Stirring on (removed); 2 pictures"


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


def test_a_change_that_cannot_be_kept_is_taken_back_and_told(
    show: Show,  # noqa: F811
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    host, page = show()
    monkeypatch.setattr("logger.reanalysis.keep_changes", refuse)
    page.moments.move_to(of_kind(page, "salt_added").id, 250.0)
    host.until_idle()
    assert host.told["changed"][1].startswith("the folder may not be written. Not in the file: 4:10 Salt")
    assert of_kind(page, "salt_added").time_s == 300.0
    assert not page.acts.stack.canUndo()
    (salt,) = [m for m in page.chart._notes.moments if m.kind == "salt_added"]
    assert salt.time_s == 300.0


def typed(page: FindingsPage, kind: str, words: str) -> None:
    page.moments.edit(of_kind(page, kind).id)
    page.moments.entry._label.setText(words)
    QTest.keyClick(page.moments.entry._label, Qt.Key.Key_Return)


def action(host: FakeHost, key: str, words: str) -> Callable[[], None]:
    return dict(host.told[key][2])[words]


def test_words_that_could_not_be_written_can_be_copied_and_tried_again(
    show: Show,  # noqa: F811
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """They were nowhere: the field had closed, and the page showed what the file holds."""
    host, page = show()
    with monkeypatch.context() as patch:
        patch.setattr("logger.reanalysis.keep_changes", refuse)
        for words in ("2 drops", "3 drops of the blue solution"):
            typed(page, "salt_added", words)
            host.until_idle()
        typed(page, "buffer_in", "2 cm of buffer")
        host.until_idle()
    assert host.told["changed"][1] == (
        "the folder may not be written. Not in the file: 0:40 Buffer in: 2 cm of buffer; "
        "5:00 Salt added: 3 drops of the blue solution."
    )
    action(host, "changed", "Copy the words")()
    copied = QApplication.clipboard().text()
    assert copied == "0:40 Buffer in: 2 cm of buffer; 5:00 Salt added: 3 drops of the blue solution"
    typed(page, "buffer_in", "3 cm of buffer")  # what a person did last counts
    host.until_idle()
    action(host, "changed", "Try again")()
    assert "changed" not in host.told
    host.until_idle()
    assert in_file(page)["salt_added"][1] == "3 drops of the blue solution"
    assert in_file(page)["buffer_in"][1] == "3 cm of buffer"
    assert of_kind(page, "salt_added").label == "3 drops of the blue solution"


def test_a_moment_with_its_picture_that_could_not_be_written_is_tried_again(
    show: Show,  # noqa: F811
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    host, page = show()
    with monkeypatch.context() as patch:
        patch.setattr("logger.reanalysis.keep_changes", refuse)
        added = page.acts.tag("photo", 100.0, "blue rim")
        page.acts.attach(added.id, "rim.png", png())
        host.until_idle()
    assert page.acts.moment(added.id) is None
    action(host, "changed", "Try again")()
    host.until_idle()
    recording = read_recording(page.finished.recording.path)
    assert [m.label for m in recording.moments if m.id == added.id] == ["blue rim"]
    assert [one.file_name for one in recording.attachments] == ["rim.png"]


def test_words_that_cannot_be_stay_in_their_field(show: Show) -> None:  # noqa: F811
    """The field closed, and with it went what had been typed."""
    host, page = show()
    entry, salt = page.moments.entry, of_kind(page, "salt_added")
    page.moments.edit(salt.id)
    entry._kind.setCurrentIndex(entry._kind.findData("resistor_changed"))
    entry._label.setText("the larger one")
    QTest.keyClick(entry._label, Qt.Key.Key_Return)
    assert host.told["moment"][1].startswith("The words of a changed resistor must hold its ohms")
    assert entry.is_open
    assert (entry._label.text(), entry._kind.currentData()) == ("the larger one", "resistor_changed")
    for other in (
        lambda: page.moments.edit(of_kind(page, "buffer_in").id),
        page.moments.add,
        page.undo,
        lambda: page.moments.remove(salt.id),
    ):
        other()
        assert entry._label.text() == "the larger one", "nothing else is done that would lose them"
    assert label_of(page.acts, salt) == salt.label
    entry._label.setText("4.7k")
    QTest.keyClick(entry._label, Qt.Key.Key_Return)
    assert not entry.is_open
    assert "moment" not in host.told
    host.until_idle()
    kept = {m.id: m for m in read_recording(page.finished.recording.path).moments}[salt.id]
    assert (kept.kind, kept.label) == ("resistor_changed", "4.7k")


def test_refused_words_can_be_left_by_esc(show: Show) -> None:  # noqa: F811
    _host, page = show()
    entry, salt = page.moments.entry, of_kind(page, "salt_added")
    page.moments.edit(salt.id)
    entry._kind.setCurrentIndex(entry._kind.findData("temperature"))
    entry._label.setText("warm")
    QTest.keyClick(entry._label, Qt.Key.Key_Return)
    assert entry.is_open
    QTest.keyClick(entry._label, Qt.Key.Key_Escape)
    assert not entry.is_open
    assert label_of(page.acts, salt) == salt.label


def test_refused_words_are_told_at_the_next_start_where_the_window_goes(
    window: Window,
    whole: Path,  # noqa: F811
    tmp_path: Path,
) -> None:
    page, salt = moved_twice(window, whole, tmp_path)
    entry = page.moments.entry
    page.moments.edit(salt.id)
    entry._kind.setCurrentIndex(entry._kind.findData("temperature"))
    entry._label.setText("warm")
    window.stop_and_quit()
    (text,) = bars_of_next_start(window)
    assert "4:40 Temperature: warm. The words of a temperature must hold" in text


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
    assert "replaced by another recording" in host.told["changed"][1]
    assert path.read_bytes() == before


def test_findings_of_other_moments_are_not_shown_where_none_can_be_found(
    whole: Path,  # noqa: F811
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    path = tmp_path / "a run.h5"
    path.write_bytes(whole.read_bytes())
    recording = read_recording(path)
    keeper = FinishedMoments(recording)
    salt = next(m for m in keeper.moments if m.kind == "salt_added")
    keeper.edit_moment(salt.id, time_s=250.0)

    def nothing(*_: object) -> None:
        raise LoggerError("no findings")

    monkeypatch.setattr("logger.reanalysis.findings", nothing)
    found = analyse_again(recording, {}, keeper.take_unsaved())
    assert (found.findings, found.trouble) == ({}, "no findings")
    assert next(m for m in read_recording(path).moments if m.kind == "salt_added").time_s == 250.0
    with pytest.raises(LoggerError):
        analyse_again(recording, {})


def test_a_number_that_a_label_must_hold_is_asked_for(whole: Path) -> None:  # noqa: F811
    keeper = FinishedMoments(read_recording(whole))
    with pytest.raises(MomentError, match="ohms"):
        keeper.add_moment("resistor_changed", "bigger", 100.0)
    with pytest.raises(MomentError, match="no moment with the id"):
        keeper.edit_moment("nobody", label="x")
    assert not keeper.take_unsaved()


def test_words_for_a_moment_that_could_not_be_written_meanwhile_are_kept(
    show: Show,  # noqa: F811
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """A moment was added and refused while its words were being typed: they went without a word."""
    host, page = show()
    with monkeypatch.context() as patch:
        patch.setattr("logger.reanalysis.keep_changes", refuse)
        page.moments.add()
        host.until_idle()
        assert "changed" in host.told
        entry = page.moments.entry
        QTest.keyClicks(entry._label, "stirrer hums")
        QTest.keyClick(entry._label, Qt.Key.Key_Return)
        host.until_idle()
    assert "stirrer hums" in host.told["changed"][1]
    page.moments.add()
    QTest.keyClicks(entry._label, "bubbles")
    QTest.keyClick(entry._label, Qt.Key.Key_Return)
    host.until_idle()
    action(host, "changed", "Try again")()
    host.until_idle()
    labels = [m.label for m in read_recording(page.finished.recording.path).moments if m.kind == "note"]
    assert sorted(labels) == ["bubbles", "stirrer hums"]
    assert "changed" not in host.told


def test_what_was_refused_is_told_no_more_once_the_moment_is_in_the_file(
    show: Show,  # noqa: F811
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    host, page = show()
    with monkeypatch.context() as patch:
        patch.setattr("logger.reanalysis.keep_changes", refuse)
        page.moments.add()
        host.until_idle()
    entry = page.moments.entry
    QTest.keyClicks(entry._label, "stirrer hums")
    QTest.keyClick(entry._label, Qt.Key.Key_Return)
    host.until_idle()
    assert in_file(page)["note"][1] == "stirrer hums"
    assert "changed" not in host.told


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


def test_what_cannot_be_made_at_the_next_start_is_tried_again_or_offered_once_more(
    window: Window,
    qtbot: QtBot,
    whole: Path,  # noqa: F811
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """The stick with the recording was not plugged in yet: one press, and the words had to be typed again."""
    path = Path(shutil.copy(whole, tmp_path / "a run.h5"))
    recording = read_recording(path)
    salt = next(m for m in recording.moments if m.kind == "salt_added")
    changes = Changes((salt.edited(label="3 drops"),))
    why, words = "The disk is full.", changes_in_words(changes)
    UnkeptChanges(window.settings).note(path, words, why, recording.uuid, late_changes(changes))
    elsewhere = path.rename(tmp_path / "elsewhere.h5")
    bars_of_next_start(window)
    press(window, "Make them now")
    frames_until(window, qtbot, lambda: window._jobs.are_over)
    assert "is not there" in window.bars.texts["unkept 0"]
    assert "5:00 Salt added: 3 drops" in window.bars.texts["unkept 0"]
    window.untell("unkept 0")  # the window is closed
    (text,) = bars_of_next_start(window)
    assert "5:00 Salt added: 3 drops" in text
    press(window, "Make them now")
    frames_until(window, qtbot, lambda: window._jobs.are_over)
    elsewhere.rename(path)
    opened: list[Path] = []
    monkeypatch.setattr(window.recordings, "open", opened.append)
    press(window, "Try again")
    press(window, "Try again")
    frames_until(window, qtbot, lambda: bool(opened) and window._jobs.are_over)
    assert [m.label for m in read_recording(path).moments if m.id == salt.id] == ["3 drops"]
    assert opened == [path]
    assert "unkept 0" not in window.bars.texts
    assert bars_of_next_start(window) == []


def test_what_is_told_of_findings_leaves_the_words_that_were_refused(
    show: Show,  # noqa: F811
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Of a long recording findings are never kept: that was told in the place of the refused words."""
    host, page = show()
    with monkeypatch.context() as patch:
        patch.setattr("logger.reanalysis.keep_changes", refuse)
        typed(page, "salt_added", "3 drops")
        host.until_idle()
    monkeypatch.setattr("logger.reanalysis.keep", lambda *_: "the recording is large")
    typed(page, "buffer_in", "2 cm")
    host.until_idle()
    assert "3 drops" in host.told["changed"][1]
    assert "the recording is large" in host.told["findings"][1]


def test_a_change_that_was_being_kept_before_the_end_and_takes_too_long_is_told_at_the_next_start(
    window: Window,
    whole: Path,  # noqa: F811
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Only what was changed after it was noted: on a disk that hangs it went without a word."""
    path = Path(shutil.copy(whole, tmp_path / "a run.h5"))
    window.add_findings(load_finished(path))
    page, may_end = window.findings_pages[-1], Event()

    def slow(_recording: Recording, _changes: Changes) -> Recording:
        may_end.wait(10.0)
        raise LoggerError("the folder may not be written")

    monkeypatch.setattr("logger.reanalysis.keep_changes", slow)
    monkeypatch.setattr("gui.findings.renewal.PATIENCE_S", 0.0)
    monkeypatch.setattr("gui.jobs.KEEPING_LIMIT_S", 0.0)
    monkeypatch.setattr("gui.jobs.PATIENCE_S", 0.0)
    page.moments.move_to(of_kind(page, "salt_added").id, 290.0)
    window.stop_and_quit()
    (text,) = bars_of_next_start(window)
    may_end.set()
    assert "4:50 Salt added: 2 drops" in text
    assert "perhaps it was done all the same" in text


def test_refused_words_stay_to_be_tried_again_though_others_changed_the_moment_meanwhile(
    show: Show,  # noqa: F811
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    host, page = show()
    path, salt = page.finished.recording.path, of_kind(page, "salt_added")
    with monkeypatch.context() as patch:
        patch.setattr("logger.reanalysis.keep_changes", refuse)
        typed(page, "salt_added", "3 drops")
        host.until_idle()
    edit(path, salt.id, label="4 drops")
    edit(path, salt.id, label="5 drops")
    typed(page, "buffer_in", "2 cm of buffer")
    host.until_idle()
    assert of_kind(page, "salt_added").label == "5 drops"
    assert "3 drops" in host.told["changed"][1]
    action(host, "changed", "Try again")()
    host.until_idle()
    assert in_file(page)["salt_added"][1] == "3 drops"
    labels = [m.label for m, _ in read_recording(path).moments_history if m.id == salt.id]
    assert labels == ["2 drops", "4 drops", "5 drops"]


def test_changes_that_fail_at_the_end_while_those_before_are_still_being_kept_are_all_told(
    window: Window,
    whole: Path,  # noqa: F811
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    path = Path(shutil.copy(whole, tmp_path / "a run.h5"))
    window.add_findings(load_finished(path))
    page, has_failed = window.findings_pages[-1], Event()

    def first(*_: object) -> None:
        assert has_failed.wait(30.0)
        raise LoggerError("the folder may not be written")

    def last(*_: object) -> None:
        has_failed.set()
        raise LoggerError("the folder may not be written")

    monkeypatch.setattr("logger.reanalysis.keep_changes", first)
    monkeypatch.setattr("gui.findings.renewal.keep_changes", last)
    monkeypatch.setattr("gui.findings.renewal.PATIENCE_S", 0.0)
    salt = of_kind(page, "salt_added")
    page.moments.move_to(salt.id, 290.0)
    page.moments.move_to(of_kind(page, "buffer_in").id, 50.0)
    window.stop_and_quit()
    (text,) = bars_of_next_start(window)
    assert "0:50 Buffer in; 4:50 Salt added: 2 drops" in text
