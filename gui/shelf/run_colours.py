"""Colours of runs laid over one another. Each run also carries its number, so colour is never alone."""

from __future__ import annotations

from gui.theme import Colours

__all__ = ["DARK_RUNS", "LIGHT_RUNS", "run_colour"]

LIGHT_RUNS = (
    "#0b5fa5", "#a84a00", "#0b7a55", "#8a3d7a", "#6a6400", "#b3261e", "#4b3fb5", "#5e666b",
)  # fmt: skip
DARK_RUNS = (
    "#6cb8f0", "#f0a35c", "#4cc79a", "#e09bcb", "#cfc94f", "#ff8a80", "#aba0ff", "#b4bdc1",
)  # fmt: skip


def run_colour(colours: Colours, number: int) -> str:
    """Return the colour of run `number` (from 0) on the paper of `colours`."""
    runs = DARK_RUNS if colours.is_dark else LIGHT_RUNS
    return runs[number % len(runs)]
