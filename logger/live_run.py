"""A run in progress as the live assessment sees it: readings taken in, judged every few run seconds."""

from __future__ import annotations

import math
from collections import deque
from collections.abc import Iterable
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from logger.analysis.caution import Cautions
from logger.analysis.comparison import compare
from logger.analysis.evidence import is_above_stack, open_circuit_V, true_voltage_V
from logger.analysis.meter_accuracy import MeterAccuracy
from logger.analysis.phases import Phase, Phases, divide_phases
from logger.analysis.plateau_current import other_current, resistor_changes, source_at
from logger.analysis.refusal import Refused
from logger.analysis.resolution import goes_in_finer_steps, with_digits_of
from logger.analysis.rounding import two_sided_spread
from logger.analysis.run_conditions import run_conditions
from logger.analysis.run_current import CurrentSource, current_source
from logger.analysis.salt_effect import Fall, find_fall
from logger.analysis.saving import VoltageSaved
from logger.analysis.settled import SettledWindow, settled_window
from logger.analysis.state_follower import StateFollower
from logger.analysis.states import StateThresholds, open_circuit_from_readings_V, state_thresholds
from logger.bench_defaults import bench_accuracy, bench_kinetics
from logger.bench_tables import Bench
from logger.live_cells import LiveCells
from logger.moments import Moment
from logger.running_charge import RunningCharge
from logger.settling_watch import NOT_SPLITTING, LiveDrift, SettlingWatch
from logger.shown_lately import ShownLately

__all__ = ["LiveRun"]

FLOATS = NDArray[np.float64]

CELL_S = 0.1
SPARE_CELLS = 600
WHOLE_RUN_CELLS = 8192
PRESENT_S = 20.0
NEGATIVE_V = 0.1
SHORTEST_SILENCE_S = 5.0
PATIENCE_S = 1.0
"""Seconds of the computer that a reading may always take: it, too, stands still at times, and in a simulated
run that goes faster many seconds of the run pass meanwhile."""
SILENCE_IN_INTERVALS = 3.0
INTERVALS_KEPT = 50
FEWEST_SHOWN = 60
"""Readings that the step of a display is told from."""

RESTARTS_SETTLING = frozenset(
    {"buffer_in", "salt_added", "solution_swapped", "electrodes_in", "resistor_changed", "stirring_on",
     "stirring_off", "lead_back"}
)  # fmt: skip
"""Moments after which the voltage settles anew."""


