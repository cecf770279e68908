"""Which inputs of a board that sends packets become which channels, as the address says."""

from __future__ import annotations

from dataclasses import dataclass

from drivers.address import Address
from drivers.channel_lists import ChannelLists
from drivers.channel_options import ChannelOptions
from drivers.errors import AddressError, SourceRefused

__all__ = ["ChannelPlan", "PacketChannel"]

_INPUTS = 8


@dataclass(frozen=True, slots=True)
class PacketChannel:
    """One input of the board (0 to 7) and the channel it fills."""

    number: int
    options: ChannelOptions


class ChannelPlan:
    """What the address says of inputs and channels.

    ``column`` lists the inputs to record (``column=0,2``); without it all that the board samples are. Further
    keys may be lists in the same order: see `ChannelLists`.

    Raises
    ------
    AddressError : an input that cannot be, more entries than inputs, or whatever `ChannelOptions` refuses.
    """

    def __init__(self, address: Address) -> None:
        self._address = address
        self._lists = ChannelLists(address)
        self._inputs = _parse_inputs(address)
        entries = self._lists.entries
        if self._inputs is not None:
            self._lists.check_entries(len(self._inputs))
        if entries > _INPUTS:
            raise AddressError(f"{address.text}: a board has at most {_INPUTS} inputs; {entries} are listed")
        self._make(self._inputs or tuple(range(entries)))

    def choose(self, mask: int) -> tuple[PacketChannel, ...]:
        """Return the channels of a board that samples the inputs of `mask`.

        Raises
        ------
        SourceRefused : an input that the address names is not sampled.
        """
        sampled = tuple(number for number in range(_INPUTS) if mask >> number & 1)
        inputs = self._inputs if self._inputs is not None else sampled
        missing = [str(number) for number in inputs if number not in sampled]
        entries = self._lists.entries
        if missing or entries > len(inputs):
            there = ", ".join(map(str, sampled))
            wanted = f"input {missing[0]}" if missing else f"{entries} inputs"
            raise SourceRefused(
                f"{self._address.text} asks for {wanted}, but the board samples input {there}. Change the "
                "address (column= and its lists), or the board's program."
            )
        return self._make(inputs)

    @property
    def fixed(self) -> tuple[PacketChannel, ...] | None:
        """The channels, if the address alone tells them."""
        return self._make(self._inputs) if self._inputs is not None else None

    def _make(self, inputs: tuple[int, ...]) -> tuple[PacketChannel, ...]:
        places = tuple((str(number), f"input_{number}") for number in inputs)
        return tuple(map(PacketChannel, inputs, self._lists.options(places)))


def _parse_inputs(address: Address) -> tuple[int, ...] | None:
    if "column" not in address.options:
        return None
    text = address.options["column"]
    names = text.split(",")
    known = [str(number) for number in range(_INPUTS)]
    if not set(names) <= set(known) or len(set(names)) != len(names):
        raise AddressError(
            f"{address.text}: column={text} does not list inputs; write for example column=0 or column=0,2 "
            f"(0 to {_INPUTS - 1}, each once)"
        )
    return tuple(map(int, names))
