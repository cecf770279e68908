"""Damages frames and counts the wrong values that are accepted: python -m tests.campaigns.fuzz_frames

    --frames N   frames in all (default 1,000,000), shared evenly by formats and kinds of damage
    --quick      20,000 frames
    --seed S

The formats of handheld meters carry no checksum, so some damage makes another good frame. For each format and
kind of damage this sends a wandering voltage, damages one frame in ten, and compares every accepted value
with the frame that was sent in that place. ``wrong`` are accepted values that were not sent; ``unmarked``
those of them that bear neither a parity nor a suspect mark once the row of frames was judged
(`drivers.frame_judge`); ``far`` those that are unmarked and off by more than 20 counts. All are shares of the
damaged frames. Packets, numbered and checked, are fuzzed the same way; so are the lines of boards, of which a
damaged one may cost its neighbour (a lost line end), and which are marked by their shape alone.

Exit status 1 when a good frame away from any damage was lost, or when more than 3 packets were accepted that
were not sent: a check of 16 bits lets one in 65536 of the worst kinds of damage pass.
"""

from __future__ import annotations

import argparse
import math
import random
import sys
import time
from bisect import bisect_right
from collections.abc import Callable
from dataclasses import dataclass

from drivers.formats.frame import FrameDecoder, FrameReading
from drivers.formats.handheld import HANDHELD_FORMATS
from drivers.formats.packet import encode_data
from drivers.formats.packet_stream import PacketDecoder
from drivers.formats.text import RefusedLine, TextDecoder
from drivers.formats.text_columns import ColumnRule
from drivers.frame_judge import LoneOutliers, TimedReading
from drivers.samples import Quality
from drivers.simulated.emulated_board import FORMS
from drivers.simulated.frame_encoder import ENCODED_KINDS, encode_frame

DAMAGED_SHARE = 0.1
FAR_COUNTS = 20.5
MOST_FORGED = 3
LINE_FORMS = ("volts", "micros", "checked")
LINE_STEP_V = 1e-4
BLOCK = 2000  # frames that are made, damaged and read at a time
Damage = Callable[[bytes, random.Random], bytes]


def flip_one_bit(frame: bytes, chance: random.Random) -> bytes:
    place = chance.randrange(len(frame))
    return frame[:place] + bytes([frame[place] ^ 1 << chance.randrange(8)]) + frame[place + 1 :]


def drop_one_byte(frame: bytes, chance: random.Random) -> bytes:
    place = chance.randrange(len(frame))
    return frame[:place] + frame[place + 1 :]


def insert_bytes(frame: bytes, chance: random.Random) -> bytes:
    place = chance.randrange(len(frame))
    return frame[:place] + chance.randbytes(chance.randint(1, 4)) + frame[place:]


def burst(frame: bytes, chance: random.Random) -> bytes:
    place, size = chance.randrange(len(frame)), chance.randint(2, 4)
    return frame[:place] + chance.randbytes(len(frame[place : place + size])) + frame[place + size :]


DAMAGES: dict[str, Damage] = {
    "one bit flipped": flip_one_bit,
    "one byte dropped": drop_one_byte,
    "bytes put in": insert_bytes,
    "2 to 4 bytes random": burst,
}


@dataclass
class Tally:
    """Counts of one format under one kind of damage."""

    frames: int = 0
    damaged: int = 0
    right: int = 0
    wrong: int = 0
    unmarked: int = 0
    far: int = 0
    lost_whole: int = 0


@dataclass
class Stream:
    """Frames on a line, some of them damaged; `ends[k]` is where frame k ends."""

    data: bytes
    ends: list[int]
    sent: list[bytes]
    is_damaged: list[bool]


def make_stream(frames: list[bytes], damage: Damage, chance: random.Random) -> Stream:
    """Damage each frame with a chance of one in ten."""
    parts, ends, is_damaged = [], [], []
    end = 0
    for frame in frames:
        hit = chance.random() < DAMAGED_SHARE
        part = damage(frame, chance) if hit else frame
        end += len(part)
        parts.append(part)
        ends.append(end)
        is_damaged.append(hit and part != frame)
    return Stream(b"".join(parts), ends, frames, is_damaged)


def wander(count: int, chance: random.Random) -> list[float]:
    """A cell voltage as in a lesson: slow, with noise, now and then a step."""
    voltage_V, values = 2.3, []
    for _ in range(count):
        voltage_V += chance.gauss(0.0, 0.001)
        if chance.random() < 0.002:
            voltage_V = chance.choice([0.02, 1.9, 2.3, 2.6, 9.1, 27.4, -2.3])
        values.append(voltage_V)
    return values


def fuzz_meter(kind: str, damage: Damage, frames: int, chance: random.Random) -> Tally:
    """Send `frames` frames of a meter and compare."""
    tally = Tally()
    for begin in range(0, frames, BLOCK):
        count = min(BLOCK, frames - begin)
        stream = make_stream([encode_frame(kind, v) for v in wander(count, chance)], damage, chance)
        tally.frames += count
        tally.damaged += sum(stream.is_damaged)
        judge_meter(kind, stream, tally)
    return tally


