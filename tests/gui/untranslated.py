"""Which texts of a window are still worded as in the sources although there is a translation."""

from __future__ import annotations

import functools
import re
from collections.abc import Collection, Iterator
from xml.etree import ElementTree

from PySide6.QtWidgets import (
    QAbstractButton,
    QComboBox,
    QLabel,
    QLineEdit,
    QTextBrowser,
    QWidget,
)

from gui.language import FOLDER
from gui.wording import Wording

LEAST_LETTERS = 4
"""A wording of fewer letters of its own would be found in any text."""


def untranslated(root: QWidget, language: str, of_the_user: Collection[str] = ()) -> list[str]:
    """Return what is shown or read aloud in English, one text a line; `of_the_user` may be as it is."""
    found = []
    for one in [root, *root.findChildren(QWidget)]:
        if one.isVisible():
            texts = (text for text in _texts(one) if text not in of_the_user)
            found += [f"{type(one).__name__}: {text}" for text in texts if _is_english(text, language)]
    return found


def _texts(one: QWidget) -> Iterator[str]:
    yield from (one.accessibleName(), one.accessibleDescription(), one.toolTip(), one.windowTitle())
    if isinstance(one, QLabel | QAbstractButton):
        yield one.text()
    elif isinstance(one, QLineEdit):
        yield one.placeholderText()
    elif isinstance(one, QComboBox):
        yield from (one.itemText(number) for number in range(one.count()))
    elif isinstance(one, QTextBrowser):
        yield from one.toPlainText().splitlines()


def _is_english(text: str, language: str) -> bool:
    return bool(text) and any(one.places_of(text) is not None for one in _english(language))


@functools.cache
def _english(language: str) -> tuple[Wording, ...]:
    """Return the wordings that read otherwise in the language."""
    texts = {
        message.findtext("source") or ""
        for message in ElementTree.parse(FOLDER / f"galvanote_{language}.ts").iter("message")
        if message.findtext("source") != message.findtext("translation")
    }
    letters = {text: sum(map(str.isalpha, _own(text))) for text in texts}
    return tuple(Wording(text) for text in texts if letters[text] >= LEAST_LETTERS)


def _own(text: str) -> str:
    return re.sub(r"\{[^}]*\}", "", text)
