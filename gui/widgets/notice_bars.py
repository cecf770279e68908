"""Bars inside the window that say what happened and what to do; they never block anything."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial

from PySide6.QtCore import QSize, Qt, QTimer, Signal
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
from gui.tips import tip
from gui.widgets.text_button import LOW_PX, TARGET_PX, text_button
from gui.widgets.text_label import TextLabel, breakable
from gui.words import translate

__all__ = ["MOST", "Action", "NoticeBars"]

Action = tuple[str, Callable[[], None]]

MOST = 3
BELOW = 8
SIGNS = {"info": "i", "warning": "!", "danger": "!!"}
SIGN_WIDTH = 12
BESIDE_WORDS = 26
"""Sign and gaps."""

LONGEST = 600
"""Characters of a bar: of a hundred changes that could not be written the buttons stood below the window."""

LONGEST_WORD = 40
"""Characters of a word that is left out as a whole where a bar is cut in it: a path is not."""


class NoticeBars(QWidget):
    """A stack of at most three bars, the gravest on top. A bar is known by its key and replaced by it.

    Warnings and dangers beyond them wait until one is closed: each may be of another meter, or hold the only
    way to a run that is not saved. A note for which there is no room is left out.

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
        is_like = present is not None and (present.level, present.labels) == (level, _labels(actions))
        if present is not None and is_like and (actions or present.text == text):
            present.offers = tuple(actions)  # in place: its button keeps the focus, but does what is new
            present.say(text)
            present.pass_after(passes_after_s)
            return
        self.drop(key)
        bar = _Bar(level, text, actions, lambda: self.drop(key))
        bar.passing.timeout.connect(lambda: self.drop(key))
        self._bars[key] = bar
        place = {"danger": 0, "warning": self._count("danger")}.get(level, self._layout.count())
        self._layout.insertWidget(place, bar)
        bar.pass_after(passes_after_s)
        notes = [key for key, one in self._bars.items() if one.level == "info"]
        for note in notes[: max(len(self._bars) - MOST, 0)]:  # the oldest first
            self.drop(note)
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

    def sizeHint(self) -> QSize:
        """As high as the words are in the present width; Qt would take that for a width of its own."""
        return QSize(super().sizeHint().width(), self._height(super().sizeHint().height()))

    def minimumSizeHint(self) -> QSize:
        """Never lower: words are not cut off."""
        return QSize(super().minimumSizeHint().width(), self._height(super().minimumSizeHint().height()))

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Words break elsewhere in another width."""
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            self.updateGeometry()

    def _height(self, unknown: int) -> int:
        is_known = self.testAttribute(Qt.WidgetAttribute.WA_Resized) and self._layout.hasHeightForWidth()
        return self._layout.heightForWidth(self.width()) if is_known else unknown

    def keys_of(self, level: str) -> tuple[str, ...]:
        """Return the keys of the bars of that level, the topmost first."""
        found = [key for key, bar in self._bars.items() if bar.level == level]
        return tuple(sorted(found, key=lambda key: self._layout.indexOf(self._bars[key])))

    @property
    def texts(self) -> dict[str, str]:
        """What is shown at present, by key."""
        return {key: bar.text for key, bar in self._bars.items()}

    def _fit(self) -> None:
        """Show as many as there may be; keep off what stands below, if there is any."""
        waiting = max(len(self._bars) - self._most, 0)
        for bar in self._bars.values():
            place = self._layout.indexOf(bar)
            bar.setVisible(place < self._most)
            bar.show_waiting(waiting if place == self._most - 1 else 0)
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
        layout.setContentsMargins(14, 1, 6, 1)
        layout.setSpacing(6)
        sign = QLabel(SIGNS[level])
        sign.setFont(font(14, "semibold"))
        sign.setFixedWidth(SIGN_WIDTH)  # the words of bars above one another begin at one line
        sign.setProperty("look", "quiet" if level == "info" else level)
        self._words = TextLabel()
        self._words.setFont(font(13.5))
        self._words.setWordWrap(True)
        self._words.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.say(text)
        text_row = QHBoxLayout()
        text_row.setSpacing(8)
        text_row.setContentsMargins(0, 6, 0, 6)
        text_row.addWidget(sign)
        text_row.addWidget(self._words, 1)
        self._buttons = QWidget()
        buttons = self._button_row = QBoxLayout(QBoxLayout.Direction.LeftToRight, self._buttons)
        buttons.setContentsMargins(0, 0, 0, 0)
        buttons.setSpacing(10)
        buttons.addStretch(1)
        self._waiting = QLabel()
        self._waiting.setFont(font(12.5))
        self._waiting.setProperty("look", "quiet")
        self._waiting.hide()
        buttons.addWidget(self._waiting)
        for number, (label, _act) in enumerate(actions):
            buttons.addWidget(_button(label, "act", partial(self._take_up, number)))
        buttons.addWidget(_button(translate("Notices", "Close"), "flat", close))
        layout.addLayout(text_row, 1)
        layout.addWidget(self._buttons)

    @property
    def labels(self) -> list[str]:
        """The words on its buttons."""
        return _labels(self.offers)

    def pass_after(self, seconds: float) -> None:
        """Go by itself after so long, counted anew; 0: stay."""
        if seconds:
            self.passing.start(round(1000 * seconds))
        else:
            self.passing.stop()

    def _take_up(self, number: int) -> None:
        _label, act = self.offers[number]
        act()

    def minimumSizeHint(self) -> QSize:
        """As narrow as its longest word or button, however they stand now: they give way in `resizeEvent`."""
        margins = self._layout.contentsMargins()
        widths = [BESIDE_WORDS + self._words.minimumSizeHint().width()]
        widths += [part.minimumSizeHint().width() for part in self._buttons.findChildren(QWidget)]
        return QSize(max(widths) + margins.left() + margins.right(), super().minimumSizeHint().height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Buttons stand beside the words, or, smaller, below them where the bar is lower that way."""
        super().resizeEvent(event)
        self._arrange()

    def _arrange(self) -> None:
        directions = QBoxLayout.Direction
        room = self.contentsRect().marginsRemoved(self._layout.contentsMargins()).width()
        self._button_row.setDirection(directions.LeftToRight)
        buttons = self._buttons.sizeHint()
        beside = self._words.heightForWidth(room - BESIDE_WORDS - buttons.width())
        below = self._words.heightForWidth(room - BESIDE_WORDS) + LOW_PX
        is_lower = 2 * buttons.width() > self.width() or below < beside
        self._layout.setDirection(directions.TopToBottom if is_lower else directions.LeftToRight)
        if buttons.width() > room:
            self._button_row.setDirection(directions.TopToBottom)
        for button in self._buttons.findChildren(QPushButton):
            button.setMinimumHeight(LOW_PX if is_lower else TARGET_PX)

    def show_waiting(self, count: int) -> None:
        """Say how many bars come when this one is closed."""
        self._waiting.setText(translate("Notices", "{count} more").format(count=count))
        self._waiting.setVisible(count > 0)
        self._arrange()

    def say(self, text: str) -> None:
        """Show other words."""
        if text == self.text:
            return
        self.text = text
        shown = _cut(text)
        self._words.setText(breakable(shown))  # else a long name would make the window as wide as itself
        self._words.setToolTip("" if shown == text else tip(text))
        self.setAccessibleName(f"{_level_name(self.level)}: {text}")
        if self.isVisible():
            self._arrange()


def _cut(text: str) -> str:
    """Return a text of very many words without its middle: at its end stands what to do."""
    if len(text) <= LONGEST:
        return text
    begin, end = text[: LONGEST // 2], text[-LONGEST // 2 :]
    if begin.rfind(" ") >= len(begin) - LONGEST_WORD:
        begin = begin[: begin.rfind(" ")]
    if 0 <= end.find(" ") < LONGEST_WORD:
        end = end[end.find(" ") + 1 :]
    return f"{begin} … {end}"


def _labels(actions: Sequence[Action]) -> list[str]:
    return [label for label, _act in actions]


def _level_name(level: str) -> str:
    if level == "danger":
        return translate("Notices", "Danger")
    return translate("Notices", "Warning") if level == "warning" else translate("Notices", "Note")


def _button(label: str, look: str, act: Callable[[], None]) -> QPushButton:
    button = text_button(label, look, size_px=13)
    button.setFocusPolicy(Qt.FocusPolicy.TabFocus)  # after a click the space bar is the next step again
    button.clicked.connect(lambda _checked=False: act())
    return button
