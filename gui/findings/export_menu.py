"""Everything that a recording can be written as; the formats are those that the logger knows."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFileDialog, QMenu, QWidget

from gui.findings.replace_question import ReplaceQuestion
from gui.words import translate
from logger.errors import LoggerError
from logger.export.formats import FORMATS, Choices, with_ending
from logger.export.overwriting import Overwriting, overwriting
from logger.recording import Recording

__all__ = ["ExportMenu", "format_text"]


def format_text(ending: str) -> str:
    """Return what a format is for; the ending itself for one that is not known here."""
    words = {
        ".csv": translate("Export", "Tables with description (CSV)"),
        ".xlsx": translate("Export", "Spreadsheet with chart (XLSX)"),
        ".png": translate("Export", "Picture (PNG)"),
        ".svg": translate("Export", "Picture to enlarge (SVG)"),
        ".pdf": translate("Export", "Report of one page (PDF)"),
        ".html": translate("Export", "Report for the browser (HTML)"),
        ".parquet": translate("Export", "Table for data frames (Parquet)"),
    }
    return words.get(ending, translate("Export", "As {ending}").format(ending=ending))


def _sizes() -> tuple[tuple[str, str, str], ...]:
    """Size, ending and words of pictures for other places than the screen."""
    return (
        ("slide", ".png", translate("Export", "Slide (PNG)")),
        ("a4", ".pdf", translate("Export", "Page of A4 (PDF)")),
        ("column", ".pdf", translate("Export", "Column of a journal (PDF)")),
    )


class ExportMenu(QMenu):
    """One entry a format, one for decimal commas, and pictures in other sizes.

    Parameters
    ----------
    recording : returns what would be exported now.

    Attributes
    ----------
    question : what is asked about files that are there, while it is asked.
    chosen : emitted with the path that the user named, and the `Choices`, which say whether what is there may
        be replaced.
    """

    chosen = Signal(object, object)

    def __init__(self, recording: Callable[[], Recording], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._recording = recording
        self.question: ReplaceQuestion | None = None
        for ending in FORMATS:
            self._offer(self, ending, format_text(ending))
            if ending == ".csv":
                words = translate("Export", "Tables with decimal comma (CSV)")
                self._offer(self, ending, words, Choices(decimal_comma=True))
        self.sizes = self.addMenu(translate("Export", "Picture in another size"))
        for size, ending, words in _sizes():
            self._offer(self.sizes, ending, words, Choices(size=size), f" {size}")

    def _offer(
        self, menu: QMenu, ending: str, words: str, choices: Choices | None = None, added: str = ""
    ) -> None:
        """Add an entry; the name suggested for its file is the recording's and what is `added`."""
        chosen = choices or Choices()
        action = menu.addAction(f"{words} …")
        action.setData(ending)
        path = self._recording().path
        start = path.with_name(f"{path.stem}{added}{ending}")
        action.triggered.connect(lambda _checked=False: self._ask(start, words, chosen))

    def _ask(self, start: Path, words: str, choices: Choices) -> None:
        ending = start.suffix
        kinds = f"{words} (*{ending})"
        # The dialog would ask about the name as typed only; an export may concern other files.
        asks_nothing = QFileDialog.Option.DontConfirmOverwrite
        title = translate("Export", "Export")
        name, _filter = QFileDialog.getSaveFileName(self, title, str(start), kinds, "", asks_nothing)
        if not name:
            return
        path = Path(name)
        out = path if path.suffix.lower() == ending else with_ending(path, ending)
        concerned = self._concerned(out)
        if concerned:
            self._ask_about(concerned, out, choices)
        else:
            self.chosen.emit(out, choices)

    def _concerned(self, out: Path) -> Overwriting:
        try:
            return overwriting(self._recording(), out)
        except (LoggerError, OSError):
            return Overwriting()  # it will be refused, with the reason, without being asked about

    def _ask_about(self, concerned: Overwriting, out: Path, choices: Choices) -> None:
        parent = self.parentWidget()
        self.question = question = ReplaceQuestion(concerned, None if parent is None else parent.window())
        question.accepted.connect(lambda: self.chosen.emit(out, replace(choices, replace=True)))
        question.finished.connect(self._drop_question)
        question.open()

    def _drop_question(self) -> None:
        if self.question is not None:
            self.question.deleteLater()
            self.question = None
