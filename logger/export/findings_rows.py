"""The findings document as rows of a table: one quantity a row, in units that its name says."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

__all__ = ["findings_rows"]

Row = tuple[str, float | None, str]

_LEFT_OUT = frozenset({"file", "program", "version", "states", "phases", "warnings", "run"})


def findings_rows(document: Mapping[str, Any]) -> Iterator[Row]:
    """Yield (quantity, value, text) for every number and text of a findings document.

    A quantity that the data do not support has neither. Names are the keys of the document joined by dots;
    phases, budget lines and warnings are named by what they are: ``phase.before.begin_s``,
    ``voltage_saved.budget.drift before``, ``warning.no_blank`` (its value is the time, where it has one).
    """
    for key, value in document.items():
        if key not in _LEFT_OUT:
            yield from _flat(key, value)
    for phase in document.get("phases") or ():
        yield from _flat(f"phase.{phase['phase']}.begin_s", phase["begin_s"])
        yield from _flat(f"phase.{phase['phase']}.end_s", phase["end_s"])
    for warning in document.get("warnings") or ():
        yield f"warning.{warning['code']}", warning["at_s"], warning["message"]


def _flat(name: str, value: Any) -> Iterator[Row]:
    if isinstance(value, Mapping):
        for key, one in value.items():
            yield from _flat(f"{name}.{key}", one)
    elif name.endswith(".budget"):
        for line in value or ():
            yield f"{name}.{line['source']}", line["standard_uncertainty_V"], f"type {line['type']}"
    elif isinstance(value, list | tuple):
        for place, one in enumerate(value):
            yield from _flat(f"{name}.{place}", one)
    elif isinstance(value, bool):
        yield name, None, "yes" if value else "no"
    elif isinstance(value, int | float):
        yield name, float(value), ""
    else:
        yield name, None, "" if value is None else str(value)
