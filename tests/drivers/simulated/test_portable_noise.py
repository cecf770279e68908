"""Check values: generator of NIST SP 1065, section 12.4; means worked out beforehand with numpy."""

import math
import statistics

import numpy as np
import pytest

from drivers.simulated.portable_noise import autoregressive, normals, uniforms


def test_uniforms_have_the_published_digits() -> None:
    # NIST SP 1065 section 12.4: first terms, and the thousandth.
    u = uniforms(1000)
    assert u[[0, 1, 2, 999]] == pytest.approx([0.5748905, 0.1841830, 0.5631758, 0.7264948], abs=5e-8)


def test_published_deviations_of_the_thousand_uniforms() -> None:
    # NIST SP 1065 table 31 (from memory): mean 0.4897745, sample standard deviation 0.2884664.
    u = uniforms(1000)
    assert u.mean() == pytest.approx(0.4897745, abs=5e-8)
    assert u.std(ddof=1) == pytest.approx(0.2884664, abs=5e-8)


def test_normals_have_the_reference_digits() -> None:
    g = normals(600)
    assert g[:3] == pytest.approx([-0.88088061, -0.15889684, -0.83673069], abs=5e-9)
    assert g.mean() == pytest.approx(-0.0192488763, abs=5e-11)
    # The reference's tenth decimal is one too high: exact sums (math.fsum) give 0.97031537626.
    assert g.std(ddof=1) == pytest.approx(0.9703153764, abs=2e-10)
    assert statistics.stdev(
        math.fsum(block) - 6 for block in uniforms(7200).reshape(600, 12)
    ) == pytest.approx(g.std(ddof=1), rel=1e-14)


def test_autoregressive_noise_has_the_reference_digits() -> None:
    e = autoregressive(3, 0.9)
    assert e == pytest.approx([-0.88088061, -0.86205407, -1.14057112], abs=5e-9)


def test_deterministic_plateaus_of_the_reference() -> None:
    # Worked out beforehand: means of the two noisy plateaus.
    before = 2.250555 + 0.002 * autoregressive(600, 0.9)
    after = 1.995998 + 0.002 * autoregressive(600, 0.9, seed=987654321)
    assert before.mean() == pytest.approx(2.2503921, abs=5e-8)
    assert after.mean() == pytest.approx(1.9965509, abs=5e-8)


@pytest.mark.parametrize("seed", [0, -1, 2**31 - 1])
def test_a_seed_that_would_stand_still_is_refused(seed: int) -> None:
    with pytest.raises(ValueError, match="seed"):
        uniforms(3, seed)


def test_an_impossible_correlation_is_refused() -> None:
    with pytest.raises(ValueError, match="correlation"):
        autoregressive(3, 1.5)


def test_no_noise_is_an_empty_array() -> None:
    assert np.array_equal(normals(0), np.empty(0))
