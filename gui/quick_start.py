"""Leaves out of the start what takes long and serves nothing there."""

from __future__ import annotations

import builtins
import gc
from collections.abc import Iterator
from contextlib import contextmanager

__all__ = ["collect_from_now_on", "leave_to_the_end", "load_qt", "without_collecting"]


def load_qt() -> None:
    """Load the core of Qt, and let what is imported later be imported as Python does.

    Else Qt for Python reads the source of every module, to find its own name there: that is for modules that
    change the names of its functions by `from __feature__ import`, and none of this program does.

    Raises
    ------
    ImportError : Qt, or a library of the system that it needs, cannot be loaded.
    """
    pythons_own = builtins.__import__
    try:
        import PySide6.QtCore  # noqa: F401 - for what it does to the interpreter
    finally:
        builtins.__import__ = pythons_own


@contextmanager
def without_collecting() -> Iterator[None]:
    """Do not look for objects that only hold one another, at most until `collect_from_now_on`.

    While a program starts, next to nothing is thrown away, and each look goes through all there is.
    """
    gc.disable()
    try:
        yield
    finally:
        gc.enable()


def leave_to_the_end() -> None:
    """Never look at what is there now: it is needed to the end.

    To be called before there is a run or a recording: what only holds one another would stay.
    """
    gc.freeze()


def collect_from_now_on() -> None:
    """End `without_collecting`."""
    gc.enable()
