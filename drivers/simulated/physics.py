"""The electrochemistry of the simulated cell, as pure functions.

One electrode pair in a buffer, fed through a series resistor from a stack of batteries. The anode has
a bare and a catalysed part, side by side at the same overpotential. All formulas are Tafel lines
(Tafel, Z. phys. Chem. 50 (1905) 641): overpotential = slope * log10(density / exchange density), without
the back reaction, which is negligible above about 60 mV. Double layers (milliseconds) are left out: the
cell is taken to follow its supply at once.

Overpotentials are magnitudes, currents positive; arrays broadcast against one another.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

__all__ = [
    "CellBuild",
    "OperatingPoint",
    "Supply",
    "TafelLine",
    "avrami_coverage",
    "logistic_coverage",
    "operate_at_current",
    "operate_on_supply",
    "reversible_voltage_V",
]

Array = NDArray[np.float64]

FARADAY_C_PER_MOL = 96485.33212331  # exact since the SI of 2019
GAS_CONSTANT_J_PER_MOL_K = 8.31446261815324  # exact since the SI of 2019
LN10 = math.log(10.0)
LARGEST_STEPS = 200
SETTLED_STEP_V = 1e-14


@dataclass(frozen=True, slots=True)
class TafelLine:
    """One straight Tafel line: volts a decade, and the exchange current density in mA/cm2."""

    slope_V: float
    exchange_mA_per_cm2: float

    def overpotential_V(self, density_mA_per_cm2: Array) -> Array:
        """Return slope * log10(density / exchange density), in volts."""
        return self.slope_V * np.log10(density_mA_per_cm2 / self.exchange_mA_per_cm2)


@dataclass(frozen=True, slots=True)
class CellBuild:
    """What the simulated cell is made of. Invented, but of the size found in a school laboratory."""

    area_cm2: float = 2.0
    bare: TafelLine = TafelLine(0.120, 7.5e-7)
    catalysed: TafelLine = TafelLine(0.060, 1.0e-8)
    cathode: TafelLine = TafelLine(0.120, 1e-2)
    ohmic_resistance_ohm: float = 20.0
    temperature_C: float = 22.0
    pressure_Pa: float = 101325.0


@dataclass(frozen=True, slots=True)
class Supply:
    """A stack of batteries with a series resistor; `input_resistance_ohm` is the meter's."""

    stack_V: float = 27.0
    resistor_ohm: float = 12000.0
    internal_ohm: float = 6.0
    input_resistance_ohm: float = 10e6

    @property
    def line_ohm(self) -> float:
        """Everything between the stack's voltage and the cell, in ohm."""
        return self.resistor_ohm + self.internal_ohm

    def open_circuit_V(self, stack_V: Array | float | None = None) -> Array:
        """Return what the meter reads with the cell dry: its own input resistance loads the stack."""
        stack = np.asarray(self.stack_V if stack_V is None else stack_V, dtype=np.float64)
        return stack * self.input_resistance_ohm / (self.input_resistance_ohm + self.line_ohm)


@dataclass(frozen=True, slots=True)
class OperatingPoint:
    """Where a cell works: current in ampere; cell voltage and its parts in volts."""

    current_A: Array
    voltage_V: Array
    anode_V: Array
    cathode_V: Array


