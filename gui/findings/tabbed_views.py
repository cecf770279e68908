"""Views behind tabs: one is seen at a time, each scrolls where there is little room."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import (
    QButtonGroup,
    QPushButton,
    QScrollArea,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from gui.fonts import font
from gui.widgets.flow_layout import FlowLayout
from gui.widgets.scroll_pane import scroll_pane

__all__ = ["TabbedViews"]

SIZES_PX = (13.5, 13.0)
"""Of the words on the tabs: smaller where that leaves them in one line."""
BETWEEN = 8


class TabbedViews(QWidget):
    """Holds the views; the first one that is added is in front.

    Attributes
    ----------
    chosen : emitted with the name of the view whose tab was pressed.
    tabs : the tab of each view, by its name.
    """

    chosen = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self.tabs: dict[str, QPushButton] = {}
        self._group = QButtonGroup(self)
        self._views = QStackedWidget()
        self._line = QWidget()
        self._row = FlowLayout(across=BETWEEN, down=0)
        self._line.setLayout(self._row)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(4)
        layout.addWidget(self._line)
        layout.addWidget(self._views, 1)

    def add(self, name: str, words: str, view: QWidget) -> None:
        """Add a view behind a tab with `words`."""
        tab = QPushButton(words)
        tab.setCheckable(True)
        tab.setProperty("look", "tab")
        tab.setFont(font(SIZES_PX[0], "medium"))
        page = _indented(view, words)
        tab.clicked.connect(partial(self._show, name, page))
        tab.setChecked(not self.tabs)
        self._group.addButton(tab)
        self.tabs[name] = tab
        self._row.addWidget(tab)  # first: the keys go to a tab, then to what it shows
        self._views.addWidget(page)

    def offer(self, name: str, is_offered: bool) -> None:
        """Let the tab of a view be seen only where it has something to show."""
        self.tabs[name].setVisible(is_offered)
        self._keep_lines()

    def hasHeightForWidth(self) -> bool:
        """Lines of tabs keep their own room.

        With it Qt takes the height that the views would like for their least, and in a low window what stands
        above them is cut.
        """
        return False

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Tabs stand in as many lines as the width asks for."""
        super().resizeEvent(event)
        self._keep_lines()

    def _keep_lines(self) -> None:
        """Let a low window scroll, and not cut off the last line of tabs."""
        fits = (size_px for size_px in SIZES_PX if self._is_one_line(size_px))
        self._write(next(fits, SIZES_PX[0]))
        self._line.setMinimumHeight(self._row.heightForWidth(self.width()))

    def _is_one_line(self, size_px: float) -> bool:
        self._write(size_px)
        return self._row.heightForWidth(self.width()) <= max(
            tab.sizeHint().height() for tab in self.tabs.values()
        )

    def _write(self, size_px: float) -> None:
        wanted = font(size_px, "medium")
        for tab in self.tabs.values():
            if tab.font() != wanted:
                tab.setFont(wanted)

    def _show(self, name: str, page: QWidget, _checked: bool = False) -> None:
        self._views.setCurrentWidget(page)
        self.chosen.emit(name)


def _indented(inner: QWidget, name: str) -> QScrollArea:
    holder = QWidget()
    layout = QVBoxLayout(holder)
    layout.setContentsMargins(0, 2, 12, 4)
    layout.addWidget(inner)
    return scroll_pane(holder, name)
