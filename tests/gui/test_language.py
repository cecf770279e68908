"""The window speaks the language of the system, or the one that was chosen, its numbers included."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QLocale, QSettings, Qt
from PySide6.QtGui import QAction
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDialogButtonBox
from pytestqt.qtbot import QtBot

from gui.bench.field_texts import field_texts
from gui.bench.quantity_field import QuantityField
from gui.demo import FILE, demo_bench, demo_plan, in_window_language
from gui.help import TOPICS
from gui.help.topics import topic_html
from gui.language import CHOICES, SETTING, language_of, language_words, locale_of, told_in
from gui.numbers import clock_text, count_text, day_and_time, plain, short, with_uncertainty
from gui.shelf.shelf_model import ShelfModel
from gui.theme import Theme
from gui.widgets.moment_entry import MomentEntry, MomentWords
from gui.widgets.sheet_editor import SheetEditor
from gui.window import Window
from logger.bench_form import FIELDS, BenchForm
from logger.bench_tables import Step
from logger.moments import Moment
from logger.run_sheet import RunSheet
from logger.shelf_entry import ShelfEntry
from tests.gui.languages import speaking

ROOT = Path(__file__).parents[2]
START = """
import sys
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QAbstractButton
from gui import app
from gui.window import Window
show = Window.show_at_start
def tell(window):
    show(window)
    window.header.resize(1400, 56)
    texts = [button.text() or button.accessibleName() for button in window.findChildren(QAbstractButton)]
    sys.stdout.write("\\n".join(texts) + "\\n")
    QTimer.singleShot(0, window.stop_and_quit)
