"""Values are read off the curve by key and by pointer, as they were measured, and told in words."""

from __future__ import annotations

import time

import numpy as np
import pytest
from PySide6.QtCore import QEvent, QPoint, Qt
from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent, QKeyEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from drivers.samples import Quality, Samples
from gui.chart.chart import Chart
from gui.chart.notes import Notes
from gui.theme import LIGHT
from logger.moments import new_moment
from logger.overview import Overview
from logger.reading_off import Reading
from logger.recording import Gap
from tests.gui.chart.test_chart import chart, dots, in_chart, places  # noqa: F401 - a fixture

KEY, HELD = Qt.Key, Qt.KeyboardModifier
COUNT = 200


def few_readings() -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Two hundred readings, every half second, of a voltage that falls; some flagged, one beyond range."""
    times_s = np.arange(COUNT) / 2
    values = np.round(2.25 - 0.0004 * np.arange(COUNT), 4)
    values[120] = np.inf
    quality = np.zeros(COUNT, np.uint8)
    quality[120] = Quality.OVERLOAD
    quality[130] = Quality.HOLD | Quality.SUSPECT
    return times_s, values, quality


@pytest.fixture
def finished(chart: Chart) -> Chart:  # noqa: F811
    times_s, values, quality = few_readings()
    gap = Gap(69.5, 70.0, "cell_voltage", "unplugged")
    chart.show_overview(Overview.of(times_s, values, quality=quality, gaps=[gap]), is_live=False)
    chart.show_notes(Notes((new_moment(40.0, "salt_added", "green salt"),)))
    chart.refresh(100.0)
    return chart


def here(chart: Chart) -> Reading:  # noqa: F811
    found = chart.reading.reader.here
    assert found is not None
    return found


def press(chart: Chart, *keys: KEY, held: HELD = HELD.NoModifier) -> None:  # noqa: F811
    for key in keys:
        QTest.keyClick(chart, key, held)


def set_to(chart: Chart, number: int) -> None:  # noqa: F811
    press(chart, KEY.Key_Return, KEY.Key_Home, *[KEY.Key_Right] * number)
    assert here(chart).number == number


def test_arrows_go_reading_by_reading_where_there_is_room(finished: Chart) -> None:
    times_s, values, _ = few_readings()
    press(finished, KEY.Key_Return)
    middle = here(finished)
    assert abs(middle.time_s - 50.0) <= 1.5
    press(finished, KEY.Key_Right)
    assert here(finished).number == middle.number + 1
    press(finished, KEY.Key_Left, KEY.Key_Left)
    assert here(finished).number == middle.number - 1
    assert (here(finished).time_s, here(finished).value) == (
        times_s[middle.number - 1],
        values[middle.number - 1],
    )
    assert f"{values[middle.number - 1]:.4f}\u00a0V" in finished.accessibleDescription()
    press(finished, KEY.Key_End)
    assert here(finished).number == COUNT - 1
    press(finished, KEY.Key_Right)
    assert here(finished).number == COUNT - 1
    press(finished, KEY.Key_Home)
    assert here(finished).number == 0


def test_arrows_go_by_pixels_where_readings_are_dense_and_each_value_is_a_reading(
    chart: Chart,  # noqa: F811
) -> None:
    times_s = np.arange(0, 1000.0, 0.01)
    values = 2.2 + 0.01 * np.random.default_rng(1).standard_normal(times_s.size)
    chart.show_overview(Overview.of(times_s, values), is_live=False)
    chart.refresh(1000.0)
    assert chart.frame is not None
    press(chart, KEY.Key_Return)
    first = here(chart)
    for step in range(1, 20):
        press(chart, KEY.Key_Right)
        found = here(chart)
        assert chart.frame.x(found.time_s) - chart.frame.x(first.time_s) == pytest.approx(step, abs=0.3)
        assert found.value == values[found.number]
    wide_s = (chart.frame.right_s - chart.frame.left_s) / chart.frame.width
    begin_s = chart.frame.left_s + np.floor((found.time_s - chart.frame.left_s) / wide_s) * wide_s
    shares = values[(times_s >= begin_s) & (times_s < begin_s + wide_s)]
    words = chart.accessibleDescription()
    assert f"{shares.size} readings here: {shares.min():.6f} to {shares.max():.6f}\u00a0V" in words
    press(chart, KEY.Key_Left, held=HELD.ControlModifier)
    assert found.time_s - here(chart).time_s == pytest.approx(100.0, rel=0.03)  # a tenth of the picture


def test_two_readings_are_compared(finished: Chart) -> None:
    set_to(finished, 60)
    press(finished, KEY.Key_Return)
    assert "measured from here" in finished.accessibleDescription()
    press(finished, *[KEY.Key_Right] * 25)
    # 25 readings of half a second and of -0.4 mV each
    assert "0:12.5 later, −10.0\u00a0mV" in finished.accessibleDescription()
    press(finished, KEY.Key_Escape)
    assert "later" not in finished.accessibleDescription()
    assert here(finished).number == 85
    press(finished, *[KEY.Key_Left] * 5, held=HELD.ShiftModifier)
    assert "0:02.5 earlier, +2.0\u00a0mV" in finished.accessibleDescription()
    press(finished, KEY.Key_Escape, KEY.Key_Escape)
    assert finished.reading.reader.here is None
    assert finished.accessibleDescription() == ""


def test_a_difference_of_volts_is_told_in_volts(chart: Chart) -> None:  # noqa: F811
    times_s, values = np.arange(4.0), np.array([26.9678, 2.0233, 1.0234, 2.0233])
    chart.show_overview(Overview.of(times_s, values), is_live=False)
    chart.refresh(3.0)
    press(chart, KEY.Key_Return, KEY.Key_End)
    press(chart, KEY.Key_Home, held=HELD.ShiftModifier)
    assert "0:03.0 earlier, +24.9445\u00a0V" in chart.accessibleDescription()
    press(chart, KEY.Key_Escape, KEY.Key_End)
    x, _ = in_chart(chart, 2.0, 2.0)
    QTest.mouseClick(chart, Qt.MouseButton.LeftButton, HELD.ShiftModifier, QPoint(round(x), 300))
    assert "0:01.0 earlier, −999.9\u00a0mV" in chart.accessibleDescription()


def test_a_long_press_of_enter_is_one_press(finished: Chart) -> None:
    def repeat() -> None:
        again = QKeyEvent(QEvent.Type.KeyPress, KEY.Key_Return, HELD.NoModifier, "\r", True)
        QApplication.sendEvent(finished, again)
        assert again.isAccepted()

    press(finished, KEY.Key_Return)
    repeat()
    assert finished.reading.reader.since is None
    press(finished, KEY.Key_Return, KEY.Key_Right)
    since = finished.reading.reader.since
    repeat()
    assert finished.reading.reader.since == since
    assert "later" in finished.accessibleDescription()


def test_a_click_within_a_gap_that_fills_the_picture_leads_nowhere(chart: Chart) -> None:  # noqa: F811
    times_s = np.concatenate((np.arange(50.0), 1000.0 + np.arange(50.0)))
    gap = Gap(50.0, 999.0, "cell_voltage", "unplugged")
    chart.show_overview(Overview.of(times_s, np.full(100, 2.2), gaps=[gap]), is_live=False)
    chart.refresh(1049.0)
    chart.window_of_time.zoom(0.1, 500.0)
    chart.refresh(1049.0)
    assert chart.frame is not None
    seen = chart.frame.left_s, chart.frame.right_s
    assert 60.0 < seen[0] < seen[1] < 990.0
    QTest.mouseClick(chart, Qt.MouseButton.LeftButton, HELD.NoModifier, chart.places.view.center())
    assert chart.reading.reader.here is None
    assert (chart.frame.left_s, chart.frame.right_s) == seen


def test_a_place_that_holds_overload_says_so_beside_its_extremes(chart: Chart) -> None:  # noqa: F811
    times_s = np.arange(20_000) / 100
    values = np.full(times_s.size, 2.25)
    values[:4_000:2] = np.inf
    chart.show_overview(Overview.of(times_s, values), is_live=False)
    chart.refresh(200.0)
    press(chart, KEY.Key_Return, KEY.Key_Home)
    assert "readings here: 2.250 to 2.250\u00a0V, others beyond range" in chart.accessibleDescription()
    press(chart, KEY.Key_End)
    assert "readings here: 2.250 to 2.250\u00a0V" in chart.accessibleDescription()
    assert "beyond range" not in chart.accessibleDescription()


def test_flags_overload_gaps_and_moments_are_named(finished: Chart) -> None:
    set_to(finished, 80)
    assert "moment 1: green salt" in finished.accessibleDescription()
    press(finished, *[KEY.Key_Right] * 40)
    assert "1:00.0, beyond range" in finished.accessibleDescription()
    assert "inf" not in finished.accessibleDescription()
    press(finished, *[KEY.Key_Right] * 9)
    assert "doubtful" not in finished.accessibleDescription()
    press(finished, KEY.Key_Right)
    assert "the meter held its display, doubtful: unlike its neighbours" in finished.accessibleDescription()
    press(finished, *[KEY.Key_Right] * 8)
    assert "gap" not in finished.accessibleDescription()
    press(finished, KEY.Key_Right)
    assert "last before a gap of 0:00.5" in finished.accessibleDescription()
    press(finished, KEY.Key_Right)
    assert "first after a gap of 0:00.5" in finished.accessibleDescription()


def test_arrows_look_about_until_the_cursor_is_set_and_again_when_it_is_left(finished: Chart) -> None:
    press(finished, KEY.Key_Plus)
    left_s = finished.window_of_time.stretch(800)[0]
    press(finished, KEY.Key_Left)
    assert finished.window_of_time.stretch(800)[0] < left_s
    left_s = finished.window_of_time.stretch(800)[0]
    press(finished, KEY.Key_Enter, KEY.Key_Left)
    assert finished.window_of_time.stretch(800)[0] == left_s
    press(finished, KEY.Key_Escape, KEY.Key_Left)
    assert finished.window_of_time.stretch(800)[0] < left_s


def test_the_picture_goes_where_the_cursor_goes_and_zooms_about_it(finished: Chart) -> None:
    press(finished, KEY.Key_Return)
    before = here(finished)
    assert finished.frame is not None
    x = finished.frame.x(before.time_s)
    press(finished, *[KEY.Key_Plus] * 6)
    assert here(finished) == before
    assert finished.frame.right_s - finished.frame.left_s < 40
    assert finished.frame.x(before.time_s) == pytest.approx(x, abs=3)
    for key in (KEY.Key_Home, KEY.Key_End):
        press(finished, key)
        assert finished.frame.shows(here(finished).time_s)
    press(finished, *[KEY.Key_Left] * 120)
    assert finished.frame.shows(here(finished).time_s)


def test_the_cursor_stays_on_its_reading_while_others_come_in(chart: Chart) -> None:  # noqa: F811
    times_s, values, quality = few_readings()
    overview = Overview()
    overview.add(Samples("cell_voltage", times_s[:50], values[:50], quality[:50]))
    chart.show_overview(overview, is_live=True)
    chart.refresh(24.5)
    press(chart, KEY.Key_Return)
    assert here(chart).number == 49  # the newest one
    said = chart.accessibleDescription()
    overview.add(Samples("cell_voltage", times_s[50:], values[50:], quality[50:]))
    chart.refresh(99.5)
    assert here(chart).number == 49
    assert chart.accessibleDescription().split(",")[:2] == said.split(",")[:2]
    chart.window_of_time.zoom(0.1, 99.5)
    chart.refresh(99.5)
    assert "outside the picture" in chart.accessibleDescription()
    press(chart, KEY.Key_Right)
    assert here(chart).number == 50
    assert "outside the picture" not in chart.accessibleDescription()
    chart.show_whole_run()
    press(chart, KEY.Key_End)
    assert here(chart).number == COUNT - 1
    assert chart.window_of_time.is_following


def test_a_step_is_announced_and_the_pointer_is_not(finished: Chart, monkeypatch: pytest.MonkeyPatch) -> None:
    told: list[str] = []

    def hear(event: object) -> None:
        if isinstance(event, QAccessibleAnnouncementEvent):
            told.append(event.message())

    monkeypatch.setattr(QAccessible, "updateAccessibility", staticmethod(hear))
    press(finished, KEY.Key_Return, KEY.Key_Home, KEY.Key_Right)
    assert told[-1] == "0:00.5, 2.2496\u00a0V"
    press(finished, KEY.Key_Escape)
    told.clear()
    QTest.mouseMove(finished, finished.places.view.center())
    assert finished.reading.reader.here is not None
    assert not told
    assert finished.accessibleDescription() == ""


def test_the_pointer_shows_the_nearest_reading_and_takes_it_along(finished: Chart) -> None:
    times_s, values, _ = few_readings()
    x, _y = in_chart(finished, 30.1, 2.2)
    QTest.mouseMove(finished, QPoint(round(x), 300))
    found = here(finished)
    assert found.number == 60
    assert (found.time_s, found.value) == (times_s[60], values[60])
    ring = places(finished.grab().toImage(), LIGHT.ink)
    ring_x, ring_y = in_chart(finished, times_s[60], values[60])
    assert len(ring[(np.abs(ring[:, 0] - ring_x) < 8) & (np.abs(ring[:, 1] - ring_y) < 8)])
    QTest.mouseMove(finished, finished.places.strip.center())
    assert finished.reading.reader.here is None


def test_a_click_keeps_it_shift_compares_and_a_second_click_takes_it_away(finished: Chart) -> None:
    def click(time_s: float, held: HELD = HELD.NoModifier) -> None:
        x, _ = in_chart(finished, time_s, 2.2)
        QTest.mouseClick(finished, Qt.MouseButton.LeftButton, held, QPoint(round(x), 300))

    click(20.0)
    assert here(finished).time_s == 20.0
    QTest.mouseMove(finished, finished.places.strip.center())
    assert here(finished).time_s == 20.0
    click(30.0, HELD.ShiftModifier)
    assert "0:10.0 later, −8\u00a0mV" in finished.accessibleDescription()
    press(finished, KEY.Key_Right)
    assert "0:10.5 later" in finished.accessibleDescription()
    click(30.5)
    QTest.mouseMove(finished, finished.places.strip.center())
    assert finished.reading.reader.here is None


def test_dragging_and_the_double_click_leave_no_cursor(finished: Chart) -> None:
    press(finished, KEY.Key_Plus)
    middle = finished.places.view.center()
    left = Qt.MouseButton.LeftButton
    QTest.mousePress(finished, left, HELD.NoModifier, middle)
    QTest.mouseMove(finished, middle + QPoint(60, 0))
    QTest.mouseRelease(finished, left, HELD.NoModifier, middle + QPoint(60, 0))
    assert not finished.reading.reader.has_cursor
    QTest.mouseClick(finished, left, HELD.NoModifier, middle)
    QTest.mouseDClick(finished, left, HELD.NoModifier, middle)
    assert not finished.reading.reader.has_cursor
    assert finished.window_of_time.shows_whole_run


def test_moving_the_mark_leaves_the_picture_as_if_painted_anew(finished: Chart) -> None:
    """Only its own places are painted again: nothing of an older mark may stay."""
    press(finished, KEY.Key_Return)
    for key, held in ((KEY.Key_Left, HELD.ControlModifier), (KEY.Key_Right, HELD.ShiftModifier)) * 3:
        press(finished, key, held=held)
        QApplication.processEvents()
    kept = dots(finished.screen().grabWindow(finished.winId()).toImage()).astype(int)
    anew = dots(finished.grab().toImage()).astype(int)
    assert np.abs(kept - anew).max() < 10  # a smooth edge that is cut off may be rounded otherwise


def test_in_a_small_chart_time_and_value_stay(finished: Chart) -> None:
    """The least chart leaves the curve some forty pixels: the card loses lines, never its head."""
    finished.resize(finished.minimumSizeHint())
    finished.refresh(100.0)
    press(finished, KEY.Key_Return, KEY.Key_Return)
    mark, frame = finished.reading.mark, finished.frame
    assert frame is not None
    for _ in range(2):
        card = mark.card_place(frame)
        assert 0 <= card.top() < card.bottom() <= frame.height
        assert 0 <= card.left() < card.right() <= frame.width
        press(finished, KEY.Key_End)


def test_nothing_is_read_off_where_nothing_was_measured(chart: Chart) -> None:  # noqa: F811
    chart.show_overview(Overview(), is_live=True)
    chart.refresh(1.0)
    press(chart, KEY.Key_Return, KEY.Key_Right)
    QTest.mouseMove(chart, chart.places.view.center())
    assert chart.reading.reader.here is None


def test_what_a_long_run_no_longer_holds_is_told_by_how_far_it_reaches(chart: Chart) -> None:  # noqa: F811
    """While recording only the newest readings are in memory; of older ones the buckets are."""
    times_s = np.arange(40_000) / 100
    values = 2.2 + 0.01 * np.sin(times_s)
    overview = Overview(samples_kept=4096, most_samples_kept=4096, buckets_kept=4096)
    overview.add(Samples("cell_voltage", times_s, values, np.zeros(times_s.size, np.uint8)))
    chart.show_overview(overview, is_live=True)
    chart.refresh(400.0)
    press(chart, KEY.Key_Return)
    assert here(chart).value == values[-1]
    press(chart, KEY.Key_Home)
    assert here(chart).value is None
    press(chart, KEY.Key_Right, held=HELD.ShiftModifier)
    said = chart.accessibleDescription()
    assert "no longer in memory" in said
    assert "readings here: 2.2" in said
    assert "later" in said
    assert "mV" not in said  # no difference of voltages that are not known
    press(chart, KEY.Key_End)
    assert here(chart).value == values[-1]


def test_a_move_of_the_pointer_costs_little_at_any_length(chart: Chart) -> None:  # noqa: F811
    """Not more than a few times as much at ten million readings as at ten thousand."""
    costs = []
    for count in (10_000, 10_000_000):
        times_s = np.arange(count) / 1000
        values = 2.2 + 0.01 * np.sin(times_s)
        chart.show_overview(Overview.of(times_s, values), is_live=False)
        chart.refresh(times_s[-1])
        moves = []
        for x in range(200, 700, 10):
            begin_s = time.thread_time()
            QTest.mouseMove(chart, QPoint(x, 300))
            moves.append(time.thread_time() - begin_s)
        costs.append(sorted(moves)[len(moves) // 2])
    assert costs[1] < 5 * costs[0] + 0.001
