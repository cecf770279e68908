"""Names that lead to no ordinary file but to a pipe, device or socket: those may never end."""

from __future__ import annotations

import stat
from pathlib import Path

__all__ = ["is_special"]


def is_special(path: Path) -> bool:
    """Tell whether a pipe, device or socket has that name, or a link there leads to one.

    False for files, for folders, and where nothing is or may be looked at: opening says what is wrong then.
    """
    try:
        mode = path.stat().st_mode
    except (OSError, ValueError):
        return False
    return not (stat.S_ISREG(mode) or stat.S_ISDIR(mode))
