"""The ohmic drop at a lifted lead by the real commands, on 10 000 readings a second and on slow ones.

Truth: 2 mA, an ohmic drop of 40 mV (20 ohm), an anode of 60 mV a decade and 1 mF, a cathode of 120 mV a
decade and 40 microfarad, each discharging through its own reaction; see test_interrupt.py.
"""

import numpy as np
import pytest

from tests.logger.analysis.by_command import imported_and_analysed
from tests.logger.analysis.test_interrupt import fall

BENCH = "[supply]\ncurrent_A = 0.002\n[cell]\ntemperature_C = 22\npressure_kPa = 101.325\n"


def readings(rate_Hz, *, length_s=1.6, broken_s=0.8, noise_V=1e-5):
    times = np.arange(int(length_s * rate_Hz)) / rate_Hz
    volts = 2.25 - np.where(times > broken_s, fall(times - broken_s), 0.0)
    return times, volts + noise_V * np.random.default_rng(1).normal(size=times.size)


@pytest.fixture
def analysed(tmp_path, capsys):
    """Return a function of readings and moments that gives the document and the text."""

    def run(times, volts, moments, bench=BENCH):
        tags = [(at_s, kind, "") for at_s, kind in moments]
        return imported_and_analysed(tmp_path, capsys, (times.tolist(), volts.tolist()), tags, bench)

    return run


@pytest.mark.parametrize("tagged_s", [0.2, 0.8, 1.4])
def test_the_drop_is_read_off_where_the_lead_was_lifted(analysed, tagged_s):
    """The key is pressed by another hand: half a second off is nothing."""
    document, text = analysed(*readings(10e3), [(tagged_s, "lead_lifted")])
    (found,) = document["current_interrupt"]
    assert found["opened_at_s"] == pytest.approx(0.8, abs=1e-4)
    assert found["readings_per_s"] == pytest.approx(10e3, rel=1e-6)
    assert abs(found["ohmic_drop_V"] - 0.040) < 2 * found["standard_uncertainty_V"]
    assert found["standard_uncertainty_V"] < 0.003
    assert found["resistance_ohm"] == pytest.approx(found["ohmic_drop_V"] / 0.002, rel=1e-9)
    assert "Ohmic drop when the lead was lifted at 0:01:" in text
    assert "Ω at 2.00 mA" in text


@pytest.mark.parametrize("rate_Hz", [10.0, 860.0, 4000.0])
def test_slow_readings_are_refused_and_the_remark_is_no_caution(analysed, rate_Hz):
    document, text = analysed(*readings(rate_Hz, length_s=60.0, broken_s=30.0), [(30.0, "lead_lifted")])
    assert "current_interrupt" not in document
    (said,) = [one for one in document["warnings"] if one["code"] == "no_interrupt_slow"]
    assert "5000 readings a second or more" in said["message"]
    assert "lead was lifted" not in text


def test_a_circuit_that_stays_closed_shows_no_drop(analysed):
    times, _ = readings(10e3)
    noise = 1e-4 * np.random.default_rng(2).normal(size=times.size)
    document, text = analysed(times, 2.25 + noise, [(0.8, "lead_lifted")])
    assert "current_interrupt" not in document
    assert "No ohmic drop was read off: " in text


def test_the_meter_on_the_open_stack_is_told(analysed):
    times, volts = readings(10e3)
    document, text = analysed(times, np.where(times > 0.8, 26.9, volts), [(0.8, "lead_lifted")])
    assert "current_interrupt" not in document
    assert "open the circuit on the battery's side" in text


def test_without_a_current_there_is_no_resistance(analysed):
    document, text = analysed(*readings(10e3), [(0.8, "lead_lifted")], bench="")
    assert "current_interrupt" not in document
    assert "give the stack voltage and the resistor in the bench file" in text


def test_without_the_moment_nothing_is_looked_for(analysed):
    document, _ = analysed(*readings(10e3), [(0.0, "buffer_in")])
    assert "current_interrupt" not in document
    assert "no_interrupt" not in {one["code"] for one in document["warnings"]}


@pytest.mark.parametrize("back_s", [0.95, 1.5])
def test_putting_the_lead_back_is_not_the_break(analysed, back_s):
    """The cell has lost 0.2 V and more meanwhile, so that the return is the larger step by far."""
    times, volts = readings(10e3)
    _, closed = readings(10e3, broken_s=9.0)
    document, _ = analysed(
        times, np.where(times > back_s, closed, volts), [(0.8, "lead_lifted"), (back_s, "lead_back")]
    )
    (found,) = document["current_interrupt"]
    assert found["opened_at_s"] == pytest.approx(0.8, abs=1e-4)
    assert abs(found["ohmic_drop_V"] - 0.040) < 2 * found["standard_uncertainty_V"]
