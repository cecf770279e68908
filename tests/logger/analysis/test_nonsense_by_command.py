"""Nonsense through the real commands: import, analyse, and look at the JSON and the text."""

from __future__ import annotations

import csv
import json

import numpy as np
import pytest

from logger.commands import main
from tests.logger.shelf_files import write_recording
from tests.logger.simulated_run import BENCH, lesson

TIMES = np.arange(0.1, 600.0, 0.4)
TAGS = [(10.0, "buffer_in"), (200.0, "salt_added"), (300.0, "electrodes_out"), (330.0, "electrodes_in")]
ANSWERS = ("voltage_saved", "growth", "tafel")


@pytest.fixture
def analyse(tmp_path, capsys):
    """Import readings and analyse them by the command line; return the one document and the text."""

    def run(times, values, tags=TAGS, bench_toml=BENCH):
        readings, moments, bench = tmp_path / "r.csv", tmp_path / "m.csv", tmp_path / "b.toml"
        with readings.open("w", newline="") as file:
            rows = csv.writer(file)
            rows.writerow(["time_s", "cell_voltage_V"])
            rows.writerows(zip(np.asarray(times).tolist(), np.asarray(values).tolist(), strict=True))
        last_s = float(np.asarray(times)[-1])
        with moments.open("w", newline="") as file:
            rows = csv.writer(file)
            rows.writerow(["time_s", "kind", "label"])
            rows.writerows([at_s, kind, ""] for at_s, kind in tags if at_s <= last_s)
        bench.write_text(bench_toml)
        out = tmp_path / "run.h5"
        options = ["--moments", str(moments), "--bench", str(bench), "--out", str(out), "--replace"]
        assert main(["import", str(readings), *options]) == 0
        capsys.readouterr()
        assert main(["analyse", "--json", str(out)]) == 0
        (document,) = json.loads(capsys.readouterr().out)
        assert main(["analyse", str(out)]) == 0
        return document, capsys.readouterr().out

    return run


def codes(document):
    return {one["code"] for one in document["warnings"]}


def assert_no_answer(document, text):
    for key in ANSWERS:
        assert document[key] is None, key
    assert document["warnings"]
    assert "Voltage saved: not known" in text


def test_constant(analyse):
    document, text = analyse(TIMES, np.full(TIMES.size, 2.25))
    assert_no_answer(document, text)
    assert document["settled"] == {"before": None, "after": None}
    assert document["charge_C"] is None
    assert document["gas"] is None
    assert "readings_constant" in codes(document)


def test_one_sample(analyse):
    document, text = analyse([1.0], [2.25])
    assert_no_answer(document, text)
    assert document["settled"] == {"before": None, "after": None}


def test_all_overload(tmp_path, capsys):
    """Only a meter gives overload, a table of readings cannot: recorded as a run is."""
    out = tmp_path / "run.h5"
    tags = [(at_s, kind, "") for at_s, kind in TAGS]
    write_recording(out, TIMES, np.full(TIMES.size, np.inf), tags, bench_toml=BENCH)
    assert main(["analyse", "--json", str(out)]) == 0
    (document,) = json.loads(capsys.readouterr().out)
    assert main(["analyse", str(out)]) == 0
    assert_no_answer(document, capsys.readouterr().out)
    assert {one["state"] for one in document["states"]} == {"no_reading"}
    assert document["charge_C"] is None


def test_only_dry(analyse):
    volts = 26.97 + 0.002 * np.random.default_rng(1).normal(size=TIMES.size)
    document, text = analyse(TIMES, np.round(volts, 3), [(0.0, "dry_cell")])
    assert_no_answer(document, text)
    assert {one["state"] for one in document["states"]} == {"open"}
    assert "no_electrolysis" in codes(document)


def test_no_salt(analyse):
    """A blank: both voltages are there, and their difference is no effect."""
    run, cell = lesson(1, lesson="blank")
    tags = [(one.time_s, one.kind) for one in cell.moments]
    document, text = analyse(run.channels[0].times_s, run.channels[0].values, tags)
    assert document["growth"] is None
    assert document["tafel"] is None
    assert "no_effect_shown" in codes(document)
    assert "No effect is shown" in text