class LiveRun:
    """Takes the readings of one channel and keeps what can be said about them.

    Memory and cost of a reading do not grow with the run: readings become cells of 0.1 s for the last
    minutes and of a doubling width for the whole run, states and charge are followed, and the settling
    rule is applied at fixed run times.

    Parameters
    ----------
    bench : what stands on the table.
    speed : run seconds per second of the computer.

    Not locked: the owner's lock guards it.
    """

    def __init__(self, bench: Bench, speed: float = 1.0) -> None:
        self.bench = bench
        self._speed = speed
        self.conditions = run_conditions(bench).voltages
        self.source = current_source(bench)
        self.meter = bench_accuracy(bench.meter).accuracy
        self.watch = SettlingWatch(bench.settling)
        self.phases = Phases((), ())
        self.before: SettledWindow | None = None
        self.after: SettledWindow | None = None
        """Where the voltage after the swap is settled at present, or was when the electrodes came out."""
        self.saved: VoltageSaved | None = None
        self.last: tuple[float, float] | None = None
        """Time and value of the last reading as shown by the meter."""
        self.negative_in_a_row = 0
        self.is_meter_changed = False
        """Whether the readings go in other steps than those before: another meter, or another range."""
        self._shown = ShownLately()
        self._shown_before: FLOATS = np.empty(0)
        self._stated_open_V = open_circuit_V(bench)
        self._seen_open_V = 0.0
        self.states = StateFollower(self._thresholds(self._stated_open_V))
        self._kinetics = bench_kinetics(bench.cell).kinetics
        self._recent = LiveCells(CELL_S, round(self.watch.longest_s / CELL_S) + SPARE_CELLS, forget=True)
        self._whole = LiveCells(CELL_S, WHOLE_RUN_CELLS, forget=False)
        self._charge = RunningCharge()
        self._moments: tuple[Moment, ...] = ()
        self._before_phase: Phase | None = None
        self._fall_between: tuple[float, float, Fall | None] | None = None
        self._intervals: deque[float] = deque(maxlen=INTERVALS_KEPT)

    @property
    def charge_C(self) -> float | None:
        """Charge passed so far in coulombs, or None where the current is or was not known."""
        if not self.source.is_known:
            return None
        total_C, passed_C, share = 0.0, 0.0, 1.0
        for changed_s, ohm in resistor_changes(self._moments):
            until_C = self._charge.until(changed_s)
            total_C += share * (until_C - passed_C)
            passed_C = until_C
            changed = self.source.with_resistor(ohm)
            if not changed.is_known:
                return None
            # Cell and stack drive the loop as before; it is the same current times the ratio of the loops.
            if self.source.circuit is not None and changed.circuit is not None:
                share = self.source.circuit.loop_resistance_ohm / changed.circuit.loop_resistance_ohm
        return total_C + share * (self._charge.total_C - passed_C)

    def source_at(self, at_s: float) -> CurrentSource:
        """Return where the current comes from at a run time: with the resistor that was last changed to."""
        return source_at(self.source, self._moments, at_s)

    @property
    def silent_after_s(self) -> float:
        """How long a reading may be awaited before the meter counts as silent."""
        usual_s = float(np.median(self._intervals)) if self._intervals else 0.0
        return max(SHORTEST_SILENCE_S, PATIENCE_S * self._speed, SILENCE_IN_INTERVALS * usual_s)

    def set_moments(self, moments: Iterable[Moment]) -> None:
        """Replace the moments of the run: the phases follow at once, the rest at the next look."""
        living = (one for one in moments if not one.removed)
        self._moments = tuple(sorted(living, key=lambda one: one.time_s))
        self.phases = self._divided()

    def add(self, times_s: FLOATS, shown_V: FLOATS) -> None:
        """Take readings, shapes (n,), in order of time, and judge whenever a look is due."""
        every_s = self.watch.look_every_s
        numbers = np.floor(times_s / every_s)
        last_number = -1.0 if self.last is None else math.floor(self.last[0] / every_s)
        due = np.flatnonzero(np.diff(numbers, prepend=last_number) > 0)
        edges = [0, *due.tolist(), times_s.size]
        looks = set(due.tolist())
        for first, end in pairwise(edges):
            if first in looks and self.last is not None:
                self._look(self.last[0])
            if end > first:
                self._take(times_s[first:end], shown_V[first:end])

    # ------------------------------------------------------------ taking readings

    def _take(self, times_s: FLOATS, shown_V: FLOATS) -> None:
        volts = true_voltage_V(shown_V, self.bench)
        magnitude = np.abs(volts)
        self._notice_open_voltage(magnitude)
        electrolyses = self.states.add(times_s, magnitude)
        self._recent.add(times_s[electrolyses], magnitude[electrolyses])
        self._whole.add(times_s[electrolyses], magnitude[electrolyses])
        if self.source.is_known:
            self._charge.add(times_s, self.source.series_A(magnitude), electrolyses)
        self._shown.add(times_s, shown_V)
        self._intervals.extend(np.diff(times_s[-INTERVALS_KEPT:]).tolist())
        if self.last is not None:
            self._intervals.append(float(times_s[0]) - self.last[0])
        self.last = float(times_s[-1]), float(shown_V[-1])
        forward = np.flatnonzero(~(volts < -NEGATIVE_V))
        if forward.size:
            self.negative_in_a_row = int(volts.size - 1 - forward[-1])
        else:
            self.negative_in_a_row += int(volts.size)

    def _notice_open_voltage(self, magnitude: FLOATS) -> None:
        """Take the highest reading that can only be an open cell for the stack voltage nobody stated."""
        seen_V = open_circuit_from_readings_V(magnitude)
        if seen_V is None or seen_V <= self._seen_open_V:
            return
        self._seen_open_V = seen_V
        if self._stated_open_V is None:
            self.states.thresholds = self._thresholds(seen_V)
        elif is_above_stack(self.bench.supply.best_stack_voltage_V, seen_V):
            self.source = self.source.without_stack()

    def _thresholds(self, open_V: float | None) -> StateThresholds:
        try:
            return state_thresholds(self.conditions.reversible_voltage_V, open_V)
        except Refused:  # an open cell cannot be told from a poor contact with so low a stack
            return state_thresholds(self.conditions.reversible_voltage_V, None)

    # ------------------------------------------------------------ judging

    def _look(self, now_s: float) -> None:
        self._charge.mark(now_s)
        self.phases = self._divided()
        if self.states.state != "electrolysing" or self.states.since_s is None:
            self.watch.stop(NOT_SPLITTING)
        else:
            begin_s = max(self.states.since_s, self._last_restart_s(now_s))
            self.watch.look(*self._recent.last(self.watch.longest_s, begin_s), begin_s, now_s)
        self._find_before()
        self._find_after()
        self.is_meter_changed = self._goes_in_other_steps()
        self.saved = self._compare()

    def _divided(self) -> Phases:
        """Divide the run so far; salt that nobody tagged is looked for once the swap is over."""
        found = divide_phases(self.states.intervals, self._moments)
        if found.named("after") is None or found.named("growth") is not None:
            return found
        return divide_phases(self.states.intervals, self._moments, self._fall)

    def _fall(self, begin_s: float, end_s: float) -> Fall | None:
        """Return the lasting fall between two run times; found once, since both stay what they are."""
        if self._fall_between is None or self._fall_between[:2] != (begin_s, end_s):
            found = find_fall(
                *self._whole.between(begin_s, end_s),
                limit_V_per_s=self.bench.settling.limit_mV_per_min / 60e3,
                window_s=self.bench.settling.window_s,
            )
            self._fall_between = begin_s, end_s, found
        return self._fall_between[2]

    def _last_restart_s(self, now_s: float) -> float:
        times = [one.time_s for one in self._moments if one.kind in RESTARTS_SETTLING]
        return max((at_s for at_s in times if at_s <= now_s), default=-math.inf)

    def _find_before(self) -> None:
        """Find the settled voltage before, once its phase is over."""
        phase = self.phases.named("before")
        if phase is None or self.phases.phases[-1] == phase:
            self.before = self._before_phase = None
        elif phase != self._before_phase:
            self._before_phase = phase
            self.before = self._settled(phase)
            # Of fast readings those of the phase are gone by now; right after it the meter is the same.
            of_phase = self._shown.since(phase.begin_s, phase.end_s)
            is_enough = of_phase.size >= FEWEST_SHOWN
            self._shown_before = of_phase if is_enough else self._shown.since(phase.begin_s)

    def _find_after(self) -> None:
        """Take what has settled since the swap; what drifts again has not, what is lifted out stays."""
        if self.phases.named("after") is None:
            self.after = None
        elif self.watch.drift is not None and self.phases.phases[-1].phase == "after":
            is_settled = self.watch.verdict.word == "settled"
            self.after = _present(self.watch.drift, is_settled=True) if is_settled else None

    def _settled(self, phase: Phase) -> SettledWindow | None:
        changed_s = [at_s for at_s, _ in resistor_changes(self._moments)]
        begin_s = max(
            (at_s for at_s in changed_s if phase.begin_s < at_s < phase.end_s), default=phase.begin_s
        )
        try:
            return settled_window(
                *self._whole.between(begin_s, phase.end_s),
                limit_V_per_s=self.bench.settling.limit_mV_per_min / 60e3,
                window_s=self.bench.settling.window_s,
                resolution_V=self.meter.resolution_V,
            )
        except Refused:
            return None

    def _goes_in_other_steps(self) -> bool:
        """Tell whether the present stretch and that before go in different steps; False where none shows."""
        if self.before is None or self.states.state != "electrolysing" or self.states.since_s is None:
            return self.is_meter_changed and self.before is not None
        before, now = self._shown_before, self._shown.since(self.states.since_s)
        if min(before.size, now.size) < FEWEST_SHOWN:
            return False
        return goes_in_finer_steps(before, now) or goes_in_finer_steps(now, before)

    def _meters(self) -> tuple[MeterAccuracy, MeterAccuracy]:
        """Return the meters that read the stretch before and the present one, each with its own digits."""
        if not self.is_meter_changed or self.states.since_s is None:
            return self.meter, self.meter
        before, after = (
            with_digits_of(self.meter, np.abs(true_voltage_V(shown_V, self.bench)))
            for shown_V in (self._shown_before, self._shown.since(self.states.since_s))
        )
        return before, after

    def _compare(self) -> VoltageSaved | None:
        if self.before is None or self.watch.drift is None:
            return None
        is_final = self.phases.phases[-1].phase == "after" and self.watch.verdict.word == "settled"
        # Always the same window before the end: a longer one may reach into the start-up, and the uncertainty
        # would jump whenever another window tells most.
        latest = self.watch.latest or self.watch.drift
        present = _present(self.watch.drift if is_final else latest, is_settled=is_final)
        currents = None
        try:
            first = self.source_at(self.before.begin_s).at(self.before.voltage_V)
            second = self.source_at(present.begin_s).at(present.voltage_V)
            if first is not None and second is not None:
                currents = first, second
                if other_current(*currents) is not None:
                    return None
        except Refused:
            currents = None
        before, after = self._meters()
        return compare(
            self.before,
            present,
            before,
            currents,
            self._kinetics,
            Cautions(),
            meter_after=after if self.is_meter_changed else None,
        )


def _present(found: LiveDrift, *, is_settled: bool) -> SettledWindow:
    """Return the present voltage: the mean of the window that settled, or of its last 20 s."""
    length_s = found.window_s if is_settled else min(PRESENT_S, found.window_s)
    first = int(np.searchsorted(found.times_s, found.times_s[-1] - length_s))
    volts = found.values_V[first:]
    # The noise of a mean goes with one over the root of its length, the slow part included.
    longer = math.sqrt(found.window_s / length_s)
    return SettledWindow(
        begin_s=float(found.times_s[first]),
        end_s=float(found.times_s[-1]),
        voltage_V=float(volts.mean()),
        median_V=float(np.median(volts)),
        deviation_V=float(volts.std(ddof=1)),
        spread_V=two_sided_spread(volts),
        scatter_uncertainty_V=found.drift.level_uncertainty * longer,
        scatter_freedom=found.drift.level_freedom,
        drift_uncertainty_V=abs(found.drift.slope) * length_s / math.sqrt(12.0),
        start_up_uncertainty_V=0.0,
        drift=found.drift,
        effective_samples=found.drift.level_freedom,
        is_settled=is_settled,
    )
