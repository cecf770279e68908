"""Drift with its interval. Check data P1, P3, P4 use the project's portable noise, one sample a second."""

import numpy as np
import pytest
import statsmodels.api as sm

from drivers.simulated.portable_noise import autoregressive, normals
from logger.analysis.autocorrelation import ar1_coefficient, autocorrelation
from logger.analysis.drift import drift
from logger.analysis.refusal import Refused

TIMES_S = np.arange(600.0)
P1 = 2.0 + 0.002 * autoregressive(600, 0.9)
P3 = 2.0 + 1e-5 * TIMES_S + 0.001 * autoregressive(600, 0.9)
P4 = 2.0 + 0.001 * autoregressive(600, 0.9) + 0.001 * normals(600, 987654321)
MV_PER_MIN = 60e3

# The expected digits were computed with an independent script, not with this package.


def test_slow_noise_p1():
    result = drift(TIMES_S, P1)
    assert MV_PER_MIN * result.slope == pytest.approx(0.042658, abs=1e-6)
    assert MV_PER_MIN * result.standard_uncertainty == pytest.approx(0.119881, abs=1e-6)
    assert result.degrees_of_freedom == pytest.approx(14.2117, rel=1e-5)
    assert MV_PER_MIN * np.array(result.interval()) == pytest.approx([-0.16827, 0.25358], abs=1e-5)


def test_a_ramp_in_slow_noise_p3():
    """Truth 0.6 mV/min."""
    result = drift(TIMES_S, P3)
    assert MV_PER_MIN * result.slope == pytest.approx(0.621329, abs=1e-6)
    assert MV_PER_MIN * result.standard_uncertainty == pytest.approx(0.059940, abs=1e-6)
    assert MV_PER_MIN * np.array(result.interval()) == pytest.approx([0.51587, 0.72679], abs=1e-5)
    assert result.fast_noise_factor == 1.0


def test_the_first_scale_of_p3():
    """On single samples alone: 0.052416 mV/min, the plain 0.012592 inflated; blocks then say 0.059940."""
    time_s, volts = TIMES_S - TIMES_S.mean(), P3 - P3.mean()
    residuals = volts - time_s * (time_s @ volts) / (time_s @ time_s)
    phi = ar1_coefficient(float(autocorrelation(residuals)[1]), 600, fitted=2)
    lags = np.arange(1, 600)
    slope = 1 + 2 * sum((time_s[:-k] @ time_s[k:]) / (time_s @ time_s) * phi**k for k in lags)
    mean = 1 + 2 * np.sum((1 - lags / 600) * phi**lags)
    share = (600 - mean - slope) / 598
    variance = (residuals @ residuals) / 598 * slope / (share * (time_s @ time_s))
    assert MV_PER_MIN * np.sqrt(variance) == pytest.approx(0.052416, abs=1e-6)
    found = drift(TIMES_S, P3)
    assert found.block > 1
    assert MV_PER_MIN * found.standard_uncertainty > 0.052416


@pytest.mark.parametrize(("at_s", "mV_per_min"), [(600, 4.271749), (1800, 1.439650), (3600, 0.721882)])
def test_a_logarithmic_decay_goes_on_falling(at_s, mV_per_min):
    """s/(ln 10 (t + t0)) with s 0.1 V per decade and t0 10 s: a laboratory limit is not met in an hour."""
    times = at_s + np.arange(-20.0, 21.0)
    result = drift(times, 2.25 - 0.1 * np.log10(1 + times / 10.0))
    assert -MV_PER_MIN * result.slope == pytest.approx(mV_per_min, rel=2e-3)
    assert not result.is_within(0.5 / MV_PER_MIN)


def test_fast_noise_on_slow_noise_p4():
    result = drift(TIMES_S, P4)
    assert result.fast_noise_factor == pytest.approx(2.825589, abs=1e-6)
    assert MV_PER_MIN * result.slope == pytest.approx(0.041337, abs=1e-6)
    assert MV_PER_MIN * result.standard_uncertainty == pytest.approx(0.059349, abs=1e-6)
    assert MV_PER_MIN * np.array(result.interval()) == pytest.approx([-0.06093, 0.14361], abs=1e-5)


