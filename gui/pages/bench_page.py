"""The bench: where readings come from, what stands on the table, and what follows from it."""

from __future__ import annotations

import contextlib
from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial
from itertools import pairwise
from pathlib import Path

from PySide6.QtGui import QHideEvent, QResizeEvent
from PySide6.QtWidgets import (
    QFileDialog,
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QVBoxLayout,
    QWidget,
)

from gui.bench.consequences import Consequences
from gui.bench.field_texts import field_texts, section_texts
from gui.bench.kept_bench import KeptBench
from gui.bench.quantity_field import QuantityField
from gui.bench.recordings_place import RecordingsPlace
from gui.bench.sources_panel import SourcesPanel
from gui.card_style import card_style
from gui.demo import demo_bench, holds_invented, lesson_bench
from gui.job import Job
from gui.message_words import message_sentence
from gui.missing_folder import tell_missing_folder
from gui.notice_board import INFO_PASSES_S, LONG_INFO_PASSES_S
from gui.pages.page import HeaderWords, Page, PageHost
from gui.pages.side_width import side_width
from gui.recordings_folder import FolderMissing, new_recording, recordings_folder
from gui.session import Plan
from gui.tips import tip
from gui.widgets.scroll_pane import scroll_pane
from gui.widgets.text_button import text_button
from gui.widgets.text_label import text_label
from gui.words import translate
from logger.analysis.refusal import Refused
from logger.analysis.supply_plan import plan_supply
from logger.bench import read_bench
from logger.bench_form import FIELDS, BenchForm, Field
from logger.bench_tables import Bench
from logger.bench_toml import Key
from logger.errors import BenchError, LoggerError
from logger.source_form import SourceForm, SourceFormError
from logger.source_probe import SourceProbe

__all__ = ["BenchPage"]

SIDE_WIDTH, SIDE_WIDEST = 392, 460
FORM_WIDTH = 940
"""Of one column of fields at most: a field further from its name is taken for another one's."""
BESIDE_FROM, TWO_FORMS_FROM = 1060, 1700
"""Widths of the page from which what follows stands beside the form, and the form in two columns."""
BETWEEN_FORMS = 32
ROOM_BELOW = 10
PROBE_LIMIT_S = 6.0
FIRST_ADDRESS = "cell:demo"


