"""Dividing a run into phases, with moments, without, and with moments a little off."""

import pytest

from logger.analysis.phases import divide_phases
from logger.analysis.salt_effect import Fall
from logger.analysis.seen_swaps import Swap, electrolysing_stretches, recognised_swaps
from logger.analysis.states import StateInterval
from logger.moments import new_moment

STATES = (
    StateInterval("open", 0.0, 45.0),
    StateInterval("electrolysing", 45.0, 1185.0),
    StateInterval("open", 1185.0, 1245.0),
    StateInterval("electrolysing", 1245.0, 1665.0),
)
TAGS = {
    "dry_cell": 0.0,
    "buffer_in": 45.0,
    "salt_added": 285.0,
    "electrodes_out": 1185.0,
    "solution_swapped": 1215.0,
    "electrodes_in": 1245.0,
}


def moments(*left_out, **moved):
    times = {**TAGS, **moved}
    return [new_moment(at_s, kind) for kind, at_s in times.items() if kind not in left_out]


def spans(found):
    return {one.phase: (one.begin_s, one.end_s) for one in found.phases}


def codes(found):
    return [one.code for one in found.cautions]


WHOLE = {"dry": (0, 45), "before": (45, 285), "growth": (285, 1185), "after": (1245, 1665)}


def test_all_tagged():
    found = divide_phases(STATES, moments())
    assert spans(found) == WHOLE
    assert codes(found) == []


def test_only_salt_and_swap_tagged():
    found = divide_phases(STATES, moments("dry_cell", "buffer_in", "electrodes_out", "electrodes_in"))
    assert spans(found)["before"] == (45, 285)
    assert spans(found)["growth"] == (285, 1185)
    assert spans(found)["after"] == (1245, 1665)
    assert codes(found) == ["buffer_in_recognised"]


def test_nothing_tagged_the_voltage_shows_it():
    found = divide_phases(STATES, [], lambda begin_s, end_s: Fall(300.0, 0.25))
    assert spans(found) == {**WHOLE, "before": (45, 300), "growth": (300, 1185)}
    assert set(codes(found)) == {"buffer_in_recognised", "swap_recognised", "salt_recognised"}
    assert [one.at_s for one in found.cautions if one.code == "salt_recognised"] == [300.0]


def test_the_salt_is_looked_for_between_buffer_and_swap():
    asked = []
    divide_phases(STATES, moments("salt_added"), lambda *span: asked.append(span))
    assert asked == [(45.0, 1185.0)]


def test_a_blank_has_no_growth():
    found = divide_phases(STATES, moments("salt_added"), lambda begin_s, end_s: None)
    assert spans(found) == {"dry": (0, 45), "before": (45, 1185), "after": (1245, 1665)}
    assert codes(found) == ["no_salt"]


def test_a_fall_that_never_settled_leaves_no_voltage_before():
    fall = Fall(45.0, 0.25, was_settled=False)
    found = divide_phases(STATES, moments("salt_added"), lambda begin_s, end_s: fall)
    assert "before" not in spans(found)
    assert spans(found)["growth"] == (45, 1185)
    assert codes(found) == ["salt_too_early"]


@pytest.mark.parametrize("off_s", [-8.0, 8.0])
def test_moments_some_seconds_off_do_no_harm(off_s):
    found = divide_phases(
        STATES, moments(buffer_in=45 + off_s, electrodes_out=1185 + off_s, electrodes_in=1245 + off_s)
    )
    assert spans(found)["before"][0] == max(45, 45 + off_s)
    assert spans(found)["growth"][1] == min(1185, 1185 + off_s)
    assert spans(found)["after"][0] == max(1245, 1245 + off_s)
    assert codes(found) == []


def test_a_moment_well_off_is_said_and_not_moved():
    found = divide_phases(STATES, moments(electrodes_out=1160.0))
    assert spans(found)["growth"] == (285, 1160)
    assert codes(found) == ["moment_off"]
    assert "is at 19:20, but the voltage stepped at 19:45;" in found.cautions[0].message


def test_no_swap_no_after():
    found = divide_phases(STATES[:2], moments("electrodes_out", "solution_swapped", "electrodes_in"))
    assert spans(found) == {"dry": (0, 45), "before": (45, 285), "growth": (285, 1185)}
    assert codes(found) == ["no_swap"]


def test_lifted_out_and_not_yet_back():
    found = divide_phases(STATES[:3], moments("solution_swapped", "electrodes_in"))
    assert spans(found) == {"dry": (0, 45), "before": (45, 285), "growth": (285, 1185)}
    assert codes(found) == ["no_return"]


def test_lifted_out_twice_without_tags_takes_the_last():
    states = (
        *STATES[:1],
        StateInterval("electrolysing", 45.0, 700.0),
        StateInterval("open", 700.0, 710.0),
        StateInterval("electrolysing", 710.0, 1185.0),
        *STATES[2:],
    )
    found = divide_phases(states, moments("electrodes_out", "solution_swapped", "electrodes_in"))
    assert spans(found)["after"] == (1245, 1665)
    assert spans(found)["growth"] == (285, 1185)
    assert codes(found) == ["several_swaps", "swap_recognised"]


