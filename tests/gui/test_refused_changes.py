"""What cannot be written into a finished run stays to be tried again, is told with its words, or left."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from gui.window import Window
from logger.moment_edits import edit
from logger.reader import read_recording
from tests.gui.finished_run import (
    Show,
    bars_of_next_start,
    changed,
    in_file,
    label_of,
    moved_twice,
    of_kind,
    refuse,
    typed,
)
from tests.gui.page_host import FakeHost
from tests.gui.test_findings_page import show, whole  # noqa: F401 - fixtures
from tests.logger.test_attachments import png


def test_a_change_that_cannot_be_kept_is_taken_back_and_told(
    show: Show,  # noqa: F811
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    host, page = show()
    monkeypatch.setattr("logger.reanalysis.keep_changes", refuse)
    page.moments.move_to(of_kind(page, "salt_added").id, 250.0)
    host.until_idle()
    assert host.told[changed(host.told)][1].startswith(
        "the folder may not be written. Not in the file: 4:10 Salt"
    )
    assert of_kind(page, "salt_added").time_s == 300.0
    assert not page.acts.stack.canUndo()
    (salt,) = [m for m in page.chart._notes.moments if m.kind == "salt_added"]
    assert salt.time_s == 300.0


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
    assert host.told[changed(host.told)][1] == (
        "the folder may not be written. Not in the file: 0:40 Buffer in: 2 cm of buffer; "
        "5:00 Salt added: 3 drops of the blue solution."
    )
    action(host, changed(host.told), "Copy the words")()
    copied = QApplication.clipboard().text()
    assert copied == "0:40 Buffer in: 2 cm of buffer; 5:00 Salt added: 3 drops of the blue solution"
    typed(page, "buffer_in", "3 cm of buffer")  # what a person did last counts
    host.until_idle()
    action(host, changed(host.told), "Try again")()
    assert not changed(host.told)
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
    action(host, changed(host.told), "Try again")()
    host.until_idle()
    recording = read_recording(page.finished.recording.path)
    assert [m.label for m in recording.moments if m.id == added.id] == ["blue rim"]
    assert [one.file_name for one in recording.attachments] == ["rim.png"]


def test_a_picture_that_could_not_be_removed_is_told_as_one_that_was_to_be_removed(
    show: Show,  # noqa: F811
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """It was told as not in the file, where it is; one that was attached and undone as two pictures."""
    host, page = show()
    salt = of_kind(page, "salt_added")
    page.acts.attach(salt.id, "rim.png", png())
    host.until_idle()
    with monkeypatch.context() as patch:
        patch.setattr("logger.reanalysis.keep_changes", refuse)
        page.acts.attach(salt.id, "drop.png", png())
        page.undo()
        host.until_idle()
        assert not changed(host.told)
        page.acts.detach(page.acts.pictures_of(salt.id)[0], png())
        host.until_idle()
    assert host.told[changed(host.told)][1].endswith("Not in the file: a picture (removed).")
    action(host, changed(host.told), "Try again")()
    host.until_idle()
    assert read_recording(page.finished.recording.path).attachments == ()


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
        assert changed(host.told)
        entry = page.moments.entry
        QTest.keyClicks(entry._label, "stirrer hums")
        QTest.keyClick(entry._label, Qt.Key.Key_Return)
        host.until_idle()
    assert "stirrer hums" in host.told[changed(host.told)][1]
    page.moments.add()
    QTest.keyClicks(entry._label, "bubbles")
    QTest.keyClick(entry._label, Qt.Key.Key_Return)
    host.until_idle()
    action(host, changed(host.told), "Try again")()
    host.until_idle()
    labels = [m.label for m in read_recording(page.finished.recording.path).moments if m.kind == "note"]
    assert sorted(labels) == ["bubbles", "stirrer hums"]
    assert not changed(host.told)


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
    assert not changed(host.told)


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
    assert "3 drops" in host.told[changed(host.told)][1]
    assert "the recording is large" in host.told["findings"][1]


def test_a_reason_that_is_a_sentence_ends_once(show: Show, monkeypatch: pytest.MonkeyPatch) -> None:  # noqa: F811
    """A full disk was told with two full stops."""
    host, page = show()
    what, then = "a.h5 could not be changed", "; it is as it was. Check free space and permissions."
    monkeypatch.setattr("logger.reanalysis.keep", lambda *_: f"{what} (No space left on device){then}")
    typed(page, "buffer_in", "2 cm")
    host.until_idle()
    assert host.told["findings"][1].endswith(f"{what} (the disk is full){then}")


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
    assert "3 drops" in host.told[changed(host.told)][1]
    action(host, changed(host.told), "Try again")()
    host.until_idle()
    assert in_file(page)["salt_added"][1] == "3 drops"
    labels = [m.label for m, _ in read_recording(path).moments_history if m.id == salt.id]
    assert labels == ["2 drops", "4 drops", "5 drops"]


def test_a_refused_change_that_was_undone_meanwhile_is_not_told(
    show: Show,  # noqa: F811
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """It was told as not in the file, in the words that are in it."""
    host, page = show()
    salt, buffer = of_kind(page, "salt_added"), of_kind(page, "buffer_in")
    with monkeypatch.context() as patch:
        patch.setattr("logger.reanalysis.keep_changes", refuse)
        page.moments.move_to(salt.id, 280.0)
        page.undo()
        host.until_idle()
        assert not changed(host.told)
        page.moments.move_to(buffer.id, 50.0)
        page.moments.move_to(salt.id, 280.0)
        page.undo()
        host.until_idle()
    assert host.told[changed(host.told)][1].endswith("Not in the file: 0:50 Buffer in.")
    assert {m.id: m.time_s for m in page.moments.keeper.moments}[salt.id] == salt.time_s


@pytest.mark.parametrize("is_refused", [True, False])
def test_words_that_were_refused_stay_where_a_later_change_of_their_moment_is_undone(
    show: Show,  # noqa: F811
    monkeypatch: pytest.MonkeyPatch,
    is_refused: bool,
) -> None:
    """The change that was undone counted for more, and the words were gone."""
    host, page = show()
    salt = of_kind(page, "salt_added")
    with monkeypatch.context() as patch:
        patch.setattr("logger.reanalysis.keep_changes", refuse)
        typed(page, "salt_added", "3 drops of the blue solution")
        host.until_idle()
    with monkeypatch.context() as patch:
        if is_refused:
            patch.setattr("logger.reanalysis.keep_changes", refuse)
        page.moments.move_to(salt.id, 280.0)
        page.undo()
        host.until_idle()
    assert host.told[changed(host.told)][1].endswith("5:00 Salt added: 3 drops of the blue solution.")
    action(host, changed(host.told), "Try again")()
    host.until_idle()
    assert in_file(page)["salt_added"] == (300.0, "3 drops of the blue solution")
