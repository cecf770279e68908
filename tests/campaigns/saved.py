"""Does the 95 % interval of the voltage saved hold the truth? python -m tests.campaigns.saved [--runs N]

Whole runs are simulated with noise of many kinds and analysed as any recording. Each run has truths of its
own (a voltage before of 2.15 to 2.35 V, 20 to 300 mV saved), a meter whose gain and offset are drawn from its
accuracy statement and that rounds to its digit, and a second filling whose temperature is drawn from what
the budget allows. After each filling the voltage starts 80 or 30 mV too high and comes down with 30 s. Growth
is hardly sampled: nothing here depends on it, and fitting it would take most of the time.

Three intervals are compared on the same windows: from s/sqrt(n) ("naive"), from a first-order process by the
lag-1 correlation ("lag-1"), and the program's own; all three with the same meter and temperature.
"""

from __future__ import annotations

import argparse
import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from logger.analysis.run_analysis import RunAnalysis, analyse_run
from logger.analysis.uncertainty import Component, combine
from logger.moments import new_moment
from logger.recording import ChannelData, Recording
from tests.campaigns.coverage import Floats, bubbles, first_order, flicker, lag1_uncertainty, own_half_V
from tests.campaigns.table import print_table

RATE_PER_S = 2.5
BEFORE_S, GROWTH_S, OUT_S, AFTER_S = 240.0, 900.0, 60.0, 420.0
OPEN_V = 26.97
TIME_CONSTANT_S = 30.0
PERCENT, COUNTS, TEMPERATURE_K, V_PER_K = 0.5, 2, 0.3, -0.002
NEEDED = (0.93, 0.99)

Noise = Callable[[np.random.Generator, int], Floats]
PER_S_09 = 0.9 ** (1.0 / RATE_PER_S)
"""Coefficient from reading to reading of a process with 0.9 from second to second."""

KINDS: dict[str, tuple[Noise, float]] = {
    "white 1 mV": (lambda r, n: 0.001 * r.normal(size=n), 0.0001),
    "white": (lambda r, n: 0.002 * r.normal(size=n), 0.0001),
    "AR(1) 0.5": (lambda r, n: 0.002 * first_order(r, n, 0.5), 0.0001),
    "AR(1) 0.9": (lambda r, n: 0.002 * first_order(r, n, 0.9), 0.0001),
    "AR(1) 0.95": (lambda r, n: 0.002 * first_order(r, n, 0.95), 0.0001),
    "white + AR(1) 0.9": (lambda r, n: 0.0014 * (r.normal(size=n) + first_order(r, n, 0.9)), 0.0001),
    "bubble sawtooth": (lambda r, n: 0.004 * slow_bubbles(r, n) + 0.0003 * r.normal(size=n), 0.0001),
    "AR(1) 0.9, 1 mV digits": (lambda r, n: 0.002 * first_order(r, n, 0.9), 0.001),
    "white 0.1 mV, 1 mV digits": (lambda r, n: 0.0001 * r.normal(size=n), 0.001),
    "AR(1) 0.9, 10 mV digits": (lambda r, n: 0.006 * first_order(r, n, 0.9), 0.010),
    "2 mV AR(1) 0.9, 10 mV digits": (lambda r, n: 0.002 * first_order(r, n, 0.9), 0.010),
    "stirring alias": (
        lambda r, n: (
            0.002 * first_order(r, n, PER_S_09)
            + 0.001 * np.sin(2 * math.pi * (4.83 * np.arange(n) / RATE_PER_S + r.uniform()))
        ),
        0.001,
    ),
    "AR(1) 0.9 + 1/f": (
        lambda r, n: 0.002 * first_order(r, n, 0.9) + 0.0005 * flicker(r, n) + 0.0003 * r.normal(size=n),
        0.0001,
    ),
    "AR(1) 0.9, drift 1 mV/min": (
        lambda r, n: 0.001 * first_order(r, n, 0.9) + drifting(r, n),
        0.0001,
    ),
}
"""Noise in volts at 2.5 readings a second, and the digit of the display."""


