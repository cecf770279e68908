"""One field of the bench: its name, what is typed, its unit, and what is wrong with it."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QLineEdit, QVBoxLayout, QWidget

from gui.bench.field_texts import FieldText
from gui.fonts import font
from gui.message_words import message_words
from gui.numbers import decimal_sign, short
from gui.widgets.text_button import text_button
from gui.words import translate
from logger.bench_form import Field, FieldError, shown
from logger.bench_toml import Value

__all__ = ["QuantityField"]

UNIT_WIDTH = 52


class QuantityField(QWidget):
    """Shows and takes one value; judges nothing itself.

    Attributes
    ----------
    typed : emitted with the text whenever it changes by the user's hand.
    """

    typed = Signal(str)

    def __init__(self, field: Field, text: FieldText, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.field = field
        self._meant: float | None = None
        self.edit = QLineEdit()
        self.edit.setFont(font(14))
        self.edit.setPlaceholderText(text.example.replace(",", decimal_sign()))
        name = f"{text.name} ({field.unit})" if field.unit else text.name
        self.edit.setAccessibleName(name)
        self.edit.setAccessibleDescription(text.about)
        self.edit.setToolTip(text.about)
        self._problem = QLabel()
        self._problem.setFont(font(12.5))
        self._problem.setProperty("look", "danger")
        self._problem.setWordWrap(True)
        self._take = text_button("", "flat", size_px=12.5)
        self._take.clicked.connect(lambda _checked=False: self._take_meant())
        self.edit.textEdited.connect(self.typed)
        self._build(text)
        self.show_problem(None)

    def _build(self, text: FieldText) -> None:
        label = QLabel(text.name)
        label.setFont(font(12.5))
        label.setProperty("look", "quiet")
        label.setWordWrap(True)
        label.setBuddy(self.edit)
        label.setToolTip(text.about)
        row = QHBoxLayout()
        row.setSpacing(8)
        row.addWidget(self.edit, 1)
        if self.field.section:  # all fields of a section end on one line, with a unit or without
            unit = QLabel(self.field.unit)
            unit.setFont(font(13.5))
            unit.setProperty("look", "quiet")
            unit.setMinimumWidth(UNIT_WIDTH)
            row.addWidget(unit)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(3)
        layout.addWidget(label)
        layout.addLayout(row)
        layout.addWidget(self._problem)
        layout.addWidget(self._take, 0, Qt.AlignmentFlag.AlignLeft)
        layout.addStretch(1)

    @property
    def stops(self) -> tuple[QWidget, ...]:
        """Where the keys stop in it, in their order."""
        return self.edit, self._take

    def show_value(self, value: Value) -> None:
        """Show a value of the file."""
        self.edit.setText(shown(self.field, value, decimal_sign()))
        self.show_problem(None)

    def show_problem(self, problem: FieldError | None) -> None:
        """Show what is wrong and, where it is known, what was meant; None: nothing is wrong."""
        self._meant = None if problem is None else problem.meant
        self._problem.setText("" if problem is None else message_words(str(problem)))
        self._problem.setVisible(problem is not None)
        self._take.setVisible(self._meant is not None)
        if self._meant is not None:
            meant = short(self._meant)
            self._take.setText(
                translate("Bench", "Take {value} {unit}").format(value=meant, unit=self.field.unit)
            )
        look = "" if problem is None else "wrong"
        if self.edit.property("look") != look:
            self.edit.setProperty("look", look)
            self.edit.style().polish(self.edit)

    def _take_meant(self) -> None:
        if self._meant is not None:
            text = short(self._meant)
            self.edit.setText(text)
            self.edit.setFocus()
            self.typed.emit(text)
