"""A layout that goes on in the next line where a line is full."""

from __future__ import annotations

from PySide6.QtCore import QPoint, QRect, QSize, Qt
from PySide6.QtWidgets import QLayout, QLayoutItem, QWidget, QWidgetItem

__all__ = ["FlowLayout"]


class FlowLayout(QLayout):
    """Items from left to right, in as many lines as the width asks for.

    What does not fit into one line is broken where a part begins first (`begin_part`): what belongs together
    then stays together.
    """

    def __init__(self, across: int = 12, down: int = 4, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._items: list[QLayoutItem] = []
        self._part_begins: list[QLayoutItem] = []
        self._begins_part = False
        self._across, self._down = across, down
        self.setContentsMargins(0, 0, 0, 0)

    def addWidget(self, widget: QWidget) -> None:
        """Take one more widget, in an item of our own: those that Qt makes are forgotten (`layout_items`)."""
        self.addChildWidget(widget)
        self.addItem(QWidgetItem(widget))

    def begin_part(self) -> None:
        """Have the item that is taken next begin a part."""
        self._begins_part = True

    def addItem(self, item: QLayoutItem) -> None:
        """Take one more item."""
        self._items.append(item)
        if self._begins_part:
            self._part_begins.append(item)
            self._begins_part = False

    def count(self) -> int:
        """How many items there are."""
        return len(self._items)

    def itemAt(self, index: int) -> QLayoutItem | None:
        """The item of that number, None beyond the last."""
        return self._items[index] if 0 <= index < len(self._items) else None

    def takeAt(self, index: int) -> QLayoutItem | None:
        """Give an item up."""
        if not 0 <= index < len(self._items):
            return None
        item = self._items.pop(index)
        if item in self._part_begins:
            self._part_begins.remove(item)
        return item

    def expandingDirections(self) -> Qt.Orientation:
        """It takes what it needs, no more."""
        return Qt.Orientation(0)

    def hasHeightForWidth(self) -> bool:
        """Narrower is higher."""
        return True

    def heightForWidth(self, width: int) -> int:
        """How high it is at that width."""
        return self._arrange(QRect(0, 0, width, 0), moves=False)

    def setGeometry(self, rect: QRect) -> None:
        """Put the items into their places."""
        super().setGeometry(rect)
        self._arrange(rect, moves=True)

    def sizeHint(self) -> QSize:
        """As narrow as the widest item."""
        return self.minimumSize()

    def minimumSize(self) -> QSize:
        """As narrow as the widest item."""
        size = QSize()
        for item in self._items:
            size = size.expandedTo(item.minimumSize())
        return size

    def _arrange(self, rect: QRect, *, moves: bool) -> int:
        y = rect.y()
        for line in self._lines(rect.width()):
            height = max(item.sizeHint().height() for item in line)
            x = rect.x()
            for item in line:
                hint = item.sizeHint()
                if moves:
                    item.setGeometry(QRect(QPoint(x, y + (height - hint.height()) // 2), hint))
                x += hint.width() + self._across
            y += height + self._down
        return max(y - self._down - rect.y(), 0)

    def _lines(self, width: int) -> list[list[QLayoutItem]]:
        lines: list[list[QLayoutItem]] = []
        used = 0
        breaks_parts = self._width_in_one_line() > width
        for item in self._items:
            if item.isEmpty():
                continue
            wanted = item.sizeHint().width()
            if not lines or used + wanted > width or (breaks_parts and item in self._part_begins):
                lines.append([])
                used = 0
            lines[-1].append(item)
            used += wanted + self._across
        return lines

    def _width_in_one_line(self) -> int:
        wanted = [item.sizeHint().width() for item in self._items if not item.isEmpty()]
        return sum(wanted) + self._across * max(len(wanted) - 1, 0)
