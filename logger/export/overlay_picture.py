"""Several runs over one another, and what each saved beside it, as shapes for paper.

Runs are told apart by numbers; colour only says of which group a run is.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from logger.alignment import START, zero_s
from logger.analysis.compared_run import ComparedRun
from logger.analysis.run_comparison import Group, RunComparison
from logger.channel_overview import overview_of
from logger.export.drawing import Bars, Disc, Drawing, Line, Rect, Shape, Text
from logger.export.picture import is_simulated
from logger.export.plot import (
    BAND,
    COLUMN_MM,
    CURVE,
    INK,
    LINE_MM,
    MOMENT,
    QUIET,
    RULE,
    SETTLED,
    Frame,
    spread,
)
from logger.overview import gap_between
from logger.quantity import plain, with_uncertainty
from logger.recording import Recording
from logger.scale import (
    marks,
    round_step,
    steady_range,
    time_label,
    time_step,
    voltage_label,
    voltages_to_show,
)
from logger.trace import touching

__all__ = [
    "OverlayRun",
    "alignment_of",
    "colour_of",
    "comparison_picture",
    "describe_comparison",
    "key_words",
    "number_disc",
    "origin_of",
    "overlay",
    "reduced",
    "savings",
]

FLAGGED, LEFT_OUT = "#b34700", "#838d91"
COLUMNS = 1400
ALIGNED_AT = ("phase:before", START)
_WORDS = {START: "its start", "phase:before": "the beginning of “before”"}


@dataclass(frozen=True, slots=True)
class OverlayRun:
    """One run, reduced to what its curve on paper needs: smallest and largest voltage of short stretches.

    `begin_s`, `low_V`, `high_V`: filled columns of `column_s` seconds in run time; `is_joined` (one fewer)
    tells which neighbours hang together. `recording` has no samples any more. Of a run that was read with
    reversed leads the voltages are magnitudes: `is_turned`.
    """

    recording: Recording
    findings: Mapping[str, Any]
    begin_s: NDArray[np.float64]
    column_s: float
    low_V: NDArray[np.float64]
    high_V: NDArray[np.float64]
    is_simulated: bool = False
    is_turned: bool = False


def reduced(recording: Recording, findings: Mapping[str, Any]) -> OverlayRun:
    """Return a run without its readings, so that many long ones fit into memory."""
    channel = recording.channel("cell_voltage")
    end_s = max(recording.duration_s, 1.0)
    edges_s = np.linspace(0.0, end_s, COLUMNS + 1)
    light = replace(recording, channels=())
    if channel is None or not channel.times_s.size:
        none = np.empty(0)
        return OverlayRun(light, findings, none, end_s / COLUMNS, none, none)
    overview = overview_of(channel, recording.gaps)
    columns = overview.columns(edges_s)
    number = np.flatnonzero(columns.has_data & np.isfinite(columns.low))
    begin_s = edges_s[number]
    low, high = columns.low[number], columns.high[number]
    is_turned = any(one.get("code") == "leads_reversed" for one in findings.get("warnings") or ())
    if is_turned:
        backwards = high < 0
        low, high = np.where(backwards, -high, low), np.where(backwards, -low, high)
    broken = gap_between(overview.gaps_s, begin_s) | (np.diff(number) > 1)
    low, high = touching(low, high, ~broken)
    return OverlayRun(light, findings, begin_s, end_s / COLUMNS, low, high, is_simulated(channel), is_turned)


def alignment_of(runs: Sequence[OverlayRun]) -> tuple[str, str]:
    """Return at what the runs are laid over one another, as a key of `logger.alignment` and in words."""
    for key in ALIGNED_AT:
        if all(zero_s(key, run.recording, run.findings) is not None for run in runs):
            return key, _WORDS[key]
    return START, _WORDS[START]


def overlay(runs: Sequence[OverlayRun], comparison: RunComparison, frame: Frame) -> list[Shape]:
    """Return the curves in one frame, each with its number where it ends."""
    key, words = alignment_of(runs)
    zeros_s = [zero_s(key, run.recording, run.findings) or 0.0 for run in runs]
    placed = _Overlay(runs, zeros_s, frame)
    turned = "; readings of reversed leads as magnitudes" if any(run.is_turned for run in runs) else ""
    shapes = placed.axes(f"Time since {words}{turned}")
    # Runs with salt lie on top: blanks and those left out first.
    order = sorted(range(len(runs)), key=lambda i: _rank(comparison.runs[i]))
    for i in order:
        shapes += placed.curve(i, colour_of(comparison.runs[i]))
    return shapes + placed.numbers([colour_of(one) for one in comparison.runs])


def colour_of(run: ComparedRun) -> str:
    """Return the colour of a run's group."""
    if run.left_out:
        return LEFT_OUT
    if run.outlier != "none":
        return FLAGGED
    return CURVE if run.kind == "run" else QUIET


