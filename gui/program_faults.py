"""Faults of the program itself: told once each, with details to copy for who can mend them."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtWidgets import QApplication

from gui.log_book import LogBook
from gui.long_job import Teller
from gui.notice_board import INFO_PASSES_S
from gui.words import translate

__all__ = ["ProgramFaults"]


class ProgramFaults:
    """Watches `log_book`, where there is one."""

    def __init__(self, host: Teller) -> None:
        self._host = host
        self.log_book: LogBook | None = None

    def tell_new(self) -> None:
        """Tell the faults that were logged since the last call."""
        for fault in self.log_book.new_faults() if self.log_book is not None else ():
            text = translate("Window", "A fault of the program: {fault}. A recording goes on.")
            action = (translate("Window", "Copy details"), self.copy_details)
            self._host.tell("program fault", "warning", text.format(fault=fault), (action,))

    def copy_details(self) -> None:
        """Put versions, system and the end of the log into the clipboard."""
        details = self.log_book.details() if self.log_book is not None else LogBook(Path()).details()
        QApplication.clipboard().setText(details)
        text = translate("Window", "Details copied: versions, system, the end of the log.")
        self._host.tell("copied", "info", text, passes_after_s=INFO_PASSES_S)
