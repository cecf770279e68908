"""Several runs side by side: the worked example, what is left out and said, and simulated lessons."""

import json
import re
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from drivers.simulated.cell import LessonCell
from drivers.simulated.lesson import LESSONS
from logger.analysis.compared_run import ComparedRun, Saving, Voltage, compared_run
from logger.analysis.findings import findings, json_safe
from logger.analysis.refusal import Refused
from logger.analysis.run_comparison import compare_runs
from logger.analysis.run_comparison_text import comparison_text
from logger.bench import parse_bench
from tests.logger.simulated_run import BENCH, channel, lesson, readings, recording

RUNS_mV = [254.6, 249.1, 258.3, 251.7]
BLANKS_mV = [3.1, -1.4, 2.2]


def one(value_mV, name, kind="run", *, u_mV=1.3, gain_mV=0.7, current_mA=2.0, area_cm2=2.0, **changes):
    saving = Saving(value_mV / 1000, u_mV / 1000, 2 * u_mV / 1000)
    settled = Voltage(2.25, 0.007, True)
    fields = {
        "file": f"{name}.h5",
        "uuid": name,
        "title": "",
        "start_time": "2024-05-14T10:00:00.000+02:00",
        "kind": kind,
        "kind_reason": "salt was tagged" if kind == "run" else "no salt was tagged",
        "before": settled,
        "after": settled,
        "as_measured": saving,
        "at_equal_current": saving,
        "meter_gain_uncertainty_V": gain_mV / 1000,
        "current_before_A": None if current_mA is None else current_mA / 1000,
        "anode_area_cm2": area_cm2,
        "bench": parse_bench(""),
        **changes,
    }
    return ComparedRun(**fields)


def example(**changes):
    runs = [one(value, f"run{k}", **changes) for k, value in enumerate(RUNS_mV)]
    return [*runs, *(one(value, f"blank{k}", "blank") for k, value in enumerate(BLANKS_mV))]


def codes(comparison):
    return [each.code for each in comparison.cautions]


def said(comparison, code):
    return " ".join(each.message for each in comparison.cautions if each.code == code)


def test_the_same_readings_under_two_names_are_one_run() -> None:
    fine = {"before": Voltage(2.2503921, 0.007, True), "after": Voltage(1.9965509, 0.007, True)}
    found = compare_runs([one(253.8, "a", **fine), one(253.8, "b", **fine), one(251.0, "c")])
    assert [bool(each.left_out) for each in found.runs] == [False, True, False]
    assert "b.h5 is not in the statistics: its readings are those of a.h5" in said(found, "left_out")
    assert len(found.with_salt.values_V) == 2


@pytest.mark.parametrize(("before_V", "after_V"), [(2.251, 2.2513880813953486), (2.2513880813953486, 2.251)])
def test_a_copy_is_known_though_one_mean_falls_on_a_digit(before_V: float, after_V: float) -> None:
    """Four copies of one blank would otherwise give a mean with an interval that no one has measured."""
    voltages = {"before": Voltage(before_V, 0.00769, True), "after": Voltage(after_V, 0.00771, True)}
    found = compare_runs([one(-0.4, name, "blank", **voltages) for name in "abcd"])
    assert [bool(each.left_out) for each in found.runs] == [False, True, True, True]
    assert found.blanks.statistics is None


def test_one_mean_that_agrees_is_no_copy_where_the_scatter_differs() -> None:
    """Two quiet runs of few readings, of which one voltage stands still on a digit of the display."""
    runs = [
        one(250, name, before=Voltage(2.251, u_V, True), after=Voltage(2.0033333, u_V, True))
        for name, u_V in (("a", 0.0070), ("b", 0.0071))
    ]
    assert not any(each.left_out for each in compare_runs(runs).runs)


def test_a_copy_is_known_by_its_readings_though_both_means_fall_on_a_digit() -> None:
    """So it is, too, where the stretches of the copy were chosen otherwise."""
    runs = [one(254.0, name, readings="5e") for name in "ab"] + [one(251.0, "c", readings="7f")]
    runs += [one(249.0, "d", readings="5e", after=Voltage(2.001, 0.007, True))]
    found = compare_runs(runs)
    assert [bool(each.left_out) for each in found.runs] == [False, True, False, True]
    assert "d.h5 is not in the statistics: its readings are those of a.h5, one by one" in said(
        found, "left_out"
    )


def test_readings_are_told_apart_by_all_of_them_and_flat_ones_not_at_all() -> None:
    found, _ = lesson(seed=4)
    document = findings(found)
    first, again = (compared_run(found, document).readings for _ in range(2))
    assert first == again != ""
    changed = found.channels[0].values.copy()
    changed[1000] += 1e-3
    other = replace(found, channels=(replace(found.channels[0], values=changed),))
    assert compared_run(other, document).readings not in ("", first)
    for voltage_V in (2.25, np.inf):  # runs of overload alone passed for copies of one another
        flat = replace(found, channels=(replace(found.channels[0], values=np.full(changed.size, voltage_V)),))
        assert compared_run(flat, document).readings == ""


