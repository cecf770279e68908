"""How often the 95 % intervals hold the truth: three estimators on many noises, and whole lessons.

Run from the checkout: ``python tests/campaigns/coverage.py [--runs N] [--quick]``. Prints Markdown tables.

The first table compares, on windows of readings of a steady voltage, the interval of s/sqrt(n) ("naive"),
that of a first-order process by the lag-1 correlation ("lag-1"), and that of `logger.analysis.plateau`
("ours"). The second does the same for the 90 % interval of the drift. The third runs the findings on
simulated lessons and compares with the simulator's truth. The fourth lets the live rule watch long runs.
"""

from __future__ import annotations

import argparse
import math
import sys
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from logger.analysis.autocorrelation import ar1_coefficient, ar1_inflation, autocorrelation
from logger.analysis.comparison import with_digits
from logger.analysis.drift import drift
from logger.analysis.plateau import plateau
from logger.analysis.run_analysis import RunAnalysis, analyse_run
from logger.analysis.settled import SettledWindow
from logger.analysis.uncertainty import coverage_factor
from logger.bench_tables import Settling
from logger.recording import Recording
from logger.settling_watch import SettlingWatch

ROOT = Path(__file__).resolve().parents[2]

Floats = NDArray[np.float64]
Maker = Callable[[np.random.Generator, int], Floats]

LEVEL_V = 2.2503
"""Not a multiple of a millivolt, so that rounding shows."""


def first_order(random: np.random.Generator, count: int, phi: float) -> Floats:
    """A first-order process of variance 1."""
    from scipy.signal import lfilter

    steps = math.sqrt(1.0 - phi * phi) * random.normal(size=count)
    steps[0] = random.normal()
    return np.asarray(lfilter([1.0], [1.0, -phi], steps))


def flicker(random: np.random.Generator, count: int) -> Floats:
    """1/f noise of rms 1 in each decade of frequency, made in the frequency domain, mean taken off."""
    frequencies = np.fft.rfftfreq(count)
    density = 1.0 / (math.log(10.0) * np.maximum(frequencies, frequencies[1]))
    density[0] = 0.0
    amplitudes = np.sqrt(density * count / 2.0)
    phases = random.normal(size=frequencies.size) + 1j * random.normal(size=frequencies.size)
    return np.fft.irfft(amplitudes * phases / math.sqrt(2.0), count)


def bubbles(random: np.random.Generator, count: int) -> Floats:
    """One-sided bubbles: the voltage rises for 5 to 30 s and falls back; the expected mean is taken off."""
    values = np.empty(count)
    at = 0
    while at < count:
        life = int(random.uniform(5, 30))
        height = random.uniform(0, 1)
        part = height * np.arange(life) / life
        values[at : at + life] = part[: count - at]
        at += life
    return values - 0.25


NOISES: dict[str, tuple[Maker, float]] = {
    "white": (lambda r, n: 0.002 * r.normal(size=n), 0.0),
    "AR(1) 0.5": (lambda r, n: 0.002 * first_order(r, n, 0.5), 0.0),
    "AR(1) 0.9": (lambda r, n: 0.002 * first_order(r, n, 0.9), 0.0),
    "AR(1) 0.95": (lambda r, n: 0.002 * first_order(r, n, 0.95), 0.0),
    "white + AR(1) 0.9": (lambda r, n: 0.0014 * (r.normal(size=n) + first_order(r, n, 0.9)), 0.0),
    "white + AR(1) 0.95": (lambda r, n: 0.0014 * (r.normal(size=n) + first_order(r, n, 0.95)), 0.0),
    "bubble sawtooth": (lambda r, n: 0.004 * bubbles(r, n) + 0.0003 * r.normal(size=n), 0.0),
    "AR(1) 0.9, 1 mV digits": (lambda r, n: 0.002 * first_order(r, n, 0.9), 0.001),
    "AR(1) 0.9, 10 mV digits": (lambda r, n: 0.006 * first_order(r, n, 0.9), 0.010),
    "stirring alias": (
        lambda r, n: (
            0.002 * first_order(r, n, 0.9)
            + 0.001 * np.sin(2 * math.pi * (4.83 * np.arange(n) + r.uniform()))
            + 0.0003 * r.normal(size=n)
        ),
        0.001,
    ),
    "AR(1) 0.9 + 1/f": (
        lambda r, n: 0.002 * first_order(r, n, 0.9) + 0.0005 * flicker(r, n) + 0.0003 * r.normal(size=n),
        0.0,
    ),
}
"""Noise in volts, one reading a second, and the digit of the display (0: none)."""


@dataclass(frozen=True)
class Row:
    """Shares of runs in which each interval held the truth."""

    noise: str
    count: int
    naive: float
    lag1: float
    ours: float


def mean_row(name: str, count: int, runs: int, seed: int) -> Row:
    """Coverage of the 95 % intervals of the mean."""
    random = np.random.default_rng([seed, count, *name.encode()])
    maker, digit = NOISES[name]
    hits = np.zeros(3)
    for _ in range(runs):
        values = LEVEL_V + maker(random, count)
        if digit:
            values = digit * np.round(values / digit)
        hits += [
            abs(values.mean() - LEVEL_V) <= half
            for half in (naive_half(values), lag1_half(values), plateau(values).expanded_uncertainty95)
        ]
    return Row(name, count, *(hits / runs))


