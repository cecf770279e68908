"""The shelf: recordings of a folder, found, looked at, compared, finished."""

from __future__ import annotations

import queue
from collections.abc import Sequence
from functools import partial
from pathlib import Path

from PySide6.QtCore import QModelIndex, QStandardPaths, Qt, QUrl
from PySide6.QtGui import QDesktopServices, QKeySequence, QResizeEvent, QShortcut
from PySide6.QtWidgets import (
    QBoxLayout,
    QFileDialog,
    QFrame,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QListView,
    QMenu,
    QPushButton,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from gui.findings.export_rows import ExportRows
from gui.fonts import font
from gui.job import Job
from gui.long_job import LongJob
from gui.message_words import message_sentence
from gui.pages.page import Page, PageHost
from gui.recordings_folder import recordings_folder
from gui.shelf.comparison_view import ComparisonView
from gui.shelf.cut_off import FOLDER_KEY, finish_runs, offer_to_finish
from gui.shelf.entry_view import EntryView
from gui.shelf.recent_files import RecentFiles
from gui.shelf.shelf_delegate import ShelfDelegate
from gui.shelf.shelf_model import ENTRY_ROLE, ShelfModel
from gui.words import translate
from logger.export.formats import with_ending
from logger.folder import folder_words
from logger.progress import Cancelled
from logger.shelf import Shelf
from logger.shelf_entry import ShelfEntry
from logger.shelf_run import ShelfRun, compare_shelf_runs, load_run, write_class_report

__all__ = ["FOLDER_KEY", "ShelfPage"]

LIST_WIDTH = 470
NARROW, WIDEST = 820, 16777215
LOW_LIST, LOW_RIGHT = 150, 430
"""Heights in pixels that the list and what is chosen keep when they stand one above the other."""


class ShelfPage(Page):
    """A list of recordings on the left; on the right the chosen one, or those that are ticked."""

    def __init__(self, host: PageHost, parent: QWidget | None = None) -> None:
        super().__init__(host, parent)
        self.model = ShelfModel()
        self.recent = RecentFiles(host.settings)
        self.folder = Path(str(host.settings.value(FOLDER_KEY, "") or recordings_folder(host.settings)))
        self._shelf: Shelf | None = None
        self._found: queue.SimpleQueue[tuple[Shelf, ShelfEntry]] = queue.SimpleQueue()
        self._runs: dict[Path, ShelfRun] = {}
        self._loading: Path | None = None
        self._told_cut_off: set[Path] = set()
        self._refresh_again = False
        self._build(host)
        self._connect()

    # ------------------------------------------------------------ layout

    def _build(self, host: PageHost) -> None:
        self.search = QLineEdit()
        self.search.setFont(font(14))
        self.search.setPlaceholderText(translate("Shelf", "Search title, date, moments"))
        self.search.setAccessibleName(translate("Shelf", "Search the shelf"))
        self.search.setClearButtonEnabled(True)
        self.places = QPushButton(translate("Shelf", "Folder …"))
        self.places.setFont(font(13.5, "medium"))
        self.places.setAccessibleName(translate("Shelf", "Folder and recent recordings"))
        self._menu = QMenu(self.places)
        self.places.setMenu(self._menu)
        self.again = QPushButton(translate("Shelf", "Look again"))
        self.again.setFont(font(13.5, "medium"))
        self.again.setProperty("look", "flat")
        self._about = QLabel()
        self._about.setFont(font(12.5))
        self._about.setProperty("look", "quiet")
        self._about.setWordWrap(True)
        self.list = QListView()
        self.list.setModel(self.model)
        self.list.setItemDelegate(ShelfDelegate(host.theme))
        self.list.setFrameShape(QFrame.Shape.NoFrame)
        self.list.setVerticalScrollMode(QListView.ScrollMode.ScrollPerPixel)
        self.list.setUniformItemSizes(True)
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.list.setMouseTracking(True)
        self.list.setAccessibleName(translate("Shelf", "Recordings"))
        self.list.setProperty("keeps_space", True)  # it ticks here, and does no step of a run
        self.list.setStyleSheet("QListView { background: transparent; outline: none; }")
        self.entry = EntryView(host.theme)
        self.comparison = ComparisonView(host.theme)
        self.exports = ExportRows(host)
        self._right = QStackedWidget()
        self._right.addWidget(self.entry)
        self._right.addWidget(self.comparison)
        top = QHBoxLayout()
        top.setSpacing(8)
        top.addWidget(self.search, 1)
        top.addWidget(self.places)
        left = QVBoxLayout()
        left.setSpacing(8)
        left.addLayout(top)
        about = QHBoxLayout()
        about.addWidget(self._about, 1)
        about.addWidget(self.again)
        left.addLayout(about)
        left.addWidget(self.list, 1)
        column = self._column = QWidget()
        column.setLayout(left)
        left.setContentsMargins(0, 0, 0, 0)
        column.setMinimumWidth(320)
        row = self._row = QBoxLayout(QBoxLayout.Direction.LeftToRight, self)
        row.setContentsMargins(28, 16, 24, 14)
        row.setSpacing(28)
        row.addWidget(column, 2)
        right = QVBoxLayout()
        right.setSpacing(8)
        right.addWidget(self._right, 1)
        right.addWidget(self.exports)
        row.addLayout(right, 3)
        self.setFocusProxy(self.list)
        self._fit(is_narrow=False)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Put what is chosen below the list where it has no room beside it; the window scrolls to it."""
        super().resizeEvent(event)
        self._fit(is_narrow=self.width() < NARROW)

    def _fit(self, *, is_narrow: bool) -> None:
        directions = QBoxLayout.Direction
        self._row.setDirection(directions.TopToBottom if is_narrow else directions.LeftToRight)
        self._column.setMaximumWidth(WIDEST if is_narrow else LIST_WIDTH)
        self.list.setMinimumHeight(LOW_LIST if is_narrow else 0)
        self._right.setMinimumHeight(LOW_RIGHT if is_narrow else 0)

    def _connect(self) -> None:
        self.search.textChanged.connect(self._search)
        self.again.clicked.connect(lambda _checked=False: self.refresh())
        self._menu.aboutToShow.connect(self._fill_menu)
        selection = self.list.selectionModel()
        selection.currentChanged.connect(lambda *_: self._show_right())
        self.model.modelReset.connect(self._show_right)
        self.list.activated.connect(self._open_index)
        self.model.ticked_changed.connect(self._ticks_changed)
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

    def entered(self) -> None:
        """Look into the folder, and note what was opened meanwhile."""
        for finished in self.host.open_findings:
            self.recent.add(finished.recording.path)
        self.refresh()

    def frame(self) -> None:
        """Take what was read since the last frame."""
        self.exports.frame()
        while not self._found.empty():
            shelf, entry = self._found.get()
            if shelf is self._shelf:
                self._take(entry)

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
            self.host.tell("dropped", "info", text.format(names=names), passes_after_s=8)
            return True
        self._read_files(files)
        return True

    def header_words(self) -> tuple[str, str] | None:
        """The folder."""
        return translate("Shelf", "Shelf"), folder_words(self.folder)

    # ------------------------------------------------------------ reading

    def choose_folder(self, folder: Path) -> None:
        """Show the recordings of another folder."""
        self.folder = folder.absolute()
        self.host.settings.setValue(FOLDER_KEY, str(self.folder))
        self.model.clear()
        self._runs.clear()
        self.refresh()

    def refresh(self) -> None:
        """Look into the folder again; what has not changed is not read again."""
        if self._shelf is not None:
            self._refresh_again = True  # the folder may have changed while it is read
            return
        shelf = self._shelf = Shelf(_kept_folder())
        folder = self.folder
        self._about.setText(translate("Shelf", "Looking into {folder} …").format(folder=folder.name))

        def read() -> int:
            return shelf.read_folder(folder, lambda entry: self._found.put((shelf, entry)))

        def tell(count: int | None, error: Exception | None) -> None:
            self.frame()
            self._shelf = None
            if error is not None:
                self._about.setText(message_sentence(str(error)))
            elif folder == self.folder:
                self._drop_missing()
                self._tell_count()
            if self._refresh_again or folder != self.folder:
                self._refresh_again = False
                self.refresh()

        self.host.do(Job(read, tell, "read the shelf"))

    def close_shelf(self) -> None:
        """End reading: the window closes."""
        if self._shelf is not None:
            self._shelf.stop()

    def _read_files(self, paths: Sequence[Path]) -> None:
        shelf = Shelf()

        def read() -> list[ShelfEntry]:
            try:
                return [shelf.read_file(path.absolute()) for path in paths]
            finally:
                shelf.stop()

        def tell(entries: list[ShelfEntry] | None, _error: Exception | None) -> None:
            for entry in entries or ():
                self._take(entry)
                if entry.state == "finished":
                    self.model.tick(entry.path, on=True)

        self.host.do(Job(read, tell, "read recordings"))

    def _take(self, entry: ShelfEntry) -> None:
        self.model.take(entry)
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
                self._runs.pop(entry.path, None)

    def _tell_count(self) -> None:
        if self.model.count == 1:
            text = translate("Shelf", "1 recording in {folder}")
        elif self.model.count:
            text = translate("Shelf", "{count} recordings in {folder}")
        else:
            text = translate("Shelf", "No recordings in {folder} yet; new ones appear here.")
        self._about.setText(text.format(count=self.model.count, folder=folder_words(self.folder)))

    # ------------------------------------------------------------ what is chosen

    def _current(self) -> ShelfEntry | None:
        found = self.list.currentIndex().data(ENTRY_ROLE)
        return found if isinstance(found, ShelfEntry) else None

    def _show_right(self) -> None:
        self._right.setCurrentWidget(self.comparison if len(self.model.ticked) > 1 else self.entry)
        self.entry.show_entry(self._current())

    def _search(self, words: str) -> None:
        self.model.search(words)
        if self.model.rowCount():
            self.list.setCurrentIndex(self.model.index(0))

    def _ticks_changed(self) -> None:
        for path in self._runs.keys() - set(self.model.ticked):
            del self._runs[path]
        self._show_right()
        self._show_runs()
        self._load_next()

    def _load_next(self) -> None:
        """Load the ticked runs one after the other: all at once would take memory for all at once."""
        if self._loading is not None or len(self.model.ticked) < 2:
            return
        missing = next((path for path in self.model.ticked if path not in self._runs), None)
        if missing is None:
            return
        path = self._loading = missing

        def tell(run: ShelfRun | None, error: Exception | None) -> None:
            self._loading = None
            if run is not None and path in self.model.ticked:
                self._runs[path] = run
                self._show_runs()
            elif run is None:
                if not isinstance(error, Cancelled):
                    self.host.tell(f"open {path}", "warning", message_sentence(str(error)))
                self.model.tick(path, on=False)
            self._load_next()

        words = translate("Window", "Opening {name}").format(name=path.name)
        self.host.do(LongJob(self.host, words, partial(load_run, path), tell, "load a run"))

    def _show_runs(self) -> None:
        ticked = self.model.ticked
        if len(ticked) < 2:
            return
        runs = [self._runs[path] for path in ticked if path in self._runs]
        self.comparison.show_runs(runs, len(ticked))
        if len(runs) < len(ticked):
            return

        def tell(found: tuple[object, str] | None, error: Exception | None) -> None:
            if self.model.ticked != ticked:
                return
            comparison, why = found if found is not None else (None, str(error))
            self.comparison.show_comparison(comparison, why)  # type: ignore[arg-type]

        self.host.do(Job(lambda: compare_shelf_runs(runs), tell, "compare runs"))

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

    def _offer_to_finish(self) -> None:
        cut_off = [entry.path for entry in self.model.entries() if entry.state == "cut_off"]
        offer_to_finish(self.host, cut_off, lambda: self.finish_runs(cut_off))

    def finish_runs(self, journals: Sequence[Path]) -> None:
        """Make recordings of runs that were cut off."""

        def look_again() -> None:
            self._drop_missing()
            self.refresh()

        finish_runs(self.host, journals, look_again)

    def _ask_for_report(self) -> None:
        kinds = {
            translate("Shelf", "Report (*.pdf)"): ".pdf",
            translate("Shelf", "Report for the browser (*.html)"): ".html",
            translate("Shelf", "Picture (*.png)"): ".png",
            translate("Shelf", "Picture to enlarge (*.svg)"): ".svg",
        }
        start = str(self.folder / translate("Shelf", "class.pdf"))
        title = translate("Shelf", "Report for the class")
        name, kind = QFileDialog.getSaveFileName(self, title, start, ";;".join(kinds))
        if not name:
            return
        path = Path(name)
        has_ending = path.suffix.lower() in kinds.values()
        # The dialog asks about the name as typed; of the name with the ending nobody was asked.
        self.write_report(
            path if has_ending else with_ending(path, kinds.get(kind, ".pdf")),
            may_replace=has_ending,
        )

    def write_report(self, out: Path, *, may_replace: bool = False) -> None:
        """Write the comparison of the ticked runs, as the ending of `out` says."""
        runs = [self._runs[path] for path in self.model.ticked if path in self._runs]
        self.exports.begin(out, lambda progress: write_class_report(runs, out, progress, replace=may_replace))

    def _show_folder(self) -> None:
        entry = self._current()
        folder = self.folder if entry is None else entry.path.parent
        QDesktopServices.openUrl(QUrl.fromLocalFile(str(folder)))

    def _tell_too_many(self) -> None:
        text = translate("Shelf", "Eight runs can be told apart at most. Take the tick of one away first.")
        self.host.tell("too many", "info", text, passes_after_s=8)

    # ------------------------------------------------------------ the menu of places

    def _fill_menu(self) -> None:
        self._menu.clear()
        self._menu.addAction(translate("Shelf", "Choose a folder …"), self._ask_for_folder)
        usual = recordings_folder(self.host.settings)
        if usual != self.folder:
            self._menu.addAction(translate("Shelf", "The usual folder"), partial(self.choose_folder, usual))
        self._menu.addSeparator()
        for path in self.recent.paths:
            if path.exists():
                self._menu.addAction(path.name, partial(self._open_recent, path))
            else:
                text = translate("Shelf", "{name} (not there: look for it …)").format(name=path.name)
                self._menu.addAction(text, partial(self._look_for, path))
        if self.recent.paths:
            self._menu.addAction(translate("Shelf", "Forget these"), self.recent.clear)
        else:
            self._menu.addAction(translate("Shelf", "Nothing was opened yet")).setEnabled(False)

    def _open_recent(self, path: Path) -> None:
        self.recent.add(path)
        self.host.open_file(path)

    def _ask_for_folder(self) -> None:
        chosen = QFileDialog.getExistingDirectory(
            self, translate("Shelf", "Folder of recordings"), str(self.folder)
        )
        if chosen:
            self.choose_folder(Path(chosen))

    def _look_for(self, missing: Path) -> None:
        filters = translate("Shelf", "Recordings (*.h5)")
        chosen, _filter = QFileDialog.getOpenFileName(self, missing.name, str(self.folder), filters)
        if chosen:
            self.recent.replace(missing, Path(chosen))
            self._open_recent(Path(chosen))


def _kept_folder() -> Path:
    """Where what was read of recordings is kept: the system's place for what can be made again."""
    place = QStandardPaths.writableLocation(QStandardPaths.StandardLocation.CacheLocation)
    return Path(place) / "shelf"
