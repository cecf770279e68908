"""A job that may take long: then a bar says how far it is, with a button that ends it. No Qt."""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from typing import Protocol, TypeVar

from gui.job import Job
from gui.words import translate
from logger.progress import Progress

__all__ = ["LongJob", "Teller"]

Result = TypeVar("Result")

SHOWN_AFTER_S = 1.0
PERCENT_STEP = 5


class Teller(Protocol):
    """Who shows bars to the user."""

    def tell(
        self,
        key: str,
        level: str,
        text: str,
        actions: Sequence[tuple[str, Callable[[], None]]] = (),
        *,
        passes_after_s: float = 0.0,
    ) -> None:
        """Show a bar (level: info, warning or danger) with buttons; a bar of the same key is replaced."""

    def untell(self, key: str) -> None:
        """Take the bar of that key away, if it is there."""


class LongJob(Job[Result]):
    """A job whose work tells how far it is and can be ended; nobody is asked about it when the window closes.

    Parameters
    ----------
    host : shows the bar, once the work has taken a second.
    words : what is done, for the bar: ``Opening a.h5``.
    work : is given the progress to tell; raises `logger.progress.Cancelled` when that was told to stop.
    now_s : a clock in seconds.
    """

    def __init__(
        self,
        host: Teller,
        words: str,
        work: Callable[[Progress], Result],
        on_done: Callable[[Result | None, Exception | None], None],
        name: str,
        now_s: Callable[[], float] = time.monotonic,
    ) -> None:
        self._host, self._words, self._now_s = host, words, now_s
        self._share = 0.0
        self._is_ending = False
        self._shown = ""
        self._begun_s = now_s()
        self._progress = Progress(self._take)
        super().__init__(lambda: work(self._progress), on_done, name)

    def poll(self) -> bool:
        """Show how far it is; once it is over take the bar away and tell the outcome."""
        if self.is_over:
            self._host.untell(self._key)
            return super().poll()
        if self._now_s() - self._begun_s >= SHOWN_AFTER_S:
            self._show()
        return False

    def cancel(self) -> None:
        """Ask the work to end early."""
        self._is_ending = True
        self._progress.cancel()

    @property
    def _key(self) -> str:
        return f"long {id(self)}"

    def _show(self) -> None:
        actions: tuple[tuple[str, Callable[[], None]], ...] = ()
        if self._is_ending:
            text = translate("Long job", "{words}: being cancelled …")
        else:
            text = translate("Long job", "{words}: {percent}\u00a0%")
            actions = ((translate("Long job", "Cancel"), self.cancel),)
        percent = PERCENT_STEP * int(100 * self._share / PERCENT_STEP)
        text = text.format(words=self._words, percent=percent)
        if text != self._shown:  # a bar that somebody closed is not shown again each frame
            self._shown = text
            self._host.tell(self._key, "info", text, actions)

    def _take(self, share: float) -> None:
        self._share = share