Window.show_at_start = tell
sys.exit(app.main([sys.argv[1]]))
"""


@pytest.fixture
def german(qapp: QApplication) -> Iterator[None]:
    with speaking(qapp, "de"):
        yield


# ---------------------------------------------------------------- which language


def test_the_system_decides_unless_a_language_was_chosen() -> None:
    swiss, british, french = QLocale("de_CH"), QLocale("en_GB"), QLocale("fr_FR")
    assert locale_of("system", french) == french
    assert locale_of("de", french).name() == "de_DE"
    assert locale_of("en", french).language() == QLocale.Language.English
    assert locale_of("de", swiss) == swiss, "the country stays"
    assert locale_of("en", british) == british
    assert locale_of("tlh", french) == french, "a setting that nobody knows"


def test_texts_and_numbers_may_be_of_two_countries() -> None:
    class Mixed(QLocale):
        """As on a system with English texts and German numbers."""

        def uiLanguages(self, *_: object) -> list[str]:
            return ["en-GB", "en"]

    mixed = Mixed("de_DE")
    assert language_of("system", mixed) == "en"
    assert locale_of("system", mixed).decimalPoint() == ","
    assert language_of("de", mixed) == "de"
    assert language_of("tlh", QLocale("fr_FR")) == "fr"


@pytest.mark.parametrize(
    ("system", "chosen", "wanted"),
    [
        ("de_DE.UTF-8", "", "Menü"),
        ("de_DE.UTF-8", "en", "Menu"),
        ("C.UTF-8", "de", "Menü"),
        ("fr_FR.UTF-8", "", "Menu"),
    ],
)
def test_the_program_starts_in_the_language(system: str, chosen: str, wanted: str, tmp_path: Path) -> None:
    environment = {k: v for k, v in os.environ.items() if k != "LANGUAGE" and not k.startswith("LC_")}
    environment |= {"LANG": system, "QT_QPA_PLATFORM": "offscreen", "HOME": str(tmp_path)}
    environment |= {"XDG_CONFIG_HOME": str(tmp_path / "config"), "XDG_DATA_HOME": str(tmp_path / "data")}
    if chosen:
        kept = QSettings(str(tmp_path / "config/Galvanote/Galvanote.ini"), QSettings.Format.IniFormat)
        kept.setValue(SETTING, chosen)
        kept.sync()
    recording = ROOT / "recordings" / "invented" / "good-lesson.h5"
    done = subprocess.run(
        [sys.executable, "-c", START, str(recording)],
        env=environment,
        cwd=ROOT,
        capture_output=True,
        text=True,
        encoding="utf-8",
        timeout=120,
    )
    assert done.returncode == 0, done.stderr
    assert wanted in done.stdout.splitlines()


def test_the_choice_is_in_the_menu_and_kept(window: Window, settings: QSettings) -> None:
    menus = [action.menu() for action in window.menu.actions()]
    titled = {menu.title(): menu for menu in menus if menu is not None}  # type: ignore[attr-defined]
    languages = titled["Language · Sprache"]
    offered: list[QAction] = languages.actions()  # type: ignore[attr-defined]
    assert [action.text() for action in offered] == list(language_words().values())
    assert [action.isChecked() for action in offered] == [True, False, False]
    offered[CHOICES.index("de")].trigger()
    assert settings.value(SETTING) == "de"
    assert (
        window.bars.texts["language"] == told_in("de") == "Beim nächsten Start spricht das Fenster Deutsch."
    )
    assert "English" in told_in("en")


def test_qts_own_texts_are_german_too(german: None, qtbot: QtBot) -> None:
    box = QDialogButtonBox(QDialogButtonBox.StandardButton.Cancel)
    qtbot.addWidget(box)
    assert box.button(QDialogButtonBox.StandardButton.Cancel).text().replace("&", "") == "Abbrechen"


# ---------------------------------------------------------------- numbers, times, what is typed


def test_numbers_and_times_by_the_locale(german: None) -> None:
    assert plain(2.2514, 3, "V") == "2,251\u00a0V"
    assert with_uncertainty(254.6, 2.6, "mV") == "254,6 ± 2,6\u00a0mV"
    assert short(-0.25) == "−0,25"
    assert short(123456.7, 5, "mL") == "123460\u00a0mL"
    assert short(-2e8) == "−200000000"
    assert clock_text(285.54, 1) == "4:45,5"
    assert count_text(19200) == "19.200"
    assert day_and_time("2026-11-25T09:10:03+01:00") == "25.11.26, 09:10"
    assert day_and_time("no day") == ""


def test_numbers_in_english_are_as_the_logger_writes_them() -> None:
    assert plain(2.2514, 3, "V") == "2.251\u00a0V"
    assert day_and_time("2026-11-25T09:10:03+01:00") == "2026-11-25, 09:10"


def test_a_decimal_comma_typed_on_the_keys(german: None, qtbot: QtBot, tmp_path: Path) -> None:
    form = BenchForm()
    field = next(one for one in FIELDS if one.key == "stack_voltage_V")
    widget = QuantityField(field, field_texts()[field.path])
    qtbot.addWidget(widget)
    widget.typed.connect(lambda text: widget.show_problem(form.type(field, text)))
    assert widget.edit.placeholderText() == "27,4"
    QTest.keyClicks(widget.edit, "26,85")
    assert form.value(field.path) == 26.85
    form.save(tmp_path / "bench.toml")
    assert "stack_voltage_V = 26.85" in (tmp_path / "bench.toml").read_text("utf-8"), "files keep the point"
    widget.show_value(form.value(field.path))
    assert widget.edit.text() == "26,85"
    widget.edit.clear()
    QTest.keyClicks(widget.edit, "2.6")
    assert form.value(field.path) == 2.6, "the other sign counts as well"


def test_a_time_with_a_comma_is_taken(german: None, qtbot: QtBot, theme: Theme) -> None:
    entry = MomentEntry(theme)
    qtbot.addWidget(entry)
    kept: list[MomentWords] = []
    entry.kept.connect(kept.append)
    entry.open(Moment("1" * 32, 285.54, "note", "", "2026-11-25T09:10:03+01:00"), 1, edits_time=True)
    assert entry._time.text() == "4:45,5"
    entry._time.clear()
    QTest.keyClicks(entry._time, "5:00,5")
    QTest.keyClick(entry._time, Qt.Key.Key_Return)
    assert kept[0].time_s == 300.5


def test_the_wait_of_a_step_is_typed_in_the_language(german: None, window: Window) -> None:
    steps = [Step("buffer_in", "", None, True), Step("note", "", 90.0)]
    editor = SheetEditor(window.theme, lambda: RunSheet.of(steps), window)
    planned: list[tuple[Step, ...]] = []
    editor.planned.connect(planned.append)
    assert [line.hold.text() for line in editor._lines] == ["bis eingeschwungen", "90s"]
    editor._lines[1].hold.clear()
    QTest.keyClicks(editor._lines[1].hold, "Bis  eingeschwungen")
    editor._accept()
    assert [step.until_settled for step in planned[0]] == [True, True]


# ---------------------------------------------------------------- the demonstration, the help


def test_the_demonstration_is_in_the_language_and_its_values_are_the_same(qapp: QApplication) -> None:
    english = demo_bench()
    assert english.source_text == FILE.read_text("utf-8")
    plan = demo_plan(Path("a.h5"))
    with speaking(qapp, "de"):
        own = in_window_language(plan)
        assert own.title == "Simulierte Stunde"
    said = own.bench
    assert (said.supply, said.meter, said.settling) == (english.supply, english.meter, english.settling)
    assert [(s.kind, s.hold_s, s.until_settled) for s in said.steps] == [
        (s.kind, s.hold_s, s.until_settled) for s in english.steps
    ]
    for step, before in zip(said.steps, english.steps, strict=True):
        assert step.label != before.label, "a text of the bench file is not named for the translator"


def test_the_help_is_german(german: None) -> None:
    for topic in TOPICS:
        html = topic_html(topic)
        assert " the " not in html
        assert "ß" in html or "ü" in html


def test_the_shelf_is_searched_in_the_language(german: None) -> None:
    entry = ShelfEntry(
        Path("a.h5"), "finished", start_time="2026-11-25T09:10:03+01:00", labels="Salt added two drops"
    )
    model = ShelfModel()
    model.take(entry)
    for words, is_found in (("salz", True), ("25.11.26", True), ("Salt", True), ("eingetaucht", False)):
        model.search(words)
        assert model.rowCount() == int(is_found), words


SURVIVES = """
import shutil, sys
from pathlib import Path
from PySide6.QtCore import QCoreApplication
import gui.language
from gui.words import translate

folder = Path(sys.argv[1])
shutil.copytree(gui.language.FOLDER, folder / "translations")
gui.language.FOLDER = folder / "translations"
application = QCoreApplication([])
gui.language.load_language(application, "de")
with open(gui.language.FOLDER / "galvanote_de.qm", "r+b") as file:
    file.truncate(0)
print(translate("Menu", "Quit"))
"""


def test_the_program_outlives_its_translation_replaced_beneath_it(tmp_path: Path) -> None:
    """Qt maps a file given by name: a recording ended with a fault of the memory when it was written anew."""
    done = subprocess.run(
        [sys.executable, "-c", SURVIVES, str(tmp_path)], capture_output=True, text=True, timeout=120
    )
    assert done.returncode == 0, done.stderr
    assert done.stdout.strip() == "Beenden"
