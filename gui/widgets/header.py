"""The line along the top: which run, which page, whence the readings."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QMenu, QPushButton, QVBoxLayout, QWidget

from gui.fonts import font
from gui.icons import icon
from gui.page_list import PAGES, PageEntry
from gui.theme import Theme
from gui.widgets.choice_box import ChoiceBox
from gui.widgets.elided_label import ElidedLabel
from gui.widgets.rule import rule
from gui.widgets.source_light import SourceLight
from gui.words import translate

__all__ = ["Header"]

HEIGHT = 56
NARROW = 1180
NARROWEST = 860
LONGEST_TITLE = 190
"""A title up to this is shown whole before the line about the run gets room."""
ICON = QSize(18, 18)


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
        self._theme = theme
        self._title, self._about = ElidedLabel(LONGEST_TITLE), ElidedLabel(40)
        self._title.setFont(font(15, "semibold"))
        self._about.setFont(font(13))
        self._about.setProperty("look", "quiet")
        self._pill = QLabel(translate("Header", "Simulated, invented data"))
        self._pill.setFont(font(12, "medium"))
        self._pill.setProperty("look", "pill")
        self._pill.setFixedHeight(24)
        self._pill.hide()
        self.light = SourceLight(theme)
        self._tabs = {entry.name: self._tab(entry) for entry in PAGES}
        self._present = ""
        self._files = ChoiceBox(theme)
        self._files.setFont(font(13))
        self._files.setAccessibleName(translate("Header", "Recording shown"))
        self._files.activated.connect(self.file_chosen)
        self._files.hide()
        self._menu = QPushButton(translate("Header", "Menu"))
        self._menu.setProperty("look", "flat")
        self._menu.setFont(font(13, "medium"))
        self._menu.setAccessibleName(translate("Header", "Menu"))
        self._menu.setIconSize(ICON)
        self._menu.setMenu(menu)
        for button in (self._menu, *self._tabs.values()):
            button.setFocusPolicy(Qt.FocusPolicy.TabFocus)  # after a click the space bar is the next step
        self._build()
        self._recolour()
        theme.changed.connect(self._recolour)

    def _tab(self, entry: PageEntry) -> QPushButton:
        title = translate("Pages", entry.title)
        tab = QPushButton(title)
        tab.setCheckable(True)
        tab.setProperty("look", "tab")
        tab.setFont(font(14, "medium"))
        tab.setIconSize(ICON)
        tab.setAccessibleName(translate("Header", "Page {name}").format(name=title))
        tab.setToolTip(f"{title} ({entry.key})")
        tab.clicked.connect(lambda _checked=False: self._choose(entry.name))
        tab.hide()
        return tab

    def _build(self) -> None:
        row = QHBoxLayout()
        row.setContentsMargins(28, 0, 20, 0)
        row.setSpacing(0)
        begin = QHBoxLayout()
        begin.setSpacing(0)
        begin.addWidget(self._title)
        begin.addSpacing(16)
        begin.addWidget(self._about)
        begin.addStretch(1)
        begin.addSpacing(16)
        tabs = QHBoxLayout()
        tabs.setSpacing(18)  # of the layout, so that a hidden tab leaves no hole
        for tab in self._tabs.values():
            tabs.addWidget(tab)
        tabs.addWidget(self._files)
        end = QHBoxLayout()
        end.setSpacing(0)
        end.addStretch(1)
        end.addSpacing(16)
        end.addWidget(self._pill, 0, Qt.AlignmentFlag.AlignVCenter)
        end.addSpacing(16)
        end.addWidget(self.light)
        end.addSpacing(10)
        end.addWidget(self._menu)
        row.addLayout(begin, 1)
        row.addLayout(tabs)  # between two halves of one width: a longer title must not move the pages
        row.addLayout(end, 1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addLayout(row, 1)
        layout.addWidget(rule())

    def show_run(self, title: str, about: str, *, is_simulated: bool) -> None:
        """Show which run it is."""
        self._title.show_text(title)
        self._about.show_text(about)
        self._pill.setVisible(is_simulated)

    def show_pages(self, names: Sequence[str], present: str) -> None:
        """Show the pages there are, if more than one, and mark the present one; empty marks none."""
        self._present = present
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

    def resizeEvent(self, event: QResizeEvent) -> None:
        """In a narrow window the drawings must do; the names are in their tool tips."""
        super().resizeEvent(event)
        is_narrow = self.width() < NARROW
        for entry in PAGES:
            self._tabs[entry.name].setText("" if is_narrow else translate("Pages", entry.title))
        self._about.setVisible(self.width() >= NARROWEST)
        self._menu.setText("" if is_narrow else translate("Header", "Menu"))
        self._pill.setText(
            translate("Header", "Simulated") if is_narrow else translate("Header", "Simulated, invented data")
        )

    def _choose(self, name: str) -> None:
        self._tabs[name].setChecked(name == self._present)  # the page decides which tab is marked
        self.page_chosen.emit(name)

    def _recolour(self) -> None:
        colours = self._theme.colours
        for entry in PAGES:
            self._tabs[entry.name].setIcon(icon(entry.icon, colours.ink))
        self._menu.setIcon(icon("menu", colours.quiet))
