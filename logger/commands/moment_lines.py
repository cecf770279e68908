"""Lines typed or piped into a recording command, each with the moment at which it began."""

from __future__ import annotations

import codecs
import contextlib
import os
import select
import sys
import threading
from collections.abc import Callable, Iterator
from typing import IO

__all__ = ["LineStamper", "MomentLines"]

ERASE = ("\x7f", "\b")
END_OF_INPUT = "\x04"


class LineStamper:
    """Cuts text arriving in portions into lines, each stamped with the time of its first character."""

    def __init__(self) -> None:
        self._decode = codecs.getincrementaldecoder("utf-8")("replace").decode
        self._text = ""
        self._began_s: float | None = None

    @property
    def pending(self) -> str:
        """The line that has begun and not ended."""
        return self._text

    def feed(self, data: bytes, now_s: float) -> list[tuple[float, str]]:
        """Take bytes that arrived at `now_s`; return (time, line) of each line that ended in them."""
        finished = []
        for character in self._decode(data):
            if character in "\r\n":
                if self._text.strip() and self._began_s is not None:
                    finished.append((self._began_s, self._text.strip()))
                self._text, self._began_s = "", None
            elif character in ERASE:
                self._text = self._text[:-1]
                if not self._text:
                    self._began_s = None
            else:
                if self._began_s is None and not character.isspace():
                    self._began_s = now_s
                self._text += character
        return finished


class MomentLines:
    """Reads lines from stdin on a thread of its own until stdin ends or `stop` is called.

    On a terminal the keys are taken one by one, so that a moment is stamped when its line is begun, not
    when it is finished; what is typed is shown on stderr.

    Parameters
    ----------
    now_s : the run's clock.
    on_line : called with (time in run seconds, line) on the reading thread.
    """

    def __init__(self, now_s: Callable[[], float], on_line: Callable[[float, str], None]) -> None:
        self._now_s = now_s
        self._on_line = on_line
        self._stopping = threading.Event()
        self._thread = threading.Thread(target=self._read, name="moment lines", daemon=True)

    def start(self) -> None:
        """Begin to read."""
        if sys.stdin is not None and not sys.stdin.closed:
            self._thread.start()

    def stop(self) -> None:
        """End the thread and leave the terminal as it was."""
        self._stopping.set()
        if self._thread.ident is not None:
            self._thread.join(1.0)

    def _read(self) -> None:
        stamper = LineStamper()
        with _key_by_key(sys.stdin) as is_keys:
            while not self._stopping.is_set():
                data = self._next_bytes()
                if data is None:
                    continue
                if not data or (is_keys and END_OF_INPUT.encode() in data):
                    # The last line may lack its end.
                    data, ended = b"\n", True
                else:
                    ended = False
                if is_keys:
                    _echo(data, stamper.pending)
                for time_s, line in stamper.feed(data, self._now_s()):
                    self._on_line(time_s, line)
                if ended:
                    return

    def _next_bytes(self) -> bytes | None:
        """Return what has arrived, b"" at the end, None when nothing came for a while."""
        fd = sys.stdin.fileno()
        if sys.platform != "win32" and not select.select([fd], [], [], 0.2)[0]:
            return None
        try:
            return os.read(fd, 65536)
        except OSError:
            return b""


@contextlib.contextmanager
def _key_by_key(stdin: IO[str]) -> Iterator[bool]:
    """Switch a terminal in the foreground to single keys without echo; yields False where that is not so."""
    try:
        import termios

        fd = stdin.fileno()
        usable = stdin.isatty() and os.tcgetpgrp(fd) == os.getpgrp()
    except (ImportError, OSError, ValueError):
        usable = False
    if not usable:
        yield False
        return
    before = termios.tcgetattr(fd)
    keys = termios.tcgetattr(fd)
    keys[3] &= ~(termios.ICANON | termios.ECHO)
    termios.tcsetattr(fd, termios.TCSADRAIN, keys)
    try:
        yield True
    finally:
        termios.tcsetattr(fd, termios.TCSADRAIN, before)


def _echo(data: bytes, pending: str) -> None:
    for character in data.decode("utf-8", "replace"):
        if character in ERASE:
            if pending:
                sys.stderr.write("\b \b")
        elif character.isprintable() or character == "\n":
            sys.stderr.write(character)
    sys.stderr.flush()
