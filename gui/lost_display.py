"""The display goes while the window is open: the run is saved before that ends the program.

Qt tells of it in a message. Then it leaves the event loop, or Xlib, where it notices too, calls `exit` at
once: the message handler is the last of our code that is sure to be asked.
"""

from __future__ import annotations

import contextlib
import logging
import re
import sys
from collections.abc import Callable, Iterator

from PySide6.QtCore import QMessageLogContext, QtMsgType, qFormatLogMessage, qInstallMessageHandler

__all__ = ["saved_when_display_is_lost"]

LOST = re.compile(r"The (X11|Wayland) connection (broke|experienced a fatal error)")
"""As Qt 6.11 says it, of both (seen)."""

log = logging.getLogger(__name__)


@contextlib.contextmanager
def saved_when_display_is_lost(save: Callable[[], None]) -> Iterator[None]:
    """Have `save` called, on the window's thread, when the display is lost; the program ends when it returns.

    It may look at widgets, but nothing that it does to them is seen. What Qt has to say goes where it went
    before, and past Python again once the window is done: at the very end nobody is there to take it.
    """
    is_lost = False

    def take(kind: QtMsgType, context: QMessageLogContext, message: str | None) -> None:
        nonlocal is_lost
        said = message or ""
        if before is not None:
            before(kind, context, said)
        else:
            sys.stderr.write(f"{qFormatLogMessage(kind, context, said)}\n")
        if not is_lost and LOST.match(said):
            is_lost = True
            try:
                save()
            except Exception:
                log.exception("the display was lost, and saving the run failed; its journal is kept")

    before = qInstallMessageHandler(take)
    try:
        yield
    finally:
        qInstallMessageHandler(before)
