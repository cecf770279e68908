"""The contract that every source of samples fulfils.

A source is used by one thread only: `open`, then `read` again and again, then `close`, all from the
same thread. After `SourceLost` or `CannotOpen` the owner may call `close` and `open` again; the source
then goes on in the same run on the same clock.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Mapping
from dataclasses import dataclass, field
from types import TracebackType
from typing import Self

from drivers.address import Address
from drivers.run_clock import RunClock
from drivers.samples import Delivery

__all__ = ["Channel", "Instrument", "Source"]


@dataclass(frozen=True, slots=True)
class Channel:
    """One measured quantity of a source: its name in the recording, its role and its unit.

    `input` tells which input, column or display of the instrument fills it, "" for the only or usual one.
    """

    name: str
    role: str = "cell_voltage"
    unit: str = "V"
    input: str = ""


@dataclass(frozen=True, slots=True)
class Instrument:
    """What is known about the instrument, kept with the recording. Complete once `open` has returned.

    `address` is the source address as given; `identity` what the instrument says of itself, verbatim;
    `clock` says how sample times were made (method, uncertainty_s, ...); `calibration` the scale and
    offset applied on the host (value = reading * scale + offset); `details` anything else worth keeping,
    as text or numbers (line settings, resolution; for the simulated cell its truth).
    """

    address: str
    identity: str = ""
    clock: Mapping[str, str | float] = field(default_factory=dict)
    calibration: Mapping[str, str | float] = field(default_factory=dict)
    details: Mapping[str, str | float] = field(default_factory=dict)


class Source(ABC):
    """A stream of samples from one instrument. Subclasses fill in `open`, `read`, `close`.

    Parameters
    ----------
    address : the parsed source address; its keys were checked by the registry.
    """

    silent_after_s: float = 3.0
    """Seconds without a sample after which the owner tells the user that the meter is silent."""

    def __init__(self, address: Address) -> None:
        self.address = address

    @property
    @abstractmethod
    def channels(self) -> tuple[Channel, ...]:
        """The channels this source delivers. Fixed once `open` has returned."""

    @property
    @abstractmethod
    def instrument(self) -> Instrument:
        """What is known about the instrument so far."""

    @property
    def speed(self) -> float:
        """Run seconds per host second: 1 unless the source is simulated or replayed."""
        return 1.0

    @property
    def waits_for(self) -> str:
        """What `open` waits for just now, in words, for the person who waits too; "" where it is soon done.

        Other threads may read it meanwhile.
        """
        return ""

    @abstractmethod
    def open(self, clock: RunClock) -> None:
        """Open the instrument and be ready to read.

        Raises
        ------
        CannotOpen : it is not there, in use, or not permitted; nothing is left open.
        SourceRefused : it is there but must not be recorded as it is set up.
        """

    @abstractmethod
    def read(self, timeout_s: float) -> Delivery:
        """Return what has arrived, waiting at most about `timeout_s` host seconds for the first of it.

        An empty delivery means that nothing came in time; it is not an error.

        Raises
        ------
        SourceLost : the instrument is gone. Nothing that had arrived is withheld: it was
            delivered by earlier calls or comes with `SourceLost` only if it was incomplete.
        SourceEnded : nothing more will come.
        """

    @abstractmethod
    def close(self) -> None:
        """Give the instrument back. May be called twice, and on a source that never opened."""

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()
