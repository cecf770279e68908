"""The page of a finished run: what it shows, how sure that is, and where the file lies."""

from __future__ import annotations

import threading
from collections.abc import Callable
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QKeySequence, QPaintEvent, QResizeEvent, QShortcut
from PySide6.QtWidgets import (
    QHBoxLayout,
    QVBoxLayout,
    QWidget,
)

from gui.chart.chart import Chart
from gui.chart_notes import findings_notes
from gui.findings.budget_view import BudgetView
from gui.findings.export_rows import ExportRows
from gui.findings.fit_view import GrowthView, TafelView
from gui.findings.headline_view import HeadlineView
from gui.findings.moment_desk import MomentDesk
from gui.findings.refused_changes import RefusedChanges
from gui.findings.renewal import Renewal
from gui.findings.result_view import ResultView
from gui.findings.tabbed_views import TabbedViews
from gui.findings.unkept import UnkeptChanges, changes_in_words
from gui.findings.window_choice import WindowChoice, choices_of, windows_of
from gui.findings.window_editor import WindowEditor
from gui.findings.window_handles import WindowHandles
from gui.findings_texts import (
    budget_rows,
    budget_sentence,
    headings,
)
from gui.header_words import named
from gui.job import Job
from gui.long_job import LongJob
from gui.message_words import message_sentence, message_words
from gui.moment_acts import MomentActs
from gui.notice_board import INFO_PASSES_S, LONG_INFO_PASSES_S
from gui.pages.page import HeaderWords, Page, PageHost
from gui.pages.page_scope import PageScope
from gui.pages.side_width import side_width, window_width
from gui.paper_picture import copy_picture, save_picture
from gui.picture_desk import PictureDesk
from gui.session import Finished, found_later
from gui.words import translate
from logger.channel_overview import overview_of
from logger.export.formats import Choices, export
from logger.export.picture import is_simulated
from logger.late_changes import late_changes
from logger.moment_edits import Changes
from logger.overview import Overview
from logger.progress import Cancelled, Progress
from logger.stored_overview import StoredOverview

if TYPE_CHECKING:
    from logger.analysis.growth_curve import GrowthCurve
    from logger.reanalysis import Reanalysis
    from logger.recording import Recording

__all__ = ["FindingsPage"]

WIDTH, NARROW_WIDTH, WIDEST = 404, 370, 500
NARROW = 800
CURVE_FIRST_S = 0.5
"""How long the findings of a long run wait at most for its curve to be painted: a page may stay hidden."""
ENTRY_INDENT = 22
"""Pixels by which the field for words stands under the voltages of the curve."""


