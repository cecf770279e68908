"""The kinds of moment as they read in the window's language."""

from __future__ import annotations

from PySide6.QtCore import QT_TRANSLATE_NOOP

from gui.message_words import message_words
from gui.words import translate
from logger.moments import KINDS, SIMULATED, Moment

__all__ = ["kind_words", "label_words", "moment_words", "whole_words"]

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


def label_words(moment: Moment) -> str:
    """Return the label of a moment; what the simulated operator tagged, in the window's language."""
    return message_words(moment.label) if moment.label.endswith(SIMULATED) else moment.label


def moment_words(moment: Moment) -> str:
    """Return what a moment is called in one short phrase: its label, or the name of its kind."""
    return label_words(moment) or kind_words(moment.kind)


def whole_words(moment: Moment) -> str:
    """Return kind and label of a moment; of a note, the label alone where it has one."""
    if not moment.label:
        return kind_words(moment.kind)
    label = label_words(moment)
    return label if moment.kind == "note" else f"{kind_words(moment.kind)}: {label}"
