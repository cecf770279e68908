"""Finding the painter of a format: painting is Qt's work, and logger knows no Qt.

Painters are looked up by name in the entry point group ``galvanote.painters``.
"""

from __future__ import annotations

import contextlib
import signal
import threading
from collections.abc import Iterator
from importlib.metadata import entry_points
from typing import Any

from logger.errors import LoggerError
from logger.export.drawing import PagesPainter, Painter

__all__ = ["pages_painter", "painter"]


def painter(kind: str) -> Painter:
    """Return the painter of single pictures of that kind (``png``).

    Raises
    ------
    LoggerError : there is none; the message names the remedy.
    """
    found: Painter = _find(kind)
    return found


def pages_painter(kind: str) -> PagesPainter:
    """Return the painter of pages of that kind (``pdf``).

    Raises
    ------
    LoggerError : there is none; the message names the remedy.
    """
    found: PagesPainter = _find(kind)
    return found


_ENDING = (signal.SIGINT, signal.SIGTERM)


@contextlib.contextmanager
def _interrupted_only_afterwards() -> Iterator[None]:
    """Let Ctrl-C and SIGTERM wait: interrupted while it is loaded, Qt's binding crashes the process."""
    if threading.current_thread() is not threading.main_thread():
        yield  # the interrupt goes to the main thread
        return
    came: list[int] = []
    before = {one: signal.signal(one, lambda number, _frame: came.append(number)) for one in _ENDING}
    try:
        yield
    finally:
        for one, handler in before.items():
            signal.signal(one, handler if handler is not None else signal.SIG_DFL)
    if came:
        raise KeyboardInterrupt


def _find(kind: str) -> Any:
    found = tuple(entry_points(group="galvanote.painters", name=kind))
    try:
        with _interrupted_only_afterwards():
            return found[0].load()
    except (IndexError, ImportError) as error:
        raise LoggerError(
            f"a .{kind} file needs the window part of the program, which is not installed completely here "
            f"({error}); start python3 run.py once, which installs it, or export to .svg, .html or .csv"
        ) from error
