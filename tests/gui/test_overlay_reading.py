"""Several runs are read off at one time by key and by pointer: each its own reading, as it was measured."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from PySide6.QtCore import QPoint, QRect, QSize, Qt
from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from drivers.samples import Quality
from gui.shelf.overlay_card import OverlayCard
from gui.shelf.overlay_chart import OverlayChart
from gui.shelf.overlay_picture import OverlayPicture, curve_place
from gui.shelf.overlay_reading_texts import OverlayWords, RunWords
from gui.shelf.overlay_view import OverlayRun
from gui.shelf.run_colours import DARK_RUNS, LIGHT_RUNS
from gui.theme import Theme
from logger.aligned_reading import AlignedReading, NoReading
from logger.overview import Overview
from logger.reading_off import Reading
from logger.recording import Gap
from tests.gui.chart.test_chart import dots, places
from tests.gui.languages import speaking

KEY, HELD, LEFT = Qt.Key, Qt.KeyboardModifier, Qt.MouseButton.LeftButton
NO_BREAK = "\u00a0"
AT_SCHOOL, AT_200_PERCENT = QSize(816, 355), QSize(528, 203)
"""What the chart has of a window of 1366x768, and of one of 1920x1080 at 200 %, both in German."""

LEAST = QSize(280, 150)


@pytest.fixture
def chart(qtbot: QtBot, theme: Theme) -> OverlayChart:
    """Run 1 from -20 s on, twice a second; run 4 from 10 s on, each 2 s, with a flag and a gap."""
    theme.choose("light")
    made = OverlayChart(theme)
    qtbot.addWidget(made)
    made.resize(800, 400)
    first_s = np.arange(240) / 2
    first = Overview.of(first_s, np.round(2.25 - 0.0004 * np.arange(240), 4))
    second_s = np.concatenate((np.arange(26) * 2.0, 70.0 + np.arange(16) * 2.0))
    quality = np.zeros(42, np.uint8)
    quality[5] = Quality.LOW_BATTERY
    gaps = [Gap(50.0, 70.0, "cell_voltage", "unplugged")]
    second = Overview.of(second_s, np.round(2.1 + 0.01 * np.arange(42), 2), quality=quality, gaps=gaps)
    made.show_runs(
        [OverlayRun(first, 20.0, "Strip 4", 0), OverlayRun(second, -10.0, "Blank", 3)], "Salt added"
    )
    made.show()
    return made


def here(chart: OverlayChart) -> AlignedReading:
    found = chart.reading.reader.here
    assert found is not None
    return found


def press(chart: OverlayChart, *keys: KEY, held: HELD = HELD.NoModifier) -> None:
    for key in keys:
        QTest.keyClick(chart, key, held)


def point(chart: OverlayChart, time_s: float) -> QPoint:
    """A place on the curves at that time."""
    assert chart.frame is not None
    return curve_place(chart.width(), chart.height()).topLeft() + QPoint(round(chart.frame.x(time_s)), 150)


def click(chart: OverlayChart, time_s: float, held: HELD = HELD.NoModifier) -> None:
    QTest.mouseClick(chart, LEFT, held, point(chart, time_s))


def said(chart: OverlayChart) -> str:
    """What is read off, without what the chart shows as a whole."""
    return chart.accessibleDescription().removesuffix("1 Strip 4, 4 Blank. Salt added").removesuffix(". ")


def test_return_reads_every_run_and_arrows_go_on(chart: OverlayChart) -> None:
    press(chart, KEY.Key_Return)
    assert here(chart).time_s == 45.0  # the picture shows -20 to 110 s
    press(chart, KEY.Key_Right, KEY.Key_Right)
    assert here(chart) == (46.0, (Reading(132, 46.0, 2.1972), Reading(18, 46.0, 2.28)))
    assert said(chart) == f"0:46.0; run 1: 2.1972{NO_BREAK}V; run 4: 2.280{NO_BREAK}V"
    press(chart, KEY.Key_Right)
    assert here(chart) == (46.5, (Reading(133, 46.5, 2.1968), Reading(18, 46.0, 2.28)))
    assert f"run 4: 2.280{NO_BREAK}V, at 0:46.0" in said(chart)  # measured then, and not at 46.5 s
    press(chart, KEY.Key_Left, KEY.Key_Left)
    assert here(chart).time_s == 45.5
    press(chart, KEY.Key_Left, held=HELD.ControlModifier)
    assert here(chart).time_s == pytest.approx(45.5 - 0.1 * 130, abs=0.5)


def test_a_run_that_has_no_reading_there_says_why(chart: OverlayChart) -> None:
    press(chart, KEY.Key_Return, KEY.Key_Home)
    assert here(chart).readings == (Reading(0, -20.0, 2.25), NoReading.NOT_BEGUN)
    assert said(chart) == f"−0:20.0; run 1: 2.250{NO_BREAK}V; run 4: no reading, not begun yet"
    click(chart, 70.0)
    assert here(chart).readings[1] is NoReading.IN_GAP
    assert "run 4: no reading, within a gap" in said(chart)
    press(chart, KEY.Key_End)
    assert here(chart).time_s == 110.0
    assert "run 1: no reading, already ended" in said(chart)
    assert f"run 4: 2.510{NO_BREAK}V" in said(chart)


def test_flags_of_a_reading_are_named_with_its_run(chart: OverlayChart) -> None:
    click(chart, 20.0)
    assert here(chart).time_s == pytest.approx(20.0, abs=0.5)
    assert "the meter's battery was low" in said(chart).partition("run 4")[2]
    assert "battery" not in said(chart).partition("run 4")[0]


def test_two_times_are_compared_run_by_run(chart: OverlayChart) -> None:
    press(chart, KEY.Key_Return)
    press(chart, KEY.Key_Right, KEY.Key_Right)
    press(chart, *[KEY.Key_Right] * 4, held=HELD.ShiftModifier)
    assert said(chart) == (
        f"0:48.0, 0:02.0 later; run 1: 2.1956{NO_BREAK}V, −1.6{NO_BREAK}mV; "
        f"run 4: 2.290{NO_BREAK}V, +10{NO_BREAK}mV"
    )
    press(chart, KEY.Key_End)
    assert "run 1: no reading, already ended" in said(chart)  # and no difference from one
    press(chart, KEY.Key_Escape)
    assert "later" not in said(chart)
    assert here(chart).time_s == 110.0
    press(chart, KEY.Key_Return)
    assert "measured from here" in said(chart)
    press(chart, KEY.Key_Escape, KEY.Key_Escape)
    assert chart.reading.reader.here is None
    assert chart.accessibleDescription() == "1 Strip 4, 4 Blank. Salt added"


def test_the_pointer_and_clicks_read_off_what_lies_there(chart: OverlayChart) -> None:
    QTest.mouseMove(chart, point(chart, 30.0))
    assert here(chart).time_s == pytest.approx(30.0, abs=0.5)
    assert said(chart) == ""  # only what was set by hand is told
    QTest.mouseMove(chart, QPoint(10, 200))
    assert chart.reading.reader.here is None
    click(chart, 30.0)
    QTest.mouseMove(chart, QPoint(10, 200))
    first_s = here(chart).time_s
    click(chart, 50.0, HELD.ShiftModifier)
    assert f"0:{here(chart).time_s - first_s:04.1f} later" in said(chart)
    click(chart, here(chart).time_s)
    QTest.mouseMove(chart, QPoint(10, 200))
    assert chart.reading.reader.here is None


def test_dragging_and_the_double_click_leave_no_cursor(chart: OverlayChart) -> None:
    press(chart, KEY.Key_Plus)
    left_s = chart.view.stretch[0]
    QTest.mousePress(chart, LEFT, HELD.NoModifier, point(chart, 40.0))
    QTest.mouseMove(chart, point(chart, 40.0) + QPoint(60, 0))
    QTest.mouseRelease(chart, LEFT, HELD.NoModifier, point(chart, 40.0) + QPoint(60, 0))
    assert chart.view.stretch[0] < left_s
    assert not chart.reading.reader.has_cursor
    middle = curve_place(chart.width(), chart.height()).center()
    QTest.mouseClick(chart, LEFT, HELD.NoModifier, middle)
    assert chart.reading.reader.has_cursor
    QTest.mouseDClick(chart, LEFT, HELD.NoModifier, middle)
    assert not chart.reading.reader.has_cursor
    assert chart.view.stretch == chart.view.whole


def test_keys_look_about_until_the_cursor_is_set_and_zoom_about_it(chart: OverlayChart) -> None:
    press(chart, KEY.Key_Plus, KEY.Key_Plus)
    left_s = chart.view.stretch[0]
    press(chart, KEY.Key_Left)
    assert chart.view.stretch[0] < left_s
    press(chart, KEY.Key_Return, KEY.Key_Right)
    assert chart.frame is not None
    at_s = here(chart).time_s
    x = chart.frame.x(at_s)
    press(chart, *[KEY.Key_Plus] * 5)
    assert here(chart).time_s == at_s
    assert chart.frame.x(at_s) == pytest.approx(x, abs=2)
    for key in (KEY.Key_End, KEY.Key_Home):  # now of the cursor, not of the picture
        press(chart, key)
        assert chart.frame.shows(here(chart).time_s)
        assert chart.view.stretch != chart.view.whole
    press(chart, KEY.Key_Escape, KEY.Key_Home)
    assert chart.view.stretch == chart.view.whole


def test_each_step_is_announced(chart: OverlayChart, monkeypatch: pytest.MonkeyPatch) -> None:
    told: list[str] = []

    def hear(event: object) -> None:
        if isinstance(event, QAccessibleAnnouncementEvent):
            told.append(event.message())

    monkeypatch.setattr(QAccessible, "updateAccessibility", staticmethod(hear))
    press(chart, KEY.Key_Return, KEY.Key_Right)
    assert len(told) == 2
    assert told[-1] == f"0:45.5; run 1: 2.1976{NO_BREAK}V; run 4: 2.280{NO_BREAK}V, at 0:46.0"
    QTest.mouseMove(chart, point(chart, 10.0))
    assert len(told) == 2


def test_the_cursor_stays_at_its_place_when_a_run_is_added_or_unticked(chart: OverlayChart) -> None:
    """Also while two times are compared; the runs then there tell their own readings."""
    first, second = chart.view.runs
    third = OverlayRun(Overview.of(np.arange(100.0), np.full(100, 2.0)), 5.0, "Strip 5", 4)
    press(chart, KEY.Key_Return)
    press(chart, KEY.Key_Right, held=HELD.ShiftModifier)
    before = here(chart)
    assert before.time_s == 45.5
    chart.show_runs([first, second, third], "Salt added, in 2 of 3")
    assert here(chart) == (45.5, (*before.readings, Reading(50, 45.0, 2.0)))
    assert f"run 5: 2.000{NO_BREAK}V, 0{NO_BREAK}mV" in said(chart)
    chart.show_runs([second], "Salt added")  # 45.5 s was measured by the first one only
    assert here(chart) == (45.5, (before.readings[1],))
    assert said(chart).startswith("0:45.5, 0:00.5 later; run 4: ")
    chart.show_runs([first, second], "Salt added")
    assert here(chart) == before
    assert chart.reading.mark.is_shown


def test_the_cursor_goes_where_no_run_is_left(chart: OverlayChart) -> None:
    first, second = chart.view.runs
    press(chart, KEY.Key_Return, KEY.Key_End)
    press(chart, KEY.Key_Home, held=HELD.ShiftModifier)
    chart.show_runs([second], "Salt added")
    assert chart.reading.reader.here is None  # it was at -20 s, and the second begins at 10 s
    assert chart.reading.reader.since is None
    press(chart, KEY.Key_Return)
    press(chart, KEY.Key_End, held=HELD.ShiftModifier)
    since = chart.reading.reader.since
    chart.show_runs([first], "Salt added")  # it ended at 99.5 s, before the 110 s of the cursor
    assert since is not None
    assert chart.reading.reader.here is None
    assert chart.reading.reader.since is None


def test_other_runs_or_another_zero_are_not_read_off_by_the_old_cursor(chart: OverlayChart) -> None:
    first, second = chart.view.runs
    press(chart, KEY.Key_Return)
    chart.show_runs([first, replace(second, zero_s=0.0)], "Begin")
    assert chart.reading.reader.here is None
    assert chart.accessibleDescription() == "1 Strip 4, 4 Blank. Begin"
    press(chart, KEY.Key_Return)
    chart.show_runs([OverlayRun(Overview.of(np.arange(100.0), np.full(100, 2.0)), 0.0, "x", 0)], "Begin")
    assert chart.reading.reader.here is None
    chart.show_runs([], "Begin")
    press(chart, KEY.Key_Return, KEY.Key_Right)
    QTest.mouseMove(chart, QPoint(400, 200))
    assert chart.reading.reader.here is None


@pytest.mark.parametrize(("scheme", "colours"), [("light", LIGHT_RUNS), ("dark", DARK_RUNS)])
def test_each_reading_is_ringed_in_the_colour_of_its_run(
    chart: OverlayChart, theme: Theme, scheme: str, colours: tuple[str, ...]
) -> None:
    theme.choose(scheme)
    click(chart, 90.0)
    image = chart.grab().toImage()
    corner = curve_place(chart.width(), chart.height()).topLeft()
    assert chart.frame is not None
    for reading, number in zip(here(chart).readings, (0, 3), strict=True):
        assert isinstance(reading, Reading)
        x, y = corner.x() + chart.frame.x(reading.time_s), corner.y() + chart.frame.y(reading.value)
        near = places(image.copy(QRect(round(x) - 7, round(y) - 7, 15, 15)), colours[number])
        assert len({*near[:, 1]}) >= 9  # the ring is 11 pixels high, the curve there at most a few
    theme.choose("light")


def test_moving_the_mark_leaves_the_picture_as_if_painted_anew(
    chart: OverlayChart, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Only its own places are painted again, and the curves below it not at all."""
    press(chart, KEY.Key_Return)
    QApplication.processEvents()
    chart.grab()
    painted: list[OverlayPicture] = []
    monkeypatch.setattr(OverlayPicture, "paint", lambda picture, _painter: painted.append(picture))
    for key, held in ((KEY.Key_Left, HELD.ControlModifier), (KEY.Key_Right, HELD.ShiftModifier)) * 3:
        press(chart, key, held=held)
        QApplication.processEvents()
    kept = dots(chart.screen().grabWindow(chart.winId()).toImage()).astype(int)
    anew = dots(chart.grab().toImage()).astype(int)
    assert np.abs(kept - anew).max() < 10  # a smooth edge that is cut off may be rounded otherwise
    assert not painted


