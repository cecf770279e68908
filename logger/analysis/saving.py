"""The voltage saved by the catalyst, with its full uncertainty budget.

saved = V1 - V2 - c_T (T2 - T1), and at equal current + c_I. The same meter on the same range reads both
plateaus: its offset cancels and its gain acts on the difference only.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from logger.analysis.current_correction import CurrentCorrection
from logger.analysis.meter_accuracy import MeterAccuracy
from logger.analysis.refusal import Refused, require_finite, require_positive
from logger.analysis.uncertainty import (
    Combined,
    Component,
    combine,
    degrees_of_freedom_of_estimate,
    rectangular_standard_uncertainty,
)
from logger.quantity import with_uncertainty

__all__ = [
    "GREATEST_TEMPERATURE_DIFFERENCE_K",
    "JUDGED_TO",
    "SAME_TEMPERATURE",
    "TEMPERATURE_COEFFICIENT_V_PER_K",
    "SavingEstimate",
    "SettledVoltage",
    "TemperatureDifference",
    "VoltageSaved",
    "power_saved_percent",
    "voltage_saved",
]

TEMPERATURE_COEFFICIENT_V_PER_K = 0.002
"""By how much the cell voltage falls for each kelvin of warming (common practice, no source): 0.88 mV of the
reversible voltage and the rest kinetics."""

TEMPERATURE_COEFFICIENT_UNCERTAINTY_V_PER_K = rectangular_standard_uncertainty(0.001)
"""The coefficient is taken to lie between 1 and 3 mV/K (common practice, no source)."""

GREATEST_TEMPERATURE_DIFFERENCE_K = 5.0
"""Beyond this the temperature term is no correction any more."""

JUDGED_TO = 0.20
"""How well the uncertainties that are judged, not measured, are themselves known (common practice)."""

_EFFECT_IN_STANDARD_UNCERTAINTIES = 2.0

Effect = Literal["saved", "lost", "none_shown"]


@dataclass(frozen=True, slots=True)
class SettledVoltage:
    """One plateau as the saving needs it.

    Attributes
    ----------
    voltage_V : float
        Mean in volt.
    standard_uncertainty_V : float
        From the scatter of the readings alone, in volt; the meter is accounted for separately.
    degrees_of_freedom : float
        Of that uncertainty.
    is_settled : bool
        False where the voltage was still moving, or the window was too short.
    drift_uncertainty_V, start_up_uncertainty_V : float or None
        What a drift within the window and the tail of the start-up leave open, in volt; None where they were
        not looked for.
    rounding_uncertainty_V : float or None
        What the digits of the display leave open of the mean (see `logger.analysis.rounding`); None for a
        whole digit of the meter.
    """

    voltage_V: float
    standard_uncertainty_V: float
    degrees_of_freedom: float = math.inf
    is_settled: bool = True
    rounding_uncertainty_V: float | None = None
    drift_uncertainty_V: float | None = None
    start_up_uncertainty_V: float | None = None

    def components(self, suffix: str = "") -> tuple[Component, ...]:
        """Return what the readings themselves leave open, as lines of a budget named with `suffix`.

        A settled voltage lies anywhere between the ends of its drift; how far an unsettled one may still go
        is judged.
        """
        judged = degrees_of_freedom_of_estimate(JUDGED_TO)
        lines = [
            Component(f"scatter{suffix}", self.standard_uncertainty_V, 1.0, self.degrees_of_freedom, "A")
        ]
        if self.drift_uncertainty_V is not None:
            name = f"drift{suffix}"
            lines.append(
                Component(name, self.drift_uncertainty_V, shape="rectangular")
                if self.is_settled
                else Component(name, self.drift_uncertainty_V, 1.0, judged)
            )
        if self.start_up_uncertainty_V is not None:
            lines.append(Component(f"start-up{suffix}", self.start_up_uncertainty_V, 1.0, judged))
        return tuple(lines)


@dataclass(frozen=True, slots=True)
class TemperatureDifference:
    """Temperature after minus before, with its standard uncertainty, both in kelvin."""

    value_K: float = 0.0
    standard_uncertainty_K: float = 0.3


SAME_TEMPERATURE = TemperatureDifference()
"""A beaker in a room whose temperature was not followed: 0 +- 0.3 K (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class SavingEstimate:
    """A saving in volt with its combined uncertainty and budget.

    `value_V` is positive where the second voltage is the lower one; `combined` holds standard uncertainty,
    effective degrees of freedom, coverage factor and the components, all in volt.
    """

    value_V: float
    combined: Combined

    @property
    def standard_uncertainty_V(self) -> float:
        """Combined standard uncertainty in volt."""
        return self.combined.standard_uncertainty

    @property
    def expanded_uncertainty_V(self) -> float:
        """Half-width of the 95 % interval in volt."""
        return self.combined.expanded_uncertainty

    @property
    def interval95_V(self) -> tuple[float, float]:
        """The 95 % interval in volt."""
        return self.combined.interval(self.value_V)


@dataclass(frozen=True, slots=True)
class VoltageSaved:
    """The result of a run.

    Attributes
    ----------
    raw : SavingEstimate
        As measured, each plateau at its own current.
    at_equal_current : SavingEstimate or None
        At the current of the first plateau; None where no correction was given.
    effect : {"saved", "lost", "none_shown"}
        Judged on the value at equal current where there is one: ``none_shown`` within two standard
        uncertainties.
    is_provisional : bool
        True where a plateau was not settled.
    verdict : str
        The same in words for people.
    """

    raw: SavingEstimate
    at_equal_current: SavingEstimate | None
    effect: Effect
    is_provisional: bool
    verdict: str


def voltage_saved(
    before: SettledVoltage,
    after: SettledVoltage,
    meter: MeterAccuracy,
    *,
    correction: CurrentCorrection | None = None,
    temperature: TemperatureDifference = SAME_TEMPERATURE,
    meter_after: MeterAccuracy | None = None,
) -> VoltageSaved:
    """Compare two plateaus.

    Parameters
    ----------
    before, after : SettledVoltage
        The plateaus without and with catalyst.
    meter : MeterAccuracy
        Of the meter on the range that was used.
    correction : CurrentCorrection, optional
        See `logger.analysis.current_correction`; zero with zero uncertainty for a real constant current.
    temperature : TemperatureDifference
        After minus before.
    meter_after : MeterAccuracy, optional
        Of the other meter, or range, that read the second plateau. Then neither offset nor gain cancels, and
        the uncertainty grows to that of two absolute voltages. None: the same read both.

    Returns
    -------
    VoltageSaved

    Raises
    ------
    Refused
        A value is not finite, an uncertainty negative, the electrodes not at the same polarity, or the
        temperatures differ by more than 5 K.

    Notes
    -----
    First-order budget after JCGM 100:2008, equations 10 and G.2b. Resolution counts once for each plateau.
    The uncertainties of temperature and current correction are judged, and taken as known to 20 %
    (12.5 degrees of freedom, JCGM 100, G.4.2). Gain, resolution and drift have limits; where they dominate,
    the interval is that of their distributions (see `logger.analysis.uncertainty.combine`).
    """
    _check_plateau("voltage before in V", before)
    _check_plateau("voltage after in V", after)
    warming_K = _checked_warming_K(temperature)
    measured_V = before.voltage_V - after.voltage_V
    raw_V = measured_V - TEMPERATURE_COEFFICIENT_V_PER_K * warming_K
    budget = (
        *_meter_components(before, after, meter, meter_after),
        *before.components(" before"),
        *after.components(" after"),
        *_temperature_components(temperature),
    )
    raw = SavingEstimate(raw_V, combine(budget))
    equal = None if correction is None else _at_equal_current(raw_V, budget, correction)
    judged = raw if equal is None else equal
    effect = _effect(judged)
    provisional = not (before.is_settled and after.is_settled)
    return VoltageSaved(raw, equal, effect, provisional, _verdict(judged, effect, provisional))


def power_saved_percent(saved_V: float, before_V: float) -> float:
    """Return the power saved at the same current, as a percentage of the power before: saved/before.

    Raises
    ------
    Refused
        The saving is not finite, or the voltage before is not above zero.
    """
    before_V = require_positive("voltage before in V", before_V)
    return 100.0 * require_finite("voltage saved in V", saved_V) / before_V


def _at_equal_current(
    raw_V: float, budget: tuple[Component, ...], correction: CurrentCorrection
) -> SavingEstimate:
    freedom = degrees_of_freedom_of_estimate(JUDGED_TO)
    line = Component("current correction", correction.standard_uncertainty_V, 1.0, freedom, "B")
    return SavingEstimate(raw_V + correction.value_V, combine((*budget, line)))


def _meter_components(
    before: SettledVoltage, after: SettledVoltage, meter: MeterAccuracy, meter_after: MeterAccuracy | None
) -> tuple[Component, ...]:
    resolution = (
        Component("resolution before", _rounding_V(before, meter), shape="rectangular"),
        Component("resolution after", _rounding_V(after, meter_after or meter), shape="rectangular"),
    )
    if meter_after is None:
        difference_V = before.voltage_V - after.voltage_V
        return (
            Component(
                "meter gain on the difference",
                meter.gain_uncertainty_V(difference_V),
                shape="rectangular",
            ),
            *resolution,
        )
    return (
        Component("meter before", meter.independent_reading_uncertainty_V(before.voltage_V)),
        Component("meter after", meter_after.independent_reading_uncertainty_V(after.voltage_V)),
        *resolution,
    )


def _rounding_V(plateau: SettledVoltage, meter: MeterAccuracy) -> float:
    stated_V = plateau.rounding_uncertainty_V
    return meter.resolution_uncertainty_V if stated_V is None else stated_V


def _temperature_components(temperature: TemperatureDifference) -> tuple[Component, ...]:
    freedom = degrees_of_freedom_of_estimate(JUDGED_TO)
    difference = Component(
        "temperature difference",
        temperature.standard_uncertainty_K,
        -TEMPERATURE_COEFFICIENT_V_PER_K,
        freedom,
    )
    if temperature.value_K == 0.0:
        return (difference,)
    coefficient = Component(
        "temperature coefficient", TEMPERATURE_COEFFICIENT_UNCERTAINTY_V_PER_K, -temperature.value_K, freedom
    )
    return difference, coefficient


def _check_plateau(quantity: str, plateau: SettledVoltage) -> None:
    require_finite(quantity, plateau.voltage_V)
    if plateau.voltage_V <= 0:
        raise Refused(
            quantity,
            plateau.voltage_V,
            "an electrolysing cell has a voltage above zero",
            "give magnitudes where the leads are reversed",
        )


def _checked_warming_K(temperature: TemperatureDifference) -> float:
    warming_K = require_finite("temperature after minus before in K", temperature.value_K)
    if abs(warming_K) > GREATEST_TEMPERATURE_DIFFERENCE_K:
        raise Refused(
            "temperature after minus before in K",
            warming_K,
            "so large a difference changes the voltage as much as a catalyst may",
            f"compare plateaus within {GREATEST_TEMPERATURE_DIFFERENCE_K:g} K",
        )
    return warming_K


def _effect(saving: SavingEstimate) -> Effect:
    # With few degrees of freedom the interval is wider than twice the uncertainty and may hold zero.
    least_V = _EFFECT_IN_STANDARD_UNCERTAINTIES * saving.standard_uncertainty_V
    if abs(saving.value_V) <= max(least_V, saving.expanded_uncertainty_V):
        return "none_shown"
    return "saved" if saving.value_V > 0 else "lost"


def _verdict(saving: SavingEstimate, effect: Effect, provisional: bool) -> str:
    shown_mV = 1000.0 * (saving.value_V if effect == "none_shown" else abs(saving.value_V))
    amount = with_uncertainty(shown_mV, 1000.0 * saving.expanded_uncertainty_V, "mV")
    words = {
        "saved": f"{amount} saved",
        "lost": f"{amount} more needed than before",
        "none_shown": f"no effect shown ({amount})",
    }[effect]
    return f"{words}, provisional: a plateau was not settled" if provisional else words
