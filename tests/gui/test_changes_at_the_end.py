"""Changes of a finished run are in the file when the window goes, or the next start tells and offers them."""

from __future__ import annotations

import shutil
import threading
from pathlib import Path
from threading import Event
from typing import Any

import pytest
from PySide6.QtWidgets import QAbstractButton
from pytestqt.qtbot import QtBot

from gui.session import load_finished
from gui.window import Window
from logger.errors import LoggerError, RecordingBusy
from logger.moment_edits import Changes, keep_changes
from logger.progress import Cancelled, Progress
from logger.reader import read_recording
from logger.reanalysis import Reanalysis, analyse_again
from logger.recording import Recording
from tests.gui.finished_run import (
    bars_of_next_start,
    changed,
    frames_until,
    in_file,
    moved_twice,
    nothing_is_kept,
    of_kind,
    phase_end,
    refuse,
)
from tests.gui.test_findings_page import show, whole  # noqa: F401 - fixtures


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
    assert changed(window.bars.texts)
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
    assert not changed(window.bars.texts)
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
    assert changed(window.bars.texts)
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


def test_an_undo_of_what_was_being_kept_before_the_end_is_told_where_that_takes_too_long(
    window: Window,
    whole: Path,  # noqa: F811
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """The change may get into the file, and its undo not: as together they came to nothing, none was told."""
    path = Path(shutil.copy(whole, tmp_path / "a run.h5"))
    window.add_findings(load_finished(path))
    page, may_end, is_kept = window.findings_pages[-1], Event(), Event()

    def slow(recording: Recording, changes: Changes) -> None:
        assert may_end.wait(30.0)
        keep_changes(recording, changes)
        is_kept.set()
        raise LoggerError("the program has ended")

    monkeypatch.setattr("logger.reanalysis.keep_changes", slow)
    monkeypatch.setattr("gui.findings.renewal._keep_after", refuse)
    monkeypatch.setattr("gui.findings.renewal.PATIENCE_S", 0.0)
    monkeypatch.setattr("gui.jobs.KEEPING_LIMIT_S", 0.0)
    monkeypatch.setattr("gui.jobs.PATIENCE_S", 0.0)
    page.moments.move_to(of_kind(page, "salt_added").id, 290.0)
    page.undo()
    window.stop_and_quit()
    may_end.set()
    assert is_kept.wait(30.0)
    assert in_file(page)["salt_added"][0] == 290.0
    (text,) = bars_of_next_start(window)
    assert "5:00 Salt added: 2 drops. That took more than 30 s; perhaps it was done all the same." in text


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


def test_a_change_that_was_undone_and_could_not_be_kept_is_not_told_at_the_next_start(
    window: Window,
    qtbot: QtBot,
    whole: Path,  # noqa: F811
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """What had been undone stood in the note, in the words that are in the file."""
    page, salt = moved_twice(window, whole, tmp_path)
    frames_until(window, qtbot, lambda: window._jobs.are_over)
    with nothing_is_kept(monkeypatch):
        page.moments.move_to(salt.id, 270.0)
        page.undo()
        window.stop_and_quit()
    assert in_file(page)["salt_added"][0] == 280.0
    assert bars_of_next_start(window) == []
