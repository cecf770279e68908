"""Is the state of the cell recognised, whatever happens? python -m tests.campaigns.states [--runs N]

Random lessons of the simulator with random lengths, rates, noise and faults; on top of them, at random times
and in any order, what else happens on a bench: a clip that slips (6 to 20 V), touching electrodes, a supply
that fails, a lead lifted, a resistor changed with the circuit open, an overload, a gap. The truth is known
second by second from the noise-free twin and from what was done.

Counted are seconds outside 5 s of a change: how many are named rightly (afterwards, and live), which states
are taken for which; and the swaps: an open circuit between two stretches of electrolysis that no moment
explains otherwise. Every lesson has one; any other is spurious.
"""

from __future__ import annotations

import argparse
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from drivers.simulated.cell import LessonCell
from drivers.simulated.lesson import Plan
from logger.analysis.phases import divide_phases
from logger.analysis.seen_swaps import unexplained_swaps
from logger.analysis.state_follower import StateFollower
from logger.analysis.states import StateInterval, recognise_states, state_thresholds
from logger.moments import Moment, new_moment
from tests.campaigns.table import print_table

REVERSIBLE_V, OPEN_V = 1.231181, 26.967623
LIMITS = state_thresholds(REVERSIBLE_V, OPEN_V)
NEAR_S = 5.0
NEEDED_SHARE = 0.99
FAULTS = (
    "reversed_leads", "rounded_1mV", "rounded_10mV", "dropouts", "touching", "half_dipped", "supply_off",
    "salt_early", "silence", "unplug",
)  # fmt: skip
SHAPES_THE_CELL = ("touching", "supply_off", "half_dipped", "salt_early")
INCIDENTS = ("clip", "touching", "supply off", "lead lifted", "resistor changed", "overload", "gap")


@dataclass
class Run:
    """What the meter gave, what was true at each reading, and what a person tagged."""

    times_s: NDArray[np.float64]
    values_V: NDArray[np.float64]
    truth: NDArray[np.object_]
    moments: list[Moment]
    incidents: list[str] = field(default_factory=list)


def random_run(seed: int) -> Run:
    """One lesson with faults and incidents."""
    random = np.random.default_rng(seed)
    plan = Plan(
        dry_s=random.uniform(0, 60) * (random.random() < 0.8),
        before_s=random.uniform(120, 400),
        growth_s=random.uniform(300, 1200),
        out_s=random.uniform(8, 300),
        after_s=random.uniform(120, 600),
        has_salt=bool(random.random() < 0.9),
    )
    faults = [one for one in FAULTS if random.random() < 0.2]
    cell = LessonCell(plan, seed, str(random.choice(["quiet", "lesson", "rough"])), faults)
    rate = random.uniform(1.0, 10.0)
    times = np.arange(0.1, cell.duration_s, 1.0 / rate)
    times = times + random.uniform(-0.2, 0.2, times.size) / rate
    times = np.maximum(times, 0.0)
    twin = LessonCell(plan, seed, "quiet", [one for one in faults if one in SHAPES_THE_CELL])
    run = Run(times, cell.block(times), named(twin.block(times)), [])
    run.moments = [new_moment(one.time_s, one.kind) for one in cell.moments]
    for outage in cell.outages:
        take_out(run, outage.begin_s, outage.end_s)
    bounds = [
        cell.truth[name] for name in ("buffer_in_s", "electrodes_out_s", "electrodes_in_s", "duration_s")
    ]
    quiet = quiet_times(bounds, cell, random)
    for at_s in quiet:
        happen(run, at_s, random)
    lost = np.isnan(run.values_V)
    keep(run, ~lost)
    return run


def named(volts: NDArray[np.float64]) -> NDArray[np.object_]:
    """Name the state of a cell from its voltage without noise."""
    names = np.full(volts.size, "electrolysing", dtype=object)
    names[volts > 20.0] = "open"
    names[volts < REVERSIBLE_V + 0.05] = "below_reversible"
    names[volts < 0.05] = "touching"
    return names


def quiet_times(bounds: list[float], cell: LessonCell, random: np.random.Generator) -> list[float]:
    """Return some times during electrolysis, 60 s from each other, from all events and from the ends."""
    busy = [*bounds, *(one.time_s for one in cell.moments), *(one.begin_s for one in cell.outages)]
    first_s, last_s = cell.truth["salt_added_s"] if "salt_added_s" in cell.truth else bounds[0], bounds[1]
    length_s = last_s - first_s
    busy += [first_s + part * length_s for part in (0.2, 0.4, 0.6, 0.8)]  # where the simulator has its faults
    found: list[float] = []
    for at_s in random.uniform(bounds[0], bounds[3], 40):
        is_out = bounds[1] - 60.0 < at_s < bounds[2] + 60.0
        if not is_out and all(abs(at_s - other) > 65.0 for other in (*busy, *found)):
            found.append(float(at_s))
        if len(found) == 3:
            break
    return found


