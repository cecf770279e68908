"""The bar along the bottom of the Run page: the run sheet, the next step, tagging, stopping."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QPoint, QSize, Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QMenu, QPushButton, QSizePolicy, QVBoxLayout, QWidget

from gui.kind_words import kind_words
from gui.stamping import DIGIT_KINDS
from gui.theme import Theme
from gui.widgets.key_button import KeyButton
from gui.widgets.moment_entry import MomentEntry
from gui.widgets.rule import rule
from gui.widgets.sheet_path import PathStep, SheetPath
from gui.widgets.text_button import TARGET_PX, text_button
from gui.words import translate
from logger.moments import KINDS

__all__ = ["RunFoot"]

HEIGHT, MARGINS = 124, (28, 5, 28, 12)
LOW, LOW_MARGINS = 74, (28, 4, 28, 8)
BUTTON_HEIGHT = 60
NEXT_WIDTH = (250, 600)
NARROW = 980
NARROWEST = 560
TYPING = 860
"""Below this width the button that ends the run makes room for words that are typed; its key does not."""
SPACE = 2
"""Place in the row of what parts the large button from the others."""


class RunFoot(QWidget):
    """Holds the controls; acts on none of them itself.

    Attributes
    ----------
    next_pressed : emitted at the press of the large button (not at its release), with nothing.
    tag_pressed : emitted at the press of the tag button, with nothing.
    kinds_opened : emitted with nothing when the menu of kinds opens: that is the moment's time.
    kind_chosen : emitted with the kind chosen from the menu.
    skip_wanted, repeat_wanted, plan_wanted, stop_wanted : emitted with nothing.
    """

    next_pressed = Signal()
    tag_pressed = Signal()
    kinds_opened = Signal()
    kind_chosen = Signal(str)
    skip_wanted = Signal()
    repeat_wanted = Signal()
    plan_wanted = Signal()
    stop_wanted = Signal()

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFixedHeight(HEIGHT)
        self._is_narrow = False
        self._ending = ""
        self.path = SheetPath(theme)
        self.entry = MomentEntry(theme)
        self.next = KeyButton(theme, "", translate("Keys", "Space"), "primary", hint=" ")
        self.next.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.next.setMinimumWidth(NEXT_WIDTH[0])
        self.next.setMaximumWidth(NEXT_WIDTH[1])
        self.tag = KeyButton(theme, translate("Run foot", "Tag a moment"), "M", "moment")
        self.kinds = KeyButton(theme, translate("Run foot", "Kind"), "K", "moment")
        self.kinds.setAccessibleName(translate("Run foot", "Tag a moment of a kind"))
        self.kinds.setToolTip(
            translate("Run foot", "Tag a moment of a kind (K); its time is when this menu opens")
        )
        self.stop = KeyButton(theme, translate("Run foot", "Stop and save"), "Ctrl+E", "plain")
        self.skip = _small(
            translate("Run foot", "Skip"), translate("Run foot", "Skip the next step (Ctrl+K)")
        )
        self.repeat = _small(
            translate("Run foot", "Repeat"), translate("Run foot", "Do the last step once more (Ctrl+R)")
        )
        self.plan = _small(
            translate("Run foot", "Steps …"), translate("Run foot", "Change the steps to come (Ctrl+T)")
        )
        self._menu = self._kinds_menu()
        self._connect()
        self._build()

    def _kinds_menu(self) -> QMenu:
        menu = QMenu(self)
        digits = {kind: str(number % 10) for number, kind in enumerate(DIGIT_KINDS, start=1)}
        for kind in KINDS:
            words = kind_words(kind)
            digit = digits.get(kind)
            action = menu.addAction(f"&{digit}  {words}" if digit else f"    {words}")
            action.triggered.connect(lambda _checked=False, kind=kind: self.kind_chosen.emit(kind))
        return menu

    def _connect(self) -> None:
        self.next.pressed.connect(self.next_pressed)
        self.tag.pressed.connect(self.tag_pressed)
        self.kinds.pressed.connect(self.open_kinds)
        self.stop.clicked.connect(self.stop_wanted)
        self.skip.clicked.connect(self.skip_wanted)
        self.repeat.clicked.connect(self.repeat_wanted)
        self.plan.clicked.connect(self.plan_wanted)
        self.entry.opened.connect(lambda: self._show_typing(True))
        self.entry.left.connect(lambda: self._show_typing(False))

    def _build(self) -> None:
        self._sheet = QWidget()
        sheet = QHBoxLayout(self._sheet)
        sheet.setContentsMargins(0, 0, 0, 0)
        sheet.setSpacing(2)
        sheet.addWidget(self.path, 1)
        for button in (self.skip, self.repeat, self.plan):
            sheet.addWidget(button)
        row = self._row = QHBoxLayout()
        row.setSpacing(12)
        row.addWidget(self.next, 3)
        row.addWidget(self.entry, 12)
        row.addStretch(1)
        row.addWidget(self.kinds)
        row.addWidget(self.tag)
        row.addWidget(self.stop)
        inner = self._inner = QVBoxLayout()
        inner.setContentsMargins(*MARGINS)
        inner.setSpacing(2)
        inner.addWidget(self._sheet)
        inner.addLayout(row)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(rule())
        layout.addLayout(inner, 1)

    def sizeHint(self) -> QSize:
        """Two rows."""
        return QSize(1200, HEIGHT)

    def minimumSizeHint(self) -> QSize:
        """As narrow as the words of a small window."""
        return QSize(NARROWEST, HEIGHT)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Say less where there is less room; what is left out stays in the menu, with its key."""
        super().resizeEvent(event)
        self._fit(self.width())

    def _fit(self, width: int) -> None:
        is_narrow = width < NARROW
        self._is_narrow = is_narrow
        self._row.setStretch(SPACE, 0 if is_narrow else 1)
        self.stop.setMinimumWidth(0)
        self.tag.show_words(self._tag_words())
        self.stop.show_words(self._stop_words())
        self._show_typing(self.entry.is_open)
        for button in (self.skip, self.repeat, self.plan):
            button.setVisible(not is_narrow)
        self._fit_next()

    def _fit_next(self) -> None:
        """Let the words of the next step be read whole where the other buttons leave them the room."""
        others = (self.tag, self.stop) if self._is_narrow else (self.kinds, self.tag, self.stop)
        taken = sum(max(one.sizeHint().width(), one.minimumWidth()) + self._row.spacing() for one in others)
        margins = self._inner.contentsMargins()
        room = self.width() - margins.left() - margins.right() - taken - self._row.spacing()
        least = NEXT_WIDTH[0] // 2 if self._is_narrow else NEXT_WIDTH[0]
        wanted = self.next.sizeHint().width()
        self.next.setMinimumWidth(max(least, min(wanted, room)))
        self.next.setMaximumWidth(max(NEXT_WIDTH[1], wanted))

    def _tag_words(self) -> str:
        return translate("Run foot", "Tag") if self._is_narrow else translate("Run foot", "Tag a moment")

    def _stop_words(self) -> str:
        if self._ending:
            return self._ending
        return translate("Run foot", "Stop") if self._is_narrow else translate("Run foot", "Stop and save")

    def show_low(self, is_low: bool) -> None:
        """Leave the path out where the window is low; the large button still says what comes next."""
        self._sheet.setVisible(not is_low)
        self._inner.setContentsMargins(*(LOW_MARGINS if is_low else MARGINS))
        self.setFixedHeight(LOW if is_low else HEIGHT)

    def show_sheet(self, steps: Sequence[PathStep], words: str, hint: str, *, is_time: bool) -> None:
        """Show the path, what the large button says, and whether it is time for it."""
        self.path.show_steps(steps)
        self.next.show_words(words, hint)
        self._fit_next()
        states = [step.state for step in steps]
        is_over = bool(states) and "now" not in states
        self.next.show_look("plain" if is_over else "ready" if is_time else "primary")
        self.next.setEnabled(self.tag.isEnabled() and not is_over)
        self.stop.show_look("ready" if is_over and is_time else "plain")
        self.skip.setEnabled("now" in states and self.tag.isEnabled())
        self.repeat.setEnabled("done" in states and self.tag.isEnabled())

    def open_kinds(self) -> None:
        """Open the menu of kinds."""
        self.kinds_opened.emit()
        self._menu.popup(self.kinds.mapToGlobal(QPoint(0, -self._menu.sizeHint().height() - 4)))
        self.kinds.setDown(False)

    def show_saving(self) -> None:
        """No more tagging: the run is being saved."""
        self._show_end(translate("Run foot", "Saving …"))

    def show_saved(self) -> None:
        """The run is over and in its file: nothing is waited for any more."""
        self._show_end(translate("Run foot", "Saved"))

    def show_ending(self) -> None:
        """Nothing is recorded, and nothing will be: the run ends as soon as its sources have answered."""
        self._show_end(translate("Run foot", "Ending …"))

    def show_failed(self) -> None:
        """Nothing is recorded, and nothing can be tagged."""
        self._show_end(translate("Run foot", "Not recording"))

    def _show_end(self, words: str) -> None:
        self.entry.settle()
        for button in (self.next, self.tag, self.kinds, self.stop, self.skip, self.repeat, self.plan):
            button.setEnabled(False)
        # Shorter words must not move the row: who has just pressed here sees nothing jump.
        self.stop.setMinimumWidth(max(self.stop.minimumWidth(), self.stop.sizeHint().width()))
        self._ending = words
        self.stop.show_words(words)

    def _show_typing(self, is_typing: bool) -> None:
        """While words are typed, plain letters and the space bar are text: show only keys that work."""
        self.next.setVisible(not is_typing)
        self.kinds.setVisible(not is_typing and not self._is_narrow)
        self.stop.setVisible(not is_typing or self.width() >= TYPING)
        self.tag.show_key("Ctrl+M" if is_typing else "M")


def _small(words: str, tip: str) -> QPushButton:
    button = text_button(words, "flat", size_px=13.5, tip=tip)
    button.setMinimumWidth(TARGET_PX)
    button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
    return button
