"""The line writer of the firmware, compiled for this computer and compared with decimal arithmetic."""

from __future__ import annotations

import ctypes
import subprocess
from collections.abc import Callable
from decimal import ROUND_HALF_UP, Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.board.emulated import FIRMWARE

pytestmark = pytest.mark.board

LineOf = Callable[[int, int, bool], bytes]


class Reading(ctypes.Structure):
    """`struct reading` of reading.h."""

    _fields_ = (("time_ms", ctypes.c_uint32), ("voltage_uV", ctypes.c_int32), ("overload", ctypes.c_bool))


@pytest.fixture(scope="module")
def line_of(tools: None, tmp_path_factory: pytest.TempPathFactory) -> LineOf:
    library = tmp_path_factory.mktemp("lines") / "lines.so"
    checks = ["-Wall", "-Wextra", "-Werror", "-fsanitize=undefined", "-fsanitize-undefined-trap-on-error"]
    source = str(FIRMWARE / "lines.c")
    subprocess.run(["gcc", "-std=c11", "-shared", "-fPIC", *checks, source, "-o", str(library)], check=True)
    function = ctypes.CDLL(str(library)).line_of_reading
    function.restype = ctypes.c_uint8

    def line(time_ms: int, voltage_uV: int, overload: bool) -> bytes:
        room = ctypes.create_string_buffer(b"\xee" * 40, 40)
        length = function(room, ctypes.byref(Reading(time_ms, voltage_uV, overload)))
        assert room.raw[length:] == b"\xee" * (40 - length), "wrote past the length it returned"
        return room.raw[:length]

    return line


@pytest.mark.parametrize(
    ("time_ms", "voltage_uV", "line"),
    [
        (123456, 1234500, b"123456,1.2345\r\n"),
        (0, 0, b"0,0.0000\r\n"),
        (50, 49, b"50,0.0000\r\n"),
        (50, 50, b"50,0.0001\r\n"),
        (50, -49, b"50,0.0000\r\n"),  # no minus before a zero
        (50, -50, b"50,-0.0001\r\n"),
        (50, 999950, b"50,1.0000\r\n"),
        (4294967295, -2147483648, b"4294967295,-2147.4836\r\n"),
    ],
)
def test_a_reading_is_time_and_four_decimals(
    line_of: LineOf, time_ms: int, voltage_uV: int, line: bytes
) -> None:
    assert line_of(time_ms, voltage_uV, False) == line


def test_an_overload_is_never_a_number(line_of: LineOf) -> None:
    assert line_of(123456, 4995117, True) == b"123456,OL\r\n"


@given(time_ms=st.integers(0, 2**32 - 1), voltage_uV=st.integers(-(2**31), 2**31 - 1))
def test_every_reading_is_rounded_as_decimal_arithmetic_does(
    line_of: LineOf, time_ms: int, voltage_uV: int
) -> None:
    volts = (Decimal(voltage_uV) / 1000000).quantize(Decimal("0.0001"), ROUND_HALF_UP)
    expected = f"{time_ms},{volts + 0:.4f}\r\n"  # + 0 turns a decimal -0 into 0
    line = line_of(time_ms, voltage_uV, False)
    assert line == expected.encode()
    assert len(line) <= 24  # LINE_MAX_LENGTH
