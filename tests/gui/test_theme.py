"""Both palettes can be read: contrast as WCAG 2.2 asks (1.4.3 text 4.5:1, 1.4.11 graphics 3:1)."""

from __future__ import annotations

import itertools
from collections import Counter

import pytest
from PySide6.QtGui import QGuiApplication, QImage, QPalette
from PySide6.QtWidgets import QLineEdit, QMenu, QStyle, QWidget
from pytestqt.qtbot import QtBot

from gui.theme import DARK, LIGHT, Colours, Theme, style_sheet
from gui.widgets.choice_box import ChoiceBox

TEXTS = ("ink", "quiet", "curve", "moment", "settled", "warning", "danger")
GROUNDS = ("paper", "raised", "band")


def luminance(colour: str) -> float:
    """Relative luminance as WCAG 2.2 defines it."""
    channels = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(a: str, b: str) -> float:
    light, dark = sorted((luminance(a), luminance(b)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_the_measure_itself() -> None:
    """Black on white is 21:1 by definition; #767676 on white is the known limit of 4.54:1."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)
    assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.01)


@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
def test_text_reaches_four_and_a_half_to_one(colours: Colours) -> None:
    pairs = [(t, g) for t, g in itertools.product(TEXTS, GROUNDS)]
    pairs += [("paper", "ink"), ("ink", "warning_soft"), ("ink", "danger_soft"), ("ink", "settled_soft")]
    pairs += [("paper", "quiet"), ("paper", "moment"), ("paper", "settled"), ("danger", "danger_soft")]
    pairs += [
        ("warning", "warning_soft"),
        ("quiet", "warning_soft"),
        ("quiet", "danger_soft"),
    ]  # signs, Close
    for text, ground in pairs:
        ratio = contrast(getattr(colours, text), getattr(colours, ground))
        assert ratio >= 4.5, f"{text} on {ground}: {ratio:.2f}"


@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
def test_graphics_reach_three_to_one(colours: Colours) -> None:
    for part in ("curve", "moment", "settled", "outline"):
        assert contrast(getattr(colours, part), colours.paper) >= 3.0, part
    for soft, part in (("settled_soft", "ink"), ("warning_soft", "warning"), ("danger_soft", "danger")):
        assert contrast(getattr(colours, soft), getattr(colours, part)) >= 3.0, part


def test_the_users_choice_wins_and_the_windows_palette_follows(qapp: QGuiApplication, qtbot: QtBot) -> None:
    theme = Theme(qapp)
    for choice, colours in (("dark", DARK), ("light", LIGHT)):
        with qtbot.waitSignal(theme.changed):
            theme.choose(choice)
        assert theme.colours == colours
        assert qapp.palette().color(QPalette.ColorRole.Window).name() == colours.paper
    with pytest.raises(ValueError, match="one of"):
        theme.choose("sepia")
    theme.deleteLater()


def test_the_style_names_no_colour_that_is_not_in_the_palette() -> None:
    assert "@" not in style_sheet(LIGHT)


@pytest.mark.parametrize("choice", ["light", "dark"])
def test_the_chosen_row_of_a_list_and_chosen_text_can_be_read(
    qtbot: QtBot, theme: Theme, choice: str
) -> None:
    """In the pixels: a style sheet overrides the palette, so the palette alone proves nothing."""
    theme.choose(choice)
    holder = QWidget()
    holder.setStyleSheet(style_sheet(theme.colours))
    qtbot.addWidget(holder)
    box, field = ChoiceBox(theme, holder), QLineEdit("MMMM", holder)
    box.addItems([f"MMMM {number}" for number in range(11)])
    box.setCurrentIndex(8)
    box.move(0, 40)
    holder.resize(240, 400)
    with qtbot.waitExposed(holder):
        holder.show()
    box.showPopup()
    rows = box.view().visualRect(box.model().index(8, 0))
    last = box.view().visualRect(box.model().index(10, 0))
    assert box.view().viewport().rect().contains(last), "every row is seen without scrolling"
    assert contrast(*ground_and_text(box.view().viewport().grab(rows).toImage())) >= 4.5
    box.hidePopup()
    field.selectAll()
    inside = field.rect().adjusted(12, 8, -(field.width() - 36), -8)
    assert contrast(*ground_and_text(field.grab(inside).toImage())) >= 4.5
    theme.choose("light")


def ground_and_text(picture: QImage) -> tuple[str, str]:
    """Return the commonest colour of a picture and, of the rest, the one that differs most from it."""
    pixels = Counter(
        picture.pixelColor(x, y).name() for x in range(picture.width()) for y in range(picture.height())
    )
    ground = pixels.most_common(1)[0][0]
    return ground, max(pixels, key=lambda colour: contrast(ground, colour))


def test_a_menu_that_is_too_long_for_the_screen_scrolls(qtbot: QtBot) -> None:
    """In columns, Qt's other way, the school laptop at 200 % has no room for the second one."""
    holder = QWidget()
    holder.setStyleSheet(style_sheet(LIGHT))
    qtbot.addWidget(holder)
    menu = QMenu(holder)
    menu.ensurePolished()
    assert menu.style().styleHint(QStyle.StyleHint.SH_Menu_Scrollable, None, menu) == 1
