"""Where the next run will be recorded, and the way to another folder."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QSettings, Signal
from PySide6.QtWidgets import QFileDialog, QHBoxLayout, QWidget

from gui.fonts import font
from gui.recordings_folder import choose_recordings_folder, recordings_folder
from gui.widgets.elided_label import ElidedLabel
from gui.widgets.text_button import text_button
from gui.words import translate
from logger.errors import LoggerError
from logger.folder import folder_words

__all__ = ["RecordingsPlace"]


class RecordingsPlace(QWidget):
    """One line: the folder, and a button to choose another.

    Attributes
    ----------
    refused : emitted with the reason why a folder cannot be taken.
    """

    refused = Signal(str)

    def __init__(self, settings: QSettings, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._settings = settings
        self._words = ElidedLabel()
        self._words.setFont(font(12.5))
        self._words.setProperty("look", "quiet")
        self.choose = text_button(
            translate("Bench", "Other folder …"),
            "flat",
            size_px=12.5,
            tip=translate("Bench", "Choose the folder for recordings"),
        )
        self.choose.clicked.connect(lambda _checked=False: self._ask())
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(4)
        row.addWidget(self._words)
        row.addWidget(self.choose)
        row.addStretch(1)
        self.show_folder()

    def show_folder(self) -> None:
        """Show where recordings go at present."""
        words = translate("Bench", "Runs are recorded in {folder}")
        self._words.show_text(words.format(folder=folder_words(recordings_folder(self._settings))))

    def _ask(self) -> None:
        title = translate("Bench", "Folder for recordings")
        chosen = QFileDialog.getExistingDirectory(self, title, str(recordings_folder(self._settings)))
        if chosen:
            try:
                choose_recordings_folder(self._settings, Path(chosen))
            except LoggerError as error:
                self.refused.emit(str(error))
        self.show_folder()
