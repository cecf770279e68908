"""The ohmic resistance of a cell from the instant at which its current is interrupted.

When the circuit opens, the ohmic drop I R is gone at once, while each electrode's double layer discharges
through its own reaction, as b log10(1 + t/theta) with theta = C b/(I ln 10): milliseconds. A meter of some
readings a second sees nothing of the step, which is why slow samples are refused.

The circuit must be opened on the battery's side of the meter's taps: then the meter stays on the cell and
sees the voltage fall. A break on the electrode's side makes it read the open stack.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from logger.analysis.autocorrelation import autocorrelation, monotone_inflation
from logger.analysis.caution import Caution, Cautions
from logger.analysis.interrupt_model import FEWEST_AFTER, Relaxation, RelaxationFit, fit_relaxation
from logger.analysis.refusal import Refused, require_finite, require_positive
from logger.analysis.uncertainty import rectangular_standard_uncertainty

__all__ = [
    "SLOWEST_RATE_HZ",
    "Extrapolations",
    "Interrupt",
    "current_interrupt",
    "extrapolated_drops_V",
    "initial_slope_V_s",
]

SLOWEST_RATE_HZ = 5000.0
"""Below this the straight extrapolation is wrong by several millivolts, and nothing in the data says so."""

FEWEST_BEFORE = 10
_EXTRAPOLATED = 5
_SURE = 5.0


@dataclass(frozen=True, slots=True)
class Extrapolations:
    """The drop by simple extrapolation of the first five samples to the instant of the break, in volts.

    `linear_V` in time, `square_root_V` in its square root. Shown for comparison: both are off where an
    electrode relaxes within a few samples.
    """

    linear_V: float
    square_root_V: float


@dataclass(frozen=True, slots=True)
class Interrupt:
    """What an interrupt shows.

    Attributes
    ----------
    drop_V, drop_uncertainty_V : float
        Ohmic drop and its standard uncertainty: fit, mean before, and the instant of the break.
    resistance_ohm, resistance_uncertainty_ohm : float
        Drop over current.
    before_V : float
        Mean voltage before the break.
    opened_at_s, opened_uncertainty_s : float
        Instant of the break, in the time of the samples.
    relaxations : tuple of Relaxation
        One or two electrodes, the faster first.
    extrapolations : Extrapolations
    rate_Hz : float
        Samples a second.
    cautions : tuple of Caution
    """

    drop_V: float
    drop_uncertainty_V: float
    resistance_ohm: float
    resistance_uncertainty_ohm: float
    before_V: float
    opened_at_s: float
    opened_uncertainty_s: float
    relaxations: tuple[Relaxation, ...]
    extrapolations: Extrapolations
    rate_Hz: float
    cautions: tuple[Caution, ...]


def current_interrupt(
    times_s: ArrayLike,
    voltage_V: ArrayLike,
    current_A: float,
    *,
    current_uncertainty_A: float = 0.0,
    opened_at_s: float | None = None,
    window_s: float = 0.05,
    electrodes: int = 2,
) -> Interrupt:
    """Find the ohmic drop in fast samples across the opening of the circuit.

    Parameters
    ----------
    times_s, voltage_V : array_like, shape (n,)
        Equally spaced samples of the cell voltage, some before the break and 50 or more after it.
    current_A, current_uncertainty_A : float
        Current before the break and its standard uncertainty.
    opened_at_s : float, optional
        Instant of the break where it is known. None: within the interval of the largest fall, and what
        that leaves open is in the uncertainty.
    window_s : float
        How long after the break is used.
    electrodes : int
        2 for a cell voltage, 1 for the potential of one electrode against a reference.

    Returns
    -------
    Interrupt

    Raises
    ------
    Refused
        Fewer than 5000 samples a second, unequal spacing, too few samples before or after, a voltage that
        rises to the open stack, no fall beyond the noise, or noise that hides how the electrodes relax.

    Notes
    -----
    The model is V0 - V(t) = I R + sum b_i log10(1 + t/theta_i) over the electrodes. A shift
    of the instant cannot be told from a change of the drop (log(1 + (t - t0)/theta) is another such
    logarithm plus a constant), so the instant is never fitted. The statistical part of the uncertainty is
    inflated for correlated residuals. Simulated coverage of 95 %: 93 to 99 %.

    Source of the model: a double layer C that discharges through its own Tafel reaction, C dV/dt = -I.
    """
    times, volts = _checked(times_s, voltage_V)
    current = require_positive("current before the break in A", current_A)
    u_A = require_positive(
        "standard uncertainty of the current in A", current_uncertainty_A, zero_allowed=True
    )
    window = require_positive("window after the break in s", window_s)
    spacing_s = float(np.median(np.diff(times)))
    opened_s, u_opened_s = _instant(times, volts, opened_at_s)
    before, after = times < opened_s, (times > opened_s) & (times <= opened_s + window)
    before_V, u_before_V = _level_before(volts[before])
    since_s, fallen_V = times[after] - opened_s, before_V - volts[after]
    _check_fall(since_s, fallen_V, volts[before])
    fit = fit_relaxation(since_s, fallen_V, current, electrodes)
    slope_V_s = initial_slope_V_s(fit.relaxations)
    u_drop_V = math.hypot(_statistical(fit), u_before_V, slope_V_s * u_opened_s)
    simple = extrapolated_drops_V(since_s, fallen_V)
    return Interrupt(
        drop_V=fit.drop_V,
        drop_uncertainty_V=u_drop_V,
        resistance_ohm=fit.drop_V / current,
        resistance_uncertainty_ohm=math.hypot(u_drop_V, fit.drop_V * u_A / current) / current,
        before_V=before_V,
        opened_at_s=opened_s,
        opened_uncertainty_s=u_opened_s,
        relaxations=fit.relaxations,
        extrapolations=simple,
        rate_Hz=1.0 / spacing_s,
        cautions=_cautions(fit, simple, u_drop_V, spacing_s, slope_V_s * u_opened_s),
    )


def extrapolated_drops_V(since_s: ArrayLike, fallen_V: ArrayLike) -> Extrapolations:
    """Return the drop by straight lines through the first five samples after the break.

    Parameters
    ----------
    since_s, fallen_V : array_like, shape (n,)
        Time since the break, above zero, and the fall of the voltage since then; n at least 5.

    Raises
    ------
    Refused
        Fewer than five samples.
    """
    times = np.asarray(since_s, dtype=np.float64)[:_EXTRAPOLATED]
    fall = np.asarray(fallen_V, dtype=np.float64)[:_EXTRAPOLATED]
    if times.size < _EXTRAPOLATED:
        raise Refused("samples after the break", times.size, "an extrapolation needs five", "record longer")
    linear, root = (float(np.polyfit(abscissa, fall, 1)[1]) for abscissa in (times, np.sqrt(times)))
    return Extrapolations(linear, root)


def initial_slope_V_s(relaxations: tuple[Relaxation, ...]) -> float:
    """Return how fast the voltage falls right after the break: the sum of b/(theta ln 10), in V/s."""
    return sum(one.slope_V_per_decade / (one.time_constant_s * math.log(10.0)) for one in relaxations)


def _checked(times_s: ArrayLike, voltage_V: ArrayLike) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    times, volts = np.asarray(times_s, dtype=np.float64), np.asarray(voltage_V, dtype=np.float64)
    if times.ndim != 1 or times.shape != volts.shape or times.size < FEWEST_BEFORE + FEWEST_AFTER:
        raise Refused(
            "samples across the break",
            times.size,
            f"{FEWEST_BEFORE} before and {FEWEST_AFTER} after are needed",
            "record longer",
        )
    if not (np.isfinite(times).all() and np.isfinite(volts).all()):
        raise Refused("samples across the break", "one of them", "it is not a finite number",
                      "choose a range without overload")  # fmt: skip
    steps = np.diff(times)
    usual_s = float(np.median(steps))
    if usual_s <= 0.0 or np.abs(steps - usual_s).max() > 0.1 * usual_s:
        raise Refused("times of the samples", "unequal steps", "a break cannot be placed between them",
                      "use samples that the board itself spaces")  # fmt: skip
    if 1.0 / usual_s < SLOWEST_RATE_HZ:
        raise Refused(
            "sampling rate in samples a second",
            1.0 / usual_s,
            "the electrodes relax between two samples, and the drop would come out too large",
            f"sample at {SLOWEST_RATE_HZ:g} or more a second, or fit the ohmic term to a set of resistors",
        )
    return times, volts


def _instant(
    times: NDArray[np.float64], volts: NDArray[np.float64], opened_at_s: float | None
) -> tuple[float, float]:
    if opened_at_s is not None:
        return require_finite("instant of the break in s", opened_at_s), 0.0
    last = int(np.argmax(np.abs(np.diff(volts))))
    half_s = 0.5 * float(times[last + 1] - times[last])
    return float(times[last]) + half_s, rectangular_standard_uncertainty(half_s)


def _level_before(volts: NDArray[np.float64]) -> tuple[float, float]:
    if volts.size < FEWEST_BEFORE:
        raise Refused("samples before the break", volts.size, f"{FEWEST_BEFORE} are needed",
                      "begin to record earlier")  # fmt: skip
    return float(volts.mean()), float(volts.std(ddof=1)) / math.sqrt(volts.size)


def _check_fall(
    since_s: NDArray[np.float64], fallen_V: NDArray[np.float64], before: NDArray[np.float64]
) -> None:
    if since_s.size < FEWEST_AFTER:
        raise Refused("samples after the break", since_s.size, f"{FEWEST_AFTER} are needed",
                      "record longer, or widen the window")  # fmt: skip
    noise_V = float(before.std(ddof=1))
    if float(np.median(fallen_V)) < -_SURE * noise_V:
        raise Refused(
            "voltage after the break in V",
            float(before.mean() - np.median(fallen_V)),
            "it rose: the meter was left on the open stack",
            "open the circuit on the battery's side, so that the meter stays on the cell",
        )
    if float(fallen_V.max()) <= _SURE * noise_V:
        raise Refused("fall of the voltage in V", float(fallen_V.max()), "it does not exceed the noise",
                      "check that the circuit was opened")  # fmt: skip


def _statistical(fit: RelaxationFit) -> float:
    residuals = fit.residuals_V
    if not residuals.any():
        return fit.drop_uncertainty_V
    return fit.drop_uncertainty_V * math.sqrt(monotone_inflation(autocorrelation(residuals)))


def _cautions(
    fit: RelaxationFit, simple: Extrapolations, u_drop_V: float, spacing_s: float, u_from_instant_V: float
) -> tuple[Caution, ...]:
    cautions = Cautions()
    if abs(simple.linear_V - fit.drop_V) > 2.0 * u_drop_V:
        cautions.say(
            "extrapolation_differs",
            f"A straight line through the first samples would give {1000 * simple.linear_V:.2f} mV instead "
            f"of {1000 * fit.drop_V:.2f} mV: an electrode relaxes within a few samples.",
        )
    fastest = fit.relaxations[0]
    if fastest.time_constant_s < 2.0 * spacing_s:
        cautions.say(
            "relaxation_too_fast",
            f"An electrode relaxes within {1e3 * fastest.time_constant_s:.2g} ms, two samples or less; part "
            "of it may be counted as ohmic. Sample faster.",
        )
    if u_from_instant_V > 0.5 * u_drop_V:
        cautions.say(
            "instant_uncertain",
            "The uncertainty comes mostly from not knowing when between two samples the circuit opened. "
            "Sample faster, or record the switch too.",
        )
    return cautions.all