def judge_meter(kind: str, stream: Stream, tally: Tally) -> None:
    """Read a stream and compare each accepted value with what was sent in its place."""
    outliers = LoneOutliers()
    errors: list[float] = []  # of accepted values, in counts
    judged: list[TimedReading] = []
    seen = set()
    for reading in FrameDecoder(HANDHELD_FORMATS[kind][""]).feed(stream.data):
        last_byte = len(stream.data) - reading.bytes_after - 1
        place = bisect_right(stream.ends, last_byte)
        if reading.raw == stream.sent[place]:
            seen.add(place)
        if reading.value is None:
            judged += outliers.flush()
            continue
        (true,) = FrameDecoder(HANDHELD_FORMATS[kind][""]).feed(stream.sent[place])
        errors.append(counts_apart(reading, true))
        judged += outliers.feed(TimedReading(0.0, reading.value, reading.step_V, reading.quality))
    judged += outliers.flush()
    for error, one in zip(errors, judged, strict=True):
        is_marked = bool(one.quality & (Quality.PARITY | Quality.SUSPECT))
        tally.right += error == 0
        tally.wrong += error > 0
        tally.unmarked += error > 0 and not is_marked
        tally.far += error > FAR_COUNTS and not is_marked
    tally.lost_whole += sum(
        k not in seen and not any(stream.is_damaged[max(k - 1, 0) : k + 1]) for k in range(len(stream.sent))
    )


def counts_apart(reading: FrameReading, true: FrameReading) -> float:
    """Return how far a value is from the true one, in counts of the true display."""
    if reading.value == true.value or reading.value is None or true.value is None:
        return 0.0 if reading.value == true.value else math.inf
    return abs(reading.value - true.value) / true.step_V if true.step_V else math.inf


def make_packet(number: int, chance: random.Random) -> bytes:
    codes = [chance.randint(-9999, 9999) for _ in range(chance.randint(1, 32))]
    return encode_data(number, 32000 * number, codes, mask=1, range_code=2)


def fuzz_packets(damage: Damage, packets: int, chance: random.Random) -> Tally:
    """Send `packets` packets and look for any that was not sent."""
    tally = Tally()
    for begin in range(0, packets, BLOCK):
        count = min(BLOCK, packets - begin)
        frames = [make_packet(begin + k, chance) for k in range(count)]
        stream = make_stream(frames, damage, chance)
        tally.frames += count
        tally.damaged += sum(stream.is_damaged)
        sent = set(frames)
        for run in PacketDecoder().feed(stream.data).runs:
            for k in range(len(run)):
                again = encode_data(
                    int(run.sequence[k]), int(run.ticks[k]), run.codes[k].ravel(),
                    mask=run.mask, range_code=int(run.range_code[k]), flags=int(run.flags[k]),
                )  # fmt: skip
                tally.right += again in sent
                tally.wrong += again not in sent
            tally.unmarked = tally.far = tally.wrong
    return tally


def fuzz_lines(form: str, damage: Damage, lines: int, chance: random.Random) -> Tally:
    """Send `lines` lines of a board and compare each accepted value with the line that ended there."""
    tally = Tally()
    decoder = TextDecoder(ColumnRule(""))
    for begin in range(0, lines, BLOCK):
        volts = wander(min(BLOCK, lines - begin), chance)
        frames = [FORMS[form](100_000 * (begin + k), volt).encode() + b"\r\n" for k, volt in enumerate(volts)]
        stream = make_stream(frames, damage, chance)
        tally.frames += len(frames)
        tally.damaged += sum(stream.is_damaged)
        for reading in decoder.feed(stream.data):
            if isinstance(reading, RefusedLine):
                continue
            place = bisect_right(stream.ends, len(stream.data) - reading.bytes_after - 1)
            error_V = abs(reading.value - float(f"{volts[min(place, len(volts) - 1)]:.4f}"))
            is_marked = bool(reading.quality & Quality.SUSPECT)
            is_wrong = error_V > LINE_STEP_V / 2
            tally.right += not is_wrong
            tally.wrong += is_wrong
            tally.unmarked += is_wrong and not is_marked
            tally.far += error_V > FAR_COUNTS * LINE_STEP_V and not is_marked
    return tally


def campaign(frames: int, seed: int, say: Callable[[str], None] = print) -> dict[tuple[str, str], Tally]:
    """Fuzz every format with every kind of damage and print a line for each."""
    kinds = (*ENCODED_KINDS, "packet", *LINE_FORMS)
    share = math.ceil(frames / (len(DAMAGES) * len(kinds)))
    tallies: dict[tuple[str, str], Tally] = {}
    say(f"{'format':9}{'damage':21}{'frames':>9}{'damaged':>9}{'wrong':>16}{'unmarked':>16}{'far':>16}")
    for kind in kinds:
        for what, damage in DAMAGES.items():
            chance = random.Random(f"{seed} {kind} {what}")
            if kind == "packet":
                tally = fuzz_packets(damage, share, chance)
            elif kind in LINE_FORMS:
                tally = fuzz_lines(kind, damage, share, chance)
            else:
                tally = fuzz_meter(kind, damage, share, chance)
            tallies[kind, what] = tally
            shares = "".join(
                f"{count:8d}{100 * count / tally.damaged:6.2f} %"
                for count in (tally.wrong, tally.unmarked, tally.far)
            )
            say(f"{kind:9}{what:21}{tally.frames:9d}{tally.damaged:9d}{shares}")
    return tallies


def main(arguments: list[str]) -> int:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--frames", type=int, default=1_000_000)
    parser.add_argument("--quick", action="store_true")
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args(arguments)
    begin_s = time.monotonic()
    tallies = campaign(20_000 if options.quick else options.frames, options.seed)
    total = sum(tally.frames for tally in tallies.values())
    lost = sum(tally.lost_whole for tally in tallies.values())
    forged = sum(tally.wrong for (kind, _), tally in tallies.items() if kind == "packet")
    print(f"{total} frames in {time.monotonic() - begin_s:.0f} s, none raised")
    print(f"good frames away from damage that were lost: {lost}; packets accepted but never sent: {forged}")
    return 1 if lost or forged > MOST_FORGED else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
