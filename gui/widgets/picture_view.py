"""The pictures of one moment: looked at one by one, added, saved elsewhere, removed."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import (
    QDragEnterEvent,
    QDropEvent,
    QGuiApplication,
    QImage,
    QKeySequence,
    QPixmap,
    QResizeEvent,
    QShortcut,
)
from PySide6.QtWidgets import QDialog, QFrame, QHBoxLayout, QLabel, QSizePolicy, QVBoxLayout, QWidget

from gui.widgets.elided_label import ElidedLabel
from gui.widgets.text_button import text_button
from gui.widgets.text_label import text_label
from gui.words import translate

__all__ = ["PictureView"]

LEAST = QSize(360, 220)
SHARE = 0.8
"""Part of the window that the view takes at most."""


class PictureView(QDialog):
    """Shows what it is given and says what is wanted; Esc closes it.

    Attributes
    ----------
    step_wanted : emitted with -1 or 1: the picture before or after.
    file_chosen : emitted with a Path to attach (chosen, or dropped).
    choice_wanted, paste_wanted, copy_wanted, remove_wanted : emitted with nothing.
    """

    step_wanted = Signal(int)
    choice_wanted = Signal()
    file_chosen = Signal(object)
    paste_wanted = Signal()
    copy_wanted = Signal()
    remove_wanted = Signal()

    def __init__(self, title: str, parent: QWidget) -> None:
        super().__init__(parent, Qt.WindowType.Dialog | Qt.WindowType.FramelessWindowHint)
        self.setWindowModality(Qt.WindowModality.WindowModal)
        self.setWindowTitle(title)
        self.setAcceptDrops(True)
        self._image: QImage | None = None
        self.picture = QLabel()
        self.picture.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.picture.setMinimumSize(LEAST)
        self.picture.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Ignored)
        self.picture.setWordWrap(True)
        self._name = ElidedLabel()
        self._trouble = text_label("", 13, look="danger", wraps=True)
        self.before = text_button("←", "flat", tip=translate("Pictures", "The picture before (Left)"))
        self.after = text_button("→", "flat", tip=translate("Pictures", "The next picture (Right)"))
        self.add = text_button(translate("Pictures", "Add a file …"))
        self.paste = text_button(translate("Pictures", "Paste"), tip=translate("Pictures", "Paste (Ctrl+V)"))
        self.save = text_button(translate("Pictures", "Save a copy …"))
        self.remove = text_button(
            translate("Pictures", "Remove"), tip=translate("Pictures", "Remove (Delete)")
        )
        self.close_view = text_button(translate("Pictures", "Close"), "primary")
        self._build(title)
        self._connect()
        self.resize((parent.window().size() * SHARE).boundedTo(QSize(1100, 820)).expandedTo(LEAST))

    def _build(self, title: str) -> None:
        frame = QFrame()
        frame.setProperty("look", "sheet")
        head = QHBoxLayout()
        head.addWidget(text_label(title, 15, weight="semibold"), 1)
        head.addWidget(self.before)
        head.addWidget(self.after)
        row = QHBoxLayout()
        row.setSpacing(10)
        for button in (self.add, self.paste, self.save, self.remove):
            row.addWidget(button)
        row.addStretch(1)
        row.addWidget(self.close_view)
        inner = QVBoxLayout(frame)
        inner.setContentsMargins(22, 18, 22, 18)
        inner.setSpacing(10)
        inner.addLayout(head)
        inner.addWidget(self.picture, 1)
        inner.addWidget(self._name)
        inner.addWidget(self._trouble)
        inner.addLayout(row)
        self._trouble.hide()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(frame)

    def _connect(self) -> None:
        self.before.clicked.connect(lambda _checked=False: self.step_wanted.emit(-1))
        self.after.clicked.connect(lambda _checked=False: self.step_wanted.emit(1))
        self.add.clicked.connect(lambda _checked=False: self.choice_wanted.emit())
        self.paste.clicked.connect(lambda _checked=False: self.paste_wanted.emit())
        self.save.clicked.connect(lambda _checked=False: self.copy_wanted.emit())
        self.remove.clicked.connect(lambda _checked=False: self.remove_wanted.emit())
        self.close_view.clicked.connect(lambda _checked=False: self.accept())
        for key, button in (
            (QKeySequence(QKeySequence.StandardKey.Paste), self.paste),
            (QKeySequence(QKeySequence.StandardKey.Delete), self.remove),
            (QKeySequence(Qt.Key.Key_Left), self.before),
            (QKeySequence(Qt.Key.Key_Right), self.after),
        ):
            shortcut = QShortcut(key, self)
            shortcut.setAutoRepeat(button in (self.before, self.after))  # held, Delete would take all of them
            shortcut.activated.connect(button.click)

    # ------------------------------------------------------------ showing

    def show_loading(self, name: str) -> None:
        """Say that a picture is on its way."""
        self._show(None, translate("Pictures", "Reading the picture …"), name)

    def show_picture(self, image: QImage, name: str) -> None:
        """Show a picture; one that cannot be shown here (null) can still be saved."""
        words = translate("Pictures", "This kind of picture cannot be shown here. It is kept as it is.")
        self._show(None if image.isNull() else image, words, name)

    def show_nothing(self) -> None:
        """There is none yet."""
        words = translate("Pictures", "No picture yet. Drop one here, paste it, or add a file.")
        self._show(None, words, "")

    def show_steps(self, at: int, count: int) -> None:
        """Offer the pictures before and after."""
        for button in (self.before, self.after):
            button.setVisible(count > 1)
        self.before.setEnabled(at > 0)
        self.after.setEnabled(at < count - 1)
        for button in (self.save, self.remove):
            button.setEnabled(count > 0)

    def show_trouble(self, text: str) -> None:
        """Say what could not be done; empty takes it away."""
        self._trouble.setText(text)
        self._trouble.setVisible(bool(text))

    def _show(self, image: QImage | None, words: str, name: str) -> None:
        self._image = image
        self._name.setText(name)
        self._name.setVisible(bool(name))
        self.picture.setAccessibleName(name or words)
        if image is None:
            self.picture.setText(words)
        else:
            self._fit()

    def _fit(self) -> None:
        if self._image is None:
            return
        ratio = self.devicePixelRatioF()
        room = self.picture.size() * ratio
        size = (
            self._image.size().scaled(room, Qt.AspectRatioMode.KeepAspectRatio).boundedTo(self._image.size())
        )
        shown = QPixmap.fromImage(
            self._image.scaled(
                size, Qt.AspectRatioMode.KeepAspectRatio, Qt.TransformationMode.SmoothTransformation
            )
        )
        shown.setDevicePixelRatio(ratio)
        self.picture.setPixmap(shown)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """The picture follows."""
        super().resizeEvent(event)
        self._fit()

    # ------------------------------------------------------------ dropping

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        """Take files."""
        if event.mimeData().hasUrls():
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        """Attach what was dropped."""
        for url in event.mimeData().urls():
            if url.isLocalFile():
                self.file_chosen.emit(Path(url.toLocalFile()))
        event.acceptProposedAction()


def clipboard_image() -> QImage:
    """Return the picture in the clipboard; null where there is none."""
    return QGuiApplication.clipboard().image()
