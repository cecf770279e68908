"""The words of the window that come from the logger are all known to the translator's tool."""

from __future__ import annotations

from gui.kind_words import _MARKED, moment_words, whole_words
from logger.moments import KINDS, new_moment


def test_every_kind_is_marked() -> None:
    assert tuple(KINDS.values()) == _MARKED


def test_a_moment_is_called_by_its_label_or_its_kind() -> None:
    assert moment_words(new_moment(1.0, "salt_added", "two drops")) == "two drops"
    assert moment_words(new_moment(1.0, "salt_added")) == "Salt added"
    assert whole_words(new_moment(1.0, "salt_added", "two drops")) == "Salt added: two drops"
    assert whole_words(new_moment(1.0, "note", "brown")) == "brown"
