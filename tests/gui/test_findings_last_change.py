"""What is written or copied of a finished run has the change that was made just before."""

from __future__ import annotations

import threading
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from gui.session import Finished, load_finished
from gui.window import Window
from logger.moment_edits import Changes, keep_changes
from logger.recording import Recording
from tests.gui.finished_run import Show, changed, frames_until, moved_twice, of_kind, phase_end, refuse, typed
from tests.gui.test_findings_page import show, whole  # noqa: F401 - fixtures


def test_an_export_has_the_words_that_were_typed_just_before(show: Show, tmp_path: Path) -> None:  # noqa: F811
    """It had the moments as they were before: those were still the ones of the last findings."""
    host, page = show()
    typed(page, "salt_added", "3 drops")
    typed(page, "buffer_in", "2 cm")
    page.export_to(tmp_path / "out.csv")
    host.until_idle()
    moments = (tmp_path / "out.moments.csv").read_text("utf-8")
    assert "3 drops" in moments
    assert "2 cm" in moments
    assert "follows" not in host.told


def test_an_export_has_the_words_that_are_still_being_typed(show: Show, tmp_path: Path) -> None:  # noqa: F811
    host, page = show()
    page.moments.edit(of_kind(page, "salt_added").id)
    page.moments.entry._label.setText("4 drops")
    page.export_to(tmp_path / "out.csv")
    host.until_idle()
    assert "4 drops" in (tmp_path / "out.moments.csv").read_text("utf-8")


@pytest.mark.parametrize("act", ["save_picture", "copy_picture"])
def test_a_picture_has_the_change_made_just_before(
    show: Show,  # noqa: F811
    monkeypatch: pytest.MonkeyPatch,
    act: str,
) -> None:
    host, page = show()
    painted: list[Finished] = []
    monkeypatch.setattr(f"gui.pages.findings_page.{act}", lambda _host, finished: painted.append(finished))
    page.moments.move_to(of_kind(page, "salt_added").id, 290.0)
    getattr(page, act)()
    assert painted == []
    host.until_idle()
    (finished,) = painted
    assert 290.0 in [moment.time_s for moment in finished.recording.moments]
    getattr(page, act)()
    assert len(painted) == 2  # at once where nothing is being found


def test_an_export_goes_on_where_the_change_before_it_could_not_be_kept(
    show: Show,  # noqa: F811
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
) -> None:
    host, page = show()
    monkeypatch.setattr("logger.reanalysis.keep_changes", refuse)
    typed(page, "salt_added", "3 drops")
    page.export_to(tmp_path / "out.csv")
    host.until_idle()
    assert "3 drops" not in (tmp_path / "out.moments.csv").read_text("utf-8")
    assert "Not in the file" in host.told[changed(host.told)][1]


def test_an_export_waits_for_the_findings_that_follow_an_end_that_was_taken_back(
    window: Window,
    qtbot: QtBot,
    whole: Path,  # noqa: F811
    tmp_path: Path,
) -> None:
    page, _salt = moved_twice(window, whole, tmp_path)
    page.export_to(tmp_path / "out.csv")
    window.save_now()
    frames_until(window, qtbot, lambda: window._jobs.are_over)
    assert "280.0" in (tmp_path / "out.moments.csv").read_text("utf-8")


def test_a_window_that_is_closed_while_an_export_waits_asks(
    window: Window,
    qtbot: QtBot,
    whole: Path,  # noqa: F811
    tmp_path: Path,
) -> None:
    """The export came to nothing without a word."""
    page, _salt = moved_twice(window, whole, tmp_path)
    page.export_to(tmp_path / "out.csv")
    assert not window.close()
    assert window.leaving.question is not None
    frames_until(window, qtbot, lambda: window._jobs.are_over)
    assert "280.0" in (tmp_path / "out.moments.csv").read_text("utf-8")
    assert window.leaving.question is None


def test_an_export_follows_an_end_that_was_taken_back_before_a_slow_disk_had_kept_the_change(
    window: Window,
    qtbot: QtBot,
    whole: Path,  # noqa: F811
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """No findings followed: the export waited for ever, and so did the window that was to be closed."""
    is_there = threading.Event()

    def keep_slowly(recording: Recording, changes: Changes) -> Recording:
        is_there.wait()
        return keep_changes(recording, changes)

    monkeypatch.setattr("logger.reanalysis.keep_changes", keep_slowly)
    monkeypatch.setattr("gui.findings.renewal.PATIENCE_S", 0.0)
    monkeypatch.setattr("gui.findings.renewal.LONGEST_S", 0.0)
    path = tmp_path / "a run.h5"
    path.write_bytes(whole.read_bytes())
    window.add_findings(load_finished(path))
    (page,) = window.findings_pages
    page.moments.move_to(of_kind(page, "salt_added").id, 290.0)
    page.export_to(tmp_path / "out.csv")
    keeping = page._renewal._job
    assert keeping is not None
    window.save_now()
    is_there.set()
    frames_until(window, qtbot, lambda: keeping.is_over and keeping not in window._jobs._jobs)
    page.export_to(tmp_path / "second.csv")
    assert page.exports.rows == [], "the findings of the change are still to follow"
    frames_until(window, qtbot, lambda: window._jobs.are_over)
    for name in ("out", "second"):
        assert "290.0" in (tmp_path / f"{name}.moments.csv").read_text("utf-8")
    assert phase_end(page, "before") == pytest.approx(290.0, abs=1)
