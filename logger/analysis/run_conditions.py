"""Temperature and pressure of a run, and the voltages that follow from them."""

from __future__ import annotations

from dataclasses import dataclass

from logger.analysis.refusal import Refused
from logger.analysis.thermodynamics import CellThermodynamics, cell_thermodynamics
from logger.bench_defaults import ASSUMED_PRESSURE_KPA, ASSUMED_TEMPERATURE_C, bench_conditions
from logger.bench_tables import Bench

__all__ = ["RunConditions", "run_conditions"]


@dataclass(frozen=True, slots=True)
class RunConditions:
    """The reference voltages of a run, in words what was assumed for them, and why values were not used."""

    voltages: CellThermodynamics
    assumed: tuple[str, ...] = ()
    refusal: str = ""


def run_conditions(bench: Bench) -> RunConditions:
    """Return the conditions by the bench file; those of a room where they are impossible together."""
    found = bench_conditions(bench)
    try:
        voltages = cell_thermodynamics(found.temperature_C, found.pressure_Pa)
    except Refused as refusal:
        room = cell_thermodynamics(ASSUMED_TEMPERATURE_C, 1000.0 * ASSUMED_PRESSURE_KPA)
        words = (
            f"the cell at {ASSUMED_TEMPERATURE_C:g} °C",
            f"an air pressure of {ASSUMED_PRESSURE_KPA:g} kPa",
        )
        return RunConditions(room, words, refusal.explained)
    return RunConditions(voltages, found.assumed)
