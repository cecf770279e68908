"""The recording chosen on the shelf uses the room there is; nothing of it is cut off, and no button moves."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QImage, QPainter
from PySide6.QtWidgets import QApplication, QScrollArea
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


@pytest.mark.parametrize("voltage_V", [2.0, 2.25, -2.1, 1e30])
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


def columns_of(high_V: tuple[float | None, ...], width: int) -> list[int]:
    """Return how many pixels of each column a curve from 2 V up fills: 200 pixels are 1 V to 3 V."""
    low_V = tuple(None if voltage_V is None else 2.0 for voltage_V in high_V)
    entry = ShelfEntry(Path("a.h5"), "finished", duration_s=60.0, low_V=low_V, high_V=high_V)
    image = QImage(width, 200, QImage.Format.Format_RGB32)
    image.fill(QColor(LIGHT.paper))
    painter = QPainter(image)
    curve = SmallCurve.of(entry, float(width))
    curve.paint(painter, QRectF(0, 0, width, 200), (1.0, 3.0), QColor(LIGHT.curve))
    painter.end()
    paper = QColor(LIGHT.paper).rgb()
    return [sum(image.pixel(x, y) != paper for y in range(200)) for x in range(width)]


def test_each_part_of_the_run_stands_where_it_was(qapp: QApplication) -> None:
    """Of four parts the first stood at the begin and the last at the end of the run, stretched to both."""
    painted = columns_of((2.0, 2.0, None, None), 400)
    assert all(painted[2:198])
    assert not any(painted[202:])
    painted = columns_of((None, 2.0, None, None), 400)
    assert any(painted[147:153]), "a part that stands alone is seen, too"
    assert not any(painted[:146])
    assert not any(painted[154:])


@pytest.mark.parametrize("damage_V", [27.0, 1e15, 1e30, 1e300])
def test_what_is_damaged_costs_nothing_but_its_own_part(qapp: QApplication, damage_V: float) -> None:
    """Qt lost most of a curve one of whose voltages was beyond belief."""
    painted = columns_of((*99 * (2.1,), damage_V, *100 * (2.1,)), 400)
    assert min(painted) >= 10
    assert max(painted[197:201]) >= 99


@pytest.mark.parametrize(
    "name", ["n" * 200, "2026-11-26_" + "Wasserspaltung_mit_Cobaltphosphat_" * 4, "Ein langer Titel " * 30]
)
def test_a_name_that_has_no_room_in_a_line_takes_none_from_the_curve(view: EntryView, name: str) -> None:
    """It made the page wider than the window: the end of the curve and half of what is known were cut off."""
    view.show_entry(replace(ENTRY, title="", path=Path("folder", f"{name}.h5")))
    lay_out(view, NARROW)
    pane = view.findChild(QScrollArea)
    assert pane is not None
    assert pane.widget().width() <= pane.viewport().width()
    view.show_entry(replace(ENTRY, title=f"{name}\n\n{name}"))
    lay_out(view, NARROW)
    assert pane.widget().width() <= pane.viewport().width()
    assert "\n" not in view._title.text()


def test_a_title_is_shown_as_it_was_written(view: EntryView) -> None:
    """Letters of electrodes in brackets were taken for commands, and gone."""
    view.show_entry(replace(ENTRY, title="Strips <A> and <B>"))
    assert view._title.textFormat() == Qt.TextFormat.PlainText
    assert view._title.text() == "Strips <A> and <B>"


def test_where_no_curve_is_words_say_why(qapp: QApplication, qtbot: QtBot, theme: Theme) -> None:
    """Its place was empty."""
    view = EntryView(theme)
    qtbot.addWidget(view)
    view.show()
    for samples, why in (
        (0, "No voltage of the cell was read."),
        (500, "Every reading was beyond the range of the meter."),
    ):
        view.show_entry(replace(ENTRY, samples=samples, low_V=(None,), high_V=(None,)))
        assert view.curve.accessibleDescription() == why
        lay_out(view, SMALL)
        picture = view.curve.grab().toImage()
        colours = {
            picture.pixel(x, picture.height() // 2 + y) for x in range(picture.width()) for y in range(-9, 9)
        }
        assert len(colours) > 2, "letters"
    view.show_entry(ENTRY)
    assert view.curve.accessibleDescription() == ""


def test_where_nothing_was_read_there_are_no_axes(view: EntryView) -> None:
    empty = ShelfEntry(Path("a.h5"), "finished", low_V=(None,), high_V=(None,))
    view.show_entry(empty)
    lay_out(view, SMALL)
    assert view.curve.frame_of(SmallCurve.of(empty, 600.0)) is None
