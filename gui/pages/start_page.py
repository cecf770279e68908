"""What stands in the window while nothing is recorded and no recording is open yet."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal, SignalInstance
from PySide6.QtWidgets import QHBoxLayout, QLabel, QSizePolicy, QVBoxLayout, QWidget

from gui.fonts import font
from gui.page_list import PAGES
from gui.theme import Theme
from gui.widgets.key_button import KeyButton
from gui.words import translate

__all__ = ["StartPage"]

WIDTH = 560
BENCH = "bench"
BAR_MARGINS = (18, 8, 18, 4)


class StartPage(QWidget):
    """Says what is being opened, or offers what can be done.

    Attributes
    ----------
    bench_wanted, open_wanted, lesson_wanted : emitted with nothing.
    """

    bench_wanted = Signal()
    open_wanted = Signal()
    lesson_wanted = Signal()

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._words = QLabel()
        self._words.setFont(font(24, "semibold"))
        self._words.setWordWrap(True)
        self._hint = QLabel(
            translate(
                "Start page", "A run needs a source of readings. Nothing connected yet? Try the lesson."
            )
        )
        self._hint.setFont(font(15))
        self._hint.setProperty("look", "quiet")
        self._hint.setWordWrap(True)
        self._offers = QWidget()
        column = QVBoxLayout(self._offers)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(12)
        buttons = [
            self._button(theme, *offer)
            for offer in (
                (
                    translate("Start page", "Connect a meter"),
                    translate("Start page", "ports, what answers there, and what stands on the table"),
                    _bench_key(),
                    "primary",
                    self.bench_wanted,
                ),
                (
                    translate("Start page", "Open recordings …"),
                    translate("Start page", "and see what they show"),
                    "Ctrl+O",
                    "plain",
                    self.open_wanted,
                ),
                (
                    translate("Start page", "Simulated lesson"),
                    translate("Start page", "a whole lesson in a minute and a half, with invented data"),
                    "Ctrl+L",
                    "plain",
                    self.lesson_wanted,
                ),
            )
            if offer[2]
        ]
        for button in buttons:
            column.addWidget(button)
        self._first = buttons[0]
        self._build()
        self.show_opening("")

    def _button(
        self, theme: Theme, words: str, hint: str, key: str, look: str, signal: SignalInstance
    ) -> KeyButton:
        button = KeyButton(theme, words, key, look, hint=hint)
        button.setFixedWidth(WIDTH)
        button.clicked.connect(lambda _checked=False: signal.emit())
        return button

    def _build(self) -> None:
        block = QWidget()
        block.setFixedWidth(WIDTH)
        inner = QVBoxLayout(block)
        inner.setContentsMargins(0, 0, 0, 0)
        inner.setSpacing(6)
        inner.addWidget(self._words)
        inner.addWidget(self._hint)
        inner.addSpacing(18)
        inner.addWidget(self._offers)
        row = QHBoxLayout()
        row.addStretch(1)
        row.addWidget(block)
        row.addStretch(1)
        layout = QVBoxLayout(self)
        layout.addStretch(2)
        layout.addLayout(row)
        low = QWidget()  # its share of the height stays the same with bars in it
        low.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Ignored)
        self.bar_place = QVBoxLayout(low)
        self.bar_place.setContentsMargins(*BAR_MARGINS)
        self.bar_place.addStretch(1)
        layout.addWidget(low, 3)
        self._words.setAlignment(Qt.AlignmentFlag.AlignLeft)

    def show_opening(self, name: str, number: int = 1, count: int = 1) -> None:
        """Say that `name` is being opened, the `number`-th of `count`; empty: nothing is, so make offers."""
        if name:
            words = (
                translate("Start page", "Opening {name} …")
                if count == 1
                else translate("Start page", "Opening {name}, {number} of {count} …")
            )
            self._words.setText(words.format(name=name, number=number, count=count))
        else:
            self._words.setText(translate("Start page", "Nothing is recorded yet"))
        has_keys = self.isVisible() or not self.window().isVisible()
        self.setFocusProxy(self._words if name else self._first)
        if has_keys:  # else Qt hands them on to whatever follows: to "Cancel"
            self.setFocus()
        self._offers.setVisible(not name)
        self._hint.setVisible(not name)


def _bench_key() -> str:
    """Return the key of the bench; empty where there is no such page."""
    return next((entry.key for entry in PAGES if entry.name == BENCH), "")
