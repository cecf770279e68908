"""The help is there without a network, in the colours of the window, and says what is true."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from PySide6.QtCore import QSettings, Qt, QUrl
from PySide6.QtGui import QAction, QKeySequence, QTextTable
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from gui.fonts import WEIGHTS
from gui.help import TOPICS, topic_text
from gui.help.topics import drawing, topic_html, topic_names
from gui.pages.help_page import HelpPage
from gui.theme import DARK, LIGHT, Theme
from logger.cautions import CAUTIONS
from tests.gui.controls import assert_reachable_and_named
from tests.gui.languages import speaking
from tests.gui.page_host import FakeHost

FOLDER = Path(__file__).parents[2] / "gui" / "help"


@pytest.fixture
def host(qtbot: QtBot, theme: Theme, settings: QSettings) -> FakeHost:
    theme.choose("light")
    made = FakeHost(theme, settings)
    qtbot.addWidget(made)
    act = QAction("Stop and save", made)
    act.setShortcut(QKeySequence("Ctrl+E"))
    made.addAction(act)
    made.addAction(QAction("Tag a moment\tM", made))
    made.hold(HelpPage(made))
    return made


def page_of(host: FakeHost) -> HelpPage:
    assert isinstance(host.page, HelpPage)
    return host.page


def test_every_topic_is_offered_and_shown(host: FakeHost) -> None:
    page = page_of(host)
    assert list(topic_names()) == list(TOPICS)
    for number in range(page.topics.count()):
        page.topics.setCurrentRow(number)
        assert len(page.text.toPlainText()) > 200
    assert_reachable_and_named(page)


def test_bold_words_are_drawn_in_a_weight_that_is_shipped(host: FakeHost) -> None:
    """A heavier one would be smeared out of what is there, with letters that touch."""
    page = page_of(host)
    weights = set()
    block = page.text.document().begin()
    while block.isValid():
        weights |= {one.format.fontWeight() for one in block.textFormats()}
        block = block.next()
    assert weights <= {weight.value for weight in WEIGHTS.values()}
    assert WEIGHTS["semibold"].value in weights


def test_topics_change_by_the_keyboard_and_links_lead_between_them(host: FakeHost) -> None:
    page = page_of(host)
    first = page.text.toPlainText()
    QTest.keyClick(page.topics, Qt.Key.Key_Down)
    assert page.text.toPlainText() != first
    page.text.anchorClicked.emit(QUrl("topic:wiring"))
    assert "Fuse" in page.text.toPlainText()
    before = page.text.toPlainText()
    page.text.anchorClicked.emit(QUrl("https://example.org/"))  # nothing is fetched
    assert page.text.toPlainText() == before


def test_the_first_run_has_ten_steps() -> None:
    assert topic_text("first_run", "en").count("<li>") == 10


def test_in_a_narrow_window_names_stand_above_and_the_drawing_is_smaller(host: FakeHost) -> None:
    """The school laptop at 200 %: beside names in one piece texts had room for half a word a line."""
    page = page_of(host)
    host.resize(620, 320)
    page.resize(620, 320)
    page.show_topic("trouble")
    table = page.text.document().rootFrame().childFrames()[0]
    assert isinstance(table, QTextTable)
    assert table.columns() == 1
    page.show_topic("wiring")
    assert page.text.document().idealWidth() <= page.text.viewport().width()


def lines_of(page: HelpPage) -> list[str]:
    """The lines of paragraphs that go on in another line, as they are laid out."""
    found = []
    block = page.text.document().begin()
    while block.isValid():
        layout = block.layout()
        for number in range(layout.lineCount() - 1):
            line = layout.lineAt(number)
            found.append(block.text()[line.textStart() : line.textStart() + line.textLength()].strip())
        block = block.next()
    return found


@pytest.mark.parametrize("width", [1280, 1366, 1920, 2560])
def test_lines_are_as_long_as_is_good_to_read(host: FakeHost, width: int) -> None:
    """About 75 letters; the page beside them is not left empty for it: they are larger on a large screen."""
    page = page_of(host)
    host.resize(width, 800)
    page.resize(width, 800)
    for topic in ("first_run", "wiring", "cautions"):
        page.show_topic(topic)
        lengths = sorted(len(line) for line in lines_of(page))
        assert lengths
        assert 62 <= lengths[len(lengths) // 2] <= 82, topic
        assert lengths[-1] <= 95
    assert page.text.document().idealWidth() <= page.text.viewport().width()
    if width == 1920:
        assert page.text.font().pixelSize() == 20
        assert page.text.x() + page.text.width() > 0.7 * width
    assert page.topics.height() >= page.topics.count() * page.topics.sizeHintForRow(0)


@pytest.mark.parametrize("language", ["en", "de"])
def test_the_ten_steps_are_seen_at_once_on_a_large_screen(
    qtbot: QtBot, qapp: QApplication, theme: Theme, settings: QSettings, language: str
) -> None:
    """They are followed beside the bench, with gloves on; the letters stay as large as they were."""
    with speaking(qapp, language):
        host = FakeHost(theme, settings)
        qtbot.addWidget(host)
        page = HelpPage(host)
        host.hold(page)
        host.resize(1920, 1024)
        page.resize(1920, 1024)
        page.show_topic("first_run")
        assert page.text.font().pixelSize() == 20
        assert page.text.verticalScrollBar().maximum() == 0
        assert page.text.document().idealWidth() <= page.text.viewport().width()
        numbers = [int(n) for n in re.findall(r"\d+(?=\.\s)", numbered(page))]
        assert numbers == list(range(1, 11))
        page.show_topic("wiring")
        one_column = page.text.width()
        page.show_topic("first_run")
        assert page.text.width() > 1.5 * one_column
        host.resize(1366, 712)
        page.resize(1366, 712)
        assert page.text.width() == page.text.maximumWidth() < one_column


def numbered(page: HelpPage) -> str:
    """The numbers that stand before the steps, in the order of the text."""
    found = []
    block = page.text.document().begin()
    while block.isValid():
        steps = block.textList()
        if steps is not None:
            found.append(steps.itemText(block))
        block = block.next()
    return " ".join(found) + " "


def test_every_caution_is_there(host: FakeHost) -> None:
    page = page_of(host)
    page.show_topic("cautions")
    for title, text in CAUTIONS:
        assert title in page.text.toPlainText()
        assert text[:40] in page.text.toPlainText()
    assert "about 4\u00a0% hydrogen" in page.text.document().toRawText(), "number and sign in one line"


def test_the_keys_are_those_of_the_window(host: FakeHost) -> None:
    page = page_of(host)
    page.show_topic("keyboard")
    words = page.text.toPlainText()
    assert re.search(r"Ctrl\+E\s+Stop and save", words)
    assert re.search(r"M\s+Tag a moment", words)


def test_an_unknown_language_reads_english_and_unknown_topics_are_faults() -> None:
    assert topic_text("numbers", "xx") == topic_text("numbers", "en")
    with pytest.raises(FileNotFoundError):
        topic_text("nothing", "en")


@pytest.mark.parametrize("file", sorted(FOLDER.rglob("*.html")), ids=lambda f: f"{f.parent.name}/{f.name}")
def test_no_text_reaches_out_and_every_link_leads_somewhere(file: Path) -> None:
    text = file.read_text(encoding="utf-8")
    assert "http" not in text
    assert "<script" not in text
    for link in re.findall(r'href="([^"]*)"', text):
        assert link.removeprefix("topic:") in TOPICS
    for tag in ("p", "li", "ol", "ul", "table", "tr", "td", "b", "i", "h1", "h2"):
        assert len(re.findall(rf"<{tag}[ >]", text)) == text.count(f"</{tag}>"), tag


def test_words_in_quotes_of_buttons_are_those_of_the_program() -> None:
    """Bold words of the first run that name a control must occur in the source of the window."""
    source = "\n".join(p.read_text(encoding="utf-8") for p in FOLDER.parent.rglob("*.py"))
    for words in ("Listen", "Compare", "Record with this bench", "Stop and save", "Supply", "Save"):
        assert f"<b>{words}</b>" in topic_text("first_run", "en")
        assert f'"{words}"' in source, words


@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
@pytest.mark.usefixtures("qapp")
def test_the_drawing_is_in_the_colours_of_the_window(colours: object) -> None:
    image = drawing(colours, 1.0)  # type: ignore[arg-type]
    seen = {image.pixelColor(x, y).name() for x in range(image.width()) for y in range(image.height())}
    for name in ("paper", "ink", "settled"):
        assert getattr(colours, name) in seen


@pytest.mark.usefixtures("qapp")
def test_a_topic_takes_no_markup_from_the_names_of_actions() -> None:
    act = QAction("<b>&Stop</b>\tX")
    assert "&lt;b&gt;Stop" in topic_html("keyboard", [act])
