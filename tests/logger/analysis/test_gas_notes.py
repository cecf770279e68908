"""Volumes of gas among the notes of a run."""

import math

import pytest

from logger.analysis.caution import Cautions
from logger.analysis.gas_notes import gas_readings
from logger.moments import new_moment


def read(*notes):
    cautions = Cautions()
    moments = [new_moment(10.0 * (k + 1), "note", text) for k, text in enumerate(notes)]
    return gas_readings(moments, cautions), [one.code for one in cautions.all]


@pytest.mark.parametrize(
    ("text", "gas", "volume_mL", "half_mL", "column_mm"),
    [
        ("hydrogen 4.30 mL", "hydrogen", 4.30, 0.01, 0.0),
        ("Hydrogen: 4,3 ml", "hydrogen", 4.3, 0.1, 0.0),
        ("H2 = 12 cm3", "hydrogen", 12.0, 1.0, 0.0),
        ("Wasserstoff 4,30 mL", "hydrogen", 4.30, 0.01, 0.0),
        ("Sauerstoff 2,2 ml", "oxygen", 2.2, 0.1, 0.0),
        ("oxygen 2.15 ± 0.05 mL", "oxygen", 2.15, 0.05, 0.0),
        ("O2 2.15 +- 0.05 mL column 50 mm", "oxygen", 2.15, 0.05, 50.0),
        ("hydrogen 4.30 mL, column -12 mm", "hydrogen", 4.30, 0.01, -12.0),
        ("hydrogen 0 mL", "hydrogen", 0.0, 1.0, 0.0),
    ],
)
def test_a_volume_is_read(text, gas, volume_mL, half_mL, column_mm):
    (found,), codes = read(text)
    assert (found.gas, found.volume_mL, found.column_mm, found.time_s) == (gas, volume_mL, column_mm, 10.0)
    assert found.uncertainty_mL == pytest.approx(half_mL / math.sqrt(3))  # JCGM 100, 4.3.7
    assert codes == []


@pytest.mark.parametrize(
    "text",
    [
        "gas 6.9 mL",
        "about 4 mL hydrogen 4.3 mL so far",
        "hydrogen 4.3 mL in the left tube",
        "H2: 4 to 5 mL",
        "hydrogen 350 µL",
        "hydrogen 0.0043 L",
        "H2 4.3 ccm",
    ],
)
def test_a_volume_in_another_form_is_asked_about(text):
    found, codes = read(text)
    assert found == ()
    assert codes == ["gas_note_unread"]


@pytest.mark.parametrize(
    "text", ["", "hydrogen smells of nothing", "2 drops", "4.3 mL of buffer added", "H2O 20 mL added", "4.3"]
)
def test_other_notes_are_notes(text):
    assert read(text) == ((), [])


def test_only_notes_count_and_their_order_is_that_of_time():
    moments = [
        new_moment(50.0, "note", "hydrogen 2 mL"),
        new_moment(10.0, "note", "hydrogen 0 mL"),
        new_moment(20.0, "salt_added", "hydrogen 9 mL"),
    ]
    assert [one.volume_mL for one in gas_readings(moments, Cautions())] == [0.0, 2.0]
