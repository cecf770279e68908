"""Items handled one after another in a child that may die or hang without taking the campaign along."""

from __future__ import annotations

import multiprocessing
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from multiprocessing.connection import Connection
from typing import Any

__all__ = ["Ended", "handled"]


@dataclass(frozen=True)
class Ended:
    """What came instead of a result: the child hung, or died."""

    word: str  # HANG or CRASH
    detail: str


def handled(
    prepare: Callable[[Any], Callable[[Any], Any]], given: Any, items: Iterable[Any], limit_s: float
) -> Iterator[tuple[Any, Any]]:
    """Yield (item, result) for each item; the result is `Ended` where the child died or took too long.

    `prepare(given)` is called in every new child and returns what handles one item there. All of them
    must be picklable.
    """
    child: _Child | None = None
    try:
        for item in items:
            child = child or _Child(prepare, given)
            result = child.ask(item, limit_s)
            if isinstance(result, Ended):
                child.end()
                child = None
            yield item, result
    finally:
        if child is not None:
            child.end()


class _Child:
    def __init__(self, prepare: Callable[[Any], Callable[[Any], Any]], given: Any) -> None:
        context = multiprocessing.get_context("spawn")
        self._here, there = context.Pipe()
        self._process = context.Process(target=_serve, args=(there, prepare, given), daemon=True)
        self._process.start()
        there.close()
        self._here.recv()  # ready: starting does not count as handling

    def ask(self, item: Any, limit_s: float) -> Any:
        try:
            self._here.send(item)
            if not self._here.poll(limit_s):
                return Ended("HANG", f"no answer in {limit_s:g} s")
            return self._here.recv()
        except (EOFError, OSError):
            self._process.join(10)
            return Ended("CRASH", f"its process ended with status {self._process.exitcode}")

    def end(self) -> None:
        self._process.kill()
        self._process.join()
        self._here.close()


def _serve(there: Connection, prepare: Callable[[Any], Callable[[Any], Any]], given: Any) -> None:
    handle = prepare(given)
    there.send("ready")
    while True:
        try:
            item = there.recv()
        except EOFError:
            return
        there.send(handle(item))
