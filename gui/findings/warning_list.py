"""What the reader of a result must know, and what to do about it."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QPushButton, QVBoxLayout, QWidget

from gui.findings_texts import WarningText
from gui.fonts import font
from gui.message_words import message_words
from gui.widgets.text_label import breakable, text_label
from gui.words import translate

__all__ = ["WarningList"]


class WarningList(QWidget):
    """A sign, the warning, below it what to do, and the way to the page where that is done.

    Attributes
    ----------
    page_wanted : emitted with the name of a page.
    """

    page_wanted = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(10)

    def show_warnings(self, found: Sequence[WarningText], trouble: str = "") -> None:
        """Show the warnings; `trouble` says that the readings could not be judged at all."""
        while (item := self._layout.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        shown = list(found)
        if trouble:
            text = translate("Findings", "These readings could not be judged: {why}").format(
                why=message_words(trouble)
            )
            shown.insert(0, WarningText(text, "", ""))
        if not shown:
            self._layout.addWidget(
                text_label(
                    translate("Findings", "No warnings."), 13.5, look="quiet", wraps=True, selectable=True
                )
            )
        for one in shown:
            self._layout.addWidget(self._line(one))

    def _line(self, one: WarningText) -> QWidget:
        line = QWidget()
        grid = QGridLayout(line)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(8)
        grid.setVerticalSpacing(2)
        grid.setColumnStretch(1, 1)
        sign = text_label("!", 14, look="warning", weight="semibold", wraps=True, selectable=True)
        sign.setAccessibleName(translate("Findings", "Warning"))
        grid.addWidget(sign, 0, 0, Qt.AlignmentFlag.AlignTop)
        text = breakable(one.text)  # words of a moment in it move no figure out of sight
        grid.addWidget(text_label(text, 13.5, wraps=True, selectable=True), 0, 1)
        if one.advice:
            grid.addWidget(text_label(one.advice, 13, look="quiet", wraps=True, selectable=True), 1, 1)
        if one.page:
            button = QPushButton(translate("Findings", "Go to the bench"))
            button.setProperty("look", "link")  # its words stand under those of the warning
            button.setFont(font(13, "medium"))
            button.clicked.connect(lambda _checked=False: self.page_wanted.emit(one.page))
            grid.addWidget(button, 2, 1, Qt.AlignmentFlag.AlignLeft)
        return line