def naive_half(values: Floats) -> float:
    """Half-width by s/sqrt(n)."""
    return coverage_factor(0.95, values.size - 1) * float(values.std(ddof=1)) / math.sqrt(values.size)


def lag1_half(values: Floats) -> float:
    """Half-width by the lag-1 correlation alone."""
    u, freedom = lag1_uncertainty(values)
    return coverage_factor(0.95, freedom) * u


def lag1_uncertainty(values: Floats) -> tuple[float, float]:
    """Standard uncertainty of a mean by the lag-1 correlation alone, and its degrees of freedom."""
    n = values.size
    inflation = ar1_inflation(ar1_coefficient(float(autocorrelation(values)[1]), n), n)
    effective = float(np.clip(n / inflation, 1.5, n))
    u = float(values.std(ddof=1)) * math.sqrt((n - 1) / (n * (effective - 1)))
    return u, max(1.0, effective - 1)


def drift_row(name: str, count: int, runs: int, seed: int) -> Row:
    """Coverage of the 90 % intervals of the slope: ordinary least squares, and ours (no lag-1 column)."""
    random = np.random.default_rng([seed, count, *name.encode(), 1])
    maker, digit = NOISES[name]
    times = np.arange(float(count))
    centred = times - times.mean()
    hits = np.zeros(2)
    for _ in range(runs):
        values = LEVEL_V + maker(random, count)
        if digit:
            values = digit * np.round(values / digit)
        found = drift(times, values)
        residuals = values - values.mean() - found.slope * centred
        plain = math.sqrt(residuals @ residuals / (count - 2) / (centred @ centred))
        low, high = found.interval(0.90)
        hits += [abs(found.slope) <= coverage_factor(0.90, count - 2) * plain, low <= 0.0 <= high]
    return Row(name, count, hits[0] / runs, math.nan, hits[1] / runs)


@dataclass(frozen=True)
class LessonRow:
    """What the findings made of many lessons: shares of held truths, of settled ones, and median widths."""

    label: str
    before: float
    after: float
    saved: float
    at_equal_current: float
    settled_before: float
    settled_after: float
    width_before_mV: float
    width_after_mV: float
    width_saved_mV: float


def lesson_row(
    label: str,
    runs: int,
    *,
    faults: Sequence[str] = (),
    noise: str = "lesson",
    rate: float = 2.5,
    is_perfect: bool = True,
) -> LessonRow:
    """Analyse `runs` simulated lessons.

    The intervals of the single voltages are those of their readings and digits. Unless `is_perfect`, the
    meter has a gain and an offset, and the second filling a temperature, drawn from what the budget allows.
    """
    from tests.logger.simulated_run import lesson  # here, so that this file also runs as a script

    rows = []
    for seed in range(runs):
        run, cell = lesson(seed, faults=faults, noise=noise, rate=rate)
        truth = cell.truth
        if not is_perfect:
            run = imperfect(run, np.random.default_rng(seed), truth["electrodes_in_s"])
        found = analyse_run(run)
        before, after = found.plateaus["before"].window, found.plateaus["after"].window
        halves = [own_half_V(found, one) for one in (before, after)]
        raw, equal = found.saved.raw, found.saved.at_equal_current
        rows.append(
            (
                abs(before.voltage_V - truth["voltage_before_V"]) <= halves[0],
                abs(after.voltage_V - truth["voltage_after_V"]) <= halves[1],
                abs(raw.value_V - truth["saved_V"]) <= raw.expanded_uncertainty_V,
                abs(equal.value_V - truth["saved_at_equal_current_V"]) <= equal.expanded_uncertainty_V,
                before.is_settled,
                after.is_settled,
                1000 * halves[0],
                1000 * halves[1],
                1000 * raw.expanded_uncertainty_V,
            )
        )
    table = np.array(rows, dtype=np.float64)
    if not is_perfect:
        table[:, :2] = (
            math.nan
        )  # the single voltages are then off by the meter, which their columns leave out
    return LessonRow(label, *table[:, :6].mean(axis=0), *np.median(table[:, 6:], axis=0))


def own_half_V(found: RunAnalysis, window: SettledWindow) -> float:
    """Half-width of the 95 % interval of a settled voltage from its readings and its digit."""
    return with_digits(window, found.meter).expanded_uncertainty


def imperfect(run: Recording, random: np.random.Generator, second_s: float) -> Recording:
    """Give the meter gain and offset within 0.5 % and 2 counts, the second filling 0.3 K at -2 mV/K."""
    source = run.channels[0]
    volts = source.values.copy()
    volts[source.times_s >= second_s] -= 0.002 * 0.3 * random.normal()
    volts = volts * (1.0 + random.uniform(-0.005, 0.005)) + random.uniform(-0.002, 0.002)
    return replace(run, channels=(replace(source, values=np.round(volts, 3)),))


