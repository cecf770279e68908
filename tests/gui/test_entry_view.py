"""The recording chosen on the shelf uses the room there is; nothing of it is cut off, and no button moves."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QRectF
from PySide6.QtGui import QColor, QImage, QPainter
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from gui.shelf.entry_view import EntryView
from gui.shelf.small_curve import SmallCurve
from gui.theme import LIGHT, Theme
from logger.shelf_entry import ShelfEntry
from tests.gui.fitting import too_tight
from tests.gui.languages import speaking

LARGE, SMALL, NARROW = (1290, 980), (800, 680), (620, 430)
"""Pixels beside the list at 1920x1080 and at 1366x768, and below it where the window is small."""

ENTRY = ShelfEntry(
    Path("folder", "strip-4.h5"),
    "finished",
    title="Strip 4, second dip",
    start_time="2026-11-26T20:39:00+01:00",
    duration_s=1664.0,
    samples=3330,
    last_V=2.006,
    low_V=(2.3, 2.2, 2.1, 2.0),
    high_V=(2.31, 2.3, 2.2, 2.1),
    moments=6,
    size_bytes=88_600,
)


@pytest.fixture(params=["en", "de"])
def view(
    qapp: QApplication, qtbot: QtBot, theme: Theme, request: pytest.FixtureRequest
) -> Iterator[EntryView]:
    theme.choose("light")
    with speaking(qapp, request.param):
        made = EntryView(theme)
        qtbot.addWidget(made)
        made.show_entry(ENTRY)
        made.show()
        yield made


def lay_out(view: EntryView, size: tuple[int, int]) -> None:
    view.resize(*size)
    for _ in range(3):
        QApplication.processEvents()


@pytest.mark.parametrize(("size", "lines"), [(LARGE, 1), (SMALL, 1), (NARROW, 2)])
def test_the_curve_takes_the_room_and_what_is_known_stands_below(
    view: EntryView, size: tuple[int, int], lines: int
) -> None:
    """It stood in a corner of a large screen, of which the rest was empty."""
    lay_out(view, size)
    assert view.curve.width() > 0.95 * size[0]
    if size != NARROW:
        assert view.curve.height() > 0.55 * size[1]
    facts = [fact for fact in view.facts.facts if fact.isVisible()]
    assert len(facts) == 6
    assert len({fact.y() for fact in facts}) == lines
    assert view.facts.y() >= view.curve.geometry().bottom()
    assert too_tight(view) == []


def test_a_bar_that_takes_room_moves_no_button(view: EntryView) -> None:
    lay_out(view, SMALL)
    before, high = view.open.geometry(), view.curve.height()
    lay_out(view, (SMALL[0], SMALL[1] - 60))
    assert view.open.geometry() == before
    assert view.curve.height() == high - 60


def test_what_is_damaged_stands_at_the_top(view: EntryView) -> None:
    view.show_entry(ShelfEntry(Path("folder", "a.h5"), "damaged", problem="it is no recording", size_bytes=3))
    lay_out(view, LARGE)
    assert not view.curve.isVisible()
    assert [fact.isVisible() for fact in view.facts.facts] == [True] + 5 * [False]
    assert view.facts.geometry().bottom() < LARGE[1] / 2
    view.show_entry(ENTRY)
    lay_out(view, LARGE)
    assert len({fact.y() for fact in view.facts.facts}) == 1


@pytest.mark.parametrize("voltage_V", [2.0, 2.25, -2.1])
def test_the_curve_lies_at_its_voltage(view: EntryView, voltage_V: float) -> None:
    flat = ShelfEntry(
        Path("a.h5"), "finished", duration_s=60.0, low_V=8 * (voltage_V,), high_V=8 * (voltage_V,)
    )
    view.show_entry(flat)
    lay_out(view, SMALL)
    curve = SmallCurve.of(flat, 600.0)
    frame = view.curve.frame_of(curve)
    assert frame is not None
    assert frame.low_V < voltage_V < frame.high_V
    assert (frame.left_s, frame.right_s) == (0.0, 60.0)
    image = QImage(int(frame.width), int(frame.height), QImage.Format.Format_RGB32)
    image.fill(QColor(LIGHT.paper))
    painter = QPainter(image)
    range_V = frame.low_V, frame.high_V
    curve.paint(painter, QRectF(0, 0, frame.width, frame.height), range_V, QColor(LIGHT.curve))
    painter.end()
    middle, paper = image.width() // 2, image.pixel(0, 0)
    rows = [y for y in range(image.height()) if image.pixel(middle, y) != paper]
    assert rows
    assert abs(sum(rows) / len(rows) + 0.5 - frame.y(voltage_V)) <= 1.0


def test_where_nothing_was_read_there_are_no_axes(view: EntryView) -> None:
    empty = ShelfEntry(Path("a.h5"), "finished", low_V=(None,), high_V=(None,))
    view.show_entry(empty)
    lay_out(view, SMALL)
    assert view.curve.frame_of(SmallCurve.of(empty, 600.0)) is None
