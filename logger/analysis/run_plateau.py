"""What is known of the settled end of a phase."""

from __future__ import annotations

from dataclasses import dataclass

from logger.analysis.allan import AveragingAdvice
from logger.analysis.current import Current
from logger.analysis.settled import SettledWindow
from logger.analysis.uncertainty import Combined

__all__ = ["Plateau"]


@dataclass(frozen=True, slots=True)
class Plateau:
    """The settled end of a phase: its window, its absolute uncertainty, its current and temperature.

    `current` and `temperature_C` are None where they are not known or were not measured; `chosen_by_hand`
    tells that a person chose the window; `averaging` how long its readings are worth averaging, where it is
    long enough to tell.
    """

    window: SettledWindow
    absolute: Combined
    current: Current | None
    temperature_C: float | None
    chosen_by_hand: bool = False
    averaging: AveragingAdvice | None = None
