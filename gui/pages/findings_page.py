"""The page of a finished run: what it shows, how sure that is, and where the file lies."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QPushButton, QScrollArea, QVBoxLayout, QWidget

from gui.chart.chart import Chart
from gui.chart_notes import findings_notes
from gui.findings_texts import heading, headline, headline_note, result_rows, warnings
from gui.fonts import font
from gui.pages.page import Page, PageHost
from gui.session import Finished
from gui.theme import Theme
from gui.widgets.moment_list import MomentList
from gui.widgets.value_table import ValueTable
from logger.cautions import IN_SHORT
from logger.overview import Overview

__all__ = ["FindingsPage"]

WIDTH = 372


class FindingsPage(Page):
    """Shows one `Finished`.

    Attributes
    ----------
    picture_wanted, folder_wanted, cautions_wanted : emitted with nothing.
    """

    picture_wanted = Signal()
    folder_wanted = Signal()
    cautions_wanted = Signal()

    def __init__(self, host: PageHost, finished: Finished, parent: QWidget | None = None) -> None:
        super().__init__(host, parent)
        self.finished = finished
        self.chart = Chart(host.theme)
        self.setFocusProxy(self.chart)
        self._build(host.theme)
        self._show()

    def _build(self, theme: Theme) -> None:
        middle = QHBoxLayout(self)
        middle.setContentsMargins(6, 12, 22, 14)
        middle.setSpacing(22)
        middle.addWidget(self.chart, 1)
        column = QWidget()
        layout = QVBoxLayout(column)
        layout.setContentsMargins(0, 12, 10, 0)
        layout.setSpacing(6)
        layout.addWidget(_label("Voltage saved", 13, "quiet"))
        self._headline = _label("", 42, "settled", "semibold")
        self._note = _wrapped("", 13.5, "quiet")
        self._table = ValueTable()
        layout.addWidget(self._headline)
        layout.addWidget(self._note)
        layout.addSpacing(6)
        layout.addWidget(_rule())
        layout.addWidget(self._table)
        layout.addWidget(_rule())
        self._file = _wrapped("", 12.5, "quiet")
        self._file.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        layout.addSpacing(4)
        layout.addLayout(self._buttons())
        layout.addWidget(self._file)
        layout.addWidget(_rule())
        self._warnings = QVBoxLayout()
        self._warnings.setSpacing(6)
        layout.addLayout(self._warnings)
        self._moments = MomentList(theme, editable=False)
        self._moments.setMinimumHeight(84)
        layout.addWidget(self._moments, 1)
        layout.addWidget(_rule())
        layout.addWidget(_wrapped(IN_SHORT, 12.5, "quiet"))
        scroll = QScrollArea()
        scroll.setWidget(column)
        scroll.setWidgetResizable(True)
        scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        scroll.setFixedWidth(WIDTH)
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        middle.addWidget(scroll)

    def _buttons(self) -> QHBoxLayout:
        row = QHBoxLayout()
        row.setSpacing(8)
        for words, tip, signal in (
            ("Save picture", "Save the picture for paper beside the recording (Ctrl+P)", self.picture_wanted),
            ("Show folder", "Open the folder of the recording", self.folder_wanted),
            ("Cautions", "All cautions", self.cautions_wanted),
        ):
            button = QPushButton(words)
            button.setFont(font(13.5, "medium"))
            button.setToolTip(tip)
            button.setAccessibleName(tip)
            button.clicked.connect(lambda _checked=False, signal=signal: signal.emit())
            row.addWidget(button)
        row.addStretch(1)
        return row

    def _show(self) -> None:
        recording, findings = self.finished.recording, self.finished.findings
        channel = recording.channel("cell_voltage")
        overview = Overview()
        if channel is not None:
            overview = Overview.of(channel.times_s, channel.values, gaps=recording.gaps, channel=channel.name)
        self.chart.show_overview(overview, is_live=False)
        self.chart.show_notes(findings_notes(recording, findings))
        self._headline.setText(headline(findings))
        if not (findings.get("voltage_saved") or {}).get("value_V"):
            self._headline.setFont(font(24, "semibold"))
            self._headline.setProperty("look", "quiet")
        self._headline.setAccessibleName(f"Voltage saved: {headline(findings)}")
        self._note.setText(headline_note(findings))
        self._table.show_rows(result_rows(findings))
        found = warnings(findings)
        if self.finished.trouble:
            found = (f"These readings could not be judged: {self.finished.trouble}", *found)
        for text in found:
            self._warnings.addLayout(_warning(text))
        self._moments.show_moments(recording.moments)
        self._file.setText(str(recording.path))
        self.chart.setAccessibleDescription(f"Voltage saved: {headline(findings)}.")

    def header_words(self) -> tuple[str, str]:
        """Return the title of the recording, when it was made and how long it is."""
        return self.finished.recording.title, heading(self.finished.recording)

    def frame(self) -> None:
        """Draw what is new; called once a frame."""
        self.chart.refresh(self.finished.recording.duration_s)


def _warning(text: str) -> QHBoxLayout:
    row = QHBoxLayout()
    row.setSpacing(8)
    sign = _label("!", 14, "warning", "semibold")
    sign.setAccessibleName("Warning")
    sign.setAlignment(Qt.AlignmentFlag.AlignTop)
    row.addWidget(sign)
    row.addWidget(_wrapped(text, 13.5), 1)
    return row


def _rule() -> QFrame:
    line = QFrame()
    line.setProperty("look", "rule")
    return line


def _wrapped(text: str, size: float, look: str = "") -> QLabel:
    label = _label(text, size, look)
    label.setWordWrap(True)
    return label


def _label(text: str, size: float, look: str = "", weight: str = "regular") -> QLabel:
    label = QLabel(text)
    label.setFont(font(size, weight))
    label.setProperty("look", look)
    return label
