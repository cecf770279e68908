"""The moments of a run as Qt's list model: a change touches the rows that it is about, and no others."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from typing import Any

from PySide6.QtCore import QAbstractListModel, QModelIndex, QPersistentModelIndex, Qt

from gui.kind_words import kind_words, label_words
from gui.numbers import clock_text
from gui.tips import tip
from gui.words import translate
from logger.attachments import Attachment
from logger.moments import Moment

__all__ = ["MOMENT_ROLE", "PICTURES_ROLE", "MomentModel"]

MOMENT_ROLE = Qt.ItemDataRole.UserRole
"""The `Moment` of a row."""

PICTURES_ROLE = Qt.ItemDataRole.UserRole + 1
"""How many pictures it has."""

Index = QModelIndex | QPersistentModelIndex


class MomentModel(QAbstractListModel):
    """Moments in order of time; the number of one is its row, from 1.

    Words are made when they are asked for: of many moments a view asks for those in sight. Who looks at a
    row, or has chosen it, stays with its moment while others come and go.
    """

    def __init__(self) -> None:
        super().__init__()
        self._moments: list[Moment] = []
        self._counts: Counter[str] = Counter()

    @property
    def moments(self) -> tuple[Moment, ...]:
        """What is shown."""
        return tuple(self._moments)

    def row_of(self, moment_id: str) -> int | None:
        """Return the row of a moment, None where it is not shown."""
        return next((row for row, one in enumerate(self._moments) if one.id == moment_id), None)

    def show(self, moments: Iterable[Moment], attachments: Iterable[Attachment] = ()) -> list[int]:
        """Show `moments`, in order of time; return the rows of those that are new."""
        after = list(moments)
        counts = Counter(one.moment_id for one in attachments)
        if after == self._moments and counts == self._counts:
            return []
        living = {moment.id for moment in after}
        for first, last in reversed(_stretches(_rows_without(self._moments, living))):
            self.beginRemoveRows(QModelIndex(), first, last)
            del self._moments[first : last + 1]
            self.endRemoveRows()
        known = {moment.id for moment in self._moments}
        self._put_in_order([moment for moment in after if moment.id in known])
        new = _rows_without(after, known)
        for first, last in _stretches(new):
            self.beginInsertRows(QModelIndex(), first, last)
            self._moments[first:first] = after[first : last + 1]
            self.endInsertRows()
        self._counts = counts
        if after:
            self.dataChanged.emit(self.index(0), self.index(len(after) - 1))
        return new

    def _put_in_order(self, kept: list[Moment]) -> None:
        """Take `kept`, the moments shown before as they are now, whose times may have changed places."""
        if [one.id for one in kept] == [one.id for one in self._moments]:
            self._moments = kept
            return
        self.layoutAboutToBeChanged.emit()
        row_of = {moment.id: row for row, moment in enumerate(kept)}
        held = self.persistentIndexList()
        now = [self.index(row_of[self._moments[index.row()].id]) for index in held]
        self._moments = kept
        self.changePersistentIndexList(held, now)
        self.layoutChanged.emit()

    # ------------------------------------------------------------ for Qt

    def rowCount(self, parent: Index | None = None) -> int:
        """Return how many moments there are."""
        return 0 if parent is not None and parent.isValid() else len(self._moments)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        """Return what is spoken of a moment, the moment itself, or how many pictures it has."""
        if not index.isValid() or index.row() >= len(self._moments):
            return None
        moment = self._moments[index.row()]
        if role == MOMENT_ROLE:
            return moment
        if role == PICTURES_ROLE:
            return self._counts[moment.id]
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.ToolTipRole):
            words = _spoken(index.row() + 1, moment, self._counts[moment.id])
            return tip(words) if role == Qt.ItemDataRole.ToolTipRole else words
        return None


def _rows_without(moments: list[Moment], ids: set[str]) -> list[int]:
    return [row for row, moment in enumerate(moments) if moment.id not in ids]


def _stretches(rows: list[int]) -> list[tuple[int, int]]:
    """Return the first and last of each stretch of rows that follow one another."""
    found: list[tuple[int, int]] = []
    for row in rows:
        if found and found[-1][1] == row - 1:
            found[-1] = (found[-1][0], row)
        else:
            found.append((row, row))
    return found


def _spoken(number: int, moment: Moment, pictures: int) -> str:
    label = f": {label_words(moment)}" if moment.label else ""
    if pictures:
        label += " · " + translate("Moment list", "pictures: {count}").format(count=pictures)
    return f"{number}, {clock_text(moment.time_s, 1)}, {kind_words(moment.kind)}{label}"