class FindingsPage(Page):
    """Shows one `Finished`: the curve on the left, figures and what lies behind them on the right.

    Attributes
    ----------
    folder_wanted, cautions_wanted : emitted with nothing.
    """

    folder_wanted = Signal()
    cautions_wanted = Signal()

    def __init__(self, host: PageHost, finished: Finished, parent: QWidget | None = None) -> None:
        host = self._scope = PageScope(host)
        super().__init__(host, parent)
        self.finished = finished
        self.chart = Chart(host.theme)
        self.setFocusProxy(self.chart)
        self.handles = WindowHandles()
        self.chart.lay_over(self.handles)
        self.handles.show(False)
        self._choices: dict[str, WindowChoice] = {}
        self._tried: dict[str, WindowChoice] = {}
        self.moments = MomentDesk(host.theme, self.chart, finished.recording, self)
        self.pictures = PictureDesk(host, self.moments.acts, self)
        self._renewal = Renewal(host, self.moments.keeper, lambda: self.finished.recording, self._take)
        self._unkept_words = UnkeptChanges(host.settings)
        self._refused = RefusedChanges(host, self.moments.make_again)
        self._refused_before = Changes()
        self._make_parts()
        self._build()
        self._connect()
        self._told_trouble = ""
        self._is_seen = threading.Event()
        self._finding: LongJob[Finished] | None = None
        """Works out the findings of a long run; None as well where closing the page gave them up."""
        self._waiting: list[Callable[[], None]] = []
        """Called once what `_find_later` works out is there, or is not to come."""
        self._show_recording()
        self._show()
        if finished.is_pending:
            self._find_later()

    # ------------------------------------------------------------ layout

    def _make_parts(self) -> None:
        theme = self.host.theme
        self.headline = HeadlineView()
        self.result = ResultView(lambda: self.finished.as_exported)
        self.budget = BudgetView(theme)
        self.growth, self.tafel = GrowthView(theme), TafelView(theme)
        self.windows = WindowEditor()
        self.exports = ExportRows(self.host)
        self.views = TabbedViews()
        for name, words, view in (
            ("result", translate("Findings", "Result"), self.result),
            ("budget", translate("Findings", "How sure"), self.budget),
            ("growth", translate("Findings", "Growth"), self.growth),
            ("tafel", translate("Findings", "Tafel"), self.tafel),
            ("windows", translate("Findings", "Stretches"), self.windows),
            ("moments", translate("Findings", "Moments"), self.moments.pane),
        ):
            self.views.add(name, words, view)

    def _build(self) -> None:
        column = QVBoxLayout()
        column.setContentsMargins(0, 12, 0, 0)
        column.setSpacing(10)
        column.addWidget(self.headline)
        column.addWidget(self.views, 1)
        column.addWidget(self.exports)
        side = self._side = QWidget()
        side.setLayout(column)
        side.setFixedWidth(WIDTH)
        whole = self._whole = QVBoxLayout(self)
        whole.setContentsMargins(6, 12, 14, 12)
        whole.setSpacing(6)
        middle = QHBoxLayout()
        middle.setSpacing(22)
        left = self._left = QVBoxLayout()
        left.setSpacing(6)
        left.addWidget(self.chart, 1)
        bars = self.bar_place = QVBoxLayout()
        bars.setContentsMargins(ENTRY_INDENT, 0, 0, 0)
        left.addLayout(bars)
        below = QHBoxLayout()
        below.setContentsMargins(ENTRY_INDENT, 0, 0, 0)
        below.addWidget(self.moments.entry)
        left.addLayout(below)
        self._below = bars, below
        middle.addLayout(left, 1)
        middle.addWidget(side)
        whole.addLayout(middle, 1)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Leave the curve its share of a small window."""
        super().resizeEvent(event)
        is_narrow = window_width(self) < NARROW
        width = NARROW_WIDTH if is_narrow else side_width(self.width(), WIDTH, WIDEST)
        self._side.setFixedWidth(width)
        column = self._whole if is_narrow else self._left  # words stand, and are typed, across a narrow page
        if column.indexOf(self._below[0]) < 0:
            for part in self._below:
                part.setParent(None)
                column.addLayout(part)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Note that the curve is there, once what lies on the page has been painted, too."""
        super().paintEvent(event)
        if not self._is_seen.is_set():
            QTimer.singleShot(0, self._is_seen.set)

    def _connect(self) -> None:
        self.result.copy_wanted.connect(self.copy_picture)
        self.result.export_menu.chosen.connect(self.export_to)
        self.result.folder_wanted.connect(self.folder_wanted)
        self.result.cautions_wanted.connect(self.cautions_wanted)
        self.result.warning_list.page_wanted.connect(self.host.show_page)
        # Elsewhere the picture stays calm.
        self.views.chosen.connect(lambda name: self.handles.show(name == "windows"))
        self.handles.dropped.connect(self._dropped)
        self.windows.chosen.connect(self._choose)
        self.windows.taken_back.connect(lambda: self._find_again({}))
        self.moments.acts.changed.connect(self._follow_moments)
        self.moments.pictures_wanted.connect(self.pictures.open)
        self.moments.pictures_left.connect(self._tell_left)
        self.moments.refused.connect(lambda why: self.host.tell("moment", "warning", message_sentence(why)))
        self.moments.taken.connect(self._forget_refused_words)
        copy = QShortcut(QKeySequence(QKeySequence.StandardKey.Copy), self.chart)
        copy.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        copy.activated.connect(self.copy_picture)

    # ------------------------------------------------------------ showing

    def _show_recording(self) -> None:
        recording = self.finished.recording
        channel, self._overview = recording.channel("cell_voltage"), self.finished.overview or Overview()
        if channel is not None and self.finished.overview is None:
            self._overview = overview_of(channel, recording.gaps, prepared=False)
        self.chart.show_overview(self._overview, is_live=False)

    def _show(self) -> None:
        recording, findings = self.finished.recording, self.finished.findings
        self._show_moments()
        self.headline.show_finished(self.finished)
        self.chart.reading.describe(f"{headings(recording)[0]}. {self.headline.spoken}.")
        self.result.show_finished(self.finished)
        self.budget.show_rows(budget_rows(findings), budget_sentence(findings))
        self.growth.show_growth(findings, None)
        self._show_growth()
        self.tafel.show_tafel(findings)
        self.views.offer("tafel", bool(findings.get("tafel")))
        self._choices = choices_of(findings, recording.duration_s, self._tried)
        self.windows.show_choices(self._choices)
        self.views.offer("windows", bool(self._choices))
        self.handles.show_choices(self._choices)

    def _show_moments(self) -> None:
        moments = self.moments.keeper.moments
        self.chart.show_notes(findings_notes(self.finished.recording, self.finished.findings, moments))
        self.moments.pane.list.show_moments(moments, self.moments.keeper.attachments)

    def _show_growth(self) -> None:
        """Average the growth off the window's thread: a run may hold many millions of readings."""
        finished = self.finished
        if finished.is_pending:
            return

        def tell(curve: GrowthCurve | None, _error: Exception | None) -> None:
            if self.finished is finished:
                self.growth.show_growth(finished.findings, curve)

        def average() -> GrowthCurve | None:
            from logger.analysis.growth_curve import growth_curve  # late: the window is to be there soon

            return growth_curve(finished.recording, finished.findings)

        self.host.do(Job(average, tell, "average the growth"))

    def _find_later(self) -> None:
        """Work out off the window's thread what a long run shows; its curve is there meanwhile."""
        pending, is_seen = self.finished, self._is_seen

        def tell(found: Finished | None, error: Exception | None) -> None:
            waiting, self._waiting = self._waiting, []
            for go_on in waiting:
                go_on()
            if self.finished is not pending:
                return  # a stretch or a moment was changed meanwhile, and all of it found anew
            trouble = message_sentence(str(error))
            if isinstance(error, Cancelled):
                trouble = translate("Findings", "The findings were not worked out, since that was ended.")
            self.finished = found or replace(pending, is_pending=False, trouble=trouble)
            self._show()

        def find(progress: Progress) -> Finished:
            is_seen.wait(CURVE_FIRST_S)  # what follows keeps every core busy
            return found_later(pending, progress)

        words = translate("Findings", "Analysing {name}").format(name=pending.recording.path.name)
        self._finding = LongJob(self.host, words, find, tell, "find later")
        self.host.do(self._finding)

    def _tell_trouble(self) -> None:
        """Say once why the curve of a long run cannot be drawn."""
        if isinstance(self._overview, StoredOverview) and self._overview.trouble != self._told_trouble:
            self._told_trouble = self._overview.trouble
            self.host.tell("curve", "warning", message_sentence(self._told_trouble))

    def frame(self) -> None:
        """Draw what is new; called once a frame."""
        self._tell_trouble()
        self.chart.refresh(self.finished.recording.duration_s)
        self.exports.frame()

    # ------------------------------------------------------------ changed by hand

    @property
    def acts(self) -> MomentActs:
        """What is done to the moments, and can be undone."""
        return self.moments.acts

    def open_pictures(self) -> None:
        """Show the pictures of the chosen moment, or the moments to choose one."""
        chosen = self.moments.pane.list.chosen_id
        if chosen is not None:
            self.pictures.open(chosen)
        else:
            self.views.tabs["moments"].click()

    def undo(self) -> None:
        """Undo the last change of a moment."""
        self.moments.undo()

    def redo(self) -> None:
        """Do once more what was undone."""
        self.moments.redo()

    def keep_changes(self) -> Job[None]:
        """Keep what was changed and is not in the file yet, with words being typed: the window goes.

        Returns what has to be waited for.
        """
        self.moments.entry.settle()
        words, why = self.moments.refused_words
        if words:  # their field goes with the window
            path = self.finished.recording.path.absolute()
            self._unkept_words.note(path, changes_in_words(words), why)
        return self._renewal.finish()

    def note_late_keeping(self) -> None:
        """Have the next start tell that what `keep_changes` keeps may be missing: nobody waits any longer."""
        self._renewal.note_late()

    def begin_to_close(self) -> bool:
        """Keep words being typed, and give up findings that nobody will see. False: the words are refused.

        The page may be closed once it `is_at_rest`.
        """
        self.moments.entry.settle()
        if self.moments.entry.is_open:
            return False
        self._refused_before, _why = self._refused.waiting
        if self._finding is not None and not self._waiting and not self._renewal.is_busy:
            self._finding.cancel()
            self._finding = None
        return True

    @property
    def is_at_rest(self) -> bool:
        """Tell whether nothing is typed, kept, found or written that a person would miss."""
        is_in_hand = self.moments.entry.is_open or self.pictures.view is not None
        return not is_in_hand and not self._renewal.is_busy and self._scope.is_at_rest

    @property
    def was_refused_since(self) -> bool:
        """Tell whether changes were refused since `begin_to_close`: so far only their bar says so."""
        changes, _why = self._refused.waiting
        return bool(changes) and changes is not self._refused_before

    def close_for_good(self) -> None:
        """Take away what leads to the page, which goes; the next start tells what could not be kept."""
        changes, why = self._refused.waiting
        if changes:
            path = self.finished.recording.path.absolute()
            late = late_changes(changes)
            uuid = self.finished.recording.uuid
            self._unkept_words.note(path, changes_in_words(changes), why, uuid, late)
        self._scope.take_bars_away()

    def is_of(self, recording: Recording) -> bool:
        """Tell whether `recording`, read from its file just now, is the one of this page."""
        shown = self.finished.recording
        return shown.uuid == recording.uuid and shown.path.resolve() == recording.path.resolve()

    def follow_file(self, finished: Finished) -> None:
        """Take the recording as it was read from its file just now, where others have changed it since.

        What is being changed here stays: it is kept in the file, and the next opening finds both.
        """
        has_findings = self.finished.findings or (self.finished.is_pending and self._finding is not None)
        is_current = bool(has_findings) and not self.moments.keeper.is_behind(finished.recording)
        if is_current or self._renewal.is_busy or self.moments.entry.is_open:
            return
        self.finished, self._tried = finished, {}
        self.moments.start_again(finished.recording)
        self._show_recording()
        self._show()
        if finished.is_pending:
            self._find_later()

    def _follow_moments(self) -> None:
        self._show_moments()
        self._find_again(self._choices)

    def _forget_refused_words(self) -> None:
        self.host.untell("moment")
        self._unkept_words.forget()

    def _dropped(self, name: str) -> None:
        self._choose(name, self.handles.choices[name])

    def _choose(self, name: str, choice: WindowChoice) -> None:
        self._find_again({**self._choices, name: choice})

    def _find_again(self, choices: dict[str, WindowChoice]) -> None:
        """Have the recording analysed with those of the stretches that were chosen by hand."""
        self._tried = {name: one for name, one in choices.items() if one.by_hand}
        self.headline.show_outdated()
        self._renewal.ask(windows_of(self._tried))

    def _take(self, found: Reanalysis | None, error: Exception | None, lost: Changes) -> None:
        """Show what was found again; where nothing was, what the file holds."""
        if lost:
            self.moments.start_again(self.finished.recording)
            self._refused.tell(lost, message_sentence(str(error)), self.finished.recording)
        if found is None:
            if not lost and not isinstance(error, Cancelled):
                self.host.tell("findings", "warning", message_sentence(str(error)))
            self._show()
            return
        self.finished = Finished(found.recording, found.findings, found.trouble)
        self._refused.leave_out(self.moments.keeper.is_changed)
        self._show()
        if found.not_kept is not None:
            text = translate("Findings", "The findings are not kept in the file: {why}.")
            said = text.format(why=message_words(found.not_kept).removesuffix("."))
            self.host.tell("findings", "info", said, passes_after_s=LONG_INFO_PASSES_S)

    def _tell_left(self, count: int) -> None:
        one = translate("Findings", "The moment is gone; its picture stays in the recording.")
        many = translate("Findings", "The moment is gone; its {count} pictures stay in the recording.")
        undo = translate("Findings", "To remove them, too: undo, remove the pictures, then the moment.")
        self.host.tell("moment", "info", f"{one if count == 1 else many.format(count=count)} {undo}")

    def header_words(self) -> HeaderWords:
        """The recording's title, and what was measured on."""
        recording = self.finished.recording
        began = recording.start_time if recording.has_known_start else ""
        title = named(recording.title, recording.path, began)
        simulated = is_simulated(recording.channel("cell_voltage"))
        return HeaderWords(title, headings(recording), simulated)

    # ------------------------------------------------------------ picture and export

    def save_picture(self) -> None:
        """Save the picture for paper beside the recording."""
        self._with_findings(lambda: save_picture(self.host, self.finished))

    def copy_picture(self) -> None:
        """Put the picture for paper into the clipboard."""
        self._with_findings(lambda: copy_picture(self.host, self.finished))

    def export_to(self, out: Path, choices: Choices | None = None) -> None:
        """Write the recording as `out`, over what is there only where the user has agreed to that."""
        self._with_findings(lambda: self._begin_export(out, choices or Choices()))

    def _begin_export(self, out: Path, choices: Choices) -> None:
        recording = self.finished.as_exported

        def write(progress: Progress) -> list[Path]:
            return export(lambda: replace(recording), out, choices, progress)

        self.exports.begin(out, write)

    def _with_findings(self, act: Callable[[], None]) -> None:
        """Have `act` take the moments as they stand on the page, with the findings of the last change."""
        self.moments.entry.settle()
        if self._is_finding and self.finished.recording.stays_in_file:  # of others it takes no time
            text = translate("Findings", "That follows as soon as the findings are there.")
            self.host.tell("follows", "info", text, passes_after_s=INFO_PASSES_S)
        self._once_found(act)

    @property
    def _is_finding(self) -> bool:
        return self._renewal.is_busy or self.finished.is_pending

    def _once_found(self, act: Callable[[], None]) -> None:
        """Call `act` once nothing is found any more; after a refused change something may be still."""
        if not self._is_finding:
            act()
            return
        is_over = threading.Event()
        go_on = partial(self._once_found, act)
        # A job, so that a window that is closed meanwhile asks, as it does while something is written.
        self.host.do(Job(is_over.wait, lambda _found, _error: go_on(), "wait for the findings", is_over.set))
        if self._renewal.is_busy:
            self._renewal.afterwards(is_over.set)
        else:
            self._waiting.append(is_over.set)
