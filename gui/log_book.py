"""The log file of the program, and what to send along when it has a fault. No Qt."""

from __future__ import annotations

import faulthandler
import logging
import logging.handlers
import platform
import sys
import threading
import traceback
from pathlib import Path
from types import TracebackType
from typing import TextIO

from logger.version import VERSION

__all__ = ["LogBook"]

FILE_BYTES = 500_000
FILES_KEPT = 3
LINES_COPIED = 200

log = logging.getLogger("galvanote")


class LogBook:
    """Keeps a rotating log in `folder`, and the faults that nobody caught.

    Faults of any thread are written down; `new_faults` tells the window of them.
    """

    def __init__(self, folder: Path) -> None:
        self.path: Path | None = None
        self._folder = folder
        self._lock = threading.Lock()
        self._faults: list[str] = []
        self._handler: logging.Handler | None = None
        self._crash: TextIO | None = None

    def open(self) -> None:
        """Begin to write, and to catch faults. Where nothing can be written, only the catching."""
        try:
            self._folder.mkdir(parents=True, exist_ok=True)
            self.path = self._folder / "galvanote.log"
            self._handler = logging.handlers.RotatingFileHandler(
                self.path, maxBytes=FILE_BYTES, backupCount=FILES_KEPT, encoding="utf-8"
            )
            self._crash = (self._folder / "crash.log").open("a", encoding="utf-8")
            faulthandler.enable(self._crash)
        except OSError:
            self.path = self._handler = None
        if self._handler is not None:
            self._handler.setFormatter(
                logging.Formatter("%(asctime)s %(levelname)s %(threadName)s %(name)s: %(message)s")
            )
            logging.getLogger().addHandler(self._handler)
        logging.getLogger().setLevel(logging.INFO)
        sys.excepthook = self._take
        threading.excepthook = lambda hook: self._take(hook.exc_type, hook.exc_value, hook.exc_traceback)
        log.info("Galvanote %s begins", VERSION)

    def close(self) -> None:
        """Write no more."""
        sys.excepthook, threading.excepthook = sys.__excepthook__, threading.__excepthook__
        if self._handler is not None:
            logging.getLogger().removeHandler(self._handler)
            self._handler.close()
        if self._crash is not None:
            faulthandler.disable()
            self._crash.close()

    def new_faults(self) -> tuple[str, ...]:
        """Return the faults since the last call, each in one line."""
        with self._lock:
            found, self._faults = tuple(self._faults), []
        return found

    def details(self) -> str:
        """Return what helps to find a fault: versions, system, and the end of the log."""
        lines: list[str] = []
        if self.path is not None and self.path.exists():
            lines = self.path.read_text(encoding="utf-8", errors="replace").splitlines()[-LINES_COPIED:]
        head = (
            f"Galvanote {VERSION}, Python {platform.python_version()}, {platform.platform()}\n"
            f"Log: {self.path or 'none could be written'}\n"
        )
        return head + "\n".join(lines) + "\n"

    def _take(
        self,
        kind: type[BaseException],
        fault: BaseException | None,
        where: TracebackType | None,
    ) -> None:
        text = "".join(traceback.format_exception(kind, fault, where))
        log.error("a fault nobody caught\n%s", text)
        sys.stderr.write(text)
        with self._lock:
            self._faults.append(f"{kind.__name__}: {fault}")
