"""By what an instrument is known again: its own word, its adapter's serial number, or the user's name."""

from __future__ import annotations

import re

from drivers.source import Channel, Source

__all__ = ["identity_of", "is_same_input"]

_DIVIDER = re.compile(r", (?:scale|offset) [^,]*")


def identity_of(source: Source, channel: Channel) -> str:
    """Return the identity of one channel of an open source, "" if nothing tells it from another one.

    The user's ``name`` comes first. Of a queried meter its answer to ``*IDN?`` follows, which holds its
    serial number; a board's greeting is the same for all its kind and does not count. Adapters without a
    serial number are all alike. A divider (``scale``, ``offset``) is calibrated together with its meter: with
    another one it is another instrument. Cells and replayed recordings have no calibration.
    """
    address, known = source.address, source.instrument
    if address.kind in ("cell", "replay"):
        return ""
    kind = str(known.details.get("recognised_as", address.text)).partition(":")[0]
    details = known.details
    if "name" in details:
        found = f"{kind} named {details['name']}"
    elif kind == "scpi" and known.identity:
        found = f"{kind} {known.identity}"
    elif "adapter_serial" in details:
        ids = [f"{int(float(details[key])):04x}" for key in ("adapter_vid", "adapter_pid") if key in details]
        found = f"{kind} at adapter {':'.join([*ids, str(details['adapter_serial'])])}"
    else:
        return ""
    prefix = f"{channel.name}_" if len(source.channels) > 1 else ""
    parts = [found, f"input {channel.input}" if channel.input else ""]
    parts += [
        f"{key} {known.calibration[prefix + key]}"
        for key in ("scale", "offset")
        if prefix + key in known.calibration
    ]
    return ", ".join(filter(None, parts))


def is_same_input(one: str, other: str) -> bool:
    """Whether two identities are one input of one instrument, behind whatever divider."""
    return bool(one) and _DIVIDER.sub("", one) == _DIVIDER.sub("", other)