def test_displays_that_agree_are_no_copies() -> None:
    """One digit of a display is 0.1 mV at best; two quiet runs may well show the same."""
    found = compare_runs([one(254.0, "a"), one(254.0, "b")])
    assert not any(each.left_out for each in found.runs)


def test_files_of_one_name_are_told_apart() -> None:
    runs = [replace(one(250 + k, f"r{k}"), file=f"group{k}/run.h5") for k in range(2)]
    text = comparison_text(compare_runs(runs))
    assert "group0/run.h5" in text
    assert "group1/run.h5" in text
    assert "r0.h5  run" in comparison_text(compare_runs([one(250, "r0"), one(251, "r1")]))


def test_a_single_run_is_told_with_its_own_uncertainty() -> None:
    text = comparison_text(compare_runs([one(250.0, "a"), one(3.0, "blank", "blank")]))
    assert "With salt: 250.0 ± 2.6\u00a0mV in one run, by its own uncertainty" in text
    doubtful = one(250.0, "a")
    saving = doubtful.at_equal_current
    assert saving is not None
    wide = replace(saving, expanded_uncertainty_V=0.005)  # few degrees of freedom
    text = comparison_text(compare_runs([replace(doubtful, at_equal_current=wide), one(3.0, "b", "blank")]))
    assert text.count("250 ± 5\u00a0mV") == 2  # in the table and in the sentence, one and the same


def test_the_worked_example() -> None:
    # Independent computation with scipy 1.17.1 (t intervals; Welch).
    found = compare_runs(example())
    statistics = found.with_salt.statistics
    assert statistics is not None
    assert 1000 * statistics.mean == pytest.approx(253.425)
    assert 1000 * statistics.standard_deviation == pytest.approx(3.950844, abs=6e-7)
    assert 1000 * statistics.expanded_uncertainty == pytest.approx(6.286674, abs=6e-7)
    difference = found.against_blanks
    assert difference is not None
    assert 1000 * difference.difference == pytest.approx(252.125)
    assert difference.degrees_of_freedom == pytest.approx(4.889332, abs=6e-7)
    assert [1000 * end for end in difference.interval95] == pytest.approx([245.89598, 258.35402], abs=6e-6)
    assert difference.p_value == pytest.approx(2.2e-9, abs=5e-11)
    assert codes(found) == ["taken_as_blank"] * 3


def test_the_example_in_words() -> None:
    text = comparison_text(compare_runs(example())).replace("\u00a0", " ")
    assert "With salt: 253 ± 6 mV on average of 4 (95 %); single runs scatter by 4.0 mV" in text
    assert "about 1.3 mV each, do not explain that" in text
    assert "Salt against blanks: 252 ± 6 mV more saved (95 %, Welch)" in text
    assert "The salt saves voltage" in text


def test_scatter_against_the_runs_own_uncertainties() -> None:
    # By hand: sum of squares 46.8275 mV2; over 1.3^2 - 0.7^2 = 1.2 mV2 chi-square 39.0, over 24.51 only 1.91;
    # 3 degrees of freedom: 1.7e-8 and 0.59 (scipy.stats.chi2).
    close, wide = compare_runs(example()).with_salt, compare_runs(example(u_mV=5.0)).with_salt
    assert close.scatter_is_explained is False
    assert close.excess_probability == pytest.approx(1.72e-8, rel=0.01)
    assert wide.scatter_is_explained is True
    assert wide.excess_probability == pytest.approx(0.5911, abs=1e-3)


def test_the_gain_of_the_meter_does_not_average_out() -> None:
    found = compare_runs([one(250.0 + 0.1 * k, f"run{k}", gain_mV=2.0, u_mV=2.1) for k in range(4)])
    assert found.with_salt.interval95_with_meter_V is not None
    low_V, high_V = found.with_salt.interval95_with_meter_V
    # Limits of a specification: 95 % of a rectangle, 1.645 standard uncertainties (EA-4/02, S9, from memory).
    assert (high_V - low_V) / 2 == pytest.approx(1.645 * 0.002, rel=0.02)
    assert "which all of them share" in comparison_text(found)


