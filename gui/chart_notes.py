"""What the chart is told besides the curve, made from what the logger knows. No Qt."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from gui.chart.notes import Level, Notes, PhaseBand, Saving
from gui.live_texts import saved_words
from gui.numbers import plain, with_uncertainty
from gui.words import translate
from logger.moments import Moment

if TYPE_CHECKING:
    from logger.assessment_view import AssessmentView, LivePlateau
    from logger.recording import Recording

__all__ = ["findings_notes", "is_sure_so_far", "live_notes", "saving_caption"]


def live_notes(
    view: AssessmentView | None,
    moments: tuple[Moment, ...],
    last: tuple[float, float] | None,
    *,
    is_over: bool = False,
) -> Notes:
    """Return the notes of a run in progress; `last` is the newest sample (seconds, volts).

    `is_over` : the run has ended, and its findings follow.
    """
    if last is not None and not math.isfinite(last[1]):
        last = None
    if view is None:
        return Notes(moments, last=last)
    phases = _live_phases(view)
    found = {name: one for name, one in (("before", view.before), ("after", view.after)) if one is not None}
    levels = {name: _live_level(name, one, view.voltage_V or 1.0) for name, one in found.items()}
    saving, words = None, saved_words(view)
    if view.before is not None and view.saved is not None and words is not None and last is not None:
        present_V = math.copysign(view.before.voltage_V - view.saved.value_V, last[1])
        saving = Saving(
            levels["before"],
            last[0],
            present_V,
            saving_caption(is_over=is_over),
            words,
            is_sure=is_sure_so_far(view, is_over=is_over),
        )
    return Notes(moments, phases, tuple(levels.values()), saving, last)


def saving_caption(*, is_over: bool) -> str:
    """Return what stands above the voltage saved of a run in progress, or of one that has just ended."""
    if is_over:
        return translate("Chart", "saved so far, not final")
    return translate("Chart", "saved so far")


def is_sure_so_far(view: AssessmentView, *, is_over: bool = False) -> bool:
    """As `is_sure`, of a run in progress; the present voltage need not have settled yet.

    Never where the run `is_over`: nothing is judged any more then, and readings that had waited for the disk
    may have come after the last look. What they change the findings tell.
    """
    levels = [level for level in (view.before, view.after) if level is not None]
    if is_over or view.saved is None or not all(level.is_settled for level in levels):
        return False
    return abs(view.saved.value_V) > view.saved.expanded_uncertainty_V


def _live_level(name: str, found: LivePlateau, sign: float) -> Level:
    """Return a settled stretch with the sign that the meter shows, and how wide its readings leave it."""
    return Level(
        found.begin_s,
        found.end_s,
        math.copysign(found.voltage_V, sign),
        2 * found.standard_uncertainty_V,
        _words(name, False, found.is_settled).format(voltage=plain(found.voltage_V, 3, "V")),
        found.is_settled,
    )


def _live_phases(view: AssessmentView) -> tuple[PhaseBand, ...]:
    """The phases so far; the present one is open-ended, so that its band grows with the curve."""
    found = []
    for phase in view.phases:
        goes_on = phase is view.phases[-1] and phase.phase == view.phase
        found.append(PhaseBand(phase.phase, phase.begin_s, None if goes_on else phase.end_s))
    return tuple(found)


def findings_notes(
    recording: Recording, findings: dict[str, Any], moments: tuple[Moment, ...] | None = None
) -> Notes:
    """Return the notes of a finished run; any quantity may be missing.

    `moments` : those of the recording, unless they have been changed and it does not hold them yet.
    """
    phases = tuple(PhaseBand(p["phase"], p["begin_s"], p["end_s"]) for p in findings.get("phases") or ())
    levels = {
        name: _level(found, name)
        for name, found in (findings.get("settled") or {}).items()
        if found and found.get("voltage_V") is not None
    }
    saved = findings.get("voltage_saved") or {}
    saving = None
    if {"before", "after"} <= levels.keys() and saved.get("value_V") is not None:
        after = levels["after"]
        words = with_uncertainty(1000 * saved["value_V"], 1000 * expanded_V(saved), "mV")
        saving = Saving(
            levels["before"],
            after.end_s,
            after.voltage_V,
            translate("Chart", "saved"),
            words,
            is_sure=is_sure(findings),
        )
    return Notes(recording.moments if moments is None else moments, phases, tuple(levels.values()), saving)


def expanded_V(saved: dict[str, Any]) -> float:
    """Return the half-width of the 95 % interval of the voltage saved, in volts."""
    return float((saved.get("standard_uncertainty_V") or 0.0) * (saved.get("coverage_factor") or 2.0))


def is_sure(findings: dict[str, Any]) -> bool:
    """Tell whether a saving is shown: both voltages had settled, and the 95 % interval does not hold zero."""
    saved = findings.get("voltage_saved") or {}
    levels = [level for level in (findings.get("settled") or {}).values() if level]
    if saved.get("value_V") is None or any(level.get("is_settled") is False for level in levels):
        return False
    return abs(float(saved["value_V"])) > expanded_V(saved)


def _level(found: dict[str, Any], name: str) -> Level:
    is_settled = found.get("is_settled") is not False
    text = _words(name, bool(found.get("chosen_by_hand")), is_settled)
    return Level(
        found["window_begin_s"],
        found["window_end_s"],
        found["voltage_V"],
        0.0,  # the combined uncertainty is mostly the meter's, common to both levels: a band would mislead
        text.format(voltage=plain(found["voltage_V"], 3, "V")),
        is_settled,
    )


def _words(name: str, is_by_hand: bool, is_settled: bool) -> str:
    """Return what stands beside a level, with a place for its voltage."""
    if is_by_hand:
        by_hand = {
            "before": translate("Chart", "{voltage} before, chosen by hand"),
            "after": translate("Chart", "{voltage} after, chosen by hand"),
        }
        return by_hand.get(name, "{voltage}")
    return {
        ("before", True): translate("Chart", "{voltage} before"),
        ("before", False): translate("Chart", "{voltage} before, not settled"),
        ("after", True): translate("Chart", "{voltage} after"),
        ("after", False): translate("Chart", "{voltage} after, not settled"),
    }.get((name, is_settled), "{voltage}")
