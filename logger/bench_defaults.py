"""What is calculated with where the bench file is silent, and the words that say so.

Each function returns its values together with what was assumed; whoever reports a result repeats that.
"""

from __future__ import annotations

from dataclasses import dataclass

from logger.analysis.current_correction import (
    DEFAULT_KINETICS,
    CellKinetics,
    estimated_ohmic_resistance_ohm,
)
from logger.analysis.meter_accuracy import MeterAccuracy
from logger.analysis.supply import SupplyCircuit, resistor_uncertainty_ohm
from logger.analysis.uncertainty import rectangular_standard_uncertainty
from logger.bench_tables import Bench, Cell, Meter, Supply

__all__ = [
    "ASSUMED_INTERNAL_RESISTANCE_OHM",
    "ASSUMED_PRESSURE_KPA",
    "ASSUMED_TEMPERATURE_C",
    "ASSUMED_TOLERANCE_PERCENT",
    "BenchAccuracy",
    "BenchCircuit",
    "BenchKinetics",
    "Conditions",
    "bench_accuracy",
    "bench_circuit",
    "bench_conditions",
    "bench_kinetics",
]

ASSUMED_TEMPERATURE_C = 22.0
ASSUMED_PRESSURE_KPA = 101.325
ASSUMED_TOLERANCE_PERCENT = 5.0
"""Of a resistor of the E24 series (IEC 60063)."""

ASSUMED_INTERNAL_RESISTANCE_OHM = 6.0
"""Of a stack, known to lie between 0 and 12 ohm (common practice, no source)."""

_DECLARED_STACK_LIMIT = 0.10  # batteries as declared, fresh to half used; common practice, no source
_UNKNOWN_METER_LIMIT = 0.01  # stack voltage measured by a meter of unknown accuracy; common practice
_OHMIC_ESTIMATE_LIMIT = 0.5  # straight field lines between two plates; common practice


@dataclass(frozen=True, slots=True)
class Conditions:
    """Temperature and pressure of the cell, and in words what was assumed of them."""

    temperature_C: float
    pressure_kPa: float
    assumed: tuple[str, ...] = ()

    @property
    def pressure_Pa(self) -> float:
        """The pressure in pascal."""
        return 1000.0 * self.pressure_kPa


@dataclass(frozen=True, slots=True)
class BenchCircuit:
    """The supply circuit of the bench.

    `circuit` is None where something it needs is not given: `missing` names the keys. `assumed` says in
    words what stands in for other keys.
    """

    circuit: SupplyCircuit | None
    missing: tuple[str, ...] = ()
    assumed: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class BenchAccuracy:
    """The accuracy of the meter. `missing` names the keys without which it is understated."""

    accuracy: MeterAccuracy
    missing: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class BenchKinetics:
    """How the voltage follows the current, and in words what was assumed."""

    kinetics: CellKinetics
    assumed: tuple[str, ...]


def bench_conditions(bench: Bench) -> Conditions:
    """Return temperature and pressure of the cell; 22 degC and 101.325 kPa where they are not given."""
    temperature_C, pressure_kPa = bench.cell.temperature_C, bench.cell.pressure_kPa
    assumed: list[str] = []
    if temperature_C is None:
        temperature_C = ASSUMED_TEMPERATURE_C
        assumed.append(f"the cell at {temperature_C:g} °C")
    if pressure_kPa is None:
        pressure_kPa = ASSUMED_PRESSURE_KPA
        assumed.append(f"an air pressure of {pressure_kPa:g} kPa")
    return Conditions(temperature_C, pressure_kPa, tuple(assumed))


