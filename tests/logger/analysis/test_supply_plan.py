"""Sizing the supply. Check values: Kirchhoff's laws, Faraday's law and IEC 60063, computed independently."""

import json

import pytest

from logger.analysis.planned_current import checked_current_A, current_from_density_A
from logger.analysis.planned_parts import FUSES_A, RATINGS_W, dry_cell
from logger.analysis.refusal import Refused
from logger.analysis.supply import SupplyCircuit
from logger.analysis.supply_plan import plan_supply
from logger.analysis.supply_plan_text import plan_text
from logger.bench import parse_bench
from logger.bench_tables import Bench, Meter

STACK = """
[supply]
cells = 3
cell_voltage_V = 9.0
stack_voltage_V = 27.0
internal_resistance_ohm = 6.0
"""
FULL = """
[cell]
anode_area_cm2 = 2.0
temperature_C = 20.0
pressure_kPa = 101.325
headspace_mL = 250
[meter]
range_V = 40.0
resolution_V = 0.001
accuracy_percent_of_reading = 0.5
accuracy_counts = 2
input_resistance_ohm = 10e6
"""


def planned(text, current_A=None):
    return plan_supply(parse_bench(text), current_A)


def codes(plan):
    return {one.code for one in plan.cautions}


@pytest.mark.parametrize(
    # 27 V, 6 ohm, 2.25 V; preferred values: IEC 60063.
    ("wanted_mA", "wanted_ohm", "e24_ohm", "e24_mA", "e96_ohm"),
    [
        (1, 24744, 24000, 1.030992, 24900),
        (2, 12369, 12000, 2.061469, 12400),
        (5, 4944, 5100, 4.847239, 4990),
        (10, 2469, 2400, 10.286783, 2490),
    ],
)
def test_the_nearest_resistor_and_the_current_it_really_gives(
    wanted_mA: float, wanted_ohm: float, e24_ohm: float, e24_mA: float, e96_ohm: float
) -> None:
    plan = planned(STACK, wanted_mA / 1000)
    assert plan.wanted_resistor_ohm == pytest.approx(wanted_ohm)
    assert plan.resistor is not None
    assert (plan.resistor.resistor_ohm, plan.resistor.series) == (e24_ohm, "E24")
    assert 1000 * plan.current.before_A == pytest.approx(e24_mA, abs=6e-7)
    assert plan.resistor.deviation_percent == pytest.approx(100 * (e24_mA / wanted_mA - 1), abs=1e-4)
    assert [(one.resistor_ohm, one.series) for one in plan.alternatives] == [(e96_ohm, "E96")]


@pytest.mark.parametrize(
    # Regulation dI/I at 2.25 and 2.00 V, power in R at 2.25 V, touching current and power.
    ("stack_V", "ohm", "inner_ohm", "rise_percent", "power_W", "touching_mA", "touching_W", "rating_W"),
    [
        (9, 1000, 3, 3.70370, 0.045290, 8.973081, 0.08052, 0.25),
        (18, 3300, 4, 1.58730, 0.074989, 5.447942, 0.09794, 0.25),
        (27, 3300, 6, 1.01010, 0.184952, 8.166969, 0.22011, 0.5),
        (36, 6800, 8, 0.74074, 0.167116, 5.287897, 0.19014, 0.5),
    ],
)
def test_regulation_and_heat(
    stack_V, ohm, inner_ohm, rise_percent, power_W, touching_mA, touching_W, rating_W
) -> None:
    plan = planned(
        f"[supply]\nstack_voltage_V = {stack_V}\nresistor_ohm = {ohm}\ninternal_resistance_ohm = {inner_ohm}"
    )
    assert plan.current.rise_percent == pytest.approx(rise_percent, abs=6e-6)
    assert plan.heat is not None
    assert plan.heat.power_W == pytest.approx(power_W, abs=6e-7)
    assert 1000 * plan.heat.touching_current_A == pytest.approx(touching_mA, abs=6e-7)
    assert plan.heat.touching_power_W == pytest.approx(touching_W, abs=6e-6)
    assert plan.heat.least_rating_W == rating_W
    assert ("weak_regulation" in codes(plan)) is (rise_percent > 2)


