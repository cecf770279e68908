"""The current at a settled voltage: by the supply circuit, or by a shunt where there is one."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace

import numpy as np

from logger.analysis.caution import Caution, Cautions
from logger.analysis.current import Current, cell_current_A, current_from_shunt, currents_agree, meter_share
from logger.analysis.current_correction import GREATEST_CURRENT_CHANGE, CellKinetics, voltage_slope_ohm
from logger.analysis.meter_accuracy import MeterAccuracy
from logger.analysis.refusal import Refused
from logger.analysis.run_current import CurrentSource
from logger.analysis.settled import SettledWindow
from logger.analysis.supply import EXTRA_LOW_VOLTAGE_V
from logger.analysis.uncertainty import Combined
from logger.bench_tables import Bench
from logger.label_numbers import ohms_in_label
from logger.moments import Moment
from logger.quantity import significant
from logger.recording import Recording

__all__ = [
    "current_named",
    "other_current",
    "plateau_current",
    "resistor_changes",
    "source_at",
    "steady_stack",
    "unknown_resistors",
]

LEAST_OHM, MOST_OHM = 1.0, 1e8
"""A label outside these is no resistor of the method."""

NOTABLE_METER_SHARE = 0.01
"""Of the current; a smaller one is lost in the tolerance of the resistor (common practice, no source)."""

NOTABLE_SAG = 0.02
"""A part of the stack voltage that changes the charge by as much (common practice, no source)."""

NOTABLE_LOSS = 0.01
"""Of the stack voltage, in words: of alkaline blocks in a lesson (common practice, no source)."""

FAR_FROM = 2.0
"""A shunt across the series resistor shows what the stack leaves over from the cell, whatever its ohms; one
that is off by this factor lies elsewhere (common practice, no source)."""


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


def unknown_resistors(
    changes: Iterable[tuple[float, float | None]], source: CurrentSource
) -> tuple[Caution, ...]:
    """Say at which changes of the resistor nobody can tell its ohms, where they matter."""
    return tuple(
        Caution(
            "resistor_unknown",
            "The resistor was changed, but the label of that moment does not say clearly to how many ohms: "
            "the current is not known from then on. Give the moment a label such as 4.7k.",
            at_s,
        )
        for at_s, resistor_ohm in changes
        if resistor_ohm is None and source.circuit is not None
    )


def source_at(source: CurrentSource, moments: Iterable[Moment], at_s: float) -> CurrentSource:
    """Return where the current comes from at a run time: with the resistor that was last changed to."""
    changed_ohm = [ohm for changed_s, ohm in resistor_changes(moments) if changed_s <= at_s]
    return source.with_resistor(changed_ohm[-1]) if changed_ohm else source


def plateau_current(
    recording: Recording,
    source: CurrentSource,
    window: SettledWindow,
    voltage_uncertainty_V: float,
    meter: MeterAccuracy,
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
    meter : MeterAccuracy
        Of the meter on the cell; the one on the shunt is taken to be as good.
    cautions : Cautions
        Takes what the reader must know.
    """
    at_present = source_at(source, recording.moments, window.begin_s)
    at_present = _with_measured_stack(recording, at_present, window, meter, cautions)
    try:
        computed = at_present.at(window.voltage_V, voltage_uncertainty_V)
    except Refused as refusal:
        cautions.say("no_current", f"The current was not found: {refusal.explained}.", window.end_s)
        return None
    measured = _from_shunt(recording, at_present, window, meter)
    if measured is None:
        return computed
    if computed is None or currents_agree(measured, computed):
        return measured
    measured_mA, computed_mA = 1000.0 * measured.value_A, 1000.0 * computed.value_A
    if not 1.0 / FAR_FROM <= measured_mA / computed_mA <= FAR_FROM:
        cautions.say(
            "shunt_not_used",
            f"The shunt would make {measured_mA:.3g} mA, the supply circuit makes {computed_mA:.3g} mA: it "
            "lies elsewhere than across the series resistor, and is not used. Connect it there, or check its "
            "scale.",
            window.end_s,
        )
        return computed
    cautions.say(
        "currents_disagree",
        f"The shunt gives {measured_mA:.3f} mA, the supply circuit {computed_mA:.3f} mA. Check stack voltage "
        "and resistor; the shunt is used, but charge and gas follow from the circuit.",
        window.end_s,
    )
    return measured


def other_current(before: Current, after: Current) -> Caution | None:
    """Say that two settled voltages belong to different currents; None where one can be corrected for."""
    change = after.value_A / before.value_A - 1.0
    if abs(change) <= GREATEST_CURRENT_CHANGE:
        return None
    percent, most_percent = 100.0 * change, 100.0 * GREATEST_CURRENT_CHANGE
    return Caution(
        "no_saving",
        f"The current changed by {percent:.3g} % between the two voltages, so their difference is not what "
        f"the catalyst saved; up to {most_percent:g} % can be corrected for. Take one resistor for both, "
        "and a stack of more volts.",
    )


