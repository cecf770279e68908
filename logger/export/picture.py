"""The picture of a run for paper: the curve, its moments and phases, what settled and what was saved.

`picture` arranges shapes and knows no painter; `export_png` finds one and writes the file.
"""

from __future__ import annotations

import os
import tempfile
from datetime import datetime
from importlib.metadata import entry_points
from pathlib import Path
from typing import Any

import numpy as np

from logger.errors import LoggerError
from logger.export.drawing import Bars, Disc, Drawing, Line, Painter, Polygon, Polyline, Rect, Shape, Text
from logger.moments import KINDS
from logger.overview import Overview
from logger.quantity import plain, with_uncertainty
from logger.recording import ChannelData, Recording
from logger.scale import (
    clock_text,
    marks,
    round_step,
    steady_range,
    time_label,
    time_step,
    voltage_label,
    voltages_to_show,
)
from logger.trace import Trace, trace
from logger.version import PROGRAM, VERSION

__all__ = ["export_png", "picture"]

INK, QUIET, RULE = "#1d2327", "#5e666b", "#dddad2"
CURVE, MOMENT, SETTLED, BAND = "#0b5fa5", "#8a3d7a", "#0b7a55", "#eceae4"

WIDTH_MM, MARGIN_MM = 254.0, 12.0
LEFT_MM, RIGHT_MM, TOP_MM, BOTTOM_MM = 27.0, 240.0, 44.0, 116.0
COLUMN_MM = 0.12
"""Width of a column of the curve: just below a dot at 200 dots per inch."""

LEGEND_COLUMNS = 3
LEGEND_ROW_MM = 4.4


def export_png(recording: Recording, findings: dict[str, Any], out: Path, *, dpi: int = 200) -> None:
    """Write the picture of a run as a PNG file; `out` appears whole or not at all.

    Raises
    ------
    LoggerError : there is no painter, or the file cannot be written.
    """
    paint = _painter("png")
    drawing = picture(recording, findings)
    try:
        handle, name = tempfile.mkstemp(dir=out.absolute().parent, prefix=f".{out.name}.", suffix=".part")
    except OSError as error:
        raise LoggerError(
            f"no file can be made in {out.absolute().parent} ({error.strerror}); choose another folder"
        ) from error
    os.close(handle)
    part = Path(name)
    try:
        paint(drawing, part, dpi)
        with part.open("rb+") as file:
            os.fsync(file.fileno())
        part.chmod(0o644)
        part.replace(out)
    except OSError as error:
        raise LoggerError(f"the picture {out} could not be written ({error})") from error
    finally:
        part.unlink(missing_ok=True)


def _painter(kind: str) -> Painter:
    found = tuple(entry_points(group="galvanote.painters", name=kind))
    try:
        paint: Painter = found[0].load()
    except (IndexError, ImportError) as error:
        raise LoggerError(
            "pictures need the window part of the program, which is not installed completely here "
            f"({error}); install it with: python3 -m pip install galvanote, or export to .csv instead"
        ) from error
    return paint


