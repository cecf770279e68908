"""How numbers are written, and telling the one that lost a byte."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drivers.formats.number_shape import NumberShape, UsualShape, number_shape


@pytest.mark.parametrize(
    ("text", "shape"),
    [
        ("1.2345", NumberShape(4, True, 0)),
        ("-1.2345", NumberShape(4, True, 0)),
        ("12,3456", NumberShape(4, True, 0)),
        (".2345", NumberShape(4, False, 0)),
        ("-.2345", NumberShape(4, False, 0)),
        ("36", NumberShape(0, True, 0)),
        ("+1.23456789E+00", NumberShape(8, True, 15)),
    ],
)
def test_the_shape_of_a_number(text: str, shape: NumberShape):
    assert number_shape(text) == shape


volts = st.floats(-999, 999).map(lambda volts: round(volts, 9))  # no exponents of three digits


@given(volts, volts)
def test_a_fixed_format_has_one_shape_whatever_the_value(first: float, second: float):
    assert number_shape(f"{first:.4f}") == number_shape(f"{second:.4f}")
    assert number_shape(f"{first:+.6E}") == number_shape(f"{second:+.6E}")


@given(volts, st.data())
def test_a_lost_byte_changes_the_shape_of_a_number_with_exponent(value: float, data: st.DataObject):
    text = f"{value:+.6E}"
    lost = data.draw(st.integers(0, len(text) - 1))
    assert number_shape(text[:lost] + text[lost + 1 :]) != number_shape(text)


def test_an_odd_number_is_told_once_the_usual_shape_is_known():
    usual = UsualShape()
    assert not any(usual.is_odd(number_shape("1.2345")) for _ in range(40))
    assert usual.is_odd(number_shape("1.235"))
    assert not usual.is_odd(number_shape("12.3456"))


def test_shortest_decimals_are_not_judged():
    """Numbers of four decimals printed without ending zeros: as json and repr do."""
    usual = UsualShape()
    told = [usual.is_odd(number_shape(f"{1 + k / 10000:.4f}".rstrip("0"))) for k in range(1000)]
    assert not any(told)


def test_damage_while_learning_only_delays_the_judging():
    usual = UsualShape()
    for k in range(200):
        usual.is_odd(number_shape("1.235" if k in (3, 4, 5) else "1.2345"))
    assert usual.is_odd(number_shape("1.235"))


def test_trailing_zeros_tell_a_fixed_shape():
    """Every tenth number lost a digit: with zeros at some ends that is damage, without it may be habit."""
    for zeros, expected in ((True, True), (False, False)):
        usual = UsualShape()
        judged = [
            usual.is_odd(
                number_shape("2.251" if k % 10 == 9 else "2.2510"), ends_in_zero=zeros and k % 10 == 0
            )
            for k in range(200)
        ]
        assert any(judged) is expected
        assert not any(is_odd for k, is_odd in enumerate(judged) if k % 10 != 9)
