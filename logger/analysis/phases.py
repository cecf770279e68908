"""Dividing a run into dry, before, growth and after: by the moments, and by what the voltage shows."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from logger.analysis.caution import Caution
from logger.analysis.salt_effect import START_UP_S, Fall
from logger.analysis.seen_swaps import electrolysing_stretches, unexplained_swaps
from logger.analysis.states import StateInterval
from logger.analysis.tagged_swaps import NEAR_S, TaggedLift, tagged_lifts, the_swap
from logger.moments import KINDS, Moment
from logger.scale import clock_text

__all__ = [
    "Phase",
    "Phases",
    "divide_phases",
]

FAR_OFF_S = 10.0

LEAST_LATE_FALL_V = 0.03
"""Smaller falls before a tagged salt are the settling of the bare electrodes (common practice, no source)."""

LONGEST_TRIAL_S = 120.0
"""Electrolysis up to so long before a tagged buffer is a trial of the wiring (common practice, no source)."""

INSTEAD_OF_ELECTROLYSIS: dict[str, str] = {
    "open": "the readings stay at the open stack. Put the buffer in, check that both leads are on",
    "poor_contact": "the readings lie between those of a cell and of the open stack. Check the contacts, the "
    "level of the buffer, and the stack voltage in the bench file",
    "below_reversible": "the readings stay below what splits water. Check the supply, and that the readings "
    "are in volts",
    "touching": "the readings stay near 0 V. The supply was off, the electrodes touched, or the readings are "
    "not in volts",
    "no_reading": "no two readings in a row are voltages, there is overload or nothing. Choose a higher "
    "range and lock it, check the leads",
}

SaltFinder = Callable[[float, float], Fall | None]
"""Looks for a lasting fall of the voltage between two run times."""


@dataclass(frozen=True, slots=True)
class Phase:
    """One phase of a run: ``dry``, ``before``, ``growth`` or ``after``, in run seconds."""

    phase: str
    begin_s: float
    end_s: float


@dataclass(frozen=True, slots=True)
class Phases:
    """The phases of a run, in order, and what must be said about them."""

    phases: tuple[Phase, ...]
    cautions: tuple[Caution, ...]

    def named(self, phase: str) -> Phase | None:
        """Return the phase of that name, or None."""
        return next((one for one in self.phases if one.phase == phase), None)


def divide_phases(
    states: Sequence[StateInterval],
    moments: Iterable[Moment],
    find_salt: SaltFinder | None = None,
    interval_s: float = 0.0,
) -> Phases:
    """Divide a run into its phases.

    Parameters
    ----------
    states : sequence of StateInterval
        From `recognise_states`.
    moments : iterable of Moment
        The living ones, in any order.
    find_salt : callable, optional
        Called with two run times where no salt moment is there; returns the fall of the voltage, if any.
    interval_s : float
        Usual time between two readings: a step of the voltage is seen up to two of them late.

    Returns
    -------
    Phases
        A phase that nothing supports is left out, with a caution.

    Notes
    -----
    Moments rule. ``before`` runs from the buffer to the salt, ``growth`` to the first of lift-out or swap
    afterwards, ``after`` from the last step of that swap to the next lift-out, salt, or the end. Each is cut
    to the electrolysis inside it, so that a moment tagged some seconds off does no harm. Where a moment is
    missing, the step in the voltage stands in, and a caution says so. A run without salt and without a fall
    (a blank) has no growth: everything up to the swap is ``before``.
    """
    return _Division(states, moments, find_salt, interval_s).divide()


class _Division:
    """One division in progress: what is known of the four marks, and what had to be said."""

    def __init__(
        self,
        states: Sequence[StateInterval],
        moments: Iterable[Moment],
        find_salt: SaltFinder | None,
        interval_s: float,
    ) -> None:
        self._off_s = FAR_OFF_S + 2.0 * interval_s, NEAR_S + 2.0 * interval_s
        """A moment so far beside a step is out of its place; further off it means another."""
        self._states = tuple(states)
        self._moments = sorted((one for one in moments if not one.removed), key=lambda one: one.time_s)
        self._find_salt = find_salt
        self._stretches = electrolysing_stretches(self._states)
        self._swaps = unexplained_swaps(self._states, self._moments)
        self._cautions: list[Caution] = []

    def divide(self) -> Phases:
        if not self._states:
            return Phases((), ())
        if not self._stretches:
            dry = self._dry(self._states[-1].end_s)
            instead = self._instead(self._states[0].begin_s, self._last_s)
            self._say("no_electrolysis", f"The cell never electrolysed: {instead}.", None)
            return Phases(dry, tuple(self._cautions))
        buffer_s = self._buffer_in()
        salt_s = self._time_of("salt_added")
        out_s, in_s = self._swap(self._begin_of_run(buffer_s) if salt_s is None else salt_s)
        salt_s = self._salt(buffer_s, salt_s, out_s)
        end_s = self._end_of_after(in_s)
        phases = [*self._dry(buffer_s if salt_s is None else min(buffer_s, salt_s))]
        before_end_s = salt_s if salt_s is not None else out_s
        if before_end_s is None or before_end_s > buffer_s:
            phases += self._phase("before", buffer_s, self._last_s if before_end_s is None else before_end_s)
        if salt_s is not None:
            phases += self._phase("growth", salt_s, self._last_s if out_s is None else out_s)
        if in_s is not None:
            phases += self._phase("after", in_s, end_s)
        return Phases(tuple(phases), tuple(self._cautions))

    def _instead(self, begin_s: float, end_s: float) -> str:
        """Return in words what the cell did most of a stretch without electrolysis, and what to look at."""
        lasted_s = {"no_reading": 0.0}
        for one in self._states:
            inside_s = min(one.end_s, end_s) - max(one.begin_s, begin_s)
            if inside_s >= 0.0 and one.state != "electrolysing":
                lasted_s[one.state] = lasted_s.get(one.state, 0.0) + inside_s
        return INSTEAD_OF_ELECTROLYSIS[max(lasted_s, key=lambda state: lasted_s[state])]

    @property
    def _last_s(self) -> float:
        return self._states[-1].end_s

    def _say(self, code: str, message: str, at_s: float | None) -> None:
        self._cautions.append(Caution(code, message, at_s))

    def _time_of(self, *kinds: str, after_s: float = float("-inf")) -> float | None:
        return next((one.time_s for one in self._moments if one.kind in kinds and one.time_s > after_s), None)

    def _dry(self, end_s: float) -> tuple[Phase, ...]:
        """The open cell at the beginning, up to the buffer."""
        is_open = any(one.state == "open" and one.begin_s < end_s for one in self._states)
        tagged = self._time_of("dry_cell")
        if not is_open and tagged is None:
            return ()
        opened = next((one for one in self._states if one.state == "open" and one.begin_s < end_s), None)
        begin_s = tagged if tagged is not None else opened.begin_s if opened else self._states[0].begin_s
        return (Phase("dry", begin_s, end_s),) if end_s > begin_s else ()

    def _buffer_in(self) -> float:
        seen_s = self._stretches[0].begin_s
        tagged_s = self._time_of("buffer_in")
        if tagged_s is None:
            self._say(
                "buffer_in_recognised",
                "No moment says when the buffer came in; the voltage shows it.",
                seen_s,
            )
            return seen_s
        self._check_place("buffer_in", tagged_s, (one.begin_s for one in self._stretches))
        return tagged_s

    def _begin_of_run(self, buffer_s: float) -> float:
        """Return from when on to look for the swap of a run without salt: not in a trial of the wiring."""
        begin_s = self._stretches[0].begin_s
        lasted_s = sum(max(0.0, min(one.end_s, buffer_s) - one.begin_s) for one in self._stretches)
        if not 0.0 < lasted_s <= LONGEST_TRIAL_S or not any(one.out_s < buffer_s for one in self._swaps):
            return begin_s
        self._say(
            "trial_before_buffer",
            f"The cell electrolysed for {lasted_s:.0f} s before the buffer was tagged: taken for a trial. If "
            "fresh buffer came in at that moment, call it 'Solution swapped'.",
            begin_s,
        )
        return buffer_s

    def _swap(self, after_s: float) -> tuple[float | None, float | None]:
        """Return when the electrodes left the salt solution and when they came into the new one.

        `after_s` : when the salt went in, or the run began.
        """
        lifts = tagged_lifts(self._moments, after_s)
        swap = the_swap(lifts)
        if swap is None:
            return self._seen_swap(after_s)
        self._tell_lifts(lifts, swap)
        if swap.came_back:
            return swap.out_s, swap.in_s
        seen = next((one for one in self._swaps if one.in_s > swap.out_s), None)
        if seen is None:
            self._say("no_return", "After the lift-out no electrolysis in new solution was seen.", swap.out_s)
            return swap.out_s, None
        self._say(
            "electrodes_in_recognised",
            "No moment says when the electrodes went back in; the voltage shows it.",
            seen.in_s,
        )
        return swap.out_s, seen.in_s

    def _tell_lifts(self, lifts: Sequence[TaggedLift], swap: TaggedLift) -> None:
        """Say where the swap was one of several lift-outs, or was tagged beside the one that is seen."""
        back = [one for one in lifts if one.came_back]
        if len(back) > 1 and not swap.is_into_new_solution:
            self._tell_several(len(back), swap.out_s)
        if swap.begins_with("electrodes_out"):
            self._check_place("electrodes_out", swap.out_s, (one.out_s for one in self._swaps))
        if any(swap.is_near(one.out_s, one.in_s) for one in self._swaps):
            return
        untagged = [
            one for one in self._swaps if not any(lift.is_near(one.out_s, one.in_s) for lift in lifts)
        ]
        if untagged:
            self._tell_off(swap.moments[0].kind, swap.out_s, untagged[-1].out_s)

    def _tell_several(self, number: int, last_s: float) -> None:
        self._say(
            "several_swaps",
            f"The electrodes were lifted out {number} times; the last time counts as the swap. Tag "
            "'Solution swapped' where it was one.",
            last_s,
        )

    def _seen_swap(self, after_s: float) -> tuple[float | None, float | None]:
        later = [one for one in self._swaps if one.out_s > after_s]
        if not later:
            self._say(
                "no_swap",
                "No swap to fresh buffer was tagged or seen, so there is no voltage after. "
                "Lift the electrodes out for some seconds when swapping, or tag the swap.",
                None,
            )
            self._tell_swap_before(after_s)
            return None, None
        if len(later) > 1:
            self._tell_several(len(later), later[-1].out_s)
        self._say(
            "swap_recognised",
            "No moment says when the solution was swapped; the voltage shows a lift-out.",
            later[-1].out_s,
        )
        return later[-1].out_s, later[-1].in_s

    def _tell_swap_before(self, salt_s: float) -> None:
        """Say that the lift-out of a run lies before its salt, not after it."""
        begun_s = self._stretches[0].begin_s
        swap = the_swap([one for one in tagged_lifts(self._moments, begun_s) if one.out_s < salt_s])
        if swap is not None:
            self._say(
                "swap_before_salt",
                f"The swap at {clock_text(swap.out_s)} lies before the salt at {clock_text(salt_s)}. If the "
                "salt was tagged too late, move its moment to where it went in.",
                salt_s,
            )

    def _salt(self, buffer_s: float, tagged_s: float | None, out_s: float | None) -> float | None:
        if tagged_s is not None:
            if tagged_s <= buffer_s:
                self._say(
                    "salt_before_buffer",
                    "The salt was tagged before the buffer came in, or with it, so there is no voltage "
                    "before. Move the moments to where they belong.",
                    tagged_s,
                )
            self._tell_more_salt(tagged_s, out_s)
            self._tell_late_salt(buffer_s, tagged_s)
            return tagged_s
        end_s = self._last_s if out_s is None else out_s
        fall = None if self._find_salt is None else self._find_salt(buffer_s, end_s)
        if fall is None:
            self._say(
                "no_salt",
                "No salt was tagged and no lasting fall of the voltage was seen: taken as a run without it.",
                None,
            )
            return None
        if not fall.was_settled:
            self._say(
                "salt_too_early",
                f"The voltage fell by {1000 * fall.total_V:.0f} mV without having settled first, and no "
                "moment says when the salt was added: what the bare electrodes need is not known.",
                fall.begin_s,
            )
            return buffer_s
        self._say(
            "salt_recognised",
            "No moment says when the salt was added; the voltage began to fall here. "
            "Warming or a change of stirring can look the same.",
            fall.begin_s,
        )
        return fall.begin_s

    def _tell_late_salt(self, buffer_s: float, tagged_s: float) -> None:
        """Say that the voltage fell as it does after salt, long before the salt was tagged."""
        if self._find_salt is None or tagged_s - buffer_s <= NEAR_S:
            return
        fall = self._find_salt(buffer_s, tagged_s)
        if fall is None or not fall.was_settled or fall.total_V < LEAST_LATE_FALL_V:
            return
        if fall.begin_s > buffer_s + START_UP_S and tagged_s - fall.begin_s > NEAR_S:
            self._say(
                "salt_late",
                f"From about {clock_text(fall.begin_s)} on the voltage fell by {1000 * fall.total_V:.0f} mV, "
                f"as after salt, but the salt is tagged at {clock_text(tagged_s)}. If it went in earlier, "
                "move its moment there; else the voltage before is not that of the bare electrodes.",
                tagged_s,
            )

    def _tell_more_salt(self, salt_s: float, out_s: float | None) -> None:
        end_s = self._last_s if out_s is None else out_s
        times = [one.time_s for one in self._moments if one.kind == "salt_added"]
        again = [at_s for at_s in times if salt_s < at_s < end_s]
        if again:
            self._say(
                "salt_again",
                f"The salt was tagged {len(again) + 1} times before the swap; the first counts, and what "
                "came later is part of the growth.",
                again[0],
            )

    def _end_of_after(self, in_s: float | None) -> float:
        if in_s is None:
            return self._last_s
        later = [one for one in self._moments if one.time_s > in_s]
        for one in later:
            is_lift_out = one.kind == "electrodes_out" and not self._means_the_swap(one, in_s)
            if one.kind == "salt_added" or is_lift_out:
                self._tell_end_of_after(one)
                return one.time_s
        return self._last_s

    def _tell_end_of_after(self, end: Moment) -> None:
        """Say where the voltage after ends long before the run does: another swap, or more salt."""
        again = [one for one in tagged_lifts(self._moments, end.time_s - 1e-6) if one.is_into_new_solution]
        if end.kind == "salt_added":
            words = "Salt was added again: the voltage after is that up to there."
        elif again:
            words = "The solution was swapped again: the voltage after is that up to there."
        else:
            return
        self._say("after_ended", words, end.time_s)

    def _means_the_swap(self, out: Moment, in_s: float) -> bool:
        """Tell whether a lift-out tagged soon after the swap means that one: no other is seen. Say so."""
        seen = [one.out_s for one in self._swaps if one.in_s <= out.time_s + FAR_OFF_S]
        goes_on = any(
            one.begin_s <= out.time_s - FAR_OFF_S and out.time_s + FAR_OFF_S <= one.end_s
            for one in self._stretches
        )
        if not seen or not goes_on or out.time_s - in_s > NEAR_S:
            return False
        self._tell_off(out.kind, out.time_s, seen[-1])
        return True

    def _phase(self, name: str, begin_s: float, end_s: float) -> list[Phase]:
        """Return the phase cut to the electrolysis inside it, as a list of one or none."""
        inside = [one for one in self._stretches if one.end_s > begin_s and one.begin_s < end_s]
        if not inside:
            instead = self._instead(begin_s, end_s)
            self._say(f"no_{name}", f"There is no electrolysis in the phase '{name}': {instead}.", begin_s)
            return []
        return [Phase(name, max(begin_s, inside[0].begin_s), min(end_s, inside[-1].end_s))]

    def _check_place(self, kind: str, tagged_s: float, seen: Iterable[float]) -> None:
        """Say when a moment lies well beside the step of the voltage that it must mean."""
        nearest = min(seen, key=lambda at_s: abs(at_s - tagged_s), default=None)
        least_s, most_s = self._off_s
        if nearest is not None and least_s < abs(nearest - tagged_s) <= most_s:
            self._tell_off(kind, tagged_s, nearest)

    def _tell_off(self, kind: str, tagged_s: float, seen_s: float) -> None:
        self._say(
            "moment_off",
            f"The moment '{KINDS[kind]}' is at {clock_text(tagged_s)}, but the voltage stepped at "
            f"{clock_text(seen_s)}; move the moment there if they belong together.",
            tagged_s,
        )
