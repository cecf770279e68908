"""What a meter's accuracy statement means. Check values: independent computation, JCGM 100:2008, 4.3.7."""

import math

import pytest

from logger.analysis.meter_accuracy import MeterAccuracy
from logger.analysis.refusal import Refused

HANDHELD = MeterAccuracy(percent_of_reading=0.5, counts=2, resolution_V=0.001)


def test_one_reading_of_a_handheld_meter() -> None:
    assert 1000 * HANDHELD.gain_uncertainty_V(2.2506) == pytest.approx(6.49692, abs=2e-4)
    assert 1000 * HANDHELD.gain_uncertainty_V(2.250555) == pytest.approx(6.49679, abs=6e-6)
    assert 1000 * HANDHELD.offset_uncertainty_V == pytest.approx(1.15470, abs=6e-6)
    assert 1000 * HANDHELD.independent_reading_uncertainty_V(2.250555) == pytest.approx(6.59861, abs=6e-6)
    assert 1000 * HANDHELD.single_reading_uncertainty_V(2.250555) == pytest.approx(7.65149, abs=6e-6)


def test_the_sign_of_a_reading_does_not_matter() -> None:
    assert HANDHELD.gain_uncertainty_V(-2.25) == HANDHELD.gain_uncertainty_V(2.25)


def test_a_one_millivolt_display() -> None:
    assert 1000 * HANDHELD.resolution_uncertainty_V == pytest.approx(0.288675, abs=6e-7)


def test_a_meter_without_statement_counts_as_exact() -> None:
    assert MeterAccuracy().single_reading_uncertainty_V(27.0) == 0.0


@pytest.mark.parametrize(
    "values", [(-0.1, 0, 0), (101, 0, 0), (0, -1, 0), (0, 0, -0.001), (math.nan, 0, 0), (0, 0, math.inf)]
)
def test_impossible_statements_are_refused(values: tuple[float, float, float]) -> None:
    with pytest.raises(Refused):
        MeterAccuracy(*values)


def test_no_uncertainty_is_given_for_an_overload() -> None:
    with pytest.raises(Refused, match="voltage in V"):
        HANDHELD.single_reading_uncertainty_V(math.inf)
