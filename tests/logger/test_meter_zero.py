"""The zero of a meter is taken only from readings that can be of shorted leads."""

from __future__ import annotations

import pytest

from logger.analysis.refusal import Refused
from logger.meter_zero import meter_zero_V


def test_the_mean_of_steady_readings_is_the_zero() -> None:
    assert meter_zero_V([0.001, 0.002, 0.001, 0.002, float("inf"), 0.0015]) == pytest.approx(0.0015)


@pytest.mark.parametrize(
    ("readings", "words"),
    [([0.001] * 4, "three seconds"), ([0.0, 0.01, 0.0, 0.01, 0.0], "together"), ([2.25] * 9, "off the cell")],
)
def test_other_readings_are_refused_with_what_to_do(readings: list[float], words: str) -> None:
    with pytest.raises(Refused, match=words):
        meter_zero_V(readings)
