"""The page of a run in progress: the curve, the voltage, the run sheet, and tagging."""

from __future__ import annotations

import time
from collections.abc import Callable

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from gui.chart.chart import Chart
from gui.chart_notes import live_notes
from gui.live_texts import state_words
from gui.message_words import message_sentence, message_sentences
from gui.moment_acts import MomentActs
from gui.pages.curve_row import CurveRow
from gui.pages.live_panel import NARROW_PAGE, LivePanel
from gui.pages.run_foot import RunFoot
from gui.pages.side_width import window_width
from gui.session import Session
from gui.sheet_texts import announcement, next_hint, next_words, step_name
from gui.stamping import STEP
from gui.tagging import StepOffer, Tagging
from gui.theme import Theme
from gui.widgets.moment_entry import MomentWords
from gui.widgets.scroll_pane import scroll_pane
from gui.widgets.sheet_editor import SheetEditor
from gui.widgets.sheet_path import PathStep
from gui.words import translate
from logger.errors import LoggerError
from logger.moments import Moment

__all__ = ["RunPage"]

TEXT_EVERY_S = 0.3
LOW, FULL = 430, 600
SCROLL_BAR = 10
ABOVE, ABOVE_LOW = 12, 0
BAR_MARGINS = (52, 4, 8, 0)
WIDE_BAR_MARGINS = (28, 4, 28, 0)
NEEDS_WORDS = frozenset({"note", "photo", "resistor_changed", "temperature"})
"""Kinds whose moments say little without words: they are asked for at once."""