def _rank(run: ComparedRun) -> int:
    return 0 if run.left_out else 1 if run.kind == "blank" else 2


class _Overlay:
    """A frame for several curves on one scale."""

    def __init__(self, runs: Sequence[OverlayRun], zeros_s: Sequence[float], frame: Frame) -> None:
        self._runs, self._zeros_s, self._frame, self._k = runs, zeros_s, frame, frame.scale
        begins = [-zero for zero in zeros_s]
        ends = [run.recording.duration_s - zero for run, zero in zip(runs, zeros_s, strict=True)]
        self._begin_s, self._end_s = min(begins), max(*ends, min(begins) + 1.0)
        low = np.concatenate([run.low_V for run in runs])
        high = np.concatenate([run.high_V for run in runs])
        self._low_V, self._high_V = steady_range(voltages_to_show(low, high) or (0.0, 3.0), None)

    def _x(self, time_s: Any) -> Any:
        share = (time_s - self._begin_s) / (self._end_s - self._begin_s)
        return self._frame.left_mm + (self._frame.right_mm - self._frame.left_mm) * share

    def _y(self, voltage_V: Any) -> Any:
        frame = self._frame
        share = (voltage_V - self._low_V) / (self._high_V - self._low_V)
        return np.clip(
            frame.bottom_mm - (frame.bottom_mm - frame.top_mm) * share, frame.top_mm, frame.bottom_mm
        )

    def axes(self, words: str) -> list[Shape]:
        frame, k, size_pt = self._frame, self._k, self._frame.type_pt
        right = frame.left_mm - 3 * k
        shapes: list[Shape] = [Text(right, frame.top_mm - 4 * k, "V", size_pt, QUIET, "right")]
        step_V = round_step(self._high_V - self._low_V, min(8.0, (frame.bottom_mm - frame.top_mm) / (7 * k)))
        for voltage_V in marks(self._low_V, self._high_V, step_V):
            y = float(self._y(voltage_V))
            shapes += [
                Line(frame.left_mm, y, frame.right_mm, y, RULE, 0.15),
                Text(right, y + 1.1 * k, voltage_label(voltage_V, step_V), size_pt, QUIET, "right"),
            ]
        step_s = time_step(self._end_s - self._begin_s, 8)
        for time_s in marks(self._begin_s, self._end_s, step_s):
            x = float(self._x(time_s))
            text = ("−" if time_s < 0 else "") + time_label(abs(time_s), step_s)
            shapes += [
                Line(x, frame.bottom_mm, x, frame.bottom_mm + k, QUIET, 0.15),
                Text(x, frame.bottom_mm + 4.6 * k, text, size_pt, QUIET, "middle"),
            ]
        shapes += [
            Line(frame.left_mm, frame.bottom_mm, frame.right_mm, frame.bottom_mm, QUIET, 0.15),
            Text(frame.left_mm, frame.bottom_mm + 9 * k, words, 0.94 * size_pt, QUIET),
        ]
        return shapes

    def curve(self, place: int, colour: str) -> list[Shape]:
        run = self._runs[place]
        inside = (run.high_V >= self._low_V) & (run.low_V <= self._high_V)
        if not inside.any():
            return []
        top, bottom = self._y(run.high_V[inside]), self._y(run.low_V[inside])
        thin = np.maximum(LINE_MM - (bottom - top), 0) / 2
        x = self._x(run.begin_s[inside] - self._zeros_s[place])
        width = max(float(self._x(run.column_s) - self._x(0.0)), COLUMN_MM / 10)
        return [Bars(np.stack([x, top - thin, bottom - top + 2 * thin], axis=1), width, colour)]

    def numbers(self, colours: Sequence[str]) -> list[Shape]:
        """Numbers beside the ends of the curves, moved apart where they crowd."""
        k, frame = self._k, self._frame
        ends = []
        for place, run in enumerate(self._runs):
            if run.low_V.size:
                y = float(self._y((run.low_V[-1] + run.high_V[-1]) / 2))
                x = float(self._x(run.begin_s[-1] + run.column_s - self._zeros_s[place]))
                ends.append((y, x, place))
        ends.sort()
        places = spread([end[0] for end in ends], 3.7 * k, frame.top_mm, frame.bottom_mm)
        shapes: list[Shape] = []
        for (y, x, place), at in zip(ends, places, strict=True):
            shapes += [
                Line(x, y, frame.right_mm + 2.5 * k, at, colours[place], 0.12),
                *number_disc(frame.right_mm + 4.2 * k, at, place + 1, colours[place], k),
            ]
        return shapes


