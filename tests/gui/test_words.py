"""Every text of the window reaches the translator, and no language of the window reaches a file."""

from __future__ import annotations

import ast
import os
import string
import subprocess
import sys
from pathlib import Path
from xml.etree import ElementTree

import pytest

ROOT = Path(__file__).parents[2]
SOURCES = sorted((ROOT / "gui").rglob("*.py"))
MARKS = ("translate", "QT_TRANSLATE_NOOP")
CHOSEN_WHEN_SHOWN = {  # the texts are literals where they are named, with QT_TRANSLATE_NOOP
    "gui/demo.py",
    "gui/kind_words.py",
    "gui/live_texts.py",
    "gui/menu.py",
    "gui/message_words.py",
    "gui/widgets/header.py",
    "gui/words.py",
}
EXPORT = """
import sys
from pathlib import Path
from PySide6.QtCore import QLocale
from PySide6.QtWidgets import QApplication
from logger.export.formats import export
from logger.reader import read_recording
app = QApplication([])
print(QLocale().decimalPoint())
for ending in ("csv", "svg", "html"):
    export(lambda: read_recording(Path(sys.argv[1])), Path(sys.argv[2]) / f"run.{ending}")
"""


def marked_calls() -> list[tuple[str, list[ast.expr]]]:
    """Return (file, arguments) of each call that marks a text, read from the syntax tree."""
    return [
        (path.relative_to(ROOT).as_posix(), call.args)
        for path in SOURCES
        for call in ast.walk(ast.parse(path.read_text("utf-8")))
        if isinstance(call, ast.Call) and marks(call.func)
    ]


def marks(called: ast.expr) -> bool:
    """Tell whether a text is marked by what is called; a painter is shifted by a method of the same name."""
    if isinstance(called, ast.Attribute):
        return called.attr in MARKS and getattr(called.value, "id", "") != "painter"
    return getattr(called, "id", "") in MARKS


def literals(arguments: list[ast.expr]) -> tuple[str, str] | None:
    """Return context and text, or None where they are not both literals."""
    values = [a.value for a in arguments if isinstance(a, ast.Constant) and isinstance(a.value, str)]
    return (values[0], values[1]) if len(values) == len(arguments) == 2 else None


def test_texts_are_literals_where_they_are_marked() -> None:
    odd = {file for file, arguments in marked_calls() if literals(arguments) is None}
    assert odd == CHOSEN_WHEN_SHOWN


def test_the_translators_tool_finds_every_text(tmp_path: Path) -> None:
    """Qt's own lupdate is the outside reader: it overlooks, for one, what stands inside an f-string."""
    listing = tmp_path / "texts.ts"
    tool = Path(sys.executable).with_name("pyside6-lupdate")
    done = subprocess.run([tool, *SOURCES, "-ts", listing], capture_output=True, text=True, timeout=120)
    assert done.returncode == 0, done.stderr
    found = {
        (context.findtext("name"), message.findtext("source"))
        for context in ElementTree.parse(listing).iter("context")
        for message in context.iter("message")
    }
    written = {pair for _, arguments in marked_calls() if (pair := literals(arguments)) is not None}
    assert len(written) > 500
    assert found == written


def test_each_place_in_a_text_has_a_name_to_move_it_by() -> None:
    """Other languages order their words otherwise: an unnamed place could not move."""
    for file, arguments in marked_calls():
        if (pair := literals(arguments)) is not None:
            fields = [field for _, field, _, _ in string.Formatter().parse(pair[1]) if field is not None]
            assert all(field.isidentifier() for field in fields), (file, pair)


@pytest.fixture(scope="module")
def exported(tmp_path_factory: pytest.TempPathFactory) -> dict[str, tuple[str, dict[str, bytes]]]:
    """Return, for each language, Qt's decimal sign and the bytes of every exported file."""
    kept = {}
    recording = ROOT / "recordings" / "invented" / "good-lesson.h5"
    for language in ("C.UTF-8", "de_DE.UTF-8"):
        folder = tmp_path_factory.mktemp("out")
        environment = {k: v for k, v in os.environ.items() if k != "LANGUAGE" and not k.startswith("LC_")}
        environment |= {"LANG": language, "LC_ALL": language, "QT_QPA_PLATFORM": "offscreen"}
        command = [sys.executable, "-c", EXPORT, recording, folder]
        done = subprocess.run(
            command, env=environment, cwd=ROOT, capture_output=True, text=True, encoding="utf-8", timeout=150
        )
        assert done.returncode == 0, done.stderr
        kept[language] = (done.stdout.strip(), {p.name: p.read_bytes() for p in folder.iterdir()})
    return kept


def test_files_are_the_same_in_every_language(exported: dict[str, tuple[str, dict[str, bytes]]]) -> None:
    (point, plain), (comma, german) = exported["C.UTF-8"], exported["de_DE.UTF-8"]
    assert (point, comma) == (".", ","), "Qt did not take the language, so nothing was tried"
    assert plain.keys() == german.keys()
    assert {"run.csv", "run.svg", "run.html"} <= plain.keys()
    differing = [name for name in plain if plain[name] != german[name]]
    assert differing == []
