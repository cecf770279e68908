"""The curve of a run in its frame, as shapes: axes, phases, moments, gaps, settled stretches, the fall.

Serves the picture, the report and, without a painter, whoever wants shapes.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from logger.channel_overview import overview_of
from logger.export.drawing import Bars, Disc, Line, Polygon, Polyline, Rect, Shape, Text
from logger.export.label_room import Box, LabelRoom, Place, box_of
from logger.export.letter_widths import text_width_mm
from logger.overview import Overview
from logger.quantity import plain, with_uncertainty
from logger.recording import ChannelData, Recording
from logger.scale import (
    marks,
    round_step,
    steady_range,
    time_label,
    time_step,
    voltage_label,
    voltages_to_show,
)
from logger.trace import Trace, trace

__all__ = [
    "BAND",
    "CURVE",
    "INK",
    "MOMENT",
    "QUIET",
    "RULE",
    "SETTLED",
    "Frame",
    "Plot",
    "is_provisional",
    "is_sure",
    "mark_width_mm",
    "numbered",
    "saved_text",
    "saving_colour",
    "spread",
]

INK, QUIET, RULE = "#1d2327", "#5e666b", "#dddad2"
CURVE, MOMENT, SETTLED, BAND = "#0b5fa5", "#8a3d7a", "#0b7a55", "#eceae4"

COLUMN_MM = 0.12
"""Width of a column of the curve: just below a dot at 200 dots per inch."""

LINE_MM = 0.3
NOT_SETTLED_DASH_MM = (1.8, 1.2)
USUAL_TYPE_PT = 8.5
MOST_LINES = 40
"""More moments than that, each 4 mm of a page, hide the curve with their lines (by looking, no source)."""
MARK_RADIUS_MM, MARK_RIM_MM, MARK_APART_MM = 1.75, 0.35, 0.2
LABEL_ROWS = 6
"""How many rows above and below a settled stretch are tried for its label."""


BREAK_MM = 0.5
"""How far the lines of moments keep off labels."""


@dataclass(frozen=True, slots=True)
class Frame:
    """Where the curve lies on the paper, and how large its labels are. Labels and discs lie around it."""

    left_mm: float
    right_mm: float
    top_mm: float
    bottom_mm: float
    type_pt: float = USUAL_TYPE_PT

    @property
    def scale(self) -> float:
        """Sizes of what surrounds the curve, against those of the usual picture."""
        return self.type_pt / USUAL_TYPE_PT


def saved_text(findings: dict[str, Any]) -> str | None:
    """Return the voltage saved with its 95 % uncertainty in mV, or None when it is not known."""
    saved = findings.get("voltage_saved") or {}
    if saved.get("value_V") is None:
        return None
    expanded_V = (saved.get("standard_uncertainty_V") or 0.0) * (saved.get("coverage_factor") or 2.0)
    return with_uncertainty(1000 * saved["value_V"], 1000 * expanded_V, "mV")


def is_sure(findings: dict[str, Any]) -> bool:
    """Tell whether a saving is shown: both voltages had settled, and the 95 % interval does not hold zero."""
    saved = findings.get("voltage_saved") or {}
    if saved.get("value_V") is None or is_provisional(findings):
        return False
    expanded_V = (saved.get("standard_uncertainty_V") or 0.0) * (saved.get("coverage_factor") or 2.0)
    return bool(abs(saved["value_V"]) > expanded_V)


def is_provisional(findings: dict[str, Any]) -> bool:
    """Tell whether a level that the saving rests on had not settled."""
    levels = (findings.get("settled") or {}).values()
    return any(level and not _is_settled(level) for level in levels)


def saving_colour(findings: dict[str, Any]) -> str:
    """Return the colour of a saving: green only where it is sure, as on the screen."""
    return SETTLED if is_sure(findings) else INK


def _is_settled(level: dict[str, Any]) -> bool:
    return level.get("is_settled") is not False


def _level_colour(level: dict[str, Any]) -> str:
    return SETTLED if _is_settled(level) else QUIET


def mark_width_mm(number: int, scale: float = 1.0) -> float:
    """Return how wide the mark of a moment is: a disc, longer for a number of three digits or more."""
    if number < 100:
        return 2 * MARK_RADIUS_MM * scale
    text_mm = text_width_mm(str(number), _number_pt(number), "semibold")
    return max(2 * MARK_RADIUS_MM, text_mm + 2 * MARK_RIM_MM) * scale


def _number_pt(number: int) -> float:
    return 6.3 if number < 100 else 5.0


def numbered(x_mm: float, y_mm: float, number: int, scale: float = 1.0) -> list[Shape]:
    """Return the mark with a number that stands for a moment, its middle at the point."""
    size_pt, radius_mm = _number_pt(number) * scale, MARK_RADIUS_MM * scale
    width_mm = mark_width_mm(number, scale)
    ground: Shape = Disc(x_mm, y_mm, radius_mm, MOMENT)
    if width_mm > 2 * radius_mm:
        left, top = x_mm - width_mm / 2, y_mm - radius_mm
        ground = Rect(left, top, width_mm, 2 * radius_mm, MOMENT, radius_mm=radius_mm)
    return [
        ground,
        Text(x_mm, y_mm + 0.83 * scale, str(number), size_pt, "#ffffff", "middle", "semibold"),
    ]


class Plot:
    """The curve of one recording in a frame: maps run seconds and volts to millimetres, and makes shapes."""

    def __init__(self, recording: Recording, channel: ChannelData | None, frame: Frame) -> None:
        self._recording, self._frame, self._k = recording, frame, frame.scale
        self._end_s = max(recording.duration_s, 1.0) * 1.01
        self._columns = int((frame.right_mm - frame.left_mm) / COLUMN_MM)
        overview = Overview() if channel is None else overview_of(channel, recording.gaps)
        self._overview = overview
        self._trace: Trace = trace(overview, 0.0, self._end_s / self._columns, self._columns)
        shown = voltages_to_show(self._trace.columns.low, self._trace.columns.high) or (0.0, 3.0)
        self._low_V, self._high_V = steady_range(shown, None)

    def shapes(self, findings: dict[str, Any]) -> list[Shape]:
        """Return everything there is to show, the lowest layer first."""
        settled = self.settled(findings)
        return [
            *self.axes(),
            *self.phases(findings.get("phases") or []),
            *self.moments([box_of(one) for one in settled if isinstance(one, Text)]),
            *self.curve(),
            *settled,
        ]

    def _x(self, time_s: Any) -> Any:
        share = np.clip(np.asarray(time_s, np.float64) / self._end_s, 0.0, 1.0)
        return self._frame.left_mm + (self._frame.right_mm - self._frame.left_mm) * share

    def _y(self, voltage_V: Any) -> Any:
        frame = self._frame
        share = (voltage_V - self._low_V) / (self._high_V - self._low_V)
        y = frame.bottom_mm - (frame.bottom_mm - frame.top_mm) * share
        return np.clip(y, frame.top_mm, frame.bottom_mm)

    def axes(self) -> list[Shape]:
        """Return lines of equal voltage, marks of time, and their labels."""
        frame, k, size_pt = self._frame, self._k, self._frame.type_pt
        right = frame.left_mm - 3 * k
        shapes: list[Shape] = [Text(right, frame.top_mm - 5 * k, "V", size_pt, QUIET, "right")]
        rows = min(8.0, (frame.bottom_mm - frame.top_mm) / (7 * k))
        step_V = round_step(self._high_V - self._low_V, rows)
        for voltage_V in marks(self._low_V, self._high_V, step_V):
            y = float(self._y(voltage_V))
            shapes += [
                Line(frame.left_mm, y, frame.right_mm, y, RULE, 0.15),
                Text(right, y + 1.1 * k, voltage_label(voltage_V, step_V), size_pt, QUIET, "right"),
            ]
        step_s = time_step(self._end_s, min(8.0, (frame.right_mm - frame.left_mm) / (16 * k)))
        for time_s in marks(0, self._end_s, step_s):
            x = float(self._x(time_s))
            text = time_label(time_s, step_s)
            shapes += [
                Line(x, frame.bottom_mm, x, frame.bottom_mm + k, QUIET, 0.15),
                Text(x, frame.bottom_mm + 4.6 * k, text, size_pt, QUIET, "middle"),
            ]
        shapes.append(Line(frame.left_mm, frame.bottom_mm, frame.right_mm, frame.bottom_mm, QUIET, 0.15))
        return shapes

    def phases(self, phases: list[dict[str, Any]]) -> list[Shape]:
        """Return the phases as a ruler below the time axis."""
        shapes: list[Shape] = []
        top, k, size_pt = self._frame.bottom_mm + 7 * self._k, self._k, 0.94 * self._frame.type_pt
        for phase in phases:
            begin, end = float(self._x(phase["begin_s"])), float(self._x(phase["end_s"] or self._end_s))
            shapes.append(Rect(begin, top, max(end - begin - 0.5, 0.3), 5 * k, BAND, radius_mm=0.7))
            if end - begin > text_width_mm(phase["phase"], size_pt) + 4 * k:
                shapes.append(Text(begin + 1.8 * k, top + 3.6 * k, phase["phase"], size_pt, INK))
        return shapes

    def moments(self, labels: Sequence[Box] = ()) -> list[Shape]:
        """Numbered discs over the frame; where they crowd, they are moved apart and a line shows where to.

        Lines that run through the curve are left out where `labels` lie.

        Where there is no room for all, every second, third … one keeps its number, the others a tick. Where
        so many lines would hide the curve, only the steps of the experiment have one.
        """
        frame, k = self._frame, self._k
        shapes: list[Shape] = []
        at = [float(self._x(moment.time_s)) for moment in self._recording.moments]
        apart_mm = mark_width_mm(len(at), k) + MARK_APART_MM * k
        right_mm = frame.right_mm + (2 + MARK_RADIUS_MM) * k - mark_width_mm(len(at), k) / 2
        every = max(1, -(-len(at) // max(1, int((frame.right_mm - frame.left_mm) / apart_mm))))
        places = dict(
            zip(
                range(0, len(at), every),
                spread(at[::every], apart_mm, frame.left_mm, right_mm),
                strict=True,
            )
        )
        with_line = self._with_line(places)
        for i, x in enumerate(at):
            place = places.get(i)
            if i not in with_line:
                shapes.append(Line(x, frame.top_mm - 1.5 * k, x, frame.top_mm, MOMENT, 0.15))
            else:
                shapes += self._line_down(x, labels)
            if place is None:
                continue
            if abs(place - x) > 0.1:
                shapes.append(Line(place, frame.top_mm - 4.5 * k, x, frame.top_mm - 1.5 * k, MOMENT, 0.15))
            shapes += numbered(place, frame.top_mm - 6 * k, i + 1, k)
        return shapes

    def _line_down(self, x: float, labels: Sequence[Box]) -> list[Shape]:
        """Return the dotted line of a moment at `x`, with a break at each of the labels that it meets."""
        y, shapes = self._frame.top_mm - 1.5 * self._k, list[Shape]()
        met = [box for box in labels if box.left_mm - BREAK_MM < x < box.right_mm + BREAK_MM]
        for box in sorted(met, key=lambda one: one.top_mm):
            if box.top_mm - BREAK_MM > y:
                shapes.append(Line(x, y, x, box.top_mm - BREAK_MM, MOMENT, 0.15, (0.3, 1.1)))
            y = max(y, box.bottom_mm + BREAK_MM)
        if y < self._frame.bottom_mm:
            shapes.append(Line(x, y, x, self._frame.bottom_mm, MOMENT, 0.15, (0.3, 1.1)))
        return shapes

    def _with_line(self, numbered_ones: Collection[int]) -> Collection[int]:
        """Return the places of the moments whose line runs through the curve."""
        moments = self._recording.moments
        if len(moments) <= MOST_LINES:
            return numbered_ones
        steps = [i for i, moment in enumerate(moments) if moment.kind != "note"]
        return steps if len(steps) <= MOST_LINES else ()

    def curve(self) -> list[Shape]:
        """Return the curve, its gaps as bars on the time axis, and where it leaves the frame."""
        shapes: list[Shape] = []
        found, frame = self._trace, self._frame
        if found.number.size:
            bottom, top = (self._y(end_V) for end_V in found.touching_V())
            thin = np.maximum(LINE_MM - (bottom - top), 0) / 2
            x = frame.left_mm + found.number * COLUMN_MM
            rows = np.stack([x, top - thin, bottom - top + 2 * thin], axis=1)
            shapes.append(Bars(rows, COLUMN_MM, CURVE))
        for times_s, voltages_V in found.lines:
            points = np.stack([self._x(times_s), self._y(voltages_V)], axis=1)
            if len(points) > 1:
                shapes.append(Polyline(points, CURVE, LINE_MM))
            else:
                shapes.append(Disc(float(points[0, 0]), float(points[0, 1]), 0.3, CURVE))
        for begin_s, end_s in self._overview.gaps_s:
            begin, end = float(self._x(begin_s)), float(self._x(end_s))
            shapes.append(Rect(begin, frame.bottom_mm - 1.2, max(end - begin, 0.3), 1.2, QUIET))
        return shapes + self._outside()

    def _outside(self) -> list[Shape]:
        """Marks at the rim where the curve leaves the frame, one for each stretch."""
        shapes: list[Shape] = []
        columns, frame = self._trace.columns, self._frame
        with np.errstate(invalid="ignore"):
            sides = (
                (columns.high > self._high_V, frame.top_mm, -1),
                (columns.low < self._low_V, frame.bottom_mm, 1),
            )
        for beyond, rim, sign in sides:
            edges = np.flatnonzero(np.diff(np.concatenate(([0], beyond.astype(np.int8), [0]))))
            for begin, end in edges.reshape(-1, 2):
                x1, x2 = frame.left_mm + begin * COLUMN_MM, frame.left_mm + max(end, begin + 3) * COLUMN_MM
                shapes.append(Rect(x1, rim - 0.25, x2 - x1, 0.5, CURVE))
                middle = (x1 + x2) / 2
                tip = np.array([[middle - 1, rim], [middle + 1, rim], [middle, rim + 1.6 * sign]])
                shapes.append(Polygon(tip, CURVE))
        return shapes

    def settled(self, findings: dict[str, Any]) -> list[Shape]:
        """Both settled stretches, the line of "before" that runs on, and the fall from it.

        Green says settled, here as on the screen: a level that had not settled is dashed, and no saving
        from it is green.
        """
        shapes: list[Shape] = []
        k, room = self._k, self._label_room()
        levels = {
            name: level
            for name, level in (findings.get("settled") or {}).items()
            if level and level.get("voltage_V") is not None
        }
        for level in levels.values():
            begin, end = float(self._x(level["window_begin_s"])), float(self._x(level["window_end_s"]))
            y, colour = self._level_y(level), _level_colour(level)
            dash_mm = () if _is_settled(level) else NOT_SETTLED_DASH_MM
            shapes += [
                Line(begin, y, end, y, colour, 0.7, dash_mm),
                Rect(begin, self._frame.bottom_mm + 12.3 * k, end - begin, 0.7 * k, colour),
            ]
            room.take(Box(begin, end, y - 0.4, y + 0.4))
        if "before" in levels and "after" in levels:
            saved, colour = saved_text(findings), saving_colour(findings)
            shapes += self._saving(levels["before"], levels["after"], saved, colour, room)
        for name, level in levels.items():
            shapes += self._level_label(name, level, room)
        return shapes

    def _level_y(self, level: dict[str, Any]) -> float:
        """Return where a settled voltage, a magnitude, lies: readings of reversed leads are negative."""
        columns = self._overview.columns(np.array([level["window_begin_s"], level["window_end_s"]]))
        is_negative = bool(columns.has_data[0] and columns.low[0] + columns.high[0] < 0)
        return float(self._y(-level["voltage_V"] if is_negative else level["voltage_V"]))

    def _level_label(self, name: str, level: dict[str, Any], room: LabelRoom) -> list[Shape]:
        """What settled, or did not, beside its stretch: above it or below, in the first row that is free."""
        k = self._k
        begin, end = float(self._x(level["window_begin_s"])), float(self._x(level["window_end_s"]))
        y = self._level_y(level)
        text = f"{plain(level['voltage_V'], 3, 'V')} {name}"
        if not _is_settled(level):
            text += ", not settled"
        if level.get("chosen_by_hand"):
            text += ", chosen by hand"
        above = [y - 1.7 * k - row * 4.5 * k for row in range(LABEL_ROWS)]
        below = [y + 4.6 * k + row * 4.5 * k for row in range(LABEL_ROWS)]
        beside = [(end + 2 * k, "left"), (end - k, "right"), (begin, "left")]
        if name == "before":
            heights = [one for pair in zip(above, below, strict=True) for one in pair]
        else:
            heights = [one for pair in zip(below, above, strict=True) for one in pair]
            beside = [(end, "right"), (begin, "left")]
        places = [Place(x, height, anchor) for height in heights for x, anchor in beside]
        return room.set(text, 0.94 * self._frame.type_pt, _level_colour(level), "medium", places)

    def _label_room(self) -> LabelRoom:
        """Where the curve is, for labels to keep off it."""
        found, frame = self._trace, self._frame
        x = [frame.left_mm + found.number * COLUMN_MM]
        bottom, top = ([self._y(end_V)] for end_V in found.touching_V())
        for times_s, voltages_V in found.lines:
            at = np.arange(float(self._x(times_s[0])), float(self._x(times_s[-1])) + COLUMN_MM, COLUMN_MM)
            y = np.interp(at, self._x(times_s), self._y(voltages_V))
            x, top, bottom = [*x, at], [*top, y], [*bottom, y]
        inside = Box(frame.left_mm, frame.right_mm + 2 * self._k, frame.top_mm, frame.bottom_mm)
        return LabelRoom(inside, np.concatenate(x), np.concatenate(top), np.concatenate(bottom))

    def _saving(
        self, before: dict[str, Any], after: dict[str, Any], saved: str | None, colour: str, room: LabelRoom
    ) -> list[Shape]:
        k = self._k
        x = float(self._x(after["window_end_s"])) + 1.5 * k
        top, bottom = self._level_y(before), self._level_y(after)
        shapes: list[Shape] = [
            Line(float(self._x(before["window_end_s"])), top, x, top, _level_colour(before), 0.25),
            Line(x, top, x, bottom, colour, 0.45),
        ]
        tip = (1.6 if bottom > top else -1.6) * k
        corners = [[x - 1.1 * k, bottom - tip], [x + 1.1 * k, bottom - tip], [x, bottom]]
        shapes.append(Polygon(np.array(corners), colour))
        size_pt = 1.53 * self._frame.type_pt
        end_of_before = float(self._x(before["window_end_s"]))
        room.take(Box(x - 1.1 * k, x + 1.1 * k, min(top, bottom), max(top, bottom)))
        room.take(Box(end_of_before, x, top - 0.2, top + 0.2))
        room_mm = x - 3 * k - float(self._x(after["window_begin_s"]))
        if (
            saved is not None
            and abs(bottom - top) > 12 * k
            and text_width_mm(saved, size_pt, "semibold") < room_mm
        ):
            middle = (top + bottom) / 2
            shapes += [
                Text(x - 3 * k, middle - 1.5 * k, "saved", 0.94 * self._frame.type_pt, colour, "right"),
                Text(x - 3 * k, middle + 4 * k, saved, size_pt, colour, "right", "semibold"),
            ]
            width_mm = text_width_mm(saved, size_pt, "semibold")
            room.take(Box(x - 3 * k - width_mm, x - 3 * k, middle - 5 * k, middle + 5.5 * k))
        return shapes


def spread(places: list[float], apart: float, low: float, high: float) -> list[float]:
    """Return rising `places`, moved so that neighbours lie at least `apart`, within `low` to `high`.

    Where there is not that much room they lie as far apart as there is.
    """
    if len(places) > 1:
        apart = min(apart, (high - low) / (len(places) - 1))
    moved: list[float] = []
    for place in places:
        moved.append(max(place, moved[-1] + apart if moved else low))
    limit = high
    for i in range(len(moved) - 1, -1, -1):
        moved[i] = min(moved[i], limit)
        limit = moved[i] - apart
    return moved
