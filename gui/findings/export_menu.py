"""Everything that a recording can be written as; the formats are those that the logger knows."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFileDialog, QMenu, QWidget

from gui.words import translate
from logger.export.formats import FORMATS

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


class ExportMenu(QMenu):
    """One entry a format.

    Attributes
    ----------
    chosen : emitted with the path that the user named, and whether what is there may be replaced.
    """

    chosen = Signal(object, bool)

    def __init__(self, recording: Path, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._recording = recording
        for ending in FORMATS:
            action = self.addAction(f"{format_text(ending)} …")
            action.setData(ending)
            action.triggered.connect(lambda _checked=False, ending=ending: self._ask(ending))

    def _ask(self, ending: str) -> None:
        start = str(self._recording.with_suffix(ending))
        kinds = f"{format_text(ending)} (*{ending})"
        name, _filter = QFileDialog.getSaveFileName(self, translate("Export", "Export"), start, kinds)
        if name:
            path = Path(name)
            has_ending = path.suffix.lower() == ending
            # The dialog asks about the name as typed; of the name with the ending nobody was asked.
            self.chosen.emit(path if has_ending else path.with_name(path.name + ending), has_ending)
