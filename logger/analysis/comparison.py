"""Comparing the settled voltages of two phases: absolute uncertainty, current, and the voltage saved."""

from __future__ import annotations

import math
from dataclasses import dataclass

from logger.analysis.caution import Cautions
from logger.analysis.current import Current
from logger.analysis.current_correction import CellKinetics, CurrentCorrection, current_correction
from logger.analysis.meter_accuracy import MeterAccuracy
from logger.analysis.refusal import Refused
from logger.analysis.rounding import rounding_uncertainty
from logger.analysis.saving import (
    SAME_TEMPERATURE,
    SettledVoltage,
    TemperatureDifference,
    VoltageSaved,
    voltage_saved,
)
from logger.analysis.settled import SettledWindow
from logger.analysis.uncertainty import Combined, Component, combine

__all__ = ["BudgetLine", "budget_lines", "compare", "from_readings", "with_digits", "with_meter"]


EXACT = MeterAccuracy()


@dataclass(frozen=True, slots=True)
class BudgetLine:
    """One line of the budget as reported: what, how evaluated (A or B), and its share in volts."""

    source: str
    evaluation: str
    standard_uncertainty_V: float


def from_readings(window: SettledWindow) -> Combined:
    """Return the uncertainty of a settled voltage from its own readings: scatter, drift and start-up."""
    return combine(_plain(window, EXACT).components())


def with_digits(window: SettledWindow, meter: MeterAccuracy) -> Combined:
    """Return the uncertainty of a settled voltage from its readings and their digits, not the meter's own."""
    return combine((*_plain(window, EXACT).components(), _digits(window, meter)))


def with_meter(window: SettledWindow, meter: MeterAccuracy) -> Combined:
    """Return the uncertainty of a settled voltage as an absolute one, meter and its digits included."""
    accuracy_V = meter.single_reading_uncertainty_V(window.voltage_V)
    return combine(
        (
            *_plain(window, meter).components(),
            Component("meter", accuracy_V, shape="rectangular"),
            _digits(window, meter),
        )
    )


def _digits(window: SettledWindow, meter: MeterAccuracy) -> Component:
    return Component("resolution", _rounding_V(window, meter), shape="rectangular")


def _rounding_V(window: SettledWindow, meter: MeterAccuracy) -> float:
    level_V = window.voltage_V if meter.in_whole_counts else None
    return rounding_uncertainty(window.deviation_V, meter.resolution_V, level_V, window.spread_V)


def compare(
    before: SettledWindow,
    after: SettledWindow,
    meter: MeterAccuracy,
    currents: tuple[Current, Current] | None,
    kinetics: CellKinetics,
    cautions: Cautions,
    *,
    temperature: TemperatureDifference = SAME_TEMPERATURE,
    meter_after: MeterAccuracy | None = None,
) -> VoltageSaved | None:
    """Return the voltage saved, or None with a caution where the two cannot be compared.

    Parameters
    ----------
    before, after : SettledWindow
    meter : MeterAccuracy
    currents : pair of Current, optional
        At the two plateaus. None: the saving is stated as measured only.
    kinetics : CellKinetics
        For the correction to equal current.
    cautions : Cautions
        Takes what the reader must know.
    temperature : TemperatureDifference
        After minus before.
    meter_after : MeterAccuracy, optional
        Of the other meter, or range, that read `after`: then accuracy counts for each. None: the same one.
    """
    correction = None if currents is None else _correction(currents, kinetics, cautions)
    try:
        return voltage_saved(
            _plain(before, meter),
            _plain(after, meter_after or meter),
            meter,
            correction=correction,
            temperature=temperature,
            meter_after=meter_after,
        )
    except Refused as refusal:
        cautions.say("no_saving", f"The two voltages were not compared: {refusal.explained}.")
        return None


def budget_lines(saved: VoltageSaved) -> tuple[BudgetLine, ...]:
    """Return the budget of the saving, at equal current where it is stated so."""
    combined = (saved.at_equal_current or saved.raw).combined
    return tuple(BudgetLine(one.name, one.evaluation, one.contribution) for one in combined.components)


def _plain(window: SettledWindow, meter: MeterAccuracy) -> SettledVoltage:
    return SettledVoltage(
        window.voltage_V,
        window.scatter_uncertainty_V,
        window.scatter_freedom,
        window.is_settled,
        _rounding_V(window, meter),
        window.drift_uncertainty_V,
        window.start_up_uncertainty_V,
    )


def _correction(
    currents: tuple[Current, Current], kinetics: CellKinetics, cautions: Cautions
) -> CurrentCorrection | None:
    before, after = currents
    if math.isclose(before.value_A, after.value_A, rel_tol=1e-12):
        return CurrentCorrection(0.0, 0.0, 0.0, is_assumed=False)
    try:
        return current_correction(before.value_A, after.value_A, kinetics)
    except Refused as refusal:
        cautions.say(
            "no_equal_current", f"The saving could not be stated at equal current: {refusal.explained}."
        )
        return None
