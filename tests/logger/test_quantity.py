"""Numbers read well and claim no more than is known."""

import pytest

from logger.quantity import interval_words, plain, significant, with_uncertainty


@pytest.mark.parametrize(
    ("value", "expanded", "text"),
    [
        (219.34, 4.2, "219 ± 4 mV"),
        (253.84116, 1.3313, "253.8 ± 1.3 mV"),  # the deterministic check of the saving
        (254.0, 13.2, "254 ± 13 mV"),
        (0.4, 2.96, "0 ± 3 mV"),
        (-12.34, 0.31, "−12.3 ± 0.3 mV"),
        (254.0, 120.0, "254 ± 120 mV"),
    ],
)
def test_with_uncertainty(value: float, expanded: float, text: str) -> None:
    assert with_uncertainty(value, expanded, "mV").replace("\u00a0", " ") == text


def test_significant() -> None:
    assert significant(7.3141) == "7.31"
    assert significant(0.089231) == "0.0892"
    assert significant(1234.5) == "1230"
    assert significant(9.999) == "10.0"
    assert significant(0.0) == "0"
    assert significant(-2.5, 2, "V") == "−2.5\u00a0V"


def test_plain_has_no_negative_zero() -> None:
    assert plain(-0.0004, 1) == "0.0"


@pytest.mark.parametrize(
    ("low", "high", "text"),
    [
        (-1.23, 4.56, "between −1.2 and 4.6"),
        (-0.04, 0.03, "between −0.04 and 0.03"),
        (-0.004, 0.003, "between −0.004 and 0.003"),
        (0.0, 0.0, "at 0.000"),
    ],
)
def test_an_interval_never_reads_as_nothing_to_nothing(low: float, high: float, text: str) -> None:
    assert interval_words(low, high) == text
