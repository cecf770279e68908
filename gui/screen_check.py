"""The first touch of the screen: where Qt would end the process with a crash, say in plain words why."""

from __future__ import annotations

import contextlib
import os
import sys
from collections.abc import Iterator

from PySide6.QtCore import QMessageLogContext, QtMsgType, qInstallMessageHandler

__all__ = ["refusal", "screen_faults_told"]

SAYS_NOTHING = ("From 6.5.0", "Could not load the Qt platform plugin")
"""Begin what Qt says of each failure, a guess at a missing library among it, also where none is missing."""


@contextlib.contextmanager
def screen_faults_told() -> Iterator[None]:
    """While the application object is made, end with one line and status 1 where there is no screen."""
    said: list[str] = []

    def take(kind: QtMsgType, _context: QMessageLogContext, message: str | None) -> None:
        if kind is QtMsgType.QtFatalMsg:
            sys.stderr.write(f"galvanote-window: {refusal(said)}\n")
            sys.stderr.flush()
            os._exit(1)  # what calls us aborts the process when we return
        said.append(message or "")

    before = qInstallMessageHandler(take)
    try:
        yield
    finally:
        qInstallMessageHandler(before)
    for message in said:
        sys.stderr.write(f"{message}\n")


def refusal(said: list[str]) -> str:
    """Return why no window can be shown, from what Qt said before it gave up."""
    name = os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY") or ""
    told = "; ".join(line.strip() for line in said if not line.startswith(SAYS_NOTHING))
    return (
        f"no window can be shown on the display {name} ({told or 'Qt gave no reason'}). Start it at that "
        "screen, as its user; python3 run.py names libraries that are missing; without a window use: "
        "galvanote record"
    )
