"""The simulated cell: what a meter across it would read at any instant of a lesson, and the truth."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

import numpy as np
from numpy.typing import NDArray

from drivers.samples import TaggedMoment
from drivers.simulated import counted_noise
from drivers.simulated.disturbance import Disturbances, find_noise
from drivers.simulated.lesson import Circuit, Outage, Plan, Timeline, find_plan
from drivers.simulated.lesson_fault import check_faults
from drivers.simulated.physics import (
    CellBuild,
    OperatingPoint,
    Supply,
    operate_at_current,
    operate_on_supply,
    reversible_voltage_V,
)

__all__ = ["LessonCell"]

Array = NDArray[np.float64]

TOUCHING_V = 0.005
OFF_FIRST_V, OFF_LAST_V, OFF_TIME_S = 1.5, 0.8, 20.0
HALF_DIPPED_PART = 0.25
DROPOUT_PART = 1e-3
_DROPOUT_STREAM, _RESISTOR_STREAM = 100, 101  # apart from the streams of the disturbances


class LessonCell:
    """A cell in one invented lesson. Every reading is a function of time alone.

    Parameters
    ----------
    lesson : ``demo``, ``blank``, ``bench``, ``stability``, or a plan of one's own.
    seed : which of the possible lessons; the same seed gives the same readings everywhere.
    noise : ``quiet``, ``lesson`` or ``rough`` (see `disturbance.NOISES`).
    faults : names from `lesson_fault.FAULTS`.

    Raises
    ------
    AddressError : an unknown lesson, noise or fault.
    """

    def __init__(
        self,
        lesson: str | Plan = "demo",
        seed: int = 0,
        noise: str = "lesson",
        faults: Iterable[str] = (),
        *,
        build: CellBuild | None = None,
        supply: Supply | None = None,
    ) -> None:
        self.seed = seed
        self.noise = noise
        self.faults = check_faults(faults)
        self.build = build or CellBuild()
        self.supply = supply or Supply()
        plan = find_plan(lesson) if isinstance(lesson, str) else lesson
        self._timeline = Timeline(plan, self.faults)
        self._disturbances = Disturbances(find_noise(noise), seed, self._timeline.end_s)
        self._decimals = 2 if "rounded_10mV" in self.faults else 3 if "rounded_1mV" in self.faults else None

    @property
    def duration_s(self) -> float:
        """How long the lesson lasts, in run seconds. The cell may be read for longer."""
        return self._timeline.end_s

    @property
    def moments(self) -> tuple[TaggedMoment, ...]:
        """What the simulated operator tags, in order of time."""
        return self._timeline.moments

    @property
    def outages(self) -> tuple[Outage, ...]:
        """When the source should be silent or gone (the faults ``silence`` and ``unplug``)."""
        return self._timeline.outages

    def voltage_V(self, time_s: float) -> float:
        """Return the reading at one instant, in volts; NaN where the fault ``dropouts`` took it."""
        return float(self.block(np.array([time_s]))[0])

    def block(self, times_s: Array) -> Array:
        """Return the readings at `times_s`, shape (n,), in volts; NaN where a dropout took one.

        The same instant gives the same reading in whatever block it is asked for.
        """
        times_s = np.ascontiguousarray(times_s, dtype=np.float64)
        volts = self._true_V(times_s) + self._disturbances.reading_V(times_s)
        if "reversed_leads" in self.faults:
            volts = -volts
        if self._decimals is not None:
            volts = np.round(volts, self._decimals)
        if "dropouts" in self.faults:
            counters = counted_noise.counters_of_times(times_s)
            lost = counted_noise.uniforms(self.seed, _DROPOUT_STREAM, counters) < DROPOUT_PART
            volts[lost] = np.nan
        return volts

    def stack_V(self, times_s: Array) -> Array:
        """Return the voltage of the stack itself, shape (n,), as it sags."""
        sag_V = self._timeline.sag_V(times_s, self._disturbances.noise.sag_V_per_hour)
        return np.asarray(self.supply.stack_V - sag_V, dtype=np.float64)

    def resistor_V(self, times_s: Array) -> Array:
        """Return what a second meter, across the series resistor, would read, shape (n,), in volts.

        By Kirchhoff's law it is that part of the stack's voltage which the cell leaves over. Its noise is of
        the size of the first meter's, and apart from it.
        """
        times_s = np.ascontiguousarray(times_s, dtype=np.float64)
        left_V = self.stack_V(times_s) - self._true_V(times_s)
        left_V[self._timeline.circuit(times_s) == Circuit.SUPPLY_OFF] = 0.0
        counters = counted_noise.counters_of_times(times_s)
        noise_V = self._disturbances.noise.reading_V * counted_noise.normals(
            self.seed, _RESISTOR_STREAM, counters
        )
        return left_V * (self.supply.resistor_ohm / self.supply.line_ohm) + noise_V

    def temperature_C(self, times_s: Array) -> Array:
        """Return the temperature of the cell, shape (n,), in degC."""
        return self.build.temperature_C + self._disturbances.warming_K(times_s)

    @property
    def truth(self) -> Mapping[str, float]:
        """What a perfect analysis would find, without noise, drift or transients; names hold the units.

        Voltages are magnitudes at the electrodes as they stand in that part of the lesson (with
        ``half_dipped`` the area after the swap is a quarter). A blank has no ``salt_added_s``.
        """
        line = self._timeline
        before, after = self._settled_point(line.buffer_in_s), self._settled_point(line.electrodes_in_s)
        coverage, area_cm2 = self._coverage_and_area(line.electrodes_in_s)
        equal = operate_at_current(self.build, before.current_A, coverage, area_cm2=area_cm2)
        build = self.build
        return {
            "voltage_before_V": float(before.voltage_V),
            "voltage_after_V": float(after.voltage_V),
            "saved_V": float(before.voltage_V - after.voltage_V),
            "saved_at_equal_current_V": float(before.voltage_V - equal.voltage_V),
            "current_before_A": float(before.current_A),
            "current_after_A": float(after.current_A),
            "anode_overpotential_before_V": float(before.anode_V),
            "anode_overpotential_after_V": float(after.anode_V),
            "cathode_overpotential_before_V": float(before.cathode_V),
            "cathode_overpotential_after_V": float(after.cathode_V),
            "coverage_after": float(coverage),
            "area_before_cm2": build.area_cm2,
            "area_after_cm2": float(area_cm2),
            "reversible_voltage_V": reversible_voltage_V(build.temperature_C, build.pressure_Pa),
            "open_circuit_voltage_V": float(self.supply.open_circuit_V()),
            "stack_voltage_V": self.supply.stack_V,
            "series_resistance_ohm": self.supply.resistor_ohm,
            "internal_resistance_ohm": self.supply.internal_ohm,
            "temperature_C": build.temperature_C,
            "buffer_in_s": line.buffer_in_s,
            **({"salt_added_s": line.salt_added_s} if line.plan.has_salt else {}),
            "electrodes_out_s": line.electrodes_out_s,
            "electrodes_in_s": line.electrodes_in_s,
            "duration_s": line.end_s,
        }

    def _true_V(self, times_s: Array) -> Array:
        circuit = self._timeline.circuit(times_s)
        stack_V = self.stack_V(times_s)
        volts = np.full(times_s.shape, TOUCHING_V)
        is_open = circuit == Circuit.OPEN
        volts[is_open] = self.supply.open_circuit_V(stack_V[is_open])
        is_off = circuit == Circuit.SUPPLY_OFF
        decay = np.exp(-self._timeline.seconds_in_stretch(times_s[is_off]) / OFF_TIME_S)
        volts[is_off] = OFF_LAST_V + (OFF_FIRST_V - OFF_LAST_V) * decay
        is_on = circuit == Circuit.ELECTROLYSING
        volts[is_on] = self._electrolysing_V(times_s[is_on], stack_V[is_on])
        return volts

    def _electrolysing_V(self, times_s: Array, stack_V: Array) -> Array:
        coverage, area_cm2 = self._coverage_and_area(times_s)
        masked = self._disturbances.masked_part(times_s)
        if masked is not None:
            area_cm2 = area_cm2 * (1 - masked)
        point = operate_on_supply(self.build, self.supply, coverage, area_cm2=area_cm2, stack_V=stack_V)
        return point.voltage_V + self._timeline.transient_V(times_s) + self._disturbances.cell_V(times_s)

    def _settled_point(self, time_s: float) -> OperatingPoint:
        coverage, area_cm2 = self._coverage_and_area(time_s)
        return operate_on_supply(self.build, self.supply, coverage, area_cm2=area_cm2)

    def _coverage_and_area(self, times_s: Array | float) -> tuple[Array, Array]:
        times_s = np.asarray(times_s, dtype=np.float64)
        part = HALF_DIPPED_PART if "half_dipped" in self.faults else 1.0
        area_cm2 = self.build.area_cm2 * np.where(times_s < self._timeline.electrodes_in_s, 1.0, part)
        return self._timeline.coverage(times_s), area_cm2
