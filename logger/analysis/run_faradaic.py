"""How much of the charge of a run was found again as gas that somebody measured."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from logger.analysis.caution import Caution, Cautions
from logger.analysis.charge import Charge
from logger.analysis.constants import ZERO_CELSIUS_K
from logger.analysis.gas import FaradaicEfficiency, Gas, faradaic_efficiency
from logger.analysis.gas_notes import GasReading, gas_readings
from logger.analysis.refusal import Refused
from logger.analysis.run_analysis import RunAnalysis
from logger.analysis.run_charge import charge_of_run
from logger.analysis.uncertainty import rectangular_standard_uncertainty
from logger.recording import Recording

__all__ = ["RunFaradaic", "faradaic_of"]

THERMOMETER_K = 0.3
"""Standard uncertainty of the temperature of the gas (common practice, no source)."""

USUAL_VOLTAGE_V = 2.0
"""Where no voltage settled: the relative uncertainty of the current hardly depends on it."""


@dataclass(frozen=True, slots=True)
class MeasuredGas:
    """One gas: its efficiency, the volume and the charge that it follows from, and from when to when."""

    gas: Gas
    found: FaradaicEfficiency
    volume_mL: float
    begin_s: float
    end_s: float
    charge_C: float
    conditions: str

    @property
    def document(self) -> dict[str, Any]:
        """As it stands in the findings."""
        return {
            "value": self.found.value,
            "standard_uncertainty": self.found.standard_uncertainty,
            "volume_mL": self.volume_mL,
            "amount_mol": self.found.amount_mol,
            "charge_C": self.charge_C,
            "begin_s": self.begin_s,
            "end_s": self.end_s,
            "conditions": self.conditions,
        }


@dataclass(frozen=True, slots=True)
class RunFaradaic:
    """The Faradaic efficiencies of a run, and what must be said about them."""

    measured: tuple[MeasuredGas, ...]
    cautions: tuple[Caution, ...]

    @property
    def document(self) -> dict[str, Any] | None:
        """The object ``faradaic_efficiency`` of the findings, by gas; None where no gas was measured."""
        return {one.gas: one.document for one in self.measured} or None


def faradaic_of(recording: Recording, analysis: RunAnalysis) -> RunFaradaic:
    """Compare the volumes of gas noted in a run with its charge.

    Parameters
    ----------
    recording : Recording
        Its notes hold the volumes; see `logger.analysis.gas_notes`.
    analysis : RunAnalysis
        Of the same recording.

    Returns
    -------
    RunFaradaic
        Never raises for what the data hold.

    Notes
    -----
    One reading of a gas counts from the beginning of the run; of several, the last less the first counts,
    with the charge between them. The gas is at the temperature of the cell, saturated with vapour. The
    uncertainty holds that of the volume, of the current, of the gaps and of the temperature.
    """
    cautions = Cautions()
    readings = gas_readings(recording.moments, cautions)
    measured = []
    for gas in ("hydrogen", "oxygen"):
        of_one = [one for one in readings if one.gas == gas]
        if not of_one:
            continue
        try:
            measured.append(_measured(recording, analysis, of_one))
        except Refused as refusal:
            cautions.say(
                "no_faradaic_efficiency",
                f"No Faradaic efficiency from the {gas}: {refusal.explained}.",
                of_one[-1].time_s,
            )
    return RunFaradaic(tuple(measured), cautions.all)


def _measured(recording: Recording, analysis: RunAnalysis, readings: Sequence[GasReading]) -> MeasuredGas:
    last = readings[-1]
    first = readings[0] if len(readings) > 1 else GasReading(0.0, last.gas, 0.0, 0.0)
    volume_mL = last.volume_mL - first.volume_mL
    passed = _charge_between(recording, analysis, first.time_s, last.time_s)
    conditions = analysis.thermodynamics
    return MeasuredGas(
        gas=last.gas,
        found=faradaic_efficiency(
            volume_mL,
            passed.best_C,
            conditions.temperature_C,
            conditions.pressure_Pa,
            gas=last.gas,
            water_column_mm=last.column_mm,
            relative_standard_uncertainty=math.hypot(
                math.hypot(first.uncertainty_mL, last.uncertainty_mL) / volume_mL if volume_mL > 0 else 0.0,
                _current_share(analysis),
                _gap_share(passed),
                THERMOMETER_K / (conditions.temperature_C + ZERO_CELSIUS_K),
            ),
        ),
        volume_mL=volume_mL,
        begin_s=first.time_s,
        end_s=last.time_s,
        charge_C=passed.best_C,
        conditions=f"over water, {conditions.temperature_C:g} degC, {conditions.pressure_Pa / 1000.0:g} kPa",
    )


def _charge_between(recording: Recording, analysis: RunAnalysis, begin_s: float, end_s: float) -> Charge:
    passed = None
    if analysis.evidence is not None and analysis.charge is not None:
        between = (begin_s, end_s)
        passed = charge_of_run(recording, analysis.source, analysis.evidence, Cautions(), between=between)
    if passed is None or passed.best_C <= 0.0:
        raise Refused(
            "charge in C",
            "none" if passed is None else passed.best_C,
            f"no charge is known from {begin_s:.0f} s to {end_s:.0f} s",
            "give the supply in the bench file, and note the volume when the gas has been collected",
        )
    return passed


def _current_share(analysis: RunAnalysis) -> float:
    """Return the relative standard uncertainty of the current, at a settled voltage where there is one."""
    currents = [one.current for one in analysis.plateaus.values() if one.current is not None]
    if not currents:
        usual = analysis.source.at(USUAL_VOLTAGE_V)
        currents = [] if usual is None else [usual]
    return max((one.standard_uncertainty_A / one.value_A for one in currents if one.value_A > 0), default=0.0)


def _gap_share(passed: Charge) -> float:
    """Return what the gaps leave open: between nothing and the most that the supply can drive."""
    high_C = passed.best_C if passed.high_C is None else passed.high_C
    return rectangular_standard_uncertainty(0.5 * max(high_C - passed.low_C, 0.0)) / passed.best_C