class RunPage(QWidget):
    """Shows a `Session` and turns keys and clicks into calls to it.

    Attributes
    ----------
    stop_wanted : emitted with nothing.
    told : emitted with a key, a level and a text for the window's bars.
    untold : emitted with the key of a bar that no longer holds.
    removed : emitted with the `Moment` that was removed, so that it can be brought back.
    offered : emitted with a `StepOffer`: a moment may belong to a step of the voltage.
    announced : emitted with what is to be said aloud, once, when a wait of the run sheet is over.
    pictures_wanted : emitted with the id of the moment whose pictures are to be seen.
    ended : emitted with nothing when nothing of the run can be changed any more.
    """

    stop_wanted = Signal()
    told = Signal(str, str, str)
    untold = Signal(str)
    removed = Signal(object)
    offered = Signal(object)
    announced = Signal(str)
    pictures_wanted = Signal(str)
    ended = Signal()

    def __init__(self, theme: Theme, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session, self._theme = session, theme
        self.tagging = Tagging(session, self)
        self._texts_s = 0.0
        self._menu_time_s = 0.0
        self._announced_at: int | None = None
        self.chart = Chart(theme)
        self.chart.strip.is_movable = True
        self.panel = LivePanel(theme)
        self.foot = RunFoot(theme)
        self._row = CurveRow(theme)
        self.follow = self._row.follow
        self.setFocusProxy(self.chart)
        self.bar_place = QVBoxLayout()  # between curve and foot: for bars only the curve gets lower
        self._build()
        self._connect()
        self.chart.show_overview(session.overview, is_live=True)
        self._show_opening()
        self.panel.show_voltage(None, None)
        self._show_sheet()

    def hasHeightForWidth(self) -> bool:
        """No: the window decides the height, and the curve gives way (see `gui.pages.page`)."""
        return False

    def _build(self) -> None:
        # The column scrolls where the window is too low for it; it never gets narrower than its words.
        self._scroll = scroll_pane(self.panel, takes_focus=False)
        left = self._left = QVBoxLayout()
        left.setSpacing(0)
        left.addWidget(self.chart, 1)
        left.addWidget(self._row)
        middle = self._middle = QHBoxLayout()
        middle.setSpacing(22)
        middle.addLayout(left, 1)
        middle.addWidget(self._scroll)
        layout = self._whole = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addLayout(middle, 1)
        layout.addWidget(self.foot)
        QWidget.setTabOrder(self.chart, self.follow)
        self._fit()

    def _connect(self) -> None:
        foot, tagging = self.foot, self.tagging
        self.follow.clicked.connect(self.chart.toggle_following)
        self.chart.looked.connect(self._show_following)
        self.chart.pace.due.connect(self._draw)
        self.chart.moment_chosen.connect(self.edit)
        self.chart.moment_moved.connect(self.move_to)
        foot.next_pressed.connect(lambda: self.stamp(STEP, self._session.now_s))
        foot.tag_pressed.connect(lambda: self.stamp("note", self._session.now_s))
        foot.kinds_opened.connect(self._keep_menu_time)
        foot.kind_chosen.connect(lambda kind: self.stamp(kind, self._menu_time_s, asks=True))
        foot.skip_wanted.connect(tagging.skip_step)
        foot.repeat_wanted.connect(tagging.repeat_step)
        foot.plan_wanted.connect(self.plan_steps)
        foot.stop_wanted.connect(self.stop_wanted)
        foot.entry.kept.connect(self._keep_words)
        foot.entry.left.connect(lambda: self.chart.setFocus(Qt.FocusReason.OtherFocusReason))
        self.panel.moments.chosen_changed.connect(self.chart.strip.show_chosen)
        self.panel.moments.edit_wanted.connect(self.edit)
        self.panel.moments.remove_wanted.connect(self.remove)
        self.panel.moments.pictures_wanted.connect(self.pictures_wanted)
        tagging.changed.connect(self._show_tagging)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Give the curve its share of a narrow window."""
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        is_narrow, is_low = window_width(self) < NARROW_PAGE, self.height() < LOW
        self.panel.take_room(window_width(self), self.height())
        self._row.show_narrow(is_narrow)
        self._row.show_low(self.height() < FULL)
        self._row.setVisible(not is_low)
        self._middle.setContentsMargins(6, ABOVE_LOW if is_low else ABOVE, 14, 0)
        self.foot.show_low(is_low)
        self._scroll.setFixedWidth(self.panel.width() + SCROLL_BAR)
        self._lay_out_bars(is_narrow)

    def _lay_out_bars(self, is_narrow: bool) -> None:
        """Put bars below the curve alone; in a narrow window, where they would get high, across the page."""
        column = self._whole if is_narrow else self._left
        if column.indexOf(self.bar_place) < 0:
            self.bar_place.setParent(None)
            column.insertLayout(1, self.bar_place)
            self.bar_place.setContentsMargins(*(WIDE_BAR_MARGINS if is_narrow else BAR_MARGINS))

    # ------------------------------------------------------------ tagging

    @property
    def acts(self) -> MomentActs:
        """What is done to the moments, and can be undone."""
        return self.tagging

    @property
    def is_running(self) -> bool:
        """Tell whether there is a run whose moments can be tagged."""
        return self._session.state == "running"

    def stamp(self, act: str, time_s: float, *, asks: bool = False, is_quiet: bool = False) -> None:
        """Do what a key stands for, at run time `time_s`: a kind of moment, or the next step.

        Words are asked for at once where the kind says little by itself, or `asks`; never when `is_quiet`:
        then the page is not in front, and they can follow. Where none are asked for, words being typed for
        an earlier moment go on: cut off, the rest of them would be taken for keys.
        """
        if not self.is_running:
            return
        if act == STEP and self.tagging.sheet.next_step is None:
            if not self.tagging.sheet.lines:
                self.plan_steps()
            return
        try:
            moment = self.tagging.do_step(time_s) if act == STEP else self.tagging.tag(act, time_s)
        except LoggerError as error:
            self.told.emit("moment", "warning", message_sentence(str(error)))
            return
        wants_words = asks or (moment is not None and moment.kind in NEEDS_WORDS and not moment.label)
        if moment is not None and wants_words and not is_quiet:
            self._open_entry(moment, edits_time=False)

    def words_for_newest(self) -> None:
        """Ask for the words of the moment that was tagged last."""
        moment = self.tagging.moment(self.tagging.newest_id)
        if moment is not None and self.is_running:
            self._open_entry(moment, edits_time=False)

    def open_pictures(self) -> None:
        """Ask for the pictures of the chosen moment, else of the one that was tagged last."""
        moments = self._session.moments
        found = (
            self.panel.moments.chosen_id or self.tagging.newest_id or (moments[-1].id if moments else None)
        )
        if found is not None:
            self.pictures_wanted.emit(found)

    def edit(self, moment_id: str) -> None:
        """Ask for other words, kind or time of a moment."""
        moment = self.tagging.moment(moment_id)
        if moment is not None and not self._session.is_over:
            self.panel.moments.choose(moment_id)
            self._open_entry(moment, edits_time=True)

    def move_to(self, moment_id: str, time_s: float) -> None:
        """Give a moment another time."""
        if self.is_running:
            self._try(lambda: self.tagging.edit(moment_id, time_s=time_s))
        self.untold.emit("step near")

    def remove(self, moment_id: str) -> None:
        """Remove a moment; it can be brought back."""
        if self.is_running:
            self.foot.entry.settle()
            moment = self.tagging.remove(moment_id)
            if moment is not None:
                self.removed.emit(moment)

    def bring_back(self, moment_id: str) -> None:
        """Bring a removed moment back."""
        if self.is_running:
            self._try(lambda: self.tagging.bring_back(moment_id))
        self.untold.emit("removed")

    def undo(self) -> None:
        """Undo the last change of moments or sheet; words being typed are one, and can be done once more."""
        if self.is_running:
            self.foot.entry.settle()
            self._try(self.tagging.undo)
            self.untold.emit("removed")

    def redo(self) -> None:
        """Do once more what was undone."""
        if self.is_running:
            self.foot.entry.settle()
            self._try(self.tagging.redo)

    def plan_steps(self) -> None:
        """Let the steps to come be changed."""
        if self._session.is_over:
            return
        editor = SheetEditor(self._theme, lambda: self.tagging.sheet, self.window())
        editor.planned.connect(self.tagging.plan_steps)
        self.tagging.changed.connect(editor.follow)
        self.ended.connect(editor.reject)
        editor.open()

    def _try(self, act: Callable[[], None]) -> None:
        try:
            act()
        except LoggerError as error:
            self.told.emit("moment", "warning", message_sentence(str(error)))

    def _open_entry(self, moment: Moment, *, edits_time: bool) -> None:
        self.foot.entry.open(moment, self.tagging.number_of(moment.id), edits_time=edits_time)
        self._show_moments()

    def _keep_words(self, words: MomentWords) -> None:
        self._try(lambda: self.tagging.take_words(words.id, words.kind, words.label, words.time_s))
        self._show_moments()

    def _keep_menu_time(self) -> None:
        self._menu_time_s = self._session.now_s

    # ------------------------------------------------------------ showing

    def show_saving(self) -> None:
        """No more tagging: the run is being saved."""
        self.foot.show_saving()
        self.ended.emit()

    def show_saved(self) -> None:
        """The run is saved; its page can still be looked at."""
        self.foot.show_saved()

    def show_ending(self) -> None:
        """Nothing will be recorded: the run was ended before its sources were open."""
        self.foot.show_ending()

    def show_failed(self) -> None:
        """Nothing is recorded, or what was recorded is not saved."""
        self.panel.show_voltage(None, None)
        self.panel.show_words(
            translate("Run page", "The run is over, and not saved yet.")
            if self._session.can_save_again
            else translate("Run page", "The run is not recording.")
        )
        self.foot.show_failed()
        self.ended.emit()

    def frame(self) -> None:
        """Draw what is new; called once a frame."""
        self.chart.pace.ask()
        now = time.monotonic()
        if now - self._texts_s >= TEXT_EVERY_S:
            self._texts_s = now
            self._show_texts()

    def _draw(self) -> None:
        session = self._session
        is_over = session.state != "running"
        notes = live_notes(session.view, session.moments, session.overview.last, is_over=is_over)
        self.chart.show_notes(notes)
        self.chart.refresh(session.now_s)

    def show_about_system(self, words: str) -> None:
        """Say what holds around the run: sleep held off, sound off."""
        self._row.show_about_system(words)

    def attend(self) -> None:
        """See whether a wait is over or a step lies near a moment; called also while another page shows."""
        if not self.is_running:
            return
        self.tagging.follow()
        wait, sheet = self.tagging.wait(), self.tagging.sheet
        if wait.is_over and self._announced_at != sheet.position:
            self._announced_at = sheet.position
            self.announced.emit(announcement(wait, sheet.next_step))
        elif not wait.is_over and self._announced_at is not None:
            self.untold.emit("sheet")  # it drifts again: beside "not settled yet" the bar would contradict
            if self._announced_at != sheet.position:
                self._announced_at = None
        offer = self.tagging.offer(self._session.now_s)
        if isinstance(offer, StepOffer):
            self.offered.emit(offer)

    def _show_texts(self) -> None:
        if self._session.state == "failed":
            return  # its words stay
        status, view = self._session.status(), self._session.view
        last = self._session.overview.last
        age_s = None
        if status is not None and last is not None:
            age_s = (self._session.now_s - last[0]) / status.speed
        self.panel.show_voltage(None if last is None else last[1], age_s)
        if view is not None:
            is_over = self._session.state != "running"
            sentence = state_words(view, is_over=is_over)
            self.panel.show_view(view, sentence, is_over=is_over)
            count = len(self._session.moments)
            text = (
                translate("Run page", "{sentence} One moment.")
                if count == 1
                else translate("Run page", "{sentence} {count} moments.")
            )
            self.chart.reading.describe(text.format(sentence=sentence, count=count))
        elif status is not None:
            self.panel.show_words(translate("Run page", "Waiting for the first readings …"))
        else:
            self._show_opening()
        self._show_tagging()

    def _show_opening(self) -> None:
        words = message_sentences(self._session.waits_for)
        self.panel.show_words(words or translate("Run page", "Opening the source of the readings …"))

    def _show_tagging(self) -> None:
        self._show_moments()
        self._show_sheet()

    def _show_moments(self) -> None:
        self.panel.moments.show_moments(self._session.moments, self._session.attachments)

    def _show_sheet(self) -> None:
        sheet, wait = self.tagging.sheet, self.tagging.wait()
        states = [line.outcome for line in sheet.lines]
        path = [
            PathStep(step_name(line.step), "now" if i == sheet.position else state)
            for i, (line, state) in enumerate(zip(sheet.lines, states, strict=True))
        ]
        is_running = self._session.state in ("opening", "running")
        hint = next_hint(sheet, wait) if is_running else ""
        self.foot.show_sheet(path, next_words(sheet), hint, is_time=is_running and wait.is_over)

    def _show_following(self) -> None:
        self._row.show_following(self.chart.window_of_time)