def number_disc(x_mm: float, y_mm: float, number: int, colour: str, scale: float = 1.0) -> list[Shape]:
    """Return the disc with the number of a run."""
    size_pt = (6.3 if number < 100 else 5.0) * scale
    dark = INK if colour == LEFT_OUT else "#ffffff"
    return [
        Disc(x_mm, y_mm, 1.75 * scale, colour),
        Text(x_mm, y_mm + 0.83 * scale, str(number), size_pt, dark, "middle", "semibold"),
    ]


def savings(comparison: RunComparison, frame: Frame) -> list[Shape]:
    """Return what each run saved with its 95 % interval, and the mean of each group with its own, in rows.

    Rows lie between top and bottom of the frame, in the order given; the band is the interval of the mean.
    """
    found = [one.saved(comparison.at_equal_current) or one.as_measured for one in comparison.runs]
    ends = [
        1000 * (one.value_V + sign * one.expanded_uncertainty_V) for one in found if one for sign in (-1, 1)
    ]
    for group in (comparison.with_salt, comparison.blanks):
        ends += [] if group.statistics is None else [1000 * end for end in group.statistics.interval95]
    k, size_pt = frame.scale, frame.type_pt
    if not ends:
        return [Text(frame.left_mm, frame.top_mm + 4, "No run shows a voltage saved.", size_pt, QUIET)]
    low, high = min(0.0, *ends), max(0.0, *ends)
    step = round_step(max(high - low, 1.0), 8)

    def x(value_mV: float) -> float:
        return frame.left_mm + (frame.right_mm - frame.left_mm) * (value_mV - low) / max(high - low, 1.0)

    shapes: list[Shape] = []
    for mark in marks(low, high, step):
        shapes += [
            Line(x(mark), frame.top_mm, x(mark), frame.bottom_mm, QUIET if mark == 0 else RULE, 0.15),
            Text(x(mark), frame.bottom_mm + 4 * k, plain(mark, 0), size_pt, QUIET, "middle"),
        ]
    shapes.append(Text(frame.right_mm, frame.bottom_mm + 8 * k, "mV saved", size_pt, QUIET, "right"))
    row_mm = (frame.bottom_mm - frame.top_mm) / max(len(found), 1)
    for group, kind in ((comparison.with_salt, "run"), (comparison.blanks, "blank")):
        shapes += _mean_band(group, kind, comparison, x, frame, row_mm)
    for place, (run, saved) in enumerate(zip(comparison.runs, found, strict=True)):
        y, colour = frame.top_mm + (place + 0.5) * row_mm, colour_of(run)
        shapes += number_disc(frame.left_mm - 3.5 * k, y, place + 1, colour, min(k, row_mm / 3.8))
        if saved is None:
            shapes.append(Text(frame.left_mm + 1, y + 0.8 * k, "not known", 0.9 * size_pt, QUIET))
            continue
        value, half = 1000 * saved.value_V, 1000 * saved.expanded_uncertainty_V
        shapes += [
            Line(x(value - half), y, x(value + half), y, colour, 0.5 * k),
            Disc(x(value), y, 0.9 * k, colour),
        ]
    return shapes


