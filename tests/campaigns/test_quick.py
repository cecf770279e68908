"""Short forms of the campaigns: the real thing passes, and every safety step left out is noticed."""

from __future__ import annotations

import sys

import pytest

from tests.campaigns import hostile, kill, mutants, power_cut, replug, slow_disk

pytestmark = pytest.mark.skipif(sys.platform != "linux", reason="the campaigns' figures come from Linux")


@pytest.mark.timeout(900)  # work that is bounded by numbers, not by a clock
@pytest.mark.parametrize(
    "campaign", [power_cut, mutants, kill, slow_disk, hostile, replug], ids=lambda module: module.__name__
)
def test_short_form(campaign, capsys):
    assert campaign.main(["--quick"]) == 0, capsys.readouterr().out
