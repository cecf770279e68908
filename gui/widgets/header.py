"""The line along the top: which run, which page, whence the readings."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import (
    QButtonGroup,
    QFrame,
    QHBoxLayout,
    QLabel,
    QMenu,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from gui.fonts import font
from gui.theme import Theme
from gui.widgets.choice_box import ChoiceBox
from gui.widgets.source_light import SourceLight

__all__ = ["Header"]

HEIGHT = 56
PAGES = ("Run", "Findings")


class Header(QWidget):
    """Title, a line about the run, the pages there are, the source, and the menu.

    Attributes
    ----------
    page_chosen : emitted with the name of the page.
    file_chosen : emitted with the number of the recording, where several are open.
    """

    page_chosen = Signal(str)
    file_chosen = Signal(int)

    def __init__(self, theme: Theme, menu: QMenu, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFixedHeight(HEIGHT)
        self._title = QLabel()
        self._title.setFont(font(15, "semibold"))
        self._about = QLabel()
        self._about.setFont(font(13))
        self._about.setProperty("look", "quiet")
        self._pill = QLabel("Simulated, invented data")
        self._pill.setFont(font(12, "medium"))
        self._pill.setProperty("look", "pill")
        self._pill.hide()
        self.light = SourceLight(theme)
        self._tabs: dict[str, QPushButton] = {}
        self._group = QButtonGroup(self)
        for name in PAGES:
            tab = QPushButton(name)
            tab.setCheckable(True)
            tab.setProperty("look", "tab")
            tab.setFont(font(14, "medium"))
            tab.setAccessibleName(f"Page {name}")
            tab.clicked.connect(lambda _checked=False, name=name: self.page_chosen.emit(name))
            tab.hide()
            self._group.addButton(tab)
            self._tabs[name] = tab
        self._files = ChoiceBox(theme)
        self._files.setFont(font(13))
        self._files.setAccessibleName("Recording shown")
        self._files.activated.connect(self.file_chosen)
        self._files.hide()
        self._menu = QPushButton("Menu")
        self._menu.setProperty("look", "flat")
        self._menu.setFont(font(13, "medium"))
        self._menu.setAccessibleName("Menu")
        self._menu.setMenu(menu)
        self._build()

    def _build(self) -> None:
        row = QHBoxLayout()
        row.setContentsMargins(28, 0, 20, 0)
        row.setSpacing(0)
        row.addWidget(self._title)
        row.addSpacing(24)
        row.addWidget(self._about)
        row.addSpacing(24)
        for tab in self._tabs.values():
            row.addWidget(tab)
            row.addSpacing(20)
        row.addWidget(self._files)
        row.addStretch(1)
        row.addWidget(self._pill)
        row.addSpacing(16)
        row.addWidget(self.light)
        row.addSpacing(14)
        row.addWidget(self._menu)
        rule = QFrame()
        rule.setProperty("look", "rule")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addLayout(row, 1)
        layout.addWidget(rule)

    def show_run(self, title: str, about: str, *, is_simulated: bool) -> None:
        """Show which run it is."""
        for label, text in ((self._title, title), (self._about, about)):
            if label.text() != text:
                label.setText(text)
        self._pill.setVisible(is_simulated)

    def show_pages(self, names: tuple[str, ...], present: str) -> None:
        """Show the pages there are, if more than one, and mark the present one."""
        for name, tab in self._tabs.items():
            tab.setVisible(name in names and len(names) > 1)
            tab.setChecked(name == present)

    def show_files(self, names: Sequence[str], present: int, *, visible: bool) -> None:
        """Show which recordings are open, if more than one, and which is shown."""
        if [self._files.itemText(i) for i in range(self._files.count())] != list(names):
            self._files.clear()
            self._files.addItems(list(names))
        self._files.setCurrentIndex(present)
        self._files.setVisible(visible and len(names) > 1)
