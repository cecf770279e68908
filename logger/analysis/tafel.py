"""The Tafel slope of a cell from settled voltages at several currents, with or without the ohmic drop.

V = a + B log10(j/j1) + R I, with j1 = 1 mA/cm2. In a cell with two electrodes only the sum of both is seen:
B is then the cell's Tafel slope, anode and cathode together, and a holds the reversible voltage too.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import ArrayLike, NDArray

from logger.analysis.caution import Caution, Cautions
from logger.analysis.constants import FARADAY_C_MOL, GAS_CONSTANT_J_MOL_K, ZERO_CELSIUS_K
from logger.analysis.errors_in_both import BothFit, fit_errors_in_both
from logger.analysis.refusal import Refused, require_finite, require_positive
from logger.analysis.tafel_points import TafelPoints, checked_points, tafel_basis
from logger.analysis.thermodynamics import check_temperature_C
from logger.analysis.uncertainty import coverage_factor

__all__ = [
    "FEWEST_CURRENTS",
    "SLOPE_RANGE_V",
    "Measurement",
    "TafelFit",
    "fit_tafel",
    "thermal_slope_V",
]

FEWEST_CURRENTS = 4
"""With fewer currents, or less than a decade of them, a slope is indicative only (common practice, no
source)."""

FEWEST_DECADES = 1.0

SLOPE_RANGE_V = (0.025, 0.250)
"""Slopes of one electrode that are met with, in volts per decade (common practice, no source). Published for
oxygen evolution: 30 to 42 mV (Ni-Bi, NiFe-Bi after conditioning; Catal. Sci. Technol. 2017, c7cy00873b),
60 mV (Co-Pi) and 80 to 90 mV (Na2CoP2O7) in buffer at pH 7 (Nat. Commun. 6 (2015) 8253, table 1), and about
three times 2.303 RT/F without buffer (J. Am. Chem. Soc. 132 (2010) 16501)."""

BETTER_BY = 2.0  # difference of AICc that counts (Burnham and Anderson, from memory)
_LACK_OF_FIT = 0.01


@dataclass(frozen=True, slots=True)
class Measurement:
    """A fitted quantity with its standard uncertainty, in the same unit."""

    value: float
    standard_uncertainty: float


@dataclass(frozen=True, slots=True)
class TafelFit:
    """A fitted Tafel line.

    Attributes
    ----------
    slope_V_per_decade : Measurement
    intercept_V : Measurement
        Voltage at 1 mA/cm2 (at 1 mA where no area is known), without the ohmic drop where that was fitted.
    ohmic_resistance_ohm : Measurement or None
        None where it was left out of the fit.
    covariance : ndarray, shape (2, 2) or (3, 3)
        Of intercept, slope and resistance.
    degrees_of_freedom : float
        Infinite where the given uncertainties explain the scatter.
    residuals_V : ndarray, shape (n,)
    reduced_chi_square : float or None
        None where no uncertainties were given.
    aicc, aicc_of_other : float
        Corrected Akaike criterion of this fit, and of the fit with (without) the ohmic term; infinite where
        there are too few points for it.
    decades : float
        Decades that the currents span.
    is_indicative : bool
        True with fewer than four currents or less than a decade.
    is_per_area : bool
        True where densities were fitted, False where currents were.
    cautions : tuple of Caution
    """

    slope_V_per_decade: Measurement
    intercept_V: Measurement
    ohmic_resistance_ohm: Measurement | None
    covariance: NDArray[np.float64]
    degrees_of_freedom: float
    residuals_V: NDArray[np.float64]
    reduced_chi_square: float | None
    aicc: float
    aicc_of_other: float
    decades: float
    is_indicative: bool
    is_per_area: bool
    cautions: tuple[Caution, ...]

    @property
    def slope_interval95_V(self) -> tuple[float, float]:
        """Student interval of the slope, in volts per decade."""
        half = coverage_factor(0.95, self.degrees_of_freedom) * self.slope_V_per_decade.standard_uncertainty
        return self.slope_V_per_decade.value - half, self.slope_V_per_decade.value + half

    def log10_exchange_density(self, zero_V: float = 0.0) -> Measurement:
        """Return log10 of the exchange current density in mA/cm2 (of the current in mA without area).

        Parameters
        ----------
        zero_V : float
            Voltage from which overpotential counts: 0 where overpotentials were fitted, the reversible
            voltage where cell voltages were. Of a whole cell this is no property of one electrode.

        Raises
        ------
        Refused
            The slope is not above zero, or `zero_V` is not finite.

        Notes
        -----
        log j0 = -a/b, u^2 = (u_a^2 + (a/b)^2 u_b^2 - 2 (a/b) cov(a, b))/b^2 (JCGM 100, equation 13).
        """
        slope = require_positive("Tafel slope in V per decade", self.slope_V_per_decade.value)
        ratio = (self.intercept_V.value - require_finite("voltage of no overpotential in V", zero_V)) / slope
        var_a, var_b, cov = self.covariance[0, 0], self.covariance[1, 1], self.covariance[0, 1]
        variance = (var_a + ratio**2 * var_b - 2.0 * ratio * cov) / slope**2
        return Measurement(-ratio, math.sqrt(max(float(variance), 0.0)))


def thermal_slope_V(temperature_C: float) -> float:
    """Return 2.303 RT/F in volts per decade: the slope of a transfer coefficient of 1.

    Raises
    ------
    Refused
        The temperature is outside 0 to 100 degC.
    """
    kelvin = check_temperature_C(temperature_C) + ZERO_CELSIUS_K
    return math.log(10.0) * GAS_CONSTANT_J_MOL_K * kelvin / FARADAY_C_MOL


def fit_tafel(
    current_A: ArrayLike,
    voltage_V: ArrayLike,
    *,
    voltage_uncertainty_V: ArrayLike | None = None,
    current_uncertainty_A: ArrayLike | None = None,
    area_cm2: float | None = None,
    with_ohmic: bool = True,
    electrodes: int = 2,
) -> TafelFit:
    """Fit a Tafel line to settled points.

    Parameters
    ----------
    current_A, voltage_V : array_like, shape (n,)
        Settled points; currents above zero. Cell voltages, or overpotentials of one electrode.
    voltage_uncertainty_V : array_like, shape (n,) or scalar, optional
        Standard uncertainties, above zero: weights 1/u^2. None: equal weights, uncertainties from the
        scatter about the line.
    current_uncertainty_A : array_like, shape (n,) or scalar, optional
        Standard uncertainties, zero or more, taken as independent: errors in both coordinates. What the
        points share, such as the stack's voltage, mostly shifts the intercept, so that the slope is rather
        better known than stated. Needs `voltage_uncertainty_V`. Below 2 % it makes no difference.
    area_cm2 : float, optional
        Wetted anode area; None: the line is fitted to currents in mA.
    with_ohmic : bool
        Fit the resistance too. Leaving it out looks just as straight and gives a wrong slope.
    electrodes : int
        1 or 2: how many electrodes' slopes are in the voltage, for the range beyond which a slope is
        doubted.

    Returns
    -------
    TafelFit

    Raises
    ------
    Refused
        Too few points (one more than parameters), currents that do not differ, a value that is not finite
        or outside its range.

    Notes
    -----
    Where the scatter exceeds the given uncertainties, the covariance is multiplied by the reduced
    chi-square. AICc = n ln(RSS/n) + 2K + 2K(K + 1)/(n - K - 1), K one more than the parameters; with given
    uncertainties chi-square stands for the first term and K is the number of parameters.
    """
    points = checked_points(current_A, voltage_V, voltage_uncertainty_V, current_uncertainty_A, area_cm2)
    parameters = 3 if with_ohmic else 2
    if points.log_density.size <= parameters:
        raise Refused(
            "points of the Tafel line",
            points.log_density.size,
            f"{parameters} parameters need more",
            f"settle at {FEWEST_CURRENTS} or more currents over a decade or more",
        )
    fit = _fit(points, with_ohmic)
    return _described(points, fit, with_ohmic, electrodes, area_cm2 is not None)


def _fit(points: TafelPoints, with_ohmic: bool) -> BothFit:
    basis = tafel_basis(points.unit_A, with_ohmic)
    return fit_errors_in_both(points.log_density, points.voltage_V, points.u_log, points.u_V, basis)


def _described(
    points: TafelPoints, fit: BothFit, with_ohmic: bool, electrodes: int, is_per_area: bool
) -> TafelFit:
    # Equal weights of 1 V: chi-square is then the sum of squares, and its mean the variance.
    scale = fit.reduced_chi_square
    explained = points.has_weights and scale <= 1.0
    covariance = fit.covariance if explained else fit.covariance * scale
    found = [
        Measurement(float(value), math.sqrt(float(variance)))
        for value, variance in zip(fit.parameters, np.diag(covariance), strict=True)
    ]
    other = _aicc_with(points, not with_ohmic)
    result = TafelFit(
        slope_V_per_decade=found[1],
        intercept_V=found[0],
        ohmic_resistance_ohm=found[2] if with_ohmic else None,
        covariance=covariance,
        degrees_of_freedom=math.inf if explained else float(fit.degrees_of_freedom),
        residuals_V=fit.residuals,
        reduced_chi_square=scale if points.has_weights else None,
        aicc=_aicc(points, fit),
        aicc_of_other=other,
        decades=points.decades,
        is_indicative=points.currents < FEWEST_CURRENTS or points.decades < FEWEST_DECADES,
        is_per_area=is_per_area,
        cautions=(),
    )
    return _with_cautions(result, points, fit, electrodes)


def _aicc_with(points: TafelPoints, with_ohmic: bool) -> float:
    if points.log_density.size < (3 if with_ohmic else 2):
        return math.inf
    try:
        return _aicc(points, _fit(points, with_ohmic))
    except Refused:
        return math.inf


def _aicc(points: TafelPoints, fit: BothFit) -> float:
    n, free = points.log_density.size, fit.parameters.size + (0 if points.has_weights else 1)
    if n - free - 1 <= 0:
        return math.inf
    if points.has_weights:
        misfit = fit.chi_square
    else:
        # Points computed without noise leave nothing but rounding over: no logarithm of zero.
        rounding = (np.finfo(np.float64).eps * float(np.abs(points.voltage_V).max())) ** 2
        misfit = n * math.log(max(fit.chi_square / n, rounding))
    return misfit + 2.0 * free + 2.0 * free * (free + 1) / (n - free - 1)


def _with_cautions(fit: TafelFit, points: TafelPoints, both: BothFit, electrodes: int) -> TafelFit:
    cautions = Cautions()
    _tell_ohmic(fit, cautions)
    low_V, high_V = (electrodes * end for end in SLOPE_RANGE_V)
    slope_V = fit.slope_V_per_decade.value
    if not low_V <= slope_V <= high_V:
        cautions.say(
            "tafel_slope_unusual",
            f"A Tafel slope of {1000 * slope_V:.0f} mV per decade lies outside the {1000 * low_V:.0f} to "
            f"{1000 * high_V:.0f} mV that {electrodes} electrode(s) are known for; look for points that had "
            "not settled, a wrong resistor or stack voltage, or an ohmic drop left out.",
        )
    if fit.is_indicative:
        cautions.say(
            "tafel_indicative",
            f"The Tafel slope is indicative only: {points.currents} currents over {fit.decades:.1f} decades; "
            f"{FEWEST_CURRENTS} over one decade are wanted.",
        )
    if points.has_weights and _tail_probability(both) < _LACK_OF_FIT:
        cautions.say(
            "tafel_lack_of_fit",
            "The points lie further from the Tafel line than their uncertainties explain: not one line, or "
            "the electrodes changed between the points.",
        )
    return replace(fit, cautions=cautions.all)


def _tell_ohmic(fit: TafelFit, cautions: Cautions) -> None:
    resistance = fit.ohmic_resistance_ohm
    if resistance is not None:
        if resistance.value < -2.0 * resistance.standard_uncertainty:
            cautions.say(
                "negative_ohmic_resistance",
                f"The fitted ohmic resistance is negative ({resistance.value:.3g} ohm), which no cell has; "
                "the points do not belong to one Tafel line.",
            )
    elif math.isinf(fit.aicc_of_other):
        cautions.say(
            "ohmic_not_judged",
            "The ohmic drop was left out, and there are too few points to tell whether it matters; the slope "
            "may be much too large.",
        )
    elif fit.aicc - fit.aicc_of_other > BETTER_BY:
        cautions.say(
            "ohmic_left_out",
            "The ohmic drop was left out, but the points show one: the slope is too large. Fit it too.",
        )


def _tail_probability(fit: BothFit) -> float:
    from scipy.special import chdtrc  # imported late: it takes long to load

    return float(chdtrc(fit.degrees_of_freedom, fit.chi_square))
