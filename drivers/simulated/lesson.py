"""The course of a simulated lesson: what happens when, and what the simulated operator tags."""

from __future__ import annotations

import difflib
from collections.abc import Callable
from dataclasses import dataclass
from enum import IntEnum

import numpy as np
from numpy.typing import NDArray

from drivers.errors import AddressError
from drivers.samples import TaggedMoment
from drivers.simulated.physics import logistic_coverage

__all__ = ["LESSONS", "SIMULATED", "Circuit", "Outage", "Plan", "Timeline", "find_plan"]

Array = NDArray[np.float64]

SIMULATED = "(simulated)"
"""Ends the label of every moment that the simulated operator tags."""

SALT_EARLY_S = 30.0
TRANSIENT_TIME_S = 30.0
REST_TIME_S = 300.0  # in which a resting stack recovers most of what it had sagged
# Faults during growth: where they begin, as a part of the growth, and how long they last.
SILENCE = (0.2, 20.0)
UNPLUG = (0.4, 20.0)
SUPPLY_OFF = (0.6, 60.0)
TOUCHING = (0.8, 20.0)


class Circuit(IntEnum):
    """What the supply is connected to."""

    OPEN = 0  # dry cell, or electrodes lifted out
    ELECTROLYSING = 1
    TOUCHING = 2  # the electrodes touch each other
    SUPPLY_OFF = 3


@dataclass(frozen=True, slots=True)
class Plan:
    """How long each part of a lesson lasts, in seconds, and the law by which the catalyst grows.

    `coverage` gives the catalysed part of the anode from the seconds of growth so far. After each
    filling the voltage starts `first_transient_V` or `second_transient_V` too high and comes down with
    a time constant of 30 s (wetting, warming up). In a blank (`has_salt` false) nothing is added and
    nothing grows; the rest of the lesson is the same.
    """

    dry_s: float
    before_s: float
    growth_s: float
    out_s: float
    after_s: float
    coverage: Callable[[Array], Array] = logistic_coverage
    first_transient_V: float = 0.080
    second_transient_V: float = 0.030
    has_salt: bool = True


LESSONS: dict[str, Plan] = {
    "demo": Plan(dry_s=45.0, before_s=240.0, growth_s=900.0, out_s=60.0, after_s=420.0),
    "blank": Plan(dry_s=45.0, before_s=240.0, growth_s=900.0, out_s=60.0, after_s=420.0, has_salt=False),
    "bench": Plan(dry_s=20.0, before_s=2400.0, growth_s=2400.0, out_s=60.0, after_s=2400.0),
    # Everything happens in 26 minutes; then the catalyst is watched for as long as it is hoped to last.
    "stability": Plan(dry_s=20.0, before_s=240.0, growth_s=1200.0, out_s=60.0, after_s=5700.0),
}
"""The lessons by the names that an address may use."""


def find_plan(name: str) -> Plan:
    """Return the plan of a lesson by name.

    Raises
    ------
    AddressError : there is none of that name; the nearest known one is given.
    """
    if name not in LESSONS:
        near = difflib.get_close_matches(name, LESSONS, n=1, cutoff=0.5)
        hint = f"; did you mean {near[0]}?" if near else ""
        raise AddressError(f"the simulated cell has no lesson {name!r}{hint} (known: {', '.join(LESSONS)})")
    return LESSONS[name]


@dataclass(frozen=True, slots=True)
class Outage:
    """A stretch of run time in which the source, not the cell, says nothing."""

    begin_s: float
    end_s: float
    is_unplugged: bool


