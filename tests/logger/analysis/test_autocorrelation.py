"""Autocorrelation and inflation factors: certified data, a slow second implementation, exact values."""

import numpy as np
import pytest
from statsmodels.tsa.stattools import acf

from drivers.simulated.portable_noise import autoregressive, normals
from logger.analysis.autocorrelation import (
    ar1_coefficient,
    ar1_effective_samples,
    ar1_inflation,
    autocorrelation,
    deviations,
    lagged_products,
    monotone_inflation,
)
from tests.logger.analysis.nist_strd import CERTIFIED


@pytest.mark.parametrize("name", CERTIFIED)
def test_certified_lag1_and_deviation(name):
    """NIST StRD univariate: mean, deviation and lag-1 correlation of real and of awkward data."""
    data, mean, deviation, lag1 = CERTIFIED[name]
    centred = deviations(data)
    # NumAcc4's last digits are lost when its values are stored as doubles (NIST says so).
    digits = 1e-10 if name != "NumAcc4" else 1e-8
    assert data.mean() + (data - data.mean()).mean() == pytest.approx(mean, rel=1e-13)
    assert np.sqrt(centred @ centred / (data.size - 1)) == pytest.approx(deviation, rel=digits)
    assert autocorrelation(data)[1] == pytest.approx(lag1, rel=digits)


@pytest.mark.parametrize("n", [2, 3, 30, 257])
def test_fast_products_equal_the_slow_sums(n):
    values = normals(n)
    slow = [sum(values[i] * values[i + k] for i in range(n - k)) for k in range(n)]
    assert lagged_products(values) == pytest.approx(slow, abs=1e-12)


def test_autocorrelation_agrees_with_statsmodels():
    """statsmodels.tsa.stattools.acf(adjusted=False) does the same job."""
    values = 2.0 + 0.002 * autoregressive(600, 0.9)
    assert autocorrelation(values) == pytest.approx(
        acf(values, adjusted=False, nlags=599, fft=False), abs=1e-12
    )


def test_values_that_do_not_vary_have_no_correlation():
    correlation = autocorrelation(np.full(50, 2.25))
    assert correlation[0] == 1.0
    assert not correlation[1:].any()
    assert monotone_inflation(correlation) == 1.0


@pytest.mark.parametrize(
    ("n", "phi", "effective"),
    [
        (100, 0.5, 33.78378),
        (100, 0.9, 5.813937),
        (600, 0.9, 32.08556),
        (600, 0.95, 15.90106),
        (60, 0.8, 7.199999),
    ],
)
def test_effective_samples_of_a_first_order_process(n, phi, effective):
    """Exact values computed from 1 + 2 sum (1 - k/n) phi^k (Zieba 2010)."""
    k = np.arange(1, n)
    assert ar1_inflation(phi, n) == pytest.approx(1 + 2 * np.sum((1 - k / n) * phi**k), rel=1e-12)
    assert ar1_effective_samples(phi, n) == pytest.approx(effective, rel=1e-6)


def test_effective_samples_of_a_long_series_reach_the_limit():
    """n (1 - phi)/(1 + phi), the textbook asymptote."""
    assert ar1_effective_samples(0.9, 10**6) == pytest.approx(10**6 * 0.1 / 1.9, rel=1e-4)


def test_coefficient_is_corrected_for_what_was_fitted_and_clipped():
    assert ar1_coefficient(0.5, 100) == pytest.approx((100 * 0.5 + 1) / 96)
    assert ar1_coefficient(0.5, 100, fitted=2) == pytest.approx((100 * 0.5 + 2) / 95)
    assert ar1_coefficient(-0.3, 100) == 0.0
    assert ar1_coefficient(0.999, 100) == 0.995


def test_monotone_inflation_sees_slow_noise_below_fast_noise():
    """Half of the variance is white, so lag 1 is small; the slow half still counts."""
    slow, fast = autoregressive(4000, 0.95), normals(4000, 987654321)
    correlation = autocorrelation(slow + fast)
    lag1_only = ar1_inflation(ar1_coefficient(correlation[1], 4000), 4000)
    true_inflation = 0.5 * 1.95 / 0.05 + 0.5
    assert lag1_only < 0.25 * true_inflation
    assert 0.5 * true_inflation < monotone_inflation(correlation) < 1.6 * true_inflation
