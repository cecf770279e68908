"""Slow sampling of fast rhythms. Check values: independent hand computation."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from logger.analysis.aliasing import alias_frequency_Hz, stirring_frequency_Hz
from logger.analysis.refusal import Refused


@pytest.mark.parametrize(
    ("frequency_Hz", "samples_per_s", "seen_Hz"),
    [
        (5.0, 3.0, 1.0),
        (5.05, 2.5, 0.05),
        (60.0, 3.0, 0.0),
        (50.0, 9.7, 1.5),
        (0.4, 1.0, 0.4),
        (0.0, 1.0, 0.0),
    ],
)
def test_the_frequency_seen(frequency_Hz: float, samples_per_s: float, seen_Hz: float) -> None:
    assert alias_frequency_Hz(frequency_Hz, samples_per_s) == pytest.approx(seen_Hz, abs=1e-12)


@given(st.floats(0.0, 1000.0), st.floats(0.1, 100.0))
def test_the_samples_cannot_tell_it_from_its_alias(frequency_Hz: float, samples_per_s: float) -> None:
    seen_Hz = alias_frequency_Hz(frequency_Hz, samples_per_s)
    assert 0 <= seen_Hz <= samples_per_s / 2 * (1 + 1e-12)
    time_s = np.arange(20) / samples_per_s
    assert np.cos(2 * np.pi * seen_Hz * time_s) == pytest.approx(
        np.cos(2 * np.pi * frequency_Hz * time_s), abs=1e-6
    )


def test_the_rhythm_of_a_stirrer() -> None:
    assert stirring_frequency_Hz(300) == 5.0


@pytest.mark.parametrize("values", [(-1.0, 1.0), (1.0, 0.0), (math.nan, 1.0), (1.0, math.inf)])
def test_impossible_rhythms_are_refused(values: tuple[float, float]) -> None:
    with pytest.raises(Refused):
        alias_frequency_Hz(*values)
