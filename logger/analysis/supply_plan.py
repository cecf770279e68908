"""Sizing the supply of a run: stack, resistor, ratings, fuse, meter, batteries and hydrogen."""

from __future__ import annotations

from dataclasses import asdict, dataclass, replace
from typing import Any, Literal

from logger.analysis.caution import Caution, Cautions
from logger.analysis.current import meter_share
from logger.analysis.current_correction import GREATEST_CURRENT_CHANGE
from logger.analysis.evidence import ASSUMED_INPUT_RESISTANCE_OHM
from logger.analysis.planned_current import (
    AFTER_V,
    BEFORE_V,
    Hydrogen,
    PlannedCurrent,
    PlannedResistor,
    planned_current,
    planned_hydrogen,
    require_density,
)
from logger.analysis.planned_parts import (
    BatteryLife,
    DryCell,
    Fuse,
    ResistorHeat,
    battery_life,
    dry_cell,
    planned_fuse,
    resistor_heat,
)
from logger.analysis.refusal import Refused, require_within
from logger.analysis.resistor import SERIES_TOLERANCE_PERCENT, nearest_preferred_ohm
from logger.analysis.states import state_thresholds
from logger.analysis.supply import STACK_AGREEMENT, SupplyCircuit, stack_deviation, wanted_resistor_ohm
from logger.analysis.thermodynamics import cell_thermodynamics
from logger.bench_defaults import bench_circuit, bench_conditions
from logger.bench_rules import SECTIONS, Number
from logger.bench_tables import Bench, Supply
from logger.version import PROGRAM, VERSION

__all__ = [
    "ASSUMED_SUPPLY",
    "SupplyPlan",
    "plan_supply",
]

ASSUMED_SUPPLY = Supply(cells=3, cell_voltage_V=9.0)
"""Three nine-volt blocks, where the bench file names no stack (common practice, no source)."""

_WEAK_REGULATION = 0.02
_SERIES = ("E24", "E96")


@dataclass(frozen=True, slots=True)
class SupplyPlan:
    """The sized supply.

    Attributes
    ----------
    wanted_current_A : float or None
        None where only the bench file's own resistor is judged.
    stack_voltage_V : float or None
        None for a supply that holds the current itself, and so with all that belongs to a resistor.
    stack_source : {"measured", "declared", "assumed"} or None
    internal_resistance_ohm : float or None
    wanted_resistor_ohm : float or None
    resistor : PlannedResistor or None
        The one planned with.
    alternatives : tuple of PlannedResistor
        The nearest of other series, and the one of the bench file.
    current : PlannedCurrent
    heat : ResistorHeat or None
    fuse : Fuse or None
    dry_cell : DryCell or None
    meter_share_percent : float or None
        What flows through the meter beside the cell.
    batteries : BatteryLife or None
    hydrogen : Hydrogen
    assumed : tuple of str
        What stands in for values the bench file does not give, in words.
    cautions : tuple of Caution
    """

    wanted_current_A: float | None
    stack_voltage_V: float | None
    stack_source: Literal["measured", "declared", "assumed"] | None
    internal_resistance_ohm: float | None
    wanted_resistor_ohm: float | None
    resistor: PlannedResistor | None
    alternatives: tuple[PlannedResistor, ...]
    current: PlannedCurrent
    heat: ResistorHeat | None
    fuse: Fuse | None
    dry_cell: DryCell | None
    meter_share_percent: float | None
    batteries: BatteryLife | None
    hydrogen: Hydrogen
    assumed: tuple[str, ...]
    cautions: tuple[Caution, ...]

    @property
    def document(self) -> dict[str, Any]:
        """The plan as plain data: the fields of these classes by name, with program and version."""
        return {
            "program": PROGRAM,
            "version": VERSION,
            "cell_voltage_before_V": BEFORE_V,
            "cell_voltage_after_V": AFTER_V,
            **asdict(self),
        }


def plan_supply(bench: Bench, current_A: float | None = None) -> SupplyPlan:
    """Size the supply for a wanted current, or judge the one of the bench file.

    Parameters
    ----------
    bench : Bench
        What is known; an empty one is planned with three nine-volt blocks.
    current_A : float, optional
        Wanted at `BEFORE_V`; see `checked_current_A`. None: what the bench file's resistor or
        constant-current supply gives.

    Returns
    -------
    SupplyPlan

    Raises
    ------
    Refused
        No current and no resistor; a stack that cannot drive it; a resistor outside 100 ohm to 10 Mohm; a
        density above 500 mA/cm2.
    """
    if current_A is None and bench.supply.resistor_ohm is None and bench.supply.current_A is None:
        raise Refused(
            "current",
            "none",
            "nothing says how large it shall be",
            "give --current, --current-density, or [supply] resistor_ohm in a bench file",
        )
    return _Plan(bench, current_A).made()


