"""What a bench file says, as frozen tables. What it does not say is None."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path

__all__ = ["Bench", "Cell", "Meter", "Settling", "Step", "Supply"]


@dataclass(frozen=True, slots=True)
class Supply:
    """The table ``[supply]``: a stack and a resistor, or `current_A` of a constant-current supply."""

    cells: int | None = None
    cell_voltage_V: float | None = None
    stack_voltage_V: float | None = None
    internal_resistance_ohm: float | None = None
    resistor_ohm: float | None = None
    resistor_tolerance_percent: float | None = None
    resistor_rating_W: float | None = None
    current_A: float | None = None

    @property
    def declared_stack_voltage_V(self) -> float | None:
        """Number of cells times the voltage of one, or None where one of the two is absent."""
        if self.cells is None or self.cell_voltage_V is None:
            return None
        return self.cells * self.cell_voltage_V

    @property
    def best_stack_voltage_V(self) -> float | None:
        """The measured stack voltage, or else the declared one, or None."""
        return self.stack_voltage_V if self.stack_voltage_V is not None else self.declared_stack_voltage_V


@dataclass(frozen=True, slots=True)
class Cell:
    """The table ``[cell]``: electrodes, solution and surroundings."""

    anode: str | None = None
    cathode: str | None = None
    anode_area_cm2: float | None = None
    electrolyte: str | None = None
    pH: float | None = None
    temperature_C: float | None = None
    pressure_kPa: float | None = None
    spacing_mm: float | None = None
    volume_mL: float | None = None
    headspace_mL: float | None = None
    metal_salt: str | None = None
    salt_mass_mg: float | None = None
    stirring_rpm: float | None = None


@dataclass(frozen=True, slots=True)
class Meter:
    """The table ``[meter]``: range and accuracy statement of the meter on the cell.

    `zero_V` is what it shows with its leads shorted, `gain` the change it shows over the true change:
    ``true = (shown - zero_V) / gain``.
    """

    range_V: float | None = None
    resolution_V: float | None = None
    accuracy_percent_of_reading: float | None = None
    accuracy_counts: float | None = None
    input_resistance_ohm: float | None = None
    zero_V: float | None = None
    gain: float | None = None


@dataclass(frozen=True, slots=True)
class Settling:
    """The table ``[settling]``: when a voltage counts as settled.

    The defaults suit a lesson; 0.5 mV/min suits a laboratory.
    """

    limit_mV_per_min: float = 5.0
    window_s: float = 60.0


@dataclass(frozen=True, slots=True)
class Step:
    """One step of the run sheet.

    `kind` is a kind of moment, `label` what to do in words. `hold_s` says how long to wait afterwards, or
    `until_settled` that the program says when to go on; neither: go on at will.
    """

    kind: str
    label: str = ""
    hold_s: float | None = None
    until_settled: bool = False


@dataclass(frozen=True, slots=True)
class Bench:
    """A whole bench file. `source_text` is its text as used, `path` where it was read."""

    title: str | None = None
    supply: Supply = field(default_factory=Supply)
    cell: Cell = field(default_factory=Cell)
    meter: Meter = field(default_factory=Meter)
    settling: Settling = field(default_factory=Settling)
    steps: tuple[Step, ...] = ()
    source_text: str = ""
    path: Path | None = None
