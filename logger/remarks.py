"""Which warnings of the findings are mere remarks: nothing is wrong, the run was of another kind."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

__all__ = ["REMARKS", "worth_saying"]

REMARKS = frozenset({"no_tafel", "no_growth", "no_interrupt_slow", "start_not_known"})
"""Codes of warnings that only say what a run of another kind would have shown: why a key is null. They stay
in the findings; texts and pages leave them out, or say them where one looks for the quantity itself."""


def worth_saying(warnings: Sequence[Mapping[str, Any]] | None) -> list[Mapping[str, Any]]:
    """Return the warnings of a findings document that a reader must know, in their order."""
    return [one for one in warnings or () if one.get("code") not in REMARKS]
