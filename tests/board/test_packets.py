"""The packet writer of the firmware, compiled for this computer, against the encoder used in the tests."""

from __future__ import annotations

import ctypes
import subprocess

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drivers.formats.packet import BoardInfo, encode_data, encode_info, encode_text
from tests.board.emulated import FIRMWARE

pytestmark = pytest.mark.board

WIRE = 105


class Data(ctypes.Structure):
    """`struct packet_data` of packets.h."""

    _fields_ = (
        ("sequence", ctypes.c_uint16),
        ("time_us", ctypes.c_uint32),
        ("count", ctypes.c_uint8),
        ("range_code", ctypes.c_uint8),
        ("flags", ctypes.c_uint8),
        ("codes", ctypes.c_int16 * 32),
    )


class Info(ctypes.Structure):
    """`struct packet_info` of packets.h."""

    _fields_ = (
        ("ticks_per_s", ctypes.c_uint32),
        ("ticks_per_sample", ctypes.c_uint32),
        ("dropped", ctypes.c_uint32),
        ("range_code", ctypes.c_uint8),
        ("step_tenth_nV", ctypes.c_uint32),
    )


@pytest.fixture(scope="module")
def writer(tools: None, tmp_path_factory: pytest.TempPathFactory) -> ctypes.CDLL:
    library = tmp_path_factory.mktemp("packets") / "packets.so"
    checks = ["-Wall", "-Wextra", "-Werror", "-fsanitize=undefined", "-fsanitize-undefined-trap-on-error"]
    source = str(FIRMWARE / "packets.c")
    subprocess.run(["gcc", "-std=c11", "-shared", "-fPIC", *checks, source, "-o", str(library)], check=True)
    return ctypes.CDLL(str(library))


def written(function, *arguments) -> bytes:
    room = ctypes.create_string_buffer(b"\xee" * (WIRE + 8), WIRE + 8)
    length = function(room, *arguments)
    assert room.raw[length:] == b"\xee" * (WIRE + 8 - length), "nothing is written beyond the packet"
    return room.raw[:length]


@given(
    st.integers(0, 0xFFFF),
    st.integers(0, 0xFFFFFFFF),
    st.lists(st.integers(-32768, 32767), min_size=1, max_size=32),
    st.integers(0, 255),
    st.integers(0, 7),
)
def test_data(writer, sequence, time_us, codes, range_code, flags):
    data = Data(sequence, time_us, len(codes), range_code, flags, (ctypes.c_int16 * 32)(*codes))
    expected = encode_data(sequence, time_us, codes, mask=1, range_code=range_code, flags=flags)
    assert written(writer.packet_of_data, ctypes.byref(data)) == expected


def test_the_worked_packet_of_the_reference_document(writer):
    data = Data(0xFFFF, 0xFFFFFFF0, 3, 2, 1, (ctypes.c_int16 * 32)(32767, -32768, 0))
    wire = bytes.fromhex("0E 01 FF FF F0 FF FF FF 03 01 02 01 FF 7F 02 80 01 03 4B 71 00")
    assert written(writer.packet_of_data, ctypes.byref(data)) == wire


@given(st.integers(0, 0xFFFFFFFF), st.integers(0, 255), st.integers(1, 0xFFFFFFFF))
def test_info(writer, dropped, range_code, step):
    info = Info(1_000_000, 2000, dropped, range_code, step)
    expected = encode_info(
        BoardInfo(1_000_000, 2000, dropped, {range_code: step * 1e-10}, {0: 1.0}, {0: 0.0})
    )
    assert written(writer.packet_of_info, ctypes.byref(info)) == expected


@given(st.text(st.characters(min_codepoint=32, max_codepoint=126), max_size=100))
def test_text(writer, text):
    raw = text.encode()
    assert written(writer.packet_of_text, raw, len(raw)) == encode_text(text)