def test_reversed(analyse):
    run, cell = lesson(1, faults=("reversed_leads",))
    tags = [(one.time_s, one.kind) for one in cell.moments]
    document, _ = analyse(run.channels[0].times_s, run.channels[0].values, tags)
    assert "leads_reversed" in codes(document)
    assert document["settled"]["before"]["voltage_V"] > 0.0
    low, high = document["voltage_saved"]["interval95_V"]
    assert low <= cell.truth["saved_V"] <= high


def test_a_gap_in_the_plateau(analyse):
    """All but the first 30 s and the last 20 s of the baseline are missing: what is left has not settled."""
    run, cell = lesson(1)
    times, volts = run.channels[0].times_s, run.channels[0].values
    salt_s = cell.truth["salt_added_s"]
    kept = (times < cell.truth["buffer_in_s"] + 30.0) | (times > salt_s - 20.0)
    tags = [(one.time_s, one.kind) for one in cell.moments]
    document, text = analyse(times[kept], volts[kept], tags)
    before = document["settled"]["before"]
    assert not before["is_settled"]
    assert before["window_begin_s"] > salt_s - 21.0  # never across the gap
    assert {"not_settled_before", "provisional", "gap_before"} <= codes(document)
    assert "salt_too_early" not in codes(document)  # nobody knows: what came before it was not read
    assert "provisional" in text
    low, high = document["voltage_saved"]["interval95_V"]
    assert low <= cell.truth["saved_V"] <= high


@pytest.mark.parametrize(
    ("stack_V", "is_known"), [("2.7", False), ("9.0", False), ("23.0", True), ("40.0", True)]
)
def test_a_stack_below_the_open_cell_gives_no_current(analyse, stack_V, is_known):
    """The open cell of the lesson reads 27 V; a stack cannot be below that, a meter's range can."""
    run, cell = lesson(1)
    tags = [(one.time_s, one.kind) for one in cell.moments]
    bench = BENCH.replace("stack_voltage_V = 27.0", f"stack_voltage_V = {stack_V}")
    assert bench != BENCH
    document, text = analyse(run.channels[0].times_s, run.channels[0].values, tags, bench)
    assert [document[key] is not None for key in ("current", "charge_C", "gas")] == [is_known] * 3
    if not is_known:
        assert document["voltage_saved"]["at_equal_current_V"] is None
        assert document["voltage_saved"]["value_V"] == pytest.approx(cell.truth["saved_V"], abs=0.01)
        assert "a supply.stack_voltage_V that agrees with the open cell in the bench file" in text


def test_moments_beside_readings_a_minute_apart_are_in_their_places(analyse):
    """A step is seen with the second reading behind it, here up to two minutes late."""
    times = np.arange(30.0, 10_800.0, 60.0)
    noise = 0.001 * np.random.default_rng(3).normal(size=times.size)
    grown = 2.25 - 0.25 * (1.0 - np.exp(-np.clip(times - 3600.0, 0.0, None) / 400.0))
    is_open = (times < 600.0) | ((times > 7200.0) & (times < 7440.0))
    tags = [(600.0, "buffer_in"), (3600.0, "salt_added"), (7200.0, "electrodes_out")]
    tags += [(7320.0, "solution_swapped"), (7440.0, "electrodes_in")]
    document, _ = analyse(times, np.round(np.where(is_open, 26.97, grown + noise), 3), tags)
    assert "moment_off" not in codes(document)
    assert document["voltage_saved"]["value_V"] == pytest.approx(0.25, abs=0.002)
    tags[0] = (850.0, "buffer_in")
    document, _ = analyse(times, np.round(np.where(is_open, 26.97, grown + noise), 3), tags)
    assert "moment_off" in codes(document)