def _mean_band(
    group: Group, kind: str, comparison: RunComparison, x: Any, frame: Frame, row_mm: float
) -> list[Shape]:
    """The interval of a group's mean behind the rows of that group, and the mean as a line."""
    if group.statistics is None:
        return []
    rows = [i for i, one in enumerate(comparison.runs) if one.kind == kind and not one.left_out]
    top, bottom = frame.top_mm + rows[0] * row_mm, frame.top_mm + (rows[-1] + 1) * row_mm
    low, high = (1000 * end for end in group.statistics.interval95)
    left, right = max(x(low), frame.left_mm), min(x(high), frame.right_mm)
    mean = x(1000 * group.statistics.mean)
    return [
        Rect(left, top, max(right - left, 0.2), bottom - top, BAND),
        Line(mean, top, mean, bottom, SETTLED, 0.4),
    ]


def comparison_picture(runs: Sequence[OverlayRun], comparison: RunComparison, title: str) -> Drawing:
    """Return the picture of a comparison: curves over one another, and below them what each saved."""
    count = len(runs)
    ladder_mm = max(16.0, 5.0 * count)
    top = 38.0
    shapes: list[Shape] = [
        Text(12, 16, title, 16, INK, weight="semibold"),
        Text(12, 22.5, key_words(comparison), 8.5, QUIET),
        Text(12, 28.5, origin_of(runs), 8.5, MOMENT, weight="semibold"),
        *overlay(runs, comparison, Frame(27.0, 232.0, top, top + 78.0)),
        *savings(comparison, Frame(27.0, 232.0, top + 98.0, top + 98.0 + ladder_mm)),
    ]
    height = top + 98.0 + ladder_mm + 14.0
    return Drawing(254.0, height, tuple(shapes), title, describe_comparison(comparison))


def origin_of(runs: Sequence[OverlayRun]) -> str:
    """Return the words that say which runs are invented; empty where none is."""
    simulated = [str(number) for number, run in enumerate(runs, 1) if run.is_simulated]
    if not simulated:
        return ""
    which = "" if len(simulated) == len(runs) else f" (runs {', '.join(simulated)})"
    return f"Simulated cell: invented data{which}"


def key_words(comparison: RunComparison) -> str:
    """Return what the colours mean, as far as they occur."""
    found = {colour_of(one) for one in comparison.runs}
    words = ((CURVE, "blue: with salt"), (QUIET, "grey: blank"), (FLAGGED, "orange: lies off the others"),
             (LEFT_OUT, "light grey: not in the statistics"))  # fmt: skip
    return "Numbers as in the table; " + ", ".join(text for colour, text in words if colour in found) + "."


def describe_comparison(comparison: RunComparison) -> str:
    """Return in words what the picture shows."""
    parts = [f"Cell voltage of {len(comparison.runs)} runs over one another, and what each saved."]
    for words, group in (("With salt", comparison.with_salt), ("Blanks", comparison.blanks)):
        if group.statistics is not None:
            found = group.statistics
            mean = with_uncertainty(1000 * found.mean, 1000 * found.expanded_uncertainty, "mV")
            parts.append(f"{words}: {mean} on average of {found.count}.")
    return " ".join(parts)
