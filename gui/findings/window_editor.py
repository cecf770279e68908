"""The settled stretches as begin and end to type: what the grips on the curve do, by keyboard."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QGridLayout, QLineEdit, QVBoxLayout, QWidget

from gui.findings.window_choice import WindowChoice, WindowTextError
from gui.fonts import font
from gui.widgets.text_button import text_button
from gui.widgets.text_label import text_label
from gui.words import translate

__all__ = ["WindowEditor"]


class WindowEditor(QWidget):
    """Two fields for each stretch.

    Attributes
    ----------
    chosen : emitted with name and `WindowChoice` when other times were typed.
    taken_back : emitted with nothing when the program's own stretches are wanted again.
    """

    chosen = Signal(str, object)
    taken_back = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._choices: dict[str, WindowChoice] = {}
        self._names = {"before": translate("Findings", "Before"), "after": translate("Findings", "After")}
        self.fields: dict[tuple[str, str], QLineEdit] = {}
        self._rows: dict[str, list[QWidget]] = {}
        self._problem = text_label("", 12.5, look="danger", wraps=True)
        self._problem.hide()
        self._by_hand = text_label("", 13, look="moment", wraps=True)
        self.back = text_button(translate("Findings", "Take the program's stretches again"), size_px=13)
        self.back.clicked.connect(lambda _checked=False: self.taken_back.emit())
        self._build()

    def _build(self) -> None:
        grid = QGridLayout()
        grid.setHorizontalSpacing(8)
        grid.setVerticalSpacing(6)
        for line, (name, words) in enumerate(self._names.items()):
            begin, end = (self._field(name, part) for part in ("begin", "end"))
            row: list[QWidget] = [text_label(words, 14, look="quiet"), begin, text_label("…", 14), end]
            for column, widget in enumerate(row):
                grid.addWidget(widget, line, column)
            self._rows[name] = row
        grid.setColumnStretch(1, 1)
        grid.setColumnStretch(3, 1)
        hint = translate(
            "Findings",
            "Drag the green grips on the curve, or type begin and end (minutes:seconds) and Return.",
        )
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(8)
        layout.addWidget(text_label(hint, 13, look="quiet", wraps=True))
        layout.addLayout(grid)
        for widget in (self._problem, self._by_hand, self.back):
            layout.addWidget(widget)
        layout.addStretch(1)

    def _field(self, name: str, part: str) -> QLineEdit:
        field = QLineEdit()
        field.setFont(font(14))
        words = translate("Findings", "begin") if part == "begin" else translate("Findings", "end")
        field.setAccessibleName(f"{self._names[name]}, {words}")
        field.returnPressed.connect(lambda: self._take(name))
        self.fields[name, part] = field
        return field

    def show_choices(self, choices: dict[str, WindowChoice]) -> None:
        """Show the stretches that there are."""
        self._choices = dict(choices)
        for name, row in self._rows.items():
            for widget in row:
                widget.setVisible(name in choices)
            if name in choices:
                for part, text in zip(("begin", "end"), choices[name].texts, strict=True):
                    self.fields[name, part].setText(text)
        self._problem.hide()
        by_hand = [self._names[name] for name, one in choices.items() if one.by_hand]
        text = translate("Findings", "Chosen by hand: {names}.").format(names=", ".join(by_hand))
        self._by_hand.setText(text)
        self._by_hand.setVisible(bool(by_hand))
        self.back.setVisible(bool(by_hand))

    def _take(self, name: str) -> None:
        begin, end = (self.fields[name, part].text() for part in ("begin", "end"))
        if (begin, end) == self._choices[name].texts:
            return
        try:
            choice = self._choices[name].typed(begin, end)
        except WindowTextError as error:
            self._problem.setText(str(error))
            self._problem.show()
            return
        self._problem.hide()
        self.chosen.emit(name, choice)