def test_statsmodels_finds_the_same_size_of_uncertainty():
    """statsmodels OLS with a HAC covariance of 60 lags, and GLSAR(1), on P3."""
    design = sm.add_constant(TIMES_S)
    plain = sm.OLS(P3, design).fit()
    assert MV_PER_MIN * plain.bse[1] == pytest.approx(0.012592, abs=1e-6)  # a fifth of what is true
    hac = sm.OLS(P3, design).fit(cov_type="HAC", cov_kwds={"maxlags": 60, "use_correction": True})
    glsar = sm.GLSAR(P3, design, rho=1)
    fitted = glsar.iterative_fit(maxiter=10)
    ours = drift(TIMES_S, P3)
    assert hac.params[1] == pytest.approx(ours.slope, rel=1e-9)
    assert MV_PER_MIN * hac.bse[1] == pytest.approx(0.049608, abs=1e-5)
    assert MV_PER_MIN * fitted.params[1] == pytest.approx(0.610001, abs=1e-4)
    assert MV_PER_MIN * fitted.bse[1] == pytest.approx(0.050269, abs=1e-4)
    assert 1.0 < ours.standard_uncertainty / hac.bse[1] < 1.5
    assert 1.0 < ours.standard_uncertainty / fitted.bse[1] < 1.5


def test_level_uncertainty_agrees_with_theory():
    """The mean of 600 samples of AR(1) 0.9 and sd 2 mV has 2 mV sqrt(1/32.08556) (exact n_eff)."""
    estimates = [
        drift(TIMES_S, 0.002 * autoregressive(600, 0.9, seed)).level_uncertainty for seed in range(1, 40)
    ]
    assert np.median(estimates) == pytest.approx(0.002 / np.sqrt(32.08556), rel=0.25)


def test_a_line_without_noise_is_found_exactly():
    result = drift(TIMES_S, 2.0 - 1e-4 * TIMES_S)
    assert result.slope == pytest.approx(-1e-4, rel=1e-12)
    assert result.standard_uncertainty < 1e-15


def test_the_equivalence_test_needs_the_whole_interval():
    result = drift(TIMES_S, P3)
    assert result.is_within(0.8 / MV_PER_MIN)
    assert not result.is_within(0.7 / MV_PER_MIN)  # the slope is within, its interval is not
    assert not result.is_within(0.5 / MV_PER_MIN)


def test_missing_cells_do_not_bend_the_slope():
    kept = np.r_[0:200, 250:600]
    assert drift(TIMES_S[kept], 2.0 + 1e-5 * TIMES_S[kept]).slope == pytest.approx(1e-5, rel=1e-9)


@pytest.mark.parametrize(
    ("times", "values"),
    [
        (TIMES_S[:29], P1[:29]),
        (TIMES_S[:100], P1[:99]),
        (TIMES_S[::-1], P1),
        (np.zeros(600), P1),
        (TIMES_S, np.where(TIMES_S == 5, np.nan, P1)),
    ],
)
def test_nonsense_is_refused(times, values):
    with pytest.raises(Refused):
        drift(times, values)


@pytest.mark.parametrize("length_s", [120, 180, 300])
def test_coverage_of_the_90_percent_interval_on_short_windows(length_s):
    """Bubble noise of 9.5 s correlation read 2.5 times a second; short form of tests/campaigns."""
    random = np.random.default_rng(7)
    n, phi = int(2.5 * length_s), np.exp(-0.4 / 9.5)
    hits = 0
    for _ in range(300):
        slow = np.empty(n)
        slow[0] = random.normal()
        for k, step in enumerate(np.sqrt(1 - phi * phi) * random.normal(size=n - 1), start=1):
            slow[k] = phi * slow[k - 1] + step
        values = 2.25 + 0.002 * slow + 0.0003 * random.normal(size=n)
        low, high = drift(0.4 * np.arange(n), np.round(values, 3)).interval()
        hits += low <= 0.0 <= high
    assert 0.86 <= hits / 300 <= 0.99