def reversible_voltage_V(temperature_C: float, pressure_Pa: float) -> float:
    """Return the reversible voltage of water in an open cell, both gases saturated with vapour.

    E = E0(T) + (RT/2F) ln[(p_H2/p0) (p_O2/p0)^0.5], with p_H2 = p_O2 = p - p_water(T) and p0 = 1 bar.
    E0 from the CODATA key values of 1989 (enthalpy 285 830 J/mol, entropies 69.95, 130.680 and
    205.152 J/(mol K) at 298.15 K) and a constant heat capacity of reaction of -31.8055 J/(mol K).

    Raises
    ------
    ValueError : outside 0-100 degC, or the pressure is not above that of water vapour.
    """
    if not 0 <= temperature_C <= 100:
        raise ValueError(f"the simulated cell holds liquid water of 0 to 100 degC, not {temperature_C}")
    kelvin, reference_K = temperature_C + 273.15, 298.15
    entropy, heat_capacity = 130.680 + 205.152 / 2 - 69.95, -31.8055
    gibbs_J = 285830.0 - kelvin * entropy
    gibbs_J += heat_capacity * ((kelvin - reference_K) - kelvin * math.log(kelvin / reference_K))
    gas_Pa = pressure_Pa - _vapour_pressure_Pa(kelvin)
    if gas_Pa <= 0:
        raise ValueError(f"water boils at {temperature_C} degC and {pressure_Pa} Pa")
    two_faraday = 2 * FARADAY_C_PER_MOL
    return (gibbs_J + GAS_CONSTANT_J_PER_MOL_K * kelvin * 1.5 * math.log(gas_Pa / 1e5)) / two_faraday


def operate_on_supply(
    build: CellBuild,
    supply: Supply,
    coverage: Array | float,
    *,
    area_cm2: Array | float | None = None,
    stack_V: Array | float | None = None,
) -> OperatingPoint:
    """Return the point at which cell and supply agree: I = (stack - V(I)) / line resistance.

    Parameters
    ----------
    coverage : part of the anode that is catalysed, 0 to 1.
    area_cm2, stack_V : in place of the build's area and the supply's voltage, where they vary.

    Raises
    ------
    ValueError : the stack does not exceed the reversible voltage: such a cell splits no water.
    """
    reversible_V = reversible_voltage_V(build.temperature_C, build.pressure_Pa)
    stack = np.asarray(supply.stack_V if stack_V is None else stack_V, dtype=np.float64)
    if np.any(stack <= reversible_V):
        raise ValueError(f"a stack of {stack.min():g} V cannot split water (needs over {reversible_V:.3f} V)")
    area = np.asarray(build.area_cm2 if area_cm2 is None else area_cm2, dtype=np.float64)
    theta = np.asarray(coverage, dtype=np.float64)
    volts_per_density = 1e-3 * area * (supply.line_ohm + build.ohmic_resistance_ohm)

    def excess(anode_V: Array) -> tuple[Array, Array]:
        # Volts that the whole circuit would need at this overpotential, less what the stack has.
        density, slope = _density_and_slope(build, anode_V, theta)
        ohmic_V = density * volts_per_density
        needed_V = reversible_V + anode_V + build.cathode.overpotential_V(density) + ohmic_V
        return needed_V - stack, 1.0 + (build.cathode.slope_V / LN10 / density + volts_per_density) * slope

    anode_V = _root_from_above(excess, _largest_anode_V(build, stack / volts_per_density, theta))
    density, _ = _density_and_slope(build, anode_V, theta)
    return _point(build, reversible_V, 1e-3 * area * density, density, anode_V)


def operate_at_current(
    build: CellBuild,
    current_A: Array | float,
    coverage: Array | float,
    *,
    area_cm2: Array | float | None = None,
) -> OperatingPoint:
    """Return the point of the cell at a given current (ampere, above 0); other parameters as above.

    Raises
    ------
    ValueError : a current that is not above zero.
    """
    current = np.asarray(current_A, dtype=np.float64)
    if not np.all(current > 0):
        raise ValueError("a Tafel line needs a current above zero")
    area = np.asarray(build.area_cm2 if area_cm2 is None else area_cm2, dtype=np.float64)
    density, theta = np.broadcast_arrays(1e3 * current / area, np.asarray(coverage, dtype=np.float64))
    log_density = np.log(density)

    def excess(anode_V: Array) -> tuple[Array, Array]:
        carried, slope = _density_and_slope(build, anode_V, theta)
        return np.log(carried) - log_density, slope / carried

    anode_V = _root_from_above(excess, _largest_anode_V(build, density, theta))
    reversible_V = reversible_voltage_V(build.temperature_C, build.pressure_Pa)
    return _point(build, reversible_V, current, density, anode_V)


