"""Reading recordings through a child process that is given up when it takes too long.

One child reads many files, one after the other: starting Python for each would take longer than reading.
A file that kills the child, or keeps it busy beyond the limit, costs that child only.
"""

from __future__ import annotations

import contextlib
import json
import queue
import subprocess
import sys
import threading
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from logger.vetting import MOST_S, SECONDS_PER_MB, TOO_SLOW

__all__ = ["ShelfReader"]

START_LIMIT_S = 20.0
COMMAND = (sys.executable, "-m", "logger.shelf_child")
BREAKS_THE_LIBRARY = "reading it breaks the HDF5 library"


class ShelfReader:
    """Asks the child for one file after the other. For one thread; `close` may be called from another.

    Parameters
    ----------
    command : starts the child; a faithful fake in tests.
    limit_s : seconds for a file, without what its size adds.
    """

    def __init__(self, command: Sequence[str] = COMMAND, limit_s: float = START_LIMIT_S) -> None:
        self._command = tuple(command)
        self._limit_s = limit_s
        self._child: subprocess.Popen[str] | None = None
        self._answers: queue.Queue[str] = queue.Queue()
        self._listener: threading.Thread | None = None

    def read(self, path: Path) -> dict[str, Any]:
        """Return what the child tells of `path`; a damaged file is told as such, never raised."""
        try:
            size = path.stat().st_size
        except OSError as error:
            return {"state": "damaged", "problem": error.strerror or str(error)}
        if not self._ask(path):
            return {"state": "damaged", "problem": BREAKS_THE_LIBRARY}
        limit_s = min(self._limit_s + SECONDS_PER_MB * size / 2**20, max(MOST_S, self._limit_s))
        try:
            line = self._answers.get(timeout=limit_s)
        except queue.Empty:
            self.close()
            return {"state": "damaged", "problem": TOO_SLOW}
        try:
            answer = json.loads(line)
        except ValueError:
            answer = None
        if not isinstance(answer, dict):
            self.close()
            return {"state": "damaged", "problem": BREAKS_THE_LIBRARY}
        return answer

    def close(self) -> None:
        """End the child. May be called twice; the next `read` starts another."""
        child, self._child = self._child, None
        listener, self._listener = self._listener, None
        if child is not None:
            child.kill()
            child.wait()
            if child.stdin is not None:
                with contextlib.suppress(OSError):
                    child.stdin.close()
        if listener is not None:
            listener.join()
        if child is not None and child.stdout is not None:
            child.stdout.close()

    def _ask(self, path: Path) -> bool:
        for _attempt in range(2):  # a child that died with the last file is replaced
            if self._child is None or self._child.poll() is not None:
                self.close()
                self._start()
            assert self._child is not None
            assert self._child.stdin is not None
            try:
                told = str(path.absolute())  # the child runs in another folder
                self._child.stdin.write(json.dumps(told) + "\n")
                self._child.stdin.flush()
            except OSError:
                continue
            return True
        return False

    def _start(self) -> None:
        self._answers = queue.Queue()
        self._child = subprocess.Popen(
            self._command,
            cwd=Path(__file__).resolve().parent.parent,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            text=True,
            encoding="utf-8",
            errors="replace",
        )
        self._listener = threading.Thread(
            target=_listen, args=(self._child.stdout, self._answers), name="shelf listener", daemon=True
        )
        self._listener.start()


def _listen(stdout: Any, answers: queue.Queue[str]) -> None:
    """Hand on what the child says; an empty line tells that it is gone."""
    with contextlib.suppress(ValueError, OSError):
        for line in stdout:
            answers.put(line)
    answers.put("")
