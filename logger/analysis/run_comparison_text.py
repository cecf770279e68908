"""A comparison of runs as text for people."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from logger.analysis.compared_run import ComparedRun, Voltage
from logger.analysis.replicates import AgainstBlanks
from logger.analysis.run_comparison import Group, RunComparison
from logger.quantity import plain, significant, with_uncertainty

__all__ = ["comparison_text", "statement_lines"]


def comparison_text(comparison: RunComparison) -> str:
    """Return what several runs say together, as lines: each run, the groups, the blanks, what to mind."""
    parts = [
        "\n".join(_table(comparison)),
        "\n".join(statement_lines(comparison)),
    ]
    if comparison.cautions:
        parts.append("\n".join(["To know:", *(f"- {one.message}" for one in comparison.cautions)]))
    return "\n\n".join(part for part in parts if part)


def statement_lines(comparison: RunComparison) -> list[str]:
    """Return what the groups say: mean and scatter, the meter's share, and the difference of both."""
    return [
        *(_single_lines("With salt", "run", comparison) or _group_lines("With salt", comparison.with_salt)),
        *(_single_lines("Blanks", "blank", comparison) or _group_lines("Blanks", comparison.blanks)),
        *_difference_lines(comparison),
    ]


def _table(comparison: RunComparison) -> list[str]:
    which = "at the current before" if comparison.at_equal_current else "as measured"
    head = ("run", "kind", "before", "after", f"saved, {which} (95 %)", "")
    names = _names([one.file for one in comparison.runs])
    rows = [
        head,
        *(
            _row(name, one, comparison.at_equal_current)
            for name, one in zip(names, comparison.runs, strict=True)
        ),
    ]
    widths = [max(len(row[k]) for row in rows) for k in range(len(head))]
    return [
        "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip() for row in rows
    ]


def _names(files: Sequence[str]) -> list[str]:
    """Return the names of the files; as they were given where two have the same."""
    names = [Path(one).name for one in files]
    return names if len(set(names)) == len(names) else list(files)


def _row(name: str, one: ComparedRun, at_equal_current: bool) -> tuple[str, ...]:
    saved = one.saved(at_equal_current) or one.as_measured
    amount = (
        "not known"
        if saved is None
        else with_uncertainty(1000 * saved.value_V, 1000 * saved.expanded_uncertainty_V, "mV")
    )
    note = "left out" if one.left_out else "" if one.outlier == "none" else one.outlier
    return (name, one.kind, _voltage(one.before), _voltage(one.after), amount, note)


def _voltage(voltage: Voltage | None) -> str:
    if voltage is None:
        return "not known"
    text = with_uncertainty(voltage.voltage_V, 2.0 * voltage.standard_uncertainty_V, "V")
    return text if voltage.is_settled else f"{text}, not settled"


def _single_lines(name: str, kind: str, comparison: RunComparison) -> list[str]:
    """Return what the only run of its kind says, as the table has it; no line where there are more."""
    runs = [one for one in comparison.runs if one.kind == kind and not one.left_out]
    used = [one.saved(comparison.at_equal_current) for one in runs]
    if len(used) != 1 or used[0] is None:
        return []
    own = with_uncertainty(1000 * used[0].value_V, 1000 * used[0].expanded_uncertainty_V, "mV")
    return [f"{name}: {own} in one run, by its own uncertainty; how runs scatter is not known."]


def _group_lines(name: str, group: Group) -> list[str]:
    count, found = len(group.values_V), group.statistics
    if found is None:
        return []
    mean = with_uncertainty(1000 * found.mean, 1000 * found.expanded_uncertainty, "mV")
    lines = [
        f"{name}: {mean} on average of {count} (95 %); single runs scatter by "
        f"{significant(1000 * found.standard_deviation, 2, 'mV')} (standard deviation)."
    ]
    own = significant(1000 * group.usual_uncertainty_V, 2, "mV")
    if group.scatter_is_explained is True:
        lines.append(f"  Their own uncertainties, about {own} each, explain that scatter.")
    elif group.scatter_is_explained is False:
        lines.append(
            f"  Their own uncertainties, about {own} each, do not explain that: something besides the "
            "readings differs from run to run (electrodes, contacts, solution, temperature)."
        )
    if group.interval95_with_meter_V is not None:
        low_V, high_V = group.interval95_with_meter_V
        half_V = (high_V - low_V) / 2.0
        if half_V > 1.1 * found.expanded_uncertainty:
            shown = with_uncertainty(1000 * found.mean, 1000 * half_V, "mV")
            lines.append(f"  With the gain of the meter, which all of them share: {shown}.")
    if group.without_outlier is not None:
        rest = group.without_outlier
        shown = with_uncertainty(1000 * rest.mean, 1000 * rest.expanded_uncertainty, "mV")
        which = "one that lies off" if group.second_outlier is None else "two that lie off"
        lines.append(f"  Without the {which}: {shown} (shown for comparison only).")
    return lines


def _difference_lines(comparison: RunComparison) -> list[str]:
    found = comparison.against_blanks
    if found is not None:
        return _welch_lines(found)
    runs, blanks = comparison.with_salt.values_V, comparison.blanks.values_V
    if runs and blanks:
        difference_V = sum(runs) / len(runs) - sum(blanks) / len(blanks)
        return [
            f"Salt against blanks: {plain(1000 * difference_V, 1, 'mV')} more saved; how sure that is cannot "
            "be told from so few."
        ]
    return []


def _welch_lines(found: AgainstBlanks) -> list[str]:
    low_V, high_V = found.interval95
    shown = with_uncertainty(1000 * found.difference, 1000 * (high_V - low_V) / 2.0, "mV")
    lines = [f"Salt against blanks: {shown} more saved (95 %, Welch)."]
    if low_V > 0.0:
        lines.append("  The salt saves voltage; the handling alone does not explain it.")
    elif high_V < 0.0:
        lines.append("  The runs with salt save less than the blanks do.")
    else:
        lines.append("  No effect of the salt is shown: the interval holds zero.")
    return lines
