"""The growth phase of a run, fitted by the models of decay, with an honest word on how well they fit."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from logger.analysis.caution import Cautions
from logger.analysis.evidence import Evidence
from logger.analysis.growth import FEWEST_POINTS, DecayFit, fit_decays, select_decay
from logger.analysis.phases import Phase
from logger.analysis.plateau import block_means
from logger.analysis.refusal import Refused
from logger.analysis.settled import SettledWindow

__all__ = ["GROWTH_CELLS", "RunGrowth", "growth_of_run"]

MOST_POINTS = 200
USUAL_POINTS = 30
FEWEST_INDEPENDENT = 8.0
GROWTH_CELLS = 8192
LEAST_FALL_DEVIATIONS = 5.0
LENGTHS_FOR_SETTLING = 3.0
LEAST_MISFIT = 2.0
MISFIT_DEVIATIONS = 4.0


@dataclass(frozen=True, slots=True)
class RunGrowth:
    """The chosen model of a growth phase.

    Attributes
    ----------
    fit : DecayFit
        Times counted from the salt.
    standard_uncertainties : mapping
        Of its parameters, widened for what the points still have in common.
    time_constant_s, settling_voltage_V : float or None
        None where the model has none, the data are too short for it, or the model does not fit.
    aicc : mapping
        Of every model that was fitted.
    lack_of_fit : float
        Mean square of the residuals over that of the noise; 1 where only noise is left.
    is_poor : bool
        True where more than noise is left.
    """

    fit: DecayFit
    standard_uncertainties: Mapping[str, float]
    time_constant_s: float | None
    settling_voltage_V: float | None
    aicc: Mapping[str, float]
    lack_of_fit: float
    is_poor: bool


def growth_of_run(
    evidence: Evidence, phase: Phase, windows: Sequence[SettledWindow], cautions: Cautions
) -> RunGrowth:
    """Fit the growth of a run.

    Parameters
    ----------
    evidence : Evidence
    phase : Phase
        The growth; its beginning is taken for the moment of the salt.
    windows : sequence of SettledWindow
        Settled stretches, the best first, for the size and the duration of the noise.
    cautions : Cautions
        Takes what the reader must know.

    Raises
    ------
    Refused
        No settled stretch to take the noise from; a growth of less than eight times the noise's duration; a
        fall of less than five times the noise; no model that is determined by the data.

    Notes
    -----
    Readings are averaged over the time that the noise lasts, W (u/s)^2 from a settled window of length W,
    scatter s and uncertainty of the mean u, so that the residuals are independent; otherwise the model with
    most parameters would win by following the noise.
    """
    if not windows:
        raise Refused("settled voltages", 0, "the size of the noise is not known", "settle before or after")
    noise = windows[0]
    points = _averaged(evidence, phase, noise)
    times, volts = points.times_s, points.voltage_V
    fall_V = float(volts[:3].mean() - volts[-3:].mean())
    _require_fall(fall_V, LEAST_FALL_DEVIATIONS * noise.deviation_V)
    fits = fit_decays(times, volts)
    chosen, rivals = select_decay(fits)
    if chosen is None:
        raise Refused(
            "models tried",
            ", ".join(one.model.name for one in fits),
            "the curve has another shape, for example a delay and then a ramp",
            "no time constant is reported",
        )
    expected = noise.scatter_uncertainty_V**2 * noise.length_s / points.width_s
    freedom = times.size - len(chosen.model.names)
    misfit = chosen.residual_sum / freedom / expected if expected > 0.0 else math.inf
    is_poor = misfit > max(LEAST_MISFIT, 1.0 + MISFIT_DEVIATIONS * math.sqrt(2.0 / freedom))
    _tell(chosen, rivals, misfit, is_poor, phase, cautions)
    return RunGrowth(
        fit=chosen,
        standard_uncertainties={
            name: math.sqrt(points.repeats) * one for name, one in chosen.standard_uncertainties.items()
        },
        time_constant_s=None if is_poor else _time_constant_s(chosen),
        settling_voltage_V=None if is_poor else _settling_V(chosen, float(times[-1]), phase, cautions),
        aicc={one.model.name: one.aicc for one in fits},
        lack_of_fit=misfit,
        is_poor=is_poor,
    )


def _require_fall(fall_V: float, least_V: float) -> None:
    if fall_V >= least_V:
        return
    quantity, fall_mV = "fall of the voltage in mV", 1000.0 * fall_V
    if fall_V <= -least_V:
        remedy = "look at what was added, at the electrodes and the contacts"
        raise Refused(quantity, fall_mV, "the voltage rose", remedy)
    reason = f"the voltage fell by less than {LEAST_FALL_DEVIATIONS:g} times the noise"
    raise Refused(quantity, fall_mV, reason, "let the catalyst grow longer")


@dataclass(frozen=True, slots=True)
class _Averaged:
    """Times since the salt and voltages, averaged over `width_s`; each is worth 1/`repeats` of a point."""

    times_s: NDArray[np.float64]
    voltage_V: NDArray[np.float64]
    width_s: float
    repeats: float


def _averaged(evidence: Evidence, phase: Phase, noise: SettledWindow) -> _Averaged:
    """Average the growth over as long as the noise lasts."""
    usable = evidence.electrolysing(evidence.within(phase.begin_s, phase.end_s))
    number = sum(usable.count(k) for k in range(len(usable)))
    if number < FEWEST_POINTS:
        raise Refused("readings of the growth", number, "so few tell nothing", "record faster")
    grid = evidence.averages.of(usable, GROWTH_CELLS)
    share = noise.scatter_uncertainty_V / noise.deviation_V if noise.deviation_V > 0.0 else 0.0
    lasts_s = noise.length_s * share * share
    if grid.length_s < FEWEST_INDEPENDENT * lasts_s or len(grid) < FEWEST_POINTS:
        raise Refused(
            "length of the growth in s",
            round(grid.length_s, 1),
            f"the noise lasts up to {lasts_s:.0f} s",
            f"grow for {FEWEST_INDEPENDENT * lasts_s:.0f} s or longer",
        )
    # At least 30 points, since the time that the noise lasts is an upper estimate; what correlation is left
    # widens the uncertainties.
    wanted_s = min(max(lasts_s, grid.length_s / MOST_POINTS), grid.length_s / USUAL_POINTS)
    block = max(1, round(wanted_s / grid.step_s))
    width_s = block * grid.step_s
    return _Averaged(
        times_s=block_means(grid.times_s, block) - phase.begin_s,
        voltage_V=block_means(grid.values, block),
        width_s=width_s,
        repeats=_repeats(width_s, lasts_s / 2.0),
    )


def _repeats(width_s: float, correlation_s: float) -> float:
    """Return by how much correlation between the means of blocks widens what is found from them.

    For an Ornstein-Uhlenbeck noise of correlation time T the variance of a mean over B is 2T/B less the part
    (T/B)(1 - exp(-B/T)) that its edges take; the rest is shared with the neighbours.
    """
    if correlation_s <= 0.0:
        return 1.0
    edge = correlation_s / width_s * -math.expm1(-width_s / correlation_s)
    return 1.0 / max(1.0 - edge, 0.1)


def _tell(
    chosen: DecayFit,
    rivals: Sequence[DecayFit],
    misfit: float,
    is_poor: bool,
    phase: Phase,
    cautions: Cautions,
) -> None:
    if is_poor:
        cautions.say(
            "growth_poor_fit",
            f"No model describes the growth: the best that the data determine ({chosen.model.name}) "
            f"leaves {misfit:.0f} times the noise. Its parameters only sum up the curve; no time constant is "
            "claimed.",
            phase.begin_s,
        )
    elif rivals:
        names = " or ".join(one.model.name for one in rivals)
        cautions.say(
            "growth_not_distinguishable",
            f"The growth is described as {chosen.model.name}, but cannot be told from {names}.",
            phase.begin_s,
        )


def _time_constant_s(chosen: DecayFit) -> float | None:
    longest = chosen.parameters.get("second_time_constant_s")
    return chosen.parameters.get("time_constant_s") if longest is None else longest


def _settling_V(chosen: DecayFit, length_s: float, phase: Phase, cautions: Cautions) -> float | None:
    found = chosen.parameters.get("settling_voltage_V")
    longest_s = _time_constant_s(chosen)
    if found is None or longest_s is None:
        return None
    lengths = length_s / longest_s
    if lengths < LENGTHS_FOR_SETTLING:
        cautions.say(
            "growth_too_short",
            f"The growth was followed for {math.floor(10.0 * lengths) / 10.0:.1f} time constants; "
            f"{LENGTHS_FOR_SETTLING:g} are needed to say where it would settle.",
            phase.begin_s,
        )
        return None
    return found
