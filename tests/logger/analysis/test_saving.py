"""The voltage saved and its budget.

The worked example was computed independently with the uncertainties package 3.2.3.
"""

import math
from collections.abc import Callable

import pytest

from logger.analysis.current_correction import CurrentCorrection
from logger.analysis.meter_accuracy import MeterAccuracy
from logger.analysis.refusal import Refused
from logger.analysis.saving import (
    SettledVoltage,
    TemperatureDifference,
    VoltageSaved,
    power_saved_percent,
    voltage_saved,
)

HANDHELD = MeterAccuracy(0.5, 2, 0.001)
BEFORE = SettledVoltage(2.250555, 0.6e-3, 30)
AFTER = SettledVoltage(1.995998, 0.5e-3, 20)
CORRECTION = CurrentCorrection(1.223980e-3, 0.150e-3, 0.0103, True)
EXACT = MeterAccuracy()
KNOWN_TEMPERATURE = TemperatureDifference(0.0, 0.0)


def worked_example(*, same_meter: bool = True) -> VoltageSaved:
    return voltage_saved(
        BEFORE, AFTER, HANDHELD, correction=CORRECTION, meter_after=None if same_meter else HANDHELD
    )


def test_the_worked_example() -> None:
    equal = worked_example().at_equal_current
    assert equal is not None
    assert 1000 * equal.value_V == pytest.approx(255.7810, abs=6e-5)
    assert 1000 * equal.standard_uncertainty_V == pytest.approx(1.30352, abs=6e-6)
    assert equal.combined.degrees_of_freedom == pytest.approx(161.7, abs=0.05)
    assert equal.combined.coverage_factor == pytest.approx(1.97474, abs=6e-6)
    assert 1000 * equal.expanded_uncertainty_V == pytest.approx(2.57411, abs=6e-6)
    low_V, high_V = equal.interval95_V
    assert 1000 * (high_V - low_V) == pytest.approx(2 * 2.57411, abs=2e-5)


def test_the_budget_of_the_worked_example() -> None:
    equal = worked_example().at_equal_current
    assert equal is not None
    budget_mV = {c.name: 1000 * c.contribution for c in equal.combined.components}
    assert budget_mV == pytest.approx(
        {
            "meter gain on the difference": 0.734843,
            "resolution before": 0.288675,
            "resolution after": 0.288675,
            "scatter before": 0.6,
            "scatter after": 0.5,
            "temperature difference": 0.6,
            "current correction": 0.15,
        },
        abs=6e-7,
    )
    assert {c.name for c in equal.combined.components if c.evaluation == "A"} == {
        "scatter before",
        "scatter after",
    }


def test_two_meters_cost_two_absolute_uncertainties() -> None:
    equal = worked_example(same_meter=False).at_equal_current
    assert equal is not None
    assert 1000 * equal.standard_uncertainty_V == pytest.approx(8.90136, abs=6e-6)


def test_the_raw_saving_stands_beside_the_one_at_equal_current() -> None:
    saved = worked_example()
    assert 1000 * saved.raw.value_V == pytest.approx(254.557)
    assert saved.at_equal_current is not None
    assert saved.raw.standard_uncertainty_V < saved.at_equal_current.standard_uncertainty_V
    assert voltage_saved(BEFORE, AFTER, HANDHELD).at_equal_current is None


def test_it_agrees_with_the_uncertainties_package() -> None:
    uncertainties = pytest.importorskip("uncertainties")
    ufloat = uncertainties.ufloat
    gain = ufloat(0, 0.005 / math.sqrt(3))
    offset = ufloat(0, 0.002 / math.sqrt(3))  # cancels
    rounding = [ufloat(0, 0.001 / math.sqrt(12)) for _ in range(2)]
    coefficient, warming = ufloat(0.002, 0.001 / math.sqrt(3)), ufloat(1.2, 0.3)
    before = ufloat(2.250555, 0.6e-3) * (1 + gain) + offset + rounding[0]
    after = ufloat(1.995998, 0.5e-3) * (1 + gain) + offset + rounding[1]
    theirs = before - after + ufloat(1.22398e-3, 0.15e-3) - coefficient * warming
    ours = voltage_saved(
        BEFORE, AFTER, HANDHELD, correction=CORRECTION, temperature=TemperatureDifference(1.2, 0.3)
    ).at_equal_current
    assert ours is not None
    assert ours.value_V == pytest.approx(theirs.nominal_value, rel=1e-12)
    assert ours.standard_uncertainty_V == pytest.approx(theirs.std_dev, rel=1e-9)


def test_plateaus_of_a_simulated_run_with_an_exact_meter() -> None:
    # Deterministic check of the simulated cell: the true saving of 254.55690 mV lies inside the interval.
    before = SettledVoltage(2.2503921, 3.317804e-4, 19.5293)
    after = SettledVoltage(1.9965509, 5.437146e-4, 11.1145)
    raw = voltage_saved(before, after, EXACT, temperature=KNOWN_TEMPERATURE).raw
    assert 1000 * raw.value_V == pytest.approx(253.84116, abs=6e-5)
    assert 1000 * raw.standard_uncertainty_V == pytest.approx(0.636949, abs=6e-7)
    assert raw.combined.degrees_of_freedom == pytest.approx(19.40, abs=5e-3)
    assert 1000 * raw.expanded_uncertainty_V == pytest.approx(1.3313, abs=6e-5)
    low_V, high_V = raw.interval95_V
    assert low_V < 0.25455690 < high_V


