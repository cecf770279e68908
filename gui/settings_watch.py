"""Settings that cannot be kept: said once, as what was chosen is forgotten at the next start."""

from __future__ import annotations

from PySide6.QtCore import QSettings

from gui.long_job import Teller
from gui.words import translate

__all__ = ["SettingsWatch"]


class SettingsWatch:
    """Watches `settings`, which are written a moment after each choice and keep what went wrong then."""

    def __init__(self, host: Teller, settings: QSettings) -> None:
        self._host, self._settings = host, settings
        self._is_told = False

    def follow(self) -> None:
        """Tell when the file of the settings could not be written for the first time."""
        if self._is_told or self._settings.status() != QSettings.Status.AccessError:
            return
        self._is_told = True
        text = translate(
            "Window",
            "What you choose in this window holds until it is closed: {file} cannot be written. Have that "
            "allowed, and choose again.",
        )
        self._host.tell("settings", "warning", text.format(file=self._settings.fileName()))
