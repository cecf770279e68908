"""Windows chosen by hand: judged by the same rules, marked everywhere, kept with the recording."""

from __future__ import annotations

import json
from dataclasses import replace

import numpy as np
import pytest

from logger.analysis.chosen_windows import ChosenWindow, chosen_windows
from logger.analysis.findings import findings
from logger.analysis.findings_text import findings_text
from logger.analysis.refusal import Refused
from tests.logger.simulated_run import lesson


@pytest.fixture(scope="module")
def run():
    return lesson(3)[0]


@pytest.fixture(scope="module")
def found(run):
    return findings(run)


def test_a_chosen_window_is_used_and_marked(run, found):
    chosen = findings(run, {"before": ChosenWindow(150.0, 240.0)})
    before = chosen["settled"]["before"]
    assert before["chosen_by_hand"] is True
    assert 149.0 <= before["window_begin_s"] <= 151.0
    assert 239.0 <= before["window_end_s"] <= 241.0
    channel = run.channel("cell_voltage")
    inside = (channel.times_s >= 150.0) & (channel.times_s <= 240.0)
    assert before["voltage_V"] == pytest.approx(np.abs(channel.values[inside]).mean(), abs=2e-4)
    assert "window_chosen_before" in {one["code"] for one in chosen["warnings"]}
    assert chosen["settled"]["after"] == found["settled"]["after"]
    assert chosen["voltage_saved"]["value_V"] == pytest.approx(
        before["voltage_V"] - found["settled"]["after"]["voltage_V"]
    )
    assert "window chosen by hand" in findings_text(chosen)


def test_the_windows_that_the_program_found_give_the_same_when_chosen(run, found):
    own = {
        name: ChosenWindow(one["window_begin_s"], one["window_end_s"])
        for name, one in found["settled"].items()
    }
    again = findings(run, own)
    for name in ("before", "after"):
        assert again["settled"][name]["voltage_V"] == pytest.approx(
            found["settled"][name]["voltage_V"], abs=1e-4
        )
        assert again["settled"][name]["is_settled"] == found["settled"][name]["is_settled"]


def test_a_window_over_the_growth_is_not_called_settled(run):
    chosen = findings(run, {"before": ChosenWindow(600.0, 900.0)})
    assert chosen["settled"]["before"]["is_settled"] is False
    assert "not_settled_before" in {one["code"] for one in chosen["warnings"]}


@pytest.mark.parametrize("window", [(5.0, 40.0), (150.0, 151.0), (1e6, 2e6)], ids=["dry", "short", "beyond"])
def test_a_window_that_holds_no_settled_voltage_is_refused_with_a_warning(run, window):
    chosen = findings(run, {"before": ChosenWindow(*window)})
    assert chosen["settled"]["before"] is None
    assert chosen["voltage_saved"] is None
    assert "no_settled_before" in {one["code"] for one in chosen["warnings"]}


def test_the_choice_is_kept_with_the_findings_and_can_be_taken_back(run, found):
    chosen = findings(run, {"after": ChosenWindow(1500.0, 1600.0)})
    kept = replace(run, findings_json=json.dumps(chosen))
    assert findings(kept)["settled"] == chosen["settled"]
    assert findings(kept, {}) == found
    assert "chosen_by_hand" not in found["settled"]["before"]  # the contract's keys, and no more
    assert chosen_windows(json.dumps(found)) == {}


@pytest.mark.parametrize(
    "kept",
    [
        None, "", "[]", "3", '{"settled": 3}', "{", "[" * 100_000,
        '{"settled": {"before": {"chosen_by_hand": true}}}',
        '{"settled": {"before": {"chosen_by_hand": true, "window_begin_s": 9, "window_end_s": 3}}}',
        '{"settled": {"before": {"chosen_by_hand": true, "window_begin_s": "x", "window_end_s": 3}}}',
        '{"settled": {"before": {"chosen_by_hand": 1, "window_begin_s": 1, "window_end_s": 3}}}',
    ],
)  # fmt: skip
def test_kept_findings_of_any_form_choose_nothing(kept):
    assert chosen_windows(kept) == {}


def test_a_window_backwards_is_refused():
    with pytest.raises(Refused):
        ChosenWindow(5.0, 5.0)
