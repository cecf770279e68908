"""Does the 95 % interval of the voltage saved hold the truth? python -m tests.campaigns.saved [--runs N]

Whole runs are simulated with noise of many kinds and analysed as any recording. Each run has truths of its
own (a voltage before of 2.15 to 2.35 V, 20 to 300 mV saved), a meter whose gain and offset are drawn from its
accuracy statement and that rounds to its digit, and a second filling whose temperature is drawn from what
the budget allows. After each filling the voltage starts 80 or 30 mV too high and comes down with 30 s. Growth
is hardly sampled: nothing here depends on it, and fitting it would take most of the time.

The truth is what the intervals are of (see `logger.analysis.settled`): the voltage of the cell at an instant
of the settled window, drawn anew for each run, without noise and without the tail of the start-up. Where
nothing drifts that is one number.

A stretch that is not settled has no settled voltage, and the saving from it is provisional: the shares are
those of the settled ones (of the runs with both settled).

Three intervals are compared on the same windows: from s/sqrt(n) ("naive"), from a first-order process by the
lag-1 correlation ("lag-1"), and the program's own; all three with the same meter and temperature, the first
two without what drift and start-up leave open. A second table has start-ups that are no single exponential,
which the program does not claim to know.
"""

from __future__ import annotations

import argparse
import math
import sys
from collections.abc import Callable, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import astuple, dataclass
from functools import partial
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
PLATEAUS = {"before": (0.0, BEFORE_S, 0.080), "after": (BEFORE_S + GROWTH_S + OUT_S, AFTER_S, 0.030)}
"""Begin and length in seconds, and how much too high the voltage begins."""

OPEN_V = 26.97
PERCENT, COUNTS, TEMPERATURE_K, V_PER_K = 0.5, 2, 0.3, -0.002
NEEDED = (0.93, 0.99)
SEED = 20240514
OTHER_KINDS = ("white 1 mV", "AR(1) 0.9", "bubble sawtooth")
HEAD = (
    "before", "after", "saved: naive", "lag-1", "ours", "settled before", "after",
    "± before mV", "± after mV", "± saved mV",
)  # fmt: skip

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
    "AR(1) 0.9, drift 1 mV/min": (lambda r, n: 0.001 * first_order(r, n, 0.9), 0.0001),
    "no noise, 1 mV digits": (lambda r, n: np.zeros(n), 0.001),
}
"""Noise in volts at 2.5 readings a second, and the digit of the display."""

DRIFTS_V_PER_S = {"AR(1) 0.9, drift 1 mV/min": 0.001 / 60.0}
"""The fastest drift, of which each plateau has anything from minus to plus one."""

HIDDEN_BY_DIGITS = ("white 0.1 mV, 1 mV digits", "2 mV AR(1) 0.9, 10 mV digits", "no noise, 1 mV digits")
"""Noise of at most a fifth of a digit. Nothing in the readings tells it from none, so the interval must
allow for a whole digit, while the error is smaller: more than 99 % is right here."""

Start = Callable[[Floats], Floats]
STARTS: dict[str, Start] = {
    "exponential": lambda t: np.exp(-t / 30.0),
    "two exponentials": lambda t: 0.75 * np.exp(-t / 20.0) + 0.25 * np.exp(-t / 60.0),
    "stretched": lambda t: np.exp(-((t / 15.0) ** 0.7)),
}
"""How the voltage comes down after a filling, from 1; the last two are slower at the end."""


def slow_bubbles(random: np.random.Generator, count: int) -> Floats:
    """Bubbles of 5 to 30 s at this rate of readings."""
    return np.interp(np.arange(count) / RATE_PER_S, np.arange(count), bubbles(random, count))


@dataclass(frozen=True)
class Cell:
    """What a run is made of: true voltages at the ends of the two plateaus, their drifts, and the meter."""

    levels_V: dict[str, float]
    drifts_V_per_s: dict[str, float]
    warmed_V: float
    gain: float
    offset_V: float

    def true_V(self, name: str, at_s: Floats | float) -> Floats | float:
        """What the settled cell needs at an instant, at equal temperature."""
        begin_s, length_s, _ = PLATEAUS[name]
        return self.levels_V[name] + self.drifts_V_per_s[name] * (at_s - begin_s - length_s)

    def shown_V(self, name: str, at_s: Floats | float) -> Floats | float:
        """The same as this meter at this temperature shows it, but for the digits."""
        warmed_V = self.warmed_V if name == "after" else 0.0
        return self.gain * (self.true_V(name, at_s) + warmed_V) + self.offset_V


def drawn(kind: str, random: np.random.Generator) -> Cell:
    """Draw the truths of a run."""
    digit_V = KINDS[kind][1]
    before_V = random.uniform(2.15, 2.35)
    fastest = DRIFTS_V_PER_S.get(kind, 0.0)
    return Cell(
        levels_V={"before": before_V, "after": before_V - random.uniform(0.02, 0.30)},
        drifts_V_per_s={name: fastest * random.uniform(-1, 1) for name in PLATEAUS},
        warmed_V=V_PER_K * TEMPERATURE_K * random.normal(),
        gain=1.0 + random.uniform(-1, 1) * PERCENT / 100.0,
        offset_V=random.uniform(-1, 1) * COUNTS * digit_V,
    )


