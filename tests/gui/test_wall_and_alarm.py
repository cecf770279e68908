"""What reaches those who stand away from the window: the wall, the alarm, a call."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import QSettings, Qt
from PySide6.QtGui import QColor
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QApplication
from pytestqt.qtbot import QtBot

from gui.numbers import clock_text
from gui.theme import Theme
from gui.wall_texts import nothing_words
from gui.widgets.wall_view import WallView, WallWords
from gui.window import Window
from logger.disk_room import DiskRoom
from logger.notices import RunNotice
from tests.gui.test_live_texts import VIEW
from tests.gui.window_bench import CTRL, Bench
from tests.gui.window_bench import bench as bench

METER = "scpi:/dev/ttyS9"


@pytest.mark.parametrize("is_gone", [False, True])
def test_the_wall_leads_back_to_where_it_was_opened(window: Window, is_gone: bool) -> None:
    window.show_page("help")
    page = window.stack.currentWidget()
    window.wall_switch.toggle()
    assert window.wall_switch.is_on
    if is_gone:
        window.stack.removeWidget(page)
    window.wall_switch.toggle()
    assert window.stack.currentWidget() is (window.stack.start_page if is_gone else page)
    assert window.header.isVisible()
    if is_gone:
        page.deleteLater()


@pytest.mark.parametrize("number", ["2.030", "2,030", "26,97"])
def test_on_the_wall_no_tail_of_the_number_reaches_into_the_words(
    qtbot: QtBot, theme: Theme, number: str
) -> None:
    """A decimal comma hangs below the line; seen in the pixels, where the words come to the picture."""
    wall = WallView(theme)
    qtbot.addWidget(wall)
    wall.resize(960, 540)
    wall.show_words(WallWords(number=number, unit="V"))
    alone = wall.grab().toImage()
    wall.show_words(WallWords(number=number, unit="V", sentence="Wasserspaltung in frischem Puffer."))
    both = wall.grab().toImage()
    paper = alone.pixel(1, 1)
    rows = range(alone.height())
    tail = max(y for y in rows for x in range(0, alone.width(), 2) if alone.pixel(x, y) != paper)
    words = min(y for y in rows for x in range(0, both.width(), 2) if both.pixel(x, y) != alone.pixel(x, y))
    assert words > tail


def test_a_saving_is_green_on_the_wall_only_where_it_is_sure(theme: Theme, qtbot: QtBot) -> None:
    theme.choose("light")
    wall = WallView(theme)
    qtbot.addWidget(wall)
    wall.resize(960, 540)

    def has_green(is_sure: bool) -> bool:
        wall.show_words(
            WallWords(
                number="2.219", saved="33 ± 86 mV", saving_caption="saved so far", is_saving_sure=is_sure
            )
        )
        picture, green = wall.grab().toImage(), QColor(theme.colours.settled).rgb()
        places = ((x, y) for y in range(picture.height()) for x in range(picture.width()))
        return any(picture.pixel(x, y) == green for x, y in places)

    assert has_green(True)
    assert not has_green(False)


@pytest.mark.parametrize("danger", ["", "The electrodes touch."])
def test_what_was_tagged_is_read_on_the_wall_also_below_a_danger(
    theme: Theme, qtbot: QtBot, danger: str
) -> None:
    """Who tagged there saw nothing of it, and tagged once more."""
    theme.choose("light")
    wall = WallView(theme)
    qtbot.addWidget(wall)
    wall.resize(960, 540)

    def rows_of_moment(tagged: str) -> list[int]:
        wall.show_words(WallWords(number="2.219", danger=danger, next_step="Next: salt", tagged=tagged))
        picture, purple = wall.grab().toImage(), QColor(theme.colours.moment).rgb()
        return [y for y in range(540) if any(picture.pixel(x, y) == purple for x in range(960))]

    assert rows_of_moment("") == []
    assert min(rows_of_moment("Tagged at 7:31: Note")) > 0.9 * 540


@pytest.mark.parametrize("state", ["saving", "failed"])
def test_once_a_run_is_over_what_was_saved_is_not_shown_as_settled(bench: Bench, state: str) -> None:
    """Neither in the curve nor on the wall: the readings that came last may not be in it."""
    bench.qtbot.waitUntil(lambda: bench.session.view is not None, timeout=10_000)
    bench.press(Qt.Key.Key_F11)
    bench.session.state = state
    bench.session.close()  # the judge has made its last view
    bench.session.view = VIEW
    bench.look()
    words = bench.window.stack.wall._words
    assert (words.saved, words.is_saving_sure) == ("219 ± 4\u00a0mV", False)
    assert words.saving_caption == "saved so far, not final"
    bench.page._draw()
    saving = bench.page.chart._notes.saving
    assert saving is not None
    assert (saving.look, saving.caption) == ("ink", "saved so far, not final")
    bench.press(Qt.Key.Key_Escape)
    bench.session.state = "running"


def test_without_a_run_the_wall_says_so_and_shows_no_lonely_unit(bench: Bench, theme: Theme) -> None:
    wall = WallView(theme)
    bench.qtbot.addWidget(wall)
    wall.resize(960, 540)
    wall.show_words(nothing_words())
    picture = wall.grab().toImage()
    paper = picture.pixel(1, 1)
    written = [y for y in range(picture.height()) if any(picture.pixel(x, y) != paper for x in range(960))]
    assert written
    assert min(written) > 0.3 * picture.height()


def test_the_wall_shows_number_sentence_and_danger_and_takes_keys(bench: Bench) -> None:
    bench.qtbot.waitUntil(lambda: bench.session.view is not None, timeout=10_000)
    bench.press(Qt.Key.Key_F11)
    bench.look()
    wall = bench.window.stack.wall
    assert bench.window.stack.currentWidget() is wall
    assert bench.window.isFullScreen()
    assert not bench.window.header.isVisible()
    assert wall._words.number.startswith("2.2")
    assert "Splitting water" in wall._words.sentence
    assert [name for name, _value in wall._words.figures] == ["Current", "Charge", "Hydrogen"]
    assert "Next: Connect everything" in wall._words.next_step
    bench.press(Qt.Key.Key_M)  # kept, without leaving the wall
    assert len(bench.session.moments) == 1
    assert bench.window.stack.currentWidget() is wall
    bench.look()
    assert wall._words.tagged == f"Tagged at {clock_text(bench.session.moments[0].time_s)}: Note"
    bench.run.clock.time_s += 6.5
    bench.look()
    assert wall._words.tagged == ""
    bench.run.told.append(RunNotice(1.0, "danger", "lost", "The cable is out."))
    bench.look()
    assert wall._words.danger == "The cable is out."
    bench.press(Qt.Key.Key_Escape)
    assert bench.window.stack.currentWidget() is bench.page
    assert bench.window.header.isVisible()
    assert not bench.window.isFullScreen()


def test_the_number_on_the_wall_can_be_read_from_eight_metres(bench: Bench) -> None:
    """ISO 9241-303: characters of 20 to 22 minutes of arc are comfortable (from memory), so 46 mm at 8 m.
    On a screen of 55 inches, 685 mm high, that is 1 part in 15."""
    bench.window.resize(1920, 1080)
    bench.press(Qt.Key.Key_F11)
    bench.look()
    bench.window.resize(1920, 1080)
    QApplication.processEvents()
    wall = bench.window.stack.wall
    picture = wall.grab().toImage()
    paper = bench.window.theme.colours.paper
    left = range(0, round(0.62 * picture.width()), 2)
    top = range(round(0.42 * picture.height()))
    rows = [y for y in top if any(picture.pixelColor(x, y).name() != paper for x in left)]
    assert max(rows) - min(rows) > picture.height() / 15
    bench.press(Qt.Key.Key_Escape)


def test_a_danger_is_heard_until_it_is_silenced(bench: Bench) -> None:
    sounds: list[object] = []
    bench.window.watch._make_sound = sounds.append
    bench.run.told.append(RunNotice(1.0, "warning", "silent", "The meter sends nothing.", METER))
    bench.run.source_state = "silent"
    bench.look()
    assert f"silent {METER}" in bench.window.bars.keys_of("danger")  # readings are being missed
    assert len(sounds) == 1
    bench.press(Qt.Key.Key_B, CTRL)
    bench.window.watch.bell._rang_s = -1e9
    bench.look()
    assert len(sounds) == 1


def test_sounds_can_be_turned_off(bench: Bench, settings: QSettings) -> None:
    sounds: list[object] = []
    bench.window.watch._make_sound = sounds.append
    bench.window.menu.sound.trigger()
    bench.run.told.append(RunNotice(1.0, "danger", "lost", "The cable is out."))
    bench.look()
    assert sounds == []
    assert settings.value("sound", type=bool) is False


def test_a_disk_that_fills_up_is_a_danger_until_there_is_room(bench: Bench) -> None:
    bench.session._looked_at_disk_s = 1e12  # not the disk of this computer
    bench.session.disk_room = DiskRoom(40_000_000, 600.0, True)
    bench.look()
    assert "room for about 10\u00a0min more" in bench.window.bars.texts["disk_low"]
    bench.run.told.append(RunNotice(1.0, "danger", "disk_full", "The disk takes no more data."))
    bench.look()
    assert bench.window.bars.keys_of("danger") == ("disk_full",), "one bar for one trouble"
    bench.run.told.append(RunNotice(2.0, "info", "disk_back", "The disk takes data again."))
    bench.look()
    assert "disk_low" in bench.window.bars.texts
    bench.session.disk_room = DiskRoom(10**11, 1e9, False)
    bench.look()
    assert "disk_low" not in bench.window.bars.texts


def test_somebody_who_looks_elsewhere_is_called(bench: Bench, monkeypatch: pytest.MonkeyPatch) -> None:
    alerts = bench.window.watch.alerts
    bench.run.told.append(RunNotice(1.0, "danger", "lost", "The cable is out."))
    bench.look()
    assert alerts.told == []  # the window is in front
    monkeypatch.setattr(bench.window, "isActiveWindow", lambda: False)
    bench.run.told.append(RunNotice(2.0, "danger", "fault", "Another."))
    bench.look()
    assert alerts.told == ["Another."]


@pytest.mark.parametrize("code", ["disk_error", "disk_full"])
def test_a_disk_that_takes_nothing_offers_a_second_place(
    bench: Bench, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, code: str
) -> None:
    monkeypatch.setattr("gui.run_ways.QFileDialog.getExistingDirectory", lambda *_: str(tmp_path))
    bench.run.told.append(RunNotice(1.0, "danger", code, "The disk reports an error; name a second place."))
    bench.look()
    buttons = bench.window.bars.findChildren(QAbstractButton)
    (button,) = [b for b in buttons if b.text() == "Second place …" and b.isVisible()]
    QTest.mouseClick(button, Qt.MouseButton.LeftButton)
    bench.qtbot.waitUntil(lambda: (bench.look(), "second" in bench.window.bars.texts)[1], timeout=10_000)
    assert bench.run.second_folder == tmp_path
