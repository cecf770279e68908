"""Exports under way: a slim row each, with what is written, how far it is, and a button to cancel."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QProgressBar, QSizePolicy, QVBoxLayout, QWidget

from gui.fonts import font
from gui.job import Job
from gui.message_words import message_sentence
from gui.pages.page import PageHost
from gui.theme import Theme
from gui.widgets.elided_label import ElidedLabel
from gui.widgets.text_button import LOW_PX, text_button
from gui.words import translate
from logger.errors import OutputExists
from logger.progress import Cancelled, Progress

__all__ = ["ExportRow", "ExportRows", "Write"]

Write = Callable[[Progress], list[Path]]
"""Writes an export and returns its files; leaves nothing behind when told to stop."""

PASSES_S = 10.0
MOST_NAMES = 8
THICKNESS = 6.0


class ExportRows(QWidget):
    """Writes one export after the other, in the order asked for; takes no room while there is none."""

    def __init__(self, host: PageHost, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._host = host
        self.rows: list[ExportRow] = []
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(6)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Maximum)
        self.hide()

    def begin(self, out: Path, write: Write) -> None:
        """Write an export as soon as those before it are done."""
        row = ExportRow(self._host.theme, out, write)
        row.cancel.clicked.connect(lambda _checked=False: self._cancel(row))
        self.rows.append(row)
        self._layout.addWidget(row)
        self.show()
        self._start_next()

    def frame(self) -> None:
        """Show how far each is; called once a frame."""
        for row in self.rows:
            row.follow()

    def _start_next(self) -> None:
        if not self.rows or self.rows[0].is_begun:
            return
        row = self.rows[0]
        row.is_begun = True
        work, tell = partial(row.write, row.progress), partial(self._tell, row)
        self._host.do(Job(work, tell, f"export {row.out.name}", row.progress.cancel))

    def _cancel(self, row: ExportRow) -> None:
        if row.is_begun:
            row.ask_to_cancel()
            return
        self._drop(row)
        self._tell_cancelled(row)

    def _tell(self, row: ExportRow, files: list[Path] | None, error: Exception | None) -> None:
        self._drop(row)
        if files is not None:
            self._host.tell("export", "info", _written(files, row.out.parent), passes_after_s=PASSES_S)
        elif isinstance(error, Cancelled):
            self._tell_cancelled(row)
        else:
            self._host.tell("export", "warning", _reason(error))
        self._start_next()

    def _tell_cancelled(self, row: ExportRow) -> None:
        text = translate("Findings", "Cancelled: {name} was not written.").format(name=row.out.name)
        self._host.tell("export", "info", text, passes_after_s=PASSES_S)

    def _drop(self, row: ExportRow) -> None:
        self.rows.remove(row)
        self._layout.removeWidget(row)
        row.hide()
        row.deleteLater()
        self.setVisible(bool(self.rows))


def _written(files: list[Path], folder: Path) -> str:
    """Say what was written; of many files, as with pictures, the first and how many more."""
    if len(files) > MOST_NAMES:
        text = translate("Findings", "Written: {name} and {count} more files with it, in {folder}")
        return text.format(name=files[0].name, count=len(files) - 1, folder=folder)
    text = translate("Findings", "Written: {names}, in {folder}")
    return text.format(names=", ".join(file.name for file in files), folder=folder)


def _reason(error: Exception | None) -> str:
    """Say why it was not written; the command's remedy for a taken name is none in a window."""
    if isinstance(error, OutputExists) and error.path is not None:
        text = translate("Findings", "{name} is there already; choose another name.")
        return text.format(name=error.path.name)
    return message_sentence(str(error))


class ExportRow(QFrame):
    """One export. `progress` is told by the thread that writes; the row looks at it once a frame."""

    def __init__(self, theme: Theme, out: Path, write: Write) -> None:
        super().__init__()
        self.out, self.write, self.is_begun = out, write, False
        self._share = 0.0
        self._is_cancelled = False
        self.progress = Progress(self._take)
        self.setProperty("look", "bar-info")
        self._words = ElidedLabel(80)
        self._words.setFont(font(13))
        self._words.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        self.bar = _ShareBar(theme)
        self.bar.setAccessibleName(translate("Findings", "How far {name} is written").format(name=out.name))
        self.cancel = text_button(translate("Findings", "Cancel"), "flat", size_px=13, height_px=LOW_PX)
        self.cancel.setAccessibleName(translate("Findings", "Cancel {name}").format(name=out.name))
        layout = QHBoxLayout(self)
        layout.setContentsMargins(12, 5, 6, 5)
        layout.setSpacing(10)
        layout.addWidget(self._words, 3)
        layout.addWidget(self.bar, 2)
        layout.addWidget(self.cancel)
        self.follow()

    def ask_to_cancel(self) -> None:
        """Ask the work to end; the row stays until it has."""
        self._is_cancelled = True
        self.progress.cancel()
        self.cancel.setEnabled(False)
        self.follow()

    def follow(self) -> None:
        """Show how far it is now."""
        percent = round(100 * self._share)
        name = self.out.name
        if self._is_cancelled:
            text = translate("Findings", "Cancelling {name} …").format(name=name)
        elif not self.is_begun:
            text = translate("Findings", "Waiting: {name}").format(name=name)
        elif percent == 0:
            text = translate("Findings", "Preparing {name} …").format(name=name)
        else:
            text = translate("Findings", "Writing {name}: {percent}\u00a0%").format(
                name=name, percent=percent
            )
        self._words.show_text(text)
        self.bar.setValue(percent)

    def _take(self, share: float) -> None:
        self._share = share


class _ShareBar(QProgressBar):
    """A slim bar in the colours of the window; a screen reader meets an ordinary progress bar."""

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self._theme = theme
        self.setRange(0, 100)
        self.setTextVisible(False)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        theme.changed.connect(self.update)

    def sizeHint(self) -> QSize:
        """Slim."""
        return QSize(100, 16)

    def minimumSizeHint(self) -> QSize:
        """Short where there is little room."""
        return QSize(48, 16)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint the groove and what is done."""
        painter = QPainter(self)
        try:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setPen(Qt.PenStyle.NoPen)
            groove = QRectF(0, (self.height() - THICKNESS) / 2, self.width(), THICKNESS)
            painter.setBrush(QColor(self._theme.colours.band))
            painter.drawRoundedRect(groove, THICKNESS / 2, THICKNESS / 2)
            groove.setWidth(groove.width() * self.value() / 100)
            painter.setBrush(QColor(self._theme.colours.curve))
            painter.drawRoundedRect(groove, THICKNESS / 2, THICKNESS / 2)
        finally:
            painter.end()