def eight_runs(chart: OverlayChart) -> None:
    times_s = np.arange(0, 900.0, 0.3)
    runs = [
        OverlayRun(Overview.of(times_s, 2.2 + 0.01 * number - times_s / 1e4), 100.0 + number, "x", number)
        for number in range(8)
    ]
    chart.show_runs(runs, "Salt added")


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize("size", [AT_SCHOOL, AT_200_PERCENT, LEAST])
def test_eight_runs_have_room_on_the_card(
    chart: OverlayChart, qapp: QApplication, language: str, size: QSize
) -> None:
    """At every place, compared and not; the least chart may say less of each run, but leaves none out."""
    with speaking(qapp, language):
        chart.resize(size)
        eight_runs(chart)
        press(chart, KEY.Key_Return, KEY.Key_Return)
        for key in (KEY.Key_Home, KEY.Key_Right, KEY.Key_End, KEY.Key_Left):
            press(chart, key)
            frame, mark = chart.frame, chart.reading.mark
            assert frame is not None
            place = mark.card_place(frame)
            assert 0 <= place.left() < place.right() <= frame.width
            assert 0 <= place.top() < place.bottom() <= frame.height
            assert mark._marked is not None
            card = mark._marked.card
            assert isinstance(card, OverlayCard)
            assert len(card.words.runs) == 8
            layout = card._layout(place.width(), place.height())
            assert layout.width <= place.width() + 0.5
            assert layout.height <= place.height() + 0.5
            most = max(len(run.more) for run in card.words.runs)
            assert layout.told >= (0 if size == LEAST else min(most, 1) if size == AT_200_PERCENT else most)


def test_the_card_says_less_before_it_leaves_a_run_out() -> None:
    runs = tuple(RunWords(number, f"2.25{number} V", ("−12 mV", "at 0:12.4")) for number in range(8))
    card = OverlayCard(OverlayWords("12:30.5", ("0:02.0 later",), runs))
    heights = [card._layout(width, height) for width, height in ((700, 280), (500, 120), (220, 90))]
    assert [layout.told for layout in heights] == [2, 2, 0]
    assert heights[0].columns == 1
    assert 1 < heights[1].columns < 8
