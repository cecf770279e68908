"""How fast lines are taken apart: python -m tests.benchmarks.lines [--lines N]

Beside each figure stands that of the plain way in the same run on the same bytes: split each line at the
comma, ``int`` and ``float``, with none of the checks (both give the same values; checked), and that of
our exact way, line by line. Times are processor time of one core, the best of three.
"""

from __future__ import annotations

import argparse

import numpy as np

from drivers.formats.text import RefusedLine, TextDecoder, TextRows
from drivers.formats.text_columns import ColumnRule
from drivers.simulated.emulated_board import FORMS
from tests.benchmarks.parsing import best_s

TARGET_PER_S = 500_000


def make_lines(lines: int) -> bytes:
    """`micros,volts` of a board that prints 10,000 lines a second."""
    volts = 2.2 + 0.01 * np.random.default_rng(1).standard_normal(lines)
    return b"".join(FORMS["micros"](100 * k, volt).encode() + b"\r\n" for k, volt in enumerate(volts))


def plain_loop(stream: bytes) -> list[float]:
    """Split, int, float."""
    values = []
    for line in stream.split(b"\n"):
        if line:
            time, _, volts = line.strip().partition(b",")
            int(time)
            values.append(float(volts))
    return values


def at_once(stream: bytes, piece: int) -> list[float]:
    """Feed the stream to the decoder in pieces, as they come from a port."""
    decoder = TextDecoder(ColumnRule(""))
    values: list[float] = []
    for begin in range(0, len(stream), piece):
        for part in decoder.feed_blocks(stream[begin : begin + piece]):
            if isinstance(part, TextRows):
                values += part.values.tolist()
            elif not isinstance(part, RefusedLine):
                values.append(part.value)
    return values


def one_by_one(stream: bytes) -> int:
    """Our exact way."""
    return len(TextDecoder(ColumnRule("")).feed(stream))


def compare(lines: int) -> bool:
    """Print lines a second of all ways; return whether the target is met with pieces of 16 KiB."""
    stream = make_lines(lines)
    expected = plain_loop(stream)
    print(f"{lines} lines of micros,volts, lines per second of processor time:")
    plain_per_s = lines / best_s(lambda: plain_loop(stream))
    print(f"  plain loop             {plain_per_s / 1e3:8.0f} k/s")
    few = stream[: len(stream) // 20]
    print(f"  exactly, one by one    {few.count(10) / best_s(lambda: one_by_one(few)) / 1e3:8.0f} k/s")
    is_met = True
    for piece in (4096, 16384, 65536):
        values = at_once(stream, piece)
        # the first line may have lost its beginning, the next two show what form they have
        assert values == expected[-len(values) :]
        assert len(values) >= lines - 3
        per_s = lines / best_s(lambda size=piece: at_once(stream, size))
        print(f"  in pieces of {piece:5d} B   {per_s / 1e3:8.0f} k/s, {per_s / plain_per_s:5.2f} times")
        is_met &= piece < 16384 or per_s >= TARGET_PER_S
    print(f"  target of {TARGET_PER_S / 1e3:g} k/s {'met' if is_met else 'MISSED'}")
    return is_met


def main() -> int:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--lines", type=int, default=200_000)
    return 0 if compare(parser.parse_args().lines) else 1


if __name__ == "__main__":
    raise SystemExit(main())
