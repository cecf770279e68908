"""The picture for paper of a finished run: in a file beside its recording, or in the clipboard."""

from __future__ import annotations

import tempfile
from pathlib import Path

from PySide6.QtGui import QImage
from PySide6.QtWidgets import QApplication

from gui.job import Job
from gui.message_words import message_sentence
from gui.notice_board import INFO_PASSES_S
from gui.pages.page import PageHost
from gui.session import Finished
from gui.words import translate
from logger.export.picture import export_png
from logger.free_name import free_name

__all__ = ["copy_picture", "save_picture"]


def save_picture(host: PageHost, finished: Finished) -> None:
    """Save the picture beside the recording, under a name that is not taken, and tell where."""

    def save() -> Path:
        out = free_name(finished.recording.path.with_suffix(".png"))
        export_png(finished.recording, finished.findings, out)
        return out

    def tell(out: Path | None, error: Exception | None) -> None:
        if error is None:
            text = translate("Window", "Picture saved as {path}").format(path=out)
            host.tell("picture", "info", text, passes_after_s=INFO_PASSES_S)
        else:
            host.tell("picture", "warning", message_sentence(str(error)))

    host.do(Job(save, tell, "save a picture"))


def copy_picture(host: PageHost, finished: Finished) -> None:
    """Put the picture into the clipboard."""

    def paint() -> QImage:
        with tempfile.TemporaryDirectory() as folder:
            out = Path(folder) / "picture.png"
            export_png(finished.recording, finished.findings, out)
            return QImage(str(out)).copy()

    def tell(image: QImage | None, error: Exception | None) -> None:
        if image is None or image.isNull():
            host.tell("picture", "warning", message_sentence(str(error)))
            return
        QApplication.clipboard().setImage(image)
        text = translate("Findings", "The picture is in the clipboard; paste it where you like.")
        host.tell("picture", "info", text, passes_after_s=INFO_PASSES_S)

    host.do(Job(paint, tell, "copy the picture"))
