"""Source addresses: ``KIND:PORT[?key=value&...]``."""

from __future__ import annotations

import difflib
import math
import re
from collections.abc import Mapping
from dataclasses import dataclass, field

from drivers.errors import AddressError

__all__ = ["Address", "parse_address"]

_QUERY = re.compile(r"[A-Za-z_]+=[^&]*(&[A-Za-z_]+=[^&]*)*")


@dataclass(frozen=True, slots=True)
class Address:
    """A parsed source address. `text` is the address as the user gave it."""

    text: str
    kind: str
    port: str
    options: Mapping[str, str] = field(default_factory=dict)

    def number(self, key: str, default: float, *, low: float = -math.inf, high: float = math.inf) -> float:
        """Return option `key` as a finite number within [low, high], or `default` when it is absent.

        Raises
        ------
        AddressError : not a number, or outside the range.
        """
        if key not in self.options:
            return default
        text = self.options[key]
        try:
            value = float(text)
        except ValueError:
            value = math.nan
        if not math.isfinite(value):
            raise AddressError(
                f"{self.text}: {key}={text} is not a number; write for example {key}={default:g}"
            )
        if not low <= value <= high:
            raise AddressError(f"{self.text}: {key}={text} is outside {low:.9g} to {high:.9g}")
        return value

    def integer(self, key: str, default: int, *, low: int, high: int) -> int:
        """Return option `key` as a whole number within [low, high]; see `number`."""
        value = self.number(key, default, low=low, high=high)
        if value != int(value):
            raise AddressError(f"{self.text}: {key}={self.options[key]} must be a whole number")
        return int(value)

    def check_keys(self, known: tuple[str, ...]) -> None:
        """Refuse options that are not in `known`, naming the nearest one that is.

        Raises
        ------
        AddressError : an option is not known to this kind of source.
        """
        for key in self.options:
            if key not in known:
                near = difflib.get_close_matches(key, known, n=1, cutoff=0.5)
                hint = f"; did you mean {near[0]}?" if near else ""
                raise AddressError(
                    f"{self.text}: a source of kind {self.kind} has no key {key!r}{hint} "
                    f"(known: {', '.join(known)})"
                )


def parse_address(text: str) -> Address:
    """Split a source address into kind, port and options.

    The port may itself be a URL or hold question marks: the options start at the last ``?`` that is
    followed by nothing but ``key=value`` pairs.

    Raises
    ------
    AddressError : no kind, no port, or an option given twice.
    """
    kind, colon, rest = text.strip().partition(":")
    if not colon or not re.fullmatch(r"[a-z][a-z0-9]*", kind):
        raise AddressError(
            f"{text!r} is not a source address: write KIND:PORT, for example cell:demo or scpi:/dev/ttyUSB0"
        )
    port, mark, query = rest.rpartition("?")
    if not mark or not _QUERY.fullmatch(query):
        port, query = rest, ""
    if not port:
        raise AddressError(f"{text!r} names no port: write {kind}:PORT, for example {kind}:/dev/ttyUSB0")
    options: dict[str, str] = {}
    for pair in filter(None, query.split("&")):
        key, _, value = pair.partition("=")
        if key in options:
            raise AddressError(f"{text!r}: the key {key} is given twice")
        options[key] = value
    return Address(text=text.strip(), kind=kind, port=port, options=options)