def bench_circuit(bench: Bench) -> BenchCircuit:
    """Return the supply circuit with its uncertainties.

    Needs `resistor_ohm` and either `stack_voltage_V` or `cells` and `cell_voltage_V`. A tolerance, an
    internal resistance or an accuracy that is not given is assumed. A supply that holds the current itself
    (`current_A`) has no circuit: its `missing` says ``resistor_ohm``.
    """
    supply = bench.supply
    stack_V = supply.best_stack_voltage_V
    missing = tuple(
        key
        for key, value in (("supply.stack_voltage_V", stack_V), ("supply.resistor_ohm", supply.resistor_ohm))
        if value is None
    )
    if stack_V is None or supply.resistor_ohm is None:
        return BenchCircuit(None, missing)
    assumed: list[str] = []
    internal_ohm, internal_uncertainty_ohm = _internal_resistance(supply, assumed)
    tolerance_percent = supply.resistor_tolerance_percent
    if tolerance_percent is None:
        tolerance_percent = ASSUMED_TOLERANCE_PERCENT
        assumed.append(f"a resistor tolerance of {tolerance_percent:g} %")
    circuit = SupplyCircuit(
        stack_voltage_V=stack_V,
        resistor_ohm=supply.resistor_ohm,
        internal_resistance_ohm=internal_ohm,
        stack_voltage_uncertainty_V=_stack_uncertainty_V(stack_V, bench, assumed),
        resistor_uncertainty_ohm=resistor_uncertainty_ohm(supply.resistor_ohm, tolerance_percent),
        internal_resistance_uncertainty_ohm=internal_uncertainty_ohm,
    )
    return BenchCircuit(circuit, (), tuple(assumed))


def bench_accuracy(meter: Meter) -> BenchAccuracy:
    """Return the meter's accuracy statement; what is not given counts as zero and is named in `missing`.

    A digit shown stands for 1/gain of it at the cell.
    """
    keys = ("accuracy_percent_of_reading", "accuracy_counts", "resolution_V")
    values = [getattr(meter, key) for key in keys]
    missing = tuple(f"meter.{key}" for key, value in zip(keys, values, strict=True) if value is None)
    percent, counts, resolution_V = (0.0 if value is None else value for value in values)
    return BenchAccuracy(MeterAccuracy(percent, counts, resolution_V / (meter.gain or 1.0)), missing)


def bench_kinetics(cell: Cell) -> BenchKinetics:
    """Return Tafel slope and ohmic resistance for the current correction.

    The slope is always assumed (see `logger.analysis.current_correction.DEFAULT_KINETICS`); the resistance
    follows from spacing and area where both are given, as a rough estimate.
    """
    slope = DEFAULT_KINETICS.tafel_slope_V_per_decade
    spread = DEFAULT_KINETICS.tafel_slope_uncertainty_V_per_decade
    words = f"Tafel slopes of {1000 * slope:g} ± {1000 * spread:g} mV per decade together"
    if cell.spacing_mm is None or cell.anode_area_cm2 is None:
        ohm = DEFAULT_KINETICS.ohmic_resistance_ohm
        return BenchKinetics(DEFAULT_KINETICS, (words, f"an ohmic resistance of 0 to {2 * ohm:g} Ω"))
    ohm = estimated_ohmic_resistance_ohm(cell.spacing_mm, cell.anode_area_cm2)
    uncertainty_ohm = rectangular_standard_uncertainty(_OHMIC_ESTIMATE_LIMIT * ohm)
    kinetics = CellKinetics(slope, spread, ohm, uncertainty_ohm, is_assumed=True)
    return BenchKinetics(kinetics, (words, f"an ohmic resistance of {ohm:.3g} Ω from spacing and area"))


def _internal_resistance(supply: Supply, assumed: list[str]) -> tuple[float, float]:
    if supply.internal_resistance_ohm is not None:
        return supply.internal_resistance_ohm, 0.0
    ohm = ASSUMED_INTERNAL_RESISTANCE_OHM
    assumed.append(f"an internal resistance of 0 to {2 * ohm:g} Ω")
    return ohm, rectangular_standard_uncertainty(ohm)


def _stack_uncertainty_V(stack_V: float, bench: Bench, assumed: list[str]) -> float:
    if bench.supply.stack_voltage_V is None:
        assumed.append(f"a stack of {stack_V:g} V as declared, within {100 * _DECLARED_STACK_LIMIT:g} %")
        return rectangular_standard_uncertainty(_DECLARED_STACK_LIMIT * stack_V)
    accuracy = bench_accuracy(bench.meter)
    if accuracy.missing:
        assumed.append(f"a stack voltage measured within {100 * _UNKNOWN_METER_LIMIT:g} %")
        return rectangular_standard_uncertainty(_UNKNOWN_METER_LIMIT * stack_V)
    return accuracy.accuracy.single_reading_uncertainty_V(stack_V)
