"""How a number was written. A byte lost on the line often leaves a number, but of another shape."""

from __future__ import annotations

import math
from collections import Counter, deque
from typing import NamedTuple

__all__ = ["JUMP", "JUMP_SHARE", "NumberShape", "UsualShape", "is_jump", "lost_a_character", "number_shape"]

_AGREEMENT_IF_FIXED = 0.8
_ZEROS_TO_TELL = 3
JUMP, JUMP_SHARE = 0.05, 0.2
_SAME, _SAME_SHARE = 0.05, 0.05


class NumberShape(NamedTuple):
    """What stays the same from one reading of an instrument to the next.

    `decimals` digits after the point, whether there are digits before it, and for a number with an
    exponent, whose width is fixed, its number of characters (0 for one without).
    """

    decimals: int
    has_whole_part: bool
    width: int


def number_shape(text: str) -> NumberShape:
    """Return the shape of a number such as ``-1.2345`` or ``+1.23E+00``; decimals after point or comma."""
    mantissa, mark, _ = text.lower().partition("e")
    whole, _, decimals = mantissa.replace(",", ".").partition(".")
    return NumberShape(len(decimals), whole.strip("+-") != "", len(text) if mark else 0)


def is_jump(before: float, after: float) -> bool:
    """Whether a number is so far from the one before, by a fifth of it and 0.05, that it may be damaged."""
    return abs(after - before) > max(JUMP, JUMP_SHARE * abs(before))


def lost_a_character(before: float, after: float) -> bool:
    """Whether `after` is about what `before` becomes without its sign, or without one digit before the point.

    Such a number has the usual number of decimals: 26.5012, then 6.5009. Both as they are printed.
    """
    whole, sign = str(int(abs(before))), math.copysign(1.0, before)
    decimals = abs(before) - int(abs(before))
    rests = {whole[:place] + whole[place + 1 :] for place in range(len(whole))} if len(whole) > 1 else set()
    left = [sign * (int(rest) + decimals) for rest in rests]
    has_lost_sign = before < 0 and abs(after + before) <= _SAME_SHARE * abs(
        before
    )  # noise around zero rarely is so
    return has_lost_sign or any(abs(after - one) <= max(_SAME, _SAME_SHARE * abs(one)) for one in left)


class UsualShape:
    """Learns from the last numbers which shape an instrument writes, and tells the ones that differ.

    An instrument that writes no fixed shape is not judged: of numbers printed with the fewest decimals
    that will do, about every tenth is shorter, so only a smaller share of odd ones means damage. Such numbers
    never end in a zero, though; where some do, the shape is a fixed one, and more odd ones may be damaged.

    Parameters
    ----------
    window : how many of the last numbers count.
    learn_from : how many must have been seen before any is judged.
    agreement : share of them that must have one shape; 0.8 does for numbers of fixed shape.
    """

    def __init__(self, window: int = 200, learn_from: int = 40, agreement: float = 0.96) -> None:
        self._learn_from = learn_from
        self._agreement = agreement
        self._last: deque[tuple[NumberShape, bool]] = deque()
        self._zeros = 0
        self._window = window
        self._counts: Counter[NumberShape] = Counter()

    @property
    def has_any(self) -> bool:
        """Whether a number was seen."""
        return bool(self._last)

    def is_most_common(self, shape: NumberShape) -> bool:
        """Whether no other shape has been seen more often of late."""
        return self._counts[shape] == max(self._counts.values(), default=0)

    @property
    def usual(self) -> NumberShape | None:
        """The usual shape, None while there is none to go by."""
        if len(self._last) < self._learn_from:
            return None
        ((usual, times),) = self._counts.most_common(1)
        is_fixed = usual.width or self._zeros >= _ZEROS_TO_TELL
        share = _AGREEMENT_IF_FIXED if is_fixed else self._agreement
        return usual if times >= share * len(self._last) else None

    def note_many(self, shape: NumberShape, count: int) -> None:
        """Take note of `count` numbers of one shape."""
        for _ in range(min(count, self._window)):
            self._note(shape, ends_in_zero=False)

    def _note(self, shape: NumberShape, *, ends_in_zero: bool) -> None:
        if len(self._last) == self._window:
            oldest, ended_in_zero = self._last.popleft()
            self._counts[oldest] -= 1
            self._zeros -= ended_in_zero
        self._last.append((shape, ends_in_zero))
        self._counts[shape] += 1
        self._zeros += ends_in_zero

    def is_odd(self, shape: NumberShape, *, ends_in_zero: bool = False) -> bool:
        """Take note of `shape` and return whether it differs from the usual one.

        `ends_in_zero` : whether the number has decimals and the last of them is a zero.
        """
        self._note(shape, ends_in_zero=ends_in_zero)
        usual = self.usual
        return usual is not None and shape != usual
