"""Which texts of a window have less room than they need."""

from __future__ import annotations

from collections.abc import Iterator

from PySide6.QtGui import QFontMetricsF
from PySide6.QtWidgets import QComboBox, QLabel, QLineEdit, QPushButton, QScrollArea, QWidget

from gui.fonts import font
from gui.widgets.elided_label import ElidedLabel
from gui.widgets.key_button import KeyButton

SLACK = 1.0
"""Widths of letters are fractions of a pixel, widgets whole ones."""

EDGE_OF_FIELD = 26.0
"""Room that a field keeps free beside its text: padding and edges of the style sheet, and two of Qt."""


def too_tight(root: QWidget) -> list[str]:
    """Return what is cut off within `root`, one text a line."""
    found = []
    for one in root.findChildren(QWidget):
        if one.isVisible() and one.window() is root.window():
            found += [f"{type(one).__name__}: {text}" for text in _cut_off(one)]
    return found


def elided(root: QWidget) -> list[str]:
    """Return the texts that end in an ellipsis because they found no room."""
    return [
        one.text()
        for one in root.findChildren(ElidedLabel)
        if one.isVisible() and one.fitting_text() != one.text()
    ]


def _cut_off(one: QWidget) -> Iterator[str]:
    if isinstance(one, QScrollArea):
        inner = one.widget()
        if inner is not None and inner.width() > one.viewport().width() + SLACK:
            yield f"{one.accessibleName()!r} is {inner.width()} wide in {one.viewport().width()}"
    elif isinstance(one, ElidedLabel):
        return
    elif isinstance(one, QLabel):
        yield from _label(one)
    elif isinstance(one, KeyButton):
        yield from _key_button(one)
    elif isinstance(one, QPushButton | QComboBox):
        text = one.text() if isinstance(one, QPushButton) else one.currentText()
        if one.minimumSizeHint().width() > one.width() + SLACK:
            yield f"{text!r} needs {one.minimumSizeHint().width()}, has {one.width()}"
    elif isinstance(one, QLineEdit) and one.placeholderText() and not isinstance(one.parent(), QComboBox):
        room = one.width() - EDGE_OF_FIELD
        if _width(one, one.placeholderText()) > room + SLACK:
            yield f"{one.placeholderText()!r} has {room}"


def _label(label: QLabel) -> Iterator[str]:
    room = label.contentsRect()
    if not label.wordWrap():
        longest = max(_width(label, line) for line in label.text().split("\n"))
        if longest > room.width() + SLACK:
            yield f"{label.text()!r} needs {longest:.0f}, has {room.width()}"
        return
    words = label.text().replace("/", "/ ").split() or [""]  # Qt breaks lines behind a slash too
    if max(_width(label, word) for word in words) > room.width() + SLACK:
        yield f"a word of {label.text()!r} is wider than {room.width()}"
    elif label.heightForWidth(label.width()) > label.height() + SLACK:
        yield f"{label.text()!r} needs {label.heightForWidth(label.width())} down, has {label.height()}"


def _key_button(button: KeyButton) -> Iterator[str]:
    """The words on the button of the next step are the user's and may end in an ellipsis; ours may not."""
    beside = button._cap_width() + 2 * button._padding
    hint = QFontMetricsF(font(12.5)).horizontalAdvance(button._hint)
    words = QFontMetricsF(button._words_font()).horizontalAdvance(button._words)
    is_ours = button.property("look") not in ("primary", "ready")
    if hint > button.width() - beside + SLACK:
        yield f"{button._hint!r} needs {hint:.0f}, has {button.width() - beside:.0f}"
    if is_ours and words > button.width() - beside + SLACK:
        yield f"{button._words!r} needs {words:.0f}, has {button.width() - beside:.0f}"


def _width(widget: QWidget, text: str) -> float:
    return QFontMetricsF(widget.font()).horizontalAdvance(text)
