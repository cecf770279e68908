"""The picture of a run for paper: the curve, its moments and phases, what settled and what was saved.

`picture` arranges shapes for a size of paper and knows no painter; `export_picture` finds one by the ending
of the file's name.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any

from logger.errors import LoggerError
from logger.export.atomic import written_whole
from logger.export.drawing import Drawing, Shape, Text
from logger.export.letter_widths import shortened, wrapped
from logger.export.painters import pages_painter, painter
from logger.export.plot import (
    INK,
    MOMENT,
    QUIET,
    Frame,
    Plot,
    is_provisional,
    numbered,
    saved_text,
    saving_colour,
)
from logger.export.svg import write_svg
from logger.moment_pictures import moment_pictures
from logger.moments import KINDS, Moment, clean_label, is_too_long
from logger.progress import Progress
from logger.quantity import plain
from logger.recording import ChannelData, Recording
from logger.scale import clock_text
from logger.version import PROGRAM, VERSION

__all__ = [
    "SIZES",
    "PaperSize",
    "about",
    "describe",
    "export_picture",
    "export_png",
    "is_simulated",
    "picture",
]


@dataclass(frozen=True, slots=True)
class PaperSize:
    """A size of picture.

    `height_mm` None: as high as the moments need. The picture is arranged at `width_mm` and then magnified:
    on a slide everything is larger. `dpi` is the density of a PNG.
    """

    name: str
    width_mm: float
    height_mm: float | None
    dpi: int
    magnification: float = 1.0
    type_pt: float = 8.5
    legend_columns: int = 3

    @property
    def scale(self) -> float:
        """Sizes of what surrounds the curve, against those of the usual picture."""
        return self.type_pt / 8.5


SIZES: dict[str, PaperSize] = {
    size.name: size
    for size in (
        PaperSize("screen", 254.0, None, 200),
        PaperSize("slide", 254.0, 254.0 * 9 / 16, 144, 4 / 3),  # 13.33 in by 7.5 in: 1920 by 1080 dots
        PaperSize("a4", 254.0, 254.0 * 210 / 297, 300, 297 / 254),
        PaperSize("column", 85.0, None, 600, 1.0, 6.5, 1),
    )
}
LEAST_PLOT_MM = 46.0
LEGEND_ROW_MM = 4.4
MOST_ROWS = 35
"""Rows of moments below the curve: more would make a picture that nobody can print, or hold in memory."""


def export_picture(
    recording: Recording,
    findings: dict[str, Any],
    out: Path,
    size: PaperSize = SIZES["screen"],
    progress: Progress | None = None,
    *,
    replace: bool = False,
) -> None:
    """Write the picture of a run as ``.png``, ``.svg`` or ``.pdf``; `out` appears whole or not at all.

    Raises
    ------
    OutputExists : `out` exists and may not be replaced.
    Cancelled : `progress` was told to stop.
    LoggerError : there is no painter, or the file cannot be written.
    """
    steps = progress or Progress()
    write_drawing = _writer_of(out, size)
    drawing = picture(recording, findings, size)
    steps.reach(0.5)
    with written_whole(out, replace=replace) as part:
        write_drawing(drawing, part)
        steps.reach(1.0)


def _writer_of(out: Path, size: PaperSize) -> Callable[[Drawing, Path], None]:
    """Return what writes a drawing as the ending of `out` says."""
    ending = out.suffix.lower()
    if ending == ".svg":
        return write_svg
    if ending == ".pdf":
        paint_pages = pages_painter("pdf")
        return lambda drawing, part: paint_pages([drawing], part)
    if ending == ".png":
        paint = painter("png")
        return lambda drawing, part: paint(drawing, part, size.dpi)
    raise LoggerError(f"{out}: no picture has the ending {ending or '(none)'}; known: .png, .svg, .pdf")


def export_png(recording: Recording, findings: dict[str, Any], out: Path) -> None:
    """Write the picture of a run as a PNG file for the screen; see `export_picture`."""
    export_picture(recording, findings, out)


def picture(recording: Recording, findings: dict[str, Any], size: PaperSize = SIZES["screen"]) -> Drawing:
    """Return the picture of a run: `findings` as in the contract, any quantity may be missing."""
    channel = recording.channel("cell_voltage")
    k, width = size.scale, size.width_mm
    margin = (12.0 if width > 120 else 2.0) * k
    heading = _Heading(recording, channel, findings, margin, size)
    row_mm = LEGEND_ROW_MM * k
    rows = max(1, -(-len(recording.moments) // size.legend_columns))
    top = heading.bottom_mm + 15.5 * k
    if size.height_mm is None:
        rows = min(rows, MOST_ROWS)
        height = top + (72.0 if width > 120 else 48.0) + 28 * k + rows * row_mm
    else:
        height = size.height_mm
        rows = max(1, min(rows, int((height - top - LEAST_PLOT_MM - 28 * k) / row_mm)))
    bottom = height - 28 * k - rows * row_mm
    # The usual picture leaves room at the left for labels such as −2.250.
    left, right = margin + (15.0 if width > 120 else 11.0) * k, width - margin - 2 * k
    plot = Plot(recording, channel, Frame(left, right, top, bottom, size.type_pt))
    foot = height - margin / 2 if width > 120 else height - 2 * k
    program = f"{PROGRAM} {VERSION}"
    room_mm = width - 2 * margin - 30 * k
    legend, is_cut = _legend(recording.moments, margin, bottom + 20 * k, rows, size)
    footnote = _footnote(findings, width, is_cut=is_cut)
    shapes = [
        *heading.shapes,
        *plot.shapes(findings),
        *legend,
        Text(margin, foot, shortened(footnote, room_mm, 7 * k), 7 * k, QUIET),
        Text(width - margin, foot, program, 7 * k, QUIET, "right"),
    ]
    title = clean_label(recording.title) or clean_label(recording.path.stem)
    drawing = Drawing(width, height, tuple(shapes), title, describe(recording, findings))
    return drawing if size.magnification == 1 else drawing.magnified(size.magnification)


def describe(recording: Recording, findings: dict[str, Any]) -> str:
    """Return in words what the picture shows."""
    parts = [f"Cell voltage over {clock_text(recording.duration_s)} (minutes:seconds)."]
    for name, words in (("before", "Before the catalyst"), ("after", "After it has grown")):
        level = (findings.get("settled") or {}).get(name)
        if level and level.get("voltage_V") is not None:
            by_hand = ", from a stretch chosen by hand" if level.get("chosen_by_hand") else ""
            parts.append(f"{words}: {plain(level['voltage_V'], 3, 'V')}{by_hand}.")
    saved = saved_text(findings)
    parts.append(f"Voltage saved: {saved}." if saved else "The voltage saved could not be determined.")
    if recording.moments:
        parts.append(f"Moments tagged: {len(recording.moments)}.")
    if pictures := len(moment_pictures(recording)):
        parts.append(f"Pictures attached to them: {pictures}.")
    return " ".join(parts)


def is_simulated(channel: ChannelData | None) -> bool:
    """Tell whether the readings come from the built-in simulated cell."""
    return channel is not None and channel.is_simulated


def about(recording: Recording) -> str:
    """Return start, length and file name of a run in one line."""
    length = f"{clock_text(recording.duration_s)} long   ·   {clean_label(recording.path.name)}"
    if not recording.has_known_start:
        return f"Start not known   ·   {length}"
    try:
        begun = datetime.fromisoformat(recording.start_time)
        offset = "" if begun.utcoffset() is None else f" (UTC{begun.isoformat()[-6:]})"
        start = f"{begun:%d %b %Y, %H:%M:%S}{offset}"
    except ValueError:
        start = clean_label(recording.start_time)
    return f"{start}   ·   {length}"


class _Heading:
    """Title, start and origin at the left, the voltage saved at the right or, on narrow paper, below."""

    def __init__(
        self,
        recording: Recording,
        channel: ChannelData | None,
        findings: dict[str, Any],
        margin: float,
        size: PaperSize,
    ) -> None:
        self._findings, self._k, self._right = findings, size.scale, size.width_mm - margin
        self._is_wide = size.width_mm > 120
        self.shapes: list[Shape] = []
        k = self._k
        y, title_pt = (16.0, 16.0) if self._is_wide else (5.5, 9.0)
        room_mm = self._right - margin - (70.0 if self._is_wide else 0.0)
        title = clean_label(recording.title) or clean_label(recording.path.stem)
        self._put(margin, y, shortened(title, room_mm, title_pt, "semibold"), title_pt, INK, "semibold")
        lines = [about(recording)] if self._is_wide else wrapped(about(recording), room_mm, size.type_pt)
        for line in lines:
            y += 6.5 * k if self._is_wide else 4.0 * k
            self._put(margin, y, shortened(line, room_mm, size.type_pt), size.type_pt, QUIET)
        if is_simulated(channel):
            y += 6.0 * k if self._is_wide else 4.0 * k
            self._put(margin, y, "Simulated cell: invented data", size.type_pt, MOMENT, "semibold")
        self.bottom_mm = 28.5 if self._is_wide else self._saved_below(margin, y)
        if self._is_wide:
            self._saved_beside()

    def _put(
        self, x: float, y: float, text: str, size_pt: float, colour: str, weight: str = "regular",
        anchor: str = "left",
    ) -> None:  # fmt: skip
        self.shapes.append(Text(x, y, text, size_pt, colour, anchor, weight))

    def _note(self) -> str:
        provisional = " (provisional: not settled)" if is_provisional(self._findings) else ""
        return "voltage saved, 95 % interval" + provisional

    def _saved_beside(self) -> None:
        saved = saved_text(self._findings)
        if saved is None:
            self._put(self._right, 16, "voltage saved: not determined", 10, QUIET, anchor="right")
            return
        self._put(self._right, 17, saved, 22, saving_colour(self._findings), "semibold", "right")
        self._put(self._right, 22.5, self._note(), 8.5, QUIET, anchor="right")

    def _saved_below(self, margin: float, y: float) -> float:
        saved = saved_text(self._findings)
        y += 5.5 * self._k
        if saved is None:
            self._put(margin, y, "voltage saved: not determined", 6.5, QUIET)
        else:
            self._put(margin, y, f"{saved}  {self._note()}", 6.5, saving_colour(self._findings), "semibold")
        return y - 4 * self._k


def _footnote(findings: dict[str, Any], width_mm: float, *, is_cut: bool) -> str:
    dashed = " Dashed: not settled." if is_provisional(findings) else ""
    if width_mm < 120:
        return f"Green: settled, saved.{dashed}" + (" “…”: in full in the tables." if is_cut else "")
    count = len(findings.get("warnings") or [])
    warnings = "" if not count else f"   ·   {count} warning{'s' if count > 1 else ''}, see the findings"
    cut = "   ·   “…”: in full in the tables (CSV, XLSX)" if is_cut else ""
    legend = f"Voltage between both electrodes. Green: settled stretches and what was saved.{dashed}"
    return legend + warnings + cut


def moment_text(moment: Moment) -> str:
    """Return time, kind and label of a moment as one line."""
    kind = KINDS.get(moment.kind, clean_label(moment.kind))
    label = clean_label(moment.label)
    return f"{clock_text(moment.time_s)}  {kind}" + (f": {label}" if label else "")


def _legend(
    moments: tuple[Moment, ...], margin: float, top: float, rows: int, size: PaperSize
) -> tuple[list[Shape], bool]:
    """The moments in words, in columns read downwards, and whether any was shortened.

    The last line says how many had no room.
    """
    k, size_pt = size.scale, 7.5 * size.scale
    column_mm = (size.width_mm - 2 * margin) / size.legend_columns
    places = rows * size.legend_columns
    shown = moments if len(moments) <= places else moments[: places - 1]
    shapes: list[Shape] = []
    is_cut = False
    for i, moment in enumerate(shown):
        x, y = margin + i // rows * column_mm, top + i % rows * LEGEND_ROW_MM * k
        whole = moment_text(moment)
        text = shortened(whole, column_mm - 7 * k, size_pt)
        is_cut = is_cut or text != whole or is_too_long(moment.label)
        shapes += [*numbered(x + 1.6 * k, y - 0.9 * k, i + 1, k), Text(x + 4.8 * k, y, text, size_pt, INK)]
    if len(shown) < len(moments):
        x, y = margin + (places - 1) // rows * column_mm, top + (rows - 1) * LEGEND_ROW_MM * k
        more = f"and {len(moments) - len(shown)} more moments, in the tables (CSV, XLSX)"
        shapes.append(Text(x, y, more, size_pt, QUIET))
    return shapes, is_cut
