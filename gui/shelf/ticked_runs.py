"""The recordings that are ticked: loaded one after the other, shown together, compared when all are there."""

from __future__ import annotations

from functools import partial
from pathlib import Path

from PySide6.QtCore import QObject

from gui.job import Job
from gui.long_job import LongJob
from gui.message_words import message_sentence
from gui.pages.page import PageHost
from gui.shelf.comparison_view import ComparisonView
from gui.shelf.shelf_model import ShelfModel
from gui.words import translate
from logger.analysis.run_comparison import RunComparison
from logger.progress import Cancelled
from logger.shelf_run import ShelfRun, compare_shelf_runs, load_run

__all__ = ["TickedRuns"]


class TickedRuns(QObject):
    """Keeps what was loaded while it is ticked, and hands it to the view; `follow` after each change."""

    def __init__(self, host: PageHost, model: ShelfModel, view: ComparisonView, parent: QObject) -> None:
        super().__init__(parent)
        self._host, self._model, self._view = host, model, view
        self._runs: dict[Path, ShelfRun] = {}
        self._changed: set[Path] = set()
        self._loading: Path | None = None

    @property
    def loaded(self) -> list[ShelfRun]:
        """Those that are there, in the order of their ticks."""
        return [self._runs[path] for path in self._model.ticked if path in self._runs]

    def follow(self) -> None:
        """Show what is ticked now, and load what is missing."""
        for path in self._runs.keys() - set(self._model.ticked):
            del self._runs[path]
        self._show()
        self._load_next()

    def read_again(self, path: Path) -> None:
        """Read a ticked recording that has changed once more; what was read of it stays meanwhile."""
        if path in self._runs or path == self._loading:
            self._changed.add(path)
            self._load_next()

    def forget(self, path: Path) -> None:
        """Give up a recording that is no longer there."""
        self._runs.pop(path, None)

    def forget_all(self) -> None:
        """Give up all of them: another folder is shown."""
        self._runs.clear()

    def _load_next(self) -> None:
        """Load the ticked runs one after the other: all at once would take memory for all at once."""
        ticked = self._model.ticked
        # What is being read may be ticked once more before it is there, and then be the old one.
        self._changed = {path for path in self._changed if path in ticked or path == self._loading}
        if self._loading is not None or len(ticked) < 2:
            return
        missing = next((path for path in ticked if path not in self._runs or path in self._changed), None)
        if missing is None:
            return
        path = self._loading = missing
        self._changed.discard(path)

        def tell(run: ShelfRun | None, error: Exception | None) -> None:
            self._loading = None
            if run is not None and path in self._model.ticked:
                self._runs[path] = run
                self._show()
            elif run is None:
                if not isinstance(error, Cancelled):
                    self._host.tell(f"open {path}", "warning", message_sentence(str(error)))
                self._model.tick(path, on=False)
            self._load_next()

        words = translate("Window", "Opening {name}").format(name=path.name)
        self._host.do(LongJob(self._host, words, partial(load_run, path), tell, "load a run"))

    def _show(self) -> None:
        ticked, runs = self._model.ticked, self.loaded
        if len(ticked) < 2:
            return
        missing = [path for path in ticked if path not in self._runs]
        self._view.show_runs(runs, missing)
        if missing:
            return

        def tell(found: tuple[RunComparison | None, str] | None, error: Exception | None) -> None:
            if self._model.ticked == ticked:
                self._view.show_comparison(*(found or (None, str(error))))

        self._host.do(Job(lambda: compare_shelf_runs(runs), tell, "compare runs"))
