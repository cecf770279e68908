"""Where the channels of a recording go when each gets a file of its own."""

from __future__ import annotations

import re
from collections.abc import Collection
from pathlib import Path

from logger.recording import Recording

__all__ = ["channel_files", "plain_name"]


def plain_name(name: str) -> str:
    """Return a channel's name with letters, digits and underscores only, for names of files and columns."""
    return re.sub(r"\W+", "_", name).strip("_")[:40] or "channel"


def channel_files(recording: Recording, out: Path, taken: Collection[str] = ()) -> tuple[Path, ...]:
    """Return a path for each channel, in their order: `out` for the cell voltage (else the first channel).

    Others lie beside it as ``STEM.CHANNEL.ENDING``, whatever a channel of foreign origin may be called; names
    that other files have are `taken`.
    """
    main = recording.channel("cell_voltage") or (recording.channels[0] if recording.channels else None)
    stem = out.with_suffix("")
    names = {name.casefold() for name in taken}
    paths: list[Path] = []
    for channel in recording.channels:
        if channel is main:
            paths.append(out)
            continue
        base = name = plain_name(channel.name)
        number = 2
        while name.casefold() in names:
            name, number = f"{base}_{number}", number + 1
        names.add(name.casefold())
        paths.append(stem.with_name(f"{stem.name}.{name}{out.suffix}"))
    return tuple(paths)
