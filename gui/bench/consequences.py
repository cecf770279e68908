"""The column beside the form: what the present entries mean, and the cautions that follow from them."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtWidgets import QFrame, QVBoxLayout, QWidget

from gui.bench.consequence_texts import consequence_rows, current_note, current_text
from gui.message_words import message_words
from gui.widgets.rule import rule
from gui.widgets.text_label import text_label
from gui.widgets.value_table import ValueTable
from gui.words import translate
from logger.analysis.supply_plan import SupplyPlan
from logger.cautions import DEFERENCE, IN_SHORT

__all__ = ["Consequences"]


class Consequences(QWidget):
    """Shows a `SupplyPlan`, or why there is none yet."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._current = text_label("", 42, weight="light", wraps=True)
        self._note = text_label("", 13.5, look="quiet", wraps=True)
        self._table = ValueTable()
        self._cautions = QVBoxLayout()
        self._cautions.setSpacing(8)
        self._assumed = text_label("", 12.5, look="quiet", wraps=True)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 4, 12, 12)
        layout.setSpacing(8)
        layout.addWidget(
            text_label(translate("Bench", "Current through the cell"), 13, look="quiet", wraps=True)
        )
        layout.addWidget(self._current)
        layout.addWidget(self._note)
        layout.addWidget(self._table)
        layout.addLayout(self._cautions)
        layout.addWidget(self._assumed)
        layout.addWidget(rule())
        layout.addWidget(text_label(message_words(f"{IN_SHORT} {DEFERENCE}"), 12.5, look="quiet", wraps=True))
        layout.addStretch(1)

    def show_plan(self, plan: SupplyPlan) -> None:
        """Show what follows."""
        self._current.setText(current_text(plan))
        self._current.setAccessibleName(
            translate("Bench", "Current through the cell: {value}").format(value=current_text(plan))
        )
        self._note.setText(current_note(plan))
        self._table.show_rows(consequence_rows(plan))
        self._show_cautions([message_words(one.message) for one in plan.cautions])
        self._assumed.setText(
            translate("Bench", "Assumed: {what}.").format(what="; ".join(map(message_words, plan.assumed)))
        )

    def show_nothing(self, why: str) -> None:
        """Show that nothing follows yet, and why."""
        self._current.setText("–")
        self._current.setAccessibleName(translate("Bench", "Current through the cell: not known"))
        self._note.setText(message_words(why))
        self._table.show_rows(())
        self._show_cautions(())
        self._assumed.setText("")

    @property
    def caution_texts(self) -> tuple[str, ...]:
        """The cautions shown at present."""
        items = (self._cautions.itemAt(i) for i in range(self._cautions.count()))
        frames = (item.widget() for item in items if item is not None)
        return tuple(frame.accessibleName() for frame in frames if frame is not None)

    def _show_cautions(self, messages: Sequence[str]) -> None:
        if list(self.caution_texts) == list(messages):
            return
        while (item := self._cautions.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        for message in messages:
            frame = QFrame()
            frame.setProperty("look", "note")
            frame.setAccessibleName(message)
            inner = QVBoxLayout(frame)
            inner.setContentsMargins(12, 8, 12, 8)
            inner.addWidget(text_label(message, 13.5, wraps=True))
            self._cautions.addWidget(frame)
