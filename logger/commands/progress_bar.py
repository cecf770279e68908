"""A bar that shows how far long work is, on a terminal only."""

from __future__ import annotations

import contextlib
import sys
import time
from collections.abc import Iterator
from typing import TextIO

from logger.progress import Progress

__all__ = ["progress_bar"]

AFTER_S = 0.5
"""Work that ends before shows no bar."""

EVERY_S = 0.1
CELLS = 30


@contextlib.contextmanager
def progress_bar(words: str, stream: TextIO | None = None) -> Iterator[Progress]:
    """Yield the progress to hand to the work; draw it on `stream` (stderr) while that is a terminal."""
    bar = _Bar(words, sys.stderr if stream is None else stream)
    try:
        yield Progress(bar.show)
    finally:
        bar.clear()


class _Bar:
    """Draws at most every `EVERY_S` seconds."""

    def __init__(self, words: str, stream: TextIO) -> None:
        self._words, self._stream = words, stream
        self._is_terminal = stream.isatty()
        self._due_s = time.monotonic() + AFTER_S
        self._is_drawn = False

    def show(self, share: float) -> None:
        """Draw the bar at `share` if it is time to."""
        if not self._is_terminal or time.monotonic() < self._due_s:
            return
        self._due_s = time.monotonic() + EVERY_S
        filled = round(share * CELLS)
        self._stream.write(f"\r{self._words} [{'#' * filled}{'.' * (CELLS - filled)}] {100 * share:3.0f} %")
        self._stream.flush()
        self._is_drawn = True

    def clear(self) -> None:
        """Take the bar off the terminal."""
        if self._is_drawn:
            self._stream.write("\r\x1b[K")
            self._stream.flush()