def simulated(kind: str, random: np.random.Generator, start: str = "exponential") -> tuple[Recording, Cell]:
    """Return a recording, and what it is made of."""
    noise, digit_V = KINDS[kind]
    cell = drawn(kind, random)
    times, shown = [], []
    for name, (begin_s, length_s, height_V) in PLATEAUS.items():
        since_s = np.arange(int(length_s * RATE_PER_S)) / RATE_PER_S
        at_s = begin_s + since_s + 0.1
        above_V = height_V * STARTS[start](since_s) + noise(random, since_s.size)
        times.append(at_s)
        shown.append(cell.shown_V(name, at_s) + cell.gain * above_V)
    out_s = BEFORE_S + GROWTH_S
    growing_s = np.linspace(BEFORE_S + 5.0, out_s - 5.0, 15)
    open_s = out_s + 0.1 + np.arange(int(OUT_S * RATE_PER_S)) / RATE_PER_S
    times[1:1] = [growing_s, open_s]
    shown[1:1] = [np.full(growing_s.size, cell.levels_V["after"]), np.full(open_s.size, OPEN_V)]
    readings = digit_V * np.round(np.concatenate(shown) / digit_V)
    return _recording(np.concatenate(times), readings, digit_V), cell


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
    """Shares of settled runs whose intervals held the truth, shares settled, and median half-widths in mV."""

    kind: str
    before: float
    after: float
    naive: float
    lag1: float
    ours: float
    settled_before: float
    settled_after: float
    before_mV: float
    after_mV: float
    saved_mV: float

    @property
    def is_right(self) -> bool:
        """Tell whether each share is as it should be; see `HIDDEN_BY_DIGITS`."""
        low, high = NEEDED
        at_most = 1.0 if self.kind in HIDDEN_BY_DIGITS else high
        return all(low <= share <= at_most for share in (self.before, self.after, self.ours))


def row(kind: str, runs: int, seed: int = SEED, start: str = "exponential") -> Row:
    """Analyse `runs` runs with noise of one kind."""
    random = np.random.default_rng([seed, *kind.encode(), *start.encode()])
    held = []
    for _ in range(runs):
        run, cell = simulated(kind, random, start)
        held.append(judged(run, cell, random))
    table = np.array(held, dtype=np.float64)
    return Row(kind, *np.nanmean(table[:, :7], axis=0), *np.nanmedian(table[:, 7:], axis=0))


def together(rows: Sequence[Row]) -> Row:
    """Return the mean of rows, in which each kind counts alike."""
    numbers = np.array([astuple(one)[1:] for one in rows])
    return Row("all together", *numbers.mean(axis=0))


def judged(run: Recording, cell: Cell, random: np.random.Generator) -> tuple[float, ...]:
    """Tell which intervals of one run held the truth.

    Those of the single voltages are from their readings and digits, so they are asked for what the meter
    would show without noise; that of the saving is asked for the truth. Not a number where not settled.
    """
    found = analyse_run(run)
    windows = {name: found.plateaus[name].window for name in PLATEAUS}
    halves_V = {name: own_half_V(found, one) for name, one in windows.items()}
    at_s = {name: random.uniform(one.begin_s, one.end_s) for name, one in windows.items()}
    saved = found.saved.raw
    error_V = abs(
        saved.value_V - (cell.true_V("before", at_s["before"]) - cell.true_V("after", at_s["after"]))
    )
    others = (
        other_half_V(found, run, naive_uncertainty),
        other_half_V(found, run, lag1_uncertainty),
    )
    settled = [one.is_settled for one in windows.values()]
    held = [abs(windows[n].voltage_V - cell.shown_V(n, at_s[n])) <= halves_V[n] for n in PLATEAUS]
    saving = [error_V <= half for half in (*others, saved.expanded_uncertainty_V)]
    widths_mV = [1000.0 * half for half in (*halves_V.values(), saved.expanded_uncertainty_V)]
    counts = [*settled, *[all(settled)] * 3, True, True, *settled, all(settled)]
    shown = [*held, *saving, *settled, *widths_mV]
    return tuple(one if one_counts else math.nan for one, one_counts in zip(shown, counts, strict=True))


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
        if one.name.startswith(("drift", "start-up")):
            continue
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
    parser.add_argument("--processes", type=int, default=1)
    parser.add_argument("--seed", type=int, default=SEED)
    parser.add_argument("--quick", action="store_true", help="60 of each kind, not judged")
    arguments = parser.parse_args(argv)
    runs = 60 if arguments.quick else arguments.runs
    with ProcessPoolExecutor(arguments.processes) as pool:
        rows = []
        for one in pool.map(partial(row, runs=runs, seed=arguments.seed), KINDS):
            rows.append(one)
            print(one.kind, *_shown(one), file=sys.stderr, flush=True)
        others = [(kind, start) for start in STARTS if start != "exponential" for kind in OTHER_KINDS]
        slow = list(pool.map(partial(_of_pair, runs=runs // 10, seed=arguments.seed), others))
    print(
        f"{runs} runs of each kind (binomial standard deviation "
        f"{100 * math.sqrt(0.05 * 0.95 / runs):.1f} %)\n"
    )
    print_table(("noise", *HEAD), [(one.kind, *_shown(one)) for one in (*rows, together(rows))])
    print(f"\nStart-ups of other shapes, {runs // 10} runs each\n")
    print_table(
        ("start-up", "noise", *HEAD),
        [(start, kind, *_shown(one)) for (kind, start), one in zip(others, slow, strict=True)],
    )
    return 0 if arguments.quick or all(one.is_right for one in rows) else 1


def _of_pair(pair: tuple[str, str], runs: int, seed: int) -> Row:
    kind, start = pair
    return row(kind, runs, seed, start)


def _shown(one: Row) -> tuple[str, ...]:
    shares = (one.before, one.after, one.naive, one.lag1, one.ours, one.settled_before, one.settled_after)
    return (
        *(f"{share:.3f}" for share in shares),
        *(f"{half:.2f}" for half in (one.before_mV, one.after_mV, one.saved_mV)),
    )


if __name__ == "__main__":
    raise SystemExit(main())
