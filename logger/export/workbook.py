"""A recording as an Excel workbook: numbers as numbers, texts as texts, a native chart, no formula anywhere.

Written row by row in constant memory. Where readings do not fit into one sheet they go on in the next.
"""

from __future__ import annotations

import io
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from logger.analysis.readings import slices_of
from logger.channel_overview import overview_of
from logger.clean_text import clean_text
from logger.errors import LoggerError
from logger.export.atomic import working_folder, written_whole
from logger.export.findings_rows import findings_rows
from logger.export.picture import about, describe, moment_text
from logger.export.plot import CURVE, QUIET
from logger.export.report_model import Entry, Report, report_of
from logger.moment_pictures import moment_pictures
from logger.moments import KINDS, clean_label
from logger.progress import Progress
from logger.recording import ChannelData, Recording
from logger.scale import steady_range, voltages_to_show
from logger.version import PROGRAM, VERSION

__all__ = ["ROWS_PER_SHEET", "export_xlsx"]

ROWS_PER_SHEET = 1_048_576 - 1
"""Readings in one sheet: Excel's rows (Microsoft, "Excel specifications and limits") less the header."""

CHARACTERS_PER_CELL = 32_767
"""More in one cell Excel does not take (the same source)."""

TAKEN_OUT = "to take one out: galvanote moment FILE.h5 extract ID"

CURVE_COLUMNS = 2000
ROWS_AT_ONCE = 8192


def export_xlsx(
    recording: Recording,
    out: Path,
    findings: Mapping[str, Any],
    progress: Progress | None = None,
    *,
    replace: bool = False,
) -> None:
    """Write the workbook; it appears whole or not at all.

    Numbers carry 16 significant digits. An overload is the text inf or -inf: Excel knows no such number.

    Raises
    ------
    OutputExists : `out` exists and may not be replaced.
    Cancelled : `progress` was told to stop.
    LoggerError : the library that writes it is missing, or the folder cannot be written.
    """
    try:
        import xlsxwriter
        from xlsxwriter.exceptions import XlsxFileError
    except ImportError as error:
        raise LoggerError(
            "an .xlsx file needs XlsxWriter; install it with: python3 -m pip install XlsxWriter"
        ) from error
    steps = progress or Progress()
    with (
        written_whole(out, replace=replace) as part,
        working_folder(part) as folder,
        _Target(part, "wb") as target,
    ):
        book = xlsxwriter.Workbook(
            target,
            {
                "constant_memory": True,
                "tmpdir": str(folder),
                "strings_to_formulas": False,
                "strings_to_urls": False,
                "strings_to_numbers": False,
            },
        )
        try:
            _Workbook(book, recording).fill(findings, steps)
        except BaseException:
            # Unclosed, the library would write the file after all when Python collects the book.
            book.fileclosed = True
            for sheet in book.worksheets():
                if sheet.row_data_fh is not None:
                    sheet.row_data_fh.close()
            raise
        try:
            book.close()
        except XlsxFileError as error:
            raise OSError(str(error)) from error
        if target.failure is not None:
            raise target.failure
        steps.reach(1.0)


class _Target(io.FileIO):
    """A file that keeps its first failure to write, and from then on takes everything and drops it.

    The archive's writer tries once more when Python collects it, and would print a traceback then.
    """

    failure: OSError | None = None

    def write(self, data: Any, /) -> int:
        """Write all of `data`, which a nearly full disk takes in pieces."""
        rest = memoryview(data)
        try:
            while rest and self.failure is None:
                rest = rest[super().write(rest) or 0 :]
        except OSError as error:
            self.failure = error
        return len(data)


