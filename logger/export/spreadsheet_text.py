"""Free text on its way into a spreadsheet: never run as a formula, never with characters that mislead."""

from __future__ import annotations

from logger.clean_text import clean_text

__all__ = ["guard_formula", "unguard_formula"]

FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r", "＝", "＋", "－", "＠")
"""A spreadsheet may take a text that begins with one of these for a formula (CWE-1236, OWASP ASVS 1.2.10)."""


def guard_formula(text: str) -> str:
    """Return `text` without control and direction characters, guarded by an apostrophe if need be.

    The apostrophe stands before a text that a spreadsheet might run as a formula, and before one that already
    has such an apostrophe, so that `unguard_formula` gives back what was there.
    """
    cleaned = clean_text(text)
    return f"'{cleaned}" if cleaned.lstrip("'").startswith(FORMULA_STARTS) else cleaned


def unguard_formula(text: str) -> str:
    """Undo the apostrophe of `guard_formula`."""
    guarded = text.startswith("'") and text.lstrip("'").startswith(FORMULA_STARTS)
    return text[1:] if guarded else text