def test_a_warmer_second_plateau_fakes_a_saving_that_is_taken_off() -> None:
    warm = voltage_saved(BEFORE, AFTER, EXACT, temperature=TemperatureDifference(1.0, 0.0))
    assert 1000 * warm.raw.value_V == pytest.approx(254.557 - 2.0)
    assert "temperature coefficient" in {c.name for c in warm.raw.combined.components}


@pytest.mark.parametrize(
    ("after_V", "effect", "verdict"),
    [
        (1.9960, "saved", "254.0 ± 1.2 mV saved"),
        (2.2600, "lost", "10.0 ± 1.2 mV more needed than before"),
        (2.2490, "none_shown", "no effect shown (1.0 ± 1.2 mV)"),
        (2.2510, "none_shown", "no effect shown (−1.0 ± 1.2 mV)"),
    ],
)
def test_the_verdict(after_V: float, effect: str, verdict: str) -> None:
    before = SettledVoltage(2.2500, 0.6e-3)
    saved = voltage_saved(before, SettledVoltage(after_V, 0.0), EXACT, temperature=KNOWN_TEMPERATURE)
    assert saved.effect == effect
    assert saved.verdict.replace("\N{NO-BREAK SPACE}", " ") == verdict
    assert not saved.is_provisional


def test_no_effect_is_shown_at_exactly_two_standard_uncertainties() -> None:
    before, after = SettledVoltage(2.5, 0.125), SettledVoltage(2.25, 0.0)
    assert voltage_saved(before, after, EXACT, temperature=KNOWN_TEMPERATURE).effect == "none_shown"


def test_the_effect_is_judged_at_equal_current() -> None:
    before, after = SettledVoltage(2.2500, 0.6e-3), SettledVoltage(2.2490, 0.0)
    correction = CurrentCorrection(2e-3, 0.0, 0.0, False)
    saved = voltage_saved(before, after, EXACT, correction=correction, temperature=KNOWN_TEMPERATURE)
    assert saved.effect == "saved"


@pytest.mark.parametrize("settled", [(False, True), (True, False), (False, False)])
def test_a_moving_plateau_makes_the_result_provisional(settled: tuple[bool, bool]) -> None:
    saved = voltage_saved(
        SettledVoltage(2.25, 1e-3, 10, settled[0]), SettledVoltage(2.0, 1e-3, 10, settled[1]), HANDHELD
    )
    assert saved.is_provisional
    assert "provisional" in saved.verdict


def test_the_power_saved_at_the_same_current() -> None:
    assert power_saved_percent(0.255780876, 2.250555) == pytest.approx(11.3652, abs=6e-5)


@pytest.mark.parametrize(
    ("attempt", "words"),
    [
        (lambda: voltage_saved(SettledVoltage(math.nan, 1e-3), AFTER, HANDHELD), "voltage before in V"),
        (lambda: voltage_saved(BEFORE, SettledVoltage(0.0, 1e-3), HANDHELD), "give magnitudes"),
        (lambda: voltage_saved(BEFORE, SettledVoltage(-2.0, 1e-3), HANDHELD), "give magnitudes"),
        (lambda: voltage_saved(BEFORE, SettledVoltage(2.0, -1e-3), HANDHELD), "scatter after"),
        (lambda: voltage_saved(BEFORE, SettledVoltage(2.0, 1e-3, 0), HANDHELD), "degrees of freedom"),
        (
            lambda: voltage_saved(BEFORE, AFTER, HANDHELD, temperature=TemperatureDifference(5.1)),
            "compare plateaus within 5 K",
        ),
        (
            lambda: voltage_saved(BEFORE, AFTER, HANDHELD, temperature=TemperatureDifference(-5.1)),
            "compare plateaus within 5 K",
        ),
        (
            lambda: voltage_saved(BEFORE, AFTER, HANDHELD, temperature=TemperatureDifference(0.0, math.nan)),
            "temperature difference",
        ),
        (lambda: power_saved_percent(0.25, 0.0), "voltage before"),
        (lambda: power_saved_percent(math.nan, 2.25), "voltage saved"),
    ],
)
def test_impossible_comparisons_are_refused(attempt: Callable[[], object], words: str) -> None:
    with pytest.raises(Refused, match=words):
        attempt()


def test_an_interval_that_holds_zero_shows_no_effect() -> None:
    """With two degrees of freedom 95 % reach 4.3 uncertainties (JCGM 100, table G.2)."""
    before = SettledVoltage(2.2521, 0.001, 2.0, rounding_uncertainty_V=0.0)
    after = SettledVoltage(2.2500, 0.0, rounding_uncertainty_V=0.0)
    saved = voltage_saved(before, after, EXACT, temperature=KNOWN_TEMPERATURE)
    low, high = saved.raw.interval95_V
    assert low < 0.0 < high
    assert saved.effect == "none_shown"
