"""The field in which a moment that was just stamped gets its words, or an older one is edited."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QEvent, QObject, QPointF, Qt, Signal
from PySide6.QtGui import QFontMetricsF, QKeyEvent, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QComboBox, QHBoxLayout, QLabel, QLineEdit, QPushButton, QWidget

from gui.disc import paint_disc
from gui.fonts import font
from gui.kind_words import kind_words
from gui.message_words import message_sentence
from gui.numbers import clock_text
from gui.theme import Theme
from gui.widgets.choice_box import ChoiceBox
from gui.widgets.text_button import TARGET_PX
from gui.words import translate
from logger.moments import KINDS, LABEL_LIMIT, Moment, parse_line
from logger.scale import parse_clock

__all__ = ["MomentEntry", "MomentWords"]

FIELD_EDGES = 30.0
TIGHT = 560


@dataclass(frozen=True, slots=True)
class MomentWords:
    """What was entered for the moment `id`; `time_s` None leaves its time as it is."""

    id: str
    kind: str
    label: str
    time_s: float | None = None


class MomentEntry(QWidget):
    """Hidden until `open` is called; Enter keeps what was typed, Esc keeps the moment as it was.

    Attributes
    ----------
    kept : emitted with `MomentWords` when what was typed is to be kept.
    left : emitted with nothing when the entry has closed, either way.
    """

    kept = Signal(object)
    opened = Signal()  # words are being typed: letters are text now
    left = Signal()

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._moment: Moment | None = None
        self._edits_time = False
        self._disc = _Disc(theme)
        self._when = QLabel()
        self._when.setFont(font(14, "medium"))
        self._time = QLineEdit()
        self._time.setAccessibleName(translate("Moment entry", "Time of the moment, minutes:seconds"))
        self._time.setFixedWidth(86)
        self._label = QLineEdit()
        self._label.setMaxLength(LABEL_LIMIT)
        self._label.setAccessibleName(translate("Moment entry", "What happened"))
        self._kind = ChoiceBox(theme)
        self._kind.setAccessibleName(translate("Moment entry", "Kind of moment"))
        self._kind.setMinimumContentsLength(6)
        for kind in KINDS:
            self._kind.addItem(kind_words(kind), kind)
        self._keep = QPushButton(translate("Moment entry", "Keep"))
        self._keep.setMinimumHeight(TARGET_PX)
        self._keep.setToolTip(translate("Moment entry", "Keep (Enter)"))
        self._keep.clicked.connect(self._accept)
        self._trouble = QLabel()
        self._trouble.setProperty("look", "danger")
        self._trouble.setFont(font(12.5))
        for widget in (self._time, self._label, self._kind, self._keep):
            widget.setFont(font(14))
        for field in (self._time, self._label):
            field.returnPressed.connect(self._accept)
        for widget in (self._time, self._label, self._kind, self._keep):
            widget.installEventFilter(self)
        self._build()
        self.hide()

    def _build(self) -> None:
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(10)
        layout.addWidget(self._disc)
        layout.addWidget(self._when)
        layout.addWidget(self._time)
        layout.addWidget(self._label, 1)
        layout.addWidget(self._kind)
        layout.addWidget(self._keep)
        layout.addWidget(self._trouble)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Say less where there is little room; the field for the words must stay wide enough to type in."""
        super().resizeEvent(event)
        policies = QComboBox.SizeAdjustPolicy
        self._kind.setSizeAdjustPolicy(
            policies.AdjustToMinimumContentsLengthWithIcon
            if self.width() < TIGHT
            else policies.AdjustToContents
        )
        self._show_when()
        words = translate("Moment entry", "What happened?  Enter keeps, Esc skips")
        width = QFontMetricsF(self._label.font()).horizontalAdvance(words) + FIELD_EDGES
        fits = width <= self._label.width()
        self._label.setPlaceholderText(words if fits else translate("Moment entry", "What happened?"))

    def open(self, moment: Moment, number: int, *, edits_time: bool = False) -> None:
        """Take the words for `moment`, whose flag bears `number`; what was open before is kept first."""
        self.settle()
        self._moment, self._edits_time = moment, edits_time
        self._disc.show_number(number)
        self._when.setText(clock_text(moment.time_s, 1))
        self._show_when()
        self._time.setVisible(edits_time)
        self._time.setText(clock_text(moment.time_s, 1).lstrip("−"))
        self._label.setText(moment.label)
        self._kind.setCurrentIndex(max(self._kind.findData(moment.kind), 0))
        self._trouble.hide()
        self.show()
        self._label.setFocus(Qt.FocusReason.OtherFocusReason)
        self._label.end(False)
        self.opened.emit()

    def open_again(self, moment: Moment, number: int, words: MomentWords) -> None:
        """Take the words for `moment` once more, beginning with `words`, which could not be kept."""
        self.open(moment, number, edits_time=self._edits_time)
        if words.time_s is not None:
            self._time.setText(clock_text(words.time_s, 1))
        self._label.setText(words.label)
        self._kind.setCurrentIndex(max(self._kind.findData(words.kind), 0))

    def _show_when(self) -> None:
        """The time stands in the list of moments too, and gives way to the words."""
        self._when.setVisible(not self._edits_time and self.width() >= TIGHT)

    @property
    def is_open(self) -> bool:
        """Tell whether words are being typed."""
        return self._moment is not None

    def settle(self) -> None:
        """Keep what has been typed so far, and ask nobody: a time that is none stays as it was.

        For when the run ends, or something else is done while words are being typed.
        """
        try:
            time_s = self._typed_time_s()
        except ValueError:
            time_s = None
        self._keep_typed(time_s)

    def _accept(self) -> None:
        try:
            time_s = self._typed_time_s()
        except ValueError as error:
            self._trouble.setText(message_sentence(str(error)))
            self._trouble.show()
            self._time.setFocus()
            return
        self._keep_typed(time_s)

    def _typed_time_s(self) -> float | None:
        """Return the time that was typed, None where it was left as it is; raises ValueError."""
        moment, text = self._moment, self._time.text()
        if moment is None or not self._edits_time or text == clock_text(moment.time_s, 1):
            return None
        return parse_clock(text)

    def _keep_typed(self, time_s: float | None) -> None:
        moment = self._moment
        if moment is None:
            return
        kind, label = str(self._kind.currentData()), self._label.text()
        if kind == "note" and label != moment.label:
            kind, label = parse_line(label)
        self._close()
        self.kept.emit(MomentWords(moment.id, kind, label, time_s))

    def _close(self) -> None:
        self._moment = None
        self.hide()
        self.left.emit()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Esc leaves from any of the fields; the window must not see it."""
        if event.type() == QEvent.Type.KeyPress and isinstance(event, QKeyEvent):
            if event.key() == Qt.Key.Key_Escape:
                self._close()
                return True
            if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and watched is self._kind:
                self._accept()
                return True
        return super().eventFilter(watched, event)


class _Disc(QWidget):
    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self._theme, self._number = theme, 0
        self.setFixedSize(24, 24)

    def show_number(self, number: int) -> None:
        self._number = number
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        try:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            paint_disc(painter, QPointF(12, 12), 11, self._number, self._theme.colours)
        finally:
            painter.end()
