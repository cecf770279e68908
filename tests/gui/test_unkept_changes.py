"""What the next start tells of changes that are not in the file, and offers to make."""

from __future__ import annotations

import errno
import json
import os
import shutil
from pathlib import Path

import pytest
from PySide6.QtWidgets import QAbstractButton, QApplication
from pytestqt.qtbot import QtBot

from gui.findings.unkept import UnkeptChanges, changes_in_words
from gui.pages.findings_page import FindingsPage
from gui.window import Window
from logger.late_changes import late_changes
from logger.moment_edits import Changes, edit
from logger.moments import Moment, new_moment
from logger.reader import read_recording
from logger.recording import Recording
from tests.gui.finished_run import (
    bars_of_next_start,
    frames_until,
    in_file,
    moved_twice,
    nothing_is_kept,
    press,
)
from tests.gui.languages import speaking
from tests.gui.test_findings_page import show, whole  # noqa: F401 - fixtures


def left_with_words_not_kept(
    window: Window,
    qtbot: QtBot,
    path: Path,
    folder: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> tuple[FindingsPage, Moment]:
    """Leave the window while "3 drops" are typed for the salt and nothing can be written."""
    page, salt = moved_twice(window, path, folder)
    frames_until(window, qtbot, lambda: window._jobs.are_over)
    page.moments.edit(salt.id)
    page.moments.entry._label.setText("3 drops")
    with nothing_is_kept(monkeypatch):
        window.stop_and_quit()
    return page, salt


def test_what_could_not_be_kept_is_made_at_the_next_start_where_it_is_wanted(
    window: Window,
    qtbot: QtBot,
    whole: Path,  # noqa: F811
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Its words were told, and had all to be typed again."""
    page, _salt = left_with_words_not_kept(window, qtbot, whole, tmp_path, monkeypatch)
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
    page, salt = left_with_words_not_kept(window, qtbot, whole, tmp_path, monkeypatch)
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


def with_two_changes(whole: Path, folder: Path) -> tuple[Recording, Moment, Moment, Changes]:  # noqa: F811
    """Return a recording, two of its moments, and a label for each that is not in it."""
    recording = read_recording(Path(shutil.copy(whole, folder / "a run.h5")))
    salt, buffer = (
        next(m for m in recording.moments if m.kind == kind) for kind in ("salt_added", "buffer_in")
    )
    changes = Changes((salt.edited(label="3 drops"), buffer.edited(label="20 ml")))
    return recording, salt, buffer, changes


def test_what_can_be_made_is_made_and_only_the_rest_is_told(
    window: Window,
    qtbot: QtBot,
    whole: Path,  # noqa: F811
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """One moment that others had changed, and what was wanted of all the others had to be done again."""
    recording, salt, buffer, changes = with_two_changes(whole, tmp_path)
    path = recording.path
    words = changes_in_words(changes)
    UnkeptChanges(window.settings).note(
        path, words, "The disk is full.", recording.uuid, late_changes(changes)
    )
    edit(path, salt.id, label="4 drops")
    bars_of_next_start(window)
    opened: list[Path] = []
    monkeypatch.setattr(window.recordings, "open", opened.append)
    press(window, "Make them now")
    frames_until(window, qtbot, lambda: bool(opened))
    told = window.bars.texts["unkept 0"]
    assert told.endswith("Not in the file: 5:00 Salt added: 3 drops.")
    assert "has been changed in a run.h5 since" in told
    found = {m.id: m.label for m in read_recording(path).moments}
    assert (found[salt.id], found[buffer.id]) == ("4 drops", "20 ml")
    assert bars_of_next_start(window) == [], "it would be refused again"


def test_a_note_of_an_earlier_version_tells_and_offers_nothing_to_make(window: Window) -> None:
    window.settings.setValue("changes_not_kept/earlier", '["a.h5", "4:40 hums", "The disk is full."]')
    (text,) = bars_of_next_start(window)
    assert text.endswith("4:40 hums. The disk is full. Look at its moments, and make again what is missing.")
    labels = [b.text() for b in window.bars.findChildren(QAbstractButton)]
    assert "Show its findings" in labels
    assert "Make them now" not in labels


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
    "damaged", ["", "{", "5", '["a.h5"]', '["a.h5", 1, "c"]', '["", "hums", "c"]', '{"a": 1}', "[" * 100_000]
)
def test_what_is_damaged_in_the_settings_is_passed_over_at_the_start(damaged: str, window: Window) -> None:
    window.settings.setValue("changes_not_kept/damaged", damaged)
    UnkeptChanges(window.settings).note(Path("run.h5"), "1:30 hums", "The disk is full.")
    (text,) = bars_of_next_start(window)
    assert "1:30 hums" in text
    assert not window.settings.contains("changes_not_kept/damaged")


@pytest.mark.parametrize(
    "empty", ['["a.h5", "", "The disk is full.", "", []]', '["a.h5", " ", "", "d", [5]]']
)
def test_a_note_of_nothing_shows_no_bar(empty: str, window: Window) -> None:
    """It said that changes could not be saved, and none."""
    window.settings.setValue("changes_not_kept/empty", empty)
    assert bars_of_next_start(window) == []
    assert not window.settings.contains("changes_not_kept/empty")


def test_what_is_whole_in_a_damaged_note_is_made_and_the_rest_is_told(
    window: Window,
    qtbot: QtBot,
    whole: Path,  # noqa: F811
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """One damaged entry, and all that had been changed was passed over without a word."""
    recording, salt, buffer, changes = with_two_changes(whole, tmp_path)
    path = recording.path
    first, second = (one.as_dict() for one in late_changes(changes))
    note = [str(path), changes_in_words(changes), "The disk is full.", recording.uuid]
    damaged = [5, {"moment_id": 5}, {**second, "kind": "?"}, {**second, "time_s": float("nan")}]
    window.settings.setValue("changes_not_kept/damaged", json.dumps([*note, [*damaged, first]]))
    told = "Buffer in: 20 ml; 5:00 Salt added: 3 drops"
    for _start in range(2):  # it is noted anew while it cannot be made
        (text,) = bars_of_next_start(window)
        assert told in text
        assert text.endswith("Look at its moments, and make again what is missing.")
        elsewhere = path.rename(tmp_path / "elsewhere.h5")
        press(window, "Make them now")
        frames_until(window, qtbot, lambda: "is not there" in window.bars.texts["unkept 0"])
        elsewhere.rename(path)
        window.untell("unkept 0")  # the window is closed
    bars_of_next_start(window)
    monkeypatch.setattr(window.recordings, "open", lambda _path: None)
    press(window, "Make them now")
    frames_until(window, qtbot, lambda: "could be made" in window.bars.texts["unkept 0"])
    assert window.bars.texts["unkept 0"].startswith("Not all of these changes of a run.h5 could be made: ")
    assert told in window.bars.texts["unkept 0"]
    found = {m.id: m.label for m in read_recording(path).moments}
    assert (found[salt.id], found[buffer.id]) == ("3 drops", buffer.label)
    assert bars_of_next_start(window) == []


def test_a_note_without_words_is_told_in_those_of_its_changes(window: Window) -> None:
    late = late_changes(Changes((new_moment(61.0, "note", "hums"),)))
    UnkeptChanges(window.settings).note(Path("run.h5"), "", "The disk is full.", "d", late)
    (text,) = bars_of_next_start(window)
    assert "1:01 hums. The disk is full." in text


def test_a_removed_moment_and_pictures_are_told_in_words(qapp: object) -> None:
    gone, note = new_moment(61.0, "stirring_on", ""), new_moment(2.0, "note", "hums")
    pictures = [{"id": name, "removed": name == "c"} for name in "aabcd"]
    changes = Changes((note, gone, gone.edited(removed=True)), tuple(pictures))
    told = "0:02 hums; 1:01 Stirring on (removed); 3 pictures; a picture (removed)"
    assert changes_in_words(changes) == told


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
