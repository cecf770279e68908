"""The window for everyone: names and Tab, sizes, room, the shortcuts that always work."""

from __future__ import annotations

import re

import pytest
from PySide6.QtCore import QEvent, QObject, QPoint, QRect, QSize, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QAbstractButton,
    QApplication,
    QComboBox,
    QDialog,
    QLabel,
    QLineEdit,
    QListView,
    QWidget,
)

from gui.chart.chart import Chart
from gui.widgets.key_button import KeyButton
from gui.window import LARGEST_START, TITLE_BAR, Window
from tests.gui.fakes import lesson
from tests.gui.window_bench import Bench
from tests.gui.window_bench import bench as bench


def controls(root: QWidget) -> list[QWidget]:
    kinds = (QAbstractButton, QLineEdit, QComboBox, QListView, Chart)
    return [w for w in root.findChildren(QWidget) if isinstance(w, kinds) and w.isVisible()]


def test_every_control_has_a_name_and_is_reached_by_tab(bench: Bench) -> None:
    moment = bench.session.add_moment("note", "first", 50.0)
    bench.look()
    bench.page.edit(moment.id)
    found = controls(bench.window)
    assert len(found) > 10
    for widget in found:
        text = widget.text() if isinstance(widget, QAbstractButton) else ""
        assert widget.accessibleName() or text, f"{widget} has no name"
    bench.press(Qt.Key.Key_Escape)
    reached = set()
    for _ in range(60):
        bench.press(Qt.Key.Key_Tab)
        reached.add(QApplication.focusWidget())
    for widget in controls(bench.window):
        if widget.isEnabled() and widget.focusPolicy() & Qt.FocusPolicy.TabFocus:
            assert widget in reached, f"{widget.accessibleName()} is not reached by Tab"


def test_buttons_are_large_enough_to_hit(bench: Bench) -> None:
    """WCAG 2.2, 2.5.8: at least 24 by 24."""
    for widget in controls(bench.window):
        assert widget.width() >= 24
        assert widget.height() >= 24, widget.accessibleName()


SIZES = [(1366, 768), (1280, 720), (1920, 1080), (960, 540), (683, 384)]
"""The last two are a full-HD screen and a school laptop's at 200 %."""


@pytest.mark.parametrize(("width", "height"), SIZES)
def test_everything_fits_the_screen(bench: Bench, width: int, height: int) -> None:
    for typing in (False, True):
        if typing:
            bench.press(Qt.Key.Key_M)
        bench.window.resize(width, height)
        bench.look()
        assert (bench.window.width(), bench.window.height()) == (width, height)
        assert bench.window._scroll.verticalScrollBar().maximum() == 0  # with the cautions in their bar, too
        for widget in controls(bench.window):
            corner = widget.mapTo(bench.window, widget.rect().bottomRight())
            if bench.page.panel.isAncestorOf(widget):  # the column scrolls up and down, never sideways
                corner.setY(0)
            assert corner.x() <= width, widget.accessibleName()
            assert corner.y() <= height, widget.accessibleName()


def test_the_menu_fits_the_height_of_a_school_laptop(bench: Bench) -> None:
    """A longer one falls into two columns, which hide the run."""
    assert bench.window.menu.sizeHint().height() <= 720


def test_what_has_no_room_in_a_small_window_stays_in_the_menu(bench: Bench) -> None:
    bench.window.resize(683, 384)
    bench.look()
    assert not bench.page.foot.kinds.isVisible()
    assert not bench.page.foot.skip.isVisible()
    keys = {key.toString() for a in bench.window.actions() for key in a.shortcuts()}
    assert {"K", "Ctrl+K", "Ctrl+R", "Ctrl+T"} <= keys
    assert bench.page.foot.tag.accessibleName() == "Tag"
    bench.window.resize(1366, 768)
    bench.look()
    assert bench.page.foot.kinds.isVisible()


def test_no_line_breaks_between_a_number_and_its_unit(bench: Bench) -> None:
    """The space between a number and its unit is a no-break space, wherever words are shown."""
    times_s, values = lesson(900)
    bench.run.push(times_s[360:900], values[360:900])
    bench.session.add_moment("salt_added", "", 285.0)
    bench.qtbot.waitUntil(
        lambda: any(p.phase == "growth" for v in [bench.session.view] if v for p in v.phases), timeout=10_000
    )
    bench.run.push(times_s[900:], values[900:])
    bench.qtbot.waitUntil(
        lambda: bench.session.view is not None and bench.session.view.saved is not None, timeout=10_000
    )
    bench.page.stamp("step", bench.session.now_s)
    bench.look()
    texts = [w.text() for w in bench.window.findChildren(QLabel) if w.isVisible()]
    texts += [w.accessibleName() for w in bench.window.findChildren(KeyButton)]  # they paint their words
    assert any("mA" in text for text in texts)
    units = r"(?:s|min|h|V|mV|A|mA|C|mL|%|°C|mV/min|readings/s|Hz|MB)"
    for text in texts:
        assert not re.search(rf"\d {units}(?![\w/])", text), text


