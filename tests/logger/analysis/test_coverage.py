"""The intervals hold the truth as often as they claim: short form of tests/campaigns/coverage.py."""

import pytest

from tests.campaigns.coverage import NOISES, drift_row, lesson_row, mean_row


@pytest.mark.parametrize("name", NOISES)
def test_settled_voltage(name):
    """250 windows of 600 readings; the long campaign has 2000 and demands 0.93 to 0.99."""
    row = mean_row(name, 600, 250, seed=3)
    assert 0.90 <= row.ours <= 1.0
    assert row.ours >= row.lag1 - 0.03
    if name != "white":
        assert row.naive < 0.85  # never s/sqrt(n)


@pytest.mark.parametrize("name", ["white", "AR(1) 0.9", "bubble sawtooth", "stirring alias"])
def test_drift(name):
    """Nominal 90 %."""
    assert 0.85 <= drift_row(name, 300, 200, seed=3).ours <= 0.99


@pytest.mark.parametrize("is_perfect", [True, False])
def test_lessons(is_perfect):
    row = lesson_row("short", 20, faults=("rounded_1mV",), is_perfect=is_perfect)
    assert row.saved >= 0.9
    assert row.at_equal_current >= 0.9
    assert row.settled_before >= 0.9
    assert row.settled_after == 1.0
    assert row.width_saved_mV < 6.0
