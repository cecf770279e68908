"""The recordings opened last, kept in the settings."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QSettings

__all__ = ["MOST_RECENT", "RecentFiles"]

MOST_RECENT = 10
KEY = "recent_files"


class RecentFiles:
    """Up to ten recordings, the last opened first. Files that are gone stay listed: they may come back."""

    def __init__(self, settings: QSettings) -> None:
        self._settings = settings

    @property
    def paths(self) -> tuple[Path, ...]:
        """The recordings."""
        found = self._settings.value(KEY, [])
        texts = [found] if isinstance(found, str) else found if isinstance(found, list) else []
        return tuple(Path(text) for text in texts if isinstance(text, str) and text)[:MOST_RECENT]

    def add(self, path: Path) -> None:
        """Put a recording first."""
        path = path.absolute()
        kept = [path, *(one for one in self.paths if one != path)][:MOST_RECENT]
        self._settings.setValue(KEY, [str(one) for one in kept])

    def replace(self, missing: Path, found: Path) -> None:
        """Say where a recording is now."""
        kept = [found.absolute() if one == missing else one for one in self.paths]
        self._settings.setValue(KEY, [str(one) for one in dict.fromkeys(kept)])

    def clear(self) -> None:
        """Forget all of them; no file is touched."""
        self._settings.remove(KEY)
