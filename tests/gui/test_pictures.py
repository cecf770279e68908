"""Pictures of moments in the window: added, pasted, dropped, looked at, saved, removed, and undone."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from PySide6.QtCore import QEvent, QMimeData, QPointF, Qt, QUrl
from PySide6.QtGui import QColor, QDropEvent, QImage, QKeyEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QApplication, QFileDialog

from gui.pages.findings_page import FindingsPage
from gui.widgets.picture_view import PictureView
from logger.picture_edits import load_picture
from logger.reader import read_recording
from tests.gui.controls import assert_nothing_clips, assert_reachable_and_named
from tests.gui.page_host import FakeHost
from tests.gui.test_findings_page import show, whole  # noqa: F401 - fixtures
from tests.gui.window_bench import CTRL, Bench
from tests.gui.window_bench import bench as bench
from tests.logger.test_attachments import png

Show = Callable[[], tuple[FakeHost, FindingsPage]]


@pytest.fixture
def photo(tmp_path: Path) -> Path:
    image = QImage(3000, 1500, QImage.Format.Format_RGB32)
    image.fill(QColor("#884400"))
    path = tmp_path / "anode ü.jpg"
    assert image.save(str(path))
    return path


def opened(host: FakeHost, page: FindingsPage) -> PictureView:
    page.views.tabs["moments"].click()
    page.moments.pane.list.choose(page.moments.keeper.moments[1].id)
    page.moments.pane.list._pictures.click()
    view = page.pictures.view
    assert view is not None
    host.frame()
    return view


def in_file(page: FindingsPage) -> list[str]:
    return [one.file_name for one in read_recording(page.finished.recording.path).attachments]


def test_a_file_is_attached_seen_saved_removed_and_all_is_undone(
    show: Show,  # noqa: F811
    photo: Path,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    host, page = show()
    view = opened(host, page)
    assert "No picture yet" in view.picture.text()
    assert not view.save.isEnabled()
    assert_reachable_and_named(view)
    monkeypatch.setattr(QFileDialog, "getOpenFileNames", lambda *_: ([str(photo)], ""))
    view.add.click()
    host.until_idle()
    assert in_file(page) == ["anode ü.jpg"]
    assert page.finished.recording.attachments[0].moment_id == page.moments.keeper.moments[1].id
    shown = view.picture.pixmap().toImage()
    assert shown.width() > shown.height()
    assert abs(shown.pixelColor(5, 5).red() - 0x88) < 6
    assert_nothing_clips(view)
    copy = tmp_path / "copy.jpg"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(copy), ""))
    view.save.click()
    host.until_idle()
    assert copy.read_bytes() == photo.read_bytes()
    view.remove.click()
    host.until_idle()
    assert in_file(page) == []
    view.close_view.click()
    host.frame()
    assert page.pictures.view is None
    page.undo()
    host.until_idle()
    (back,) = read_recording(page.finished.recording.path).attachments
    assert load_picture(page.finished.recording, back.id) == photo.read_bytes()
    page.undo()
    host.until_idle()
    assert in_file(page) == []
    page.redo()
    host.until_idle()
    assert in_file(page) == ["anode ü.jpg"]


def test_a_key_held_in_the_pictures_pastes_one_and_removes_one(show: Show) -> None:  # noqa: F811
    host, page = show()
    view = opened(host, page)
    pasted = QImage(40, 90, QImage.Format.Format_RGB32)
    pasted.fill(QColor("#0000ff"))
    QApplication.clipboard().setImage(pasted)

    def hold(key: Qt.Key, modifiers: Qt.KeyboardModifier, text: str) -> None:
        QTest.keyPress(view.windowHandle(), key, modifiers)
        host.until_idle()
        for _ in range(3):
            again = QKeyEvent(QEvent.Type.KeyPress, key, modifiers, text, True)
            QApplication.sendEvent(view.windowHandle(), again)
            host.until_idle()
        QTest.keyRelease(view.windowHandle(), key, modifiers)

    hold(Qt.Key.Key_V, CTRL, "\x16")
    assert in_file(page) == ["pasted.png"]
    QTest.keyClick(view, Qt.Key.Key_V, CTRL)
    host.until_idle()
    hold(Qt.Key.Key_Delete, Qt.KeyboardModifier.NoModifier, "\x7f")
    assert in_file(page) == ["pasted.png"]


def test_pictures_are_dropped_pasted_and_looked_through(show: Show, photo: Path) -> None:  # noqa: F811
    host, page = show()
    view = opened(host, page)
    files = QMimeData()
    files.setUrls([QUrl.fromLocalFile(str(photo))])
    none, left = Qt.KeyboardModifier.NoModifier, Qt.MouseButton.LeftButton
    view.dropEvent(QDropEvent(QPointF(9, 9), Qt.DropAction.CopyAction, files, left, none))
    host.until_idle()
    pasted = QImage(40, 90, QImage.Format.Format_RGB32)
    pasted.fill(QColor("#0000ff"))
    QApplication.clipboard().setImage(pasted)
    QTest.keyClick(view, Qt.Key.Key_V, CTRL)
    host.until_idle()
    assert in_file(page) == ["anode ü.jpg", "pasted.png"]
    seen = view.picture.pixmap().toImage()
    assert (seen.width(), seen.height()) == (40, 90)  # no larger than it is
    assert not view.after.isEnabled()
    QTest.keyClick(view, Qt.Key.Key_Left)
    host.until_idle()
    assert view.picture.pixmap().width() > 100
    assert not view.before.isEnabled()
    QTest.keyClick(view, Qt.Key.Key_Escape)
    host.frame()
    assert page.pictures.view is None


def test_that_pictures_of_a_removed_moment_stay_is_told(show: Show, photo: Path) -> None:  # noqa: F811
    host, page = show()
    view = opened(host, page)
    view.file_chosen.emit(photo)
    host.until_idle()
    view.accept()
    with_picture, without = page.moments.keeper.moments[1].id, page.moments.keeper.moments[0].id
    page.moments.pane.list.remove_wanted.emit(without)
    host.until_idle()
    assert "moment" not in host.told
    page.moments.pane.list.remove_wanted.emit(with_picture)
    host.until_idle()
    level, text, _ = host.told["moment"]
    assert level == "info"
    assert "its picture stays in the recording. To remove them, too: undo" in text
    assert in_file(page) == ["anode ü.jpg"]
    page.moments.undo()
    host.until_idle()
    assert [one.moment_id for one in page.acts.keeper.attachments] == [with_picture]
    assert page.acts.moment(with_picture) is not None


def test_what_is_no_picture_is_refused_in_the_view(show: Show, tmp_path: Path) -> None:  # noqa: F811
    host, page = show()
    view = opened(host, page)
    text = tmp_path / "notes.png"
    text.write_text("no picture")
    for path, said in ((text, "PNG, JPEG or WebP"), (tmp_path / "gone.png", "cannot be read")):
        view.file_chosen.emit(path)
        host.until_idle()
        assert said in view._trouble.text()
    QApplication.clipboard().clear()
    view.paste.click()
    assert "no picture in the clipboard" in view._trouble.text()
    host.until_idle()
    assert in_file(page) == []
    assert not page.acts.stack.canUndo()


def test_a_damaged_picture_is_kept_and_cannot_be_shown(show: Show, photo: Path) -> None:  # noqa: F811
    host, page = show()
    view = opened(host, page)
    data = png(40, 30)
    photo.write_bytes(data[:41] + bytes(len(data) - 57) + data[-16:])  # what is coded; the chunks stay
    view.file_chosen.emit(photo)
    host.until_idle()
    assert in_file(page) == ["anode ü.jpg"]
    assert "cannot be shown here" in view.picture.text()
    assert view.remove.isEnabled()


def test_a_picture_is_attached_while_the_run_goes_on(bench: Bench, photo: Path) -> None:
    moment = bench.session.add_moment("photo", "anode", 50.0)
    bench.look()
    bench.press(Qt.Key.Key_I, CTRL)
    desk = bench.window.ways._pictures
    assert desk is not None
    assert desk.view is not None
    desk.view.file_chosen.emit(photo)
    for _ in range(400):
        bench.look()
        if bench.session.attachments:
            break
        QTest.qWait(5)
    (one,) = bench.session.attachments
    assert (one.moment_id, one.file_name) == (moment.id, "anode ü.jpg")
    assert bench.session.picture(one) == photo.read_bytes()
    desk.view.accept()
    bench.look()
    assert bench.window.menu.undo.isEnabled()
    bench.window.menu.undo.trigger()
    assert bench.session.attachments == ()


def test_a_moment_with_a_picture_is_removed_in_a_run_the_picture_stays_and_both_come_back(
    bench: Bench,
    photo: Path,
) -> None:
    moment = bench.session.add_moment("photo", "anode", 50.0)
    bench.page.acts.attach(moment.id, photo.name, photo.read_bytes())
    bench.look()
    bench.page.remove(moment.id)
    assert bench.session.moments == ()
    assert bench.window.bars.texts["removed"] == "Moment at 0:50 removed; its picture stays in the file."
    assert [one.moment_id for one in bench.session.attachments] == [moment.id]
    bench.press(Qt.Key.Key_4)  # something else is done before it is wanted back
    back = next(b for b in bench.window.bars.findChildren(QAbstractButton) if b.text() == "Bring it back")
    back.click()
    kinds = [one.kind for one in bench.session.moments]
    assert len(kinds) == 2
    assert kinds[0] == "photo"
    assert bench.page.acts.pictures_of(moment.id)
    assert "removed" not in bench.window.bars.texts
    bench.press(Qt.Key.Key_Z, CTRL)
    assert [one.kind for one in bench.session.moments] == kinds[1:]
    bench.page.acts.attach(bench.session.moments[0].id, photo.name, photo.read_bytes())
    bench.page.acts.attach(bench.session.moments[0].id, photo.name, photo.read_bytes())
    bench.page.remove(bench.session.moments[0].id)
    assert "its 2 pictures stay in the file" in bench.window.bars.texts["removed"]