class _Workbook:
    """Fills one workbook."""

    def __init__(self, book: Any, recording: Recording) -> None:
        self._book, self._recording = book, recording
        self._bold = book.add_format({"bold": True})
        self._title = book.add_format({"bold": True, "font_size": 16})
        self._names: set[str] = set()
        title = clean_label(recording.title) or clean_label(recording.path.stem)
        book.set_properties({"title": title, "comments": about(recording), "author": f"{PROGRAM} {VERSION}"})

    def fill(self, findings: Mapping[str, Any], progress: Progress) -> None:
        """Make all sheets, in the order in which they stand in the book."""
        recording = self._recording
        report = report_of(recording, findings)
        front = self._front(report)
        curve = self._curve(recording.channel("cell_voltage"))
        if curve is not None:
            front.insert_chart(
                "E2", curve, {"object_position": 2, "description": describe(recording, dict(findings))}
            )
        self._sheet("Findings", ("quantity", "value", "text"), findings_rows(findings), (48, 18, 60))
        moments = (
            (m.time_s, m.kind, KINDS.get(m.kind, ""), m.label, m.id, m.noted_at) for m in recording.moments
        )
        self._sheet(
            "Moments", ("time_s", "kind", "in words", "label", "id", "noted_at"), moments, (10, 18, 18, 50)
        )
        pictures = [
            (one.number, moment_text(one.moment), p.file_name, p.media_type, p.size_bytes, p.added_at, p.id)
            for one in moment_pictures(recording)
            for p in (one.attachment,)
        ]
        if pictures:
            header = ("moment", "in words", "file name", "media type", "bytes", "added at", "id", TAKEN_OUT)
            self._sheet("Pictures", header, pictures, (8, 50, 30, 12, 12, 28, 36))
        gaps = ((g.begin_s, g.end_s, g.channel, g.reason) for g in recording.gaps)
        self._sheet("Gaps", ("begin_s", "end_s", "channel", "reason"), gaps, (10, 10, 16, 50))
        total = max(1, sum(channel.times_s.size for channel in recording.channels))
        done = 0
        for channel in recording.channels:
            size = channel.times_s.size
            self._readings(channel, progress.part(done / total * 0.95, (done + size) / total * 0.95))
            done += size

    def _front(self, report: Report) -> Any:
        """Add the sheet that people read first: what was found and how sure it is, the chart beside it."""
        sheet = self._add("Summary")
        for column, width in enumerate((26, 26, 60)):
            sheet.set_column(column, column, width)
        sheet.hide_gridlines(2)
        sheet.set_landscape()
        sheet.fit_to_pages(1, 0)
        sheet.write_string(0, 0, report.title, self._title)
        sheet.write_string(1, 0, report.about)
        sheet.write_string(2, 0, report.origin or f"{PROGRAM} {VERSION}")
        sheet.write_string(4, 0, "Voltage saved", self._bold)
        sheet.write_string(4, 1, report.headline, self._bold)
        sheet.write_string(4, 2, report.headline_note)
        row = 6
        for title, entries in (
            ("Results", report.results),
            ("Set-up", report.setup),
            ("Data quality", report.quality),
            ("File", tuple(Entry("", line) for line in report.file_lines)),
        ):
            sheet.write_string(row, 0, title, self._bold)
            for place, entry in enumerate(entries, row + 1):
                self._write_row(sheet, place, (entry.name, entry.value, entry.note))
            row += len(entries) + 2
        for place, text in enumerate(("To know", *report.warnings)):
            sheet.write_string(row + place, 0, text, self._bold if place == 0 else None)
        return sheet

    def _sheet(
        self,
        name: str,
        header: Sequence[str],
        rows: Iterable[Sequence[float | str | None]],
        widths: Sequence[int] = (),
    ) -> None:
        sheet = self._add(name)
        for column, width in enumerate(widths):
            sheet.set_column(column, column, width)
        sheet.freeze_panes(1, 0)
        for column, title in enumerate(header):
            sheet.write_string(0, column, title, self._bold)
        for row, cells in enumerate(rows, 1):
            self._write_row(sheet, row, cells)

    def _write_row(self, sheet: Any, row: int, cells: Sequence[float | str | None]) -> None:
        for column, value in enumerate(cells):
            if isinstance(value, str):
                sheet.write_string(row, column, clean_text(value, CHARACTERS_PER_CELL))
            elif value is not None:
                sheet.write_number(row, column, value)

    def _readings(self, channel: ChannelData, progress: Progress) -> None:
        header = ("time_s", f"{channel.name}_{channel.unit}", "quality")
        size = channel.times_s.size
        for number, begin in enumerate(range(0, max(size, 1), ROWS_PER_SHEET)):
            sheet = self._add(channel.name if number == 0 else f"{channel.name} {number + 1}")
            sheet.set_column(0, 2, 16)
            sheet.freeze_panes(1, 0)
            for column, title in enumerate(header):
                sheet.write_string(0, column, clean_label(title), self._bold)
            end = min(begin + ROWS_PER_SHEET, size)
            for first in range(begin, end, ROWS_AT_ONCE):
                progress.reach(first / max(size, 1))
                _write_block(sheet, channel, slice(first, min(first + ROWS_AT_ONCE, end)), first - begin + 1)

    def _curve(self, channel: ChannelData | None) -> Any:
        """Add the sheet that the chart is drawn from, thinned where readings are many; return the chart."""
        readable = 0 if channel is None else _readable(channel)
        if channel is None or not readable:
            return None
        times_s, values = _thinned(channel, self._recording, readable)
        thinned = times_s.size < readable
        header: tuple[str, ...] = ("time_min", f"{channel.name}_{channel.unit}")
        if thinned:
            note = f"For the chart only: smallest and largest reading of each of {CURVE_COLUMNS} stretches"
            header = (*header, note)
        name = "Curve"
        self._sheet(name, header, zip((times_s / 60).tolist(), values.tolist(), strict=True), (12, 18, 60))
        chart = self._book.add_chart({"type": "scatter", "subtype": "straight"})
        chart.add_series(
            {
                "name": "cell voltage",
                "categories": [name, 1, 0, times_s.size, 0],
                "values": [name, 1, 1, times_s.size, 1],
                "line": {"color": CURVE, "width": 1},
                "marker": {"type": "none"},
            }
        )
        low_V, high_V = steady_range(voltages_to_show(values, values) or (0.0, 3.0), None)
        quiet = {"color": QUIET}
        axis = {"num_font": quiet, "line": quiet}
        end_min = float(times_s[-1]) / 60
        chart.set_x_axis({**axis, "name": "minutes", "min": 0, "max": max(round(end_min + 0.5), 1)})
        chart.set_y_axis(
            {
                **axis,
                "name": channel.unit,
                "min": low_V,
                "max": high_V,
                "crossing": "min",
                "num_format": "0.00",
                "major_gridlines": {"visible": True, "line": {"color": "#dddad2"}},
            }
        )
        chart.set_title({"name": "Cell voltage", "name_font": {"size": 12}})
        chart.set_legend({"none": True})
        chart.set_size({"width": 760, "height": 420})
        return chart

    def _add(self, wanted: str) -> Any:
        """Add a sheet; its name is made one that Excel takes and that is not there yet."""
        base = "".join("_" if c in "[]:*?/\\'" else c for c in clean_label(wanted))[:25] or "sheet"
        name, number = base, 2
        while name.casefold() in self._names:
            name, number = f"{base} ({number})", number + 1
        self._names.add(name.casefold())
        return self._book.add_worksheet(name)


