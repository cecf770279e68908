"""A comparison of runs for a class: a picture, or one report as PDF or HTML."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

from logger.alignment import distinct_names
from logger.analysis.compared_run import ComparedRun, Saving, Voltage
from logger.analysis.run_comparison import Group, RunComparison
from logger.analysis.run_comparison_text import statement_lines
from logger.clean_text import clean_text
from logger.export.atomic import written_whole
from logger.export.overlay_picture import OverlayRun, comparison_picture, origin_of
from logger.export.painters import pages_painter, painter
from logger.export.report_model import MESSAGE_LIMIT
from logger.export.svg import write_svg
from logger.moments import clean_label
from logger.progress import Progress
from logger.quantity import plain, significant, with_uncertainty
from logger.version import PROGRAM, VERSION

__all__ = ["ENDINGS", "ComparisonReport", "GroupRow", "RunRow", "comparison_report_of", "export_comparison"]

ENDINGS = (".html", ".pdf", ".svg", ".png")
RULE_OF_OUTLIERS = (
    "Off the others: Grubbs' test, two-sided, for one value of a group; “straggler” beyond what chance "
    "exceeds in 5 % of such sets, “outlier” beyond 1 % (ISO 5725-2); of six or more, once more without that "
    "value (Rosner). A reason to look for a cause; it stays in the statistics."
)


@dataclass(frozen=True, slots=True)
class RunRow:
    """One run of the table; `note` says what is special about it."""

    name: str
    kind: str
    before: str
    after: str
    saved: str
    note: str


@dataclass(frozen=True, slots=True)
class GroupRow:
    """One group of the table: how many, mean with its 95 % interval, scatter, and the outlier test."""

    name: str
    count: str
    mean: str
    interval: str
    scatter: str
    test: str


@dataclass(frozen=True, slots=True)
class ComparisonReport:
    """What the report of a comparison says."""

    title: str
    about: str
    origin: str
    quantity: str
    runs: tuple[RunRow, ...]
    groups: tuple[GroupRow, ...]
    statements: tuple[str, ...]
    cautions: tuple[str, ...]
    file_lines: tuple[str, ...]


def export_comparison(
    comparison: RunComparison,
    runs: Sequence[OverlayRun],
    out: Path,
    progress: Progress | None = None,
    *,
    replace: bool = False,
) -> None:
    """Write a comparison as ``.html`` or ``.pdf`` report, or its picture as ``.svg`` or ``.png``.

    Parameters
    ----------
    runs : in the order of `comparison.runs`.

    Raises
    ------
    OutputExists : `out` exists and may not be replaced.
    Cancelled : `progress` was told to stop.
    LoggerError : there is no painter, or the file cannot be written.
    """
    steps = progress or Progress()
    write = _writer_of(comparison, runs, out.suffix.lower())
    with written_whole(out, replace=replace) as part:
        steps.reach(0.0)
        write(part)
        steps.reach(1.0)


def _writer_of(
    comparison: RunComparison, runs: Sequence[OverlayRun], ending: str
) -> Callable[[Path], object]:
    """Return what writes the comparison into a file, found before any file is begun."""
    from logger.export.comparison_page import comparison_page
    from logger.export.comparison_sheets import comparison_sheets

    report = comparison_report_of(comparison, origin_of(runs))
    if ending == ".html":
        return lambda part: part.write_text(comparison_page(report, comparison, runs), "utf-8", newline="\n")
    if ending == ".pdf":
        paint_pages = pages_painter("pdf")
        return lambda part: paint_pages(comparison_sheets(report, comparison, runs), part)
    drawing = comparison_picture(runs, comparison, report.title)
    if ending == ".svg":
        return lambda part: write_svg(drawing, part)
    paint = painter("png")
    return lambda part: paint(drawing, part, 200)


def comparison_report_of(comparison: RunComparison, origin: str = "") -> ComparisonReport:
    """Return the report of a comparison; `origin` says which data are invented."""
    paths = [Path(one.file) for one in comparison.runs]
    names = distinct_names([one.title for one in comparison.runs], paths)
    starts = sorted(clean_label(one.start_time)[:10] for one in comparison.runs if one.start_time)
    days = "Start not known"
    if starts:
        days = starts[0] if starts[0] == starts[-1] else f"{starts[0]} to {starts[-1]}"
    return ComparisonReport(
        title=f"{len(comparison.runs)} runs compared",
        about=f"{days}   ·   {PROGRAM} {VERSION}",
        origin=origin,
        quantity="at the current before" if comparison.at_equal_current else "as measured",
        runs=tuple(
            _run_row(one, clean_label(name), comparison.at_equal_current)
            for one, name in zip(comparison.runs, names, strict=True)
        ),
        groups=tuple(
            _group_row(name, group)
            for name, group in (("With salt", comparison.with_salt), ("Blanks", comparison.blanks))
            if group.values_V
        ),
        statements=tuple(line.strip() for line in statement_lines(comparison)),
        cautions=tuple(_with_names(one.message, paths) for one in comparison.cautions),
        file_lines=tuple(
            f"{number}  {clean_label(path.name)}   ·   run {clean_label(one.uuid)}"
            for number, (path, one) in enumerate(zip(paths, comparison.runs, strict=True), 1)
        ),
    )


def _with_names(message: str, paths: Sequence[Path]) -> str:
    """Name files without their folders: those are nobody's business on paper."""
    for path in sorted(paths, key=lambda one: -len(str(one))):
        message = message.replace(str(path), path.name)
    return clean_text(message, MESSAGE_LIMIT)


def _run_row(one: ComparedRun, name: str, at_equal_current: bool) -> RunRow:
    saved = one.saved(at_equal_current)
    notes = []
    if saved is None and one.as_measured is not None:
        saved = one.as_measured
        notes.append("as measured")
    if one.left_out:
        notes.append("not in the statistics")
    if one.outlier != "none":
        notes.append(one.outlier)
    kind = "with salt" if one.kind == "run" else "blank"
    return RunRow(name, kind, _voltage(one.before), _voltage(one.after), _saving(saved), ", ".join(notes))


def _voltage(found: Voltage | None) -> str:
    if found is None:
        return "not known"
    text = with_uncertainty(found.voltage_V, 2.0 * found.standard_uncertainty_V, "V")
    return text if found.is_settled else f"{text}, not settled"


def _saving(found: Saving | None) -> str:
    if found is None:
        return "not known"
    return with_uncertainty(1000 * found.value_V, 1000 * found.expanded_uncertainty_V, "mV")


def _group_row(name: str, group: Group) -> GroupRow:
    count = str(len(group.values_V))
    if group.statistics is None:
        only = plain(1000 * group.values_V[0], 1, "mV")
        return GroupRow(name, count, only, "needs two runs", "needs two runs", "needs three runs")
    found = group.statistics
    low, high = (plain(1000 * end, 1) for end in found.interval95)
    test = "needs three runs"
    if group.outlier_test is not None:
        judged = group.outlier_test
        test = f"{judged.statistic:.2f}, 5 % above {judged.critical5:.2f}: {judged.verdict}"
    if group.second_outlier is not None:
        second = group.second_outlier
        test = f"{second.statistic:.2f}, 1 % above {second.critical1:.2f}: two outliers"
    return GroupRow(
        name,
        count,
        with_uncertainty(1000 * found.mean, 1000 * found.expanded_uncertainty, "mV"),
        f"{low} to {high}\u00a0mV",
        significant(1000 * found.standard_deviation, 2, "mV"),
        test,
    )
