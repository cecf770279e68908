"""A screen that nobody sees, for the program and real key presses."""

from __future__ import annotations

import os
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def virtual_screen() -> Iterator[tuple[str, subprocess.Popen[bytes]]]:
    """The name of a virtual screen of its own, and the server behind it."""
    read, write = os.pipe()
    server = subprocess.Popen(
        ["Xvfb", "-displayfd", str(write), "-screen", "0", "1366x768x24", "-nolisten", "tcp"],
        pass_fds=(write,),
        stderr=subprocess.DEVNULL,
    )
    os.close(write)
    try:
        with os.fdopen(read) as told:
            number = told.readline().strip()
        assert number, "Xvfb did not start"
        yield f":{number}", server
    finally:
        server.terminate()
        server.wait(10)
