"""The kinds of moment as they read in the window's language."""

from __future__ import annotations

from PySide6.QtCore import QT_TRANSLATE_NOOP

from gui.words import translate
from logger.moments import KINDS, Moment

__all__ = ["kind_words", "moment_words", "whole_words"]

_MARKED = (
    QT_TRANSLATE_NOOP("Kinds", "Dry cell"),
    QT_TRANSLATE_NOOP("Kinds", "Buffer in"),
    QT_TRANSLATE_NOOP("Kinds", "Stirring on"),
    QT_TRANSLATE_NOOP("Kinds", "Stirring off"),
    QT_TRANSLATE_NOOP("Kinds", "Electrodes out"),
    QT_TRANSLATE_NOOP("Kinds", "Electrodes in"),
    QT_TRANSLATE_NOOP("Kinds", "Salt added"),
    QT_TRANSLATE_NOOP("Kinds", "Solution swapped"),
    QT_TRANSLATE_NOOP("Kinds", "Resistor changed"),
    QT_TRANSLATE_NOOP("Kinds", "Lead lifted"),
    QT_TRANSLATE_NOOP("Kinds", "Lead back"),
    QT_TRANSLATE_NOOP("Kinds", "Temperature"),
    QT_TRANSLATE_NOOP("Kinds", "Photo"),
    QT_TRANSLATE_NOOP("Kinds", "Note"),
)
"""Named here so that the translator's tool finds them; a test holds them equal to the logger's."""


def kind_words(kind: str) -> str:
    """Return what a kind of moment is called."""
    return translate("Kinds", KINDS.get(kind, kind))


def moment_words(moment: Moment) -> str:
    """Return what a moment is called in one short phrase: its label, or the name of its kind."""
    return moment.label or kind_words(moment.kind)


def whole_words(moment: Moment) -> str:
    """Return kind and label of a moment; of a note, the label alone where it has one."""
    if not moment.label:
        return kind_words(moment.kind)
    return moment.label if moment.kind == "note" else f"{kind_words(moment.kind)}: {moment.label}"