class Timeline:
    """A plan laid out in time, with the faults that belong to it.

    Times are seconds since the lesson began; functions take and return arrays of shape (n,). What
    holds at the end of the lesson goes on for ever.
    """

    def __init__(self, plan: Plan, faults: frozenset[str] = frozenset()) -> None:
        self.plan = plan
        self.buffer_in_s = plan.dry_s
        self.electrodes_out_s = plan.dry_s + plan.before_s + plan.growth_s
        self.electrodes_in_s = self.electrodes_out_s + plan.out_s
        self.end_s = self.electrodes_in_s + plan.after_s
        before_s = min(SALT_EARLY_S, plan.before_s) if "salt_early" in faults else plan.before_s
        self.salt_added_s = plan.dry_s + before_s
        self.outages = tuple(
            Outage(*self._during_growth(*where), is_unplugged=name == "unplug")
            for name, where in (("silence", SILENCE), ("unplug", UNPLUG))
            if name in faults
        )
        self._lay_out(faults)

    def circuit(self, times_s: Array) -> NDArray[np.int64]:
        """Return the `Circuit` at each time."""
        return self._circuits[self._stretch(times_s)]

    def coverage(self, times_s: Array) -> Array:
        """Return the catalysed part of the anode. It grows only with salt in the buffer and current on."""
        if not self.plan.has_salt:
            return np.zeros(np.shape(times_s))
        grown_s = np.interp(times_s, self._begins_s, self._grown_s)
        return np.where(times_s < self.salt_added_s, 0.0, self.plan.coverage(grown_s))

    def transient_V(self, times_s: Array) -> Array:
        """Return how far the voltage is above its settled value since the last filling."""
        refilled = times_s >= self.electrodes_in_s
        filled_s = np.where(refilled, self.electrodes_in_s, self.buffer_in_s)
        height_V = np.where(refilled, self.plan.second_transient_V, self.plan.first_transient_V)
        return np.asarray(height_V * np.exp((filled_s - times_s) / TRANSIENT_TIME_S), dtype=np.float64)

    def seconds_in_stretch(self, times_s: Array) -> Array:
        """Return how long the circuit of each time has lasted by then."""
        return times_s - self._begins_s[self._stretch(times_s)]

    def sag_V(self, times_s: Array, sag_V_per_hour: float) -> Array:
        """Return what the stack has lost: evenly under load, most of it regained within 300 s of rest."""
        rate = sag_V_per_hour / 3600
        stretch = self._stretch(times_s)
        lasted_s = times_s - self._begins_s[stretch]
        first_V = np.zeros(self._begins_s.size)
        for k in range(1, first_V.size):
            before_s = self._begins_s[k] - self._begins_s[k - 1]
            first_V[k] = _sag_V(first_V[k - 1], before_s, rate, bool(self._is_loaded[k - 1]))
        return np.where(
            self._is_loaded[stretch],
            _sag_V(first_V[stretch], lasted_s, rate, True),
            _sag_V(first_V[stretch], lasted_s, rate, False),
        )

    @property
    def moments(self) -> tuple[TaggedMoment, ...]:
        """What the simulated operator tags, in order of time, at the very instant it happens."""
        swapped_s = (self.electrodes_out_s + self.electrodes_in_s) / 2
        tagged = (
            (0.0, "dry_cell", "supply on, cell dry"),
            (self.buffer_in_s, "buffer_in", "buffer without salt"),
            (self.salt_added_s, "salt_added", "metal salt"),
            (self.electrodes_out_s, "electrodes_out", "electrodes lifted out"),
            (swapped_s, "solution_swapped", "fresh buffer without salt"),
            (self.electrodes_in_s, "electrodes_in", "electrodes in fresh buffer"),
        )
        return tuple(
            TaggedMoment(time_s, kind, f"{label} {SIMULATED}")
            for time_s, kind, label in tagged
            if self.plan.has_salt or kind != "salt_added"
        )

    def _during_growth(self, part: float, lasts_s: float) -> tuple[float, float]:
        begin_s = self.salt_added_s + part * (self.electrodes_out_s - self.salt_added_s)
        return begin_s, begin_s + lasts_s

    def _lay_out(self, faults: frozenset[str]) -> None:
        rows = [
            (0.0, Circuit.OPEN, False),
            (self.buffer_in_s, Circuit.ELECTROLYSING, False),
            (self.salt_added_s, Circuit.ELECTROLYSING, True),
        ]
        for name, where, circuit in (
            ("supply_off", SUPPLY_OFF, Circuit.SUPPLY_OFF),
            ("touching", TOUCHING, Circuit.TOUCHING),
        ):
            if name in faults:
                begin_s, end_s = self._during_growth(*where)
                rows += [(begin_s, circuit, False), (end_s, Circuit.ELECTROLYSING, True)]
        rows += [
            (self.electrodes_out_s, Circuit.OPEN, False),
            (self.electrodes_in_s, Circuit.ELECTROLYSING, False),
        ]
        begins_s, circuits, grows = zip(*rows, strict=True)
        self._begins_s = np.array(begins_s, dtype=np.float64)
        self._circuits = np.array(circuits, dtype=np.int64)
        self._is_loaded = np.isin(self._circuits, (Circuit.ELECTROLYSING, Circuit.TOUCHING))
        growing_s = np.where(np.array(grows[:-1]), np.diff(self._begins_s), 0.0)
        self._grown_s = np.concatenate([[0.0], np.cumsum(growing_s)])

    def _stretch(self, times_s: Array) -> NDArray[np.intp]:
        found = np.searchsorted(self._begins_s, times_s, side="right") - 1
        return np.maximum(found, 0)


def _sag_V(first_V: Array | float, lasted_s: Array | float, rate: float, is_loaded: bool) -> Array:
    if is_loaded:
        return np.asarray(first_V + rate * lasted_s, dtype=np.float64)
    return np.asarray(first_V * np.exp(-np.asarray(lasted_s) / REST_TIME_S), dtype=np.float64)
