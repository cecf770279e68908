"""The Tafel run in a recording, on simulated cells whose slopes and resistance are known."""

import json

import numpy as np
import pytest

from drivers.simulated.physics import CellBuild, Supply, operate_on_supply
from drivers.simulated.portable_noise import autoregressive
from logger.analysis.resistor_steps import tafel_of
from logger.bench import parse_bench
from tests.logger.simulated_run import BENCH, channel, recording

UP = (100_000, 47_000, 22_000, 10_000, 4_700, 2_200)
STEP_S, OPEN_S, RATE = 240.0, 3.0, 2.5
SETTLED_BENCH = BENCH.replace(
    "resistor_ohm = 12000\nresistor_tolerance_percent = 5.0",
    "resistor_ohm = 100000\nresistor_tolerance_percent = 1.0",
)


def step_voltages(ohm, coverage, *, seed, noise_V=0.001, wait_s=15.0):
    """Readings of one step: open while the resistor is changed, then a settling transient and bubbles."""
    times = np.arange(0.0, STEP_S, 1 / RATE)
    supply = Supply(resistor_ohm=ohm)
    settled_V = float(operate_on_supply(CellBuild(), supply, coverage).voltage_V)
    volts = settled_V + 0.03 * np.exp(-times / wait_s) + noise_V * autoregressive(times.size, 0.9, seed)
    volts[times < OPEN_S] = float(supply.open_circuit_V())
    return volts


def tafel_run(ohms=UP, *, coverage=1.0, bench=SETTLED_BENCH, labels=None, extra=(), creep_V=0.0, **noise):
    """A recording of a Tafel run; the first resistor is that of the bench."""
    volts = np.concatenate([
        step_voltages(ohm, coverage, seed=1 + k, **noise) + creep_V * k for k, ohm in enumerate(ohms)
    ])  # fmt: skip
    times = np.arange(volts.size) / RATE
    shown = [f"{ohm:g}" for ohm in ohms] if labels is None else labels
    moments = [(k * STEP_S, "resistor_changed", shown[k]) for k in range(1, len(ohms))]
    return recording(
        channel(times, np.round(volts, 3)), moments=[(0.0, "buffer_in"), *moments, *extra], bench=bench
    )


def found_in(run, bench=SETTLED_BENCH):
    return tafel_of(run, parse_bench(bench))


def codes(found):
    return [one.code for one in found.cautions]


@pytest.mark.parametrize(("coverage", "slope_V"), [(1.0, 0.180), (0.0, 0.240)])
def test_slope_and_resistance_of_the_simulated_cell_are_recovered(coverage: float, slope_V: float) -> None:
    found = found_in(tafel_run(coverage=coverage))
    assert found.fit is not None
    assert [one.resistor_ohm for one in found.points] == list(UP)
    assert abs(found.fit.slope_V_per_decade.value - slope_V) < 2.5 * found.slope_uncertainty_V
    assert found.slope_uncertainty_V < 0.010
    resistance = found.fit.ohmic_resistance_ohm
    assert resistance is not None
    assert abs(resistance.value - 20.0) < 2.5 * resistance.standard_uncertainty
    assert not found.fit.is_indicative
    assert codes(found) == []


def test_the_points_are_the_operating_points() -> None:
    for one in found_in(tafel_run()).points:
        truth = operate_on_supply(CellBuild(), Supply(resistor_ohm=one.resistor_ohm), 1.0)
        assert abs(one.voltage_V - float(truth.voltage_V)) < 3 * one.standard_uncertainty_V
        assert one.current_A == pytest.approx(float(truth.current_A), rel=1e-3)
        assert one.current_uncertainty_A > 0.005 * one.current_A
        assert one.window_end_s - one.window_begin_s >= 60.0


def test_the_object_of_the_findings() -> None:
    document = found_in(tafel_run()).document
    assert document is not None
    assert list(document) == [
        "slope_V_per_decade", "standard_uncertainty", "ohmic_resistance_ohm",
        "ohmic_standard_uncertainty_ohm", "points",
    ]  # fmt: skip
    # The truth, 20 ohm, lies within; and a figure without it would be taken for an exact one.
    assert document["ohmic_standard_uncertainty_ohm"] > 0.0
    assert abs(document["ohmic_resistance_ohm"] - 20.0) < 2.5 * document["ohmic_standard_uncertainty_ohm"]
    assert len(document["points"]) == 6
    json.dumps(document, allow_nan=False)


def test_labels_with_prefixes_are_understood() -> None:
    found = found_in(tafel_run(labels=["", "47k", "22 k", "10000", "4.7k", "2,2 kOhm"]))
    assert [one.resistor_ohm for one in found.points] == list(UP)


def test_the_bench_need_not_know_the_resistor() -> None:
    # Then the first step, which no label names, has no current.
    without = SETTLED_BENCH.replace("resistor_ohm = 100000\n", "")
    found = found_in(tafel_run(bench=without), without)
    assert [one.resistor_ohm for one in found.points] == list(UP[1:])
    assert found.fit is not None
    assert abs(found.fit.slope_V_per_decade.value - 0.180) < 3 * found.slope_uncertainty_V
    assert codes(found) == ["tafel_point_left_out"]


def test_a_label_without_ohms_costs_its_point() -> None:
    found = found_in(tafel_run(labels=["", "47000", "the blue one", "10000", "4700", "2200"]))
    assert [one.resistor_ohm for one in found.points] == [100_000, 47_000, 10_000, 4_700, 2_200]
    assert "how many ohms" in found.cautions[0].message


