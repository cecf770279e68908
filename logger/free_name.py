"""A name that is not taken: what somebody has is never overwritten."""

from __future__ import annotations

from pathlib import Path

from logger.errors import OutputExists

__all__ = ["free_name"]

MOST_TRIES = 10_000


def free_name(wanted: Path) -> Path:
    """Return `wanted` or, where that is taken, the first of ``STEM (2)``, ``STEM (3)`` … that is not.

    Raises
    ------
    OutputExists : ten thousand names are taken.
    """
    if not wanted.exists():
        return wanted
    for number in range(2, MOST_TRIES):
        candidate = wanted.with_name(f"{wanted.stem} ({number}){wanted.suffix}")
        if not candidate.exists():
            return candidate
    raise OutputExists(f"{wanted} and 10 000 names like it are taken; move some files away")
