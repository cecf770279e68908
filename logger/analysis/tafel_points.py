"""The settled points of a Tafel run, checked, and the columns of the Tafel line."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from logger.analysis.errors_in_both import Basis
from logger.analysis.refusal import Refused, require_finite, require_positive

__all__ = ["TafelPoints", "checked_points", "tafel_basis"]

_LEAST_RATIO = 1.05


@dataclass(frozen=True, slots=True)
class TafelPoints:
    """Settled points of a Tafel run, checked.

    `log_density` is log10 of mA/cm2 (of mA where no area is known), `unit_A` the current at which it is 0,
    `u_log` and `u_V` standard uncertainties; `has_weights` tells that the latter were given.
    """

    current_A: NDArray[np.float64]
    voltage_V: NDArray[np.float64]
    log_density: NDArray[np.float64]
    u_log: NDArray[np.float64]
    u_V: NDArray[np.float64]
    unit_A: float
    has_weights: bool

    @property
    def decades(self) -> float:
        """Decades that the currents span."""
        return float(self.log_density.max() - self.log_density.min())

    @property
    def currents(self) -> int:
        """How many currents there are that differ by more than 5 %."""
        steps = np.diff(np.sort(self.log_density))
        return 1 + int(np.count_nonzero(steps > math.log10(_LEAST_RATIO)))


def checked_points(
    current_A: ArrayLike,
    voltage_V: ArrayLike,
    u_V: ArrayLike | None,
    u_A: ArrayLike | None,
    area_cm2: float | None,
) -> TafelPoints:
    """Return the points of a Tafel run, checked.

    Parameters
    ----------
    current_A, voltage_V : array_like, shape (n,)
    u_V, u_A : array_like, shape (n,) or scalar, optional
        Standard uncertainties of voltages and currents.
    area_cm2 : float, optional

    Raises
    ------
    Refused
        See `logger.analysis.tafel.fit_tafel`.
    """
    amperes, volts = np.asarray(current_A, dtype=np.float64), np.asarray(voltage_V, dtype=np.float64)
    if amperes.ndim != 1 or amperes.shape != volts.shape:
        raise Refused("points of the Tafel line", f"shapes {amperes.shape} and {volts.shape}",
                      "each current needs its voltage", "give two vectors of one length")  # fmt: skip
    for current, voltage in zip(amperes.tolist(), volts.tolist(), strict=True):
        require_positive("current in A", current)
        require_finite("voltage in V", voltage)
    if amperes.size < 2 or amperes.max() < _LEAST_RATIO * amperes.min():
        raise Refused("currents of the Tafel line", amperes.size, "they do not differ",
                      "change the resistor between the points")  # fmt: skip
    if u_A is not None and u_V is None:
        raise Refused("uncertainties of the voltages", "none", "those of the currents were given",
                      "give both, or neither")  # fmt: skip
    spread_V = np.ones_like(volts) if u_V is None else np.broadcast_to(np.asarray(u_V, float), volts.shape)
    spread_A = np.broadcast_to(np.asarray(0.0 if u_A is None else u_A, float), volts.shape)
    for one_V, one_A in zip(spread_V.tolist(), spread_A.tolist(), strict=True):
        require_positive("standard uncertainty of a voltage in V", one_V)
        require_positive("standard uncertainty of a current in A", one_A, zero_allowed=True)
    unit_A = 1e-3 * (1.0 if area_cm2 is None else require_positive("anode area in cm2", area_cm2))
    return TafelPoints(
        current_A=amperes,
        voltage_V=volts,
        log_density=np.log10(amperes / unit_A),
        u_log=spread_A / (amperes * math.log(10.0)),
        u_V=spread_V,
        unit_A=unit_A,
        has_weights=u_V is not None,
    )


def tafel_basis(unit_A: float, with_ohmic: bool, *extra: NDArray[np.float64]) -> Basis:
    """Return the columns 1, log10 j, and I; `extra` columns that do not depend on the current follow."""

    def basis(log_density: NDArray[np.float64]) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        one, none = np.ones_like(log_density), np.zeros_like(log_density)
        columns, slopes = [one, log_density], [none, one]
        if with_ohmic:
            current_A = unit_A * 10.0**log_density
            columns.append(current_A)
            slopes.append(math.log(10.0) * current_A)
        columns += extra
        slopes += [none] * len(extra)
        return np.column_stack(columns), np.column_stack(slopes)

    return basis
