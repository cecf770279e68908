"""Every text has its translation, with the same places, marks and keys, and the program loads it."""

from __future__ import annotations

import re
import string
import subprocess
import sys
from collections import Counter
from pathlib import Path
from xml.etree import ElementTree

import pytest

from gui.help import TOPICS
from gui.language import FOLDER, TRANSLATED
from gui.translations.lower_texts import templates_of
from gui.translations.update import LIST, list_source, missing_of, release

ROOT = Path(__file__).parents[2]
COMMAND = "python -m gui.translations.update"
HELP = ROOT / "gui" / "help"
KEYS = {"Strg": "Ctrl", "Umschalt": "Shift"}


def listing(language: str) -> Path:
    return FOLDER / f"galvanote_{language}.ts"


def texts(language: str) -> list[tuple[str, ...]]:
    """Return context, text and translation of every entry."""
    return [
        (
            context.findtext("name") or "",
            message.findtext("source") or "",
            message.findtext("translation") or "",
        )
        for context in ElementTree.parse(listing(language)).iter("context")
        for message in context.iter("message")
    ]


def places(text: str) -> Counter[str]:
    return Counter(name for _, name, _, _ in string.Formatter().parse(text) if name is not None)


def test_the_list_of_the_lower_floors_is_that_of_their_sources() -> None:
    present, due = set(LIST.read_text("utf-8").splitlines()), set(list_source().splitlines())
    assert not due - present, f"to be listed, by {COMMAND}: {sorted(due - present)}"
    assert not present - due, f"no longer in the sources; {COMMAND} removes: {sorted(present - due)}"


@pytest.mark.parametrize("language", TRANSLATED)
def test_every_text_is_in_the_file_and_translated(language: str, tmp_path: Path) -> None:
    """Qt's own lupdate says which texts there are."""
    fresh = tmp_path / listing(language).name
    sources = sorted((ROOT / "gui").rglob("*.py"))
    tool = Path(sys.executable).with_name("pyside6-lupdate")
    subprocess.run([tool, *sources, "-silent", "-ts", fresh], check=True, timeout=120)
    wanted = set(missing_of(fresh))
    assert len(wanted) > 1500
    kept = {(context, text) for context, text, _ in texts(language)}
    assert not wanted - kept, f"{COMMAND} enters these, then translate them: {sorted(wanted - kept)}"
    assert not kept - wanted, f"no longer used; {COMMAND} removes: {sorted(kept - wanted)}"
    missing = missing_of(listing(language))
    assert not missing, f"translate in {listing(language)}, then {COMMAND}: {missing}"


@pytest.mark.parametrize("language", TRANSLATED)
def test_the_program_loads_what_stands_in_the_file(language: str, tmp_path: Path) -> None:
    made = tmp_path / "made.qm"
    release(listing(language), made)
    kept = listing(language).with_suffix(".qm")
    assert kept.read_bytes() == made.read_bytes(), f"{kept} is out of date; {COMMAND} makes it anew"


@pytest.mark.parametrize("language", TRANSLATED)
def test_translations_keep_places_marks_and_keys(language: str) -> None:
    for _, text, translation in texts(language):
        shown = (text, translation)
        assert places(text) == places(translation), shown
        assert re.findall(r"<[^>]+>", text) == re.findall(r"<[^>]+>", translation), shown
        assert text.count("&") == translation.count("&"), shown
        assert (text[:1].isspace(), text[-1:].isspace()) == (
            translation[:1].isspace(),
            translation[-1:].isspace(),
        ), shown
        assert text.endswith("…") == translation.endswith("…"), shown
        assert text.endswith(":") == translation.endswith(":"), shown
        assert text.count("\u00a0") == translation.count("\u00a0"), shown
        for foreign, own in KEYS.items():
            translation = translation.replace(f"{foreign}+", f"{own}+")
        pressed = r"\b(?:Ctrl|Shift)\+\w+|\(([A-Z]|Esc)\)|F\d+"
        assert re.findall(pressed, text) == re.findall(pressed, translation), shown


@pytest.mark.parametrize("language", TRANSLATED)
def test_what_is_typed_elsewhere_is_not_translated(language: str) -> None:
    """Commands, keys of files and addresses are the same in every language."""
    commands = "sources|record|recover|check|analyse|calibrate|moment"
    typed = (
        rf"galvanote (?:{commands})\b|--[a-z-]+|\b[a-z]+_[a-zA-Z_]+\b(?![^{{]*\}})|\[\[?[a-z]+\]\]?|\b\w+="
    )
    for context, text, translation in texts(language):
        if context == "Messages":
            for word in re.findall(typed, text):
                assert word in translation, (word, text, translation)


@pytest.mark.parametrize("language", TRANSLATED)
def test_the_language_names_the_folder_of_its_help(language: str) -> None:
    folders = {
        translation for context, text, translation in texts(language) if (context, text) == ("Help", "en")
    }
    assert folders == {language}


@pytest.mark.parametrize("language", TRANSLATED)
def test_the_help_says_the_same_in_every_language(language: str) -> None:
    """As many headings, lines, steps and links, to the same topics, and the same pictures."""
    for topic in TOPICS:
        english = HELP / "en" / f"{topic}.html"
        if not english.exists():  # made from the program itself
            continue
        own = (HELP / language / f"{topic}.html").read_text("utf-8")
        for mark in ("<h1", "<h2", "<tr", "<li", "<p>", 'class="key"'):
            assert own.count(mark) == english.read_text("utf-8").count(mark), (topic, mark)
        for links in (r'href="([^"]+)"', r"<img [^>]+>"):
            assert re.findall(links, own) == re.findall(links, english.read_text("utf-8")), topic


def test_a_text_of_the_lower_floors_is_found_with_its_places() -> None:
    source = '''
"""No text for a person."""
import re
PATTERN = re.compile("not this one")
def tell(port, count):
    log.info("nor this line of the log")
    assert port, "nor this one"
    raise ValueError(f"{port} gave {count:d} {'bytes' if count != 1 else 'byte'} more; see {self.name!r}")
'''
    assert list(templates_of(source)) == [
        "{port} gave {count} bytes more; see {name}",
        "{port} gave {count} byte more; see {name}",
    ]


def test_a_text_that_shows_what_to_write_is_found() -> None:
    """An example of an address is no reason to leave the sentence in English."""
    source = 'why = f"several columns may be it ({named}). Write for example column={example}; see there."'
    assert list(templates_of(source)) == [
        "several columns may be it ({named}). Write for example column={example}; see there."
    ]
