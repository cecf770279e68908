"""Short forms of the statistical campaigns: they run, and say that what is needed is reached."""

from __future__ import annotations

import pytest

from tests.campaigns import saved, settling, states


def test_states(capsys: pytest.CaptureFixture[str]):
    assert states.main(["--quick"]) == 0, capsys.readouterr().out


@pytest.mark.parametrize("kind", ["white", "AR(1) 0.9", "bubble sawtooth", "AR(1) 0.9, 10 mV digits"])
def test_the_interval_of_the_saving(kind: str):
    """60 runs have a binomial standard deviation of 3 %; the campaign has 2000 and wants 93 to 99 %."""
    found = saved.row(kind, 60, seed=7)
    assert found.ours >= 0.85
    assert found.after >= 0.85
    assert found.settled_after >= 0.9


def test_slow_noise_fools_the_naive_interval():
    found = saved.row("AR(1) 0.95", 60, seed=7)
    assert found.naive < found.ours


def test_good_lessons_settle_and_early_salt_is_told_apart():
    live_before, live_after, found_before, found_after = settling.settled_shares(0.001, 6)
    assert min(live_before, live_after) >= 0.5
    assert found_before == found_after == 1.0
    assert settling.told_apart(0.002, 5) == (1.0, 0.0)
