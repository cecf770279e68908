"""Is a good lesson called settled in time, and a bad one never? python -m tests.campaigns.settling [--runs N]

Lessons of the simulator are followed live as the program does it, at 2.5 readings a second, with bubble noise
of several sizes (correlation time 9.5 s): before 4 min, start-up of 80 mV in 30 s. Right before the salt, and
again at the end, the verdict is noted, and what the findings say afterwards. Beside it the lessons in which
the salt comes 30 s after the buffer, which the findings must tell apart every time; and voltages that go on
falling at 1, 1.2 or 2 times the limit, which should not be called settled.
"""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from drivers.samples import Samples
from drivers.simulated.cell import LessonCell
from drivers.simulated.disturbance import NOISES
from drivers.simulated.lesson import LESSONS
from logger.analysis.findings import findings
from logger.assessment import Assessment
from logger.bench import parse_bench
from logger.bench_tables import Settling
from logger.moments import new_moment
from logger.settling_watch import SettlingWatch
from tests.campaigns.coverage import first_order
from tests.campaigns.table import print_table
from tests.logger.simulated_run import BENCH, channel, readings, recording

RATE_PER_S = 2.5
BUBBLES_V = (0.0005, 0.001, 0.002)
CORRELATION_S = 9.5
NEEDED = 0.90
LENGTHS_S = (240.0, 900.0)


def lesson_cell(seed: int, bubbles_V: float, *faults: str) -> LessonCell:
    """A lesson with bubble noise of this size and the other noises as usual."""
    name = f"campaign {bubbles_V}"
    NOISES[name] = replace(NOISES["lesson"], bubbles_V=bubbles_V)
    return LessonCell(LESSONS["demo"], seed, name, faults)


def live_verdicts(cell: LessonCell) -> tuple[str, str]:
    """Follow a lesson; return the verdicts right before the salt and at the end."""
    times, volts = readings(cell, rate=RATE_PER_S)
    assessment = Assessment(parse_bench(BENCH))
    moments = [new_moment(one.time_s, one.kind, one.label) for one in cell.moments]
    salt_s = cell.truth["salt_added_s"]
    before = ""
    for begin_s in np.arange(0.0, times[-1], 5.0):
        part = (times >= begin_s) & (times < begin_s + 5.0)
        if begin_s + 5.0 > salt_s and not before:
            part &= times < salt_s
            assessment.add(_samples(times[part], volts[part]))
            before = assessment.view(salt_s).verdict
            part = (times >= salt_s) & (times < begin_s + 5.0)
        assessment.set_moments([one for one in moments if one.time_s <= begin_s + 5.0])
        assessment.add(_samples(times[part], volts[part]))
    return before, assessment.view(float(times[-1])).verdict


def _samples(times: np.ndarray, volts: np.ndarray) -> Samples:
    return Samples("cell_voltage", times, volts, np.zeros(times.size, dtype=np.uint8))


def found_codes(cell: LessonCell) -> tuple[set[str], bool, bool]:
    """Return the codes of the findings' warnings, and whether before and after had settled."""
    times, volts = readings(cell, rate=RATE_PER_S)
    tags = [(one.time_s, one.kind, one.label) for one in cell.moments]
    found = findings(recording(channel(times, volts), moments=tags))
    settled = [bool(one and one["is_settled"]) for one in found["settled"].values()]
    return {one["code"] for one in found["warnings"]}, *settled


def settled_shares(bubbles_V: float, runs: int) -> tuple[float, float, float, float]:
    """Live before, live after, found before, found after: the shares of good lessons called settled."""
    rows = []
    for seed in range(runs):
        cell = lesson_cell(seed, bubbles_V)
        before, after = live_verdicts(cell)
        _, found_before, found_after = found_codes(cell)
        rows.append((before == "settled", after == "settled", found_before, found_after))
    return tuple(np.mean(rows, axis=0).tolist())


def told_apart(bubbles_V: float, runs: int) -> tuple[float, float]:
    """Shares of lessons with early salt that say so, and of good ones that say so wrongly."""
    early = [found_codes(lesson_cell(seed, bubbles_V, "salt_early"))[0] for seed in range(runs)]
    good = [found_codes(lesson_cell(seed, bubbles_V))[0] for seed in range(runs)]
    return tuple(float(np.mean(["salt_too_early" in one for one in codes])) for codes in (early, good))


def false_alarms(times_limit: float, bubbles_V: float, length_s: float, runs: int) -> float:
    """Share of runs that fall steadily at so many times the limit and are ever called settled."""
    settling = Settling()
    random = np.random.default_rng([round(10 * times_limit), round(1e4 * bubbles_V), round(length_s)])
    times = np.arange(0.1, length_s, 1.0 / RATE_PER_S)
    phi = float(np.exp(-1.0 / (CORRELATION_S * RATE_PER_S)))
    called = 0
    for _ in range(runs):
        volts = 2.25 - times_limit * settling.limit_mV_per_min / 60e3 * times
        volts += bubbles_V * first_order(random, times.size, phi) + 0.0003 * random.normal(size=times.size)
        watch = SettlingWatch(settling)
        for now_s in np.arange(watch.look_every_s, length_s, watch.look_every_s):
            part = slice(*np.searchsorted(times, (now_s - watch.longest_s, now_s)).tolist())
            watch.look(times[part], volts[part], 0.0, float(now_s))
            if watch.verdict.word == "settled":
                called += 1
                break
    return called / runs


def main(argv: Sequence[str] | None = None) -> int:
    """Print the tables; the exit status tells whether what is needed is reached."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--runs", type=int, default=200)
    parser.add_argument("--quick", action="store_true", help="10 runs")
    arguments = parser.parse_args(argv)
    runs = 10 if arguments.quick else arguments.runs
    shares = {noise_V: settled_shares(noise_V, runs) for noise_V in BUBBLES_V}
    print(f"Good lessons called settled, {runs} each\n")
    print_table(
        ("bubbles mV", "live, before", "live, after", "found, before", "found, after"),
        [(f"{1000 * noise:g}", *(f"{x:.3f}" for x in found)) for noise, found in shares.items()],
    )
    early = {noise_V: told_apart(noise_V, runs) for noise_V in BUBBLES_V}
    print("\nSalt 30 s after the buffer: lessons that say so, and good lessons that say so wrongly\n")
    print_table(
        ("bubbles mV", "early", "good"),
        [(f"{1000 * noise:g}", *(f"{x:.3f}" for x in found)) for noise, found in early.items()],
    )
    print("\nSteady falls ever called settled while watched\n")
    print_table(
        ("fall / limit", "bubbles mV", "240 s", "900 s"),
        [
            (f"{k:g}", f"{1000 * noise:g}", *(f"{false_alarms(k, noise, s, runs):.3f}" for s in LENGTHS_S))
            for k in (1.0, 1.2, 2.0)
            for noise in BUBBLES_V
        ],
    )
    is_enough = all(min(one) >= NEEDED for one in shares.values())
    return 0 if is_enough and all(one[0] == 1.0 for one in early.values()) else 1


if __name__ == "__main__":
    raise SystemExit(main())