def test_uncertainty_of_the_current() -> None:
    # Vs 27.00(5) V, R 3300 ohm 5 %, r 6 ohm without uncertainty: 0.05/3306 and 95.26 I/3306, by hand.
    plan = planned(STACK + "resistor_ohm = 3300\nresistor_tolerance_percent = 5.0" + FULL)
    expected_A = 7.486388e-3 * ((0.137 / 1.7320508 / 24.75) ** 2 + (165 / 1.7320508 / 3306) ** 2) ** 0.5
    assert plan.current.standard_uncertainty_A == pytest.approx(expected_A, rel=1e-4)


def test_the_dry_cell_and_the_meter_beside_the_cell() -> None:
    plan = planned(STACK + "resistor_ohm = 12000" + FULL)
    assert plan.dry_cell is not None
    assert plan.dry_cell.reading_V == pytest.approx(26.967623, abs=6e-7)
    assert plan.dry_cell.is_within_range is True
    assert plan.meter_share_percent == pytest.approx(0.0109, abs=5e-5)  # of 2.061 mA, 10 Mohm at 2.25 V
    assert "meter_loads_cell" in codes(
        planned(STACK + "resistor_ohm = 12000\n[meter]\ninput_resistance_ohm=30000")
    )


@pytest.mark.parametrize(
    ("range_V", "divider"), [(40.0, 1.0), (27.0, 1.0), (26.9, 2.0), (6.0, 5.0), (4.096, 10.0), (1.0, 50.0)]
)
def test_a_divider_is_asked_for_where_the_dry_cell_exceeds_the_range(range_V: float, divider: float) -> None:
    found = dry_cell(SupplyCircuit(27.0, 12000, 6), Meter(range_V=range_V))
    assert found.divider == divider
    assert found.is_within_range is (divider == 1.0)
    assert found.reading_V / divider < range_V
    assert (f"scale={divider:g}" in found.advice) is (divider > 1.0)


def test_an_unknown_range_is_asked_for() -> None:
    plan = planned(STACK + "resistor_ohm = 12000")
    assert plan.dry_cell is not None
    assert plan.dry_cell.is_within_range is None
    assert "meter_range_unknown" in codes(plan)


def test_batteries_hydrogen_and_headspace() -> None:
    plan = planned(STACK + "resistor_ohm = 3300" + FULL)
    assert plan.batteries is not None
    assert plan.batteries.hours == pytest.approx(66.788, abs=5e-4)  # 500 mAh over 7.48639 mA
    # 10 mA: 4.487647 mL an hour, dry, 20 degC, 101325 Pa; 4 % of 250 mL after 2.22834 h.
    plan = plan_supply(parse_bench("[supply]\ncurrent_A = 0.01" + FULL))
    assert plan.hydrogen.rate_mL_h == pytest.approx(4.487647, abs=6e-7)
    assert plan.hydrogen.time_to_4_percent_h == pytest.approx(2.22834, abs=6e-6)
    assert plan.hydrogen.conditions == "dry, 20 degC, 101.325 kPa"


def test_an_open_vessel_has_no_time_to_ignite() -> None:
    plan = planned(STACK + "resistor_ohm = 3300\n[cell]\nheadspace_mL = 0")
    assert (plan.hydrogen.headspace_mL, plan.hydrogen.time_to_4_percent_h) == (None, None)


@pytest.mark.parametrize(("volts", "hours"), [(9.0, True), (1.5, True), (12.0, False)])
def test_batteries_are_known_by_their_voltage(volts: float, hours: bool) -> None:
    cells = round(27 / volts)
    plan = planned(f"[supply]\ncells = {cells}\ncell_voltage_V = {volts}\nresistor_ohm = 12000")
    assert (plan.batteries is not None) is hours


def test_the_fuse_bears_the_working_current_and_blows_on_a_short_of_the_stack() -> None:
    plan = planned(STACK + "resistor_ohm = 470")  # 52 mA
    assert plan.fuse is not None
    assert plan.fuse.low_A == pytest.approx(1.5 * plan.current.before_A)
    assert plan.fuse.low_A <= plan.fuse.rating_A <= plan.fuse.high_A
    assert plan.fuse.stack_short_A == pytest.approx(4.5)
    small = planned(STACK + "resistor_ohm = 12000").fuse
    assert small is not None
    assert small.rating_A == FUSES_A[0] > small.high_A
    assert FUSES_A[:4] == pytest.approx((0.0315, 0.04, 0.05, 0.063))
    assert sorted(FUSES_A) == list(FUSES_A)


