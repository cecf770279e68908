"""The findings of a run in words and rows."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np

from gui.chart_notes import findings_notes, is_sure
from gui.findings_texts import (
    budget_rows,
    headings,
    headline,
    headline_note,
    result_rows,
    tafel_sentence,
    warnings,
)
from logger.recording import ChannelData, Recording

FOUND: dict[str, Any] = {
    "phases": [{"phase": "before", "begin_s": 45.0, "end_s": 285.0}],
    "settled": {
        "before": {
            "voltage_V": 2.2506, "standard_uncertainty_V": 0.0066, "window_begin_s": 190.0,
            "window_end_s": 284.0, "is_settled": True,
        },
        "after": {
            "voltage_V": 1.9960, "standard_uncertainty_V": 0.0059, "window_begin_s": 1400.0,
            "window_end_s": 1640.0, "is_settled": True,
        },
    },
    "voltage_saved": {
        "value_V": 0.25456, "standard_uncertainty_V": 0.0013, "coverage_factor": 1.97,
        "at_equal_current_V": 0.25578,
    },
    "current": {"before_A": 0.002061, "after_A": 0.002083, "change_percent": 1.03},
    "thermodynamics": {"thermoneutral_voltage_V": 1.4817},
    "efficiency": {"before": {"higher_heating": 0.658}, "after": {"higher_heating": 0.742}},
    "charge_C": {"low": 3.1, "best": 3.23, "high": 3.3},
    "gas": {"hydrogen_mL": 0.4161, "conditions": "saturated with water vapour, 22 degC, 101.325 kPa"},
    "warnings": [{"code": "a", "message": "The leads were reversed.", "at_s": 12.0}],
}  # fmt: skip


def recording() -> Recording:
    channel = ChannelData(
        "cell_voltage", "cell_voltage", "V", np.arange(3.0), np.full(3, 2.0), np.zeros(3, np.uint8)
    )
    return Recording(
        Path("a.h5"), "0", "Strip 4", "2026-11-25T09:10:03.123+01:00", None, "UTC", 1620.0, (channel,)
    )


def test_headline_and_note() -> None:
    assert headline(FOUND).replace("\u00a0", " ") == "254.6 ± 2.6 mV"
    assert headline_note(FOUND).replace("\u00a0", " ") == "95 % interval. At equal current 256 mV."
    assert headings(recording()) == (
        "2026-11-25, 09:10, 27:00 long, 3 readings",
        "2026-11-25, 09:10, 27:00 long",
        "2026-11-25, 09:10",
    )


def test_rows() -> None:
    found = {
        row.name: (row.value.replace("\u00a0", " "), row.note.replace("\u00a0", " "))
        for row in result_rows(FOUND)
    }
    assert found == {
        "Before": ("2.251 ± 0.013 V", "settled, meter included"),
        "After": ("1.996 ± 0.012 V", "settled, meter included"),
        "Current": ("2.06 → 2.08 mA", "+1.0 %"),
        "Voltage efficiency": ("65.8 → 74.2 %", "of 1.482 V"),
        "Charge": ("3.23 C", "3.10 … 3.30"),
        "Hydrogen": ("0.416 mL", "moist, 22 °C"),
    }


def test_a_level_that_has_not_settled_is_told_everywhere() -> None:
    after = FOUND["settled"]["after"] | {"is_settled": False}
    found = FOUND | {"settled": FOUND["settled"] | {"after": after}}
    assert "Provisional" in headline_note(found)
    assert result_rows(found)[1].note == "not settled, meter included"


def test_what_is_missing_is_a_dash_with_a_pointer_to_the_reason() -> None:
    assert headline({}) == "not determined"
    assert "warnings under “Result”" in headline_note({}), "they are not seen below every tab"
    assert {row.value for row in result_rows({})} == {"–"}
    nothing = dict.fromkeys(FOUND)
    assert {row.value for row in result_rows(nothing)} == {"–"}
    assert findings_notes(recording(), nothing).saving is None


def test_warnings_carry_their_time() -> None:
    assert warnings(FOUND) == ("At 0:12: The leads were reversed.",)


def test_the_notes_hold_both_levels_and_the_saving() -> None:
    notes = findings_notes(recording(), FOUND)
    assert [level.voltage_V for level in notes.levels] == [2.2506, 1.9960]
    assert notes.saving is not None
    assert notes.saving.value.replace("\u00a0", " ") == "254.6 ± 2.6 mV"
    assert notes.saving.to_V == 1.9960


def test_a_level_that_had_not_settled_says_so_beside_the_curve() -> None:
    settled = FOUND["settled"]
    after = {**settled["after"], "is_settled": False}
    notes = findings_notes(recording(), {**FOUND, "settled": {**settled, "after": after}})
    assert [(level.is_settled, level.text.replace("\u00a0", " ")) for level in notes.levels] == [
        (True, "2.251 V before"),
        (False, "1.996 V after, not settled"),
    ]


def test_what_was_measured_beside_the_voltage_has_its_rows() -> None:
    gas = {
        "value": 0.936, "standard_uncertainty": 0.0065, "volume_mL": 4.30, "charge_C": 36.0,
        "conditions": "over water, 20 degC, 101.325 kPa",
    }  # fmt: skip
    lifted = {
        "opened_at_s": 125.0, "resistance_ohm": 20.02, "resistance_standard_uncertainty_ohm": 0.21,
    }  # fmt: skip
    found = result_rows(FOUND | {"faradaic_efficiency": {"hydrogen": gas}, "current_interrupt": [lifted]})
    collected, ohmic = found[-2:]
    assert collected.name == "Found as hydrogen"
    assert collected.value.replace("\u00a0", " ") == "93.6 ± 1.3 %"
    assert collected.note.replace("\u00a0", " ") == "4.30 mL for 36.0 C"
    assert collected.detail.replace("\u00a0", " ") == "over water, 20 °C, 101.325 kPa"
    assert ohmic.name == "Ohmic resistance"
    assert ohmic.value.replace("\u00a0", " ") == "20.0 ± 0.4 Ω"
    assert ohmic.note == "lead lifted at 2:05"


def test_mere_remarks_are_no_warnings() -> None:
    """One resistor gives no Tafel line, and nothing is wrong with that; a line that failed is said."""
    remark = {"code": "no_tafel", "message": "A Tafel slope needs more.", "at_s": None}
    failed = {"code": "no_tafel_line", "message": "No Tafel slope was found.", "at_s": None}
    assert warnings({"warnings": [remark]}) == ()
    assert warnings({"warnings": [remark, failed]}) == ("No Tafel slope was found.",)
    assert tafel_sentence({"warnings": [remark]}) == "A Tafel slope needs more."
    assert tafel_sentence({"warnings": [failed]}) == "No Tafel slope was found."


def test_a_meter_that_is_not_known_is_not_said_to_be_included() -> None:
    unknown = {"code": "meter_unknown", "message": "The meter is not known.", "at_s": None}
    assert result_rows(FOUND | {"warnings": [unknown]})[0].note == "settled, without the meter"


def test_only_a_saving_that_is_shown_is_green() -> None:
    """Not one whose 95 % interval holds zero, as of a blank, nor one whose voltages had not settled."""
    assert is_sure(FOUND)
    blank = {**FOUND, "voltage_saved": {"value_V": 0.0003, "standard_uncertainty_V": 0.0012}}
    assert not is_sure(blank)
    loss = {**FOUND, "voltage_saved": {"value_V": -0.05, "standard_uncertainty_V": 0.0012}}
    assert is_sure(loss)
    settled = {**FOUND["settled"], "before": {**FOUND["settled"]["before"], "is_settled": False}}
    assert not is_sure({**FOUND, "settled": settled})
    assert not is_sure({})


def test_the_curve_says_by_its_colour_what_the_headline_says() -> None:
    notes = findings_notes(recording(), FOUND)
    assert notes.saving is not None
    assert notes.saving.look == "settled"
    settled = {**FOUND["settled"], "before": {**FOUND["settled"]["before"], "is_settled": False}}
    notes = findings_notes(recording(), {**FOUND, "settled": settled})
    assert notes.saving is not None
    assert notes.saving.look == "ink"


def test_sources_of_uncertainty_begin_with_a_capital_in_every_language() -> None:
    line = {"source": "scatter before", "type": "A", "standard_uncertainty_V": 0.001}
    rows = budget_rows({"voltage_saved": {"value_V": 0.25, "budget": [line]}})
    assert [row.source for row in rows] == ["Scatter before"]
