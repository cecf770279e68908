"""The row below the curve of a run: following, what hands can do, and what holds around the run."""

from __future__ import annotations

from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QWidget

from gui.chart.time_window import TimeWindow
from gui.fonts import font
from gui.theme import Theme
from gui.widgets.elided_label import ElidedLabel
from gui.widgets.key_button import KeyButton
from gui.widgets.text_button import LOW_PX, TARGET_PX
from gui.words import translate

__all__ = ["CurveRow"]

LEAST_WIDTH = 40
MARGINS, NARROW_MARGINS = (58, 0, 14, 0), (58, 0, 0, 0)
BETWEEN = "  ·  "


class CurveRow(QWidget):
    """Says what there is room for: of the hint whole parts, from the first on."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.follow = KeyButton(theme, translate("Run page", "Following the whole run"), "F", "flat")
        self.follow.setToolTip(translate("Run page", "Follow the newest readings, or stand still (F)"))
        self._hint, self._system = ElidedLabel(), ElidedLabel(LEAST_WIDTH)
        for label in (self._hint, self._system):
            label.setFont(font(12.5))
            label.setProperty("look", "quiet")
        self._hint.setSizePolicy(
            QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred
        )  # takes what is left
        self._hint.show_text(*_less_and_less(_hint_words()))
        row = self._row = QHBoxLayout(self)
        row.setContentsMargins(*MARGINS)
        row.addWidget(self.follow)
        row.addSpacing(8)
        row.addWidget(self._hint, 1)
        row.addSpacing(20)
        row.addWidget(self._system)
        self.show_low(False)

    def show_low(self, is_low: bool) -> None:
        """Leave the room of a low window to the curve; else the button is as high as a glove needs."""
        self.follow.setMinimumHeight(LOW_PX if is_low else TARGET_PX)

    def show_narrow(self, is_narrow: bool) -> None:
        """Leave out what a small window has no room for."""
        self._hint.setVisible(not is_narrow)
        self._row.setContentsMargins(*(NARROW_MARGINS if is_narrow else MARGINS))

    def show_about_system(self, words: str) -> None:
        """Say what holds around the run: sleep held off, sound off."""
        self._system.show_text(words)

    def show_following(self, window: TimeWindow) -> None:
        """Say what the chart follows."""
        if window.shows_whole_run:
            words = translate("Run page", "Following the whole run")
        elif window.is_following:
            words = translate("Run page", "Following")
        else:
            words = translate("Run page", "Standing still: follow again")
        self.follow.show_words(words)


def _hint_words() -> str:
    return translate(
        "Run page",
        "Point or Return reads values  ·  wheel zooms  ·  drag looks back  ·  drag a flag to move it",
    )


def _less_and_less(words: str) -> list[str]:
    """Return `words`, then with fewer and fewer of their parts, at last with none."""
    parts = words.split(BETWEEN)
    return [BETWEEN.join(parts[:count]) for count in range(len(parts), -1, -1)]