class BenchPage(Page):
    """Sources and form on the left, what follows on the right."""

    def __init__(self, host: PageHost, parent: QWidget | None = None) -> None:
        super().__init__(host, parent)
        self.form = BenchForm()
        self.fields: dict[Key, QuantityField] = {}
        self.sources = SourcesPanel(host)
        self.consequences = Consequences()
        self._has_begun = False
        self._marked: QuantityField | None = None
        self._kept = KeptBench(host.settings)
        self._build()
        host.theme.changed.connect(self._recolour)
        self._recolour()

    # ------------------------------------------------------------ layout

    def _build(self) -> None:
        form = QWidget()
        columns = self._columns = QHBoxLayout(form)
        columns.setContentsMargins(0, 4, 18, 8)
        self._column, self._second = _column(), _column()
        for column in (self._column, self._second):
            columns.addLayout(column, 1)
            column.addStretch(1)
        for widget in (self._head(), _heading(translate("Bench", "Where readings come from")), self.sources):
            _add(self._column, widget)
        self._sections = {section: self._section(section) for section in section_texts()}
        _add(self._column, self._sections["supply"])
        row = QHBoxLayout(self)
        row.setContentsMargins(28, 14, 14, 10)
        row.setSpacing(20)
        self._pane = scroll_pane(form, translate("Bench", "Sources and form"), keeps_width=True)
        row.addWidget(self._pane, 1)
        self._side = scroll_pane(QWidget(), translate("Bench", "What follows"))
        row.addWidget(self._side)
        row.addStretch()  # a wide screen has its room at the end, not between field and consequence
        self._lay_out(beside=True, in_two=False)
        self.sources.changed.connect(self._order_keys)

    def _lay_out(self, *, beside: bool, in_two: bool) -> None:
        """Put what follows beside the form, or below its supply where there is no room.

        On a large screen the form is in two columns of about one height: what is connected and what is
        awaited, then what stands there. The keys go down one column, then down the other.
        """
        self._laid_out = beside, in_two
        self._in_second = ("cell", "meter") if in_two else ()
        self._side.setVisible(beside)
        if beside:
            self._side.setWidget(self.consequences)
        else:
            self._side.takeWidget()
            self._column.insertWidget(self._column.indexOf(self._sections["supply"]) + 1, self.consequences)
        self.consequences.show()
        for name in ("cell", "meter", "settling"):
            self._column.removeWidget(self._sections[name])
            self._second.removeWidget(self._sections[name])
            _add(self._second if name in self._in_second else self._column, self._sections[name])
        self._order_keys()
        # An empty column, too, would take its share, and room between.
        self._columns.setStretch(1, 1 if in_two else 0)
        self._columns.setSpacing(BETWEEN_FORMS if in_two else 0)
        self._pane.setMaximumWidth(2 * FORM_WIDTH if in_two else FORM_WIDTH)

    def _order_keys(self) -> None:
        """Lead the Tab key through what stands on the page in order, also where it came later."""
        in_sections = (field for field in FIELDS if field.section)
        ordered = sorted(in_sections, key=lambda field: field.section in self._in_second)
        in_form = (stop for field in ordered for stop in self.fields[field.path].stops)
        for former, following in pairwise((self.place.choose, *self.sources.stops, *in_form)):
            QWidget.setTabOrder(former, following)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Look for how many columns there is room."""
        super().resizeEvent(event)
        width = self.width()
        self._side.setFixedWidth(side_width(width, SIDE_WIDTH, SIDE_WIDEST))
        wanted = width >= BESIDE_FROM, width >= TWO_FORMS_FROM
        if wanted != self._laid_out:
            self._lay_out(beside=wanted[0], in_two=wanted[1])

    def _head(self) -> QWidget:
        self.open = text_button(translate("Bench", "Open …"))
        self.save = text_button(translate("Bench", "Save"))
        self.save_as = text_button(translate("Bench", "Save as …"), "flat")
        self.record = text_button(translate("Bench", "Record with this bench"), "primary")
        self._file = text_label("", 12.5, look="quiet", wraps=True)
        self._file.setMinimumWidth(1)  # a path that has no place to break moves no button out of sight
        title = self._field(FIELDS[0])
        self.place = RecordingsPlace(self.host.settings)
        self.place.refused.connect(lambda why: self.host.tell("bench", "warning", why))
        buttons = QHBoxLayout()
        buttons.setSpacing(8)
        for button in (self.open, self.save, self.save_as):
            buttons.addWidget(button)
        buttons.addStretch(1)
        buttons.addWidget(self.record)
        head = QWidget()
        layout = QVBoxLayout(head)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(8)
        layout.addLayout(buttons)
        layout.addWidget(self._file)
        layout.addSpacing(8)
        layout.addWidget(title)
        layout.addWidget(self.place)
        self.open.clicked.connect(lambda _checked=False: self._ask_to_open())
        self.save.clicked.connect(lambda _checked=False: self._save(self.form.path))
        self.save_as.clicked.connect(lambda _checked=False: self._save(None))
        self.record.clicked.connect(lambda _checked=False: self._record())
        return head

    def _section(self, section: str) -> QWidget:
        """Return one table of the bench file: its heading, what it is for, and its fields on a card."""
        title, about = section_texts()[section]
        whole = QWidget()
        column = _column(whole)
        column.setContentsMargins(0, 6, 0, 0)
        column.addWidget(_heading(title))
        column.addWidget(text_label(about, 13, look="quiet", wraps=True))
        column.addWidget(self._card(section))
        return whole

    def _card(self, section: str) -> QWidget:
        frame = QFrame()
        frame.setProperty("look", "card")
        grid = QGridLayout(frame)
        grid.setContentsMargins(16, 12, 16, 12)
        grid.setHorizontalSpacing(24)
        grid.setVerticalSpacing(8)
        for column in (0, 1):
            grid.setColumnStretch(column, 1)
        fields = [field for field in FIELDS if field.section == section]
        for number, field in enumerate(fields):
            grid.addWidget(self._field(field), *divmod(number, 2))
        return frame

    def _field(self, field: Field) -> QuantityField:
        made = self.fields[field.path] = QuantityField(field, field_texts()[field.path])
        made.typed.connect(lambda text: self._typed(made, text))
        return made

    def _recolour(self) -> None:
        self.setStyleSheet(card_style(self.host.theme.colours))

    # ------------------------------------------------------------ what the window asks

    def take_keys(self) -> None:
        """Type the title first."""
        self.fields["", "title"].edit.setFocus()

    def entered(self) -> None:
        """Take over the bench and sources of the run at the first time; look which may be listened to."""
        if not self._has_begun:
            self._has_begun = True
            self._begin()
            self.sources.look_for_ports()
            self.sources.changed.connect(self._drop_invented)
        self._show_run()

    def _begin(self) -> None:
        """Show the bench of the run, or that of last time where nobody chose one."""
        plan = self.host.session.plan if self.host.session is not None else None
        is_chosen = plan is not None and plan.bench.source_text != demo_bench().source_text
        if not is_chosen and (form := self._kept.form) is not None:
            self._show_form(form)
            self._show_sources(self._kept.addresses)
            text = translate("Bench", "This is your bench of last time.")
            action = translate("Bench", "Show that of the simulated cell")
            self.host.tell(
                "last time", "info", text, ((action, self._show_invented),), passes_after_s=LONG_INFO_PASSES_S
            )
        elif plan is not None:
            self.show_bench(plan.bench)
            self._show_sources(plan.addresses)
        else:
            self.show_bench(Bench())
            self._show_sources((FIRST_ADDRESS,))
        self._drop_invented()

    def _show_invented(self) -> None:
        self.host.untell("last time")
        self._keep()  # what was typed over it meanwhile, too
        text = translate("Bench", "This is the bench of the simulated cell.")
        self._replace(BenchForm(demo_bench()), text, (FIRST_ADDRESS,))

    def _show_sources(self, addresses: Sequence[str]) -> None:
        self.sources.clear()
        for address in addresses:
            with contextlib.suppress(SourceFormError):  # kept by another version
                self.sources.add_source(SourceForm.of(address))

    def _keep(self) -> None:
        """Keep what was typed for the next start; of a bench with invented values nothing else."""
        form = self._without_invented() if self._holds_invented else self.form
        if form.is_changed or not self._holds_invented:
            self._kept.keep(form, [card.form.address for card in self.sources.cards if card.form.port])

    def frame(self) -> None:
        """Show what the sources send."""
        self.sources.frame()
        self._show_run()
        if self._marked is not None:  # what is wrong stands below its field, perhaps below the edge
            self._pane.ensureWidgetVisible(self._marked, 0, ROOM_BELOW)
            self._marked = None

    def hideEvent(self, event: QHideEvent) -> None:
        """Give every port back, keep what was typed, and leave no words about it over other pages."""
        self.sources.stop_listening()
        self.sources.forget_heard()
        if self._has_begun:
            self._keep()
        for key in ("heard", "another run", "last time", "forgotten"):
            self.host.untell(key)
        super().hideEvent(event)

    def take_files(self, paths: Sequence[Path]) -> bool:
        """Open a dropped bench file."""
        files = [path for path in paths if path.suffix == ".toml"]
        if files:
            self.open_bench(files[0])
        return bool(files)

    def header_words(self) -> HeaderWords:
        """The title and the file."""
        title = self.form.value(("", "title")) or translate("Bench", "Bench")
        return HeaderWords(str(title), (str(self.form.path or translate("Bench", "not saved yet")),))

    def _show_run(self) -> None:
        session = self.host.session
        is_running = session is not None and not session.is_over
        if not is_running:
            self.host.untell("another run")
        why = translate("Bench", "A run is being recorded; what is changed here counts for the next one.")
        self.record.setToolTip(why if is_running else "")
        self.sources.let_listen()

    # ------------------------------------------------------------ the form

    @property
    def _holds_invented(self) -> bool:
        return holds_invented(self.form.base)

    def _without_invented(self) -> BenchForm:
        """What was typed, also what was saved since, over the steps of the lesson."""
        return self.form.moved_to(lesson_bench(), since=demo_bench())

    def _drop_invented(self) -> None:
        """Take the values of the simulated cell off the bench when it goes; what was typed stays."""
        if not self._holds_invented or not self.sources.are_real:
            return
        self._show_form(self._without_invented())
        text = translate(
            "Bench",
            "The values of the simulated cell are off the bench. Give those of your own supply and cell.",
        )
        self.host.tell("invented", "info", text, passes_after_s=LONG_INFO_PASSES_S)

    def show_bench(self, bench: Bench) -> None:
        """Show a bench in the form."""
        self._show_form(BenchForm(bench))

    def _show_form(self, form: BenchForm) -> None:
        self.form = form
        for path, field in self.fields.items():
            field.show_value(self.form.value(path))
        self._show_file()
        self._show_consequences()

    def open_bench(self, path: Path) -> None:
        """Open a bench file; one that cannot be read is told, and the form stays."""
        try:
            form = BenchForm(read_bench(path))
        except BenchError as error:
            self.host.tell("bench", "warning", message_sentence(str(error)))
            return
        text = translate("Bench", "{file} is open. The changes to the bench before it are not saved.")
        self._replace(form, text.format(file=path.name))

    def _replace(self, form: BenchForm, text: str, addresses: Sequence[str] | None = None) -> None:
        """Show another form, with sources of its own where `addresses` are given.

        What cannot be had again otherwise can be brought back, and `text` says so: changes to the form
        before it, and a bench whose sources go with it.
        """
        former, former_addresses = self.form, None
        cannot_be_had = former.is_changed
        self._show_form(form)
        if addresses is not None:
            former_addresses = [card.form.address for card in self.sources.cards]
            cannot_be_had = cannot_be_had or not holds_invented(former.base)
            self._show_sources(addresses)
        self._drop_invented()
        self.host.untell("bench")
        if cannot_be_had:
            words = translate("Bench", "Bring that bench back")
            action = (words, partial(self._bring_back, former, former_addresses))
            self.host.tell("bench", "info", text, (action,))

    def _bring_back(self, form: BenchForm, addresses: Sequence[str] | None) -> None:
        text = translate("Bench", "The bench of before is back. The changes to the other one are not saved.")
        self._replace(form, text, addresses)

    def _typed(self, field: QuantityField, text: str) -> None:
        problem = self.form.type(field.field, text)
        field.show_problem(problem)
        self._marked = None if problem is None else field
        self._show_file()
        self._show_consequences()

    def _show_file(self) -> None:
        path = str(self.form.path) if self.form.path is not None else translate("Bench", "No file yet")
        if self.form.is_changed:
            path = translate("Bench", "{file}, changed").format(file=path)
        self._file.setText(path)
        self._file.setToolTip(tip(path))

    def _show_consequences(self) -> None:
        try:
            bench = self.form.bench()
        except BenchError as error:
            self.consequences.show_nothing(error.without_place)
            return
        supply = bench.supply
        if supply.resistor_ohm is None and supply.current_A is None:
            self.consequences.show_nothing(
                translate(
                    "Bench",
                    "Give the stack and the series resistor, or the held current.",
                )
            )
            return
        try:
            self.consequences.show_plan(plan_supply(bench))
        except Refused as refusal:
            self.consequences.show_nothing(str(refusal))

    def _ask_to_open(self) -> None:
        name, _filter = QFileDialog.getOpenFileName(
            self,
            translate("Bench", "Open a bench file"),
            str(self._folder()),
            translate("Bench", "Bench files (*.toml)"),
        )
        if name:
            self.open_bench(Path(name))

    def _folder(self) -> Path:
        """Where bench files are looked for: beside the present one, else beside the recordings."""
        path = self.form.path
        return recordings_folder(self.host.settings) if path is None else path.absolute().parent

    def save_own(self) -> bool:
        """Save the bench, as its button does."""
        self._save(self.form.path)
        return True

    def _save(self, path: Path | None) -> None:
        if path is None:
            name, _filter = QFileDialog.getSaveFileName(
                self,
                translate("Bench", "Save the bench"),
                str(self._folder() / (self.form.path or Path("bench.toml")).name),
                translate("Bench", "Bench files (*.toml)"),
            )
            if not name:
                return
            has_ending = name.endswith(".toml")
            path = Path(name if has_ending else f"{name}.toml")
            # The dialog asks about the name as typed; of the name with the ending nobody was asked.
            if not has_ending and path.exists():
                text = translate(
                    "Bench", "{file} is there already. To replace it, save it under its whole name."
                )
                self.host.tell("bench", "warning", text.format(file=path))
                return
        try:
            self.form.save(path)
        except LoggerError as error:
            self._refuse(error)
        else:
            text = translate("Bench", "Bench saved as {file}").format(file=path)
            self.host.tell("bench", "info", text, passes_after_s=INFO_PASSES_S)
        self._show_file()

    def _refuse(self, error: LoggerError) -> None:
        """Say what is wrong; of the form, without a line: it has fields."""
        text = error.without_place if isinstance(error, BenchError) else str(error)
        self.host.tell("bench", "warning", message_sentence(text))

    # ------------------------------------------------------------ recording

    def _record(self) -> None:
        """Check everything, then begin; while a run goes on, offer to end and save it first."""
        plan = self._checked_plan()
        if plan is None:
            return
        session = self.host.session
        if session is None or session.is_over:
            self._give_ports_back(partial(self.host.begin, plan))
            return

        def save_and_begin() -> None:
            self.host.untell("another run")
            plan = self._checked_plan()  # with what was changed since it was offered
            if plan is not None:
                self._give_ports_back(partial(self.host.save_and_begin, plan))

        text = translate("Bench", "“{title}” is still being recorded. One run at a time: end and save it?")
        title = session.plan.title or translate("Bench", "A run")
        action = (translate("Bench", "Save it, then record with this bench"), save_and_begin)
        self.host.tell("another run", "info", text.format(title=title), (action,))

    def _checked_plan(self) -> Plan | None:
        """Return the plan of a run with what stands here; None where it cannot be, which is told."""
        try:
            if self.form.problems:
                raise BenchError(
                    translate("Bench", "A field of the bench is marked; mend or empty it first.")
                )
            bench = replace(self.form.bench(), path=self.form.path)
            addresses = self.sources.checked_addresses()
            out = new_recording(self.host.settings)
        except FolderMissing as error:
            tell_missing_folder(self.host, str(error), leads_to_bench=False)
            return None
        except LoggerError as error:
            self._refuse(error)
            return None
        self.host.untell("bench")
        self._keep()
        return Plan(addresses, out, bench, bench.title or "")

    def _give_ports_back(self, begin: Callable[[], None]) -> None:
        """Stop listening, then `begin`: a port can be opened only once."""
        ending = self.sources.stop_listening()

        def tell(all_ended: bool | None, _error: Exception | None) -> None:
            if all_ended:
                begin()
            else:
                text = translate("Bench", "A port is not given back yet. Wait a few seconds and try again.")
                self.host.tell("bench", "warning", text)

        self.host.do(Job(lambda: _all_ended(ending), tell, "give ports back"))


def _all_ended(probes: Sequence[SourceProbe]) -> bool:
    return all(probe.join(PROBE_LIMIT_S) for probe in probes)


def _column(parent: QWidget | None = None) -> QVBoxLayout:
    column = QVBoxLayout() if parent is None else QVBoxLayout(parent)
    column.setContentsMargins(0, 0, 0, 0)
    column.setSpacing(10)
    return column


def _add(column: QVBoxLayout, widget: QWidget) -> None:
    """Put it last, above the stretch that ends each column."""
    column.insertWidget(column.count() - 1, widget)


def _heading(text: str) -> QLabel:
    return text_label(text, 17, weight="semibold", wraps=True)
