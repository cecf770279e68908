"""The headline of the findings: the voltage saved, large, and a note of what it is worth."""

from __future__ import annotations

from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from gui.chart_notes import is_sure
from gui.findings_texts import headline, headline_note
from gui.fonts import font
from gui.session import Finished
from gui.widgets.text_label import text_label
from gui.words import translate

__all__ = ["HeadlineView"]

VALUE_PX, NO_VALUE_PX = 42, 24


class HeadlineView(QWidget):
    """Shows the voltage saved in the colour of how sure it is, or why there is none."""

    def __init__(self) -> None:
        super().__init__()
        self._value = text_label("", VALUE_PX, look="settled", weight="semibold", wraps=True)
        self._note = text_label("", 13.5, look="quiet", wraps=True)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(4)
        layout.addWidget(text_label(translate("Findings", "Voltage saved"), 13, look="quiet", wraps=True))
        layout.addWidget(self._value)
        layout.addWidget(self._note)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Keep room for all lines."""
        super().resizeEvent(event)
        self._keep_room()

    def _keep_room(self) -> None:
        """Have a low window scrolled where the lines need more room: a layout would cut them."""
        for label in (self._value, self._note):
            label.setMinimumHeight(label.heightForWidth(self.width()))

    def show_finished(self, finished: Finished) -> None:
        """Show what was found, or that it is being worked out."""
        findings = finished.findings
        text = translate("Findings", "being worked out") if finished.is_pending else headline(findings)
        is_known = (findings.get("voltage_saved") or {}).get("value_V") is not None
        self._value.setText(text)
        self._value.setFont(font(VALUE_PX if is_known else NO_VALUE_PX, "semibold"))
        self._value.setProperty("look", "settled" if is_sure(findings) else "" if is_known else "quiet")
        self._value.style().polish(self._value)
        self._value.setAccessibleName(translate("Findings", "Voltage saved: {value}").format(value=text))
        self._note.setText(
            translate("Findings", "The findings of a long run take a while; its curve is there already.")
            if finished.is_pending
            else headline_note(findings)
        )
        self._keep_room()

    def show_outdated(self) -> None:
        """Show the figure grey, as a number that is not the newest: another one is being worked out."""
        self._value.setProperty("look", "quiet")
        self._value.style().polish(self._value)

    @property
    def spoken(self) -> str:
        """The headline as one sentence."""
        return self._value.accessibleName()
