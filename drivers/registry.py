"""Which kinds of source there are, and how to make one from an address.

Kinds are named by text and imported at use, so that starting the program stays quick and a missing
library of one instrument never stops the others.
"""

from __future__ import annotations

import difflib
import importlib
from dataclasses import dataclass
from typing import TYPE_CHECKING

from drivers.address import Address, parse_address
from drivers.errors import AddressError
from drivers.source import Source

if TYPE_CHECKING:
    from drivers.link import OpenPort

__all__ = ["KINDS", "Kind", "make_source"]

_COMMON = ("channel", "scale", "offset", "role", "name")


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind of source: where its class is, what it is for people, and the keys it takes."""

    target: str
    summary: str
    keys: tuple[str, ...]


KINDS: dict[str, Kind] = {
    "auto": Kind(
        "drivers.auto:AutoSource",
        "whatever sends by itself, recognised by listening only",
        ("baud", *_COMMON),
    ),
    "scpi": Kind(
        "drivers.scpi:ScpiSource",
        "a meter that answers queries (IEEE 488.2 / SCPI)",
        ("baud", "rate", *_COMMON),
    ),
    "lcd14": Kind(
        "drivers.frames:FrameSource", "a handheld meter that sends its segments", ("baud", *_COMMON)
    ),
    "ascii14": Kind(
        "drivers.frames:FrameSource", "a handheld meter that sends digits and signs", ("baud", *_COMMON)
    ),
    "digit11": Kind(
        "drivers.frames:FrameSource",
        "a handheld meter of 4000 counts that sends digits (column=b: other order of signs)",
        ("baud", "column", *_COMMON),
    ),
    "digit14": Kind(
        "drivers.frames:FrameSource", "a handheld meter of 22000 counts that sends digits", ("baud", *_COMMON)
    ),
    "stx16": Kind(
        "drivers.frames:FrameSource",
        "a handheld meter that sends one or two displays (column=2: the second)",
        ("baud", "column", *_COMMON),
    ),
    "text": Kind("drivers.text:TextSource", "a board that prints lines", ("baud", "column", *_COMMON)),
    "packet": Kind(
        "drivers.packet:PacketSource",
        "a board that sends numbered, checked packets of samples (COBS)",
        ("baud", "column", *_COMMON),
    ),
    "cell": Kind(
        "drivers.simulated.cell_source:CellSource",
        "the built-in simulated cell: cell:demo, cell:blank, cell:bench or cell:stability",
        ("seed", "rate", "speed", "noise", "fault", *_COMMON),
    ),
    "replay": Kind("drivers.replay:ReplaySource", "a recording played again", ("speed", *_COMMON)),
}


def make_source(address: str | Address, *, opener: OpenPort | None = None) -> Source:
    """Return a source, not yet opened, for a source address.

    `opener` opens its port in place of `drivers.link.open_port`; kinds without a port make nothing of it.

    Raises
    ------
    AddressError : the address is malformed, or its kind, a key or a value is not known.
    """
    if isinstance(address, str):
        address = parse_address(address)
    kind = KINDS.get(address.kind)
    if kind is None:
        near = difflib.get_close_matches(address.kind, KINDS, n=1, cutoff=0.5)
        hint = f"; did you mean {near[0]}?" if near else ""
        raise AddressError(
            f"{address.text}: there is no kind of source {address.kind!r}{hint} (known: {', '.join(KINDS)})"
        )
    address.check_keys(kind.keys)
    module, _, name = kind.target.partition(":")
    make = getattr(importlib.import_module(module), name)
    takes_opener = opener is not None and "baud" in kind.keys
    source: Source = make(address, opener=opener) if takes_opener else make(address)
    return source
