"""A text with places, as it stands in the sources, and how to tell that a message is worded like it."""

from __future__ import annotations

import string

__all__ = ["Wording"]


class Wording:
    """Recognises messages in one pass over them, whatever somebody wrote into a file.

    Attributes
    ----------
    template : the text, its places in braces.
    weight : how many letters are the text's own.
    is_sentence : whether it begins with words of its own, and ends with a full stop.
    """

    def __init__(self, template: str) -> None:
        self.template = template
        self._names: list[str] = []
        self._literals = [""]
        for literal, name, _, _ in string.Formatter().parse(template):
            self._literals[-1] += literal
            if name is not None:
                self._names.append(name)
                self._literals.append("")
        self._anchor = max(self._literals, key=len)
        self.weight = sum(map(len, self._literals))
        self.is_sentence = self._literals[0][:1].isupper() and self._literals[-1].endswith(".")

    def places_of(self, text: str) -> dict[str, str] | None:
        """Return what stands in the places of `text`, or None where it is worded otherwise."""
        if not self._names:
            return {} if text == self._literals[0] else None
        first, *between, last = self._literals
        end = len(text) - len(last)
        if self._anchor not in text or not text.startswith(first) or not text.endswith(last):
            return None
        values, at = [], len(first)
        for literal in between:
            found = text.find(literal, at, end)
            if found < 0:
                return None
            values.append(text[at:found])
            at = found + len(literal)
        if at > end:
            return None
        return self._named([*values, text[at:end]])

    def _named(self, values: list[str]) -> dict[str, str] | None:
        """Return the values by name; None where two places of one name hold different ones."""
        places: dict[str, str] = {}
        for name, value in zip(self._names, values, strict=True):
            if places.setdefault(name, value) != value:
                return None
        return places
