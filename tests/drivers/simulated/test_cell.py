"""Check values worked out beforehand with scipy from the formulas that `physics` names."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drivers.errors import AddressError
from drivers.simulated.cell import LessonCell
from drivers.simulated.lesson import Plan
from drivers.simulated.lesson_fault import FAULTS
from drivers.simulated.physics import CellBuild, Supply, avrami_coverage, logistic_coverage, operate_on_supply

V_OC = 26.967623  # section 2: Vs 27, R + r 12 006 ohm, meter 10 Mohm


def test_the_bench_lesson_ends_at_the_reference_truth() -> None:
    truth = LessonCell("bench").truth
    assert truth["voltage_before_V"] == pytest.approx(2.250555, abs=6e-7)
    assert truth["voltage_after_V"] == pytest.approx(1.995998, abs=6e-7)
    assert 1e3 * truth["current_before_A"] == pytest.approx(2.061423, abs=6e-7)
    assert 1e3 * truth["current_after_A"] == pytest.approx(2.082626, abs=6e-7)
    assert 1e3 * truth["saved_V"] == pytest.approx(254.556896, abs=1e-6)
    assert 1e3 * truth["saved_at_equal_current_V"] == pytest.approx(255.780876, abs=1e-6)
    assert truth["coverage_after"] == pytest.approx(1, abs=1e-11)


def test_the_demo_lesson_ends_before_growth_is_complete() -> None:
    # Reference: logistic V at 900 s is 2.002868; the after-part keeps the coverage of that moment.
    truth = LessonCell("demo").truth
    assert truth["voltage_before_V"] == pytest.approx(2.250555, abs=6e-7)
    assert truth["voltage_after_V"] == pytest.approx(2.002868, abs=6e-7)
    assert truth["saved_V"] == truth["voltage_before_V"] - truth["voltage_after_V"]
    assert truth["saved_at_equal_current_V"] > truth["saved_V"]


def test_truth_of_another_supply() -> None:
    truth = LessonCell("bench", supply=Supply(9.0, 3300.0, 6.0)).truth
    assert 1e3 * truth["saved_V"] == pytest.approx(251.159089, abs=1e-6)
    assert 1e3 * truth["saved_at_equal_current_V"] == pytest.approx(255.534073, abs=1e-6)


def test_a_quiet_lesson_reads_the_physics() -> None:
    cell = LessonCell("demo", noise="quiet")
    assert cell.voltage_V(10) == pytest.approx(V_OC, abs=6e-7)
    assert cell.voltage_V(45) == pytest.approx(cell.truth["voltage_before_V"] + 0.080, abs=1e-9)
    assert cell.voltage_V(284.9) == pytest.approx(2.250555 + 0.080 * np.exp(-239.9 / 30), abs=1e-6)
    # Logistic V at 300 and 600 s; what is left of the first transient is below a microvolt.
    assert cell.voltage_V(285 + 300) == pytest.approx(2.209134, abs=2e-6)
    assert cell.voltage_V(285 + 600) == pytest.approx(2.094239, abs=1e-6)
    assert cell.voltage_V(1200) == pytest.approx(V_OC, abs=6e-7)
    assert cell.voltage_V(1664.9) == pytest.approx(2.002868 + 0.030 * np.exp(-419.9 / 30), abs=1e-6)


def test_any_law_of_growth_may_be_planned() -> None:
    # Reference: Avrami V at 600 s 2.007805.
    plan = Plan(dry_s=1.0, before_s=600.0, growth_s=700.0, out_s=60.0, after_s=60.0, coverage=avrami_coverage)
    assert LessonCell(plan, noise="quiet").voltage_V(601 + 600) == pytest.approx(2.007805, abs=1e-6)


def test_noise_surrounds_the_quiet_voltage() -> None:
    # sd: bubbles 2 mV and reading 0.3 mV together 2.022 mV; about 10 independent values in each of 30 seeds.
    times_s = np.arange(100.0, 284.0)
    quiet = LessonCell("demo", noise="quiet").block(times_s)
    rest = np.concatenate([LessonCell("demo", seed).block(times_s) - quiet for seed in range(30)])
    assert abs(rest.mean()) < 5 * 2e-3 / np.sqrt(30 * 184 / 19)
    assert rest.std() == pytest.approx(2.022e-3, rel=0.15)


def test_a_dry_cell_has_no_bubbles() -> None:
    dry = LessonCell("demo", 1).block(np.arange(0, 44, 0.01))
    assert dry.std() == pytest.approx(0.3e-3, rel=0.1)


def test_rough_noise_wears_the_stack_down() -> None:
    # 0.2 V an hour under load, seen with the electrodes lifted out; the rest regains 63 % in 300 s.
    quiet, rough = LessonCell("bench", 2, "quiet"), LessonCell("bench", 2, "rough")
    lifted_s = np.arange(4825.0, 4875.0)
    lost = (quiet.block(lifted_s) - rough.block(lifted_s)).mean()
    assert lost == pytest.approx(0.2 * 4800 / 3600 * np.exp(-30 / 300), rel=0.02)


@settings(max_examples=60)
@given(
    noise=st.sampled_from(["quiet", "lesson", "rough"]),
    faults=st.sets(st.sampled_from(sorted(FAULTS))),
    begin_s=st.floats(0, 1800),
    rate=st.sampled_from([0.5, 3.0, 10.0, 1000.0, 100000.0]),
    cuts=st.lists(st.integers(0, 300), max_size=5),
)
def test_blocks_of_any_size_give_the_same_readings(
    noise: str, faults: set[str], begin_s: float, rate: float, cuts: list[int]
) -> None:
    cell = LessonCell("demo", 7, noise, faults)
    times_s = begin_s + np.arange(300) / rate
    whole = cell.block(times_s)
    parts = [cell.block(part) for part in np.split(times_s, sorted(cuts))]
    assert np.array_equal(whole, np.concatenate(parts), equal_nan=True)


def test_single_readings_are_those_of_the_block() -> None:
    times_s = np.arange(0, 1665, 3.7)
    cell, again = LessonCell("demo", 5), LessonCell("demo", 5)
    assert cell.block(times_s).tolist() == [again.voltage_V(t) for t in times_s]


def test_seeds_differ() -> None:
    times_s = np.arange(100.0)
    assert not np.array_equal(LessonCell(seed=1).block(times_s), LessonCell(seed=2).block(times_s))


def test_the_cell_may_be_read_after_the_lesson() -> None:
    cell = LessonCell("demo", 1)
    volts = cell.block(cell.duration_s + np.arange(0.0, 5000.0))
    assert np.all(np.abs(volts - cell.truth["voltage_after_V"]) < 0.015)


def test_a_blank_saves_nothing() -> None:
    blank, demo = LessonCell("blank", 3), LessonCell("demo", 3)
    assert blank.truth["saved_V"] == 0.0
    assert "salt_added_s" not in blank.truth
    times_s = np.arange(0.0, 285.0)  # the same lesson up to the salt
    assert blank.block(times_s).tolist() == demo.block(times_s).tolist()
    late_s = np.arange(1000.0, 1185.0)
    assert np.all(blank.block(late_s) - demo.block(late_s) > 0.1)


class TestFaults:
    def test_reversed_leads_change_the_sign_and_nothing_else(self) -> None:
        times_s = np.arange(1600.0)
        right, wrong = LessonCell(seed=1), LessonCell(seed=1, faults=["reversed_leads"])
        assert np.array_equal(right.block(times_s), -wrong.block(times_s))

    @pytest.mark.parametrize(("fault", "step_V"), [("rounded_1mV", 1e-3), ("rounded_10mV", 1e-2)])
    def test_rounding(self, fault: str, step_V: float) -> None:
        times_s = np.arange(1600.0)
        fine, coarse = LessonCell(seed=1).block(times_s), LessonCell(seed=1, faults=[fault]).block(times_s)
        assert np.all(np.abs(fine - coarse) <= step_V / 2 + 1e-12)
        assert coarse / step_V == pytest.approx(np.round(coarse / step_V), abs=1e-9)

    def test_dropouts_take_one_reading_in_a_thousand(self) -> None:
        # 400 000 readings: 400 +- 20 expected.
        volts = LessonCell(seed=1, faults=["dropouts"]).block(np.arange(400_000) / 250)
        assert 300 < np.isnan(volts).sum() < 500

    def test_touching_electrodes_read_5_mV(self) -> None:
        touching = LessonCell(noise="quiet", faults=["touching"])
        assert touching.block(np.array([1005.1, 1024.9])).tolist() == [0.005, 0.005]
        assert touching.voltage_V(1025.1) > 1.9

    def test_half_dipped_electrodes_carry_four_times_the_density(self) -> None:
        cell = LessonCell("bench", noise="quiet", faults=["half_dipped"])
        assert cell.truth["area_after_cm2"] == 0.5
        # Both Tafel lines after growth rise by (0.060 + 0.120) log10(4) = 0.10837 V, less what the
        # smaller current takes back (45 ohm against 12 kohm: 0.4 %).
        rise_V = cell.truth["voltage_after_V"] - LessonCell("bench").truth["voltage_after_V"]
        assert rise_V == pytest.approx(0.180 * np.log10(4), rel=5e-3)
        assert cell.voltage_V(7279) == pytest.approx(cell.truth["voltage_after_V"], abs=1e-6)

    def test_without_its_supply_the_cell_relaxes(self) -> None:
        cell = LessonCell(noise="quiet", faults=["supply_off"])
        volts = cell.block(825 + np.array([0.0, 20.0, 59.9, 60.0]))
        assert volts[:3] == pytest.approx([1.5, 0.8 + 0.7 / np.e, 0.8 + 0.7 * np.exp(-59.9 / 20)])
        assert volts[3] > 2

    def test_salt_may_come_early(self) -> None:
        early = LessonCell(noise="quiet", faults=["salt_early"])
        assert early.truth["salt_added_s"] == 75
        grown = operate_on_supply(CellBuild(), Supply(), logistic_coverage(285.0 - 75.0))
        assert early.voltage_V(285) == pytest.approx(float(grown.voltage_V) + 0.080 * np.exp(-8), abs=1e-9)

    @pytest.mark.parametrize("fault", ["touch", "halfdipped", "reverse_leads"])
    def test_an_unknown_fault_is_refused(self, fault: str) -> None:
        with pytest.raises(AddressError, match="did you mean"):
            LessonCell(faults=[fault])


@pytest.mark.parametrize(("lesson", "noise"), [("demon", "lesson"), ("demo", "roug")])
def test_unknown_lesson_and_noise_are_refused(lesson: str, noise: str) -> None:
    with pytest.raises(AddressError, match="did you mean"):
        LessonCell(lesson, noise=noise)


class TestAcrossTheResistor:
    """Kirchhoff: stack = cell + all that the current drops on its way, at every instant of a lesson."""

    def test_it_takes_what_the_cell_leaves(self):
        cell = LessonCell("demo", noise="quiet")
        times_s = np.linspace(0.0, cell.duration_s, 2000)
        line = cell.supply.line_ohm / cell.supply.resistor_ohm
        total_V = cell.block(times_s) + line * cell.resistor_V(times_s)
        np.testing.assert_allclose(total_V, cell.stack_V(times_s), atol=1e-9)

    def test_its_current_is_the_truth_where_the_voltage_has_settled(self):
        cell = LessonCell("bench", noise="quiet")
        late_s = np.array([cell.truth["salt_added_s"] - 1.0, cell.duration_s])
        current_A = cell.resistor_V(late_s) / cell.supply.resistor_ohm
        truth_A = [cell.truth["current_before_A"], cell.truth["current_after_A"]]
        np.testing.assert_allclose(current_A, truth_A, rtol=1e-6)

    def test_nothing_flows_without_supply(self):
        cell = LessonCell("demo", noise="quiet", faults=["supply_off"])
        times_s = np.linspace(0.0, cell.duration_s, 5000)
        assert (cell.resistor_V(times_s) == 0.0).sum() == pytest.approx(60 / cell.duration_s * 5000, abs=2)
