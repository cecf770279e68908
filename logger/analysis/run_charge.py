"""The charge that passed in a run: its states, its supply and its moments together."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from logger.analysis.caution import Cautions
from logger.analysis.charge import Charge, charge_of_pieces, gap_limit_s
from logger.analysis.evidence import Evidence
from logger.analysis.phase_window import lead_lifts
from logger.analysis.plateau_current import resistor_changes
from logger.analysis.readings import bounds_of, slices_of, step_bounds
from logger.analysis.refusal import Refused
from logger.analysis.run_current import CurrentSource
from logger.analysis.seen_swaps import electrolysing_stretches
from logger.analysis.states import STEPS_LOOKED_AT, StateInterval
from logger.progress import Progress
from logger.recording import Recording

__all__ = ["charge_of_run"]

CHANGES_THE_CELL = (
    "electrodes_out", "electrodes_in", "solution_swapped", "resistor_changed", "lead_lifted", "lead_back",
)  # fmt: skip

MOST_UNDRIVEN_SHARE = 0.01
"""Of the readings of an electrolysing cell that may lie above the stack that drives it: spikes, no more."""


def charge_of_run(
    recording: Recording,
    source: CurrentSource,
    evidence: Evidence,
    cautions: Cautions,
    progress: Progress | None = None,
    *,
    between: tuple[float, float] | None = None,
) -> Charge | None:
    """Return the charge that passed, or None where nothing electrolysed or the current is not known.

    Parameters
    ----------
    recording : Recording
        Its moments say when the cell was touched, and the resistor changed.
    source : CurrentSource
        That of the first resistor.
    evidence : Evidence
    cautions : Cautions
        Takes what the reader must know.
    progress : Progress, optional
        Is told how far the work is, and may stop it.
    between : (float, float), optional
        Run times; only what passed from one to the other counts. None: the whole run.
    """
    stretches = electrolysing_stretches(evidence.states)
    if not stretches:
        return None
    if not source.is_known:
        cautions.say(
            "no_current",
            f"Current, charge and gas need {' and '.join(source.missing)} in the bench file.",
        )
        return None
    if source.assumed:
        cautions.say("supply_assumed", f"Assumed for the current: {'; '.join(source.assumed)}.")
    events = [one.time_s for one in recording.moments if one.kind in CHANGES_THE_CELL]
    part = slice(0, evidence.times_s.size) if between is None else evidence.within(*between)
    currents = _Currents(recording, source, evidence, stretches, part, progress or Progress())
    try:
        passed = charge_of_pieces(
            currents,
            gap_limit_s=gap_limit_s(np.diff(evidence.times_s[:STEPS_LOOKED_AT])),
            events_s=events,
            greatest_current_A=_greatest_A(recording, source),
        )
    except Refused as refusal:
        cautions.say("no_charge", f"The charge was not found: {refusal.explained}.")
        return None
    if currents.undriven_share > MOST_UNDRIVEN_SHARE:
        cautions.say(
            "no_charge",
            "The charge was not found: the cell stood above the stack of the bench file, which cannot drive "
            "it then. Check supply.stack_voltage_V and the range of the meter.",
        )
        return None
    return passed


def _greatest_A(recording: Recording, source: CurrentSource) -> float | None:
    """Return the largest current that the supply could drive with any of the resistors of the run."""
    sources = [source, *(source.with_resistor(ohm) for _, ohm in resistor_changes(recording.moments))]
    return max((one.greatest_A for one in sources if one.greatest_A is not None), default=None)


class _Currents:
    """Times, currents and which readings electrolyse, a piece at a time; counts what no stack can drive."""

    def __init__(
        self,
        recording: Recording,
        source: CurrentSource,
        evidence: Evidence,
        stretches: tuple[StateInterval, ...],
        part: slice,
        progress: Progress,
    ) -> None:
        self._part = part
        self._progress = progress
        self._source = source
        self._evidence = evidence
        # A stretch ends with the first reading of the next state.
        self._active = [
            evidence.within(one.begin_s, np.nextafter(one.end_s, one.begin_s)) for one in stretches
        ]
        self._lifted = [evidence.within(*lift) for lift in lead_lifts(recording.moments)]
        self._changes = [
            (evidence.within(at_s, np.inf).start, source.with_resistor(ohm))
            for at_s, ohm in resistor_changes(recording.moments)
        ]
        self._seen = self._undriven = 0

    @property
    def undriven_share(self) -> float:
        """Which share of the electrolysing readings so far lay above the stack."""
        return self._undriven / self._seen if self._seen else 0.0

    def __iter__(self) -> Iterator[tuple[NDArray[np.float64], NDArray[np.float64], NDArray[np.bool_]]]:
        evidence = self._evidence
        for piece in slices_of(self._part.start, self._part.stop):
            self._progress.reach(piece.start / evidence.times_s.size)
            magnitudes = evidence.magnitude_V[piece]
            currents = self._source.series_A(magnitudes)
            for first, source in self._changes:
                later = slice(max(first - piece.start, 0), None)
                currents[later] = source.series_A(magnitudes[later])
            is_active = np.zeros(magnitudes.size, dtype=np.bool_)
            for one in self._active:
                is_active[max(one.start - piece.start, 0) : max(one.stop - piece.start, 0)] = True
            for one in self._lifted:
                is_active[max(one.start - piece.start, 0) : max(one.stop - piece.start, 0)] = False
            if bounds_of(evidence.magnitude_V, piece) is None:  # there may be overload: no current is known
                currents[is_active & np.isinf(magnitudes)] = np.nan
            self._seen += int(np.count_nonzero(is_active))
            self._undriven += int(np.count_nonzero(is_active & (currents < 0.0)))
            times = evidence.times_s[piece]
            longest_s = step_bounds(evidence.times_s, piece)[1]
            evidence.averages.take(piece.start, times, magnitudes, longest_s)
            yield times, currents, is_active
