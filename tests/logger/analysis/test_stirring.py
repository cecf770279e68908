"""Whether the stirrer ran alike at both settled voltages."""

import dataclasses

import numpy as np
import pytest

from logger.analysis.findings import findings
from logger.analysis.settled import settled_window
from logger.analysis.stirring import stirring_changed
from logger.moments import new_moment
from tests.logger.simulated_run import lesson

TIMES = np.arange(100.0, 300.0, 0.5)
ONE = settled_window(
    TIMES, 2.25 + 0.001 * np.random.default_rng(1).normal(size=TIMES.size), limit_V_per_s=1e-4, window_s=60.0
)
BEFORE = dataclasses.replace(ONE, begin_s=100.0, end_s=300.0)
AFTER = dataclasses.replace(ONE, begin_s=1300.0, end_s=1600.0)


@pytest.mark.parametrize(
    ("switches", "at_s"),
    [
        ((), None),
        (((50.0, "on"),), None),
        (((50.0, "on"), (1210.0, "off"), (1250.0, "on")), None),  # off for the swap
        (((50.0, "on"), (1700.0, "off")), None),  # once both are settled
        (((1400.0, "off"),), 1400.0),
        (((50.0, "on"), (1210.0, "off")), 1210.0),
        (((200.0, "on"),), 200.0),
        (((700.0, "on"),), 700.0),
        (((200.0, "off"), (250.0, "on")), 250.0),
    ],
)
def test_stirred_alike_or_not(switches, at_s):
    said = stirring_changed(
        [new_moment(time_s, f"stirring_{how}") for time_s, how in switches], BEFORE, AFTER
    )
    assert (said and said.at_s) == at_s


def test_the_findings_say_it():
    run, cell = lesson(1)
    off = new_moment(cell.truth["electrodes_out_s"] + 10.0, "stirring_off")
    moments = tuple(sorted((*run.moments, off), key=lambda one: one.time_s))
    for tags, is_said in ((run.moments, False), (moments, True)):
        document = findings(dataclasses.replace(run, moments=tags))
        assert ("stirring_changed" in [one["code"] for one in document["warnings"]]) is is_said
