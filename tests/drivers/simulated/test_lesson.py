"""Timelines: as users are promised them for cell:demo and cell:bench."""

import numpy as np
import pytest

from drivers.errors import AddressError
from drivers.simulated.lesson import LESSONS, SIMULATED, Circuit, Timeline, find_plan
from drivers.simulated.lesson_fault import FAULTS, parse_faults

MOMENT_KINDS = {"dry_cell", "buffer_in", "salt_added", "electrodes_out", "solution_swapped", "electrodes_in"}


def at(*times_s: float) -> np.ndarray:
    return np.array(times_s, dtype=np.float64)


@pytest.mark.parametrize(
    ("name", "buffer_in_s", "salt_added_s", "electrodes_out_s", "electrodes_in_s", "end_s"),
    [
        ("demo", 45, 285, 1185, 1245, 1665),  # contract: dry 45 s, before 4 min, growth 15 min, after 7 min
        ("bench", 20, 2420, 4820, 4880, 7280),  # reference: 20, 2400, 2400, 60 and 2400 s
        ("stability", 20, 260, 1460, 1520, 7220),  # everything within half an hour, then an hour and a half
    ],
)
def test_when_things_happen(
    name: str,
    buffer_in_s: float,
    salt_added_s: float,
    electrodes_out_s: float,
    electrodes_in_s: float,
    end_s: float,
) -> None:
    line = Timeline(LESSONS[name])
    moments = {moment.kind: moment.time_s for moment in line.moments}
    assert moments["dry_cell"] == 0
    assert moments["buffer_in"] == line.buffer_in_s == buffer_in_s
    assert moments["salt_added"] == line.salt_added_s == salt_added_s
    assert moments["electrodes_out"] == line.electrodes_out_s == electrodes_out_s
    assert electrodes_out_s < moments["solution_swapped"] < electrodes_in_s
    assert moments["electrodes_in"] == line.electrodes_in_s == electrodes_in_s
    assert line.end_s == end_s


def test_every_moment_says_that_it_is_simulated() -> None:
    moments = Timeline(LESSONS["demo"]).moments
    assert {moment.kind for moment in moments} == MOMENT_KINDS
    assert all(moment.label.endswith(SIMULATED) for moment in moments)
    assert SIMULATED == "(simulated)"  # the word the recording is searched for
    times_s = [moment.time_s for moment in moments]
    assert times_s == sorted(times_s)


def test_a_blank_is_the_demo_without_salt_and_growth() -> None:
    blank, demo = Timeline(LESSONS["blank"]), Timeline(LESSONS["demo"])
    assert blank.moments == tuple(one for one in demo.moments if one.kind != "salt_added")
    times_s = np.arange(0.0, 2000.0, 7.0)
    assert blank.circuit(times_s).tolist() == demo.circuit(times_s).tolist()
    assert not blank.coverage(times_s).any()


def test_the_circuit_through_the_demo() -> None:
    times_s = at(-1, 0, 44.999, 45, 1184.999, 1185, 1244.999, 1245, 1e6)
    o, e = Circuit.OPEN, Circuit.ELECTROLYSING
    assert Timeline(LESSONS["demo"]).circuit(times_s).tolist() == [o, o, o, e, e, o, o, e, e]


def test_the_catalyst_grows_only_between_salt_and_lifting_out() -> None:
    # Logistic growth from 1e-6 at 1/60 s: 0.7657542 after 900 s (1 / (1 + (1e6 - 1) exp(-15))).
    coverage = Timeline(LESSONS["demo"]).coverage(at(0, 284.999, 285, 285 + 600, 1185, 1200, 1245, 5000))
    grown = 1 / (1 + (1e6 - 1) * np.exp(-15.0))
    assert coverage == pytest.approx([0, 0, 1e-6, 1 / (1 + (1e6 - 1) * np.exp(-10)), *[grown] * 4], rel=1e-12)


def test_each_filling_starts_too_high() -> None:
    line = Timeline(LESSONS["bench"])
    transient_mV = 1e3 * line.transient_V(at(20, 50, 80, 2420, 4880, 4910))
    expected = [80, 80 / np.e, 80 / np.e**2, 80 * np.exp(-80), 30, 30 / np.e]
    assert transient_mV == pytest.approx(expected, abs=1e-9)


def test_the_stack_sags_under_load_and_recovers_at_rest() -> None:
    # 0.2 V an hour while loaded; the rest of 60 s regains 1 - exp(-60/300) of it.
    line = Timeline(LESSONS["bench"])
    sag_V = line.sag_V(at(10, 20, 20 + 3600, 4820, 4880, 4880 + 1800), 0.2)
    lost = 0.2 * 4800 / 3600
    left = lost * np.exp(-0.2)
    assert sag_V == pytest.approx([0, 0, 0.2, lost, left, left + 0.1])


def test_growth_stands_still_while_the_supply_is_off_or_the_electrodes_touch() -> None:
    faults = frozenset({"supply_off", "touching"})
    line = Timeline(LESSONS["demo"], faults)
    off_s, touch_s = 285 + 0.6 * 900, 285 + 0.8 * 900
    assert line.circuit(at(off_s, off_s + 60, touch_s, touch_s + 20)).tolist() == [
        Circuit.SUPPLY_OFF,
        Circuit.ELECTROLYSING,
        Circuit.TOUCHING,
        Circuit.ELECTROLYSING,
    ]
    coverage = line.coverage(at(off_s, off_s + 60, touch_s, touch_s + 20, 1185))
    assert coverage[0] == coverage[1]
    assert coverage[2] == coverage[3]
    assert coverage[4] == pytest.approx(1 / (1 + (1e6 - 1) * np.exp(-(900 - 80) / 60)))


def test_salt_may_come_early() -> None:
    line = Timeline(LESSONS["demo"], frozenset({"salt_early"}))
    assert line.salt_added_s == 75
    assert line.end_s == 1665


def test_outages_lie_within_the_growth() -> None:
    outages = Timeline(LESSONS["demo"], frozenset({"unplug", "silence"})).outages
    assert [(o.begin_s, o.end_s, o.is_unplugged) for o in outages] == [(465, 485, False), (645, 665, True)]
    assert Timeline(LESSONS["demo"]).outages == ()


def test_faults_are_a_comma_separated_list() -> None:
    assert parse_faults("dropouts, rounded_1mV,,") == {"dropouts", "rounded_1mV"}
    assert parse_faults("") == frozenset()
    assert parse_faults(",".join(FAULTS)) == set(FAULTS)


def test_unknown_names_are_refused_with_the_nearest() -> None:
    with pytest.raises(AddressError, match=r"'reversed'.*did you mean reversed_leads"):
        parse_faults("dropouts,reversed")
    with pytest.raises(AddressError, match=r"'dmo'.*did you mean demo"):
        find_plan("dmo")
