"""Noticing in a child process that the process which started it has died.

A child left alone by a killed parent must not begin to write: whoever recovers by then may be writing a file
of the same name.
"""

from __future__ import annotations

import os

__all__ = ["is_orphan", "my_id"]


def my_id() -> str:
    """Return what a parent hands to its child for `is_orphan`."""
    return str(os.getpid())


def is_orphan(parent: str) -> bool:
    """Tell in a child whether its parent has died. On Windows, where that cannot be told so, False."""
    return os.name == "posix" and os.getppid() != int(parent)
