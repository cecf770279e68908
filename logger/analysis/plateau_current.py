"""The current at a settled voltage: by the supply circuit, or by a shunt where there is one."""

from __future__ import annotations

import math
from collections.abc import Iterable

import numpy as np

from logger.analysis.caution import Cautions
from logger.analysis.current import Current, current_from_shunt, currents_agree
from logger.analysis.refusal import Refused
from logger.analysis.run_current import CurrentSource
from logger.analysis.settled import SettledWindow
from logger.label_numbers import ohms_in_label
from logger.moments import Moment
from logger.recording import Recording

__all__ = ["plateau_current", "resistor_changes", "source_at"]

LEAST_OHM, MOST_OHM = 1.0, 1e8
"""A label outside these is no resistor of the method."""


def resistor_changes(moments: Iterable[Moment]) -> tuple[tuple[float, float | None], ...]:
    """Return when the resistor was changed, and to how many ohms; None where the label does not say clearly.

    See `logger.label_numbers.ohms_in_label`.
    """
    changes = []
    for moment in moments:
        if moment.kind != "resistor_changed":
            continue
        ohm = ohms_in_label(moment.label)
        changes.append((moment.time_s, ohm if ohm is not None and LEAST_OHM <= ohm <= MOST_OHM else None))
    return tuple(changes)


def source_at(source: CurrentSource, moments: Iterable[Moment], at_s: float) -> CurrentSource:
    """Return where the current comes from at a run time: with the resistor that was last changed to."""
    changed_ohm = [ohm for changed_s, ohm in resistor_changes(moments) if changed_s <= at_s]
    return source.with_resistor(changed_ohm[-1]) if changed_ohm else source


def plateau_current(
    recording: Recording,
    source: CurrentSource,
    window: SettledWindow,
    voltage_uncertainty_V: float,
    cautions: Cautions,
) -> Current | None:
    """Return the current during a settled window, or None where nothing tells it.

    Parameters
    ----------
    recording : Recording
        Its shunt channel, if any, is taken to lie across the series resistor.
    source : CurrentSource
        The supply by the bench file.
    window : SettledWindow
    voltage_uncertainty_V : float
        Standard uncertainty of the settled voltage, in volts.
    cautions : Cautions
        Takes what the reader must know.
    """
    at_present = source_at(source, recording.moments, window.begin_s)
    try:
        computed = at_present.at(window.voltage_V, voltage_uncertainty_V)
    except Refused as refusal:
        cautions.say("no_current", f"The current was not found: {refusal.explained}.", window.end_s)
        return None
    measured = _from_shunt(recording, at_present, window)
    if measured is None:
        return computed
    if computed is not None and not currents_agree(measured, computed):
        cautions.say(
            "currents_disagree",
            f"The shunt gives {1000 * measured.value_A:.3f} mA, the supply circuit "
            f"{1000 * computed.value_A:.3f} mA. Check stack voltage and resistor; the shunt is used.",
            window.end_s,
        )
    return measured


def _from_shunt(recording: Recording, source: CurrentSource, window: SettledWindow) -> Current | None:
    shunt = recording.channel("shunt_voltage")
    if shunt is None or source.circuit is None:
        return None
    first = shunt.times_s.searchsorted(window.begin_s, "left")
    readings = np.abs(shunt.values[first : shunt.times_s.searchsorted(window.end_s, "right")])
    readings = readings[np.isfinite(readings)]
    if readings.size < 2:
        return None
    scatter_V = float(readings.std(ddof=1)) / math.sqrt(readings.size)
    return current_from_shunt(
        float(readings.mean()),
        source.circuit.resistor_ohm,
        shunt_voltage_uncertainty_V=scatter_V,
        shunt_uncertainty_ohm=source.circuit.resistor_uncertainty_ohm,
    )
