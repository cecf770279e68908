"""Fits with uncertain abscissas: Pearson's data with York's weights, NIST's Norris, and a slow second way."""

import math

import numpy as np
import pytest
from scipy.optimize import least_squares

from drivers.simulated.portable_noise import normals
from logger.analysis.errors_in_both import fit_errors_in_both
from logger.analysis.refusal import Refused
from tests.logger.analysis import nist_linear

# Pearson's points with the weights of D. York, Can. J. Phys. 44 (1966) 1079.
X = np.array([0.0, 0.9, 1.8, 2.6, 3.3, 4.4, 5.2, 6.1, 6.5, 7.4])
Y = np.array([5.9, 5.4, 4.4, 4.6, 3.5, 3.7, 2.8, 2.8, 2.4, 1.5])
WEIGHT_X = np.array([1000, 1000, 500, 800, 200, 80, 60, 20, 1.8, 1])
WEIGHT_Y = np.array([1, 1.8, 4, 8, 20, 20, 70, 70, 100, 500])


def test_pearson_with_york_weights() -> None:
    fit = fit_errors_in_both(X, Y, WEIGHT_X**-0.5, WEIGHT_Y**-0.5)
    # A public Julia test of this data set; the uncertainties there are scaled by the scatter.
    assert fit.parameters == pytest.approx([5.47991022, -0.48053341], abs=6e-9)
    scaled = np.sqrt(np.diag(fit.covariance) * fit.reduced_chi_square)
    assert scaled == pytest.approx([0.35924652, 0.07062027], abs=6e-9)
    # scipy.odr (scipy 1.17.1).
    assert fit.reduced_chi_square == pytest.approx(1.4832941, abs=6e-8)
    assert np.sqrt(np.diag(fit.covariance)) == pytest.approx([0.2949708, 0.0579850], abs=1e-7)


def test_norris_of_nist() -> None:
    y, x = nist_linear.NORRIS.T
    fit = fit_errors_in_both(x, y, 0.0 * x, np.ones_like(x))
    assert fit.parameters == pytest.approx([nist_linear.INTERCEPT, nist_linear.SLOPE], rel=1e-11)
    scaled = np.sqrt(np.diag(fit.covariance) * fit.reduced_chi_square)
    assert scaled == pytest.approx(
        [nist_linear.INTERCEPT_UNCERTAINTY, nist_linear.SLOPE_UNCERTAINTY], rel=1e-10
    )
    assert math.sqrt(fit.reduced_chi_square) == pytest.approx(nist_linear.RESIDUAL_DEVIATION, rel=1e-10)
    r_squared = 1.0 - fit.chi_square / float(((y - y.mean()) ** 2).sum())
    assert r_squared == pytest.approx(nist_linear.R_SQUARED, abs=1e-14)


def curved(x):
    """The columns 1, x and 10^x: a Tafel line with an ohmic drop."""
    return np.column_stack([x**0, x, 10.0**x]), np.column_stack([0 * x, x**0, math.log(10) * 10.0**x])


def test_a_curved_model_against_the_full_problem() -> None:
    # The slow way: every true abscissa is a parameter of its own.
    x = np.linspace(-1.0, 1.0, 9)
    u_x, u_y = np.full(9, 0.02), np.full(9, 0.001)
    y = curved(x)[0] @ [0.48, 0.06, 0.01] + 1e-3 * normals(9)
    x = x + 0.02 * normals(9, 987654321)

    def distances(unknown):
        return np.concatenate([(y - curved(unknown[3:])[0] @ unknown[:3]) / u_y, (x - unknown[3:]) / u_x])

    slow = least_squares(distances, [0.4, 0.05, 0.02, *x], xtol=1e-15, ftol=1e-15, gtol=1e-15)
    fit = fit_errors_in_both(x, y, u_x, u_y, curved)
    assert fit.parameters == pytest.approx(slow.x[:3], rel=1e-6)
    assert fit.chi_square == pytest.approx(2.0 * slow.cost, rel=1e-9)
    covariance = np.linalg.inv(slow.jac.T @ slow.jac)[:3, :3]
    assert np.diag(fit.covariance) == pytest.approx(np.diag(covariance), rel=1e-4)


def test_the_axes_may_change_places() -> None:
    # With errors in both, x on y is the same line as y on x; ordinary least squares gives two lines.
    there = fit_errors_in_both(X, Y, WEIGHT_X**-0.5, WEIGHT_Y**-0.5).parameters
    back = fit_errors_in_both(Y, X, WEIGHT_Y**-0.5, WEIGHT_X**-0.5).parameters
    assert 1.0 / back[1] == pytest.approx(there[1], rel=1e-8)
    assert -back[0] / back[1] == pytest.approx(there[0], rel=1e-8)


@pytest.mark.parametrize(
    ("x", "y", "words"),
    [([1.0], [2.0], "do not determine 2"), ([1.0, 1.0, 1.0], [1.0, 2.0, 3.0], "do not determine 2")],
)
def test_points_that_determine_nothing_are_refused(x, y, words: str) -> None:
    with pytest.raises(Refused, match=words):
        fit_errors_in_both(x, y, np.zeros(len(x)), np.ones(len(x)))
