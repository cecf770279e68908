"""A comparison of runs as one HTML file: tables, curves over one another, no script, nothing fetched."""

from __future__ import annotations

from collections.abc import Sequence

from logger.analysis.run_comparison import RunComparison
from logger.cautions import DEFERENCE, IN_SHORT
from logger.export.comparison_report import RULE_OF_OUTLIERS, ComparisonReport
from logger.export.drawing import Drawing
from logger.export.overlay_picture import OverlayRun, describe_comparison, key_words, overlay, savings
from logger.export.page import page
from logger.export.plot import Frame
from logger.export.svg import escaped, svg

__all__ = ["comparison_page"]


def comparison_page(report: ComparisonReport, comparison: RunComparison, runs: Sequence[OverlayRun]) -> str:
    """Return the report of a comparison as a complete HTML document."""
    words = describe_comparison(comparison)
    curves = Drawing(
        178.0, 96.0, tuple(overlay(runs, comparison, Frame(12.0, 168.0, 8.0, 82.0, 7.2))),
        "Curves over one another", words, "none",
    )  # fmt: skip
    bottom = 3.0 + max(16.0, 5.0 * len(runs))
    ladder = Drawing(
        178.0, bottom + 9.0, tuple(savings(comparison, Frame(12.0, 168.0, 3.0, bottom, 7.2))),
        "What each run saved", words, "none",
    )  # fmt: skip
    rows = "".join(
        f'<tr><td>{number}</td><th scope="row"><bdi>{escaped(one.name)}</bdi></th>'
        f"<td>{escaped(one.kind)}</td><td>{escaped(one.before)}</td><td>{escaped(one.after)}</td><td>{escaped(one.saved)}</td>"
        f"<td>{escaped(one.note)}</td></tr>"
        for number, one in enumerate(report.runs, 1)
    )
    groups = "".join(
        f'<tr><th scope="row">{escaped(one.name)}</th><td>{one.count}</td><td>{escaped(one.mean)}</td>'
        f"<td>{escaped(one.interval)}</td><td>{escaped(one.scatter)}</td><td>{escaped(one.test)}</td></tr>"
        for one in report.groups
    )
    statements = "".join(f"<p>{escaped(line)}</p>" for line in report.statements)
    cautions = "".join(f"<li><bdi>{escaped(line)}</bdi></li>" for line in report.cautions)
    files = "<br>".join(f"<bdi>{escaped(line)}</bdi>" for line in report.file_lines)
    return page(
        report.title,
        f"""
<header><div><h1>{escaped(report.title)}</h1><p class="quiet">{escaped(report.about)}</p>
<p class="origin">{escaped(report.origin)}</p></div></header>
<section><h2>Groups: voltage saved, {escaped(report.quantity)}</h2>
<table class="wide"><thead><tr><th scope="col">group</th><th scope="col">runs</th>
<th scope="col">mean (95 %)</th><th scope="col">95 % interval of the mean</th>
<th scope="col">scatter of runs (s)</th><th scope="col">Grubbs' test</th></tr></thead>
<tbody>{groups}</tbody></table>
<p class="quiet">{escaped(RULE_OF_OUTLIERS)}</p>
{statements}</section>
<figure>{svg(curves, "curves")}{svg(ladder, "savings")}
<figcaption>{escaped(key_words(comparison))} Dots: each run with its 95 % interval; band and line: mean of the
group with its 95 % interval.</figcaption></figure>
<section><h2>Runs</h2>
<table class="wide"><thead><tr><th scope="col">no</th><th scope="col">run</th><th scope="col">kind</th>
<th scope="col">before</th><th scope="col">after</th>
<th scope="col">saved, {escaped(report.quantity)} (95 %)</th><th scope="col">note</th></tr></thead>
<tbody>{rows}</tbody></table></section>
{f"<section><h2>To know</h2><ul>{cautions}</ul></section>" if cautions else ""}
<footer><p><strong>Cautions.</strong> {escaped(IN_SHORT)} {escaped(DEFERENCE)}</p>
<p class="quiet">{files}</p></footer>
""",
    )