def happen(run: Run, at_s: float, random: np.random.Generator) -> None:
    """Let one incident happen."""
    what = str(random.choice(INCIDENTS))
    run.incidents.append(what)
    sign = -1.0 if np.nanmedian(run.values_V) < 0.0 else 1.0
    lasts_s = random.uniform(12.0, 40.0)
    if what == "gap":
        take_out(run, at_s, at_s + lasts_s)
        return
    inside = (run.times_s >= at_s) & (run.times_s < at_s + lasts_s)
    noise_V = 0.002 * random.normal(size=int(inside.sum()))
    volts, name = {
        "clip": (random.uniform(6.0, 20.0) + 100.0 * noise_V, "poor_contact"),
        "touching": (0.005 + noise_V, "touching"),
        "supply off": (0.9 + noise_V, "below_reversible"),
        "lead lifted": (OPEN_V + noise_V, "open"),
        "resistor changed": (OPEN_V + noise_V, "open"),
        "overload": (np.inf + noise_V, "no_reading"),
    }[what]
    run.values_V[inside] = sign * volts
    run.truth[inside] = name
    if what in ("lead lifted", "resistor changed"):
        kind = what.replace(" ", "_")
        run.moments.append(new_moment(at_s + random.uniform(-8.0, 8.0), kind, "10k"))


def take_out(run: Run, begin_s: float, end_s: float) -> None:
    """Remove the readings of a stretch."""
    keep(run, (run.times_s < begin_s) | (run.times_s >= end_s))


def keep(run: Run, which: NDArray[np.bool_]) -> None:
    """Keep only some readings."""
    run.times_s, run.values_V, run.truth = run.times_s[which], run.values_V[which], run.truth[which]


def seen_at(intervals: Sequence[StateInterval], times_s: NDArray[np.float64]) -> NDArray[np.object_]:
    """Return the recognised state at each time."""
    begins = [one.begin_s for one in intervals]
    names = np.array([one.state for one in intervals], dtype=object)
    return names[np.maximum(np.searchsorted(begins, times_s, "right") - 1, 0)]


def followed(run: Run) -> tuple[StateInterval, ...]:
    """Return the states as the live assessment follows them, in blocks of five seconds."""
    follower = StateFollower(LIMITS)
    for begin_s in np.arange(0.0, run.times_s[-1] + 5.0, 5.0):
        part = slice(*np.searchsorted(run.times_s, (begin_s, begin_s + 5.0)).tolist())
        follower.add(run.times_s[part], np.abs(run.values_V[part]))
    return follower.intervals


@dataclass
class Counts:
    """Seconds by true and by seen state, and swaps."""

    seconds: Counter[tuple[str, str]] = field(default_factory=Counter)
    live_seconds: Counter[tuple[str, str]] = field(default_factory=Counter)
    spurious: int = 0
    missed: int = 0
    incidents: Counter[str] = field(default_factory=Counter)

    def share(self, seconds: Counter[tuple[str, str]]) -> float:
        """Share of the seconds that were named rightly."""
        return sum(n for (true, seen), n in seconds.items() if true == seen) / sum(seconds.values())


def count(run: Run, counts: Counts) -> None:
    """Add one run."""
    found = recognise_states(run.times_s, run.values_V, LIMITS)
    changes_s = run.times_s[np.flatnonzero(run.truth[1:] != run.truth[:-1]) + 1]
    away = np.ones(run.times_s.size, dtype=np.bool_)
    for at_s in changes_s:
        away &= np.abs(run.times_s - at_s) > NEAR_S
    each_s = np.minimum(np.diff(run.times_s, append=run.times_s[-1]), 1.0)
    for seconds, intervals in ((counts.seconds, found), (counts.live_seconds, followed(run))):
        seen = seen_at(intervals, run.times_s)
        for true, got, lasts_s in zip(run.truth[away], seen[away], each_s[away], strict=True):
            seconds[str(true), str(got)] += float(lasts_s)
    swaps = unexplained_swaps(found, run.moments)
    counts.spurious += max(0, len(swaps) - 1)
    counts.missed += len(swaps) == 0
    counts.incidents.update(run.incidents)
    codes = {one.code for one in divide_phases(found, run.moments).cautions}
    counts.incidents["several swaps said"] += "several_swaps" in codes


def main(argv: Sequence[str] | None = None) -> int:
    """Print the tables; the exit status tells whether what is needed is reached."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else None)
    parser.add_argument("--runs", type=int, default=200)
    parser.add_argument("--quick", action="store_true", help="20 runs")
    arguments = parser.parse_args(argv)
    runs = 20 if arguments.quick else arguments.runs
    counts = Counts()
    for seed in range(runs):
        count(random_run(seed), counts)
    happened = ", ".join(f"{name} {number}" for name, number in sorted(counts.incidents.items()))
    print(f"{runs} runs; incidents: {happened}\n")
    names = sorted({name for pair in counts.seconds for name in pair})
    print_table(
        ("true / seen, s", *names),
        [(true, *(f"{counts.seconds[true, seen]:.0f}" for seen in names)) for true in names],
    )
    shares = counts.share(counts.seconds), counts.share(counts.live_seconds)
    print(f"\nnamed rightly: {100 * shares[0]:.3f} % afterwards, {100 * shares[1]:.3f} % live")
    print(f"spurious swaps {counts.spurious}, swaps missed {counts.missed}")
    return 0 if min(shares) >= NEEDED_SHARE and not counts.spurious else 1


if __name__ == "__main__":
    raise SystemExit(main())
