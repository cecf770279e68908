"""Recognising states on whole simulated lessons with every fault, against the noise-free twin."""

import itertools

import numpy as np
import pytest

from drivers.simulated.cell import LessonCell
from logger.analysis.findings import findings
from logger.analysis.seen_swaps import recognised_swaps
from logger.analysis.states import recognise_states, state_thresholds
from tests.logger.simulated_run import channel, readings, recording

LIMITS = state_thresholds(1.231181, 26.967623)
FAULTS = ("reversed_leads", "touching", "supply_off", "rounded_1mV", "dropouts", "salt_early", "half_dipped")
STATE_FAULTS = ("touching", "supply_off")


def true_states(times, faults, seed):
    """What the cell does, from its voltage without noise."""
    kept = [one for one in faults if one in (*STATE_FAULTS, "salt_early", "half_dipped")]
    volts = LessonCell("demo", seed, "quiet", kept).block(times)
    names = np.full(times.size, "electrolysing", dtype=object)
    names[volts > 20] = "open"
    names[volts < 1.3] = "below_reversible"
    names[volts < 0.05] = "touching"
    return names


@pytest.mark.parametrize("noise", ["lesson", "rough"])
def test_nearly_every_second_is_named_rightly(noise):
    """At least 99 % of the seconds outside 5 s of a change, and no swap that was none, over many faults."""
    wrong = total = 0
    combinations = [set(one) for size in (0, 1, 2, 3) for one in itertools.combinations(FAULTS, size)]
    for seed, faults in enumerate(combinations):
        cell = LessonCell("demo", seed, noise, sorted(faults))
        times, volts = readings(cell)
        found = recognise_states(times, volts, LIMITS)
        names = true_states(times, faults, seed)
        changes = times[np.flatnonzero(names[1:] != names[:-1]) + 1]
        away = np.min(np.abs(times[:, None] - changes[None, :]), axis=1) > 5.0
        begins = [one.begin_s for one in found]
        seen = np.array([one.state for one in found], dtype=object)[
            np.searchsorted(begins, times, "right") - 1
        ]
        wrong += int((seen[away] != names[away]).sum())
        total += int(away.sum())
        assert len(recognised_swaps(found)) == 1, faults
    assert len(combinations) > 60
    assert wrong <= 0.01 * total


@pytest.mark.parametrize(
    "faults", [(), ("touching",), ("supply_off",), ("half_dipped",), ("silence",), ("unplug",)]
)
def test_faults_during_growth_leave_the_saving_right(faults):
    """Half dipped electrodes have their own, higher, voltage after: the truth knows."""
    for seed in range(5):
        cell = LessonCell("demo", seed, "lesson", faults)
        times, volts = readings(cell)
        for outage in cell.outages:
            kept = (times < outage.begin_s) | (times >= outage.end_s)
            times, volts = times[kept], volts[kept]
        tags = [(one.time_s, one.kind) for one in cell.moments]
        document = findings(recording(channel(times, volts), moments=tags))
        low, high = document["voltage_saved"]["interval95_V"]
        assert low <= cell.truth["saved_V"] <= high
        states = {one["state"] for one in document["states"]}
        assert ("touching" in states) is ("touching" in faults)
        assert ("below_reversible" in states) is ("supply_off" in faults)
        assert ("no_reading" in states) is bool(cell.outages)


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_ruptures_finds_the_same_steps(seed):
    """Least squares segments (linear kernel) of one reading a second, by a package of others.

    A state changes a reading after its step: the median of three readings has to agree.
    """
    ruptures = pytest.importorskip("ruptures")
    cell = LessonCell("demo", seed, "lesson", ("rounded_1mV",))
    times, volts = readings(cell, rate=1.0)
    search = ruptures.KernelCPD(kernel="linear", min_size=3).fit(volts)
    *steps, _ = search.predict(pen=50.0)  # volts squared: the stack's 27 V against the cell's 2 V
    found = [one.begin_s for one in recognise_states(times, volts, LIMITS)[1:]]
    assert found == pytest.approx([times[one] + 1.0 for one in steps], abs=0.01)
    assert len(found) == 3  # buffer in, lifted out, back in
