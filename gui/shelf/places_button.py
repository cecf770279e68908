"""The button with the places of recordings: another folder, the usual one, what was opened lately."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path

from PySide6.QtCore import QSettings, Signal
from PySide6.QtWidgets import QFileDialog, QMenu, QPushButton

from gui.fonts import font
from gui.recordings_folder import recordings_folder
from gui.shelf.recent_files import RecentFiles
from gui.widgets.text_button import TARGET_PX
from gui.words import translate

__all__ = ["PlacesButton"]


class PlacesButton(QPushButton):
    """Opens a menu, filled anew each time.

    Parameters
    ----------
    folder : returns the folder that is shown.

    Attributes
    ----------
    folder_chosen : emitted with the path of another folder that is to be shown.
    recording_wanted : emitted with the path of a recording that is to be opened.
    """

    folder_chosen = Signal(object)
    recording_wanted = Signal(object)

    def __init__(self, settings: QSettings, recent: RecentFiles, folder: Callable[[], Path]) -> None:
        super().__init__(translate("Shelf", "Folder …"))
        self._settings, self._recent, self._folder = settings, recent, folder
        self.setFont(font(13.5, "medium"))
        self.setMinimumHeight(TARGET_PX)
        self.setAccessibleName(translate("Shelf", "Folder and recent recordings"))
        menu = QMenu(self)
        menu.aboutToShow.connect(self._fill)
        self.setMenu(menu)

    def _fill(self) -> None:
        menu = self.menu()
        menu.clear()
        menu.addAction(translate("Shelf", "Choose a folder …"), self._ask_for_folder)
        usual = recordings_folder(self._settings)
        if usual != self._folder():
            menu.addAction(translate("Shelf", "The usual folder"), partial(self.folder_chosen.emit, usual))
        menu.addSeparator()
        for path in self._recent.paths:
            if path.exists():
                menu.addAction(path.name, partial(self.recording_wanted.emit, path))
            else:
                text = translate("Shelf", "{name} (not there: look for it …)").format(name=path.name)
                menu.addAction(text, partial(self._look_for, path))
        if self._recent.paths:
            menu.addAction(translate("Shelf", "Forget these"), self._recent.clear)
        else:
            menu.addAction(translate("Shelf", "Nothing was opened yet")).setEnabled(False)

    def _ask_for_folder(self) -> None:
        title = translate("Shelf", "Folder of recordings")
        chosen = QFileDialog.getExistingDirectory(self, title, str(self._folder()))
        if chosen:
            self.folder_chosen.emit(Path(chosen))

    def _look_for(self, missing: Path) -> None:
        filters = translate("Shelf", "Recordings (*.h5)")
        chosen, _filter = QFileDialog.getOpenFileName(self, missing.name, str(self._folder()), filters)
        if chosen:
            self._recent.replace(missing, Path(chosen))
            self.recording_wanted.emit(Path(chosen))
