"""The settled voltage and its uncertainty. Check data P1, P2, P4 use the project's portable noise."""

import numpy as np
import pytest

from drivers.simulated.portable_noise import autoregressive, normals
from logger.analysis.autocorrelation import ar1_coefficient
from logger.analysis.plateau import plateau
from logger.analysis.refusal import Refused
from logger.analysis.uncertainty import coverage_factor
from tests.logger.analysis.nist_strd import CERTIFIED

OTHER_SEED = 987654321
P1 = 2.0 + 0.002 * autoregressive(600, 0.9)
P2 = 2.0 + 0.0003 * normals(600)
P3 = 2.0 + 1e-5 * np.arange(600.0) + 0.001 * autoregressive(600, 0.9)
P4 = 2.0 + 0.001 * autoregressive(600, 0.9) + 0.001 * normals(600, OTHER_SEED)

# The expected digits below were computed with an independent script (numpy, scipy 1.17.1) from the
# published formulas (Zieba 2010; Geyer 1992), not with this package.


def candidates_mV(result):
    return [1000 * one.standard_uncertainty for one in result.candidates]


def test_slow_noise_p1():
    result = plateau(P1)
    assert result.mean == pytest.approx(1.9998371, abs=5e-8)
    assert result.standard_deviation == pytest.approx(1.783577e-3, rel=1e-6)
    assert result.lag1 == pytest.approx(0.879632, abs=1e-6)
    assert result.candidates[0].inflation == pytest.approx(16.50016, rel=1e-6)
    assert candidates_mV(result) == pytest.approx(
        [0.2996769, 0.2831263, 0.3137355, 0.3317804, 0.3277504], abs=1e-7
    )
    assert [(one.block, one.method) for one in result.candidates] == [
        (1, "ar1"), (1, "monotone"), (5, "ar1"), (10, "ar1"), (20, "ar1"),
    ]  # fmt: skip
    assert result.standard_uncertainty == pytest.approx(3.317804e-4, rel=1e-6)
    assert result.degrees_of_freedom == pytest.approx(19.5293, rel=1e-5)
    assert coverage_factor(0.95, result.degrees_of_freedom) == pytest.approx(2.08919, abs=6e-6)
    assert result.expanded_uncertainty95 == pytest.approx(6.931526e-4, rel=1e-6)
    assert result.is_valid


def test_the_naive_uncertainty_of_p1_is_far_too_small():
    """s over the root of n, which nothing here may use: 4.6 times too small."""
    result = plateau(P1)
    assert ar1_coefficient(result.lag1, 600) == pytest.approx(0.887214, abs=6e-7)
    naive = result.standard_deviation / np.sqrt(600)
    assert naive == pytest.approx(7.281422e-5, rel=1e-6)
    assert result.standard_uncertainty / naive == pytest.approx(4.6, abs=0.05)


def test_the_plateau_after_the_salt_of_the_deterministic_run():
    """The simulated cell's 1.995998 V under portable noise with another seed."""
    result = plateau(1.995998 + 0.002 * autoregressive(600, 0.9, OTHER_SEED))
    assert result.mean == pytest.approx(1.9965509, abs=6e-8)
    assert candidates_mV(result) == pytest.approx(
        [0.3729865, 0.4144122, 0.5437146, 0.5031390, 0.4261451], abs=1e-7
    )
    assert result.standard_uncertainty == pytest.approx(5.437146e-4, rel=1e-6)
    assert result.degrees_of_freedom == pytest.approx(11.1145, rel=1e-5)
    assert result.expanded_uncertainty95 == pytest.approx(1.195206e-3, rel=1e-6)


def test_rounding_to_a_millivolt_changes_little():
    result = plateau(np.round(P1, 3))
    assert result.mean == pytest.approx(1.9998567, abs=5e-8)
    assert result.standard_uncertainty == pytest.approx(3.305583e-4, rel=1e-6)
    assert max(result.candidates, key=lambda one: one.standard_uncertainty).block == 20


def test_white_noise_p2():
    result = plateau(P2)
    assert result.mean == pytest.approx(1.9999942, abs=5e-8)
    assert result.candidates[0].inflation == pytest.approx(1.05143, rel=1e-6)
    assert result.standard_uncertainty == pytest.approx(1.218617e-5, rel=1e-6)
    assert result.degrees_of_freedom == pytest.approx(569.6514, rel=1e-6)
    assert result.expanded_uncertainty95 == pytest.approx(2.393532e-5, rel=1e-6)


def test_fast_noise_on_slow_noise_p4():
    result = plateau(P4)
    assert result.mean == pytest.approx(1.9999808, abs=5e-8)
    assert result.candidates[0].inflation == pytest.approx(2.41417, rel=1e-5)
    assert candidates_mV(result) == pytest.approx(
        [0.0836303, 0.1435971, 0.1662420, 0.1704289, 0.1575062], abs=1e-7
    )
    assert result.standard_uncertainty == pytest.approx(1.704289e-4, rel=1e-6)
    assert result.degrees_of_freedom == pytest.approx(21.9821, rel=1e-5)
    assert result.expanded_uncertainty95 == pytest.approx(3.534647e-4, rel=1e-6)


def test_a_ramp_is_no_plateau():
    result = plateau(P3)
    assert result.standard_uncertainty == pytest.approx(2.70e-3, rel=2e-3)
    assert result.degrees_of_freedom == 1.0
    assert not result.is_valid
    assert "drifting" in result.refusal


@pytest.mark.parametrize("name", CERTIFIED)
def test_certified_mean_and_deviation(name):
    """NIST StRD univariate. NumAcc4 fails any one-pass algorithm."""
    data, mean, deviation, lag1 = CERTIFIED[name]
    result = plateau(data)
    digits = 1e-10 if name != "NumAcc4" else 1e-8
    assert result.mean == pytest.approx(mean, rel=1e-13)
    assert result.standard_deviation == pytest.approx(deviation, rel=digits)
    assert result.lag1 == pytest.approx(lag1, rel=digits)


def test_a_constant_display_has_no_scatter():
    """The resolution must then carry the uncertainty; that is added where the meter is known."""
    result = plateau(np.full(600, 2.25))
    assert result.mean == 2.25
    assert result.standard_uncertainty == 0.0
    assert result.is_valid


@pytest.mark.parametrize("bad", [np.nan, np.inf, -np.inf])
def test_a_reading_that_is_none_is_refused(bad):
    values = P1.copy()
    values[100] = bad
    with pytest.raises(Refused, match="leave them out"):
        plateau(values)


@pytest.mark.parametrize("values", [np.empty(0), P1[:29], P1.reshape(2, 300)])
def test_too_few_samples_are_refused(values):
    with pytest.raises(Refused, match="30"):
        plateau(values)


@pytest.mark.parametrize(
    ("kind", "lowest", "highest"), [("white", 0.91, 0.99), ("slow", 0.91, 0.995), ("mixed", 0.91, 0.99)]
)
def test_coverage_of_the_95_percent_interval(kind, lowest, highest):
    """Short form of tests/campaigns/coverage.py: 500 windows of 300 readings."""
    random = np.random.default_rng(20240611)
    hits = 0
    for _ in range(500):
        white = random.normal(size=300)
        slow = np.empty(300)
        slow[0] = random.normal()
        for k, step in enumerate(np.sqrt(1 - 0.81) * random.normal(size=299), start=1):
            slow[k] = 0.9 * slow[k - 1] + step
        values = {"white": white, "slow": slow, "mixed": white + slow}[kind]
        result = plateau(values)
        hits += abs(result.mean) <= result.expanded_uncertainty95
    assert lowest <= hits / 500 <= highest
