"""The Tafel line of kept findings as it can be drawn."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

__all__ = ["TafelLine", "tafel_line"]

LINE_POINTS = 60
Vector = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class TafelLine:
    """Points, shape (n,): decimal logarithm of the current in mA, volts, half-widths of 95 % intervals.

    The line, shape (60,), is slope times logarithm plus ohmic drop; its height is that of the points' mean.
    """

    log_mA: Vector
    voltage_V: Vector
    half_width_V: Vector
    line_log_mA: Vector
    line_V: Vector


def tafel_line(findings: Mapping[str, Any]) -> TafelLine | None:
    """Return the Tafel line of a findings document; None where it holds none."""
    tafel = findings.get("tafel")
    if not tafel or not tafel["points"]:
        return None
    log_mA: Vector = np.log10([1000.0 * one["current_A"] for one in tafel["points"]])
    volts = np.array([one["voltage_V"] for one in tafel["points"]], dtype=np.float64)
    half_V = np.array([2.0 * (one["standard_uncertainty_V"] or 0.0) for one in tafel["points"]])

    def rise_V(logs: Vector) -> Vector:
        drop_V = (tafel["ohmic_resistance_ohm"] or 0.0) * 10.0**logs / 1000.0
        return np.asarray(tafel["slope_V_per_decade"] * logs + drop_V, dtype=np.float64)

    line = np.linspace(log_mA.min(), log_mA.max(), LINE_POINTS)
    height_V = float(np.mean(volts - rise_V(log_mA)))
    return TafelLine(log_mA, volts, half_V, line, height_V + rise_V(line))
