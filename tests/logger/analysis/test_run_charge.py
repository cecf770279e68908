"""The charge of a run, with what the readings leave open."""

import numpy as np
import pytest

from logger.analysis.findings import findings
from tests.logger.simulated_run import channel, lesson, recording


def found_of(times, volts, cell, *others):
    tags = [(one.time_s, one.kind, one.label) for one in cell.moments]
    return findings(recording(channel(times, volts), *others, moments=tags))


def codes(document):
    return {one["code"] for one in document["warnings"]}


def test_an_overload_leaves_the_charge_open_as_a_gap_does():
    """Nothing flows, or what touching electrodes let through: 27 V/12006 ohm (Ohm's law)."""
    run, cell = lesson(1)
    times, volts = run.channels[0].times_s, run.channels[0].values.copy()
    whole = found_of(times, volts, cell)["charge_C"]
    begin_s = cell.truth["salt_added_s"] + 300.0
    volts[(times > begin_s) & (times < begin_s + 60.0)] = np.inf
    document = found_of(times, volts, cell)
    charge = document["charge_C"]
    assert "no_charge" not in codes(document)
    assert charge["low"] < whole["best"] < charge["high"]
    assert charge["high"] - charge["low"] == pytest.approx(60.0 * 27.0 / 12006.0, rel=0.02)
    assert charge["best"] == pytest.approx(whole["best"], rel=0.002)


def test_a_gap_may_hide_what_the_smaller_resistor_lets_through():
    """A minute without readings after a change from 12 to 6.8 kohm: up to 27 V/6806 ohm (Ohm's law)."""
    run, cell = lesson(1)
    times, volts = run.channels[0].times_s, run.channels[0].values
    begin_s = cell.truth["salt_added_s"] + 300.0
    kept = (times < begin_s) | (times > begin_s + 60.0)
    tags = [(one.time_s, one.kind, one.label) for one in cell.moments]
    tags.append((begin_s - 60.0, "resistor_changed", "6.8k"))
    charge = findings(recording(channel(times[kept], volts[kept]), moments=tags))["charge_C"]
    assert charge["high"] - charge["low"] == pytest.approx(60.0 * 27.0 / 6806.0, rel=0.02)


@pytest.mark.parametrize("unread", [np.inf, np.nan])
def test_a_minute_of_overload_is_a_gap_of_the_plateau_not_its_end(unread):
    """As if those readings were missing: the same window, voltage and uncertainty."""
    run, cell = lesson(1)
    times, volts = run.channels[0].times_s, run.channels[0].values.copy()
    begin_s = cell.truth["electrodes_in_s"] + 200.0
    lost = (times > begin_s) & (times < begin_s + 60.0)
    gap = found_of(times[~lost], volts[~lost], cell)["settled"]["after"]
    volts[lost] = unread
    found = found_of(times, volts, cell)["settled"]["after"]
    assert found is not None
    for key in ("window_begin_s", "window_end_s", "voltage_V", "standard_uncertainty_V"):
        assert found[key] == pytest.approx(gap[key], rel=1e-9)


@pytest.mark.parametrize("name", ["before", "after"])
def test_while_a_lead_was_off_no_current_flowed_and_no_voltage_counts(name):
    """The cell discharges for 20 s, from 2 to 1.5 V: it looks like electrolysis, but the circuit is open."""
    run, cell = lesson(1)
    times, volts = run.channels[0].times_s, run.channels[0].values.copy()
    whole = found_of(times, volts, cell)
    off_s = cell.truth["salt_added_s"] - 110.0 if name == "before" else cell.truth["duration_s"] - 110.0
    off = (times >= off_s) & (times < off_s + 20.0)
    volts[off] = 2.0 - 0.5 * (times[off] - off_s) / 20.0
    tags = [(one.time_s, one.kind, one.label) for one in cell.moments]
    tags += [(off_s, "lead_lifted"), (off_s + 20.0, "lead_back")]
    document = findings(recording(channel(times, volts), moments=tags))
    lost_C = whole["charge_C"]["best"] - document["charge_C"]["best"]
    assert lost_C == pytest.approx(20.0 * whole["current"][f"{name}_A"], rel=0.05)
    found = document["settled"][name]
    assert found["window_begin_s"] >= off_s + 20.0
    assert found["voltage_V"] == pytest.approx(whole["settled"][name]["voltage_V"], abs=0.003)


@pytest.mark.parametrize(("unit", "is_used"), [("degC", True), ("", True), ("degF", False), ("K", False)])
def test_a_temperature_in_another_unit_is_not_taken_for_celsius(unit, is_used):
    run, cell = lesson(1)
    times, volts = run.channels[0].times_s, run.channels[0].values
    warm = channel(times, np.full(times.size, 71.6), name="bath", role="temperature", unit=unit)
    document = found_of(times, volts, cell, warm)
    assert ("temperature_not_used" in codes(document)) is not is_used
    assert document["thermodynamics"]["temperature_C"] == pytest.approx(71.6 if is_used else 22.0)
