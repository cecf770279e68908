"""Where the report for the class is to go, and as what."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

from PySide6.QtWidgets import QFileDialog, QWidget

from gui.words import translate
from logger.export.formats import with_ending

__all__ = ["ReportPlace", "ask_for_class_report"]


class ReportPlace(NamedTuple):
    """The file to write, and whether the user has agreed to replace what is there."""

    out: Path
    may_replace: bool


def ask_for_class_report(parent: QWidget, folder: Path) -> ReportPlace | None:
    """Let the user choose, `folder` being offered; None where nothing was chosen."""
    kinds = {
        translate("Shelf", "Report (*.pdf)"): ".pdf",
        translate("Shelf", "Report for the browser (*.html)"): ".html",
        translate("Shelf", "Picture (*.png)"): ".png",
        translate("Shelf", "Picture to enlarge (*.svg)"): ".svg",
    }
    start = str(folder / translate("Shelf", "class.pdf"))
    title = translate("Shelf", "Report for the class")
    name, kind = QFileDialog.getSaveFileName(parent, title, start, ";;".join(kinds))
    if not name:
        return None
    path = Path(name)
    has_ending = path.suffix.lower() in kinds.values()
    # The dialog asks about the name as typed; of the name with the ending nobody was asked.
    return ReportPlace(path if has_ending else with_ending(path, kinds.get(kind, ".pdf")), has_ending)