def steady_stack(
    recording: Recording, source: CurrentSource, before: SettledWindow, kinetics: CellKinetics
) -> tuple[str, ...]:
    """Return in words what is assumed of the stack between the voltages; nothing where it was measured.

    A stack that lost some of its voltage drives less current, and the cell then needs less voltage, too.
    """
    is_measured = any(recording.channel(role) is not None for role in ("stack_voltage", "shunt_voltage"))
    at_present = source_at(source, recording.moments, before.begin_s).circuit
    if is_measured or at_present is None or before.voltage_V >= at_present.stack_voltage_V:
        return ()
    current_A = cell_current_A(at_present, np.array([before.voltage_V])).item()
    lost = NOTABLE_LOSS * at_present.stack_voltage_V / (at_present.stack_voltage_V - before.voltage_V)
    fall_mV = 1000.0 * lost * current_A * voltage_slope_ohm(current_A, kinetics)
    share, shown = f"{100.0 * NOTABLE_LOSS:g} %", significant(fall_mV, 2, "mV")
    return (f"a stack as strong after as before ({share} less would look like {shown} saved)",)


def current_named(
    name: str,
    recording: Recording,
    source: CurrentSource,
    window: SettledWindow,
    absolute: Combined,
    meter: MeterAccuracy,
    bench: Bench,
    cautions: Cautions,
) -> Current | None:
    """Return the current of the plateau of that name, see `plateau_current`, and say what the meter draws."""
    found = plateau_current(recording, source, window, absolute.standard_uncertainty, meter, cautions)
    input_ohm = bench.meter.input_resistance_ohm
    if found is None or input_ohm is None:
        return found
    percent = 100.0 * meter_share(window.voltage_V, input_ohm, found.value_A)
    if percent > 100.0 * NOTABLE_METER_SHARE:
        cautions.say(
            "meter_loads",
            f"The meter of {input_ohm:.3g} ohm draws {percent:.1f} % of the current {name} beside the cell. "
            "That is not taken off current, charge and gas. Use a meter of 1 Mohm or more.",
            window.end_s,
        )
    return found


def _with_measured_stack(
    recording: Recording,
    source: CurrentSource,
    window: SettledWindow,
    meter: MeterAccuracy,
    cautions: Cautions,
) -> CurrentSource:
    """Return the supply with the stack voltage that was recorded during a window, where one was.

    It is measured under load, so that nothing is lost inside the stack any more.
    """
    found = _mean_in(recording, "stack_voltage", window)
    if found is None or source.circuit is None:
        return source
    stack_V, scatter_V = found
    stated_V = source.circuit.stack_voltage_V
    if not 1.0 / FAR_FROM <= stack_V / stated_V <= FAR_FROM or stack_V > EXTRA_LOW_VOLTAGE_V:
        cautions.say(
            "stack_voltage_not_used",
            f"The recorded stack voltage of {stack_V:.3g} V is far from the {stated_V:.3g} V of the bench "
            "file, and is not used. Check its scale (divider) and supply.stack_voltage_V.",
            window.end_s,
        )
        return source
    if abs(stack_V / stated_V - 1.0) > NOTABLE_SAG:
        cautions.say(
            "stack_sagged",
            f"The stack had {stack_V:.4g} V here, by the bench file {stated_V:.4g} V. The current at this "
            "voltage follows from what was recorded, but charge and gas from the bench file.",
            window.end_s,
        )
    measured = replace(
        source.circuit,
        stack_voltage_V=stack_V,
        stack_voltage_uncertainty_V=math.hypot(scatter_V, meter.single_reading_uncertainty_V(stack_V)),
        internal_resistance_ohm=0.0,
        internal_resistance_uncertainty_ohm=0.0,
    )
    return replace(source, circuit=measured)


def _mean_in(recording: Recording, role: str, window: SettledWindow) -> tuple[float, float] | None:
    """Return mean magnitude and scatter of a channel's readings in a window; None where there are none."""
    channel = recording.channel(role)
    if channel is None:
        return None
    first = channel.times_s.searchsorted(window.begin_s, "left")
    readings = np.abs(channel.values[first : channel.times_s.searchsorted(window.end_s, "right")])
    readings = readings[np.isfinite(readings)]
    if readings.size < 2:
        return None
    # Not over the root of their number: neighbouring readings share the slow noise.
    return float(readings.mean()), float(readings.std(ddof=1))


def _from_shunt(
    recording: Recording, source: CurrentSource, window: SettledWindow, meter: MeterAccuracy
) -> Current | None:
    found = _mean_in(recording, "shunt_voltage", window)
    if found is None or source.circuit is None:
        return None
    shunt_V, scatter_V = found
    return current_from_shunt(
        shunt_V,
        source.circuit.resistor_ohm,
        shunt_voltage_uncertainty_V=math.hypot(scatter_V, meter.single_reading_uncertainty_V(shunt_V)),
        shunt_uncertainty_ohm=source.circuit.resistor_uncertainty_ohm,
    )