def slow_bubbles(random: np.random.Generator, count: int) -> Floats:
    """Bubbles of 5 to 30 s at this rate of readings."""
    return np.interp(np.arange(count) / RATE_PER_S, np.arange(count), bubbles(random, count))


def drifting(random: np.random.Generator, count: int) -> Floats:
    """A steady drift of up to 1 mV/min either way; the truth is the middle of the last minute."""
    per_s = random.uniform(-1, 1) * 0.001 / 60.0
    return per_s * (np.arange(count) - count + 30.0 * RATE_PER_S) / RATE_PER_S


@dataclass(frozen=True)
class Truth:
    """What a perfect meter would show of the settled cell."""

    before_V: float
    after_V: float

    @property
    def saved_V(self) -> float:
        """The voltage saved."""
        return self.before_V - self.after_V


def simulated(kind: str, random: np.random.Generator) -> tuple[Recording, Truth, Truth]:
    """Return a recording, the truth, and the same truth as this meter at this temperature shows it."""
    noise, digit_V = KINDS[kind]
    before_V = random.uniform(2.15, 2.35)
    truth = Truth(before_V, before_V - random.uniform(0.02, 0.30))
    gain = 1.0 + random.uniform(-1, 1) * PERCENT / 100.0
    offset_V = random.uniform(-1, 1) * COUNTS * digit_V
    warmed_V = V_PER_K * TEMPERATURE_K * random.normal()
    shown = Truth(gain * truth.before_V + offset_V, gain * (truth.after_V + warmed_V) + offset_V)
    out_s = BEFORE_S + GROWTH_S
    stretches = (
        (0.0, BEFORE_S, truth.before_V, 0.080),
        (out_s + OUT_S, AFTER_S, truth.after_V + warmed_V, 0.030),
    )
    times, volts = [], []
    for begin_s, length_s, level_V, start_V in stretches:
        at_s = np.arange(int(length_s * RATE_PER_S)) / RATE_PER_S
        times.append(begin_s + at_s + 0.1)
        volts.append(level_V + start_V * np.exp(-at_s / TIME_CONSTANT_S) + noise(random, at_s.size))
    growing_s = np.linspace(BEFORE_S + 5.0, out_s - 5.0, 15)
    times.insert(1, growing_s)
    volts.insert(1, np.full(growing_s.size, truth.after_V))
    open_s = out_s + 0.1 + np.arange(int(OUT_S * RATE_PER_S)) / RATE_PER_S
    times.insert(2, open_s)
    volts.insert(2, np.full(open_s.size, OPEN_V))
    readings = digit_V * np.round((gain * np.concatenate(volts) + offset_V) / digit_V)
    return _recording(np.concatenate(times), readings, digit_V), truth, shown


def _recording(times: Floats, readings: Floats, digit_V: float) -> Recording:
    channel = ChannelData(
        "cell_voltage", "cell_voltage", "V", times, readings, np.zeros(times.size, dtype=np.uint8)
    )
    out_s = BEFORE_S + GROWTH_S
    moments = (
        new_moment(0.0, "buffer_in"),
        new_moment(BEFORE_S, "salt_added"),
        new_moment(out_s, "electrodes_out"),
        new_moment(out_s + OUT_S, "electrodes_in"),
    )
    bench = f"""
[supply]
stack_voltage_V = 27.0
resistor_ohm = 12000
internal_resistance_ohm = 6.0
[cell]
temperature_C = 22.0
pressure_kPa = 101.325
[meter]
resolution_V = {digit_V}
accuracy_percent_of_reading = {PERCENT}
accuracy_counts = {COUNTS}
"""
    return Recording(
        path=Path("simulated.h5"),
        uuid="0" * 32,
        title="invented",
        start_time="2024-05-14T10:00:00.000+02:00",
        end_time=None,
        time_zone="Europe/Berlin",
        duration_s=float(times[-1]),
        channels=(channel,),
        moments=moments,
        bench_toml=bench,
    )


