"""Everything that a recording can be written as; the formats are those that the logger knows."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFileDialog, QMenu, QWidget

from gui.words import translate
from logger.export.formats import FORMATS, Choices

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

    Attributes
    ----------
    chosen : emitted with the path that the user named, and the `Choices`, which say whether what is there may
        be replaced.
    """

    chosen = Signal(object, object)

    def __init__(self, recording: Path, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._recording = recording
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
        start = self._recording.with_name(f"{self._recording.stem}{added}{ending}")
        action.triggered.connect(lambda _checked=False: self._ask(start, words, chosen))

    def _ask(self, start: Path, words: str, choices: Choices) -> None:
        ending = start.suffix
        kinds = f"{words} (*{ending})"
        name, _filter = QFileDialog.getSaveFileName(self, translate("Export", "Export"), str(start), kinds)
        if name:
            path = Path(name)
            has_ending = path.suffix.lower() == ending
            # The dialog asks only about the name as typed, and only where that is taken.
            is_agreed = has_ending and path.exists()
            out = path if has_ending else path.with_name(path.name + ending)
            self.chosen.emit(out, replace(choices, replace=is_agreed))
