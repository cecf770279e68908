"""Warnings that go with a result, and the list they are gathered in."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

__all__ = ["Caution", "Cautions"]


@dataclass(frozen=True, slots=True)
class Caution:
    """What the reader of a result must know.

    `code` is stable and for programs, `message` is for people, `at_s` the run time it belongs to, if any.
    """

    code: str
    message: str
    at_s: float | None = None


class Cautions:
    """The cautions of one analysis, in the order in which they came up; each is said once."""

    def __init__(self) -> None:
        self._said: dict[Caution, None] = {}

    def say(self, code: str, message: str, at_s: float | None = None) -> None:
        """Add one."""
        self._said[Caution(code, message, at_s)] = None

    def extend(self, cautions: Iterable[Caution]) -> None:
        """Add several."""
        self._said.update(dict.fromkeys(cautions))

    @property
    def all(self) -> tuple[Caution, ...]:
        """Everything said so far."""
        return tuple(self._said)

    def has(self, *codes: str) -> bool:
        """Tell whether one of these was said."""
        return any(one.code in codes for one in self._said)
