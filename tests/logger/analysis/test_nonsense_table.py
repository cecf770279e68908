"""Recordings that make no sense, by the real commands: each says what is missing, and gives no number for it.

Every row is imported from tables with `galvanote import` and read with `galvanote analyse`, in text and JSON.
"""

from __future__ import annotations

import json
import subprocess
import sys
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np
import pytest

from logger.commands import main
from tests.logger.analysis.by_command import imported_and_analysed
from tests.logger.shelf_files import write_recording
from tests.logger.simulated_run import BENCH, lesson

ROOT = Path(__file__).parents[3]
NO_BREAK = "\N{NO-BREAK SPACE}"
T = np.arange(0.1, 900.0, 0.4)
TAGS = ((10.0, "buffer_in"), (300.0, "salt_added"), (600.0, "electrodes_out"), (630.0, "electrodes_in"))
LESSON, CELL = lesson(1, faults=("rounded_1mV",))
LESSON_T, LESSON_V = LESSON.channels[0].times_s, LESSON.channels[0].values
LESSON_TAGS = tuple((one.time_s, one.kind) for one in LESSON.moments)
IN_CELL = LESSON_V < 4.0
BUFFER_S, SALT_S = CELL.truth["buffer_in_s"], CELL.truth["salt_added_s"]
OUT_S = CELL.truth["electrodes_out_s"]


def noisy(level_V, size=T.size, sd_V=0.002, seed=1):
    return np.round(level_V + sd_V * np.random.default_rng(seed).normal(size=size), 3)


def wild(low_V, high_V):
    return np.random.default_rng(2).uniform(low_V, high_V, T.size)


@dataclass(frozen=True)
class Row:
    """Readings and moments; the code that must be among the warnings, words of the text, and what is null.

    `null` names keys of the document; ``before`` and ``after`` are those of the settled voltages. What is
    not named may be there.
    """

    times: np.ndarray
    volts: np.ndarray
    code: str
    words: str
    tags: tuple = TAGS
    bench: str = BENCH
    null: tuple = field(
        default=("voltage_saved", "current", "efficiency", "growth", "charge_C", "gas", "tafel")
    )
    levels: tuple = ("before", "after")


SAVED_ONLY = ("voltage_saved", "growth", "tafel")

