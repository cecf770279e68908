"""Lines taken many at a time are the same as one by one, to the last bit, whatever has happened to them."""

from __future__ import annotations

import random

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drivers.formats.text import RefusedLine, TextDecoder, TextReading, TextRows
from drivers.formats.text_columns import BoardTime, ColumnRule
from drivers.formats.text_rows import shape_of_line
from drivers.samples import Quality
from drivers.simulated.emulated_board import FORMS


def lines_of(form: str, count: int, seed: int = 0) -> bytes:
    chance = np.random.default_rng(seed)
    volts = 2.2 + 0.3 * chance.standard_normal(count)
    return b"".join(FORMS[form](1000 * k, volt).encode() + b"\r\n" for k, volt in enumerate(volts))


def flattened(results) -> list[TextReading | RefusedLine]:
    """Rows as the readings that they stand for."""
    flat: list[TextReading | RefusedLine] = []
    for one in results:
        if isinstance(one, TextRows):
            flat += [
                TextReading(raw, value, Quality.GOOD, time, after) for raw, value, time, after in one.rows()
            ]
        else:
            flat.append(one)
    return flat


def both(data: bytes, cuts: list[int], column: str = "") -> tuple[list, list, int]:
    """Feed both ways in the same pieces; return what came, and how many lines came as rows."""
    one, many = TextDecoder(ColumnRule(column)), TextDecoder(ColumnRule(column))
    slow, fast, in_rows = [], [], 0
    for begin, end in zip([0, *cuts], [*cuts, len(data)], strict=True):
        slow += one.feed(data[begin:end])
        found = many.feed_blocks(data[begin:end])
        in_rows += sum(len(part) for part in found if isinstance(part, TextRows))
        fast += flattened(found)
    return slow, fast, in_rows


@pytest.mark.parametrize("form", sorted(FORMS))
def test_the_same_as_one_by_one(form: str):
    data = lines_of(form, 3000)
    column = "2" if form == "columns" else ""
    slow, fast, in_rows = both(data, list(range(3000, len(data), 5000)), column)
    assert fast == slow
    if form in ("volts", "millis", "micros", "columns"):
        assert in_rows > 1500


@settings(max_examples=60)
@given(st.integers(0, 10_000), st.sampled_from(["micros", "volts", "columns"]))
def test_the_same_under_damage_and_in_any_pieces(seed: int, form: str):
    chance = random.Random(seed)
    data = bytearray(lines_of(form, 600, seed))
    for _ in range(chance.randint(0, 8)):
        place = chance.randrange(len(data))
        kind = chance.randrange(4)
        if kind == 0:
            del data[place]
        elif kind == 1:
            data[place] ^= 1 << chance.randrange(8)
        elif kind == 2:
            data[place:place] = chance.randbytes(3)
        else:
            data[place:place] = b"\n12,1.5\nhello\r\n"
    cuts = sorted(chance.randrange(len(data)) for _ in range(chance.randint(0, 8)))
    slow, fast, _ = both(bytes(data), cuts, "2" if form == "columns" else "")
    assert fast == slow


@pytest.mark.parametrize(
    ("raw", "value", "time"),
    [
        (b"1.5,1.5", 1.5, None),  # which of them is it?
        (b"12,12,1.5", 1.5, BoardTime(12, "")),
        (b"1.5V", 1.5, None),
        (b"1;1,5", 1.5, BoardTime(1, "")),
        (b"512", 512.0, None),
        (b"1500.0", 1.5, None),  # a column in mV
        (b"1.5e0", 1.5, None),
    ],
)
def test_what_leaves_a_doubt_has_no_shape(raw, value, time):
    assert shape_of_line(raw, value, time) is None
