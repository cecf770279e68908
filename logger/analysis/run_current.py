"""Where the current of a run comes from: the supply circuit, a shunt, or a constant-current supply."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from logger.analysis.caution import Caution
from logger.analysis.current import Current, cell_current, cell_current_A
from logger.analysis.refusal import Refused
from logger.analysis.supply import SupplyCircuit
from logger.bench_defaults import bench_circuit
from logger.bench_tables import Bench

__all__ = ["CurrentSource", "current_source", "stated_current"]


@dataclass(frozen=True, slots=True)
class CurrentSource:
    """How to get the current from the cell voltage.

    One of `circuit` (stack and resistor) and `constant_A` (a supply that holds the current) is there, or
    neither: then `missing` names the keys of the bench file that would supply it. `assumed` says in words
    what stands in for other keys; `where` tells where what is missing is to be given.
    """

    circuit: SupplyCircuit | None = None
    constant_A: float | None = None
    missing: tuple[str, ...] = ()
    assumed: tuple[str, ...] = ()
    where: str = "in the bench file"

    @property
    def is_known(self) -> bool:
        """Tell whether a current can be given at all."""
        return self.circuit is not None or self.constant_A is not None

    @property
    def greatest_A(self) -> float | None:
        """The largest current the supply can drive, or None where that is not known."""
        return self.constant_A if self.circuit is None else self.circuit.touching_current_A

    def at(self, voltage_V: float, standard_uncertainty_V: float = 0.0) -> Current | None:
        """Return the current at a cell voltage, or None where it is not known.

        Raises
        ------
        Refused
            The voltage reaches that of the stack.
        """
        if self.circuit is not None:
            return cell_current(self.circuit, voltage_V, standard_uncertainty_V)
        if self.constant_A is not None:
            return Current(self.constant_A, 0.0, "held by the supply, as stated")
        return None

    def series_A(self, voltage_V: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return the current at each voltage of a series, shape (n,).

        Raises
        ------
        Refused
            The current is not known.
        """
        if self.circuit is not None:
            return cell_current_A(self.circuit, voltage_V)
        if self.constant_A is not None:
            return np.full(voltage_V.shape, self.constant_A)
        raise Refused("current", "none", "it is not known", f"give {' and '.join(self.missing)} {self.where}")

    def with_resistor(self, resistor_ohm: float | None) -> CurrentSource:
        """Return the same supply with another series resistor of the same tolerance.

        With None the resistor was changed to nobody knows what: the current is not known from then on.
        """
        if self.circuit is None:
            return self
        if resistor_ohm is None:
            return CurrentSource(
                missing=("the ohms of the changed resistor",), where="as the label of its moment"
            )
        share = self.circuit.resistor_uncertainty_ohm / self.circuit.resistor_ohm
        changed = replace(
            self.circuit, resistor_ohm=resistor_ohm, resistor_uncertainty_ohm=share * resistor_ohm
        )
        return replace(self, circuit=changed)

    def without_stack(self) -> CurrentSource:
        """Return the same supply where the stack voltage of the bench file cannot be right."""
        if self.circuit is None:
            return self
        return CurrentSource(missing=("a supply.stack_voltage_V that agrees with the open cell",))


def current_source(bench: Bench) -> CurrentSource:
    """Return where the current comes from, by the bench file."""
    if bench.supply.current_A is not None:
        return CurrentSource(constant_A=bench.supply.current_A)
    found = bench_circuit(bench)
    return CurrentSource(circuit=found.circuit, missing=found.missing, assumed=found.assumed)


def stated_current(source: CurrentSource) -> Caution | None:
    """Say that a current is only stated for the supply; None where the supply is no such one."""
    if source.constant_A is None:
        return None
    return Caution(
        "current_stated",
        f"The supply is said to hold {1000.0 * source.constant_A:g} mA. How well it does is not known, so "
        "current, charge and gas have no uncertainty. Measure the current in the loop once.",
    )
