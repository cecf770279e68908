"""The shelf: recordings of a folder, found, looked at, compared, finished."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from PySide6.QtCore import QModelIndex, Qt, QUrl
from PySide6.QtGui import QDesktopServices, QKeySequence, QResizeEvent, QShortcut
from PySide6.QtWidgets import (
    QBoxLayout,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from gui.findings.export_rows import ExportRows
from gui.notice_board import INFO_PASSES_S
from gui.pages.page import HeaderWords, Page, PageHost
from gui.pages.side_width import side_width
from gui.recordings_folder import recordings_folder
from gui.shelf.class_report import ask_for_class_report
from gui.shelf.comparison_view import ComparisonView
from gui.shelf.cut_off import FOLDER_KEY, finish_runs, offer_to_finish
from gui.shelf.entry_view import EntryView
from gui.shelf.folder_reading import FolderReading
from gui.shelf.places_button import PlacesButton
from gui.shelf.recent_files import RecentFiles
from gui.shelf.shelf_column import ShelfColumn
from gui.shelf.shelf_model import ENTRY_ROLE, ShelfModel
from gui.shelf.ticked_runs import TickedRuns
from gui.words import translate
from logger.folder import folder_words
from logger.shelf_entry import ShelfEntry
from logger.shelf_run import write_class_report

__all__ = ["FOLDER_KEY", "ShelfPage"]

LIST_WIDTH, LIST_WIDEST = 470, 600
NARROW = 820
ANY_WIDTH = (1 << 24) - 1
"""The maximum that Qt gives a widget without one; the binding does not name it."""

LOW_LIST, LOW_RIGHT = 150, 430
"""Heights in pixels that the list and what is chosen keep when they stand one above the other."""


class ShelfPage(Page):
    """A list of recordings on the left; on the right the chosen one, or those that are ticked."""

    def __init__(self, host: PageHost, parent: QWidget | None = None) -> None:
        super().__init__(host, parent)
        self.model = ShelfModel()
        self.recent = RecentFiles(host.settings)
        self.folder = Path(str(host.settings.value(FOLDER_KEY, "") or recordings_folder(host.settings)))
        self._told_cut_off: set[Path] = set()
        self.places = PlacesButton(host.settings, self.recent, lambda: self.folder)
        self.reading = FolderReading(host, self._take, self)
        self._build(host)
        self.ticked = TickedRuns(host, self.model, self.comparison, self)
        self._connect()

    # ------------------------------------------------------------ layout

    def _build(self, host: PageHost) -> None:
        column = self._column = ShelfColumn(host.theme, self.model, self.places)
        self.search, self.list = column.search, column.list
        self.entry = EntryView(host.theme)
        self.comparison = ComparisonView(host.theme)
        self.exports = ExportRows(host)
        self._right = QStackedWidget()
        self._right.addWidget(self.entry)
        self._right.addWidget(self.comparison)
        row = self._row = QBoxLayout(QBoxLayout.Direction.LeftToRight, self)
        row.setContentsMargins(28, 16, 24, 14)
        row.setSpacing(28)
        row.addWidget(column, 2)
        right = QVBoxLayout()
        right.setSpacing(8)
        right.addWidget(self._right, 1)
        right.addWidget(self.exports)
        row.addLayout(right, 3)
        self._fit(is_narrow=False)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Put what is chosen below the list where it has no room beside it; the window scrolls to it."""
        super().resizeEvent(event)
        self._fit(is_narrow=self.width() < NARROW)

    def _fit(self, *, is_narrow: bool) -> None:
        directions = QBoxLayout.Direction
        self._row.setDirection(directions.TopToBottom if is_narrow else directions.LeftToRight)
        most = ANY_WIDTH if is_narrow else side_width(self.width(), LIST_WIDTH, LIST_WIDEST)
        self._column.setMaximumWidth(most)
        self.list.setMinimumHeight(LOW_LIST if is_narrow else 0)
        self._right.setMinimumHeight(LOW_RIGHT if is_narrow else 0)

    def _connect(self) -> None:
        self.search.textChanged.connect(self._search)
        self._column.again.clicked.connect(lambda _checked=False: self.refresh())
        self.places.folder_chosen.connect(self.choose_folder)
        self.places.recording_wanted.connect(self._open_recent)
        self.reading.looking.connect(self._column.tell_looking)
        self.reading.failed.connect(self._column.tell_trouble)
        self.reading.read.connect(self._tell_read)
        selection = self.list.selectionModel()
        selection.currentChanged.connect(lambda *_: self._show_right())
        self.model.modelReset.connect(self._show_right)
        self.list.activated.connect(self._open_index)
        self.model.ticked_changed.connect(self._show_right)
        self.model.ticked_changed.connect(self.ticked.follow)
        self.model.refused.connect(self._tell_too_many)
        self.entry.open_wanted.connect(self._open_current)
        self.entry.finish_wanted.connect(self._finish_current)
        self.entry.folder_wanted.connect(self._show_folder)
        self.comparison.cleared.connect(self.model.untick_all)
        self.comparison.report_wanted.connect(self._ask_for_report)
        find = QShortcut(QKeySequence(QKeySequence.StandardKey.Find), self)
        find.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        find.activated.connect(self.search.setFocus)

    # ------------------------------------------------------------ what the window asks

    def take_keys(self) -> None:
        """Choose among the recordings first."""
        self.list.setFocus()

    def entered(self) -> None:
        """Look into the folder, and note what was opened meanwhile."""
        for finished in self.host.open_findings:
            self.recent.add(finished.recording.path)
        self.refresh()

    def frame(self) -> None:
        """Take what was read since the last frame."""
        self.exports.frame()
        self.reading.frame()

    def take_files(self, paths: Sequence[Path]) -> bool:
        """Take dropped files onto the shelf; a dropped folder becomes the folder of the shelf."""
        folders = [path for path in paths if path.is_dir()]
        if folders:
            self.choose_folder(folders[0])
            return True
        files = [path for path in paths if path.name.endswith((".h5", ".h5.journal"))]
        if not files:
            text = translate("Shelf", "Recordings end in .h5; what was dropped is none: {names}")
            names = ", ".join(path.name for path in paths[:3])
            self.host.tell("dropped", "info", text.format(names=names), passes_after_s=INFO_PASSES_S)
            return True
        self.reading.read_files(files, self._take_and_tick)
        return True

    def header_words(self) -> HeaderWords:
        """The folder."""
        return HeaderWords(translate("Shelf", "Shelf"), (folder_words(self.folder),))

    # ------------------------------------------------------------ reading

    def choose_folder(self, folder: Path) -> None:
        """Show the recordings of another folder."""
        self.folder = folder.absolute()
        self.host.settings.setValue(FOLDER_KEY, str(self.folder))
        self.model.clear()
        self.ticked.forget_all()
        self.refresh()

    def refresh(self) -> None:
        """Look into the folder again; what has not changed is not read again."""
        self.reading.read_folder(self.folder)

    def _tell_read(self) -> None:
        self._drop_missing()
        self._tell_count()
        if not self.model.count:
            self.entry.show_empty()

    def _tell_count(self) -> None:
        found = self.model.rowCount() if self.search.text().strip() else None
        self._column.tell_count(self.model.count, self.folder, found)

    def _take_and_tick(self, entries: Sequence[ShelfEntry]) -> None:
        for entry in entries:
            self._take(entry)
            if entry.state == "finished":
                self.model.tick(entry.path, on=True)

    def _take(self, entry: ShelfEntry) -> None:
        known = self.model.entry(entry.path)
        self.model.take(entry)
        if known is not None and known.changed_ns != entry.changed_ns:
            self.ticked.read_again(entry.path)
        if not self.list.currentIndex().isValid():
            self.list.setCurrentIndex(self.model.index(0))
        if entry.state == "cut_off" and entry.path not in self._told_cut_off:
            self._told_cut_off.add(entry.path)
            self._offer_to_finish()
        self._show_right()

    def _drop_missing(self) -> None:
        for entry in self.model.entries():
            if not entry.path.exists():
                self.model.drop(entry.path)
                self.ticked.forget(entry.path)

    # ------------------------------------------------------------ what is chosen

    def _current(self) -> ShelfEntry | None:
        found = self.list.currentIndex().data(ENTRY_ROLE)
        return found if isinstance(found, ShelfEntry) else None

    def _show_right(self) -> None:
        self._right.setCurrentWidget(self.comparison if len(self.model.ticked) > 1 else self.entry)
        self.entry.show_entry(self._current())

    def _search(self, words: str) -> None:
        self.model.search(words)
        if self.reading.is_over and self.model.count:
            self._tell_count()
        if self.model.rowCount():
            self.list.setCurrentIndex(self.model.index(0))

    # ------------------------------------------------------------ acting

    def _open_index(self, index: QModelIndex) -> None:
        entry = index.data(ENTRY_ROLE)
        if isinstance(entry, ShelfEntry):
            self._open(entry)

    def _open_current(self) -> None:
        entry = self._current()
        if entry is not None:
            self._open(entry)

    def _open(self, entry: ShelfEntry) -> None:
        if entry.state == "finished":
            self.recent.add(entry.path)
            self.host.open_file(entry.path)

    def _finish_current(self) -> None:
        entry = self._current()
        if entry is not None and entry.state == "cut_off":
            self.finish_runs([entry.path])

    def _offer_to_finish(self, tried: Sequence[Path] = ()) -> None:
        """Offer it for those that were cut off, but for those for which it was just `tried`."""
        found = [entry.path for entry in self.model.entries() if entry.state == "cut_off"]
        cut_off = [path for path in found if path not in tried]
        if cut_off:
            offer_to_finish(self.host, cut_off, self.finish_runs)

    def finish_runs(self, journals: Sequence[Path]) -> None:
        """Make recordings of runs that were cut off."""

        def look_again() -> None:
            self._drop_missing()
            self._offer_to_finish(tried=journals)
            self.refresh()

        finish_runs(self.host, journals, look_again)

    def _ask_for_report(self) -> None:
        wanted = ask_for_class_report(self, self.folder)
        if wanted is not None:
            self.write_report(wanted.out, may_replace=wanted.may_replace)

    def write_report(self, out: Path, *, may_replace: bool = False) -> None:
        """Write the comparison of the ticked runs, as the ending of `out` says."""
        runs = self.ticked.loaded
        self.exports.begin(out, lambda progress: write_class_report(runs, out, progress, replace=may_replace))

    def _show_folder(self) -> None:
        entry = self._current()
        folder = self.folder if entry is None else entry.path.parent
        QDesktopServices.openUrl(QUrl.fromLocalFile(str(folder)))

    def _tell_too_many(self) -> None:
        text = translate("Shelf", "Eight runs can be told apart at most. Take the tick of one away first.")
        self.host.tell("too many", "info", text, passes_after_s=INFO_PASSES_S)

    def _open_recent(self, path: Path) -> None:
        self.recent.add(path)
        self.host.open_file(path)
