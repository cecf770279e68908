"""A source address put together from a form, and taken apart for one."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from drivers.address import parse_address
from drivers.errors import AddressError
from drivers.registry import KINDS, make_source
from logger.errors import LoggerError

__all__ = ["SourceForm", "SourceFormError", "options_of"]


class SourceFormError(LoggerError, ValueError):
    """The form makes no source."""


@dataclass(frozen=True, slots=True)
class SourceForm:
    """What an address says: the kind of instrument, its port, and options by key; empty ones are left out."""

    kind: str = "text"
    port: str = ""
    options: Mapping[str, str] = field(default_factory=dict)

    @classmethod
    def of(cls, address: str) -> SourceForm:
        """Take an address apart.

        Raises
        ------
        SourceFormError : it is malformed.
        """
        try:
            found = parse_address(address)
        except AddressError as error:
            raise SourceFormError(str(error)) from error
        return cls(found.kind, found.port, dict(found.options))

    @property
    def roles(self) -> tuple[str, ...]:
        """What its channels stand for."""
        return tuple(role.strip() for role in self.options.get("role", "cell_voltage").split(","))

    @property
    def address(self) -> str:
        """The address; it need not be a good one."""
        known = options_of(self.kind)
        given = {key: value.strip() for key, value in self.options.items() if value.strip() and key in known}
        query = "&".join(f"{key}={value}" for key, value in given.items())
        return f"{self.kind}:{self.port.strip()}" + (f"?{query}" if query else "")

    def checked_address(self) -> str:
        """Return the address of a source that can be made.

        Raises
        ------
        SourceFormError : with the reason and the remedy.
        """
        if not self.port.strip():
            raise SourceFormError("No port is chosen; pick the one that the meter is plugged into")
        for key, value in self.options.items():
            if "&" in value:
                raise SourceFormError(f"{key} may not hold the sign &; leave it out")
        try:
            make_source(self.address)
        except AddressError as error:
            raise SourceFormError(str(error).partition(": ")[2] or str(error)) from error
        return self.address


def options_of(kind: str) -> tuple[str, ...]:
    """Return the option keys that a kind of source takes; none for an unknown kind."""
    return KINDS[kind].keys if kind in KINDS else ()