ROWS = {
    "one reading": Row(np.array([1.0]), np.array([2.25]), "few_readings", "holds one reading", ()),
    "two readings": Row(np.array([1.0, 1.4]), np.array([2.25, 2.26]), "few_readings", "holds 2 readings", ()),
    "29 readings": Row(T[:29], noisy(2.25, 29), "few_readings", "holds 29 readings", ()),
    "one reading, no bench": Row(np.array([0.0]), np.array([2.0]), "few_readings", "Record longer", (), ""),
    "constant": Row(T, np.full(T.size, 2.25), "readings_constant", "holds its display"),
    "constant zero": Row(T, np.zeros(T.size), "readings_constant", "Release HOLD"),
    "dry all along": Row(
        T, noisy(26.97), "no_electrolysis", "open stack. Put the buffer in", ((0.0, "dry_cell"),)
    ),
    "dry, no bench": Row(T, noisy(26.97), "no_electrolysis", "open stack. Put the buffer in", (), ""),
    "dry, tagged as a lesson": Row(T, noisy(26.97), "no_electrolysis", "check that both leads are on"),
    "touching": Row(T, noisy(0.010), "no_electrolysis", "near 0 V. The supply was off"),
    "supply off": Row(T, noisy(0.9), "no_electrolysis", "below what splits water. Check the supply"),
    "poor contact": Row(T, noisy(8.0), "no_electrolysis", "Check the contacts, the level of the buffer"),
    "kilovolts": Row(LESSON_T, LESSON_V / 1000, "no_electrolysis", "not in volts", LESSON_TAGS),
    "tiny": Row(T, 1e-300 * wild(1, 2), "no_electrolysis", "not in volts"),
    "time stands still": Row(
        np.full(500, 3.0), noisy(2.25, 500), "time_stood_still", "All 500 readings bear the same time", ()
    ),
    "all noise": Row(T, wild(0, 30), "no_settled_before", "the meter jumped between a voltage and something"),
    "only before": Row(
        T, noisy(2.25), "no_swap", "there is no voltage after", ((1.0, "buffer_in"),), BENCH, SAVED_ONLY,
        ("after",),
    ),
    "salt, and no swap": Row(
        LESSON_T[LESSON_T < 1100], LESSON_V[LESSON_T < 1100], "no_swap", "Lift the electrodes out",
        LESSON_TAGS[:3], BENCH, SAVED_ONLY, ("after",),
    ),
    "salt before the buffer": Row(
        LESSON_T, LESSON_V, "salt_before_buffer", "The salt was tagged before the buffer",
        ((20.0, "salt_added"), (45.0, "buffer_in"), *LESSON_TAGS[3:]), BENCH, SAVED_ONLY, ("before",),
    ),
    "moments in reverse": Row(
        LESSON_T, LESSON_V, "salt_before_buffer", "Move the moments to where they belong",
        ((1245.0, "buffer_in"), (600.0, "salt_added"), (285.0, "electrodes_in"), (45.0, "electrodes_out")),
        BENCH, ("voltage_saved", "tafel"), ("before",),
    ),
    "all moments at once": Row(
        LESSON_T, LESSON_V, "salt_before_buffer", "or with it",
        tuple((500.0, kind) for kind in ("dry_cell", "buffer_in", "salt_added", "electrodes_out")),
        BENCH, SAVED_ONLY, ("before",),
    ),
    "sign changes within a phase": Row(
        LESSON_T, np.where((LESSON_T > 150) & (LESSON_T < 200), -LESSON_V, LESSON_V),
        "no_settled_before", "it changes within one phase", LESSON_TAGS, BENCH, SAVED_ONLY, ("before",),
    ),
    "plateau in two readings": Row(
        LESSON_T[(LESSON_T < BUFFER_S + 1) | (LESSON_T > SALT_S)],
        LESSON_V[(LESSON_T < BUFFER_S + 1) | (LESSON_T > SALT_S)],
        "no_before", "There is no electrolysis in the phase 'before'", LESSON_TAGS, BENCH,
        ("voltage_saved", "tafel"),
        ("before",),
    ),
    "a stack lower than the open cell": Row(
        LESSON_T, LESSON_V, "no_current", "that agrees with the open cell", LESSON_TAGS,
        BENCH.replace("stack_voltage_V = 27.0", "stack_voltage_V = 2.7"),
        ("current", "charge_C", "gas"), (),
    ),
    "a stack lower than the cell": Row(
        LESSON_T[IN_CELL], LESSON_V[IN_CELL], "no_charge", "the cell stood above the stack", LESSON_TAGS,
        BENCH.replace("stack_voltage_V = 27.0", "stack_voltage_V = 2.1"),
        ("current_before", "charge_C", "gas"), (),
    ),
}  # fmt: skip


@pytest.fixture
def analysed(tmp_path, capsys):
    """Import a row and analyse it; return the document and the text."""

    def run(row):
        tags = [(at_s, kind, "") for at_s, kind in row.tags]
        readings = (row.times.tolist(), row.volts.tolist())
        return imported_and_analysed(tmp_path, capsys, readings, tags, row.bench)

    return run


@pytest.mark.parametrize("name", ROWS)
def test_nonsense_says_what_is_missing_and_gives_no_number(name, analysed):
    row = ROWS[name]
    document, text = analysed(row)
    for key in row.null:
        if key == "current_before":
            assert (document["current"] or {}).get("before_A") is None
        else:
            assert document[key] is None, key
    for level in row.levels:
        assert document["settled"][level] is None
    assert row.code in {one["code"] for one in document["warnings"]}
    assert row.words in text
    assert "is refused" not in text
    assert "nan" not in text.lower().split()
    if "voltage_saved" in row.null:
        assert "Voltage saved: not known (see below)." in text
        assert "mV (95 %" not in text


def test_the_clock_stands_still_in_the_middle(analysed):
    """What else there is stays; the standstill is said, with its place."""
    times = np.concatenate([T[:700], np.full(800, T[700]), T[700:]])
    volts = np.concatenate([noisy(2.25, 700), noisy(2.25, 800, seed=3), noisy(2.0, T.size - 700)])
    document, text = analysed(Row(times, volts, "", ""))
    (said,) = [one for one in document["warnings"] if one["code"] == "time_stood_still"]
    assert said["at_s"] == pytest.approx(T[700])
    assert "801 of 3050 readings bear the same time" in text