def _write_block(sheet: Any, channel: ChannelData, part: slice, row: int) -> None:
    values = channel.values[part]
    rows = zip(channel.times_s[part].tolist(), values.tolist(), channel.quality[part].tolist(), strict=True)
    is_finite = bool(np.isfinite(values).all())
    for time_s, value, quality in rows:
        sheet.write_number(row, 0, time_s)
        if is_finite or abs(value) < np.inf:
            sheet.write_number(row, 1, value)
        else:
            sheet.write_string(row, 1, repr(value))
        sheet.write_number(row, 2, quality)
        row += 1


def _readable(channel: ChannelData) -> int:
    """Count the readings that are no overload."""
    parts = slices_of(0, channel.values.size)
    return sum(int(np.count_nonzero(np.isfinite(channel.values[part]))) for part in parts)


def _thinned(
    channel: ChannelData, recording: Recording, readable: int
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Return times and values of a curve that a chart can hold: each reading, or two for each stretch."""
    if readable <= 2 * CURVE_COLUMNS:
        kept = [
            (channel.times_s[part][good], values[good])
            for part in slices_of(0, channel.values.size)
            if (good := np.isfinite(values := channel.values[part])).any()
        ]
        times_s, values = np.concatenate(kept, axis=1)
        return times_s, values
    first_s, last_s = _readable_ends_s(channel)
    edges_s = np.linspace(first_s, np.nextafter(last_s, np.inf), CURVE_COLUMNS + 1)
    columns = overview_of(channel, recording.gaps).columns(edges_s)
    number = np.flatnonzero(columns.has_data & np.isfinite(columns.low))
    middle_s = (edges_s[number] + edges_s[number + 1]) / 2
    return np.repeat(middle_s, 2), np.stack([columns.low[number], columns.high[number]], axis=1).ravel()


def _readable_ends_s(channel: ChannelData) -> tuple[float, float]:
    """Return the times of the first and the last reading that is no overload, of which there are some."""
    parts = list(slices_of(0, channel.values.size))

    def times_s(part: slice) -> NDArray[np.float64]:
        found: NDArray[np.float64] = channel.times_s[part][np.isfinite(channel.values[part])]
        return found

    first = next(found for found in map(times_s, parts) if found.size)
    last = next(found for found in map(times_s, reversed(parts)) if found.size)
    return float(first[0]), float(last[-1])
