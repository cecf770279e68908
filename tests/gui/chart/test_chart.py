"""The chart draws what was measured, where it was measured, at every zoom."""

from __future__ import annotations

import time

import numpy as np
import pytest
from PySide6.QtCore import QPoint, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QImage, QWheelEvent
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from drivers.samples import Samples
from gui.chart.chart import Chart
from gui.chart.notes import Level, Notes, PhaseBand, Saving
from gui.theme import DARK, LIGHT, Theme
from logger.moments import new_moment
from logger.overview import Overview
from logger.recording import Gap
from tests.gui.fakes import lesson


@pytest.fixture
def chart(qtbot: QtBot, theme: Theme) -> Chart:
    theme.choose("light")
    made = Chart(theme)
    qtbot.addWidget(made)
    made.resize(900, 500)
    made.show()
    QApplication.processEvents()
    return made


def seen(chart: Chart, now_s: float) -> QImage:
    chart.refresh(now_s)
    return chart.grab().toImage()


def places(image: QImage, colour: str, tolerance: int = 60) -> np.ndarray:
    """Rows of (x, y) of the dots that are nearly of a colour."""
    wanted = QColor(colour)
    rgb = np.array([wanted.blue(), wanted.green(), wanted.red()])
    near = (np.abs(dots(image).astype(int) - rgb).sum(axis=2)) < tolerance
    y, x = np.nonzero(near)
    return np.stack([x, y], axis=1)


