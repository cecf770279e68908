"""Readings that stand out. Digits of an independent script (numpy) unless named."""

import numpy as np
import pytest
from scipy.stats import median_abs_deviation, norm

from drivers.simulated.portable_noise import normals
from logger.analysis.refusal import Refused
from logger.analysis.stray_readings import MAD_TO_DEVIATION, stray_readings

SPIKED = 2.25 + 0.001 * normals(101)
SPIKED[[20, 50, 80]] += [0.05, -0.08, 0.03]


def test_the_factor_is_that_of_a_normal_distribution() -> None:
    assert pytest.approx(1.0 / norm.ppf(0.75), rel=1e-10) == MAD_TO_DEVIATION


def test_three_spikes_in_the_portable_noise() -> None:
    found = stray_readings(SPIKED)
    assert found.indices == (20, 50, 80)
    assert found.medians[0] == pytest.approx(2.2498411, abs=6e-8)
    assert found.deviations[0] == pytest.approx(9.712245e-4, rel=1e-6)
    assert found.mean_without == pytest.approx(2.2499329, abs=6e-8)
    assert SPIKED.mean() == pytest.approx(2.2499193, abs=6e-8)
    assert SPIKED.std(ddof=1) == pytest.approx(9.829323e-3, rel=1e-6)
    assert found.furthest == pytest.approx(-0.08, abs=0.003)


def test_the_deviation_agrees_with_scipy() -> None:
    theirs = median_abs_deviation(SPIKED, scale="normal")
    assert stray_readings(SPIKED).deviations[0] == pytest.approx(theirs, rel=1e-9)


def test_of_normal_readings_a_quarter_percent_stands_out() -> None:
    found = stray_readings(normals(20_000))
    assert len(found.indices) / 20_000 == pytest.approx(0.0027, abs=0.001)


def test_the_median_of_normal_readings_scatters_as_it_must() -> None:
    """Its variance is pi/2 times that of the mean: an efficiency of 2/pi, 0.63662."""
    windows = normals(101 * 3000).reshape(3000, 101)
    medians = [stray_readings(one).medians[0] for one in windows]
    assert windows.mean(axis=1).var() / np.var(medians) == pytest.approx(0.63662, rel=0.06)


def test_the_running_median_follows_a_slope() -> None:
    values = SPIKED - 0.001 * np.arange(101)
    assert stray_readings(values).indices != (20, 50, 80)
    assert stray_readings(values, span=11, limit=5.0).indices == (20, 50, 80)


@pytest.mark.parametrize("span", [5, 21, 40])
def test_running_medians_against_the_slow_way(span: int) -> None:
    found = stray_readings(SPIKED, span=span)
    for k in range(101):
        first = min(max(k - span // 2, 0), 101 - span)
        around = SPIKED[first : first + span]
        assert found.medians[k] == np.median(around)
        assert found.deviations[k] == pytest.approx(median_abs_deviation(around, scale="normal"), rel=1e-9)


def test_a_still_display_has_no_stray_readings() -> None:
    values = np.full(50, 2.25)
    values[7] = 2.251
    assert stray_readings(values).indices == ()


@pytest.mark.parametrize("values", [[], [2.0] * 4, [2.0, 2.1, np.nan, 2.0, 2.1], np.ones((5, 5))])
def test_what_is_no_window_is_refused(values) -> None:
    with pytest.raises(Refused, match="values of the window"):
        stray_readings(values)


def test_a_limit_of_nothing_is_refused() -> None:
    with pytest.raises(Refused, match="limit"):
        stray_readings(SPIKED, limit=0.0)
