"""Bars inside the window that say what happened and what to do; they never block anything."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import (
    QApplication,
    QBoxLayout,
    QFrame,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from gui.fonts import font
from gui.widgets.text_button import text_button
from gui.widgets.text_label import TextLabel
from gui.words import translate
from logger.notices import LEVELS

__all__ = ["MOST", "Action", "NoticeBars"]

Action = tuple[str, Callable[[], None]]

MOST = 3
BELOW = 8
SIGNS = {"info": "i", "warning": "!", "danger": "!!"}


class NoticeBars(QWidget):
    """A stack of at most three bars, the gravest on top. A bar is known by its key and replaced by it.

    Attributes
    ----------
    focus_left : emitted with nothing when a bar has gone that the keyboard was on.
    """

    focus_left = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(6)
        self._bars: dict[str, _Bar] = {}
        self._most = MOST
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Maximum)

    def show_bar(
        self, key: str, level: str, text: str, actions: Sequence[Action] = (), *, passes_after_s: float = 0.0
    ) -> None:
        """Show or replace the bar `key`; `passes_after_s` above 0 lets it go by itself."""
        present = self._bars.get(key)
        if present is not None and (present.level, present.text) == (level, text):
            return
        if present is not None and actions and (present.level, present.offers) == (level, tuple(actions)):
            present.say(text)  # in place: its button keeps the focus
            return
        self.drop(key)
        bar = _Bar(level, text, actions, lambda: self.drop(key))
        self._bars[key] = bar
        place = {"danger": 0, "warning": self._count("danger")}.get(level, self._layout.count())
        self._layout.insertWidget(place, bar)
        if passes_after_s:
            bar.passing.timeout.connect(lambda: self.drop(key))
            bar.passing.start(round(1000 * passes_after_s))
        while len(self._bars) > MOST:
            mildest = min(self._bars, key=lambda k: LEVELS.index(self._bars[k].level))
            self.drop(mildest)
        self._fit()

    def limit_to(self, most: int) -> None:
        """Show so many at most, the gravest; the others come when these are closed."""
        if most != self._most:
            self._most = most
            self._fit()

    def drop(self, key: str) -> None:
        """Take the bar `key` away, if it is there."""
        bar = self._bars.pop(key, None)
        if bar is not None:
            had_focus = bar.isAncestorOf(QApplication.focusWidget() or self)
            bar.passing.stop()
            self._layout.removeWidget(bar)
            bar.hide()
            bar.deleteLater()
            self._fit()
            if had_focus:
                self.focus_left.emit()

    def keys_of(self, level: str) -> tuple[str, ...]:
        """Return the keys of the bars of that level, the topmost first."""
        return tuple(key for key, bar in self._bars.items() if bar.level == level)

    @property
    def texts(self) -> dict[str, str]:
        """What is shown at present, by key."""
        return {key: bar.text for key, bar in self._bars.items()}

    def _fit(self) -> None:
        """Show as many as there may be; keep off what stands below, if there is any."""
        for bar in self._bars.values():
            bar.setVisible(self._layout.indexOf(bar) < self._most)
        self._layout.setContentsMargins(0, 0, 0, BELOW if self._bars else 0)

    def _count(self, level: str) -> int:
        return sum(bar.level == level for bar in self._bars.values())


class _Bar(QFrame):
    def __init__(self, level: str, text: str, actions: Sequence[Action], close: Callable[[], None]) -> None:
        super().__init__()
        self.level, self.text, self.offers = level, "", tuple(actions)
        self.setProperty("look", f"bar-{level}")
        self.passing = QTimer(self)
        self.passing.setObjectName("notice passes")
        self.passing.setSingleShot(True)
        self._layout = layout = QBoxLayout(QBoxLayout.Direction.LeftToRight, self)
        layout.setContentsMargins(14, 7, 8, 7)
        layout.setSpacing(6)
        sign = QLabel(SIGNS[level])
        sign.setFont(font(14, "semibold"))
        sign.setProperty("look", "quiet" if level == "info" else level)
        self._words = TextLabel()
        self._words.setFont(font(13.5))
        self._words.setWordWrap(True)
        self._words.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.say(text)
        text_row = QHBoxLayout()
        text_row.setSpacing(10)
        text_row.addWidget(sign)
        text_row.addWidget(self._words, 1)
        self._buttons = QWidget()
        buttons = QHBoxLayout(self._buttons)
        buttons.setContentsMargins(0, 0, 0, 0)
        buttons.setSpacing(10)
        buttons.addStretch(1)
        for label, act in (*actions, (translate("Notices", "Close"), close)):
            buttons.addWidget(_button(label, act))
        layout.addLayout(text_row, 1)
        layout.addWidget(self._buttons)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Where the buttons would take half of the width from the words, they stand below them."""
        super().resizeEvent(event)
        directions = QBoxLayout.Direction
        is_tight = 2 * self._buttons.sizeHint().width() > self.width()
        self._layout.setDirection(directions.TopToBottom if is_tight else directions.LeftToRight)

    def say(self, text: str) -> None:
        """Show other words."""
        if text == self.text:
            return
        self.text = text
        self._words.setText(text)
        self.setAccessibleName(f"{_level_name(self.level)}: {text}")


def _level_name(level: str) -> str:
    if level == "danger":
        return translate("Notices", "Danger")
    return translate("Notices", "Warning") if level == "warning" else translate("Notices", "Note")


def _button(label: str, act: Callable[[], None]) -> QPushButton:
    button = text_button(label, "flat", size_px=13)
    button.setFocusPolicy(Qt.FocusPolicy.TabFocus)  # after a click the space bar is the next step again
    button.clicked.connect(lambda _checked=False: act())
    return button
