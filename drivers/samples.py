"""The one thing that leaves the driver floor: a frozen block of samples of one channel."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import IntFlag

import numpy as np
from numpy.typing import NDArray

__all__ = ["ROLES", "Delivery", "MissingStretch", "Notice", "Quality", "Samples", "TaggedMoment"]

ROLES = ("cell_voltage", "shunt_voltage", "stack_voltage", "anode_potential", "temperature", "other")
"""What a channel can stand for in a run (the contract's list)."""


class Quality(IntFlag):
    """Bits kept beside each sample. 0 is a good reading.

    A reading whose value could not be read at all is no sample and never appears.
    """

    GOOD = 0
    OVERLOAD = 1  # value is +inf or -inf
    HOLD = 2  # the meter's display is frozen
    RELATIVE = 4  # the meter subtracts a stored value
    LOW_BATTERY = 8
    PARITY = 16  # some byte of the frame had the wrong parity
    SUSPECT = 32  # readable, but unlike its neighbours or wrong number of decimals
    REPEAT = 64  # the same conversion sent twice
    TIME_UNCERTAIN = 128  # the time is less sure than usual (board clock not yet fitted, late answer)


@dataclass(frozen=True, slots=True)
class Samples:
    """A block of consecutive samples of one channel.

    Parameters
    ----------
    channel : name of the channel, unique in its source (``cell_voltage`` for the only one).
    times_s : float64, shape (n,); run-clock seconds at which each sample was true, never decreasing
        within a source's channel.
    values : float64, shape (n,); in the channel's unit; overload is +inf or -inf.
    quality : uint8, shape (n,); bits of `Quality`.
    board_ticks : int64, shape (n,), or None: the board's own clock, unwrapped, where it sends one.
    """

    channel: str
    times_s: NDArray[np.float64]
    values: NDArray[np.float64]
    quality: NDArray[np.uint8]
    board_ticks: NDArray[np.int64] | None = None

    def __post_init__(self) -> None:
        n = self.times_s.shape
        if len(n) != 1 or self.values.shape != n or self.quality.shape != n:
            raise ValueError(
                f"samples of {self.channel}: times {self.times_s.shape}, values {self.values.shape}, "
                f"quality {self.quality.shape} must be vectors of one length"
            )

    def __len__(self) -> int:
        return int(self.times_s.size)


@dataclass(frozen=True, slots=True)
class Notice:
    """Something the user should be told about an instrument. `code` is stable, `text` is for people.

    `is_refusal` : it says why something that did arrive is no reading.
    """

    code: str
    text: str
    is_refusal: bool = False


@dataclass(frozen=True, slots=True)
class TaggedMoment:
    """A moment that the source itself reports (the simulated operator, a replayed recording)."""

    time_s: float
    kind: str
    label: str


@dataclass(frozen=True, slots=True)
class MissingStretch:
    """Readings that a source knows to be missing, from the last one before to the first one after.

    Times are run seconds; `reason` is for people.
    """

    channel: str
    begin_s: float
    end_s: float
    reason: str


@dataclass(frozen=True, slots=True)
class Delivery:
    """What one `Source.read` brought: any part may be empty."""

    samples: tuple[Samples, ...] = ()
    notices: tuple[Notice, ...] = ()
    moments: tuple[TaggedMoment, ...] = field(default=())
    missing: tuple[MissingStretch, ...] = ()