@pytest.mark.parametrize(
    ("fall_V", "reason"),
    [
        (0.0, "fell by less than 5 times the noise; let the"),
        (-0.2, "the voltage rose; look at what was added"),
    ],
)
def test_a_voltage_that_did_not_fall_is_no_growth(analyse, fall_V, reason):
    times = np.arange(0.1, 1700.0, 0.4)
    noise = 0.002 * np.random.default_rng(4).normal(size=times.size)
    volts = 2.25 + noise - np.where(times > 300.0, fall_V * (1.0 - np.exp(-(times - 300.0) / 150.0)), 0.0)
    volts[(times < 45.0) | ((times > 1200.0) & (times < 1260.0))] = 26.97
    tags = [(45.0, "buffer_in"), (300.0, "salt_added"), (1200.0, "electrodes_out"), (1260.0, "electrodes_in")]
    document, text = analyse(times, np.round(volts, 3), tags)
    assert document["growth"] is None
    assert reason in text


def test_another_range_between_the_plateaus(analyse):
    """The saving stays, but the meter's accuracy counts for each voltage: 0.5 % of 2.25 V are 6.5 mV."""
    run, cell = lesson(1)
    times, volts = run.channels[0].times_s, run.channels[0].values
    tags = [(one.time_s, one.kind) for one in cell.moments]
    same, _ = analyse(times, np.round(volts, 3), tags)
    shown = np.where(times > cell.truth["electrodes_out_s"], np.round(volts, 4), np.round(volts, 3))
    document, _ = analyse(times, shown, tags)
    assert "meter_changed" not in codes(same)
    assert "meter_changed" in codes(document)
    assert document["voltage_saved"]["standard_uncertainty_V"] > 0.008
    assert same["voltage_saved"]["standard_uncertainty_V"] < 0.003


@pytest.mark.parametrize("noise", ["lesson", "quiet"])
def test_a_coarser_range_after_is_seen_though_its_display_hardly_moves(analyse, noise):
    """10 mV digits after 1 mV digits: a mean of them is off by millivolts, whatever its scatter says."""
    run, cell = lesson(1)
    times, volts = run.channels[0].times_s, run.channels[0].values
    tags = [(one.time_s, one.kind) for one in cell.moments]
    shown = np.where(times > cell.truth["electrodes_out_s"], np.round(volts, 2), np.round(volts, 3))
    if noise == "quiet":  # the display of the settled window stands still
        last = times > cell.truth["electrodes_out_s"] + 150.0
        shown[last] = np.round(np.median(volts[last]), 2)
    document, _ = analyse(times, shown, tags)
    assert "meter_changed" in codes(document)
    assert document["voltage_saved"]["standard_uncertainty_V"] > 0.008
    # A digit of 10 mV over the root of twelve (JCGM 100:2008, F.2.2.1), and 2 counts of them in the accuracy.
    budget = {one["source"]: one["standard_uncertainty_V"] for one in document["voltage_saved"]["budget"]}
    assert budget["resolution after"] == pytest.approx(0.010 / np.sqrt(12.0))
    after_V = document["settled"]["after"]["voltage_V"]
    assert budget["meter after"] == pytest.approx(np.hypot(0.005 * after_V, 0.020) / np.sqrt(3.0))
    assert "display_held" not in codes(document)  # with such digits it stands still rightly


@pytest.mark.parametrize("name", ["before", "after"])
def test_a_display_that_was_held_through_one_plateau_is_said(analyse, name):
    """HOLD pressed for the last minutes of a phase: the noise of 2 mV is gone, on a display of 1 mV."""
    run, cell = lesson(1)
    times, volts = run.channels[0].times_s, np.round(run.channels[0].values, 3)
    tags = [(one.time_s, one.kind) for one in cell.moments]
    end_s = cell.truth["salt_added_s"] if name == "before" else cell.truth["duration_s"]
    held = (times > end_s - 150.0) & (times < end_s)
    document, _ = analyse(times, np.where(held, volts[held][0], volts), tags)
    said = [one["message"] for one in document["warnings"] if one["code"] == "display_held"]
    assert [f"The readings {name} are one and the same" in one for one in said] == [True]
    quiet, _ = analyse(times, volts, tags)
    assert "display_held" not in codes(quiet)
