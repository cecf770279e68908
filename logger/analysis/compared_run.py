"""One run as a comparison of several needs it: what it saved, and on which grounds it may be compared."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, Literal

import numpy as np

from logger.analysis.current_correction import GREATEST_CURRENT_CHANGE
from logger.analysis.damage import damaged_evidence
from logger.bench import parse_bench
from logger.bench_tables import Bench
from logger.errors import BenchError
from logger.recording import Recording

__all__ = ["ComparedRun", "Saving", "Voltage", "compared_run", "leave_out_copies", "leave_out_unlike"]

Kind = Literal["run", "blank"]

SAME_AREA = 0.01
"""Areas that differ by more are different electrodes (common practice, no source)."""

DISPLAYED_DECIMALS = 5

GAIN_LINE = "meter gain on the difference"


LEAST_CHANGES = 30
"""Changes from one reading to the next that two runs do not share by chance (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Voltage:
    """A settled voltage with its standard uncertainty (meter included)."""

    voltage_V: float
    standard_uncertainty_V: float
    is_settled: bool


@dataclass(frozen=True, slots=True)
class Saving:
    """What one run saved, its standard uncertainty and the half-width of its 95 % interval."""

    value_V: float
    standard_uncertainty_V: float
    expanded_uncertainty_V: float


@dataclass(frozen=True, slots=True)
class ComparedRun:
    """One run among several.

    Attributes
    ----------
    file, uuid, title, start_time : str
    kind : {"run", "blank"}
        A blank had no metal salt.
    kind_reason : str
        Why it counts as that.
    before, after : Voltage or None
    as_measured, at_equal_current : Saving or None
    meter_gain_uncertainty_V : float
        The share of the saving's uncertainty that all runs with the same meter have in common.
    current_before_A, anode_area_cm2 : float or None
    readings : str
        What tells its readings from all others; empty where that is not known.
    left_out : tuple of str
        Why the run is not in the statistics; empty where it is.
    outlier : {"none", "straggler", "outlier"}
        By Grubbs' test among the runs of its kind.
    """

    file: str
    uuid: str
    title: str
    start_time: str
    kind: Kind
    kind_reason: str
    before: Voltage | None
    after: Voltage | None
    as_measured: Saving | None
    at_equal_current: Saving | None
    meter_gain_uncertainty_V: float
    current_before_A: float | None
    anode_area_cm2: float | None
    bench: Bench
    readings: str = ""
    left_out: tuple[str, ...] = ()
    outlier: Literal["none", "straggler", "outlier"] = "none"

    def saved(self, at_equal_current: bool) -> Saving | None:
        """Return what the run saved, corrected to equal current or as measured."""
        return self.at_equal_current if at_equal_current else self.as_measured


def compared_run(recording: Recording, findings: Mapping[str, Any]) -> ComparedRun:
    """Return a run for comparison.

    Parameters
    ----------
    recording : Recording
    findings : mapping
        Its findings document (`logger.analysis.findings`).
    """
    kind, kind_reason = _kind(recording, findings)
    bench = _bench(recording)
    saved = findings["voltage_saved"]
    current = findings["current"]
    one = ComparedRun(
        file=str(recording.path),
        uuid=recording.uuid,
        title=recording.title,
        start_time=recording.start_time if recording.has_known_start else "",
        kind=kind,
        kind_reason=kind_reason,
        before=_voltage(findings["settled"]["before"]),
        after=_voltage(findings["settled"]["after"]),
        as_measured=_saving(saved, ""),
        at_equal_current=_saving(saved, "at_equal_current_"),
        meter_gain_uncertainty_V=_gain_V(saved),
        current_before_A=None if current is None else current["before_A"],
        anode_area_cm2=bench.cell.anode_area_cm2,
        bench=bench,
        readings=_fingerprint(recording),
    )
    damaged = damaged_evidence(recording)
    spoilt = [f"parts of its file are damaged ({', '.join(damaged)})"] if damaged else []
    return replace(one, left_out=(*spoilt, *_reasons(one, findings)))


def _fingerprint(recording: Recording) -> str:
    """Return a digest of all readings; empty where they are not in memory, or could agree by chance."""
    channel = recording.channel("cell_voltage")
    if channel is None or not isinstance(channel.values, np.ndarray):
        return ""
    has_changed = channel.values[1:] != channel.values[:-1]  # overload has no difference to itself
    if np.count_nonzero(has_changed) < LEAST_CHANGES:
        return ""
    return hashlib.sha256(np.ascontiguousarray(channel.values).data).hexdigest()


def leave_out_copies(runs: Sequence[ComparedRun]) -> tuple[ComparedRun, ...]:
    """Return the runs, those marked that hold the readings of another, or its voltages to the last digit.

    Two tables imported from one run, under two names, would otherwise pass for replicates without scatter.
    Voltages without digits beyond those of a display agree by chance, and are no copies. Where only one of
    the two has such digits, the uncertainties must agree as well.
    """
    first: dict[tuple[float, float], ComparedRun] = {}
    known: dict[str, ComparedRun] = {}
    marked = []
    for one in runs:
        same = known.setdefault(one.readings, one) if one.readings else one
        if same is not one:
            copied = f"its readings are those of {same.file}, one by one"
            marked.append(replace(one, left_out=(*one.left_out, copied)))
            continue
        if one.before is None or one.after is None:
            marked.append(one)
            continue
        digits = one.before.voltage_V, one.after.voltage_V
        if digits in first and _cannot_be_chance(one, first[digits]):
            copied = f"its readings are those of {first[digits].file}, to the last digit of both voltages"
            one = replace(one, left_out=(*one.left_out, copied))
        first.setdefault(digits, one)
        marked.append(one)
    return tuple(marked)


def _cannot_be_chance(one: ComparedRun, other: ComparedRun) -> bool:
    """Whether two runs with the same voltages must hold the same readings."""
    voltages = [voltage for voltage in (one.before, one.after) if voltage is not None]
    others = [voltage for voltage in (other.before, other.after) if voltage is not None]
    are_means = [abs(each.voltage_V - round(each.voltage_V, DISPLAYED_DECIMALS)) > 1e-9 for each in voltages]
    return all(are_means) or (any(are_means) and voltages == others)


def leave_out_unlike(runs: Sequence[ComparedRun]) -> tuple[ComparedRun, ...]:
    """Return the runs, those marked whose current or area is not that of most others.

    The current may differ by 10 % (beyond it a saving cannot be corrected), the area by 1 %. Of two halves
    the one with the first file counts. What is not known is not judged here.
    """
    usual_A = _usual([one.current_before_A for one in runs if not one.left_out], GREATEST_CURRENT_CHANGE)
    usual_cm2 = _usual([one.anode_area_cm2 for one in runs if not one.left_out], SAME_AREA)
    return tuple(_against(one, usual_A, usual_cm2) for one in runs)


def _against(one: ComparedRun, usual_A: float | None, usual_cm2: float | None) -> ComparedRun:
    reasons = list(one.left_out)
    if _differs(one.current_before_A, usual_A, GREATEST_CURRENT_CHANGE):
        reasons.append(
            f"its current of {1000 * (one.current_before_A or 0.0):.3g} mA is more than "
            f"{100 * GREATEST_CURRENT_CHANGE:g} % off the {1000 * (usual_A or 0.0):.3g} mA of the others"
        )
    if _differs(one.anode_area_cm2, usual_cm2, SAME_AREA):
        reasons.append(f"its anode has {one.anode_area_cm2:g} cm2, those of the others {usual_cm2:g} cm2")
    return replace(one, left_out=tuple(reasons))


def _differs(value: float | None, usual: float | None, share: float) -> bool:
    return value is not None and usual is not None and abs(value / usual - 1.0) > share


def _usual(values: Sequence[float | None], share: float) -> float | None:
    """Return the value that most others agree with; of several such, the first."""
    known = [one for one in values if one]
    if not known:
        return None
    return max(known, key=lambda one: sum(not _differs(other, one, share) for other in known))


def _kind(recording: Recording, findings: Mapping[str, Any]) -> tuple[Kind, str]:
    if any(one.kind == "salt_added" for one in recording.moments):
        return "run", "salt was tagged"
    if any(one["phase"] == "growth" for one in findings["phases"]):
        return "run", "no salt was tagged, but the voltage fell as it does after salt"
    return "blank", "no salt was tagged and no lasting fall was seen"


def _bench(recording: Recording) -> Bench:
    try:
        return parse_bench(recording.bench_toml)
    except BenchError:
        return Bench()  # the findings of the run say so


def _voltage(found: Mapping[str, Any] | None) -> Voltage | None:
    if found is None:
        return None
    return Voltage(found["voltage_V"], found["standard_uncertainty_V"], found["is_settled"])


def _saving(saved: Mapping[str, Any] | None, prefix: str) -> Saving | None:
    value = None if saved is None else saved[f"{prefix}V" if prefix else "value_V"]
    if saved is None or value is None:
        return None
    low, high = saved[f"{prefix}interval95_V"]
    return Saving(value, saved[f"{prefix}standard_uncertainty_V"], (high - low) / 2.0)


def _gain_V(saved: Mapping[str, Any] | None) -> float:
    lines = [] if saved is None else saved["budget"]
    return float(sum(one["standard_uncertainty_V"] for one in lines if one["source"] == GAIN_LINE))


def _reasons(one: ComparedRun, findings: Mapping[str, Any]) -> list[str]:
    if one.as_measured is None:
        said = {
            code: [each["message"].rstrip(".") for each in findings["warnings"] if each["code"] == code]
            for code in ("no_swap", "no_settled_before", "no_settled_after", "no_readings", "no_saving")
        }
        others = [message for code, messages in said.items() if code != "no_saving" for message in messages]
        words = "; ".join(others or said["no_saving"])
        return [f"it shows no voltage saved ({words})" if words else "it shows no voltage saved"]
    return [
        f"its voltage {name} had not settled"
        for name, voltage in (("before", one.before), ("after", one.after))
        if voltage is not None and not voltage.is_settled
    ]
