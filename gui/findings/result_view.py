"""The result of a run: its figures, what can be done with them, what limits them, cautions."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from gui.findings.export_menu import ExportMenu
from gui.findings.warning_list import WarningList
from gui.findings_texts import result_rows, warning_texts
from gui.message_words import message_words
from gui.session import Finished
from gui.tips import tip
from gui.widgets.rule import rule
from gui.widgets.text_button import text_button
from gui.widgets.text_label import text_label
from gui.widgets.value_table import ValueTable
from gui.words import translate
from logger.cautions import IN_SHORT
from logger.recording import Recording

__all__ = ["ResultView"]


class ResultView(QWidget):
    """Lays table, buttons and warnings out.

    Parameters
    ----------
    recording : returns the recording that would be exported.

    Attributes
    ----------
    copy_wanted, folder_wanted, cautions_wanted : emitted with nothing.
    """

    copy_wanted = Signal()
    folder_wanted = Signal()
    cautions_wanted = Signal()

    def __init__(self, recording: Callable[[], Recording]) -> None:
        super().__init__()
        self._table = ValueTable()
        self.warning_list = WarningList()
        self._file = text_label("", 12.5, look="quiet", wraps=True)
        self._file.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self._file.setMinimumWidth(1)  # a path that has no place to break moves no figure out of sight
        self.copy = text_button(translate("Findings", "Copy picture"))
        self.copy.setToolTip(translate("Findings", "Copy the picture to paste it elsewhere (Ctrl+C)"))
        self.copy.clicked.connect(lambda _checked=False: self.copy_wanted.emit())
        self.export = text_button(translate("Findings", "Export …"))
        self.export_menu = ExportMenu(recording, self.export)
        self.export.setMenu(self.export_menu)
        self.folder = text_button(translate("Findings", "Show folder"))
        self.folder.clicked.connect(lambda _checked=False: self.folder_wanted.emit())
        self.cautions = text_button(translate("Findings", "Cautions"))
        self.cautions.clicked.connect(lambda _checked=False: self.cautions_wanted.emit())
        self._build()

    def _build(self) -> None:
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(8)
        layout.addWidget(self._table)
        for pair in ((self.copy, self.export), (self.folder, self.cautions)):
            row = QHBoxLayout()
            row.setSpacing(8)
            for button in pair:
                row.addWidget(button)
            row.addStretch(1)
            layout.addLayout(row)
        layout.addWidget(self._file)
        layout.addWidget(rule())
        layout.addWidget(self.warning_list)
        layout.addWidget(rule())
        layout.addWidget(text_label(message_words(IN_SHORT), 12.5, look="quiet", wraps=True))
        layout.addStretch(1)

    def show_finished(self, finished: Finished) -> None:
        """Show figures, file and warnings."""
        self._table.show_rows(result_rows(finished.findings))
        self._file.setText(str(finished.recording.path))
        self._file.setToolTip(tip(self._file.text()))
        self.warning_list.show_warnings(warning_texts(finished.findings), finished.trouble)
