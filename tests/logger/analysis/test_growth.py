"""Models of the decay during growth: check data, certified data, and refusals.

D1 to D4: t = 0, 10 .. 1800 s, portable noise of 1 mV; estimates and AICc were computed with scipy's
curve_fit in an independent script.
"""

import numpy as np
import pytest

from drivers.simulated.portable_noise import normals
from logger.analysis.growth import MODELS, fit_decay, fit_decays, least_squares_fit, select_decay
from logger.analysis.refusal import Refused
from tests.logger.analysis.nist_strd_nonlinear import DATASETS
from tests.logger.analysis.nist_strd_observed import OBSERVED

T = np.arange(0.0, 1801.0, 10.0)
NOISE = 0.001 * normals(181)
D1 = 2.0 + 0.25 * np.exp(-T / 300) + NOISE
D2 = 2.0 + 0.15 * np.exp(-T / 60) + 0.10 * np.exp(-T / 600) + NOISE
D3 = 2.0 + 0.25 * np.exp(-((T / 300) ** 0.6)) + NOISE
D4 = 2.25 - 0.1 * np.log10(1 + T / 10) + NOISE


def values(fit):
    return list(fit.parameters.values())


def errors(fit):
    return list(fit.standard_uncertainties.values())


@pytest.mark.parametrize(
    ("data", "aicc", "chosen"),
    [
        (D1, (-2492.398, -2488.954, -2491.008, -1577.259), "exponential"),
        (D2, (-1687.578, -2488.830, -2022.290, -1817.668), "two exponentials"),
        (D3, (-1862.188, -2292.903, -2490.903, -2002.048), "stretched exponential"),
        (D4, (-1759.316, -2267.384, -2309.373, -2492.828), "logarithmic"),
    ],
    ids=["D1", "D2", "D3", "D4"],
)
def test_every_model_and_the_choice_among_them(data, aicc, chosen):
    fits = fit_decays(T, data)
    assert [one.aicc for one in fits] == pytest.approx(aicc, abs=2e-3)
    assert select_decay(fits)[0].model.name == chosen


def test_one_exponential_d1():
    fit = fit_decay(MODELS[0], T, D1)
    assert values(fit) == pytest.approx([2.00006, 0.24965, 299.887], rel=2e-5)
    assert errors(fit) == pytest.approx([0.000125, 0.000357, 0.841], rel=2e-3)
    assert fit.residual_sum == pytest.approx(1.809819e-4, rel=1e-6)


def test_a_needless_second_exponential_is_refused_d1():
    """Its time constant came out as 87 s with a standard uncertainty of 203 s."""
    fit = fit_decay(MODELS[1], T, D1)
    assert fit.parameters["first_time_constant_s"] == pytest.approx(87, abs=1)
    assert fit.standard_uncertainties["first_time_constant_s"] == pytest.approx(203, abs=1)
    assert fit.refusal
    chosen, rivals = select_decay(fit_decays(T, D1))
    assert chosen.model.name == "exponential"
    assert [one.model.name for one in rivals] == ["stretched exponential"]  # worse by only 1.391


def test_two_exponentials_d2():
    fit = fit_decay(MODELS[1], T, D2)
    assert values(fit)[:4] == pytest.approx([2.00025, 0.149242, 0.0998921, 59.9453], rel=5e-6)
    ratio = fit.parameters["second_time_constant_s"] / fit.parameters["first_time_constant_s"]
    assert ratio == pytest.approx(9.93563, rel=1e-5)


def test_stretched_exponential_d3():
    assert values(fit_decay(MODELS[2], T, D3)) == pytest.approx(
        [2.00037, 0.248777, 299.990, 0.602674], rel=3e-6
    )


def test_logarithmic_d4():
    fit = fit_decay(MODELS[3], T, D4)
    assert values(fit) == pytest.approx([2.24927, 0.0998201, 10.0912], rel=5e-6)
    assert errors(fit) == pytest.approx([0.00088, 0.000258, 0.276], rel=5e-3)


