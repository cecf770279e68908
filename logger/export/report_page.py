"""The report of a run as one HTML file: chart inside, no script, nothing fetched, prints on A4."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from logger.export.drawing import Drawing
from logger.export.page import page
from logger.export.picture import describe
from logger.export.plot import Frame, Plot
from logger.export.report_model import BudgetLine, Entry, Report
from logger.export.report_pictures import pictures_section
from logger.export.small_pictures import SmallPicture
from logger.export.svg import escaped, svg
from logger.recording import Recording

__all__ = ["entries_table", "report_page"]

CONCLUSION_LINES = 5


def report_page(
    report: Report, recording: Recording, findings: dict[str, Any], pictures: Sequence[SmallPicture] = ()
) -> str:
    """Return the report as a complete HTML document."""
    looks = ("" if report.is_known else " unknown") + (" sure" if report.is_sure else "")
    headline = f"headline{looks}"
    origin = f'<p class="origin">{escaped(report.origin)}</p>' if report.origin else ""
    body = f"""
<header>
<div><h1><bdi>{escaped(report.title)}</bdi></h1>
<p class="quiet"><bdi>{escaped(report.about)}</bdi></p>{origin}</div>
<div class="{headline}"><p>{escaped(report.headline)}</p>
<p class="quiet">{escaped(report.headline_note)}</p></div>
</header>
<p class="blanks">{"".join(f"<span>{escaped(name)}</span>" for name in report.blanks)}</p>
<figure>
{svg(_chart(report, recording, findings), "chart")}{_moments(report.moments)}
</figure>
<div class="columns">
<div>
<section><h2>Results</h2>{entries_table(report.results)}</section>
<section><h2>Data quality</h2>{entries_table(report.quality)}</section>
</div>
<div>
<section><h2>Set-up</h2>{entries_table(report.setup)}</section>
{_budget(report.budget)}
</div>
</div>
{_warnings(report.warnings)}
<section class="conclusions"><h2>Our conclusions</h2>{'<div class="line"></div>' * CONCLUSION_LINES}</section>
{pictures_section(pictures)}
<footer><p><strong>Cautions.</strong> {escaped(report.cautions)}</p>
<p class="quiet">{"<br>".join(f"<bdi>{escaped(line)}</bdi>" for line in report.file_lines)}</p></footer>
"""
    return page(report.title, body, has_pictures=bool(pictures))


def _chart(report: Report, recording: Recording, findings: dict[str, Any]) -> Drawing:
    plot = Plot(recording, recording.channel("cell_voltage"), Frame(12.0, 177.0, 8.0, 80.0, 7.2))
    shapes = tuple(plot.shapes(findings))
    title, words = f"Chart: {report.title}", describe(recording, findings)
    return Drawing(178.0, 97.0, shapes, title, words, background="none")


def _moments(moments: Sequence[str]) -> str:
    if not moments:
        return ""
    items = "".join(f"<li><bdi>{escaped(text)}</bdi></li>" for text in moments)
    return f'<figcaption>Moments, by their numbers in the chart<ol class="moments">{items}</ol></figcaption>'


def entries_table(entries: Sequence[Entry]) -> str:
    """Return lines of name, value and note as a table."""
    rows = "".join(
        f'<tr><th scope="row">{escaped(one.name)}</th><td><bdi>{escaped(one.value)}</bdi>'
        + (f' <span class="quiet"><bdi>{escaped(one.note)}</bdi></span>' if one.note else "")
        + "</td></tr>"
        for one in entries
    )
    return f"<table>{rows}</table>"


def _budget(budget: Sequence[BudgetLine]) -> str:
    if not budget:
        return ""
    rows = "".join(
        f'<tr><th scope="row">{escaped(one.name)}</th>'
        f'<td><span class="bar" style="width:{100 * one.share:.1f}%"></span></td>'
        f'<td class="amount">{escaped(one.amount)}</td></tr>'
        for one in budget
    )
    return (
        "<section><h2>What makes the voltage saved uncertain</h2>"
        f'<table class="budget"><caption>Standard uncertainties; (A) from scatter, (B) from other knowledge'
        f"</caption>{rows}</table></section>"
    )


def _warnings(warnings: Sequence[str]) -> str:
    if not warnings:
        return ""
    items = "".join(f"<li><bdi>{escaped(text)}</bdi></li>" for text in warnings)
    return f"<section><h2>To know</h2><ul>{items}</ul></section>"
