"""The steps to come, edited in place while the run goes on."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from math import ceil

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QFontMetricsF
from PySide6.QtWidgets import (
    QDialog,
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from gui.fonts import font
from gui.kind_words import kind_words
from gui.message_words import message_words
from gui.theme import Theme
from gui.widgets.choice_box import ChoiceBox
from gui.widgets.scroll_pane import scroll_pane
from gui.widgets.text_button import text_button
from gui.words import translate
from logger.bench import UNTIL_SETTLED
from logger.bench_tables import Step
from logger.duration import DurationError
from logger.moments import KINDS, LABEL_LIMIT
from logger.run_sheet import RunSheet, SheetLine, hold_text, parse_hold

__all__ = ["SheetEditor"]

MOST_STEPS = 50
WIDEST, HIGHEST, LOWEST = 1040, 640, 320
LINE_HEIGHT, HEIGHT_BESIDE = 40, 210
NARROW = 860
"""Where the sheet is narrower, a step takes two lines."""
HOLD_WIDTH = 160
FIELD_EDGES = 34
LABEL = 2
"""Column of what is to be done, which takes the room that is left."""
ONE_LINE = ((0, 0, 1), (0, 1, 1), (0, LABEL, 1), (0, 3, 1), (0, 4, 1), (0, 5, 1))
TWO_LINES = ((0, 0, 1), (0, 1, 1), (0, LABEL, 3), (1, 1, 1), (1, 3, 1), (1, 4, 1))
"""Row, column and columns taken: number, kind, what to do, wait, up, remove."""


class SheetEditor(QDialog):
    """A list of steps: kind, what to do, and how long to wait afterwards. Esc leaves all as it was.

    Parameters
    ----------
    sheet : returns the run sheet as it is. What is done or skipped while the list is open, as by the
        simulated cell, leaves it; what is undone or repeated comes back, in front.

    Attributes
    ----------
    planned : emitted with a tuple of `Step` when they are to be kept.
    """

    planned = Signal(object)

    def __init__(
        self,
        theme: Theme,
        sheet: Callable[[], RunSheet],
        parent: QWidget,
    ) -> None:
        super().__init__(parent, Qt.WindowType.Dialog | Qt.WindowType.FramelessWindowHint)
        self._theme, self._sheet = theme, sheet
        self._first = 1
        width = min(WIDEST, parent.width() - 40)
        self._is_narrow = width < NARROW
        self.setWindowModality(Qt.WindowModality.WindowModal)
        self.setWindowTitle(translate("Sheet editor", "Steps to come"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self._lines: list[_Line] = []
        self._out: list[_Line] = []
        """What is no longer in the list: its step is over, or it was removed by hand."""
        self._list = QVBoxLayout()
        self._list.setSpacing(6)
        self._list.addStretch(1)
        self._trouble = QLabel()
        self._trouble.setProperty("look", "danger")
        self._trouble.setFont(font(13))
        self._trouble.setWordWrap(True)
        self._add = _button(translate("Sheet editor", "Add a step"))
        self._keep = _button(translate("Sheet editor", "Keep these steps"), "primary")
        self._leave = _button(translate("Sheet editor", "Leave as it was (Esc)"))
        self._add.clicked.connect(lambda: self._add_new(Step("note")).label.setFocus())
        self._keep.clicked.connect(self._accept)
        self._leave.clicked.connect(self.reject)
        self._keep.setDefault(True)
        self._build()
        self.follow()
        if not self._lines:
            self._add_new(Step("buffer_in"))
        line_height = LINE_HEIGHT * (2 if self._is_narrow else 1)
        wanted = min(max(HEIGHT_BESIDE + line_height * (len(self._lines) + 1), LOWEST), HIGHEST)
        self.resize(width, min(wanted, parent.height() - 40))
        self._lines[0].label.setFocus()

    def _build(self) -> None:
        title = QLabel(translate("Sheet editor", "Steps to come"))
        title.setFont(font(19, "semibold"))
        help_text = QLabel(
            translate(
                "Sheet editor",
                "Wait afterwards: a time such as 90s or 15m, the words “until settled”, or nothing to go on "
                "when you like.",
            )
        )
        help_text.setWordWrap(True)
        help_text.setFont(font(13))
        help_text.setProperty("look", "quiet")
        column = QWidget()
        column.setLayout(self._list)
        self._list.setContentsMargins(0, 0, 10, 0)
        scroll = scroll_pane(column, takes_focus=False)
        row = QHBoxLayout()
        row.setSpacing(12)
        row.addWidget(self._add)
        row.addStretch(1)
        row.addWidget(self._leave)
        row.addWidget(self._keep)
        frame = QFrame()
        frame.setProperty("look", "sheet")
        inner = QVBoxLayout(frame)
        inner.setContentsMargins(26, 22, 26, 20)
        inner.setSpacing(10)
        inner.addWidget(title)
        inner.addWidget(help_text)
        inner.addWidget(scroll, 1)
        inner.addWidget(self._trouble)
        inner.addLayout(row)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(frame)

    def follow(self) -> None:
        """Hold the list against the run sheet: a step that is over, kept, would be asked for again."""
        sheet = self._sheet()
        self._first = sheet.position + 1
        to_come = sheet.lines[sheet.position :]
        for line in [one for one in self._lines if one.source and not _holds(to_come, one.source)]:
            if line.isAncestorOf(self.focusWidget()):
                self.setFocus()  # and no field: what is still being typed belongs to none of the others
            line.is_over = True
            self._take_out(line)
        known = [one.source for one in (*self._lines, *self._out) if one.source and not one.is_over]
        for place, source in enumerate(one for one in to_come if not _holds(known, one)):
            self._put(self._line_of(source), place)
        self._number()

    def _line_of(self, source: SheetLine) -> _Line:
        """Return the line of a step that comes, as it was changed before it was over, if it ever was."""
        for line in self._out:
            if line.source is source:
                self._out.remove(line)
                return line
        return self._made(source.step, source)

    def _add_new(self, step: Step) -> _Line:
        line = self._made(step, None)
        self._put(line, len(self._lines))
        self._number()
        return line

    def _made(self, step: Step, source: SheetLine | None) -> _Line:
        line = _Line(self._theme, step, source, self._move, self._drop, self._is_narrow)
        line.hold.textEdited.connect(self._trouble.clear)
        return line

    def _put(self, line: _Line, place: int) -> None:
        line.is_over = False
        self._lines.insert(place, line)
        self._list.insertWidget(place, line)
        line.show()
        self._add.setEnabled(len(self._lines) < MOST_STEPS)

    def _move(self, line: _Line) -> None:
        place = self._lines.index(line)
        if place:
            self._lines.insert(place - 1, self._lines.pop(place))
            self._list.insertWidget(place - 1, line)
            self._number()

    def _drop(self, line: _Line) -> None:
        self._take_out(line)
        self._number()
        (self._lines[0].label if self._lines else self._add).setFocus()

    def _take_out(self, line: _Line) -> None:
        self._lines.remove(line)
        self._list.removeWidget(line)
        line.hide()
        self._out.append(line)
        self._add.setEnabled(True)

    def _number(self) -> None:
        self._trouble.clear()  # which names a step by its number
        for number, line in enumerate(self._lines, start=self._first):
            line.show_number(number)

    def _accept(self) -> None:
        steps = []
        for number, line in enumerate(self._lines, start=self._first):
            try:
                steps.append(line.step())
            except DurationError as error:
                self._trouble.setText(
                    translate("Sheet editor", "Step {number}: {reason}").format(
                        number=number, reason=message_words(str(error))
                    )
                )
                line.hold.setFocus()
                return
        self.accept()
        self.planned.emit(tuple(steps))


class _Line(QWidget):
    def __init__(
        self,
        theme: Theme,
        step: Step,
        source: SheetLine | None,
        move: Callable[[_Line], None],
        drop: Callable[[_Line], None],
        is_narrow: bool,
    ) -> None:
        super().__init__()
        self.source = source
        """The line of the run sheet from which it came; None: it is new."""
        self.is_over = False
        """Whether that has been done or skipped meanwhile."""
        self._number = QLabel()
        self._number.setFont(font(14, "medium"))
        self._number.setFixedWidth(22)
        self.kind = ChoiceBox(theme)
        for kind in KINDS:
            self.kind.addItem(kind_words(kind), kind)
        self.kind.setCurrentIndex(self.kind.findData(step.kind))
        self.label = QLineEdit(step.label)
        self.label.setMaxLength(LABEL_LIMIT)
        self.label.setCursorPosition(0)  # a long text is read from its beginning
        self.label.setPlaceholderText(translate("Sheet editor", "What to do"))
        self.hold = QLineEdit(_hold_words(step))
        self.hold.setPlaceholderText(translate("Sheet editor", "when you like"))  # what an empty field means
        texts = (translate("Sheet editor", "until settled"), self.hold.placeholderText())
        words = max(map(QFontMetricsF(font(14)).horizontalAdvance, texts))
        self.hold.setFixedWidth(max(HOLD_WIDTH, ceil(words) + FIELD_EDGES))
        self._up = _button(translate("Sheet editor", "Up"), "flat")
        self._remove = _button(translate("Sheet editor", "Remove"), "flat")
        self._up.clicked.connect(lambda: move(self))
        self._remove.clicked.connect(lambda: drop(self))
        layout = QGridLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(8)
        layout.setColumnStretch(LABEL, 1)
        widgets = (self._number, self.kind, self.label, self.hold, self._up, self._remove)
        for widget, (row, column, span) in zip(widgets, TWO_LINES if is_narrow else ONE_LINE, strict=True):
            widget.setFont(font(14))
            layout.addWidget(widget, row, column, 1, span)

    def show_number(self, number: int) -> None:
        self._number.setText(str(number))
        for widget, words in (
            (self.kind, translate("Sheet editor", "Kind of step {number}")),
            (self.label, translate("Sheet editor", "What to do in step {number}")),
            (self.hold, translate("Sheet editor", "How long to wait after step {number}")),
            (self._up, translate("Sheet editor", "Move step {number} up")),
            (self._remove, translate("Sheet editor", "Remove step {number}")),
        ):
            widget.setAccessibleName(words.format(number=number))

    def step(self) -> Step:
        """Return the step as entered; raises DurationError."""
        hold_s, until_settled = parse_hold(_as_in_the_file(self.hold.text()))
        return Step(str(self.kind.currentData()), self.label.text().strip(), hold_s, until_settled)


def _holds(lines: Iterable[SheetLine], wanted: SheetLine) -> bool:
    """Tell whether it is among them itself: another step may be equal to it."""
    return any(line is wanted for line in lines)


def _hold_words(step: Step) -> str:
    """Return the wait after a step as it is typed in the language of the window."""
    return translate("Sheet editor", "until settled") if step.until_settled else hold_text(step)


def _as_in_the_file(text: str) -> str:
    """Return what was typed in the words of a bench file, which knows one language."""
    words = " ".join(text.split()).casefold()
    return UNTIL_SETTLED if words == translate("Sheet editor", "until settled").casefold() else text


def _button(words: str, look: str = "") -> QPushButton:
    button = text_button(words, look, size_px=12.5 if look == "flat" else 14)
    button.setAutoDefault(False)
    return button
