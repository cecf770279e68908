"""Numbers in labels: what people write for a resistor (letter code: IEC 60062) and for a temperature."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logger.label_numbers import celsius_in_label, ohms_in_label


@pytest.mark.parametrize(
    ("label", "ohms"),
    [
        ("4700", 4700.0),
        ("4.7k", 4700.0),
        ("4,7 kΩ", 4700.0),
        ("4.700k", 4700.0),
        ("12 K", 12000.0),
        ("4.7 MΩ", 4.7e6),
        ("47 kiloohm", 47000.0),
        ("4.7e3", 4700.0),
        ("12000 ohm (simulated)", 12000.0),
        # IEC 60062: the letter stands for the decimal point.
        ("4k7", 4700.0),
        ("2M2", 2.2e6),
        ("4R7", 4.7),
        ("470R", 470.0),
        # Groups of three digits, apart by a blank (ISO 80000-1, 7.3.1).
        ("10 000", 10000.0),
        ("10\u202f000 Ω", 10000.0),
        # A number that belongs to a name, a share or another quantity is no resistor.
        ("R2 4.7k", 4700.0),
        ("R2=4700", 4700.0),
        ("12k ± 5 %", 12000.0),
        ("5 % 12k", 12000.0),
        ("12k, 1/4 W", 12000.0),
        ("step 3: 22k", 22000.0),
        # Of a change the new value counts.
        ("from 10k to 4.7k", 4700.0),
        ("10k -> 4k7", 4700.0),
        ("10k→4.7k", 4700.0),
        ("10000 auf 4700", 4700.0),
    ],
)
def test_ohms_as_people_write_them(label, ohms):
    assert ohms_in_label(label) == pytest.approx(ohms, rel=1e-12)


@pytest.mark.parametrize(
    "label",
    [
        "",
        "the other one",
        "10.000",
        "10,000 ohm",
        "1,000",
        "4.7k or 10k",
        "4700 instead of 10000",
        "1e400",
        "1.2.3",
        "10 m",
    ],
)
def test_ohms_that_are_not_clear_are_not_guessed(label):
    assert ohms_in_label(label) is None


@pytest.mark.parametrize(
    ("label", "celsius"),
    [
        ("22.5", 22.5),
        ("22,5 °C", 22.5),
        ("22.500", 22.5),
        ("T1 = 22.5", 22.5),
        ("thermometer 2: 23.1 °C", 23.1),
        ("23.1 °C at 14:05", 23.1),
        ("22.5 ± 0.3", 22.5),
        ("22.5 +- 0.3 °C", 22.5),
        ("22 Grad", 22.0),
        ("−3 °C", -3.0),
        ("22.5 (simulated)", 22.5),
    ],
)
def test_degrees_as_people_write_them(label, celsius):
    assert celsius_in_label(label) == celsius


@pytest.mark.parametrize("label", ["", "warm", "71.6 F", "295 K", "at 14:05 22.5", "22-23", "22. 5"])
def test_degrees_that_are_not_clear_or_of_another_scale_are_not_guessed(label):
    assert celsius_in_label(label) is None


@given(st.text(max_size=60))
def test_any_text_is_a_finite_number_or_none(label):
    for value in (ohms_in_label(label), celsius_in_label(label)):
        assert value is None or abs(value) < float("inf")
