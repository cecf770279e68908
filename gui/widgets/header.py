"""The line along the top: which run, which page, whence the readings."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QAction, QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QMenu, QPushButton, QSizePolicy, QVBoxLayout, QWidget

from gui.fonts import font
from gui.icons import icon
from gui.page_list import PAGES, PageEntry
from gui.theme import Theme
from gui.widgets.choice_box import ChoiceBox
from gui.widgets.elided_label import ElidedLabel
from gui.widgets.rule import rule
from gui.widgets.source_light import SourceLight
from gui.widgets.text_button import TARGET_PX
from gui.words import translate

__all__ = ["Header"]

HEIGHT = 56
NARROW = 1180
NARROWEST = 860
LONGEST_TITLE = 190
"""A title up to this is shown whole before the line about the run gets room."""
LEAST_TITLE = 60
FILE_WIDTH = (150, 240)
ROOM_FOR_NAMES = 560
GAP = 16
MARGINS = (28, 20)
LIGHT_ROOM = 215
"""Pixels kept for the words of the light, so that the mark beside it does not change with every reading."""
LEAST_LIGHT = 140
PILL_EDGES = 18
TAB_GAP = 18
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
        self._menu.setMinimumHeight(TARGET_PX)
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
        begin = self._half(self._title, self._files, self._about, None)
        self._end = self._half(None, self._pill, self.light, self._menu)
        tabs = QHBoxLayout()
        tabs.setSpacing(TAB_GAP)  # of the layout, so that a hidden tab leaves no hole
        for tab in self._tabs.values():
            tabs.addWidget(tab)
        row = QHBoxLayout()
        row.setContentsMargins(MARGINS[0], 0, MARGINS[1], 0)
        row.setSpacing(GAP)
        row.addWidget(begin, 1)
        row.addLayout(tabs)  # between two halves of one width: whatever stands there must not move the pages
        row.addWidget(self._end, 1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addLayout(row, 1)
        layout.addWidget(rule())

    @staticmethod
    def _half(*parts: QWidget | None) -> QWidget:
        """Return what holds widgets and a stretch (None), and asks for no width of its own."""
        half = QWidget()
        half.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        row = QHBoxLayout(half)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(GAP)
        for part in parts:
            if part is None:
                row.addStretch(1)
            else:
                row.addWidget(part, 0, Qt.AlignmentFlag.AlignVCenter)
        return half

    def show_run(self, title: str, about: Sequence[str], *, is_simulated: bool) -> None:
        """Show which run it is; `about` it in a line, then the same in fewer and fewer words."""
        self._title.show_text(title)
        self._about.show_text(*about)
        self._pill.setVisible(is_simulated)
        self._fit()

    def show_source(self, light: tuple[str, Sequence[str]] | None) -> None:
        """Show look and words of the light (longest first), or that no readings are coming in."""
        self.light.setVisible(light is not None)
        if light is not None:
            self.light.show_source(*light)
        self._fit()

    def open_menu(self, at: QAction) -> None:
        """Open the menu with one of its entries chosen."""
        menu = self._menu.menu()
        menu.popup(self._menu.mapToGlobal(self._menu.rect().bottomLeft()))
        menu.setActiveAction(at)

    def show_pages(self, names: Sequence[str], present: str) -> None:
        """Show which pages there are now, and mark the present one; empty marks none.

        Each keeps its place while it is not there yet: what a hand is about to press does not move.
        """
        self._present = present
        for name, tab in self._tabs.items():
            tab.setVisible(len(names) > 1)
            tab.setEnabled(name in names)
            tab.setChecked(name == present)

    def show_files(self, names: Sequence[str], present: int, *, visible: bool) -> None:
        """Show which recordings are open, if more than one, and which is shown."""
        if [self._files.itemText(i) for i in range(self._files.count())] != list(names):
            self._files.clear()
            self._files.addItems(list(names))
        self._files.setCurrentIndex(present)
        self._files.setVisible(visible and len(names) > 1)
        self._fit()

    def minimumSizeHint(self) -> QSize:
        """No width of its own: whatever room there is, it finds words for it."""
        return QSize(0, HEIGHT)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """In a narrow window the drawings must do; the names are in their tool tips."""
        super().resizeEvent(event)
        is_narrow = self.width() < NARROW
        for entry in PAGES:
            self._tabs[entry.name].setText("" if is_narrow else translate("Pages", entry.title))
        self._menu.setText("" if is_narrow else translate("Header", "Menu"))
        self._fit()

    def _fit(self) -> None:
        """Say in fewer words what has no room."""
        tabs = sum(tab.sizeHint().width() + TAB_GAP for tab in self._tabs.values() if not tab.isHidden())
        both = self.width() - sum(MARGINS) - tabs - GAP
        self._fit_end(both // 2)
        self._fit_begin(both - max(both // 2, self._end.minimumWidth()))

    def _fit_begin(self, room: int) -> None:
        """Leave out what says nothing: the line about the run where not even its shortest words fit."""
        has_files = not self._files.isHidden()
        if has_files:
            width = FILE_WIDTH[room >= ROOM_FOR_NAMES]
            self._files.setFixedWidth(width)
            room -= width + GAP
        self._title.setVisible(bool(self._title.text()) and (not has_files or room >= LEAST_TITLE))
        self._title.ask_for(min(room, LONGEST_TITLE) if has_files else LONGEST_TITLE)
        room -= min(self._title.sizeHint().width(), LONGEST_TITLE) + GAP
        shortest = ceil(self._about.shortest_width())
        self._about.ask_for(shortest)
        self._about.setVisible(shortest <= room and self.width() >= NARROWEST)

    def _fit_end(self, half: int) -> None:
        """Say in one word that data are invented where the light needs the room; then less beside it."""
        room = half - self._menu.sizeHint().width() - GAP
        light = 0 if self.light.isHidden() else LIGHT_ROOM + GAP
        words, short = translate("Header", "Simulated, invented data"), translate("Header", "Simulated")
        fits = self._pill_width(words) + light <= room
        self._pill.setText(words if fits else short)
        if not self._pill.isHidden():
            room -= self._pill_width(self._pill.text()) + GAP
        self.light.fit(max(room, LEAST_LIGHT))
        least = half - room + (0 if self.light.isHidden() else LEAST_LIGHT)
        self._end.setMinimumWidth(least)

    def _pill_width(self, words: str) -> int:
        return ceil(self._pill.fontMetrics().horizontalAdvance(words)) + PILL_EDGES

    def _choose(self, name: str) -> None:
        self._tabs[name].setChecked(name == self._present)  # the page decides which tab is marked
        self.page_chosen.emit(name)

    def _recolour(self) -> None:
        colours = self._theme.colours
        for entry in PAGES:
            self._tabs[entry.name].setIcon(icon(entry.icon, colours.ink))
        self._menu.setIcon(icon("menu", colours.quiet))