def test_an_outlying_run_is_flagged_by_grubbs_and_stays() -> None:
    values = [250.0, 251.0, 249.5, 250.4, 180.0]
    found = compare_runs([one(value, f"run{k}") for k, value in enumerate(values)])
    assert [each.outlier for each in found.runs] == ["none"] * 4 + ["outlier"]
    assert found.with_salt.statistics is not None
    assert found.with_salt.statistics.count == 5
    assert found.with_salt.without_outlier is not None
    assert 1000 * found.with_salt.without_outlier.mean == pytest.approx(250.225)
    assert "run4.h5 lies off the others (Grubbs' test: 1.79" in said(found, "outlier")
    assert "Without the one that lies off" in comparison_text(found)


def test_two_outlying_runs_that_hide_each_other_are_flagged_and_stay() -> None:
    values = [249.0, 248.0, 248.4, 249.2, 250.0, 249.1, 189.0, 186.0]
    found = compare_runs([one(value, f"run{k}") for k, value in enumerate(values)])
    assert found.with_salt.outlier_test is not None
    assert found.with_salt.outlier_test.verdict == "none"
    assert [each.outlier for each in found.runs] == ["none"] * 6 + ["outlier"] * 2
    assert found.with_salt.statistics is not None
    assert found.with_salt.statistics.count == 8
    assert found.with_salt.without_outlier is not None
    assert 1000 * found.with_salt.without_outlier.mean == pytest.approx(248.95)
    assert "run7.h5 and run6.h5 lie off the others (Rosner's test for two: 2.27" in said(found, "outlier")
    assert "Without the two that lie off" in comparison_text(found)


@pytest.mark.parametrize(
    ("odd", "words"),
    [
        ({"current_mA": 2.3}, "its current of 2.3 mA is more than 10 % off the 2 mA of the others"),
        ({"current_mA": 1.7}, "more than 10 % off"),
        ({"area_cm2": 2.5}, "its anode has 2.5 cm2, those of the others 2 cm2"),
        ({"left_out": ("its voltage before had not settled",)}, "its voltage before had not settled"),
    ],
)
def test_a_run_that_cannot_be_compared_is_shown_and_left_out(odd, words: str) -> None:
    # Also where the odd one comes first.
    found = compare_runs([one(199.0, "odd", **odd), *example()])
    assert found.runs[0].left_out
    assert found.with_salt.values_V == tuple(value / 1000 for value in RUNS_mV)
    assert words in said(found, "left_out")
    assert "left out" in comparison_text(found)


def test_a_current_within_a_tenth_is_compared() -> None:
    assert compare_runs([one(250, "a"), one(251, "b", current_mA=2.19)]).runs[1].left_out == ()


def test_what_could_not_be_checked_is_said() -> None:
    found = compare_runs([one(250, "a"), one(251, "b", current_mA=None, area_cm2=None)])
    assert said(found, "not_checked").count("b.h5") == 2
    assert found.with_salt.statistics is not None


def test_a_run_whose_meter_is_not_known_is_named_beside_others() -> None:
    known = parse_bench(
        "[meter]\naccuracy_percent_of_reading = 0.5\naccuracy_counts = 2\nresolution_V = 0.001"
    )
    mixed = compare_runs([one(250, "a", bench=known), one(251, "b"), one(249, "c", bench=known)])
    assert "not known for b.h5: it looks more certain" in said(mixed, "meter_unknown")
    for benches in ({"bench": known}, {}):
        alike = compare_runs([one(250, "a", **benches), one(251, "b", **benches)])
        assert "meter_unknown" not in {caution.code for caution in alike.cautions}


def test_benches_that_differ_are_said() -> None:
    cobalt, nickel = ('[cell]\nmetal_salt = "cobalt"\npH = 7', '[cell]\nmetal_salt = "nickel"\npH = 7.0')
    found = compare_runs([
        one(250, "a", bench=parse_bench(cobalt)),
        one(251, "b", bench=parse_bench(nickel)),
        one(2, "c", "blank", bench=parse_bench('[cell]\nmetal_salt = "none"')),
    ])  # fmt: skip
    assert "metal_salt: cobalt; nickel." in said(found, "benches_differ")
    assert "pH" not in said(found, "benches_differ")


def test_savings_as_measured_where_one_has_no_other() -> None:
    found = compare_runs([one(250, "a"), one(251, "b", at_equal_current=None)])
    assert found.document["quantity"] == "saved_as_measured"
    assert "as_measured" in codes(found)
    # A run that is left out anyway does not force that on the others.
    left_out = one(251, "c", at_equal_current=None, left_out=("why",))
    assert compare_runs([one(250, "a"), left_out]).document["quantity"] == "saved_at_equal_current"


def test_one_run_and_one_blank_give_no_interval() -> None:
    found = compare_runs([one(250, "a"), one(2, "b", "blank")])
    assert (found.with_salt.statistics, found.blanks.statistics, found.against_blanks) == (None, None, None)
    assert {"few_replicates", "one_blank"} <= set(codes(found))
    assert "cannot be told from so few" in comparison_text(found).replace("\n", " ")