def dots(image: QImage) -> np.ndarray:
    """Blue, green and red of every dot, shape (height, width, 3)."""
    image = image.convertToFormat(QImage.Format.Format_RGB32)
    raw = np.frombuffer(image.constBits(), np.uint8).reshape(image.height(), image.bytesPerLine() // 4, 4)
    return raw[:, : image.width(), :3].copy()


def in_chart(chart: Chart, time_s: float, voltage_V: float) -> tuple[float, float]:
    """Pixels of a point of the curve in the picture of the widget."""
    assert chart.frame is not None
    corner = chart.places.view.topLeft()
    return corner.x() + chart.frame.x(time_s), corner.y() + chart.frame.y(voltage_V)


def test_the_curve_lies_where_its_readings_are(chart: Chart) -> None:
    times_s = np.arange(0, 100.0, 0.5)
    values = 2.0 + times_s / 1000
    chart.show_overview(Overview.of(times_s, values), is_live=True)
    ink = places(seen(chart, 100.0), LIGHT.curve)
    for time_s in (10.0, 50.0, 90.0):
        x, y = in_chart(chart, time_s, 2.0 + time_s / 1000)
        column = ink[np.abs(ink[:, 0] - x) <= 1]
        assert len(column)
        assert abs(column[:, 1].mean() - y) < 1.5


def test_dense_and_few_readings_lie_at_the_same_place(chart: Chart) -> None:
    for count in (300, 300_000):
        times_s = np.linspace(0, 100.0, count)
        chart.show_overview(Overview.of(times_s, 2.0 + times_s / 1000), is_live=True)
        ink = places(seen(chart, 100.0), LIGHT.curve)
        x, y = in_chart(chart, 70.0, 2.07)
        column = ink[np.abs(ink[:, 0] - x) <= 1]
        assert abs(column[:, 1].mean() - y) < 1.5


def test_a_spike_of_one_sample_reaches_its_full_height(chart: Chart) -> None:
    times_s = np.arange(0, 1000.0, 0.01)
    values = np.full(times_s.size, 2.0)
    values[::9] = 2.1
    values[43_210] = 2.14
    chart.show_overview(Overview.of(times_s, values), is_live=True)
    ink = places(seen(chart, 1000.0), LIGHT.curve)
    x, y = in_chart(chart, 432.10, 2.14)
    near = ink[np.abs(ink[:, 0] - x) <= 1.5]
    assert near[:, 1].min() == pytest.approx(y, abs=2)
    others = ink[np.abs(ink[:, 0] - x) > 4]
    assert others[:, 1].min() > y + 10


@pytest.mark.parametrize("zoom", [1.0, 0.1, 0.001])
def test_a_gap_is_visible_at_every_zoom(chart: Chart, zoom: float) -> None:
    times_s = np.concatenate([np.arange(0, 500, 0.1), np.arange(500.5, 1000, 0.1)])
    gap = Gap(499.9, 500.5, "cell_voltage", "unplugged")
    values = np.full(times_s.size, 2.0) + 0.001 * np.sin(times_s)
    chart.show_overview(Overview.of(times_s, values, gaps=[gap]), is_live=True)
    chart.refresh(1000.0)
    chart.window_of_time.toggle_following()
    chart.window_of_time.zoom(zoom, 500.2)
    image = seen(chart, 1000.0)
    x, _ = in_chart(chart, 500.2, 2.0)
    bottom = in_chart(chart, 500.2, chart.frame.low_V)[1] if chart.frame else 0
    ticks = places(image, LIGHT.quiet)
    at_foot = ticks[(np.abs(ticks[:, 0] - x) <= 3) & (ticks[:, 1] > bottom - 6) & (ticks[:, 1] <= bottom)]
    assert len(at_foot)


def test_no_line_is_drawn_across_a_gap(chart: Chart) -> None:
    times_s = np.concatenate([np.arange(0, 40.0), np.arange(60.0, 100.0)])
    values = np.where(times_s < 50, 2.0, 2.1)
    gap = Gap(39.0, 60.0, "cell_voltage", "unplugged")
    chart.show_overview(Overview.of(times_s, values, gaps=[gap]), is_live=True)
    ink = places(seen(chart, 100.0), LIGHT.curve)
    left, right = in_chart(chart, 40.0, 2.0)[0], in_chart(chart, 59.0, 2.0)[0]
    assert not len(ink[(ink[:, 0] > left) & (ink[:, 0] < right)])


def test_an_open_circuit_is_marked_at_the_edge_and_does_not_flatten_the_curve(chart: Chart) -> None:
    times_s, values = lesson(600)
    chart.show_overview(Overview.of(times_s, values), is_live=True)
    ink = places(seen(chart, 600.0), LIGHT.curve)
    assert chart.frame is not None
    assert chart.frame.high_V < 2.6
    left, right = in_chart(chart, 5.0, 2.0)[0], in_chart(chart, 40.0, 2.0)[0]
    top = in_chart(chart, 5.0, chart.frame.high_V)[1]
    marks = ink[(ink[:, 0] > left) & (ink[:, 0] < right) & (ink[:, 1] < top + 4)]
    assert len(marks) > (right - left) * 0.8


def test_following_does_not_shimmer(chart: Chart) -> None:
    """Columns that are past keep their picture while the curve moves by whole columns."""
    rng = np.random.default_rng(0)
    times_s = np.arange(0, 200.0, 0.01)
    values = 2.0 + 0.02 * rng.standard_normal(times_s.size)
    overview = Overview()
    block = 10_000
    overview.add(_samples(times_s[:block], values[:block]))
    chart.show_overview(overview, is_live=True)
    chart.refresh(100.0)
    chart.window_of_time.zoom(0.2, 0.0)
    before, frame_before = seen(chart, 100.0), chart.frame
    overview.add(_samples(times_s[block : block + 300], values[block : block + 300]))
    after, frame_after = seen(chart, 103.0), chart.frame
    assert frame_before is not None
    assert frame_after is not None
    shift = frame_before.x(frame_after.left_s)
    assert shift == pytest.approx(round(shift), abs=1e-6)
    moved = round(shift)
    assert moved > 5
    corner = chart.places.view.topLeft()
    left, top, bottom = corner.x() + 30, corner.y() + 40, corner.y() + int(frame_before.height) - 10
    width = 400
    old = before.copy(left + moved, top, width, bottom - top)
    new = after.copy(left, top, width, bottom - top)
    difference = np.abs(dots(old).astype(int) - dots(new))
    assert difference.max() <= 8  # of 255: what antialiasing rounds


def _samples(times_s: np.ndarray, values: np.ndarray) -> Samples:
    return Samples("cell_voltage", times_s, values, np.zeros(times_s.size, np.uint8))


def test_levels_saving_and_last_point_are_drawn(chart: Chart) -> None:
    times_s, values = lesson(900)
    overview = Overview.of(times_s, values)
    level = Level(190, 284, 2.25, 0.002, "2.250 V before")
    last = (float(times_s[-1]), float(values[-1]))
    notes = Notes(
        (new_moment(45, "buffer_in"), new_moment(285, "salt_added")),
        (PhaseBand("before", 45, 285), PhaseBand("growth", 285, None)),
        (level,),
        Saving(level, last[0], last[1], "saved so far", "219 ± 4 mV"),
        last,
    )
    chart.show_overview(overview, is_live=True)
    chart.show_notes(notes)
    image = seen(chart, 900.0)
    green = places(image, LIGHT.settled)
    x, y = in_chart(chart, 500.0, 2.25)
    assert len(green[(np.abs(green[:, 0] - x) < 2) & (np.abs(green[:, 1] - y) < 2)])
    arrow_x = in_chart(chart, last[0], 2.1)[0] + 14
    middle = in_chart(chart, last[0], 2.12)[1]
    assert len(green[(np.abs(green[:, 0] - arrow_x) < 2) & (np.abs(green[:, 1] - middle) < 2)])
    purple = places(image, LIGHT.moment)
    flag_x = in_chart(chart, 285.0, 2.0)[0]
    assert len(purple[np.abs(purple[:, 0] - flag_x) < 9]) > 50


def test_what_had_not_settled_does_not_look_settled(chart: Chart) -> None:
    """Green says settled, here and on paper; another level is dashed and in the colour of lesser things."""
    times_s, values = lesson(900)
    chart.show_overview(Overview.of(times_s, values), is_live=False)
    level = Level(600, 800, 2.2, 0.02, "2.200 V after, not settled", is_settled=False)
    chart.show_notes(Notes(phases=(PhaseBand("after", 500, 890),), levels=(level,)))
    image = seen(chart, 900.0)
    assert len(places(image, LIGHT.settled)) == 0
    blue, green, red = dots(image).astype(int).transpose(2, 0, 1)
    assert not (green > np.maximum(red, blue) + 3).any(), "nor is the band of its interval green"
    left, right = in_chart(chart, 600.0, 2.2)[0], in_chart(chart, 800.0, 2.2)[0]
    y = in_chart(chart, 700.0, 2.2)[1]
    quiet = places(image, LIGHT.quiet)
    line = quiet[(np.abs(quiet[:, 1] - y) < 1) & (quiet[:, 0] > left) & (quiet[:, 0] < right)]
    assert len(line) > 0.4 * (right - left)
    thick = quiet[(np.abs(quiet[:, 1] - y - 1) < 0.6) & (quiet[:, 0] > left) & (quiet[:, 0] < right)]
    assert len(np.unique(thick[:, 0])) < 0.9 * (right - left), "dashed"


def test_a_finished_run_is_seen_whole_also_where_no_readings_came_at_its_end(chart: Chart) -> None:
    """Its meter had been unplugged: the last moments and the gap lay beyond the right edge."""
    times_s = np.arange(0, 75.0, 0.5)
    overview = Overview.of(times_s, 2 + times_s / 1e3, gaps=[Gap(75.0, 125.0, "cell_voltage", "gone")])
    chart.show_overview(overview, is_live=False)
    moment = new_moment(123.0, "note")
    chart.show_notes(Notes(moments=(moment,)))
    purple = places(seen(chart, 125.0), LIGHT.moment)
    assert chart.frame is not None
    assert chart.frame.shows(125.0)
    assert len(purple[np.abs(purple[:, 0] - in_chart(chart, 123.0, 2.0)[0]) < 9]) > 50


def test_the_palette_changes_at_once(chart: Chart, theme: Theme) -> None:
    times_s = np.arange(100.0)
    chart.show_overview(Overview.of(times_s, 2 + times_s / 1e3), is_live=True)
    chart.refresh(100.0)
    theme.choose("dark")
    try:
        assert len(places(chart.grab().toImage(), DARK.curve)) > 100
    finally:
        theme.choose("light")


def test_nothing_is_drawn_again_when_nothing_is_new(chart: Chart) -> None:
    chart.show_overview(Overview.of(np.arange(10.0), np.full(10, 2.0)), is_live=False)
    assert chart.refresh(10.0)
    assert not chart.refresh(10.0)


def test_new_readings_are_drawn_though_they_fall_into_the_same_column(chart: Chart) -> None:
    overview = Overview()
    overview.add(_samples(np.arange(600.0), np.full(600, 2.0)))
    chart.show_overview(overview, is_live=True)
    assert chart.refresh(600.0)
    overview.add(_samples(np.array([600.01]), np.array([2.0])))
    assert chart.refresh(600.01)


def test_wheel_drag_and_keys_look_elsewhere(chart: Chart, qtbot: QtBot) -> None:
    times_s, values = lesson(900)
    chart.show_overview(Overview.of(times_s, values), is_live=True)
    chart.refresh(900.0)
    window = chart.window_of_time
    middle = chart.rect().center()
    wheel = QWheelEvent(
        QPointF(middle), QPointF(chart.mapToGlobal(middle)), QPoint(0, 0), QPoint(0, 120),
        Qt.MouseButton.NoButton, Qt.KeyboardModifier.NoModifier, Qt.ScrollPhase.NoScrollPhase, False,
    )  # fmt: skip
    whole = window.stretch(1000)
    with qtbot.waitSignal(chart.looked):
        QApplication.sendEvent(chart, wheel)
    assert window.stretch(1000)[1] - window.stretch(1000)[0] < whole[1] - whole[0]
    assert window.is_following
    qtbot.keyClick(chart, Qt.Key.Key_Left)
    assert not window.is_following
    qtbot.keyClick(chart, Qt.Key.Key_End)
    assert window.is_following
    assert not window.shows_whole_run
    qtbot.keyClick(chart, Qt.Key.Key_Home)
    assert window.shows_whole_run
    _drag(qtbot, chart, QPoint(500, 250), QPoint(620, 250))
    assert not window.is_following
    qtbot.mouseDClick(chart, Qt.MouseButton.LeftButton, pos=QPoint(400, 250))
    assert window.shows_whole_run


def _drag(qtbot: QtBot, chart: Chart, begin: QPoint, end: QPoint) -> None:
    qtbot.mousePress(chart, Qt.MouseButton.LeftButton, pos=begin)
    for step in range(1, 11):
        qtbot.mouseMove(chart, begin + (end - begin) * step / 10)
    qtbot.mouseRelease(chart, Qt.MouseButton.LeftButton, pos=end)


def test_a_hand_that_trembles_while_it_clicks_moves_nothing(chart: Chart, qtbot: QtBot) -> None:
    times_s, values = lesson(900)
    chart.show_overview(Overview.of(times_s, values), is_live=True)
    chart.refresh(900.0)
    qtbot.mousePress(chart, Qt.MouseButton.LeftButton, pos=QPoint(500, 250))
    qtbot.mouseMove(chart, QPoint(503, 252))
    qtbot.mouseRelease(chart, Qt.MouseButton.LeftButton, pos=QPoint(503, 252))
    assert chart.window_of_time.shows_whole_run


def test_a_flag_tells_its_words_and_shows_that_it_can_be_clicked(chart: Chart, qtbot: QtBot) -> None:
    times_s, values = lesson(900)
    chart.show_overview(Overview.of(times_s, values), is_live=True)
    chart.show_notes(Notes((new_moment(285.0, "note", "two spoons"),)))
    chart.refresh(900.0)
    assert chart.frame is not None
    flag = QPointF(chart.frame.x(285.0), 19)
    assert "two spoons" in chart.strip.tip(flag)
    qtbot.mouseMove(chart, chart.places.strip.topLeft() + flag.toPoint())
    assert chart.cursor().shape() == Qt.CursorShape.PointingHandCursor
    qtbot.mouseMove(chart, QPoint(500, 250))
    assert chart.cursor().shape() == Qt.CursorShape.ArrowCursor


def test_a_part_keeps_its_picture_while_it_stays_the_same(
    chart: Chart, monkeypatch: pytest.MonkeyPatch
) -> None:
    times_s, values = lesson(900)
    chart.show_overview(Overview.of(times_s, np.where(values > 3, 2.3, values)), is_live=True)
    chart.refresh(900.0)
    chart.window_of_time.zoom(0.5, 500.0)
    chart.window_of_time.toggle_following()
    chart.refresh(900.0)
    QApplication.processEvents()  # what is stale so far is painted
    painted: list[str] = []
    for part in chart.parts:
        name = type(part).__name__
        monkeypatch.setattr(part, "paint", lambda *_, name=name: painted.append(name))
    chart.window_of_time.move(1.0)
    chart.refresh(900.0)
    QApplication.processEvents()
    assert "CurveLayer" in painted
    assert "TimeAxis" in painted
    assert not {"VoltageAxis", "MomentStrip", "PhaseRuler"} & set(painted)


@pytest.mark.parametrize("scale", [1.25, 1.5, 2.0])
def test_columns_are_filled_without_seams_on_any_screen(chart: Chart, scale: float) -> None:
    """A band of noise is one surface, also where a pixel of the screen is not one of the design."""
    times_s = np.arange(0, 1000.0, 0.005)
    values = 2.0 + 0.02 * np.random.default_rng(4).standard_normal(times_s.size)
    chart.show_overview(Overview.of(times_s, values), is_live=True)
    chart.refresh(1000.0)
    image = QImage((chart.size() * scale), QImage.Format.Format_RGB32)
    image.setDevicePixelRatio(scale)
    chart.render(image)
    assert chart.frame is not None
    _, y = in_chart(chart, 0.0, 2.0)
    left, right = (in_chart(chart, t, 2.0)[0] for t in (5.0, 995.0))
    row = dots(image)[round(y * scale), round(left * scale) : round(right * scale)]
    wanted = QColor(LIGHT.curve)
    assert (row == (wanted.blue(), wanted.green(), wanted.red())).all()


def test_letters_go_on_to_the_window(chart: Chart, qtbot: QtBot) -> None:
    chart.show_overview(Overview(), is_live=True)
    before = chart.window_of_time.stretch(100)
    qtbot.keyClick(chart, Qt.Key.Key_X)
    assert chart.window_of_time.stretch(100) == before


def test_a_frame_over_ten_million_readings_is_quick(chart: Chart) -> None:
    """The chart study measured 4 to 8 ms on this kind of machine; ten times that is a failure."""
    times_s = np.arange(10_000_000) / 1000.0
    values = 2 + 0.01 * np.random.default_rng(0).standard_normal(times_s.size)
    chart.show_overview(Overview.of(times_s, values), is_live=True)
    spent = []
    for i in range(12):
        begin = time.thread_time()
        chart.refresh(10_000.0 + 40 * i)
        chart.repaint()
        spent.append(time.thread_time() - begin)
    assert sorted(spent)[len(spent) // 2] < 0.08


def test_words_know_of_a_jump_between_two_columns(chart: Chart) -> None:
    """The stroke from the last reading before a lift-out to the first after it crosses everything between."""
    times_s = np.arange(0, 1000.0, 1.0)
    values = np.where((times_s >= 500) & (times_s < 520), 27.0, 2.0)
    chart.show_overview(Overview.of(times_s, values), is_live=False)
    chart.refresh(1000.0)
    assert chart.frame is not None
    level = chart.frame.height / 3
    x = chart.frame.x(499.5)
    crossed = chart._saving._is_crossed(QRectF(x - 20, level, 40, 20), chart.frame)
    free = chart._saving._is_crossed(QRectF(x - 200, level, 40, 20), chart.frame)
    assert crossed
    assert not free


def test_a_gap_crosses_no_words(chart: Chart) -> None:
    times_s = np.append(np.arange(0, 400.0), np.arange(600.0, 1000.0))
    values = np.where(times_s < 500, 2.0, 2.3)
    gap = Gap(399.5, 599.5, "cell_voltage", "unplugged")
    chart.show_overview(Overview.of(times_s, values, gaps=(gap,)), is_live=False)
    chart.refresh(1000.0)
    assert chart.frame is not None
    place = QRectF(chart.frame.x(480.0), chart.frame.height / 2 - 10, 30, 20)
    assert not chart._saving._is_crossed(place, chart.frame)
