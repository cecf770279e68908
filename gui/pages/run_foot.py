"""The bar along the bottom of the Run page: the path of the run, tagging, stopping."""

from __future__ import annotations

from PySide6.QtCore import QPoint, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QMenu, QStackedLayout, QVBoxLayout, QWidget

from gui.theme import Theme
from gui.widgets.key_button import KeyButton
from gui.widgets.moment_entry import MomentEntry
from gui.widgets.phase_path import PhasePath
from gui.words import translate
from logger.moments import KINDS

__all__ = ["RunFoot"]

HEIGHT = 92


class RunFoot(QWidget):
    """Holds the controls; acts on none of them itself.

    Attributes
    ----------
    tag_pressed : emitted at the press of the tag button (not at its release), with nothing.
    kinds_opened : emitted with nothing when the menu of kinds opens: that is the moment's time.
    kind_chosen : emitted with the kind chosen from the menu.
    stop_wanted : emitted with nothing.
    """

    tag_pressed = Signal()
    kinds_opened = Signal()
    kind_chosen = Signal(str)
    stop_wanted = Signal()

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFixedHeight(HEIGHT)
        self.path = PhasePath(theme)
        self.entry = MomentEntry(theme)
        self.tag = KeyButton(theme, "Tag a moment", "M", "moment")
        self.kinds = KeyButton(theme, "Kind", "K", "moment")
        self.kinds.setAccessibleName("Tag a moment of a kind")
        self.kinds.setToolTip("Tag a moment of a kind (K); its time is when this menu opens")
        self.stop = KeyButton(theme, "Stop and save", "Ctrl+E", "primary")
        self._menu = QMenu(self)
        for number, (kind, words) in enumerate(KINDS.items(), start=1):
            mnemonic = f"&{number}  " if number < 10 else "    "
            action = self._menu.addAction(f"{mnemonic}{words}")
            action.triggered.connect(lambda _checked=False, kind=kind: self.kind_chosen.emit(kind))
        self.tag.pressed.connect(self.tag_pressed)
        self.kinds.pressed.connect(self.open_kinds)
        self.stop.clicked.connect(self.stop_wanted)
        self._build()

    def _build(self) -> None:
        rule = QFrame()
        rule.setProperty("look", "rule")
        left = QWidget()
        stack = QStackedLayout(left)
        stack.setStackingMode(QStackedLayout.StackingMode.StackAll)
        stack.addWidget(self.path)
        stack.addWidget(self.entry)
        self.entry.left.connect(self.path.show)
        self.entry.opened.connect(lambda: self.tag.show_key("Ctrl+M"))
        self.entry.left.connect(lambda: self.tag.show_key("M"))
        row = QHBoxLayout()
        row.setContentsMargins(28, 0, 28, 0)
        row.setSpacing(12)
        row.addWidget(left, 1)
        row.addWidget(self.kinds)
        row.addWidget(self.tag)
        row.addWidget(self.stop)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(rule)
        layout.addLayout(row, 1)

    def open_kinds(self) -> None:
        """Open the menu of kinds."""
        self.kinds_opened.emit()
        self._menu.popup(self.kinds.mapToGlobal(QPoint(0, -self._menu.sizeHint().height() - 4)))
        self.kinds.setDown(False)

    def show_saving(self) -> None:
        """No more tagging: the run is being saved."""
        self.entry.settle()
        for button in (self.tag, self.kinds, self.stop):
            button.setEnabled(False)
        self.stop.show_words(translate("Run foot", "Saving …"))

    def show_failed(self) -> None:
        """Nothing is recorded, and nothing can be tagged."""
        self.show_saving()
        self.stop.show_words(translate("Run foot", "Not recording"))