def test_a_step_that_has_not_settled_is_left_out() -> None:
    run = tafel_run()
    times, volts = run.channels[0].times_s, run.channels[0].values.copy()
    third = (times > 2 * STEP_S + OPEN_S) & (times < 3 * STEP_S)
    volts[third] += 0.0005 * (3 * STEP_S - times[third])  # 30 mV a minute
    found = found_in(recording(channel(times, volts), bench=SETTLED_BENCH, moments=[
        (one.time_s, one.kind, one.label) for one in run.moments
    ]))  # fmt: skip
    assert [one.resistor_ohm for one in found.points] == [100_000, 47_000, 10_000, 4_700, 2_200]
    assert [(one.code, one.at_s) for one in found.cautions] == [("tafel_point_left_out", 2 * STEP_S)]
    assert "had not settled" in found.cautions[0].message


def test_a_narrow_set_is_indicative() -> None:
    ohms = (4_700, 3_900, 3_300, 2_700, 2_200)
    found = found_in(tafel_run(ohms), SETTLED_BENCH.replace("100000", "4700"))
    assert found.fit is not None
    assert abs(found.fit.slope_V_per_decade.value - 0.180) < 3 * found.slope_uncertainty_V
    assert found.fit.is_indicative
    assert "tafel_indicative" in codes(found)


def test_up_and_down_shows_an_electrode_that_changes() -> None:
    both_ways = (*UP, *UP[-2::-1])
    assert "tafel_hysteresis" not in codes(found_in(tafel_run(both_ways, noise_V=0.0002)))
    exact = SETTLED_BENCH.replace("percent = 1.0", "percent = 0.05")
    exact = exact.replace("accuracy_percent_of_reading = 0.5", "accuracy_percent_of_reading = 0.005")
    creeping = tafel_run(both_ways, noise_V=0.0002, creep_V=0.004, bench=exact)
    assert "tafel_hysteresis" in codes(found_in(creeping, exact))


def test_no_line_goes_across_a_swap() -> None:
    # Four steps, new solution, two steps: not six on one line.
    swap = (4 * STEP_S + 1.0, "solution_swapped")
    found = found_in(tafel_run(extra=[swap]))
    assert [one.resistor_ohm for one in found.points] == list(UP[:4])
    found = found_in(tafel_run(extra=[(3 * STEP_S + 1.0, "solution_swapped")]))
    assert found.fit is None
    assert "3 settled" in found.cautions[-1].message


def test_a_shunt_gives_the_currents() -> None:
    run = tafel_run()
    cell = run.channels[0]
    ohms = np.repeat(UP, int(STEP_S * RATE))
    shunt_V = (27.0 - cell.values) * ohms / (ohms + 6.0) * 1.02  # the stack is 2 % better than stated
    both = recording(
        cell,
        channel(cell.times_s, shunt_V, name="shunt_voltage", role="shunt_voltage"),
        moments=[(one.time_s, one.kind, one.label) for one in run.moments],
        bench=SETTLED_BENCH,
    )
    ratios = [
        shunted.current_A / plain.current_A
        for shunted, plain in zip(found_in(both).points, found_in(run).points, strict=True)
    ]
    assert ratios == pytest.approx([1.02] * 6, rel=1e-3)


@pytest.mark.parametrize(
    ("run", "bench", "words"),
    [
        (recording(channel([0, 1], [2.0, 2.0])), BENCH, "tag each change of the resistor"),
        (tafel_run(UP[:2]), SETTLED_BENCH, "2 settled"),
        (tafel_run(UP[:3]), SETTLED_BENCH, "3 settled"),
        (tafel_run(), "[supply]\ncurrent_A = 0.002\n", "holds the current by itself"),
        (tafel_run(), "", "supply.stack_voltage_V"),
        (recording(channel([], []), moments=[(0, "resistor_changed", "1000")]), BENCH, "no readings"),
        (recording(moments=[(0, "resistor_changed", "1000")]), BENCH, "no readings"),
        (tafel_run((4_700, 3_900, 3_300, 2_700, 2_200)), SETTLED_BENCH, "does not rise with the current"),
        (tafel_run((10_000,) * 5), SETTLED_BENCH.replace("100000", "10000"), "do not differ"),
    ],
)
def test_a_run_that_gives_no_line_says_why(run, bench: str, words: str) -> None:
    found = tafel_of(run, parse_bench(bench))
    assert found.fit is None
    assert found.document is None
    meant = any(one.kind == "resistor_changed" for one in run.moments)
    assert found.cautions[-1].code == ("no_tafel_line" if meant else "no_tafel")
    assert words in found.cautions[-1].message


def test_currents_too_close_together_give_no_slope():
    """Within a tenth of a decade slope and ohmic drop look alike: uncertain by more than the slope itself."""
    near = SETTLED_BENCH.replace("resistor_ohm = 100000", "resistor_ohm = 12000")
    for wait_s in (15.0, 20.0):
        found = found_in(tafel_run((12000, 11500, 11000, 10500, 10000), wait_s=wait_s, bench=near), near)
        assert found.document is None
        assert "spread the current" in found.cautions[-1].message


def test_which_way_the_voltage_lay_off_is_said():
    """The electrodes creep up by 4 mV a step: the second pass, with the currents falling, lies higher."""
    exact = SETTLED_BENCH.replace("percent = 1.0", "percent = 0.05")
    exact = exact.replace("accuracy_percent_of_reading = 0.5", "accuracy_percent_of_reading = 0.005")
    found = found_in(tafel_run((*UP, *UP[-2::-1]), creep_V=0.004, noise_V=0.0002, bench=exact), exact)
    (said,) = (one.message for one in found.cautions if one.code == "tafel_hysteresis")
    assert "mV more than rising" in said