def logistic_coverage(
    time_s: Array | float, first_coverage: float = 1e-6, rate_per_s: float = 1 / 60
) -> Array:
    """Return the coverage `time_s` seconds after the salt, for growth that feeds on its own edge."""
    odds = (1 / first_coverage - 1) * np.exp(-rate_per_s * np.asarray(time_s, dtype=np.float64))
    return np.asarray(1 / (1 + odds), dtype=np.float64)


def avrami_coverage(time_s: Array | float, time_constant_s: float = 600.0, exponent: float = 1.5) -> Array:
    """Return the coverage `time_s` seconds after the salt, for nuclei that appear and meet.

    1 - exp(-(t / tau)^n): Avrami, J. Chem. Phys. 7 (1939) 1103.
    """
    reduced = np.asarray(time_s, dtype=np.float64) / time_constant_s
    return np.asarray(-np.expm1(-(reduced**exponent)), dtype=np.float64)


def _density_and_slope(build: CellBuild, anode_V: Array, theta: Array) -> tuple[Array, Array]:
    """Return the anode's density (mA/cm2 of the whole area) and its derivative by the overpotential."""
    bare_rate, catalysed_rate = LN10 / build.bare.slope_V, LN10 / build.catalysed.slope_V
    bare = (1 - theta) * build.bare.exchange_mA_per_cm2 * np.exp(bare_rate * anode_V)
    catalysed = theta * build.catalysed.exchange_mA_per_cm2 * np.exp(catalysed_rate * anode_V)
    return bare + catalysed, bare_rate * bare + catalysed_rate * catalysed


def _largest_anode_V(build: CellBuild, density: Array, theta: Array) -> Array:
    """Return an upper bound of the overpotential: that of either part carrying everything alone."""
    with np.errstate(divide="ignore", over="ignore"):
        bare_V = build.bare.overpotential_V(density / (1 - theta))
        catalysed_V = build.catalysed.overpotential_V(density / theta)
    return np.asarray(np.minimum(bare_V, catalysed_V), dtype=np.float64)


def _root_from_above(excess: Callable[[Array], tuple[Array, Array]], upper_V: Array) -> Array:
    """Return where `excess` (value and slope of a rising convex function) is zero, at most `upper_V`.

    Newton's method comes down monotonically from above. An element stands still once its step is
    negligible, so that it comes out the same whatever other elements are solved along with it.
    """
    anode_V = upper_V
    for _ in range(LARGEST_STEPS):
        value, slope = excess(anode_V)
        step = value / slope
        step = np.where(np.abs(step) < SETTLED_STEP_V, 0.0, step)
        if not step.any():
            return anode_V
        anode_V = anode_V - step
    raise ArithmeticError("the simulated cell found no operating point")


def _point(
    build: CellBuild, reversible_V: float, current_A: Array, density: Array, anode_V: Array
) -> OperatingPoint:
    cathode_V = build.cathode.overpotential_V(density)
    voltage_V = reversible_V + anode_V + cathode_V + current_A * build.ohmic_resistance_ohm
    return OperatingPoint(current_A, voltage_V, anode_V, cathode_V)


def _vapour_pressure_Pa(kelvin: float) -> float:
    """Wagner and Pruss, J. Phys. Chem. Ref. Data 22 (1993) 783 (IAPWS SR1-86(1992)), equation 1."""
    critical_K, critical_Pa = 647.096, 22.064e6
    rest = 1 - kelvin / critical_K
    terms = zip(
        (-7.85951783, 1.84408259, -11.7866497, 22.6807411, -15.9618719, 1.80122502),
        (1.0, 1.5, 3.0, 3.5, 4.0, 7.5),
        strict=True,
    )
    return critical_Pa * math.exp(critical_K / kelvin * sum(a * rest**power for a, power in terms))