def test_a_logarithm_fitted_by_a_stretched_exponential_invents_a_plateau():
    """Why the choice matters: 1.983 V that does not exist."""
    assert fit_decay(MODELS[2], T, D4).parameters["settling_voltage_V"] == pytest.approx(1.983, abs=5e-4)


def test_the_simpler_of_two_that_cannot_be_told_apart_is_chosen():
    fits = fit_decays(T, D1)
    reordered = tuple(sorted(fits, key=lambda one: -one.aicc))
    assert select_decay(reordered)[0].model.name == "exponential"


def test_a_straight_line_is_no_decay():
    fits = fit_decays(T, 2.25 - 1e-4 * T + 1e-5 * normals(181))
    chosen, _ = select_decay(fits)
    assert chosen is None or chosen.model.name == "stretched exponential"
    assert fits[0].refusal


def test_a_rise_is_no_decay():
    assert all(one.refusal for one in fit_decays(T, 2.0 - 0.25 * np.exp(-T / 300) + NOISE))


def test_noise_alone_is_no_decay():
    assert select_decay(fit_decays(T, 2.0 + NOISE))[0] is None


def test_few_points_are_refused():
    with pytest.raises(Refused, match="20"):
        fit_decays(T[:19], D1[:19])


NIST_MODELS = {
    "Misra1a": lambda x, b1, b2: b1 * (1 - np.exp(-b2 * x)),
    "BoxBOD": lambda x, b1, b2: b1 * (1 - np.exp(-b2 * x)),
    "MGH17": lambda x, b1, b2, b3, b4, b5: b1 + b2 * np.exp(-x * b4) + b3 * np.exp(-x * b5),
    "MGH09": lambda x, b1, b2, b3, b4: b1 * (x**2 + x * b2) / (x**2 + x * b3 + b4),
    "Lanczos3": lambda x, b1, b2, b3, b4, b5, b6: (
        b1 * np.exp(-b2 * x) + b3 * np.exp(-b4 * x) + b5 * np.exp(-b6 * x)
    ),
    "Chwirut1": lambda x, b1, b2, b3: np.exp(-b1 * x) / (b2 + b3 * x),
    "Chwirut2": lambda x, b1, b2, b3: np.exp(-b1 * x) / (b2 + b3 * x),
    "Rat43": lambda x, b1, b2, b3, b4: b1 / (1 + np.exp(b2 - b3 * x)) ** (1 / b4),
}
CERTIFIED = {**DATASETS, **OBSERVED}


@pytest.mark.parametrize("name", NIST_MODELS)
def test_certified_fits(name):
    """NIST StRD nonlinear; MGH17 is two exponentials and a constant, as ours."""
    data = CERTIFIED[name]
    found, covariance, total = least_squares_fit(NIST_MODELS[name], data["x"], data["y"], data["starts"])
    digits = 1e-4 if name == "Lanczos3" else 2e-6
    assert total == pytest.approx(data["residual_sum"], rel=1e-5)
    assert found == pytest.approx(data["values"], rel=digits)
    assert np.sqrt(np.diag(covariance)) == pytest.approx(data["deviations"], rel=1e-2)


def test_one_start_alone_may_end_at_a_wrong_answer():
    """BoxBOD from its first official start: 9771.5 instead of 1168.0, and no error is raised."""
    data = DATASETS["BoxBOD"]
    function = NIST_MODELS["BoxBOD"]
    assert least_squares_fit(function, data["x"], data["y"], data["starts"][:1])[2] == pytest.approx(
        9771.5, rel=1e-4
    )
    assert least_squares_fit(function, data["x"], data["y"], data["starts"])[2] == pytest.approx(1168.0088766)


def test_no_start_that_leads_anywhere_is_refused():
    with pytest.raises(Refused):
        least_squares_fit(lambda x, a: np.full_like(x, np.nan) * a, T, D1, ((1.0,),))
