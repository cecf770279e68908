"""A voltage that jumps within a phase."""

import dataclasses

import numpy as np
import pytest

from logger.analysis.findings import findings
from logger.analysis.plateau_step import find_step
from tests.campaigns.coverage import first_order
from tests.logger.simulated_run import lesson, recording

TIMES = np.arange(0.0, 300.0, 0.4)


def noisy(seed, sd_V=0.002, correlation=0.9):
    return 2.0 + sd_V * first_order(np.random.default_rng(seed), TIMES.size, correlation)


@pytest.mark.parametrize("height_V", [0.03, -0.03, 0.1])
@pytest.mark.parametrize("at_s", [60.0, 150.0, 250.0])
def test_a_jump_is_found_where_it_is(height_V, at_s):
    found = find_step(TIMES, noisy(1) + np.where(at_s > TIMES, 0.0, height_V))
    assert found is not None
    assert found.at_s == pytest.approx(at_s, abs=3.0)
    assert found.height_V == pytest.approx(height_V, abs=0.005)


@pytest.mark.parametrize("seed", range(20))
@pytest.mark.parametrize("correlation", [0.0, 0.9, 0.97])
def test_noise_is_no_jump(seed, correlation):
    assert find_step(TIMES, noisy(seed, correlation=correlation)) is None


def test_neither_slow_changes_nor_digits_are_jumps():
    assert find_step(TIMES, noisy(1) + 0.03 * np.clip((TIMES - 130.0) / 40.0, 0.0, 1.0)) is None
    assert find_step(TIMES, noisy(1) - 0.0005 * TIMES) is None
    digits = np.where(TIMES < 170.0, 2.0, 2.02)
    assert find_step(TIMES, digits) is not None
    assert find_step(TIMES, digits, 0.01) is None
    assert find_step(TIMES[:20], digits[:20]) is None


@pytest.mark.parametrize("name", ["before", "after"])
def test_the_findings_say_it_unless_a_moment_does(name):
    run, cell = lesson(1)
    end_s = cell.truth["salt_added_s"] if name == "before" else cell.truth["duration_s"]
    one, at_s = run.channels[0], end_s - 100.0
    later = (one.times_s >= at_s) & (one.times_s < end_s) & (one.values < 5.0)
    jumped = dataclasses.replace(one, values=one.values + 0.03 * later)
    tags = [(each.time_s, each.kind, each.label) for each in run.moments]
    for more, is_said in (((), True), (((at_s + 5.0, "note", "touched the clip"),), False)):
        document = findings(recording(jumped, moments=sorted((*tags, *more))))
        said = [each for each in document["warnings"] if each["code"].startswith("step_")]
        assert [each["code"] for each in said] == ([f"step_{name}"] if is_said else [])
        if is_said:
            assert "rose by about" in said[0]["message"]
            assert said[0]["at_s"] == pytest.approx(at_s, abs=3.0)
    assert not [each for each in findings(run)["warnings"] if each["code"].startswith("step_")]
