"""Names that a file can have on every system, whatever a picture or a run may be called."""

from __future__ import annotations

import re
import sys
from pathlib import Path

from logger.errors import LoggerError

__all__ = ["portable_name", "refuse_what_windows_refuses"]

ON_WINDOWS = sys.platform == "win32"

_FORBIDDEN = re.compile(r'[<>:"/\\|?*\x00-\x1f]')
_RESERVED = re.compile(r"(?:con|prn|aux|nul|com[0-9¹²³]|lpt[0-9¹²³])(?=$|[. ])", re.IGNORECASE)
"""Names of devices, with any ending. Source of both: Microsoft, "Naming Files, Paths, and Namespaces"."""


def portable_name(name: str) -> str:
    """Return `name` as near as a file can be called on Windows, macOS and Linux; never a way to elsewhere.

    Characters that are forbidden somewhere become ``_``, dots and blanks at the ends go, and a name that
    means a device gets a ``_`` before it.
    """
    plain = _FORBIDDEN.sub("_", name).strip(" .") or "_"
    return f"_{plain}" if _RESERVED.match(plain) else plain


def refuse_what_windows_refuses(path: Path) -> None:
    """Do nothing but on Windows, where some names are devices, or parts of another file.

    Raises
    ------
    LoggerError : no file can have that name there.
    """
    possible = portable_name(path.name)
    if ON_WINDOWS and possible != path.name:
        raise LoggerError(f"{path} is no name for a file on this system; choose another, such as {possible}")
