"""The drawn Tafel line passes through points that lie on one."""

from __future__ import annotations

import numpy as np
import pytest

from logger.analysis.tafel_line import tafel_line


def document(ohm):
    currents = np.array([1e-4, 3e-4, 1e-3, 3e-3])
    volts = 2.0 + 0.18 * np.log10(currents / 1e-3) + (ohm or 0.0) * currents
    points = [
        {"current_A": float(i), "voltage_V": float(v), "standard_uncertainty_V": 0.002}
        for i, v in zip(currents, volts, strict=True)
    ]
    return {"tafel": {"slope_V_per_decade": 0.18, "ohmic_resistance_ohm": ohm, "points": points}}


@pytest.mark.parametrize("ohm", [None, 30.0])
def test_the_line_passes_through_its_points(ohm):
    found = tafel_line(document(ohm))
    assert found.log_mA == pytest.approx(np.log10([0.1, 0.3, 1.0, 3.0]))
    on_line = np.interp(found.log_mA, found.line_log_mA, found.line_V)
    assert on_line == pytest.approx(found.voltage_V, abs=1e-4)
    assert found.half_width_V == pytest.approx(0.004)


def test_without_a_tafel_run_there_is_no_line():
    assert tafel_line({}) is None
    assert tafel_line({"tafel": None}) is None
