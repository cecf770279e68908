"""How fast packets are taken apart: python -m tests.benchmarks.parsing [--packets N]

Beside each figure stands that of the plain way, packet by packet in Python, in the same run on the same bytes
(both give the same codes, which is checked). Times are processor time of one core, the best of three.
"""

from __future__ import annotations

import argparse
import binascii
import struct
import time
from collections.abc import Callable

import numpy as np

from drivers.address import parse_address
from drivers.formats.packet import BoardInfo, encode_data, encode_info
from drivers.formats.packet_stream import PacketDecoder
from drivers.packet import PacketSource
from drivers.simulated.emulated_packet_board import EmulatedPacketBoard
from drivers.testing import FakeClock, FakeWire, ScriptedDevice

TARGET_PER_S = 5_000_000
RATE_PER_S = 100_000
SHAPE = struct.Struct("<BHIBBBB32h")


def make_stream(packets: int, around: int) -> bytes:
    """Packets of 32 codes around a value, with an info packet a second as at 100,000 samples a second."""
    codes = np.random.default_rng(1).normal(around, 40, (packets, 32)).astype(np.int16)
    info = encode_info(BoardInfo(ticks_per_s=1_000_000, sample_ticks=10))
    parts = []
    for k in range(packets):
        if k % (RATE_PER_S // 32) == 0:
            parts.append(info)
        parts.append(encode_data(k, 320 * k, codes[k], mask=1, range_code=2))
    return b"".join(parts)


def plain_loop(stream: bytes) -> list[int]:
    """Unstuff, check and unpack one packet after the other."""
    codes: list[int] = []
    for block in stream.split(b"\0"):
        payload = bytearray()
        at, end = 0, len(block)
        while at < end:
            following = at + block[at]
            payload += block[at + 1 : following]
            if following < end:
                payload.append(0)
            at = following
        if len(payload) != SHAPE.size + 2:
            continue
        body = bytes(payload[:-2])
        if body[0] == 1 and binascii.crc_hqx(body, 0xFFFF) == payload[-2] | payload[-1] << 8:
            codes += SHAPE.unpack(body)[7:]
    return codes


def rows_at_once(stream: bytes, piece: int) -> list[np.ndarray]:
    """Feed the stream to the decoder in pieces, as they come from a port."""
    decoder = PacketDecoder()
    return [
        run.codes
        for begin in range(0, len(stream), piece)
        for run in decoder.feed(stream[begin : begin + piece]).runs
    ]


def best_s(work: Callable[[], object]) -> float:
    """Return the processor time of the quickest of three goes."""
    times_s = []
    for _ in range(3):
        begin_s = time.process_time()
        work()
        times_s.append(time.process_time() - begin_s)
    return min(times_s)


def compare(packets: int) -> bool:
    """Print samples a second of both ways; return whether the target is met with pieces of 16 KiB."""
    print(f"{packets} packets of 32 samples, samples per second of processor time:")
    is_met = True
    for around, what in ((9000, "codes around 9000"), (0, "codes around 0, half their bytes zero")):
        stream = make_stream(packets, around)
        expected = plain_loop(stream)
        samples = len(expected)
        assert samples == 32 * packets
        plain_per_s = samples / best_s(lambda data=stream: plain_loop(data))
        print(f"  {what}\n    plain loop             {plain_per_s / 1e6:8.2f} M/s")
        for piece in (4096, 16384, 65536):
            got = np.concatenate([codes.ravel() for codes in rows_at_once(stream, piece)])
            assert got.tolist() == expected
            per_s = samples / best_s(lambda data=stream, size=piece: rows_at_once(data, size))
            print(f"    in pieces of {piece:5d} B   {per_s / 1e6:8.2f} M/s, {per_s / plain_per_s:5.1f} times")
            is_met &= piece < 16384 or per_s >= TARGET_PER_S
    print(f"  target of {TARGET_PER_S / 1e6:g} M/s {'met' if is_met else 'MISSED'}")
    return is_met


def source_share(seconds: int = 10) -> None:
    """Print what the whole source (link, times, volts) takes at 100,000 samples a second."""
    board = EmulatedPacketBoard([lambda t: 2.2 + 0.01 * np.sin(t)], rate=float(RATE_PER_S), boot_s=0.0)
    board.attach(0.0)
    script = [(0.01 * k, board.take(0.01 * k)) for k in range(1, 100 * (seconds + 2))]
    clock = FakeClock()
    wire = FakeWire(ScriptedDevice(script), clock, chunk=1 << 16)
    source = PacketSource(parse_address("packet:/dev/ttyFAKE0?baud=12000000"), opener=wire.open_port)
    source.open(clock)
    samples = 0
    begin_s, begin_run_s = time.process_time(), clock.now_s()
    while clock.now_s() < begin_run_s + seconds:
        samples += sum(map(len, source.read(0.2).samples))
    spent_s = time.process_time() - begin_s
    print(
        f"source at {RATE_PER_S} samples a second: {samples} in {seconds} s, lost "
        f"{source.instrument.details['dropped_samples']:.0f}; {100 * spent_s / seconds:.1f} % of one core"
    )


def main() -> int:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--packets", type=int, default=20_000)
    is_met = compare(parser.parse_args().packets)
    source_share()
    return 0 if is_met else 1


if __name__ == "__main__":
    raise SystemExit(main())
