"""What a serial port reads when its speed is not that of the sender. Pure."""

from __future__ import annotations

__all__ = ["at_wrong_speed"]

_IDLE_BITS = 20  # the line rests at one


def at_wrong_speed(data: bytes, sent_baud: float, read_baud: float) -> bytes:
    """Return what a port at `read_baud` makes of bytes sent without pause at `sent_baud`, both 8N1.

    Each bit is looked at in its middle, counted from the falling edge of the start bit. A byte whose stop
    bit is missing (a framing error) comes as it was seen.
    """
    levels = [bit for byte in data for bit in (0, *((byte >> k) & 1 for k in range(8)), 1)]
    levels += [1] * _IDLE_BITS
    ratio = sent_baud / read_baud
    seen = bytearray()
    at = 0.0  # position in sent bits
    while (start := _falling_edge(levels, at)) is not None:
        middles = [int(start + (k + 1.5) * ratio) for k in range(9)]
        if middles[-1] >= len(levels):
            break
        seen.append(sum(levels[place] << k for k, place in enumerate(middles[:8])))
        at = start + 9.5 * ratio  # the middle of the stop bit
    return bytes(seen)


def _falling_edge(levels: list[int], at: float) -> int | None:
    """Return where the next bit of zeros begins whose predecessor is one, or that stands at `at`."""
    was_high = True if at == 0 else levels[min(int(at), len(levels) - 1)] == 1
    for place in range(int(at) if at == 0 else int(at) + 1, len(levels)):
        if was_high and levels[place] == 0:
            return place
        was_high = levels[place] == 1
    return None
