"""The page of a run in progress: the curve, the voltage, and tagging."""

from __future__ import annotations

import time

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QVBoxLayout, QWidget

from gui.chart.chart import Chart
from gui.chart_notes import live_notes
from gui.fonts import font
from gui.pages.live_panel import LivePanel
from gui.pages.run_foot import RunFoot
from gui.session import Session
from gui.theme import Theme
from gui.widgets.key_button import KeyButton
from gui.widgets.moment_entry import MomentWords
from gui.words import translate
from logger.errors import LoggerError
from logger.moments import Moment

__all__ = ["RunPage"]

TEXT_EVERY_S = 0.3
HINT = "Wheel zooms  ·  drag looks back  ·  Home shows the whole run"


class RunPage(QWidget):
    """Shows a `Session` and turns keys and clicks into calls to it.

    Attributes
    ----------
    stop_wanted : emitted with nothing.
    told : emitted with a key, a level and a text for the window's bars.
    removed : emitted with the `Moment` that was removed, so that it can be brought back.
    """

    stop_wanted = Signal()
    told = Signal(str, str, str)
    removed = Signal(object)

    def __init__(self, theme: Theme, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._texts_s = 0.0
        self._menu_time_s = 0.0
        self.chart = Chart(theme)
        self.panel = LivePanel(theme)
        self.foot = RunFoot(theme)
        self.follow = KeyButton(theme, "Following the whole run", "F", "flat")
        self.follow.setToolTip("Follow the newest readings, or stand still (F)")
        self.setFocusProxy(self.chart)
        self._build()
        self._connect()
        self.chart.show_overview(session.overview, is_live=True)
        self.panel.show_words("Opening the source of the readings …")
        self.panel.show_voltage(None, None)

    def _build(self) -> None:
        hint = QLabel(HINT)
        hint.setFont(font(12.5))
        hint.setProperty("look", "quiet")
        below = QHBoxLayout()
        below.setContentsMargins(58, 4, 14, 8)
        below.addWidget(self.follow)
        below.addSpacing(8)
        below.addWidget(hint, 1)
        left = QVBoxLayout()
        left.setSpacing(0)
        left.addWidget(self.chart, 1)
        left.addLayout(below)
        middle = QHBoxLayout()
        middle.setContentsMargins(6, 12, 28, 0)
        middle.setSpacing(22)
        middle.addLayout(left, 1)
        middle.addWidget(self.panel)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addLayout(middle, 1)
        layout.addWidget(self.foot)
        QWidget.setTabOrder(self.chart, self.follow)

    def _connect(self) -> None:
        self.follow.clicked.connect(self.chart.toggle_following)
        self.chart.looked.connect(self._show_following)
        self.chart.moment_chosen.connect(self.edit)
        self.foot.tag_pressed.connect(lambda: self.tag_at(self._session.now_s))
        self.foot.kinds_opened.connect(self._keep_menu_time)
        self.foot.kind_chosen.connect(lambda kind: self.tag_at(self._menu_time_s, kind))
        self.foot.stop_wanted.connect(self.stop_wanted)
        self.foot.entry.kept.connect(self._keep_words)
        self.foot.entry.left.connect(lambda: self.chart.setFocus(Qt.FocusReason.OtherFocusReason))
        self.panel.moments.edit_wanted.connect(self.edit)
        self.panel.moments.remove_wanted.connect(self.remove)

    # ------------------------------------------------------------ tagging

    def tag_at(self, time_s: float, kind: str = "note") -> None:
        """Keep a moment at run time `time_s` at once, then ask for its words."""
        try:
            moment = self._session.add_moment(kind, "", time_s)
        except LoggerError as error:
            self.told.emit("moment", "warning", str(error))
            return
        self._open_entry(moment, edits_time=False)

    def edit(self, moment_id: str) -> None:
        """Ask for other words, kind or time of a moment."""
        moment = next((m for m in self._session.moments if m.id == moment_id), None)
        if moment is not None and not self._session.is_over:
            self.panel.moments.choose(moment_id)
            self._open_entry(moment, edits_time=True)

    def remove(self, moment_id: str) -> None:
        """Remove a moment; it can be brought back."""
        moment = next((m for m in self._session.moments if m.id == moment_id), None)
        if moment is not None:
            self._session.edit_moment(moment_id, removed=True)
            self._show_moments()
            self.removed.emit(moment)

    def bring_back(self, moment_id: str) -> None:
        """Undo a removal."""
        self._session.edit_moment(moment_id, removed=False)
        self._show_moments()

    def _open_entry(self, moment: Moment, *, edits_time: bool) -> None:
        number = next((i for i, m in enumerate(self._session.moments, 1) if m.id == moment.id), 0)
        self.foot.path.hide()
        self.foot.entry.open(moment, number, edits_time=edits_time)
        self.foot.path.hide()
        self._show_moments()

    def _keep_words(self, words: MomentWords) -> None:
        try:
            self._session.edit_moment(words.id, kind=words.kind, label=words.label, time_s=words.time_s)
        except LoggerError as error:
            self.told.emit("moment", "warning", str(error))
        self._show_moments()

    def _keep_menu_time(self) -> None:
        self._menu_time_s = self._session.now_s

    # ------------------------------------------------------------ showing

    def show_saving(self) -> None:
        """No more tagging: the run is being saved."""
        self.foot.show_saving()

    def show_failed(self) -> None:
        """Nothing is recorded."""
        self.panel.show_words(translate("Run page", "The run is not recording."))
        self.foot.show_failed()

    def frame(self) -> None:
        """Draw what is new; called once a frame."""
        session = self._session
        self.chart.show_notes(live_notes(session.view, session.moments, session.overview.last))
        self.chart.refresh(session.now_s)
        now = time.monotonic()
        if now - self._texts_s >= TEXT_EVERY_S:
            self._texts_s = now
            self._show_texts()

    def _show_texts(self) -> None:
        status, view = self._session.status(), self._session.view
        last = self._session.overview.last
        age_s = None
        if status is not None and last is not None:
            age_s = (self._session.now_s - last[0]) / status.speed
        self.panel.show_voltage(None if last is None else last[1], age_s)
        if view is not None:
            self.panel.show_view(view)
            self.foot.path.show_phase(view.phase, frozenset(p.phase for p in view.phases))
            self.chart.setAccessibleDescription(f"{view.sentence} {len(self._session.moments)} moments.")
        elif status is not None:
            self.panel.show_words("Waiting for the first readings …")
        self._show_moments()

    def _show_moments(self) -> None:
        self.panel.moments.show_moments(self._session.moments)

    def _show_following(self) -> None:
        window = self.chart.window_of_time
        if window.shows_whole_run:
            words = "Following the whole run"
        elif window.is_following:
            words = "Following"
        else:
            words = "Standing still: follow again"
        self.follow.show_words(words)
