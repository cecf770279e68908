"""How many samples a second the emulated packet board sends: python -m tests.benchmarks.emulating

The real command in a process of its own, over TCP and over a pseudo-terminal. What arrives is counted by the
decoder; lost packets show in the board's numbers. Stated beside: the processor time of the emulator.
"""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
import time
from itertools import pairwise

from drivers.formats.packet_stream import PacketDecoder
from drivers.link import Link
from drivers.run_clock import HostClock

RATE_PER_S = 100_000
COMMAND = "import sys; from logger.commands import main; sys.exit(main())"


def cpu_s(pid: int) -> float:
    """Return the processor time that a process has used, in seconds (proc(5), fields 14 and 15)."""
    with open(f"/proc/{pid}/stat", encoding="ascii") as file:
        fields = file.read().rsplit(")", 1)[1].split()
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


def measure(where: list[str], seconds: float) -> tuple[float, int, int, float]:
    """Return samples a second, packets lost, packets damaged and the share of a core."""
    emulate = ["emulate", "packet", "--rate", str(RATE_PER_S), *where]
    board = subprocess.Popen([sys.executable, "-c", COMMAND, *emulate], stdout=subprocess.PIPE, text=True)
    link = None
    try:
        assert board.stdout is not None
        link = Link(board.stdout.readline().split()[1].partition(":")[2], 115200)
        link.open(HostClock())
        return _count(link, board.pid, seconds)
    finally:
        if link is not None:
            link.close()
        board.terminate()
        board.wait()


def _count(link: Link, pid: int, seconds: float) -> tuple[float, int, int, float]:
    decoder = PacketDecoder()
    while not decoder.feed(link.read(0.2)[0]).runs:
        pass
    begin_s, begin_cpu_s = time.monotonic(), cpu_s(pid)
    samples, damaged, numbers = 0, 0, list[int]()
    while time.monotonic() - begin_s < seconds:
        batch = decoder.feed(link.read(0.2)[0])
        damaged += batch.damaged
        for run in batch.runs:
            samples += run.codes.size
            numbers += run.sequence.tolist()
    took_s = time.monotonic() - begin_s
    lost = sum((after - before - 1) % 65536 for before, after in pairwise(numbers))
    return samples / took_s, lost, damaged, (cpu_s(pid) - begin_cpu_s) / took_s


def main() -> int:
    """Measure; return 1 when less than 99 % came, or something was lost."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--seconds", type=float, default=20.0)
    chosen = parser.parse_args()
    is_good = True
    for name, where in (("TCP", ["--port", "0"]), ("pseudo-terminal", [])):
        rate, lost, damaged, share = measure(where, chosen.seconds)
        is_good &= rate > 0.99 * RATE_PER_S and not lost and not damaged
        print(
            f"{name}: {rate:.0f} samples a second, {lost} packets lost, {damaged} damaged, "
            f"{100 * share:.0f} % of a core; load {os.getloadavg()[0]:.1f}"
        )
    return 0 if is_good else 1


if __name__ == "__main__":
    sys.exit(main())
