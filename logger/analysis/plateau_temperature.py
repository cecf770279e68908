"""The temperature at a settled voltage, where somebody measured it."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from logger.analysis.caution import Cautions
from logger.analysis.phases import Phase
from logger.analysis.refusal import Refused
from logger.analysis.saving import SAME_TEMPERATURE, TemperatureDifference
from logger.analysis.settled import SettledWindow
from logger.analysis.thermodynamics import check_temperature_C
from logger.label_numbers import celsius_in_label
from logger.recording import Recording
from logger.scale import clock_text

__all__ = ["plateau_temperature_C", "temperature_cautions", "temperature_difference"]

CELSIUS = frozenset({"", "degC", "°C", "C", "celsius", "Celsius", "deg C"})
"""How a temperature's unit may be written; the first is a file that says nothing."""

THERMOMETER_UNCERTAINTY_K = 0.3
"""Of the difference of two readings of one thermometer (common practice, no source)."""


def plateau_temperature_C(
    recording: Recording, phase: Phase, window: SettledWindow, cautions: Cautions
) -> float | None:
    """Return the cell's temperature in degrees Celsius during a window, or None where nobody measured it.

    A temperature channel comes first; else the last ``temperature`` moment of the phase.
    """
    found, at_s = _from_channel(recording, window, cautions), window.end_s
    if found is None:
        noted = [
            one
            for one in recording.moments
            if one.kind == "temperature" and phase.begin_s <= one.time_s <= phase.end_s
        ]
        if noted:
            found, at_s = celsius_in_label(noted[-1].label), noted[-1].time_s
        if noted and found is None:
            cautions.say(
                "temperature_not_used",
                f"A temperature was not used: the label “{noted[-1].label}” does not say clearly how many "
                "degrees Celsius. Write it as 22.5.",
                at_s,
            )
    if found is None:
        return None
    try:
        return check_temperature_C(found)
    except Refused as refusal:
        cautions.say("temperature_not_used", f"A temperature was not used: {refusal.explained}.", at_s)
        return None


def temperature_cautions(
    recording: Recording, phases: Mapping[str, Phase | None], measured_C: Mapping[str, float | None]
) -> Cautions:
    """Say which temperatures were noted where they count for no voltage, and what is assumed instead.

    Parameters
    ----------
    recording : Recording
    phases, measured_C : mapping
        The phases ``before`` and ``after``, and the temperature measured in each.
    """
    cautions = Cautions()
    inside = [(one.begin_s, one.end_s) for one in phases.values() if one is not None]
    for one in recording.moments:
        if one.kind == "temperature" and not any(begin <= one.time_s <= end for begin, end in inside):
            cautions.say(
                "temperature_not_used",
                f"The temperature noted at {clock_text(one.time_s)} counts for neither voltage. Note it "
                "while the voltage before, and while the voltage after, settles.",
                one.time_s,
            )
    missing = [name for name, celsius in measured_C.items() if celsius is None]
    if missing:
        cautions.say(
            "temperature_assumed",
            f"Assumed: the cell as warm after as before, within {THERMOMETER_UNCERTAINTY_K:g} K; 2 K more "
            "would look like 4 mV saved. Note the temperature at both voltages.",
        )
    return cautions


def temperature_difference(before_C: float | None, after_C: float | None) -> TemperatureDifference:
    """Return temperature after minus before; 0 +- 0.3 K where one of the two was not measured."""
    if before_C is None or after_C is None:
        return SAME_TEMPERATURE
    return TemperatureDifference(after_C - before_C, THERMOMETER_UNCERTAINTY_K)


def _from_channel(recording: Recording, window: SettledWindow, cautions: Cautions) -> float | None:
    channel = recording.channel("temperature")
    if channel is None:
        return None
    if channel.unit not in CELSIUS:
        cautions.say(
            "temperature_not_used",
            f"The channel {channel.name} is in {channel.unit}, not in degC, and was not used.",
            window.end_s,
        )
        return None
    first = channel.times_s.searchsorted(window.begin_s, "left")
    readings = channel.values[first : channel.times_s.searchsorted(window.end_s, "right")]
    readings = readings[np.isfinite(readings)]
    return float(readings.mean()) if readings.size else None