def test_times_rounded_to_a_second_are_no_standstill(analysed):
    document, _ = analysed(Row(np.floor(LESSON_T), LESSON_V, "", "", LESSON_TAGS))
    assert "time_stood_still" not in {one["code"] for one in document["warnings"]}
    low, high = document["voltage_saved"]["interval95_V"]
    assert low <= CELL.truth["saved_V"] <= high


def test_an_overloaded_meter_before_is_told_as_such(tmp_path, capsys):
    """The first half overload: no voltage before, and not because the salt came too early."""
    out = tmp_path / "run.h5"
    volts = np.where(T < 600.0, np.inf, noisy(2.0))
    write_recording(out, T, volts, [(*one, "") for one in TAGS], bench_toml=BENCH)
    assert main(["analyse", "--json", str(out)]) == 0
    (document,) = json.loads(capsys.readouterr().out)
    said = {one["code"]: one["message"] for one in document["warnings"]}
    assert "there is overload or nothing. Choose a higher range" in said["no_before"]
    assert "salt_too_early" not in said
    assert document["settled"]["before"] is None
    assert document["settled"]["after"]["is_settled"]


def test_a_meter_that_jumps_is_not_salt_too_early(analysed):
    document, _ = analysed(Row(T, np.where(wild(0, 1) < 0.3, 9.0, noisy(2.25)), "", ""))
    codes = {one["code"] for one in document["warnings"]}
    assert "no_settled_before" in codes
    assert "salt_too_early" not in codes


def test_salt_tagged_twice_is_said(analysed):
    document, text = analysed(Row(LESSON_T, LESSON_V, "", "", (*LESSON_TAGS, (700.0, "salt_added"))))
    assert "The salt was tagged 2 times before the swap; the first counts" in text
    assert next(one["at_s"] for one in document["warnings"] if one["code"] == "salt_again") == 700.0


def test_a_saving_that_drifts_is_provisional_with_all_its_doubt(analysed):
    """A ramp from 1.4 to 3.9 V: no digit of the result or of an efficiency is more than its doubt allows."""
    document, text = analysed(Row(T, np.linspace(1.4, 3.9, T.size), "", ""))
    assert "(provisional)" in text
    assert "NOT settled" in text
    assert "voltage efficiency 80 ± 37 % (thermoneutral voltage)" in text
    low, high = document["voltage_saved"]["interval95_V"]
    assert high - low > 2.0


def test_an_unknown_meter_is_not_called_included(analysed):
    _, text = analysed(Row(LESSON_T, LESSON_V, "", "", LESSON_TAGS, ""))
    assert "the meter's own accuracy not fully known" in text


@pytest.mark.parametrize("factor", [1000.0, 1e6])
def test_millivolts_are_not_taken_for_volts(factor, tmp_path, capsys):
    """Two readings of 2250 could still be volts of another world; half of a column beyond 60 V cannot."""
    path = tmp_path / "mv.csv"
    lines = [f"{at_s},{factor * volts:.9g}" for at_s, volts in zip(T[:100], noisy(2.25)[:100], strict=True)]
    path.write_text("\n".join(["time_s,cell_voltage_V", *lines]))
    assert main(["import", str(path), "--out", str(tmp_path / "x.h5")]) == 1
    said = capsys.readouterr().err
    assert "millivolts" in said or "is the column in volts?" in said
    assert not (tmp_path / "x.h5").exists()


@pytest.mark.parametrize("name", ["dry all along", "touching", "salt before the buffer"])
def test_recorded_from_an_instrument_it_is_the_same_nonsense(name, analysed, tmp_path, capsys):
    """`record` from a source that plays the readings again, which ends by itself."""
    row = ROWS[name]
    imported, _ = analysed(row)
    again = tmp_path / "again.h5"
    source = f"replay:{tmp_path / 'run.h5'}?speed=5000"
    command = [sys.executable, "-m", "tests.logger.record_command", source, str(again)]
    command += ["--bench", str(tmp_path / "b.toml")]
    subprocess.run(command, stdin=subprocess.DEVNULL, capture_output=True, cwd=ROOT, check=True)
    assert main(["analyse", "--json", str(again)]) == 0
    (recorded,) = json.loads(capsys.readouterr().out)
    said = [one["code"] for one in imported["warnings"]]
    said.remove("start_not_known")  # a table holds no start, a recording does
    assert [one["code"] for one in recorded["warnings"]] == said
    for key in ("states", "settled", "voltage_saved", "growth"):
        assert recorded[key] == imported[key]
