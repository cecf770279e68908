"""The words and numbers beside the curve."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import pytest

from gui.chart_notes import is_sure_so_far, live_notes
from gui.live_texts import (
    age_text,
    big_unit,
    big_voltage,
    drift_text,
    rows,
    running_texts,
    saved_words,
    source_words,
)
from logger.analysis.phases import Phase
from logger.assessment_view import NO_OHMS, AssessmentView, LivePlateau, LiveSaving
from logger.feed import SourceStatus
from logger.moments import new_moment
from tests.gui.fakes import FakeRun

VIEW = AssessmentView(
    now_s=1289.0,
    voltage_V=2.033,
    reading_age_s=0.2,
    state="electrolysing",
    state_since_s=46.0,
    sentence="Splitting water. The voltage is still falling while the catalyst grows.",
    drift_mV_per_min=-4.6,
    drift_interval90_mV_per_min=(-6.4, -2.9),
    drift_window_s=120.0,
    limit_mV_per_min=5.0,
    verdict="not_yet",
    verdict_reason="",
    seconds_needed=None,
    phase="growth",
    phases=(Phase("dry", 0.0, 45.0), Phase("before", 45.0, 285.0), Phase("growth", 285.0, 1289.0)),
    before=LivePlateau(2.252, 0.001, 190.0, 284.0, True),
    after=None,
    saved=LiveSaving(0.219, 0.0042, 0.2201, "saved", True),
    current_A=0.00731,
    current_change_percent=3.1,
    charge_C=8.921,
    hydrogen_mL=1.1397,
    gas_conditions="saturated with water vapour, 22 degC, 101.325 kPa, all charge splits water",
    efficiency=0.7291,
    efficiency_label="1.482 V (higher heating value) over the cell voltage",
    cautions=(),
)


@pytest.mark.parametrize(
    ("voltage_V", "text"),
    [
        (2.0334, "2.033"),
        (26.967, "26.97"),
        (-2.1, "−2.100"),
        (9.9996, "10.00"),
        (0.0, "0.000"),
        (math.inf, "over"),
        (None, "–"),
    ],
)
def test_the_big_number_has_four_digits(voltage_V: float | None, text: str) -> None:
    assert big_voltage(voltage_V) == text
    assert big_unit(voltage_V) == ("V" if text[-1].isdigit() else "")


def test_the_drift_is_told_with_its_interval_and_verdict() -> None:
    assert drift_text(VIEW).replace("\u00a0", " ") == "Falling by 2.9 to 6.4 mV/min: not settled yet"
    soon = replace(VIEW, seconds_needed=200.0)
    assert drift_text(soon).endswith("not settled yet, about 3\u00a0min more")
    assert drift_text(replace(VIEW, seconds_needed=42.0)).endswith("about 40\u00a0s more")
    assert drift_text(replace(VIEW, verdict="settled")).endswith(": settled")
    assert drift_text(replace(VIEW, verdict="cannot_tell")).endswith("cannot tell yet")


@pytest.mark.parametrize(
    ("interval", "words"),
    [
        ((-26.9, -21.4), "Falling by 21.4 to 26.9 mV/min"),
        ((3.02, 4.98), "Rising by 3.0 to 5.0 mV/min"),
        ((-2.1, 0.4), "Steady within 2.1 mV/min"),
        ((-0.4, 3.0), "Steady within 3.0 mV/min"),
        ((-812.4, -790.6), "Falling by 791 to 812 mV/min"),
    ],
)
def test_the_drift_is_said_in_words(interval: tuple[float, float], words: str) -> None:
    text = drift_text(replace(VIEW, drift_interval90_mV_per_min=interval))
    assert text.replace("\u00a0", " ") == f"{words}: not settled yet"


def test_why_it_has_not_settled_is_told() -> None:
    reason = "The drift is within the limit and must stay there."
    waiting = replace(VIEW, verdict_reason=reason, seconds_needed=42.0)
    assert drift_text(waiting).endswith(f"not settled yet, about 40\u00a0s more. {reason}")
    assert drift_text(replace(waiting, verdict="settled")).endswith(": settled")


@pytest.mark.parametrize(
    ("verdict", "words"), [("settled", "settled"), ("not_yet", "not settled"), ("cannot_tell", "cannot tell")]
)
def test_in_a_run_that_is_over_nothing_is_waited_for(verdict: str, words: str) -> None:
    reason = "The drift is within the limit and must stay there."
    view = replace(VIEW, verdict=verdict, verdict_reason=reason, seconds_needed=200.0)
    assert drift_text(view, is_over=True).endswith(f": {words}")


def test_without_a_drift_the_reason_is_told() -> None:
    view = replace(VIEW, drift_mV_per_min=None, verdict="cannot_tell", verdict_reason="Too few readings.")
    assert drift_text(view) == "Too few readings."


def test_the_table_carries_units_and_conventions() -> None:
    found = {row.name: (row.value.replace("\u00a0", " "), row.note) for row in rows(VIEW)}
    assert found == {
        "Current": ("7.31 mA", "+3.1\u00a0% since before"),
        "Charge": ("8.92 C", ""),
        "Hydrogen": ("1.14 mL", "moist, 22\u00a0°C"),
        "Voltage efficiency": ("72.9 %", "of 1.482\u00a0V"),
    }
    assert rows(VIEW)[2].detail.endswith("all charge splits water")


def test_what_is_not_known_is_a_dash_and_never_a_number() -> None:
    view = replace(
        VIEW, current_A=None, current_change_percent=None, charge_C=None, hydrogen_mL=None,
        gas_conditions="", efficiency=None, efficiency_label="",
    )  # fmt: skip
    assert [(row.value, row.note) for row in rows(view)] == [("–", "")] * 4


def test_what_the_current_would_need_stands_beside_its_dash() -> None:
    """After a resistor was changed to nobody knows what, the current went without a word."""
    view = replace(VIEW, current_A=None, current_change_percent=None, current_missing=NO_OHMS)
    assert (rows(view)[0].value, rows(view)[0].note) == ("–", "ohms not given")


def test_saved_words() -> None:
    assert saved_words(VIEW) == "219 ± 4\u00a0mV"
    assert saved_words(replace(VIEW, saved=None)) is None


def test_ages_do_not_flicker() -> None:
    assert age_text(0.21) == "0.2\u00a0s ago"
    assert age_text(14.4) == "14\u00a0s ago"
    assert age_text(185) == "3:05\u00a0min ago"
    assert age_text(3599) == "59:59\u00a0min ago"
    assert age_text(4000) == "1:06:40\u00a0h ago"


def test_how_the_run_is_doing(tmp_path: Path) -> None:
    """Each text is followed by the same in fewer words; the age of the last reading stays longest."""
    run = FakeRun((), tmp_path / "a.h5")
    run.clock.time_s = 1289.0
    assert running_texts(run.status()) == ("21:29 running, saved to disk 0.4\u00a0s ago", "21:29 running")
    assert source_words(run.status()) == (
        "good",
        (
            "Bench meter, 3.0\u00a0readings/s, last 0.2\u00a0s ago",
            "Bench meter, last 0.2\u00a0s ago",
            "last 0.2\u00a0s ago",
        ),
    )
    run.source_state = "lost"
    assert source_words(run.status()) == ("danger", ("Bench meter: gone, trying again", "gone, trying again"))
    simulated = SourceStatus("cell:demo", "", "streaming", 3.0, 0.0, "")
    status = replace(run.status(), sources=(simulated,))
    assert source_words(status)[1][0].startswith("Simulated cell")
    assert source_words(status, is_named=False)[1] == (
        "3.0\u00a0readings/s, last 0.0\u00a0s ago",
        "last 0.0\u00a0s ago",
    )
    silent = replace(simulated, state="silent")
    words = source_words(replace(status, sources=(silent,)), is_named=False)[1]
    assert words[0] == "Simulated cell: sends nothing"
    told = SourceStatus("scpi:COM5", "Invented, Meter 7,0012,1.4", "streaming", 3.0, 0.0, "")
    assert source_words(replace(run.status(), sources=(told,)))[1][0].startswith("Invented Meter 7, 3.0")
    nameless = SourceStatus("digit14:/dev/ttyUSB0?name=x", "", "streaming", 3.0, 0.0, "")
    words = source_words(replace(run.status(), sources=(nameless,)))[1]
    assert words[0].startswith("Handheld meter of 22000 counts, "), "words, where the instrument has no name"


def test_of_several_sources_the_short_words_say_which_are_gone(tmp_path: Path) -> None:
    """They were a row of ages without names, cut off before the one that was gone."""
    meter = SourceStatus("scpi:COM5", "Invented, Meter 7,0012,1.4", "streaming", 3.0, 0.0, "")
    board = SourceStatus("text:COM3", "Invented board", "streaming", 10.0, 0.4, "")
    status = FakeRun((), tmp_path / "a.h5").status()

    def words(*sources: SourceStatus) -> tuple[str, ...]:
        return source_words(replace(status, sources=sources))[1]

    whole, no_rate, short = words(meter, board, board)
    assert whole.count("readings/s") == 3
    assert no_rate.count("Invented") == 3
    assert short == "3 sources, last 0.4\u00a0s ago", "the oldest"
    gone, silent = replace(board, state="lost"), replace(meter, state="silent")
    assert words(meter, gone, board)[2:] == ("Invented board: gone, trying again", "1 of 3 sends nothing")
    assert words(silent, gone, board)[2:] == (
        "Invented Meter 7: sends nothing · Invented board: gone, trying again",
        "2 of 3 send nothing",
    )
    unread = replace(board, last_sample_age_s=None)
    assert words(unread, unread)[-1] == "2 sources"


def test_the_notes_draw_the_saving_from_the_settled_level_to_the_present() -> None:
    moments = (new_moment(45, "buffer_in"),)
    notes = live_notes(VIEW, moments, (1289.0, 2.0331))
    assert notes.moments == moments
    assert [p.end_s for p in notes.phases] == [45.0, 285.0, None]
    assert notes.levels[0].voltage_V == 2.252
    assert notes.saving is not None
    assert notes.saving.to_V == pytest.approx(2.033)
    assert notes.saving.at_s == 1289.0


def test_reversed_leads_draw_below_zero() -> None:
    notes = live_notes(replace(VIEW, voltage_V=-2.033), (), (1289.0, -2.033))
    assert notes.levels[0].voltage_V == -2.252
    assert notes.saving is not None
    assert notes.saving.to_V == pytest.approx(-2.033)


def test_what_settled_after_the_swap_is_drawn_beside_what_had_before() -> None:
    after = LivePlateau(2.0131, 0.0007, 1500.0, 1640.0, True)
    notes = live_notes(replace(VIEW, after=after, voltage_V=-2.013), (), (1664.0, -2.013))
    assert [(one.voltage_V, one.begin_s, one.end_s) for one in notes.levels] == [
        (-2.252, 190.0, 284.0),
        (-2.0131, 1500.0, 1640.0),
    ]
    assert notes.levels[1].text.replace("\u00a0", " ") == "2.013 V after"
    assert notes.saving is not None
    assert notes.saving.from_level is notes.levels[0]
    alone = live_notes(replace(VIEW, before=None, saved=None, after=after), (), (1664.0, 2.013))
    assert [one.text.replace("\u00a0", " ") for one in alone.levels] == ["2.013 V after"]


@pytest.mark.parametrize(
    ("saved_mV", "expanded_mV", "before_settled", "after_settled", "is_sure"),
    [
        (219.0, 4.2, True, None, True),
        (219.0, 4.2, True, True, True),
        (33.0, 86.0, True, None, False),
        (-33.0, 86.0, True, None, False),
        (219.0, 4.2, False, None, False),
        (219.0, 4.2, True, False, False),
    ],
)
def test_what_is_saved_so_far_is_green_only_where_it_is_sure(
    saved_mV: float, expanded_mV: float, before_settled: bool, after_settled: bool | None, is_sure: bool
) -> None:
    view = replace(
        VIEW,
        before=LivePlateau(2.252, 0.001, 190.0, 284.0, before_settled),
        after=None if after_settled is None else LivePlateau(2.033, 0.001, 1200.0, 1280.0, after_settled),
        saved=LiveSaving(saved_mV / 1000, expanded_mV / 1000, None, "saved", True),
    )
    assert is_sure_so_far(view) is is_sure
    saving = live_notes(view, (), (1289.0, 2.0331)).saving
    assert saving is not None
    assert saving.is_sure is is_sure
    assert saving.caption == "saved so far"


def test_what_was_saved_is_not_final_between_the_end_of_a_run_and_its_findings() -> None:
    """Readings that had waited for a disk came after the last look: 179 mV in green, where 247 were found."""
    assert is_sure_so_far(VIEW)
    saving = live_notes(VIEW, (), (1289.0, 2.0331), is_over=True).saving
    assert saving is not None
    assert not saving.is_sure
    assert saving.caption == "saved so far, not final"


def test_overload_has_no_last_point() -> None:
    assert live_notes(VIEW, (), (1289.0, math.inf)).last is None
    assert live_notes(None, (), None).last is None
