"""Looking at the pictures of a moment, attaching and removing them: what the view of pictures asks for."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QObject, Qt
from PySide6.QtGui import QImage, QImageReader
from PySide6.QtWidgets import QFileDialog, QWidget

from gui.job import Job
from gui.kind_words import kind_words
from gui.message_words import message_sentence
from gui.moment_acts import MomentActs
from gui.numbers import clock_text
from gui.pages.page import PageHost
from gui.widgets.picture_view import PictureView, clipboard_image
from gui.words import translate
from logger.attachments import Attachment, AttachmentError
from logger.errors import LoggerError
from logger.export.atomic import written_whole
from logger.picture_edits import read_picture_file
from logger.portable_name import portable_name

__all__ = ["PictureDesk"]

LARGEST_PX = 2400
"""Sides of what is shown; the picture itself stays as it is."""


class PictureDesk(QObject):
    """Opens the view for one moment after the other. Files are read and decoded off the window's thread."""

    def __init__(self, host: PageHost, acts: MomentActs, parent: QWidget) -> None:
        super().__init__(parent)
        self._host, self._acts, self._parent = host, acts, parent
        self._moment_id = ""
        self._at = 0
        self._bytes: dict[str, bytes] = {}
        self.view: PictureView | None = None

    def open(self, moment_id: str) -> None:
        """Show the pictures of a moment, or how to attach one."""
        moment = self._acts.moment(moment_id)
        if moment is None or self.view is not None:
            return
        self._moment_id, self._at = moment_id, 0
        title = (
            f"{self._acts.number_of(moment_id)}  {clock_text(moment.time_s, 1)}  {kind_words(moment.kind)}"
        )
        self.view = view = PictureView(title, self._parent)
        view.step_wanted.connect(self._step)
        view.choice_wanted.connect(self._choose)
        view.file_chosen.connect(self.attach_file)
        view.paste_wanted.connect(self.paste)
        view.copy_wanted.connect(self._save_copy)
        view.remove_wanted.connect(self._remove)
        view.finished.connect(self._close)
        self._show()
        view.open()

    def attach_file(self, path: Path) -> None:
        """Attach the picture in a file."""
        moment_id = self._moment_id

        def tell(data: bytes | None, error: Exception | None) -> None:
            if data is None:
                self._tell(str(error))
            else:
                self._attach(moment_id, path.name, data)

        self._host.do(Job(lambda: read_picture_file(path), tell, "read a picture"))

    def paste(self) -> None:
        """Attach the picture in the clipboard, as PNG: it has no file."""
        image = clipboard_image()
        moment_id = self._moment_id
        if image.isNull():
            self._tell(translate("Pictures", "There is no picture in the clipboard. Copy one first."))
            return
        name = translate("Pictures", "pasted") + ".png"

        def tell(data: bytes | None, error: Exception | None) -> None:
            if data is None:
                self._tell(str(error))
            else:
                self._attach(moment_id, name, data)

        self._host.do(Job(lambda: _png_of(image), tell, "paste a picture"))

    # ------------------------------------------------------------ on the window's thread

    @property
    def _pictures(self) -> tuple[Attachment, ...]:
        return self._acts.pictures_of(self._moment_id)

    def _attach(self, moment_id: str, name: str, data: bytes) -> None:
        if self._try(lambda: self._acts.attach(moment_id, name, data)):
            self._at = max(len(self._pictures) - 1, 0)
            self._show()

    def _step(self, by: int) -> None:
        self._at += by
        self._show()

    def _show(self) -> None:
        view, pictures = self.view, self._pictures
        if view is None:
            return
        view.show_trouble("")
        self._at = min(max(self._at, 0), max(len(pictures) - 1, 0))
        view.show_steps(self._at, len(pictures))
        if not pictures:
            view.show_nothing()
            return
        one = pictures[self._at]
        view.show_loading(one.file_name)

        def tell(found: tuple[bytes, QImage] | None, error: Exception | None) -> None:
            if self.view is not view or self._shown != one:
                return  # another one is wanted by now
            if found is None:
                view.show_picture(QImage(), one.file_name)
                self._tell(str(error))
                return
            self._bytes = {one.id: found[0]}
            view.show_picture(found[1], one.file_name)

        self._host.do(Job(lambda: _loaded(self._acts.keeper.picture(one)), tell, "read a picture"))

    @property
    def _shown(self) -> Attachment | None:
        pictures = self._pictures
        return pictures[self._at] if self._at < len(pictures) else None

    def _remove(self) -> None:
        one = self._shown
        if one is None or one.id not in self._bytes:
            return  # not read yet: it could not be brought back
        data = self._bytes[one.id]
        if self._try(lambda: self._acts.detach(one, data)):
            self._show()

    def _choose(self) -> None:
        names, _filter = QFileDialog.getOpenFileNames(
            self.view,
            translate("Pictures", "Pictures to attach"),
            "",
            translate("Pictures", "Pictures (*.png *.jpg *.jpeg *.webp)"),
        )
        for name in names:
            self.attach_file(Path(name))

    def _save_copy(self) -> None:
        one = self._shown
        data = self._bytes.get(one.id) if one is not None else None
        if one is None or data is None:
            return
        name, _filter = QFileDialog.getSaveFileName(
            self.view, translate("Pictures", "Save a copy of the picture"), portable_name(one.file_name)
        )
        if not name:
            return

        def tell(_done: None, error: Exception | None) -> None:
            if error is not None:
                text = translate("Pictures", "The copy could not be written: {why}")
                self._tell(text.format(why=error))

        self._host.do(Job(lambda: _write(Path(name), data), tell, "save a picture"))

    def _close(self) -> None:
        view, self.view = self.view, None
        self._bytes = {}
        if view is not None:
            view.deleteLater()

    def _try(self, act: Callable[[], None]) -> bool:
        try:
            act()
        except LoggerError as error:
            self._tell(str(error))
            return False
        return True

    def _tell(self, text: str) -> None:
        if self.view is not None:
            self.view.show_trouble(message_sentence(text))
        else:
            self._host.tell("picture of a moment", "warning", message_sentence(text))


# ---------------------------------------------------------------- off the window's thread


def _loaded(data: bytes) -> tuple[bytes, QImage]:
    """Return the bytes and the picture they show, upright and no larger than is of use."""
    buffer = QBuffer()
    buffer.setData(QByteArray(data))
    buffer.open(QIODevice.OpenModeFlag.ReadOnly)
    reader = QImageReader(buffer)
    reader.setAutoTransform(True)
    size = reader.size()
    if size.isValid() and max(size.width(), size.height()) > LARGEST_PX:
        size.scale(LARGEST_PX, LARGEST_PX, Qt.AspectRatioMode.KeepAspectRatio)
        reader.setScaledSize(size)
    return data, reader.read()


def _png_of(image: QImage) -> bytes:
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    if not image.save(buffer, "PNG"):  # type: ignore[call-overload]
        raise AttachmentError("the picture in the clipboard cannot be kept; save it as a file and add that")
    return bytes(buffer.data().data())


def _write(path: Path, data: bytes) -> None:
    with written_whole(path, replace=True) as part:  # the question for the name has asked
        part.write_bytes(data)
