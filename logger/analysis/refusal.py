"""How the analysis says no: which value, why, and what would be accepted."""

from __future__ import annotations

import math

from logger.errors import LoggerError

__all__ = ["Refused", "require_finite", "require_positive", "require_within"]


class Refused(LoggerError, ValueError):
    """A value that the analysis will not calculate with.

    Parameters
    ----------
    quantity : str
        What the value stands for, in words and with its unit where it has one.
    value : object
        The value as it was given.
    reason : str
        Why it is refused.
    accepted : str
        What would be accepted instead.
    """

    def __init__(self, quantity: str, value: object, reason: str, accepted: str) -> None:
        # All four go to the base class, so that a refusal survives pickling between processes.
        super().__init__(quantity, value, reason, accepted)
        self.quantity = quantity
        self.value = value
        self.reason = reason
        self.accepted = accepted

    @property
    def explained(self) -> str:
        """The reason and the remedy, to stand after a colon; quantity and value follow in brackets."""
        shown = f"{self.value:.3g}" if isinstance(self.value, float) else str(self.value)
        return f"{self.reason}; {self.accepted} ({self.quantity}: {shown.replace('-', '−')})"

    def __str__(self) -> str:
        shown = f"{self.value:.6g}" if isinstance(self.value, float) else str(self.value)
        return f"{self.quantity}: {shown} is refused, {self.reason}; {self.accepted}"


def require_finite(quantity: str, value: float) -> float:
    """Return `value` as a float.

    Raises
    ------
    Refused
        The value is not a finite number.
    """
    value = float(value)
    if not math.isfinite(value):
        raise Refused(quantity, value, "it is not a finite number", "give a number")
    return value


def require_positive(quantity: str, value: float, *, zero_allowed: bool = False) -> float:
    """Return `value` as a float above zero (or zero too, where `zero_allowed`).

    Raises
    ------
    Refused
        The value is not finite, or is negative, or is zero where that is not allowed.
    """
    value = require_finite(quantity, value)
    if value < 0 or (value == 0 and not zero_allowed):
        wanted = "zero or more" if zero_allowed else "more than zero"
        raise Refused(quantity, value, f"it must be {wanted}", f"give a number {wanted}")
    return value


def require_within(quantity: str, value: float, low: float, high: float, reason: str) -> float:
    """Return `value` as a float within [low, high].

    Raises
    ------
    Refused
        The value is not finite or lies outside; `reason` tells why the limits are there.
    """
    value = require_finite(quantity, value)
    if not low <= value <= high:
        raise Refused(quantity, value, reason, f"accepted is {_limit(low)} to {_limit(high)}")
    return value


def _limit(value: float) -> str:
    """Return a limit in digits that people count: 10000000, not 1e+07."""
    return f"{value:.0f}" if 1e5 <= abs(value) < 1e10 else f"{value:g}"
