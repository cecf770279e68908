"""Free text made fit to be shown: nothing in it controls, misleads or breaks what shows it."""

from __future__ import annotations

import unicodedata

__all__ = ["clean_text"]

ELLIPSIS = "…"


def clean_text(text: str, most: int | None = None) -> str:
    """Drop control characters, direction overrides and what is no character; join lines.

    A text of more than `most` characters is cut, and then ends in an ellipsis. Cleaning what is clean changes
    nothing.
    """
    joined = " ".join(text.split())
    kept = "".join(c for c in joined if unicodedata.category(c) not in ("Cc", "Cs") and c not in _UNWANTED)
    cleaned = " ".join(kept.split())
    if most is None or len(cleaned) <= most:
        return cleaned
    return cleaned[: most - len(ELLIPSIS)].rstrip() + ELLIPSIS


_DIRECTION = "\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069\u200e\u200f\u061c"
_NO_CHARACTERS = (
    *range(0xFDD0, 0xFDF0),
    *(plane << 16 | low for plane in range(17) for low in (0xFFFE, 0xFFFF)),
)
_UNWANTED = frozenset(_DIRECTION) | frozenset(map(chr, _NO_CHARACTERS))
"""The latter are the Unicode Standard's noncharacters (section 23.7): files must not hold them."""
