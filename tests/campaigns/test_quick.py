"""Short forms of the campaigns: the real thing passes, and a step left out is noticed."""

from __future__ import annotations

import pytest

from tests.campaigns import mutants, scenes
from tests.campaigns.crash_model import FILLINGS
from tests.campaigns.power_cut import GOOD, SCENES, run_scene


@pytest.mark.parametrize("make", SCENES, ids=lambda make: make.__name__)
def test_no_power_cut_loses_what_was_acknowledged(make):
    counts = run_scene(make(), 80, 5, b"", FILLINGS[:2])
    assert sum(counts.values()) == 80
    assert set(counts) <= set(GOOD), counts


@pytest.mark.parametrize("mutate", mutants.DISKS[:2], ids=lambda mutate: mutate.__name__)
def test_a_step_left_out_is_noticed(mutate):
    counts = run_scene(scenes.plain_run(mutate=mutate), 150, 5, b"", FILLINGS[:2])
    assert set(counts) - set(GOOD), counts