def lesson_rows(runs: int) -> list[LessonRow]:
    """The lessons of the third table."""
    return [
        lesson_row("lesson noise, 2.5/s", runs),
        lesson_row("lesson noise, 2/s, 1 mV digits", runs, faults=("rounded_1mV",), rate=2.0),
        lesson_row(
            "3/s, 1 mV digits, reversed leads", runs, faults=("rounded_1mV", "reversed_leads"), rate=3.0
        ),
        lesson_row("10/s, dropouts", runs, faults=("dropouts",), rate=10.0),
        lesson_row("10 mV digits", runs, faults=("rounded_10mV",)),
        lesson_row("meter and temperature off as stated, 1 mV digits", runs, is_perfect=False),
    ]


VOLTAGES: dict[str, Callable[[Floats], Floats]] = {
    "flat": lambda t: LEVEL_V + 0.0 * t,
    "falling to it, 300 s": lambda t: LEVEL_V + 0.1 * np.exp(-t / 300.0),
    "falling to it, 1200 s": lambda t: LEVEL_V + 0.1 * np.exp(-t / 1200.0),
    "ramp 1.2 times the limit": lambda t: LEVEL_V - 1e-5 * t,
}


def watch_row(name: str, deviation_V: float, runs: int) -> tuple[float, float]:
    """Share of two-hour runs that the live rule (0.5 mV/min, 300 s) ever calls settled, and when (median)."""
    random = np.random.default_rng([runs, *name.encode()])
    times = np.arange(7200.0)
    found = []
    for _ in range(runs):
        watch = SettlingWatch(Settling(limit_mV_per_min=0.5, window_s=300.0))
        volts = VOLTAGES[name](times) + deviation_V * first_order(random, times.size, 0.9)
        at_s = math.inf
        for now in range(25, times.size, 25):
            part = slice(max(0, now - int(watch.longest_s)), now)
            watch.look(times[part], volts[part], 0.0, float(now))
            if watch.verdict.word == "settled":
                at_s = float(now)
                break
        found.append(at_s)
    return float(np.isfinite(found).mean()), float(np.median(found))


def report(runs: int) -> str:
    """Run everything and return the four tables as Markdown."""
    lines = [
        f"Coverage of nominal 95 % intervals of a settled voltage, {runs} windows each "
        f"(binomial standard deviation {100 * math.sqrt(0.05 * 0.95 / runs):.1f} %).\n",
        "| noise | readings | naive | lag-1 | ours |",
        "| --- | --: | --: | --: | --: |",
    ]
    for name in NOISES:
        for count in (300, 600):
            row = mean_row(name, count, runs, 1)
            lines.append(f"| {name} | {count} | {row.naive:.3f} | {row.lag1:.3f} | {row.ours:.3f} |")
    lines += [
        f"\nCoverage of nominal 90 % intervals of the drift, {runs} windows each.\n",
        "| noise | readings | least squares | ours |",
        "| --- | --: | --: | --: |",
    ]
    for name in NOISES:
        for count in (150, 300, 600):
            row = drift_row(name, count, runs, 1)
            lines.append(f"| {name} | {count} | {row.naive:.3f} | {row.ours:.3f} |")
    lessons = max(20, runs // 4)
    lines += [
        "\nSimulated lessons (before 4 min, growth 15 min, after 7 min, start-up of 80 and 30 mV), "
        f"{lessons} each: share of 95 % intervals that hold the truth, share settled within 5 mV/min, and "
        "median half-width. The single voltages with their readings and digits only, the saving with its "
        "whole budget.\n",
        "| lessons | before | after | saved | at equal current | settled before | settled after "
        "| ± before mV | ± after mV | ± saved mV |",
        "| --- | --: | --: | --: | --: | --: | --: | --: | --: | --: |",
    ]
    lines += [
        f"| {one.label} | {one.before:.3f} | {one.after:.3f} | {one.saved:.3f} | {one.at_equal_current:.3f} "
        f"| {one.settled_before:.3f} | {one.settled_after:.3f} | {one.width_before_mV:.1f} "
        f"| {one.width_after_mV:.1f} | {one.width_saved_mV:.1f} |"
        for one in lesson_rows(lessons)
    ]
    watched = max(5, runs // 50)
    lines += [
        f"\nThe live settling rule with 0.5 mV/min and 300 s, {watched} runs of two hours each, noise "
        "AR(1) 0.9, one reading a second.\n",
        "| voltage | noise mV | ever called settled | median s |",
        "| --- | --: | --: | --: |",
    ]
    for name in VOLTAGES:
        for deviation_V in (0.001, 0.002):
            share, median_s = watch_row(name, deviation_V, watched)
            lines.append(f"| {name} | {1000 * deviation_V:g} | {share:.3f} | {median_s:.0f} |")
    return "\n".join(lines)


def main(argv: Sequence[str] | None = None) -> int:
    """Print the report."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else None)
    parser.add_argument("--runs", type=int, default=2000, help="windows for each row (default 2000)")
    parser.add_argument("--quick", action="store_true", help="200 windows for each row")
    arguments = parser.parse_args(argv)
    sys.path.insert(0, str(ROOT))
    print(report(200 if arguments.quick else arguments.runs))
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