class _Plan:
    """One plan in progress."""

    def __init__(self, bench: Bench, current_A: float | None) -> None:
        self._bench = bench
        self._wanted_A = current_A
        self._cautions = Cautions()
        self._assumed: list[str] = [f"a cell at {BEFORE_V:g} V before and {AFTER_V:.2f} V after the catalyst"]
        self._conditions = bench_conditions(bench)
        self._assumed += self._conditions.assumed

    def made(self) -> SupplyPlan:
        if self._bench.supply.current_A is not None:
            return self._held_current()
        stack, source = self._stack()
        wanted_ohm = None if self._wanted_A is None else self._wanted_resistor_ohm(stack)
        chosen, others = self._resistors(stack, wanted_ohm)
        circuit = self._circuit(stack, chosen.resistor_ohm)
        heat = resistor_heat(circuit, BEFORE_V, self._bench.supply.resistor_rating_W)
        current = planned_current(circuit, self._area_cm2())
        dry = dry_cell(circuit, self._bench.meter)
        self._tell_heat(heat)
        self._tell_circuit(circuit, current, dry)
        return self._plan(
            current,
            stack_voltage_V=circuit.stack_voltage_V,
            stack_source=source,
            internal_resistance_ohm=circuit.internal_resistance_ohm,
            wanted_resistor_ohm=wanted_ohm,
            resistor=chosen,
            alternatives=others,
            heat=heat,
            fuse=planned_fuse(circuit, BEFORE_V),
            dry_cell=dry,
            batteries=battery_life(stack, current.before_A),
        )

    def _held_current(self) -> SupplyPlan:
        current_A = self._bench.supply.current_A if self._wanted_A is None else self._wanted_A
        assert current_A is not None
        density = require_density(current_A, self._area_cm2())
        current = PlannedCurrent(current_A, current_A, 0.0, 0.0, density)
        self._cautions.say(
            "constant_current_supply",
            "A supply that holds the current shows its highest voltage on a dry cell: set its voltage limit "
            "to what the meter bears, and never above 60 V.",
        )
        return self._plan(current)

    def _plan(self, current: PlannedCurrent, **parts: Any) -> SupplyPlan:
        blank: dict[str, Any] = dict.fromkeys((
            "stack_voltage_V", "stack_source", "internal_resistance_ohm", "wanted_resistor_ohm", "resistor",
            "heat", "fuse", "dry_cell", "batteries",
        ))  # fmt: skip
        hydrogen = planned_hydrogen(current.before_A, self._bench.cell.headspace_mL, self._conditions)
        return SupplyPlan(
            **{**blank, "alternatives": (), **parts},
            wanted_current_A=self._wanted_A,
            current=current,
            meter_share_percent=self._meter_share(current.before_A),
            hydrogen=hydrogen,
            assumed=tuple(self._assumed),
            cautions=self._cautions.all,
        )

    def _stack(self) -> tuple[Supply, Literal["measured", "declared", "assumed"]]:
        supply = self._bench.supply
        if supply.stack_voltage_V is not None:
            self._check_declared(supply, supply.stack_voltage_V)
            return supply, "measured"
        if supply.declared_stack_voltage_V is not None:
            return supply, "declared"
        self._assumed.append("a stack of three nine-volt blocks")
        cells, volts = ASSUMED_SUPPLY.cells, ASSUMED_SUPPLY.cell_voltage_V
        return replace(supply, cells=cells, cell_voltage_V=volts), "assumed"

    def _check_declared(self, supply: Supply, measured_V: float) -> None:
        if supply.cells is None or supply.cell_voltage_V is None:
            return
        share = stack_deviation(supply.cells, supply.cell_voltage_V, measured_V)
        if abs(share) > STACK_AGREEMENT:
            deviation = f"{100 * share:+.0f}".replace("-", "−")
            self._cautions.say(
                "stack_voltage_differs",
                f"The stack measures {measured_V:g} V, {deviation} % from its batteries as "
                "declared; look for one that is empty or turned round.",
            )

    def _wanted_resistor_ohm(self, stack: Supply) -> float:
        stack_V, wanted_A = stack.best_stack_voltage_V, self._wanted_A
        assert stack_V is not None
        assert wanted_A is not None
        ohm = wanted_resistor_ohm(stack_V, BEFORE_V, wanted_A, self._internal_ohm(stack))
        rule = SECTIONS["supply"]["resistor_ohm"]
        assert isinstance(rule, Number)
        return require_within("series resistor in ohm", ohm, rule.low, rule.high, rule.reason)

    def _internal_ohm(self, stack: Supply) -> float:
        circuit = bench_circuit(replace(self._bench, supply=replace(stack, resistor_ohm=1e3))).circuit
        assert circuit is not None
        return circuit.internal_resistance_ohm

    def _resistors(
        self, stack: Supply, wanted_ohm: float | None
    ) -> tuple[PlannedResistor, tuple[PlannedResistor, ...]]:
        own_ohm = self._bench.supply.resistor_ohm
        own = [] if own_ohm is None else [self._resistor(stack, own_ohm, "bench")]
        if wanted_ohm is None:
            return own[0], ()
        offers = [
            self._resistor(stack, nearest_preferred_ohm(wanted_ohm, series), series) for series in _SERIES
        ]
        tolerance = self._bench.supply.resistor_tolerance_percent
        if tolerance is not None and tolerance <= SERIES_TOLERANCE_PERCENT["E96"]:
            offers.reverse()
        return offers[0], (*offers[1:], *own)

    def _resistor(self, stack: Supply, ohm: float, series: str) -> PlannedResistor:
        stack_V = stack.best_stack_voltage_V
        assert stack_V is not None
        circuit = SupplyCircuit(stack_V, ohm, self._internal_ohm(stack))
        circuit.check_drive(BEFORE_V)
        current_A = circuit.current_A(BEFORE_V)
        deviation = None if self._wanted_A is None else 100.0 * (current_A / self._wanted_A - 1.0)
        return PlannedResistor(ohm, series, current_A, deviation)

    def _circuit(self, stack: Supply, resistor_ohm: float) -> SupplyCircuit:
        found = bench_circuit(replace(self._bench, supply=replace(stack, resistor_ohm=resistor_ohm)))
        assert found.circuit is not None
        self._assumed += found.assumed
        return found.circuit

    def _area_cm2(self) -> float | None:
        area_cm2 = self._bench.cell.anode_area_cm2
        if area_cm2 is None:
            self._cautions.say(
                "area_unknown", "The current density needs [cell] anode_area_cm2 in the bench file."
            )
        return area_cm2

    def _meter_share(self, current_A: float) -> float:
        input_ohm = self._bench.meter.input_resistance_ohm
        if input_ohm is None:
            input_ohm = ASSUMED_INPUT_RESISTANCE_OHM
            self._assumed.append(f"a meter of {input_ohm / 1e6:g} Mohm")
        share = 100.0 * meter_share(BEFORE_V, input_ohm, current_A)
        if share > 1.0:
            self._cautions.say(
                "meter_loads_cell",
                f"{share:.1f} % of the current would flow through the meter beside the cell; take one of "
                "higher input resistance.",
            )
        return share

    def _tell_heat(self, heat: ResistorHeat) -> None:
        if heat.stated_rating_bears is False:
            self._cautions.say(
                "rating_too_small",
                f"The {heat.stated_rating_W:g} W of the bench file are not enough here: touching "
                f"electrodes would put {heat.touching_power_W:.2g} W into it.",
            )

    def _tell_circuit(self, circuit: SupplyCircuit, current: PlannedCurrent, dry: DryCell) -> None:
        rise = current.rise_percent / 100.0
        if rise > _WEAK_REGULATION:
            wanted_V = BEFORE_V + (BEFORE_V - AFTER_V) / _WEAK_REGULATION
            beyond = (
                "; the two voltages could not be compared at all" if rise > GREATEST_CURRENT_CHANGE else ""
            )
            self._cautions.say(
                "weak_regulation",
                f"The current would rise by {100 * rise:.1f} % as the voltage falls{beyond}. A stack of "
                f"{wanted_V:.0f} V or more holds it within {100 * _WEAK_REGULATION:g} %.",
            )
        if dry.advice:
            code = "meter_range_unknown" if dry.range_V is None else "dry_cell_exceeds_meter"
            self._cautions.say(code, dry.advice)
        standard = cell_thermodynamics(self._conditions.temperature_C, self._conditions.pressure_Pa)
        try:
            state_thresholds(standard.reversible_voltage_V, dry.reading_V)
        except Refused:
            self._cautions.say(
                "open_cell_not_recognised",
                f"An open cell would read only {dry.reading_V:.1f} V, which cannot be told from a poor "
                "contact; tag every lift-out, or take more batteries.",
            )
