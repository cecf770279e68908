"""An instrument of unknown kind: recognised by listening, then read by the source of its kind."""

from __future__ import annotations

import dataclasses

from drivers.address import Address
from drivers.channel_options import ChannelOptions
from drivers.errors import CannotOpen, SourceLost, SourceRefused
from drivers.link import OpenPort, open_port
from drivers.listening import Heard, listen
from drivers.registry import make_source
from drivers.run_clock import RunClock
from drivers.samples import Delivery, Notice
from drivers.source import Channel, Instrument, Source

__all__ = ["AutoSource"]


class AutoSource(Source):
    """Whatever sends unasked at a port (see `drivers.source.Source`). Nothing is ever sent to it.

    Parameters
    ----------
    address : ``auto:PORT``; keys ``baud`` (tried by itself if not given) and those of a channel, which are
        handed on.
    opener : opens the port; a fake in tests.
    """

    def __init__(self, address: Address, *, opener: OpenPort = open_port) -> None:
        super().__init__(address)
        self._baud = address.integer("baud", 0, low=0, high=12_000_000)
        self._opener = opener
        self._recognised: Source | None = None
        self._notices: list[Notice] = []
        self._handed_on = {key: value for key, value in address.options.items() if key != "baud"}
        self._planned = ChannelOptions.from_address(address).channel

    @property
    def channels(self) -> tuple[Channel, ...]:
        """Those of the instrument that was recognised; before, the one that the address describes."""
        return self._recognised.channels if self._recognised is not None else (self._planned,)

    @property
    def waits_for(self) -> str:
        """Readings that come unasked; once recognised, what the source of that kind waits for."""
        if self._recognised is not None:
            return self._recognised.waits_for
        return (
            f"Listening to {self.address.port}, at one line speed after the other. Nothing is sent: the "
            "instrument has to send by itself."
        )

    @property
    def instrument(self) -> Instrument:
        """What the recognised instrument says, and as what it was recognised."""
        if self._recognised is None:
            return Instrument(address=self.address.text)
        known = self._recognised.instrument
        details = {**known.details, "recognised_as": known.address}
        return dataclasses.replace(known, address=self.address.text, details=details)

    def open(self, clock: RunClock) -> None:
        """Listen to the port, at most about 4.4 s, and open it as what it was recognised to be.

        Once recognised, the instrument is taken for the same whenever it comes back.

        Raises
        ------
        CannotOpen : no such port, or nothing arrives from it.
        SourceRefused : what arrives can be read in several ways or in none; the message lists them.
        """
        self.close()
        if self._recognised is None:
            heard = listen(self.address.port, baud=self._baud, clock=clock, opener=self._opener)
            self._recognised = self._choose(heard)
            self._notices.append(Notice("recognised", _told(self._recognised.address.text, heard)))
        self._recognised.open(clock)

    def read(self, timeout_s: float) -> Delivery:
        """Return what has arrived; see `Source.read`."""
        if self._recognised is None:
            raise SourceLost(f"{self.address.text} is not open. Open it first.")
        delivery = self._recognised.read(timeout_s)
        self.silent_after_s = self._recognised.silent_after_s
        if self._notices:
            notices = (*self._notices, *delivery.notices)
            self._notices.clear()
            delivery = dataclasses.replace(delivery, notices=notices)
        return delivery

    def close(self) -> None:
        """Close the port."""
        if self._recognised is not None:
            self._recognised.close()

    def _choose(self, heard: Heard) -> Source:
        if heard.state == "recognised":
            return make_source(self._address_of(heard.addresses[0]), opener=self._opener)
        port = self.address.port
        if heard.state == "unavailable":
            raise CannotOpen(heard.message)
        if heard.state == "silent":
            raise CannotOpen(f"{port}: {heard.message}")
        ways = ", ".join(heard.addresses)
        raise SourceRefused(
            f"{port}: {heard.message}" + (f" Addresses to choose from: {ways}" if ways else "")
        )

    def _address_of(self, address: str) -> str:
        """Return an address with the options that this one hands on."""
        query = "&".join(f"{key}={value}" for key, value in self._handed_on.items())
        return f"{address}{'&' if '?' in address else '?'}{query}" if query else address


def _told(address: str, heard: Heard) -> str:
    best = heard.candidates[0]
    value = f" It reads {best.shown}: does the display agree?" if best.shown else ""
    return f"Recognised by listening: {address}.{value}"
