"""The meter's display against the readings: agreement, and the slips that are known by their size."""

from __future__ import annotations

import pytest

from logger.display_check import DisplayError, compare_with_display


@pytest.mark.parametrize(
    ("typed", "recent", "code"),
    [
        ("2.251", [2.2505, 2.2511], "agrees"), ("2,251", [2.252], "agrees"), ("2251 mV", [2.2512], "agrees"),
        ("2.25 V", [2.262], "agrees"), ("2.251", [2.254], "differs"), ("2.251", [-2.251], "sign"),
        ("\u22120.512", [0.512], "sign"), ("2.251", [2251.0], "factor"), ("2.251", [22.51], "factor"),
        ("251.3 mV", [251.3], "factor"), ("0.000", [0.0005], "agrees"), ("0.000", [2.0], "differs"),
        ("2.251", [float("inf"), 2.251], "agrees"),
    ],
)  # fmt: skip
def test_verdicts(typed: str, recent: list[float], code: str) -> None:
    assert compare_with_display(typed, recent).code == code


def test_the_last_digit_says_how_fine_the_display_is() -> None:
    assert compare_with_display("2.25", [2.2635]).allowed_V == pytest.approx(0.015)
    assert compare_with_display("2.250", [2.2635]).code == "differs"
    assert compare_with_display("2250 mV", [2.2635]).allowed_V == pytest.approx(0.0015)


def test_the_power_of_ten_is_told() -> None:
    assert compare_with_display("2.251", [2251.2]).factor_of_ten == 3
    assert compare_with_display("2.251", [0.2251]).factor_of_ten == -1


@pytest.mark.parametrize("typed", ["", "two", "1.2.3", "2.251 mA", "V"])
def test_what_is_no_display_is_refused(typed: str) -> None:
    with pytest.raises(DisplayError):
        compare_with_display(typed, [2.0])


@pytest.mark.parametrize("typed", ["", "  "])
def test_who_has_typed_nothing_is_told_to_type(typed: str) -> None:
    with pytest.raises(DisplayError, match="type first what the display shows"):
        compare_with_display(typed, [2.0])


def test_without_readings_nothing_is_compared() -> None:
    with pytest.raises(DisplayError, match="no reading"):
        compare_with_display("2.251", [float("-inf")])