TRIAL = (
    StateInterval("open", 0.0, 10.0),
    StateInterval("electrolysing", 10.0, 40.0),
    StateInterval("open", 40.0, 60.0),
    StateInterval("electrolysing", 60.0, 300.0),
)


def test_a_trial_before_the_buffer_was_tagged_is_no_swap():
    """While the buffer without salt was in, the run was said to be in fresh buffer, after everything."""
    found = divide_phases(TRIAL, moments("dry_cell", *list(TAGS)[2:], buffer_in=59.0))
    assert spans(found) == {"dry": (0, 59), "before": (60, 300)}
    assert codes(found) == ["trial_before_buffer", "no_swap", "no_salt"]


def test_a_trial_with_the_lift_out_tagged_is_no_swap_either():
    tags = moments("dry_cell", *list(TAGS)[2:], buffer_in=59.0)
    tags += [new_moment(40.0, "electrodes_out"), new_moment(60.0, "electrodes_in")]
    found = divide_phases(TRIAL, tags)
    assert spans(found)["before"] == (60, 300)
    assert "after" not in spans(found)


def test_after_a_trial_the_swap_is_still_found():
    states = (*TRIAL, StateInterval("open", 300.0, 330.0), StateInterval("electrolysing", 330.0, 500.0))
    found = divide_phases(states, moments("dry_cell", *list(TAGS)[2:], buffer_in=59.0))
    assert spans(found) == {"dry": (0, 59), "before": (60, 300), "after": (330, 500)}


def test_electrolysis_for_minutes_before_the_buffer_is_no_trial():
    """Who tags only the fresh buffer, and as buffer, means the swap."""
    found = divide_phases(STATES, moments("dry_cell", *list(TAGS)[2:], buffer_in=1215.0))
    assert spans(found)["after"] == (1245, 1665)
    assert "trial_before_buffer" not in codes(found)


def test_a_second_lift_out_ends_after():
    states = (
        *STATES[:3],
        StateInterval("electrolysing", 1245.0, 1600.0),
        StateInterval("open", 1600.0, 1665.0),
    )
    found = divide_phases(states, [*moments(), new_moment(1602.0, "electrodes_out")])
    assert spans(found)["after"] == (1245, 1600)


def test_salt_before_the_buffer_is_said():
    found = divide_phases(STATES, moments(salt_added=20.0))
    assert "before" not in spans(found)
    assert "salt_before_buffer" in codes(found)


def test_only_a_dry_cell():
    found = divide_phases(STATES[:1], moments("buffer_in", "salt_added", "electrodes_out", "electrodes_in"))
    assert spans(found) == {"dry": (0, 45)}
    assert codes(found) == ["no_electrolysis"]


def test_nothing_at_all():
    assert divide_phases((), []).phases == ()


def test_removed_moments_do_not_count():
    gone = new_moment(100.0, "salt_added").edited(removed=True)
    assert spans(divide_phases(STATES, [*moments(), gone])) == WHOLE


def test_a_gap_in_the_readings_is_no_swap():
    states = (
        StateInterval("electrolysing", 0.0, 100.0),
        StateInterval("no_reading", 100.0, 160.0),
        StateInterval("electrolysing", 160.0, 300.0),
        StateInterval("touching", 300.0, 320.0),
        StateInterval("electrolysing", 320.0, 400.0),
    )
    assert recognised_swaps(states) == ()
    assert [(one.begin_s, one.end_s) for one in electrolysing_stretches(states)] == [(0, 300), (320, 400)]


@pytest.mark.parametrize(("seconds", "is_swap"), [(1.0, False), (2.0, True), (900.0, True), (901.0, False)])
def test_a_swap_lasts_two_seconds_to_a_quarter_of_an_hour(seconds, is_swap):
    states = (
        StateInterval("electrolysing", 0.0, 100.0),
        StateInterval("open", 100.0, 100.0 + seconds),
        StateInterval("electrolysing", 100.0 + seconds, 2000.0),
    )
    assert recognised_swaps(states) == ((Swap(100.0, 100.0 + seconds),) if is_swap else ())


OPENED = (
    StateInterval("open", 0.0, 45.0),
    StateInterval("electrolysing", 45.0, 700.0),
    StateInterval("open", 700.0, 705.0),
    StateInterval("electrolysing", 705.0, 1185.0),
    StateInterval("open", 1185.0, 1245.0),
    StateInterval("electrolysing", 1245.0, 1665.0),
)


@pytest.mark.parametrize("kind", ["resistor_changed", "lead_lifted", "lead_back"])
@pytest.mark.parametrize("at_s", [690.0, 702.0, 720.0])
def test_an_open_circuit_that_a_moment_explains_is_no_swap(kind, at_s):
    tags = [*moments("electrodes_out", "solution_swapped", "electrodes_in"), new_moment(at_s, kind)]
    found = divide_phases(OPENED, tags)
    assert spans(found)["growth"] == (285, 1185)
    assert spans(found)["after"] == (1245, 1665)
    assert "several_swaps" not in codes(found)