def test_blanks_that_do_the_same_show_no_effect() -> None:
    blanks = [one(value + 3, f"b{k}", "blank") for k, value in enumerate(RUNS_mV)]
    found = compare_runs([*(one(value, f"a{k}") for k, value in enumerate(RUNS_mV)), *blanks])
    assert "No effect of the salt is shown" in comparison_text(found)


def test_nothing_to_compare_is_said_and_not_invented() -> None:
    found = compare_runs(
        [one(1, name, as_measured=None, at_equal_current=None, left_out=("why",)) for name in "ab"]
    )
    assert found.document["with_salt"] is None
    assert found.document["blanks"] is None
    assert {"no_runs", "no_blanks"} <= set(codes(found))
    assert "not known" in comparison_text(found)


def test_equal_values_say_that_they_cannot_be_compared() -> None:
    found = compare_runs([one(250, "a"), one(250, "b"), one(1, "c", "blank"), one(1, "d", "blank")])
    assert found.against_blanks is None
    assert "no_difference" in codes(found)


@pytest.mark.parametrize(
    ("runs", "words"),
    [
        ([one(250, "a")], "name two or more"),
        ([one(250, "a"), one(251, "b"), replace(one(250, "a"), file="copy.h5")], "the same run as a.h5"),
    ],
)
def test_what_would_pass_for_replicates_is_refused(runs, words: str) -> None:
    with pytest.raises(Refused, match=words):
        compare_runs(runs)


def simulated(seed, **options):
    run, cell = lesson(seed, **options)
    return as_compared(run, f"run{seed}"), cell


def as_compared(run, name):
    run = replace(run, path=Path(f"{name}.h5"), uuid=name)
    return compared_run(run, json_safe(findings(run)))


def blank(seed, *, fallen_V=0.0):
    """A lesson in which nothing grows; by `fallen_V` the voltage falls nevertheless."""
    plan = replace(LESSONS["demo"], coverage=lambda seconds: 0.0 * seconds)
    cell = LessonCell(plan, seed)
    times, volts = readings(cell)
    volts = volts - fallen_V * ((times > 285.0) & (times < 1185.0)) * (1 - np.exp((285.0 - times) / 60.0))
    tags = [(tag.time_s, tag.kind, tag.label) for tag in cell.moments if tag.kind != "salt_added"]
    return as_compared(recording(channel(times, volts), moments=tags), f"blank{seed}")


def test_simulated_lessons_and_blanks() -> None:
    lessons = [simulated(seed) for seed in range(4)]
    found = compare_runs([*(run for run, _ in lessons), blank(11), blank(12)])
    assert [each.kind for each in found.runs] == ["run"] * 4 + ["blank"] * 2
    assert all(not each.left_out for each in found.runs)
    truth_V = lessons[0][1].truth["saved_at_equal_current_V"]
    assert found.with_salt.interval95_with_meter_V is not None
    low_V, high_V = found.with_salt.interval95_with_meter_V
    assert low_V < truth_V < high_V
    assert found.against_blanks is not None
    assert found.against_blanks.interval95[0] < truth_V < found.against_blanks.interval95[1]
    assert all(abs(value_V) < 0.005 for value_V in found.blanks.values_V)
    json.dumps(json_safe(found.document), allow_nan=False)


def test_an_untagged_fall_is_no_blank_and_is_said() -> None:
    found = compare_runs([simulated(1)[0], blank(13, fallen_V=0.2)])
    assert found.runs[1].kind == "run"
    assert "voltage fell as it does after salt" in said(found, "taken_as_run")


def test_a_run_without_a_swap_is_left_out() -> None:
    run, _ = simulated(2, until_s=900.0)
    found = compare_runs([simulated(1)[0], run])
    assert "shows no voltage saved" in said(found, "left_out")
    assert found.with_salt.statistics is None


def test_a_run_that_has_not_settled_is_left_out() -> None:
    run, _ = simulated(3, faults=("salt_early",), bench=BENCH + "[settling]\nlimit_mV_per_min = 0.5\n")
    assert any(
        "had not settled" in reason for reason in compare_runs([simulated(1)[0], run]).runs[1].left_out
    )


def test_numbers_of_an_outlier_tell_themselves_apart() -> None:
    """Of three runs Grubbs' statistic is at most 1.1547 (2/sqrt(3)), and 1.1547 to four decimals at 1 %."""
    found = compare_runs([one(value, f"run{k}") for k, value in enumerate([250.0, 250.001, 200.0])])
    shown, limit = re.findall(r"\d\.\d+", said(found, "outlier"))[:2]
    assert float(shown) > float(limit) > 1.1546
