"""Answers of queried meters. The number forms are those of IEEE 488.2 section 8.7 and SCPI-1999 7.2.1."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drivers.formats.scpi import AnswerLines, parse_error, parse_function, parse_reading
from drivers.samples import Quality


@pytest.mark.parametrize(
    ("line", "value"),
    [
        (b"+1.23456789E+00", 1.23456789),
        (b"-5.67", -5.67),
        (b"36", 36.0),
        (b"-.00002", -0.00002),  # seen in a maker's remote manual
        (b" 1. ", 1.0),
        (b"-1.5e-3", -0.0015),
        (b"+1.234E+00 VDC", 1.234),
        (b"+1.234E+00 V", 1.234),
        (b"1.234V", 1.234),
        (b"9.89E36", 9.89e36),  # the last one that is a number
    ],
)
def test_a_number_in_volts(line: bytes, value: float):
    reading = parse_reading(line)
    assert reading.value == value
    assert reading.quality == Quality.GOOD


@pytest.mark.parametrize(
    ("line", "value"),
    [
        (b"+9.90000000E+37", math.inf),
        (b"9.9E37", math.inf),
        (b"-9.9E37", -math.inf),
        (b"9.9E36", math.inf),
        (b"1E999", math.inf),
        (b"OL", math.inf),
        (b"-OL", -math.inf),
        (b"ol", math.inf),
    ],
)
def test_overload_is_infinite_and_flagged(line: bytes, value: float):
    reading = parse_reading(line)
    assert reading.value == value
    assert reading.quality == Quality.OVERLOAD


@pytest.mark.parametrize("line", [b"9.91E37", b"+9.91000000E+37", b"-9.91E37"])
def test_not_a_number_is_no_value_but_a_good_answer(line: bytes):
    reading = parse_reading(line)
    assert reading.value is None
    assert not reading.is_misfit
    assert "9.91E37" in reading.problem


@pytest.mark.parametrize(
    "line",
    [
        b"12,3",
        b"+1.2E+00,+1.3E+00",
        b"1.2;1.3",
        b"1.2 mV",
        b"1.2 VAC",
        b"1.2 vdc",
        b"1.2 A",
        b"",
        b"READ?",
        b"+-1.2",
        b"1.2.3",
        b"1 2",
        b"E5",
        b".",
        b"0x10",
        b"nan",
        b"1_000",
        b'0,"No error"',
        "\u0661.2".encode(),
        b"\xff\xfe1.2",
    ],
)
def test_everything_else_is_refused_with_a_reason(line: bytes):
    reading = parse_reading(line)
    assert reading.value is None
    assert reading.is_misfit
    assert reading.problem


@given(st.floats(-9.8e36, 9.8e36))
def test_every_number_written_as_nr3_comes_back_exactly(value: float):
    assert parse_reading(f"{value:+.17E}".encode()).value == value


@given(st.integers(-(10**15), 10**15))
def test_every_number_written_as_nr1_comes_back_exactly(value: int):
    assert parse_reading(str(value).encode()).value == value


@given(st.binary(max_size=300))
def test_random_bytes_never_raise(data: bytes):
    for line in AnswerLines().feed(data + b"\n"):
        reading = parse_reading(line)
        assert reading.value is None or not math.isnan(reading.value)
        parse_error(line)
        parse_function(line)


@pytest.mark.parametrize("end", [b"\n", b"\r", b"\r\n", b"\n\r"])
def test_every_line_end_is_understood(end: bytes):
    assert AnswerLines().feed(b"1.5" + end + b"1.6" + end) == [b"1.5", b"1.6"]


def test_flow_control_bytes_are_dropped():
    assert AnswerLines().feed(b"\x11+1.5\x13E+00\x11\n") == [b"+1.5E+00"]


def test_an_endless_line_is_dropped_whole():
    lines = AnswerLines()
    assert lines.feed(b"9" * 1000) == []
    assert lines.feed(b"9\n1.5\n") == [b"1.5"]


@given(st.lists(st.binary(max_size=20)), st.data())
def test_pieces_of_any_size_give_the_same_lines(parts: list[bytes], data: st.DataObject):
    stream = b"\r\n".join(parts) + b"\n"
    whole = AnswerLines().feed(stream)
    lines, rest, pieces = AnswerLines(), stream, []
    while rest:
        size = data.draw(st.integers(1, len(rest)))
        pieces += lines.feed(rest[:size])
        rest = rest[size:]
    assert pieces == whole


def test_errors_of_the_queue():
    """SCPI-1999 volume 2, chapter 21 (from memory): the code, then the text in quotes."""
    assert parse_error(b'0,"No error"') == (0, "No error")
    assert parse_error(b'-113,"Undefined header"') == (-113, "Undefined header")
    assert parse_error(b'+550,"Command not allowed in local"') == (550, "Command not allowed in local")
    assert parse_error(b"+1.5E+00") is None


@pytest.mark.parametrize(
    ("line", "function"),
    [
        (b'"VOLT +1.000000E+01,+1.000000E-05"', "VOLT"),
        (b'"VOLT:DC 10"', "VOLT:DC"),
        (b"VOLT:AC", "VOLT:AC"),
        (b'"RES"', "RES"),
        (b"", ""),
    ],
)
def test_the_function_that_a_meter_is_set_to(line: bytes, function: str):
    assert parse_function(line) == function
