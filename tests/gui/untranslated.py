"""Which texts of a window are still worded as in the sources although there is a translation."""

from __future__ import annotations

import functools
import re
from collections.abc import Iterator
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
from gui.message_words import _Wording

LEAST_LETTERS = 4
"""A wording of fewer letters of its own would be found in any text."""


def untranslated(root: QWidget, language: str) -> list[str]:
    """Return what is shown or read aloud in English, one text a line."""
    found = []
    for one in [root, *root.findChildren(QWidget)]:
        if one.isVisible():
            found += [f"{type(one).__name__}: {text}" for text in _texts(one) if _is_english(text, language)]
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
def _english(language: str) -> tuple[_Wording, ...]:
    """Return the wordings that read otherwise in the language."""
    texts = {
        message.findtext("source") or ""
        for message in ElementTree.parse(FOLDER / f"galvanote_{language}.ts").iter("message")
        if message.findtext("source") != message.findtext("translation")
    }
    return tuple(
        _Wording(text) for text in texts if len(re.findall(r"[a-zA-Z]", _own(text))) >= LEAST_LETTERS
    )


def _own(text: str) -> str:
    return re.sub(r"\{[^}]*\}", "", text)
