"""The recordings of the shelf as Qt's list model: order, search, and which are ticked."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from PySide6.QtCore import QAbstractListModel, QModelIndex, QPersistentModelIndex, Qt, Signal

from gui.shelf.entry_texts import spoken, words_of
from gui.tips import tip
from logger.alignment import MOST_RUNS
from logger.shelf_entry import ShelfEntry, matches

__all__ = ["ENTRY_ROLE", "NUMBER_ROLE", "ShelfModel"]

ENTRY_ROLE = Qt.ItemDataRole.UserRole
NUMBER_ROLE = Qt.ItemDataRole.UserRole + 1
"""Place of a ticked recording among the ticked ones, from 0; None where it is not ticked."""

Index = QModelIndex | QPersistentModelIndex


class ShelfModel(QAbstractListModel):
    """Recordings, those found by the search, newest first. Ticks stay while a search hides them.

    Attributes
    ----------
    ticked_changed : emitted with nothing.
    refused : emitted with nothing when a ninth recording was to be ticked.
    """

    ticked_changed = Signal()
    refused = Signal()

    def __init__(self) -> None:
        super().__init__()
        self._entries: dict[Path, ShelfEntry] = {}
        self._shown: list[ShelfEntry] = []
        self._ticked: list[Path] = []
        self._search = ""

    @property
    def ticked(self) -> tuple[Path, ...]:
        """The ticked recordings, in the order in which they were ticked."""
        return tuple(self._ticked)

    @property
    def count(self) -> int:
        """How many recordings there are, shown or not."""
        return len(self._entries)

    def entry(self, path: Path) -> ShelfEntry | None:
        """Return the entry of a file, if it is on the shelf."""
        return self._entries.get(path)

    def entries(self) -> tuple[ShelfEntry, ...]:
        """All recordings, shown or not."""
        return tuple(self._entries.values())

    def clear(self) -> None:
        """Take everything off the shelf."""
        self.beginResetModel()
        self._entries.clear()
        self._shown.clear()
        self.endResetModel()
        if self._ticked:
            self._ticked.clear()
            self.ticked_changed.emit()

    def take(self, entry: ShelfEntry) -> None:
        """Put a recording on the shelf, or replace what was known of it."""
        self._entries[entry.path] = entry
        place = next((i for i, one in enumerate(self._shown) if one.path == entry.path), None)
        if place is not None:
            self._shown[place] = entry
            index = self.index(place)
            self.dataChanged.emit(index, index)
        elif matches(entry, self._search, words_of(entry)):
            place = next(
                (i for i, one in enumerate(self._shown) if one.changed_ns < entry.changed_ns),
                len(self._shown),
            )
            self.beginInsertRows(QModelIndex(), place, place)
            self._shown.insert(place, entry)
            self.endInsertRows()

    def drop(self, path: Path) -> None:
        """Take one recording off the shelf."""
        self._entries.pop(path, None)
        place = next((i for i, one in enumerate(self._shown) if one.path == path), None)
        if place is not None:
            self.beginRemoveRows(QModelIndex(), place, place)
            del self._shown[place]
            self.endRemoveRows()
        self.tick(path, on=False)

    def search(self, words: str) -> None:
        """Show only recordings in which all `words` occur."""
        self.beginResetModel()
        self._search = words
        found = [entry for entry in self._entries.values() if matches(entry, words, words_of(entry))]
        self._shown = sorted(found, key=lambda entry: -entry.changed_ns)
        self.endResetModel()

    def tick(self, path: Path, *, on: bool) -> bool:
        """Tick a recording or take its tick away; False where there are eight already."""
        if on == (path in self._ticked):
            return True
        if on and len(self._ticked) >= MOST_RUNS:
            self.refused.emit()
            return False
        (self._ticked.append if on else self._ticked.remove)(path)
        if self._shown:  # numbers of the others may have changed
            self.dataChanged.emit(self.index(0), self.index(len(self._shown) - 1))
        self.ticked_changed.emit()
        return True

    def untick_all(self) -> None:
        """Take all ticks away."""
        self._ticked.clear()
        if self._shown:
            self.dataChanged.emit(self.index(0), self.index(len(self._shown) - 1))
        self.ticked_changed.emit()

    # ------------------------------------------------------------ Qt's questions

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008 - Qt's own default
        """How many are shown."""
        return 0 if parent.isValid() else len(self._shown)

    def flags(self, index: Index) -> Qt.ItemFlag:
        """Readable recordings can be ticked."""
        flags = super().flags(index)
        if index.isValid() and self._shown[index.row()].state == "finished":
            flags |= Qt.ItemFlag.ItemIsUserCheckable
        return flags

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        """Texts, ticks, and the entry itself for the painter."""
        if not index.isValid():
            return None
        entry = self._shown[index.row()]
        number = self._ticked.index(entry.path) if entry.path in self._ticked else None
        match role:
            case Qt.ItemDataRole.DisplayRole | Qt.ItemDataRole.AccessibleTextRole:
                return spoken(entry)
            case Qt.ItemDataRole.ToolTipRole:
                return tip(str(entry.path))
            case Qt.ItemDataRole.CheckStateRole if entry.state == "finished":
                return Qt.CheckState.Checked if number is not None else Qt.CheckState.Unchecked
            case _ if role == ENTRY_ROLE:
                return entry
            case _ if role == NUMBER_ROLE:
                return number
        return None

    def setData(self, index: Index, value: Any, role: int = Qt.ItemDataRole.EditRole) -> bool:
        """Tick or untick."""
        if role != Qt.ItemDataRole.CheckStateRole or not index.isValid():
            return False
        on = Qt.CheckState(value) == Qt.CheckState.Checked
        return self.tick(self._shown[index.row()].path, on=on)
