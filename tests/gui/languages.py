"""The window in a language, for the length of a test."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from PySide6.QtCore import QLocale, QTranslator
from PySide6.QtWidgets import QApplication

from gui.language import load_language


@contextmanager
def speaking(application: QApplication, choice: str) -> Iterator[QLocale]:
    """Let the program speak a language, and no longer afterwards."""
    before, known = QLocale(), set(application.findChildren(QTranslator))
    try:
        yield load_language(application, choice)
    finally:
        for translator in set(application.findChildren(QTranslator)) - known:
            application.removeTranslator(translator)
            translator.deleteLater()
        QLocale.setDefault(before)