def test_the_dialogs_have_names_and_are_reached_by_tab(bench: Bench) -> None:
    bench.page.plan_steps()
    bench.window.close()
    dialogs = [d for d in bench.window.findChildren(QDialog) if d.isVisible()]
    assert len(dialogs) == 2
    for dialog in dialogs:
        for widget in dialog.findChildren(QWidget):
            if isinstance(widget, QAbstractButton | QLineEdit | QComboBox) and widget.isVisible():
                text = widget.text() if isinstance(widget, QAbstractButton) else ""
                assert widget.accessibleName() or text, f"{widget} has no name"
                assert widget.focusPolicy() & Qt.FocusPolicy.TabFocus
                assert widget.height() >= 24
        dialog.close()


@pytest.mark.parametrize("scheme", ["dark", "light"])
def test_the_chart_follows_a_change_of_colours(bench: Bench, scheme: str) -> None:
    bench.window.theme.choose(scheme)
    chart = bench.window.findChild(Chart)
    chart.refresh(bench.run.clock.now_s())
    picture = chart.grab().toImage()
    ground = picture.pixelColor(picture.width() - 2, picture.height() // 2)
    assert ground.name() == bench.window.theme.colours.paper


def test_ctrl_e_stops_the_run_while_words_are_typed_and_keeps_them(bench: Bench) -> None:
    bench.press(Qt.Key.Key_M)
    bench.type("colour brown")
    bench.press(Qt.Key.Key_E, Qt.KeyboardModifier.ControlModifier)
    bench.qtbot.waitUntil(lambda: bench.session.state != "running")
    assert bench.session.moments[-1].label == "colour brown"


class TakesCtrlLetters(QObject):
    """Makes a field take letters with Ctrl for keys of its own, as every line of text does under X11."""

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if isinstance(event, QKeyEvent) and event.modifiers() == Qt.KeyboardModifier.ControlModifier:
            event.accept()
            return event.type() == QEvent.Type.ShortcutOverride
        return super().eventFilter(watched, event)


def test_ctrl_e_stops_the_run_from_a_field_of_the_bench(bench: Bench) -> None:
    bench.press(Qt.Key.Key_F3)
    title = QApplication.focusWidget()
    assert isinstance(title, QLineEdit)
    title.installEventFilter(TakesCtrlLetters(title))
    bench.press(Qt.Key.Key_E, Qt.KeyboardModifier.ControlModifier)
    bench.qtbot.waitUntil(lambda: bench.session.state != "running")


def test_the_text_being_typed_leaves_the_windows_shortcuts_alone(bench: Bench) -> None:
    bench.press(Qt.Key.Key_M)
    bench.type("colour brown")
    field = bench.page.foot.entry._label
    bench.press(Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    assert field.selectedText() == "colour brown"
    field.installEventFilter(TakesCtrlLetters(field))
    bench.press(Qt.Key.Key_E, Qt.KeyboardModifier.ControlModifier)
    bench.qtbot.waitUntil(lambda: bench.session.state != "running")
    assert bench.session.moments[-1].label == "colour brown"


@pytest.mark.parametrize(
    ("free", "fills"),
    [((1366, 728), True), ((1280, 680), True), ((1600, 860), True), ((1920, 1040), False)],
)
def test_the_window_fills_a_small_screen_and_is_a_part_of_a_large_one(
    window: Window, monkeypatch: pytest.MonkeyPatch, free: tuple[int, int], fills: bool
) -> None:
    """Else what stands at its lower edge would lie below that of the screen, by the height of a title bar."""
    screen = window.screen()
    monkeypatch.setattr(type(screen), "availableGeometry", lambda _screen: QRect(QPoint(), QSize(*free)))
    window.hide()
    window.show_at_start()
    assert window.isMaximized() is fills
    if not fills:
        assert window.size() == LARGEST_START
    window.showNormal()
    assert window.height() <= free[1] - TITLE_BAR, "its lowest buttons stood below the edge then"


def test_the_menu_opens_at_its_settings_by_the_usual_key(bench: Bench) -> None:
    bench.press(Qt.Key.Key_Comma, Qt.KeyboardModifier.ControlModifier)
    menu = bench.window.menu
    assert menu.isVisible()
    assert menu.activeAction() is not None
    assert menu.activeAction().text() == "Colours"
    menu.close()
    bench.window.wall_switch.toggle()
    bench.press(Qt.Key.Key_Comma, Qt.KeyboardModifier.ControlModifier)
    assert not menu.isVisible(), "the wall has no header"