def picture(recording: Recording, findings: dict[str, Any]) -> Drawing:
    """Return the picture of a run: `findings` as in the contract, any quantity may be missing."""
    channel = recording.channel("cell_voltage")
    plot = _Plot(recording, channel)
    legend = _legend(recording)
    shapes: list[Shape] = [
        *_heading(recording, channel, findings),
        *plot.axes(),
        *plot.phases(findings.get("phases") or []),
        *plot.moments(),
        *plot.curve(),
        *plot.settled(findings),
        *legend,
    ]
    rows = -(-len(recording.moments) // LEGEND_COLUMNS)
    height_mm = BOTTOM_MM + 28 + rows * LEGEND_ROW_MM
    shapes += [
        Text(MARGIN_MM, height_mm - 6, _footnote(findings), 7, QUIET),
        Text(WIDTH_MM - MARGIN_MM, height_mm - 6, f"{PROGRAM} {VERSION}", 7, QUIET, "right"),
    ]
    title = recording.title or recording.path.stem
    return Drawing(WIDTH_MM, height_mm, tuple(shapes), title, describe(recording, findings))


def describe(recording: Recording, findings: dict[str, Any]) -> str:
    """Return in words what the picture shows."""
    parts = [f"Cell voltage over {clock_text(recording.duration_s)} (minutes:seconds)."]
    for name, words in (("before", "Before the catalyst"), ("after", "After it has grown")):
        level = (findings.get("settled") or {}).get(name)
        if level and level.get("voltage_V") is not None:
            parts.append(f"{words}: {plain(level['voltage_V'], 3, 'V')}.")
    saved = saved_text(findings)
    parts.append(f"Voltage saved: {saved}." if saved else "The voltage saved could not be determined.")
    return " ".join(parts)


def saved_text(findings: dict[str, Any]) -> str | None:
    """Return the voltage saved with its 95 % uncertainty in mV, or None when it is not known."""
    saved = findings.get("voltage_saved") or {}
    if saved.get("value_V") is None:
        return None
    expanded_V = (saved.get("standard_uncertainty_V") or 0.0) * (saved.get("coverage_factor") or 2.0)
    return with_uncertainty(1000 * saved["value_V"], 1000 * expanded_V, "mV")


def is_simulated(channel: ChannelData | None) -> bool:
    """Tell whether the readings come from the built-in simulated cell."""
    return channel is not None and str(channel.instrument.get("address", "")).startswith("cell:")


def _is_provisional(findings: dict[str, Any]) -> bool:
    levels = (findings.get("settled") or {}).values()
    return any(level and level.get("is_settled") is False for level in levels)


def _heading(recording: Recording, channel: ChannelData | None, findings: dict[str, Any]) -> list[Shape]:
    try:
        begun = datetime.fromisoformat(recording.start_time)
        start = f"{begun:%d %b %Y, %H:%M:%S} (UTC{begun.isoformat()[-6:]})"
    except ValueError:
        start = recording.start_time
    about = f"{start}   ·   {clock_text(recording.duration_s)} long   ·   {recording.path.name}"
    shapes: list[Shape] = [
        Text(MARGIN_MM, 16, recording.title or recording.path.stem, 16, INK, weight="semibold"),
        Text(MARGIN_MM, 22.5, about, 8.5, QUIET),
    ]
    if is_simulated(channel):
        shapes.append(Text(MARGIN_MM, 28.5, "Simulated cell: invented data", 8.5, MOMENT, weight="semibold"))
    saved = saved_text(findings)
    right = WIDTH_MM - MARGIN_MM
    if saved is None:
        shapes.append(Text(right, 16, "voltage saved: not determined", 10, QUIET, "right"))
        return shapes
    note = "voltage saved, 95 % interval" + (
        " (provisional: not settled)" if _is_provisional(findings) else ""
    )
    shapes += [
        Text(right, 17, saved, 22, SETTLED, "right", "semibold"),
        Text(right, 22.5, note, 8.5, QUIET, "right"),
    ]
    return shapes


def _footnote(findings: dict[str, Any]) -> str:
    count = len(findings.get("warnings") or [])
    warnings = "" if not count else f"   ·   {count} warning{'s' if count > 1 else ''}, see the findings"
    return "Voltage between both electrodes. Green: settled stretches and what was saved." + warnings


def _legend(recording: Recording) -> list[Shape]:
    """The moments in words, three columns, read downwards."""
    rows = max(1, -(-len(recording.moments) // LEGEND_COLUMNS))
    column_mm = (WIDTH_MM - 2 * MARGIN_MM) / LEGEND_COLUMNS
    shapes: list[Shape] = []
    for i, moment in enumerate(recording.moments):
        x, y = MARGIN_MM + i // rows * column_mm, BOTTOM_MM + 20 + i % rows * LEGEND_ROW_MM
        text = f"{clock_text(moment.time_s)}  {KINDS.get(moment.kind, moment.kind)}"
        if moment.label:
            text += f": {moment.label}"
        shapes += [*_numbered(x + 1.6, y - 0.9, i + 1), Text(x + 4.8, y, _shortened(text, 54), 7.5, INK)]
    return shapes


def _numbered(x: float, y: float, number: int) -> list[Shape]:
    return [
        Disc(x, y, 1.75, MOMENT),
        Text(x, y + 0.83, str(number), 6.3 if number < 100 else 5, "#ffffff", "middle", "semibold"),
    ]


def _shortened(text: str, length: int) -> str:
    return text if len(text) <= length else text[: length - 1].rstrip() + "…"


class _Plot:
    """The frame of the curve: maps run seconds and volts to millimetres, and fills it with shapes."""

    def __init__(self, recording: Recording, channel: ChannelData | None) -> None:
        self._recording = recording
        self._end_s = max(recording.duration_s, 1.0) * 1.01
        self._columns = int((RIGHT_MM - LEFT_MM) / COLUMN_MM)
        overview = Overview()
        if channel is not None:
            overview = Overview.of(channel.times_s, channel.values, gaps=recording.gaps, channel=channel.name)
        self._overview = overview
        self._trace: Trace = trace(overview, 0.0, self._end_s / self._columns, self._columns)
        shown = voltages_to_show(self._trace.columns.low, self._trace.columns.high) or (0.0, 3.0)
        self._low_V, self._high_V = steady_range(shown, None)

    def _x(self, time_s: Any) -> Any:
        return LEFT_MM + (RIGHT_MM - LEFT_MM) * time_s / self._end_s

    def _y(self, voltage_V: Any) -> Any:
        share = (voltage_V - self._low_V) / (self._high_V - self._low_V)
        return np.clip(BOTTOM_MM - (BOTTOM_MM - TOP_MM) * share, TOP_MM, BOTTOM_MM)

    def axes(self) -> list[Shape]:
        shapes: list[Shape] = [Text(LEFT_MM - 3, TOP_MM - 5, "V", 8.5, QUIET, "right")]
        step_V = round_step(self._high_V - self._low_V, 8)
        for voltage_V in marks(self._low_V, self._high_V, step_V):
            y = float(self._y(voltage_V))
            shapes += [
                Line(LEFT_MM, y, RIGHT_MM, y, RULE, 0.15),
                Text(LEFT_MM - 3, y + 1.1, voltage_label(voltage_V, step_V), 8.5, QUIET, "right"),
            ]
        step_s = time_step(self._end_s, 8)
        for time_s in marks(0, self._end_s, step_s):
            x = float(self._x(time_s))
            shapes += [
                Line(x, BOTTOM_MM, x, BOTTOM_MM + 1, QUIET, 0.15),
                Text(x, BOTTOM_MM + 4.6, time_label(time_s, step_s), 8.5, QUIET, "middle"),
            ]
        shapes.append(Line(LEFT_MM, BOTTOM_MM, RIGHT_MM, BOTTOM_MM, QUIET, 0.15))
        return shapes

    def phases(self, phases: list[dict[str, Any]]) -> list[Shape]:
        shapes: list[Shape] = []
        for phase in phases:
            begin, end = float(self._x(phase["begin_s"])), float(self._x(phase["end_s"] or self._end_s))
            shapes.append(Rect(begin, BOTTOM_MM + 7, max(end - begin - 0.5, 0.3), 5, BAND, radius_mm=0.7))
            if end - begin > 2.2 * len(phase["phase"]):
                shapes.append(Text(begin + 1.8, BOTTOM_MM + 10.6, phase["phase"], 8, INK))
        return shapes

    def moments(self) -> list[Shape]:
        """Numbered discs over the frame; where they crowd, they are moved apart and a line shows where to."""
        shapes: list[Shape] = []
        place = -1e9
        for i, moment in enumerate(self._recording.moments):
            x = float(self._x(moment.time_s))
            place = max(x, place + 3.7)
            shapes.append(Line(x, TOP_MM - 1.5, x, BOTTOM_MM, MOMENT, 0.15, (0.3, 1.1)))
            if place > x + 0.1:
                shapes.append(Line(place, TOP_MM - 4.5, x, TOP_MM - 1.5, MOMENT, 0.15))
            shapes += _numbered(place, TOP_MM - 6, i + 1)
        return shapes

    def curve(self) -> list[Shape]:
        shapes: list[Shape] = []
        found = self._trace
        if found.number.size:
            top, bottom = self._y(found.high_V), self._y(found.low_V)
            thin = np.maximum(0.25 - (bottom - top), 0) / 2
            x = LEFT_MM + found.number * COLUMN_MM
            rows = np.stack([x, top - thin, bottom - top + 2 * thin], axis=1)
            shapes.append(Bars(rows, COLUMN_MM, CURVE))
        for times_s, voltages_V in found.lines:
            points = np.stack([self._x(times_s), self._y(voltages_V)], axis=1)
            if len(points) > 1:
                shapes.append(Polyline(points, CURVE, 0.25))
            else:
                shapes.append(Disc(float(points[0, 0]), float(points[0, 1]), 0.3, CURVE))
        for begin_s, end_s in self._overview.gaps_s:
            begin, end = float(self._x(begin_s)), float(self._x(end_s))
            shapes.append(Rect(begin, BOTTOM_MM - 1.2, max(end - begin, 0.3), 1.2, QUIET))
        return shapes + self._outside()

    def _outside(self) -> list[Shape]:
        """Marks at the rim where the curve leaves the frame, one for each stretch."""
        shapes: list[Shape] = []
        columns = self._trace.columns
        with np.errstate(invalid="ignore"):
            sides = ((columns.high > self._high_V, TOP_MM, -1), (columns.low < self._low_V, BOTTOM_MM, 1))
        for beyond, rim, sign in sides:
            edges = np.flatnonzero(np.diff(np.concatenate(([0], beyond.astype(np.int8), [0]))))
            for begin, end in edges.reshape(-1, 2):
                x1, x2 = LEFT_MM + begin * COLUMN_MM, LEFT_MM + max(end, begin + 3) * COLUMN_MM
                shapes.append(Rect(x1, rim - 0.25, x2 - x1, 0.5, CURVE))
                middle = (x1 + x2) / 2
                tip = np.array([[middle - 1, rim], [middle + 1, rim], [middle, rim + 1.6 * sign]])
                shapes.append(Polygon(tip, CURVE))
        return shapes

    def settled(self, findings: dict[str, Any]) -> list[Shape]:
        """Both settled stretches, the line of "before" that runs on, and the fall from it."""
        shapes: list[Shape] = []
        levels = {
            k: v for k, v in (findings.get("settled") or {}).items() if v and v.get("voltage_V") is not None
        }
        for name, level in levels.items():
            begin, end = float(self._x(level["window_begin_s"])), float(self._x(level["window_end_s"]))
            y = float(self._y(level["voltage_V"]))
            shapes += [
                Line(begin, y, end, y, SETTLED, 0.7),
                Rect(begin, BOTTOM_MM + 12.3, end - begin, 0.7, SETTLED),
            ]
            if name == "before":
                text = plain(level["voltage_V"], 3, "V") + " before"
                shapes.append(Text(end + 2, y - 1.7, text, 8, SETTLED, weight="medium"))
            else:
                text = plain(level["voltage_V"], 3, "V") + " after"
                shapes.append(Text(end, y + 4.6, text, 8, SETTLED, "right", "medium"))
        if "before" in levels and "after" in levels:
            shapes += self._saving(levels["before"], levels["after"], saved_text(findings))
        return shapes

    def _saving(self, before: dict[str, Any], after: dict[str, Any], saved: str | None) -> list[Shape]:
        x = float(self._x(after["window_end_s"])) + 1.5
        top, bottom = float(self._y(before["voltage_V"])), float(self._y(after["voltage_V"]))
        shapes: list[Shape] = [
            Line(float(self._x(before["window_end_s"])), top, x, top, SETTLED, 0.25),
            Line(x, top, x, bottom, SETTLED, 0.45),
        ]
        tip = 1.6 if bottom > top else -1.6
        corners = [[x - 1.1, bottom - tip], [x + 1.1, bottom - tip], [x, bottom]]
        shapes.append(Polygon(np.array(corners), SETTLED))
        if saved is not None and abs(bottom - top) > 12:
            middle = (top + bottom) / 2
            shapes += [
                Text(x - 3, middle - 1.5, "saved", 8, SETTLED, "right"),
                Text(x - 3, middle + 4, saved, 13, SETTLED, "right", "semibold"),
            ]
        return shapes
