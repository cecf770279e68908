"""Reading the folder of the shelf off the window's thread: recording by recording, what is new only."""

from __future__ import annotations

import queue
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TypeVar

from PySide6.QtCore import QObject, QStandardPaths, Signal

from gui.job import Job
from gui.pages.page import PageHost
from logger.shelf import Shelf
from logger.shelf_entry import ShelfEntry

__all__ = ["FolderReading"]

Result = TypeVar("Result")


class FolderReading(QObject):
    """Reads one folder at a time, once more where it may have changed meanwhile.

    Parameters
    ----------
    take : is given each recording as soon as it was read, by `frame`.

    Attributes
    ----------
    looking : emitted with the folder when reading begins.
    read : emitted with nothing when the folder that was asked for last was read, as it was then.
    failed : emitted with the reason when a folder could not be read.
    """

    looking = Signal(object)
    read = Signal()
    failed = Signal(str)

    def __init__(self, host: PageHost, take: Callable[[ShelfEntry], None], parent: QObject) -> None:
        super().__init__(parent)
        self._host, self._take = host, take
        self._shelf: Shelf | None = None
        self._folder = Path()  # which is being read
        self._found: queue.SimpleQueue[tuple[Shelf, ShelfEntry]] = queue.SimpleQueue()
        self._wanted = Path()
        self._reads_again = False

    @property
    def is_over(self) -> bool:
        """Tell whether no folder is being read."""
        return self._shelf is None

    def read_folder(self, folder: Path) -> None:
        """Look into `folder`; what has not changed is not read again.

        Another one that is being read is given up, and nothing of it is taken any more.
        """
        self._wanted = folder
        if self._shelf is not None:
            self._reads_again = True  # the folder may have changed while it is read
            if folder != self._folder:
                self._shelf.end()
            return
        shelf, self._folder = Shelf(_kept_folder()), folder
        self._shelf = shelf
        self.looking.emit(folder)

        def read() -> int:
            return shelf.read_folder(folder, lambda entry: self._found.put((shelf, entry)))

        def tell(_count: int | None, error: Exception | None) -> None:
            self.frame()
            self._shelf = None
            if self._reads_again:
                self._reads_again = False
                self.read_folder(self._wanted)
            elif error is not None:
                self.failed.emit(str(error))
            else:
                self.read.emit()

        self._host.do(_Reading(shelf, read, tell, "read the shelf"))

    def read_files(self, paths: Sequence[Path], take: Callable[[Sequence[ShelfEntry]], None]) -> None:
        """Read single recordings, wherever they lie, and give all of them to `take`."""
        shelf = Shelf()

        def read() -> list[ShelfEntry]:
            try:
                return [shelf.read_file(path.absolute()) for path in paths]
            finally:
                shelf.stop()

        def tell(entries: list[ShelfEntry] | None, _error: Exception | None) -> None:
            take(entries or ())

        self._host.do(_Reading(shelf, read, tell, "read recordings"))

    def frame(self) -> None:
        """Give on what was read since the last frame."""
        while not self._found.empty():
            shelf, entry = self._found.get()
            if shelf is self._shelf and self._folder == self._wanted:
                self._take(entry)


class _Reading(Job[Result]):
    """Reads recordings; the end of the window asks nobody about that, and does not wait for the rest."""

    def __init__(
        self,
        shelf: Shelf,
        work: Callable[[], Result],
        on_done: Callable[[Result | None, Exception | None], None],
        name: str,
    ) -> None:
        self._shelf = shelf
        super().__init__(work, on_done, name)

    def cancel(self) -> None:
        """End reading at once."""
        self._shelf.stop()


def _kept_folder() -> Path:
    """Where what was read of recordings is kept: the system's place for what can be made again."""
    place = QStandardPaths.writableLocation(QStandardPaths.StandardLocation.CacheLocation)
    return Path(place) / "shelf"
