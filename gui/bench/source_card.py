"""One source on the bench: what it is, where it is plugged in, what it stands for, and a try-out."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtGui import QFontDatabase
from PySide6.QtWidgets import (
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPlainTextEdit,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from drivers.port_list import PortInfo
from gui.bench.source_texts import (
    kind_texts,
    lesson_texts,
    option_texts,
    reading_text,
    role_texts,
    roles_text,
    state_text,
    verdict_text,
)
from gui.fonts import font
from gui.message_words import message_sentence, message_words
from gui.numbers import localised
from gui.theme import Theme
from gui.widgets.choice_box import ChoiceBox
from gui.widgets.text_button import TARGET_PX, text_button
from gui.widgets.text_label import text_label
from gui.words import translate
from logger.display_check import DisplayError, compare_with_display
from logger.source_form import SourceForm, SourceFormError, options_of
from logger.source_probe import ProbedChannel, SourceProbe, raw_lines

__all__ = ["SourceCard"]

RAW_LINES = 4
OPTION_COLUMNS = 3
BETWEEN_OPTIONS = 9
"""Pixels above a label below another field: it belongs to its own."""


class SourceCard(QFrame):
    """Edits one source address, and listens to it on demand.

    Attributes
    ----------
    changed : emitted with nothing when the address is another one.
    removed : emitted with nothing.
    point_wanted : emitted with the channel, the known voltage as typed, and what it is known by.
    calibration_asked : emitted with the channel when the first reading has come.
    calibration_unwanted : emitted with the channel whose calibration is to be forgotten.
    """

    changed = Signal()
    removed = Signal()
    point_wanted = Signal(object, str, str)
    calibration_asked = Signal(object)
    calibration_unwanted = Signal(object)

    def __init__(self, theme: Theme, form: SourceForm, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("look", "card")
        self.probe: SourceProbe | None = None
        self._may_listen = True
        self._shown_raw = -1
        self._options: dict[str, QLineEdit] = {}
        self._option_labels: dict[str, QLabel] = {}
        self._make_choices(theme)
        self._make_trial()
        self._build()
        self._show_form(form)
        self._connect()
        self._show_listening()

    # ------------------------------------------------------------ layout

    def _make_choices(self, theme: Theme) -> None:
        self.kind, self.port, self.role = ChoiceBox(theme), ChoiceBox(theme), ChoiceBox(theme)
        for kind, words in kind_texts().items():
            self.kind.addItem(words, kind)
        for role, words in role_texts().items():
            self.role.addItem(words, role)
        self.port.setEditable(True)
        self.port.setInsertPolicy(ChoiceBox.InsertPolicy.NoInsert)
        for box, name in (
            (self.kind, translate("Bench", "Kind of instrument")),
            (self.port, translate("Bench", "Port")),
            (self.role, translate("Bench", "Stands for")),
        ):
            box.setFont(font(13.5))
            box.setAccessibleName(name)
            box.setMinimumContentsLength(12)
            box.setSizeAdjustPolicy(ChoiceBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.more = QToolButton()
        self.more.setText(translate("Bench", "More settings"))
        self.more.setCheckable(True)
        self.more.setFont(font(13, "medium"))
        self.more.setMinimumHeight(TARGET_PX)
        self._more = QWidget()
        self._more.hide()
        self._problem = text_label("", 13, look="danger", wraps=True, selectable=True)

    def _make_trial(self) -> None:
        self.listen = text_button("")
        self.remove = text_button(translate("Bench", "Remove"), "flat")
        self._trial = QWidget()
        self._reading = text_label("", 30, weight="light", selectable=True)
        self._reading.setAccessibleName(translate("Bench", "Reading now"))
        self._state = text_label("", 13, look="quiet", wraps=True, selectable=True)
        self._identity = text_label("", 13, look="quiet", wraps=True, selectable=True)
        self.display = _field(
            translate("Bench", "What the meter's display shows, in volts"), localised("2.251"), 130
        )
        self.compare = text_button(translate("Bench", "Compare"))
        self.known = _field(translate("Bench", "Known voltage on the meter's leads, in volts"), "0", 130)
        self.known_by = _field(translate("Bench", "What it is known by"), "", 400)
        self.known_by.setPlaceholderText(translate("Bench", "known by: leads together, bench meter …"))
        self.take = text_button(translate("Bench", "Take this point"))
        self._calibration = text_label("", 13, look="quiet", wraps=True, selectable=True)
        self.forget = text_button(translate("Bench", "Forget this calibration"), "flat")
        self._has_asked = False
        self._verdict = text_label("", 13.5, wraps=True, selectable=True)
        self.raw = QPlainTextEdit()
        self.raw.setReadOnly(True)
        letters = QFontDatabase.systemFont(QFontDatabase.SystemFont.FixedFont)
        letters.setPixelSize(12)
        self.raw.setFont(letters)
        self.raw.setLineWrapMode(QPlainTextEdit.LineWrapMode.NoWrap)
        self.raw.setFixedHeight(92)
        self.raw.setTabChangesFocus(True)
        self.raw.setAccessibleName(translate("Bench", "Raw bytes, as they came"))

    def _build(self) -> None:
        grid = QGridLayout()
        grid.setHorizontalSpacing(12)
        grid.setVerticalSpacing(3)
        for column, (words, box) in enumerate(
            (
                (translate("Bench", "Kind of instrument"), self.kind),
                (translate("Bench", "Port"), self.port),
                (translate("Bench", "Stands for"), self.role),
            )
        ):
            label = text_label(words, 12.5, look="quiet", wraps=True, selectable=True)
            label.setBuddy(box)
            grid.addWidget(label, 0, column)
            grid.addWidget(box, 1, column)
            grid.setColumnStretch(column, 6 if box is self.kind else 5)
        row = QHBoxLayout()
        row.setSpacing(10)
        row.addWidget(self.listen)
        row.addWidget(self.more)
        row.addStretch(1)
        row.addWidget(self.remove)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(16, 14, 16, 14)
        layout.setSpacing(10)
        layout.addLayout(grid)
        layout.addWidget(self._problem)
        layout.addLayout(row)
        layout.addWidget(self._more)
        layout.addWidget(self._trial)
        self._build_trial()

    def _build_trial(self) -> None:
        words = text_label(translate("Bench", "The display shows"), 13.5, wraps=True, selectable=True)
        words.setBuddy(self.display)
        check = QHBoxLayout()
        check.setSpacing(8)
        for widget in (
            words,
            self.display,
            text_label("V", 13.5, look="quiet", wraps=True, selectable=True),
            self.compare,
        ):
            check.addWidget(widget)
        check.addStretch(1)
        self._calibrate = QWidget()
        points = QHBoxLayout(self._calibrate)
        points.setContentsMargins(0, 0, 0, 0)
        points.setSpacing(8)
        truly = text_label(translate("Bench", "It is truly"), 13.5, wraps=True, selectable=True)
        truly.setBuddy(self.known)
        for widget in (
            truly,
            self.known,
            text_label("V", 13.5, look="quiet", wraps=True, selectable=True),
            self.known_by,
            self.take,
        ):
            points.addWidget(widget, 3 if widget is self.known_by else 0)
        points.addStretch(1)
        layout = QVBoxLayout(self._trial)
        layout.setContentsMargins(0, 2, 0, 0)
        layout.setSpacing(6)
        for widget in (self._reading, self._state, self._identity):
            layout.addWidget(widget)
        layout.addLayout(check)
        layout.addWidget(self._verdict)
        layout.addWidget(self._calibrate)
        layout.addWidget(self._calibration)
        kept = QHBoxLayout()
        kept.addWidget(self.forget)
        kept.addStretch(1)
        layout.addLayout(kept)
        layout.addWidget(self.raw)

    def _connect(self) -> None:
        self.kind.activated.connect(self._kind_chosen)
        self.role.activated.connect(lambda _number: self._edited())
        self.port.editTextChanged.connect(lambda _text: self._edited())
        self.port.activated.connect(self._port_chosen)
        self.more.toggled.connect(self._more.setVisible)
        self.listen.clicked.connect(lambda _checked=False: self.toggle_listening())
        self.remove.clicked.connect(lambda _checked=False: self.removed.emit())
        self.compare.clicked.connect(lambda _checked=False: self._compare())
        self.display.returnPressed.connect(self._compare)
        self.take.clicked.connect(lambda _checked=False: self._offer_point())
        self.known.returnPressed.connect(self._offer_point)
        self.forget.clicked.connect(lambda _checked=False: self._forget())

    # ------------------------------------------------------------ the form

    @property
    def stops(self) -> tuple[QWidget, ...]:
        """Where the keys stop in it, in their order."""
        choices = (self.kind, self.port, self.role, self.listen, self.more, self.remove)
        trial = (self.display, self.compare, self.known, self.known_by, self.take, self.forget, self.raw)
        return (*choices, *self._options.values(), *trial)

    @property
    def form(self) -> SourceForm:
        """What the card says at present."""
        options = {key: edit.text() for key, edit in self._options.items()}
        role = str(self.role.currentData())
        if role != "cell_voltage":
            options["role"] = role
        return SourceForm(str(self.kind.currentData()), self.port.currentText(), options)

    def show_ports(self, ports: Sequence[PortInfo]) -> None:
        """Offer these ports; what is typed stays, and a list that is the same, with what is chosen in it."""
        if self.form.kind == "cell":
            offered = [(words, name) for name, words in lesson_texts().items()]
        else:
            offered = [(f"{port.device}  {port.description}".strip(), port.device) for port in ports]
        box = self.port
        if offered == [(box.itemText(row), box.itemData(row)) for row in range(box.count())]:
            return  # asked in the middle of a choice too: made anew, its first line would be chosen
        typed = box.currentText()
        blocked = box.blockSignals(True)
        box.clear()
        for words, device in offered:
            box.addItem(words, device)
        box.setCurrentIndex(box.findData(typed))
        box.setEditText(typed)
        box.blockSignals(blocked)

    def _show_form(self, form: SourceForm) -> None:
        self.kind.setCurrentIndex(max(self.kind.findData(form.kind), 0))
        self._make_options(form)
        role = form.options.get("role", "cell_voltage")
        if self.role.findData(role) < 0:  # of a source of several channels, one for each
            self.role.addItem(roles_text(role), role)
        self.role.setCurrentIndex(self.role.findData(role))
        self.show_ports(())
        self.port.setEditText(form.port)
        self._check()

    def _make_options(self, form: SourceForm) -> None:
        texts = option_texts()
        layout = self._more.layout() or QGridLayout(self._more)
        assert isinstance(layout, QGridLayout)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setHorizontalSpacing(12)
        layout.setVerticalSpacing(3)
        for widget in (*self._options.values(), *self._option_labels.values()):
            layout.removeWidget(widget)
            widget.hide()
            widget.deleteLater()
        self._options, self._option_labels = {}, {}
        for number, key in enumerate(key for key in options_of(form.kind) if key != "role"):
            label, edit = (
                text_label(texts.get(key, key), 12.5, look="quiet", wraps=True, selectable=True),
                QLineEdit(form.options.get(key, "")),
            )
            label.setBuddy(edit)
            label.setContentsMargins(0, BETWEEN_OPTIONS if number >= OPTION_COLUMNS else 0, 0, 0)
            edit.setFont(font(13.5))
            edit.setAccessibleName(texts.get(key, key))
            edit.textEdited.connect(lambda _text: self._edited())
            line, column = divmod(number, OPTION_COLUMNS)
            layout.addWidget(label, 2 * line, column)
            layout.addWidget(edit, 2 * line + 1, column)
            self._options[key], self._option_labels[key] = edit, label

    def _kind_chosen(self, _number: int) -> None:
        form = self.form
        port = "demo" if form.kind == "cell" else "" if form.port in lesson_texts() else form.port
        self._make_options(SourceForm(form.kind, port, form.options))
        self.port.setEditText(port)
        self._edited()

    def _port_chosen(self, number: int) -> None:
        device = self.port.itemData(number)
        if device:
            self.port.setEditText(str(device))

    def _edited(self) -> None:
        self.stop_listening()
        self._check()
        self.changed.emit()

    def _check(self) -> None:
        try:
            self.form.checked_address()
        except SourceFormError as error:
            self._problem.setText(message_sentence(str(error)))
            self._problem.show()
        else:
            self._problem.hide()
        self._show_listening()

    # ------------------------------------------------------------ listening

    def let_listen(self, may: bool, why_not: str) -> None:
        """Say whether the source may be opened here; a run that records it holds the port."""
        self._may_listen = may
        self.listen.setToolTip("" if may else why_not)
        if not may:
            self.stop_listening()
        self._show_listening()

    def toggle_listening(self) -> None:
        """Begin to listen, or stop."""
        if self.probe is not None:
            self.stop_listening()
            return
        try:
            self.probe = SourceProbe(self.form.checked_address())
        except SourceFormError:
            return  # the card says why
        self._shown_raw = -1
        self._has_asked = False
        self._verdict.setText("")
        self.show_calibration("", is_kept=False)
        self._show_listening()

    def stop_listening(self) -> SourceProbe | None:
        """Stop listening; return the probe that is ending, if there was one."""
        ending, self.probe = self.probe, None
        if ending is not None:
            ending.stop()
        self._show_listening()
        return ending

    def listens_to(self, identity: str) -> bool:
        """Tell whether the instrument of that identity is the one that readings come from now."""
        channels = self.probe.channels() if self.probe is not None else ()
        return any(one.identity == identity for one in channels)

    def frame(self) -> None:
        """Show what has come."""
        probe = self.probe
        if probe is None:
            return
        channels = probe.channels()
        self._reading.setText("   ".join(reading_text(one) for one in channels) or "–")
        self._state.setText(state_text(probe))
        self._identity.setText(message_words(probe.identity))
        self._identity.setVisible(bool(probe.identity))
        if not self._has_asked and channels and channels[0].identity:
            self._has_asked = True
            self.calibration_asked.emit(channels[0])
        if probe.raw_count != self._shown_raw:
            self._shown_raw = probe.raw_count
            self.raw.setPlainText("\n".join(raw_lines(probe.raw, RAW_LINES)))

    def _show_listening(self) -> None:
        listens = self.probe is not None
        self._trial.setVisible(listens)
        has_port = "baud" in self._options
        self.raw.setVisible(has_port)
        self._calibrate.setVisible(has_port)
        if not has_port:
            self.forget.hide()
        self._calibration.setVisible(has_port and bool(self._calibration.text()))
        self.listen.setText(translate("Bench", "Stop listening") if listens else translate("Bench", "Listen"))
        self.listen.setEnabled(listens or (self._may_listen and self._problem.isHidden()))

    def _compare(self) -> None:
        try:
            found = compare_with_display(self.display.text(), self._recent())
        except DisplayError as error:
            self._say_verdict(message_sentence(str(error)), "")
            return
        self._say_verdict(verdict_text(found), "settled" if found.code == "agrees" else "danger")

    def _say_verdict(self, text: str, look: str) -> None:
        self._verdict.setText(text)
        self._verdict.setProperty("look", look)
        self._verdict.style().polish(self._verdict)

    def show_calibration(self, text: str, look: str = "quiet", *, is_kept: bool | None = None) -> None:
        """Show by what the instrument is corrected, or why a point was not taken.

        `is_kept` tells whether there is something to forget; None: as before.
        """
        if is_kept is not None:
            self.forget.setVisible(is_kept)
        self._calibration.setText(text)
        self._calibration.setVisible(bool(text))
        self._calibration.setProperty("look", look)
        self._calibration.style().polish(self._calibration)

    def _offer_point(self) -> None:
        channel = self._voltage()
        if channel is not None:
            self.point_wanted.emit(channel, self.known.text() or "0", self.known_by.text())

    def _forget(self) -> None:
        channel = self._voltage()
        if channel is not None:
            self.calibration_unwanted.emit(channel)

    def _recent(self) -> tuple[float, ...]:
        channel = self._voltage()
        return () if channel is None else channel.recent

    def _voltage(self) -> ProbedChannel | None:
        channels = self.probe.channels() if self.probe is not None else ()
        return next((one for one in channels if one.unit == "V"), None)


def _field(name: str, example: str, width: int) -> QLineEdit:
    field = QLineEdit()
    field.setFont(font(14))
    field.setMaximumWidth(width)
    field.setPlaceholderText(example)
    field.setAccessibleName(name)
    return field
