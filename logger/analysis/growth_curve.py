"""The growth phase as it can be drawn: averaged readings, the fitted curve, and what is left between them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from logger.analysis.evidence import corrected
from logger.analysis.growth import MODELS
from logger.analysis.plateau import block_means
from logger.analysis.readings import Between
from logger.bench import parse_bench
from logger.bench_tables import Bench
from logger.errors import BenchError
from logger.recording import Recording

__all__ = ["GrowthCurve", "growth_curve"]

MOST_POINTS = 160
HIGHEST_V = 4.0
LOWEST_V = 0.5
"""Readings outside are no voltages of a cell that splits water (see `logger.analysis.states`)."""

Vector = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class GrowthCurve:
    """Shape (n,) each: seconds since the salt, averaged volts, volts of the model (None without a fit)."""

    times_s: Vector
    voltage_V: Vector
    fitted_V: Vector | None

    @property
    def residual_V(self) -> Vector | None:
        """Readings less model."""
        return None if self.fitted_V is None else self.voltage_V - self.fitted_V


def growth_curve(recording: Recording, findings: Mapping[str, Any]) -> GrowthCurve | None:
    """Return the growth of a run, with its model where one was fitted; None where there is no growth phase.

    Readings are averaged to at most 160 points: this is for looking at, the fit was made before.
    """
    phase = next((one for one in findings.get("phases") or () if one["phase"] == "growth"), None)
    channel = recording.channel("cell_voltage")
    if phase is None or channel is None:
        return None
    first, last = channel.times_s.searchsorted((phase["begin_s"], phase["end_s"])).tolist()
    shown_V = corrected(channel.values, _bench(recording), is_magnitude=True)
    usable = Between(channel.times_s, shown_V, slice(first, last), LOWEST_V, HIGHEST_V)
    number = sum(usable.count(k) for k in range(len(usable)))
    if not number:
        return None
    times, volts = _means_of_blocks(usable, -(-number // MOST_POINTS))
    since_s = np.asarray(times - phase["begin_s"], dtype=np.float64)
    return GrowthCurve(since_s, volts, _fitted_V(since_s, findings.get("growth")))


def _means_of_blocks(usable: Between, block: int) -> tuple[Vector, Vector]:
    """Return means of times and voltages over `block` readings each; what is left over is left out."""
    means, waiting = [], np.empty((2, 0))
    for piece in usable:
        waiting = np.concatenate([waiting, piece], axis=1)
        if waiting.shape[1] >= block:
            whole = waiting.shape[1] // block * block
            means.append([block_means(row[:whole], block) for row in waiting])
            waiting = waiting[:, whole:].copy()
    times, volts = np.concatenate(means, axis=1)
    return times, volts


def _fitted_V(since_s: Vector, growth: Mapping[str, Any] | None) -> Vector | None:
    if not growth:
        return None
    model = next((one for one in MODELS if one.name == growth["model"]), None)
    parameters = growth["parameters"]
    if model is None or any(parameters.get(name) is None for name in model.names):
        return None
    return model(since_s, *(parameters[name] for name in model.names))


def _bench(recording: Recording) -> Bench:
    try:
        return parse_bench(recording.bench_toml)
    except BenchError:
        return Bench()
