"""Texts for people go through here, so that Qt Linguist can give them in another language.

Write ``translate("Context", "Text with {name}").format(name=name)``: both as literals where it is called,
or the translator's tool does not find them. A text that is only named now and shown later is marked with
``QT_TRANSLATE_NOOP`` of QtCore.
"""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication

__all__ = ["translate"]


def translate(context: str, text: str) -> str:
    """Return `text` in the language of the window."""
    return QCoreApplication.translate(context, text)