def test_changing_the_resistor_alone_gives_no_voltage_after():
    found = divide_phases(
        OPENED[:4], [new_moment(45.0, "buffer_in"), new_moment(285.0, "salt_added"),
                     new_moment(701.0, "resistor_changed", "4.7k")]
    )  # fmt: skip
    assert "after" not in spans(found)
    assert "no_swap" in codes(found)


def test_a_resistor_changed_during_a_swap_does_not_undo_it():
    tags = [*moments("electrodes_in"), new_moment(1200.0, "resistor_changed", "10k")]
    assert spans(divide_phases(STATES, tags))["after"] == (1245, 1665)


def test_without_a_moment_an_open_circuit_still_counts():
    found = divide_phases(OPENED[:4], [new_moment(45.0, "buffer_in"), new_moment(285.0, "salt_added")])
    assert spans(found)["after"] == (705, 1185)


def test_lifted_out_to_look_and_back_into_the_same_solution_is_not_the_swap():
    look = [new_moment(700.0, "electrodes_out"), new_moment(705.0, "electrodes_in")]
    found = divide_phases(OPENED, [*moments(), *look])
    assert spans(found) == WHOLE
    assert codes(found) == []


def test_of_several_lift_outs_without_a_swap_the_last_counts_and_it_is_said():
    look = [new_moment(700.0, "electrodes_out"), new_moment(705.0, "electrodes_in")]
    found = divide_phases(OPENED, [*moments("solution_swapped"), *look])
    assert spans(found) == WHOLE
    assert codes(found) == ["several_swaps"]


def test_a_swap_tagged_without_lifting_out_long_after_a_look_is_the_swap():
    look = [new_moment(700.0, "electrodes_out"), new_moment(705.0, "electrodes_in")]
    found = divide_phases(OPENED, [*moments("electrodes_out", "electrodes_in"), *look])
    assert spans(found)["growth"] == (285, 1185)
    assert spans(found)["after"] == (1245, 1665)


def test_a_key_pressed_twice_is_one_lift_out():
    found = divide_phases(STATES, [*moments(), new_moment(1187.0, "electrodes_out")])
    assert spans(found) == WHOLE


def test_a_lift_out_tagged_after_the_electrodes_went_back_in_does_not_end_after():
    found = divide_phases(STATES, moments(electrodes_out=1300.0))
    assert spans(found)["after"] == (1245, 1665)
    assert codes(found) == ["moment_off"]
    assert "is at 21:40, but the voltage stepped at 19:45;" in found.cautions[0].message


def test_a_swap_tagged_far_from_the_lift_out_that_is_seen_is_said():
    found = divide_phases(STATES, moments("electrodes_out", "electrodes_in", solution_swapped=800.0))
    assert codes(found) == ["moment_off"]
    assert "is at 13:20, but the voltage stepped at 19:45;" in found.cautions[0].message


def test_salt_tagged_long_after_the_voltage_fell_is_said():
    asked = []

    def fall(*span):
        asked.append(span)
        return Fall(300.0, 0.25)

    found = divide_phases(STATES, moments(salt_added=1100.0), fall)
    assert asked == [(45.0, 1100.0)]
    assert spans(found)["before"] == (45, 1100)  # the person's moment is never moved
    assert codes(found) == ["salt_late"]
    assert "From about 5:00 on" in found.cautions[0].message
    assert "tagged at 18:20." in found.cautions[0].message


@pytest.mark.parametrize(
    "fall",
    [None, Fall(1000.0, 0.25), Fall(300.0, 0.02), Fall(300.0, 0.25, was_settled=False), Fall(100.0, 0.08)],
)
def test_a_fall_near_the_salt_or_small_or_from_the_start_is_no_late_salt(fall):
    assert codes(divide_phases(STATES, moments(salt_added=1100.0), lambda *span: fall)) == []


def test_a_swap_before_the_salt_is_said():
    found = divide_phases(STATES, moments(salt_added=1400.0))
    assert "after" not in spans(found)
    assert codes(found) == ["no_swap", "swap_before_salt"]


def test_a_second_swap_and_more_salt_after_the_swap_are_said():
    twice = [new_moment(1400.0, "electrodes_out"), new_moment(1410.0, "solution_swapped")]
    found = divide_phases(STATES, [*moments(), *twice])
    assert spans(found)["after"] == (1245, 1400)
    assert codes(found) == ["after_ended"]
    assert "1400" not in found.cautions[0].message, "wherever a warning stands, its time stands beside it"
    found = divide_phases(STATES, [*moments(), new_moment(1500.0, "salt_added")])
    assert spans(found)["after"] == (1245, 1500)
    assert codes(found) == ["after_ended"]
    assert "Salt was added again" in found.cautions[0].message