def test_without_a_stack_three_blocks_are_assumed_and_said() -> None:
    plan = plan_supply(Bench(), 0.002)
    assert (plan.stack_voltage_V, plan.stack_source) == (27.0, "assumed")
    assert any("nine-volt blocks" in one for one in plan.assumed)
    assert any("internal resistance" in one for one in plan.assumed)
    assert len(plan.assumed) == len(set(plan.assumed))


def test_a_resistor_of_one_percent_is_planned_from_e96() -> None:
    plan = planned(STACK + "resistor_tolerance_percent = 1.0", 0.002)
    assert plan.resistor is not None
    assert (plan.resistor.series, plan.resistor.resistor_ohm) == ("E96", 12400)


def test_the_resistor_of_the_bench_is_shown_beside_the_wanted_one() -> None:
    plan = planned(STACK + "resistor_ohm = 12000\nresistor_rating_W = 0.25" + FULL, 0.01)
    assert plan.resistor is not None
    assert plan.resistor.resistor_ohm == 2400
    assert [(one.series, one.resistor_ohm) for one in plan.alternatives] == [("E96", 2490), ("bench", 12000)]
    assert "rating_too_small" in codes(plan)


def test_a_weak_stack_is_warned_of() -> None:
    plan = planned("[supply]\nstack_voltage_V = 4.5\nresistor_ohm = 1000\ninternal_resistance_ohm = 1")
    assert {"weak_regulation", "open_cell_not_recognised"} <= codes(plan)
    assert "could not be compared" in plan_text(plan)


def test_a_stack_unlike_its_batteries_is_warned_of() -> None:
    assert "stack_voltage_differs" in codes(planned(STACK.replace("27.0", "18.0") + "resistor_ohm = 12000"))


def test_a_supply_that_holds_the_current() -> None:
    plan = planned("[supply]\ncurrent_A = 0.005" + FULL)
    assert plan.current.rise_percent == 0.0
    assert plan.current.density_before_mA_cm2 == pytest.approx(2.5)
    assert (plan.resistor, plan.heat, plan.fuse, plan.dry_cell, plan.batteries) == (None,) * 5
    assert "held by the supply" in plan_text(plan)


@pytest.mark.parametrize(
    "bench",
    ["", STACK, STACK + FULL, "[supply]\ncurrent_A = 0.01", STACK.replace("6.0", "0.0") + FULL],
)
def test_every_number_of_the_text_has_its_unit_and_the_document_is_plain(bench: str) -> None:
    plan = planned(bench, 0.004)
    text = plan_text(plan)
    for label in ("Current", "Hydrogen", "The cell makes hydrogen", "Local codes"):
        assert label in text
    if plan.resistor is not None:
        for words in ("Ω", "mA at 2.25 V", "W in use", "fuse", "Batteries"):
            assert words.lower() in text.lower()
    assert "None" not in text
    assert json.loads(json.dumps(plan.document, allow_nan=False))["wanted_current_A"] == 0.004


def test_density_times_area_is_current() -> None:
    assert current_from_density_A(1.5, parse_bench(FULL)) == pytest.approx(0.003)


@pytest.mark.parametrize(
    ("attempt", "words"),
    [
        (lambda: plan_supply(Bench()), "nothing says how large"),
        (lambda: planned("[supply]\nstack_voltage_V = 1.5", 0.002), "cannot drive"),
        (lambda: planned("[supply]\nstack_voltage_V = 2.0\nresistor_ohm = 1000"), "no current flows"),
        (lambda: planned(STACK, 0.9), "100 ohm to 10 Mohm"),
        (lambda: planned(STACK, 1e-6), "100 ohm to 10 Mohm"),
        (lambda: planned(STACK + "[cell]\nanode_area_cm2 = 0.005", 0.01), "check the current and the area"),
        (lambda: checked_current_A(5), r"looks like milliampere \(then write 0.005\)"),
        (lambda: checked_current_A(float("nan")), "not a finite number"),
        (lambda: checked_current_A(-0.001), "0.1 microampere to 1 ampere"),
        (lambda: current_from_density_A(1.0, Bench()), "anode_area_cm2"),
        (lambda: current_from_density_A(501, parse_bench(FULL)), "0.0001 to 500"),
    ],
)
def test_what_cannot_be_is_refused(attempt, words: str) -> None:
    with pytest.raises(Refused, match=words):
        attempt()


def test_ratings_are_in_order() -> None:
    assert sorted(RATINGS_W) == list(RATINGS_W)
