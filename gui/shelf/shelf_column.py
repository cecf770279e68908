"""The left column of the shelf: search, places, what the folder holds, the list of its recordings."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QListView,
    QVBoxLayout,
    QWidget,
)

from gui.fonts import font
from gui.message_words import message_sentence
from gui.shelf.places_button import PlacesButton
from gui.shelf.shelf_delegate import ShelfDelegate
from gui.shelf.shelf_model import ShelfModel
from gui.theme import Theme
from gui.widgets.text_button import text_button
from gui.words import translate
from logger.folder import folder_words

__all__ = ["ShelfColumn"]


class ShelfColumn(QWidget):
    """Lays the column out, and says what is known of the folder."""

    def __init__(self, theme: Theme, model: ShelfModel, places: PlacesButton) -> None:
        super().__init__()
        self.search = QLineEdit()
        self.search.setFont(font(14))
        self.search.setPlaceholderText(translate("Shelf", "Search title, date, moments"))
        self.search.setAccessibleName(translate("Shelf", "Search the shelf"))
        self.search.setClearButtonEnabled(True)
        self.again = text_button(translate("Shelf", "Look again"), "flat")
        self._about = QLabel()
        self._about.setFont(font(12.5))
        self._about.setProperty("look", "quiet")
        self._about.setWordWrap(True)
        self.list = QListView()
        self.list.setModel(model)
        self.list.setItemDelegate(ShelfDelegate(theme, self.list))
        self.list.setFrameShape(QFrame.Shape.NoFrame)
        self.list.setVerticalScrollMode(QListView.ScrollMode.ScrollPerPixel)
        self.list.setUniformItemSizes(True)
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.list.setMouseTracking(True)
        self.list.setAccessibleName(translate("Shelf", "Recordings"))
        self.list.setProperty("keeps_space", True)  # it ticks here, and does no step of a run
        self.list.setStyleSheet("QListView { background: transparent; outline: none; }")
        self._build(places)

    def _build(self, places: PlacesButton) -> None:
        top = QHBoxLayout()
        top.setSpacing(8)
        top.addWidget(self.search, 1)
        top.addWidget(places)
        about = QHBoxLayout()
        about.addWidget(self._about, 1)
        about.addWidget(self.again)
        layout = QVBoxLayout(self)
        layout.setSpacing(8)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addLayout(top)
        layout.addLayout(about)
        layout.addWidget(self.list, 1)
        self.setMinimumWidth(320)

    def tell_looking(self, folder: Path) -> None:
        """Say that `folder` is being read."""
        self._about.setText(translate("Shelf", "Looking into {folder} …").format(folder=folder.name))

    def tell_trouble(self, reason: str) -> None:
        """Say why it could not be read."""
        self._about.setText(message_sentence(reason))

    def tell_count(self, count: int, folder: Path, found: int | None = None) -> None:
        """Say how many recordings it holds, and how many of them a search has `found`."""
        if count > 1 and found is not None:
            text = translate("Shelf", "Found: {found} of {count} recordings in {folder}")
        elif count == 1:
            text = translate("Shelf", "1 recording in {folder}")
        elif count:
            text = translate("Shelf", "{count} recordings in {folder}")
        else:
            text = translate("Shelf", "No recordings in {folder} yet; new ones appear here.")
        self._about.setText(text.format(count=count, found=found, folder=folder_words(folder)))