@dataclass(frozen=True)
class Row:
    """Shares of runs whose intervals held the truth, shares settled, and the median half-width."""

    kind: str
    before: float
    after: float
    naive: float
    lag1: float
    ours: float
    settled_before: float
    settled_after: float
    width_mV: float


def row(kind: str, runs: int, seed: int = 1) -> Row:
    """Analyse `runs` runs with noise of one kind."""
    random = np.random.default_rng([seed, *kind.encode()])
    held = []
    for _ in range(runs):
        run, truth, shown = simulated(kind, random)
        held.append(judged(run, truth, shown))
    table = np.array(held, dtype=np.float64)
    return Row(kind, *table[:, :7].mean(axis=0), float(np.median(table[:, 7])))


def judged(run: Recording, truth: Truth, shown: Truth) -> tuple[float, ...]:
    """Tell which intervals of one run held the truth.

    Those of the single voltages are from their readings and digits, so they are asked for what the meter
    would show without noise; that of the saving is asked for the truth.
    """
    found = analyse_run(run)
    before, after = found.plateaus["before"].window, found.plateaus["after"].window
    halves = [own_half_V(found, one) for one in (before, after)]
    saved = found.saved.raw
    others = (
        other_half_V(found, run, naive_uncertainty),
        other_half_V(found, run, lag1_uncertainty),
    )
    error_V = abs(saved.value_V - truth.saved_V)
    return (
        abs(before.voltage_V - shown.before_V) <= halves[0],
        abs(after.voltage_V - shown.after_V) <= halves[1],
        *(error_V <= half for half in others),
        error_V <= saved.expanded_uncertainty_V,
        before.is_settled,
        after.is_settled,
        1000.0 * saved.expanded_uncertainty_V,
    )


def naive_uncertainty(values: Floats) -> tuple[float, float]:
    """s/sqrt(n), and its degrees of freedom."""
    return float(values.std(ddof=1)) / math.sqrt(values.size), values.size - 1.0


def other_half_V(
    found: RunAnalysis, run: Recording, estimate: Callable[[Floats], tuple[float, float]]
) -> float:
    """Half-width of the saving's interval with another estimate of the scatter of each plateau."""
    channel = run.channels[0]
    own = {"scatter before": "before", "scatter after": "after"}
    budget = []
    for one in found.saved.raw.combined.components:
        if one.name in own:
            window = found.plateaus[own[one.name]].window
            inside = (channel.times_s >= window.begin_s) & (channel.times_s <= window.end_s)
            u_V, freedom = estimate(channel.values[inside])
            one = Component(one.name, u_V, 1.0, freedom, "A")
        budget.append(one)
    return combine(budget).expanded_uncertainty


def main(argv: Sequence[str] | None = None) -> int:
    """Print the table; the exit status tells whether every row is as it should be."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--runs", type=int, default=2000, help="of each kind (default 2000)")
    parser.add_argument("--quick", action="store_true", help="60 of each kind")
    arguments = parser.parse_args(argv)
    runs = 60 if arguments.quick else arguments.runs
    rows = [row(kind, runs) for kind in KINDS]
    print(
        f"{runs} runs of each kind (binomial standard deviation "
        f"{100 * math.sqrt(0.05 * 0.95 / runs):.1f} %)\n"
    )
    head = (
        "noise",
        "before",
        "after",
        "saved: naive",
        "lag-1",
        "ours",
        "settled before",
        "after",
        "± saved mV",
    )
    print_table(
        head,
        [
            (
                one.kind,
                *(f"{x:.3f}" for x in (one.before, one.after, one.naive, one.lag1, one.ours)),
                *(f"{x:.3f}" for x in (one.settled_before, one.settled_after)),
                f"{one.width_mV:.1f}",
            )
            for one in rows
        ],
    )
    slack = 3.0 * math.sqrt(0.05 * 0.95 / runs) if arguments.quick else 0.0
    low, high = NEEDED[0] - slack, NEEDED[1] + slack
    return 0 if all(low <= x <= high for one in rows for x in (one.before, one.after, one.ours)) else 1


if __name__ == "__main__":
    raise SystemExit(main())
