"""Byte stuffing: the check values of the reference, and what must hold for all data."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from drivers.formats import cobs

VECTORS = [
    ("", "01"),
    ("00", "01 01"),
    ("00 00", "01 01 01"),
    ("11 22 00 33", "03 11 22 02 33"),
    ("11 22 33 44", "05 11 22 33 44"),
    ("11 00 00 00", "02 11 01 01 01"),
    (bytes(range(1, 255)).hex(), "FF" + bytes(range(1, 255)).hex()),
    (bytes(range(1, 256)).hex(), "FF" + bytes(range(1, 255)).hex() + "02 FF"),
]
"""Cheshire & Baker 1999, examples of its figure and of common encyclopaedias, recomputed in the reference."""

mostly_zero = st.lists(st.sampled_from([0, 0, 1, 255]), max_size=600).map(bytes)
any_data = st.one_of(st.binary(max_size=600), mostly_zero)


@pytest.mark.parametrize(("data", "block"), VECTORS)
def test_check_values(data: str, block: str):
    assert cobs.encode(bytes.fromhex(data)) == bytes.fromhex(block)
    assert cobs.decode(bytes.fromhex(block)) == bytes.fromhex(data)


def test_a_final_one_after_a_full_block_is_taken_too():
    data = bytes(range(1, 255))
    assert cobs.decode(b"\xff" + data + b"\x01") == data


@pytest.mark.parametrize(
    "block", ["", "00", "02 00", "03 11 00", "02", "05 11 22", "FF 01 02", "02 11 00 01"]
)
def test_what_is_no_block_is_refused(block: str):
    assert cobs.decode(bytes.fromhex(block)) is None


@given(any_data)
def test_everything_comes_back_and_no_zero_is_sent(data: bytes):
    block = cobs.encode(data)
    assert 0 not in block
    assert cobs.decode(block) == data
    assert len(block) <= len(data) + 1 + len(data) // 254  # the paper's bound


@given(st.lists(st.integers(1, 255), min_size=1, max_size=255).map(bytes), st.data())
def test_rows_are_decoded_like_single_blocks(first: bytes, data: st.DataObject):
    others = st.lists(st.integers(1, 255), min_size=len(first), max_size=len(first)).map(bytes)
    blocks = [first, *data.draw(st.lists(others, max_size=3))]
    blocks += [cobs.encode(bytes(len(first) - 1)), cobs.encode(bytes([7]) * (len(first) - 1))]
    rows, is_block = cobs.decode_rows(np.frombuffer(b"".join(blocks), np.uint8).reshape(len(blocks), -1))
    for block, row, sound in zip(blocks, rows, is_block, strict=True):
        decoded = cobs.decode(block)
        assert sound == (decoded is not None)
        if decoded is not None:
            assert row.tobytes() == decoded


@given(any_data.filter(lambda data: 0 < len(data) < 255))
def test_rows_of_sound_blocks(data: bytes):
    block = cobs.encode(data)
    rows, is_block = cobs.decode_rows(np.frombuffer(block * 3, np.uint8).reshape(3, -1))
    assert is_block.all()
    assert [row.tobytes() for row in rows] == [data] * 3
