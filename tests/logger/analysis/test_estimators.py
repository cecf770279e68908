"""How often intervals of a mean hold the truth: ours beside those in common use, on noises of six kinds.

The figures are those of an independent simulation of 2000 to 4000 runs each; 400 runs here, so that four
binomial standard deviations are allowed on either side.
"""

import math

import numpy as np
import pytest
from scipy.stats import t as student

from logger.analysis.plateau import plateau
from logger.analysis.uncertainty import coverage_factor
from tests.campaigns.coverage import first_order, lag1_half, naive_half

RUNS = 400


def mixed(phi):
    return lambda random, count: (
        math.sqrt(0.5) * (random.normal(size=count) + first_order(random, count, phi))
    )


def slow(phi):
    return lambda random, count: first_order(random, count, phi)


# Readings, noise; coverage of s/sqrt(n), Newey-West with 4 (n/100)^(2/9) lags, 10 batch means, lag 1 alone,
# lag 1 and the monotone sequence, and the whole estimator with blocks.
TABLE = {
    "white": (
        600,
        lambda random, count: random.normal(size=count),
        (0.955, 0.950, 0.950, 0.958, 0.957, 0.973),
    ),
    "AR(1) 0.9, short": (300, slow(0.9), (0.343, 0.662, 0.903, 0.941, 0.957, 0.982)),
    "AR(1) 0.9": (600, slow(0.9), (0.345, 0.669, 0.933, 0.947, 0.954, 0.980)),
    "AR(1) 0.95": (600, slow(0.95), (0.232, 0.523, 0.901, 0.941, 0.946, 0.980)),
    "half white, half AR(1) 0.9, short": (300, mixed(0.9), (0.456, 0.701, 0.913, 0.678, 0.889, 0.956)),
    "half white, half AR(1) 0.95": (600, mixed(0.95), (0.347, 0.540, 0.910, 0.535, 0.902, 0.966)),
}


def newey_west_half(values):
    """Half-width with the Bartlett weights of Newey and West (Econometrica 55 (1987) 703)."""
    n = values.size
    lags = int(4 * (n / 100) ** (2 / 9))
    centred = values - values.mean()
    variance = centred @ centred
    for k in range(1, lags + 1):
        variance += 2 * (1 - k / (lags + 1)) * (centred[:-k] @ centred[k:])
    return student.ppf(0.975, n - 1) * math.sqrt(max(variance, 0.0)) / n


def batch_half(values):
    means = values[: values.size // 10 * 10].reshape(10, -1).mean(axis=1)
    return student.ppf(0.975, 9) * means.std(ddof=1) / math.sqrt(10)


def halves(values):
    found = plateau(values)
    on_samples = max(found.candidates[:2], key=lambda one: one.standard_uncertainty)
    return (
        naive_half(values),
        newey_west_half(values),
        batch_half(values),
        lag1_half(values),
        coverage_factor(0.95, on_samples.degrees_of_freedom) * on_samples.standard_uncertainty,
        found.expanded_uncertainty95,
    )


@pytest.mark.parametrize("name", TABLE)
def test_every_estimator_holds_the_truth_as_often_as_stated(name):
    count, noise, stated = TABLE[name]
    random = np.random.default_rng([2010, *name.encode()])
    hits = np.zeros(len(stated))
    for _ in range(RUNS):
        values = noise(random, count)
        hits += [abs(values.mean()) <= half for half in halves(values)]
    allowed = [4 * math.sqrt(share * (1 - share) / RUNS) + 0.005 for share in stated]
    assert (np.abs(hits / RUNS - stated) <= allowed).all(), dict(zip(stated, hits / RUNS, strict=True))
    assert hits[-1] / RUNS >= 0.91  # ours, in every row
