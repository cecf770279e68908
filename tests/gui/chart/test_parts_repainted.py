"""While a run is followed only what has changed is painted, and nothing is left of what was."""

from __future__ import annotations

import numpy as np
import pytest
from PySide6.QtCore import QRect
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QApplication, QFrame, QScrollArea, QWidget
from pytestqt.qtbot import QtBot

from drivers.samples import Samples
from gui.chart.chart import Chart
from gui.chart.notes import Level, Notes, PhaseBand, Saving
from gui.theme import Theme
from logger.moments import new_moment
from logger.overview import Overview

RATE_PER_S = 200.0
MOMENTS = (new_moment(5.0, "buffer_in"), new_moment(60.0, "salt_added"))


def pixels(image: QImage) -> np.ndarray:
    image = image.convertToFormat(QImage.Format.Format_RGB32)
    return np.frombuffer(image.constBits(), np.uint32).reshape(image.height(), -1)[:, : image.width()].copy()


def on_screen(window: QWidget) -> np.ndarray:
    """What has come together on the screen, picture after picture."""
    QApplication.processEvents()
    return pixels(window.screen().grabWindow(window.winId()).toImage())


def afresh(chart: Chart) -> np.ndarray:
    return pixels(chart.grab().toImage())


@pytest.fixture
def chart(qtbot: QtBot, theme: Theme) -> Chart:
    theme.choose("light")
    made = Chart(theme)
    qtbot.addWidget(made)
    made.resize(700, 380)
    made.show()
    QApplication.processEvents()
    return made


def lesson(time_s: np.ndarray, seed: int) -> np.ndarray:
    """Open leads, a fall with noise, touching leads, overload: all that may reach beyond the picture."""
    values = (
        2.0 + 0.25 * np.exp(-time_s / 150) + 0.004 * np.random.default_rng(seed).standard_normal(time_s.size)
    )
    values[time_s < 5] = 26.97
    values[(time_s > 92) & (time_s < 92.6)] = 0.01
    values[(time_s > 120) & (time_s < 121)] = np.inf
    if seed:
        values[(time_s > 50) & (time_s < 85)] = 26.97 if seed == 1 else np.inf
    return values


def notes_at(time_s: float, last_V: float) -> Notes:
    level = Level(20.0, 60.0, 2.2, 0.003, "2.200 V before")
    saving = Saving(level, time_s, 2.2 - 0.001 * round(time_s), "saved so far", f"{time_s:.0f} mV")
    phases = (PhaseBand("before", 5.0, 60.0), PhaseBand("growth", 60.0, None))
    return Notes(
        MOMENTS,
        phases,
        (level,) if time_s > 60 else (),
        saving if time_s > 100 else None,
        (time_s, last_V) if np.isfinite(last_V) else None,
    )


@pytest.mark.parametrize("span_s", [None, 600.0, 40.0, 2.0])
@pytest.mark.parametrize("with_notes", [False, True])
@pytest.mark.parametrize("seed", range(3))
def test_what_came_together_on_the_screen_is_what_is_painted_afresh(
    chart: Chart, span_s: float | None, with_notes: bool, seed: int
) -> None:
    random = np.random.default_rng(seed)
    time_s = np.arange(0, 160, 1 / RATE_PER_S)
    values = lesson(time_s, seed)
    overview = Overview()
    chart.show_overview(overview, is_live=True)
    begin = int(random.integers(1, 20_000))
    overview.add(Samples("cell_voltage", time_s[:begin], values[:begin], np.zeros(begin, np.uint8)))
    chart.refresh(float(time_s[begin - 1]))
    if span_s is not None:
        window = chart.window_of_time
        window.zoom(span_s / 160, float(time_s[begin - 1]))
        window.follow()
    pictures = 0
    while begin < time_s.size and pictures < 120:
        end = min(begin + int(random.integers(1, 120)), time_s.size)
        part = slice(begin, end)
        overview.add(Samples("cell_voltage", time_s[part], values[part], np.zeros(end - begin, np.uint8)))
        begin = end
        now_s = float(time_s[end - 1])
        if with_notes:
            chart.show_notes(notes_at(now_s, float(values[end - 1])))
        chart.refresh(now_s)
        QApplication.processEvents()
        pictures += 1
        if pictures % 12 == 0:
            assert np.array_equal(on_screen(chart), afresh(chart)), f"picture {pictures}, {now_s} s"


@pytest.mark.parametrize("noise_V", [0.004, 0.1, 2.0])
def test_a_chart_that_is_scrolled_out_of_a_small_window_is_painted_as_ever(
    qtbot: QtBot, theme: Theme, noise_V: float
) -> None:
    """As in a window too low for its page: where the curve began above it a fault was met at each picture."""
    theme.choose("light")
    chart, pane = Chart(theme), QScrollArea()
    qtbot.addWidget(pane)
    chart.resize(700, 380)
    pane.setFrameShape(QFrame.Shape.NoFrame)
    pane.setWidget(chart)
    pane.resize(720, 200)
    pane.show()
    time_s = np.arange(0, 2000, 0.02)
    values = 2.1 + noise_V * np.random.default_rng(1).standard_normal(time_s.size)
    values[::500] = 26.97
    chart.show_overview(Overview.of(time_s, values), is_live=False)
    chart.refresh(float(time_s[-1]))
    whole = afresh(chart)
    for scrolled in (0, 60, 120, 180):
        pane.verticalScrollBar().setValue(scrolled)
        chart.update()
        seen = on_screen(pane)[: pane.viewport().height(), : chart.width()]
        assert np.array_equal(seen, whole[scrolled : scrolled + len(seen)])


def test_between_two_columns_only_a_strip_of_the_curve_is_painted(
    chart: Chart, monkeypatch: pytest.MonkeyPatch
) -> None:
    time_s = np.arange(0, 160, 1 / RATE_PER_S)
    values = 2.1 + 0.01 * np.sin(time_s)
    overview = Overview()
    chart.show_overview(overview, is_live=True)
    begin, pictures = time_s.size - 400, 0
    overview.add(Samples("cell_voltage", time_s[:begin], values[:begin], np.zeros(begin, np.uint8)))
    chart.refresh(float(time_s[begin - 1]))
    QApplication.processEvents()
    widths: list[int] = []
    view = chart.places.view

    def note(place: QRect) -> None:
        widths.append(place.intersected(view).width())
        QWidget.update(chart, place)

    monkeypatch.setattr(chart, "update", note)
    for first in range(begin, time_s.size, 4):  # 0.02 s, a column of the picture is a quarter of a second
        part = slice(first, first + 4)
        overview.add(Samples("cell_voltage", time_s[part], values[part], np.zeros(4, np.uint8)))
        chart.show_notes(notes_at(float(time_s[first + 3]), float(values[first + 3])))
        chart.refresh(float(time_s[first + 3]))
        QApplication.processEvents()
        pictures += 1
    strips = [width for width in widths if 0 < width < 80]
    assert len(strips) > 0.9 * pictures  # of the newest reading's dot, and of the curve where it grew
    assert sum(width == view.width() for width in widths) < 4 * pictures * 0.2
