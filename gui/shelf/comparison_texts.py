"""What several runs say together, in words for the shelf."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from gui.kind_words import kind_words
from gui.message_words import message_words
from gui.numbers import plain, significant, with_uncertainty
from gui.words import translate
from logger.alignment import START, Alignment
from logger.analysis.compared_run import ComparedRun, Voltage
from logger.analysis.run_comparison import Group, RunComparison

__all__ = ["ComparedRow", "alignment_text", "caution_texts", "comparison_sentences", "row_of"]

MISSING = "–"


@dataclass(frozen=True, slots=True)
class ComparedRow:
    """One line of the table of runs."""

    kind: str
    before: str
    after: str
    saved: str
    note: str


def alignment_text(one: Alignment, runs: int) -> str:
    """Return a moment or phase to align at in words, and how many runs have it where not all do."""
    sort, _, name = one.key.partition(":")
    if one.key == START:
        text = translate("Shelf", "Start of the run")
    elif sort == "moment":
        text = kind_words(name)
    else:
        text = {
            "before": translate("Shelf", "Current on (phase before)"),
            "growth": translate("Shelf", "Growth begins"),
            "after": translate("Shelf", "Fresh solution (phase after)"),
        }[name]
    if one.count < runs:
        return translate("Shelf", "{what}, in {count} of {runs}").format(
            what=text, count=one.count, runs=runs
        )
    return text


def row_of(one: ComparedRun, *, at_equal_current: bool) -> ComparedRow:
    """Return the line of one run."""
    saved = one.saved(at_equal_current) or one.as_measured
    note = ""
    if one.left_out:
        note = translate("Shelf", "left out: {why}").format(why="; ".join(map(message_words, one.left_out)))
    elif one.outlier != "none":
        note = translate("Shelf", "lies off the others")
    return ComparedRow(
        translate("Shelf", "blank") if one.kind == "blank" else translate("Shelf", "with salt"),
        _voltage(one.before),
        _voltage(one.after),
        MISSING if saved is None else _mV(saved.value_V, saved.expanded_uncertainty_V),
        note,
    )


def comparison_sentences(comparison: RunComparison) -> tuple[str, ...]:
    """Return mean, scatter and interval of runs and blanks, and what the salt did, as sentences."""
    said = [
        *_group(translate("Shelf", "With salt"), comparison.with_salt),
        *_group(translate("Shelf", "Blanks"), comparison.blanks),
        *_difference(comparison),
    ]
    return tuple(said)


def caution_texts(comparison: RunComparison, names: Mapping[str, str]) -> tuple[str, ...]:
    """Return what to mind, in words; why a run is left out stands in its own line already.

    `names` say how each file is called where this is read; a path would be no help there.
    """
    said = []
    for caution in comparison.cautions:
        if caution.code == "left_out":
            continue
        text = message_words(caution.message)
        for file in sorted(names, key=len, reverse=True):  # one path may begin with another
            text = text.replace(file, translate("Shelf", "“{name}”").format(name=names[file]))
        said.append(text)
    return tuple(said)


def _group(name: str, group: Group) -> list[str]:
    if not group.values_V:
        return []
    if group.statistics is None:
        value = plain(1000 * group.values_V[0], 1, "mV")
        return [
            translate("Shelf", "{name}: {value} in one run; how it scatters is not known.").format(
                name=name, value=value
            )
        ]
    found = group.statistics
    said = [
        translate(
            "Shelf", "{name}: {mean} on average of {count} (95 %); single runs scatter by {scatter}."
        ).format(
            name=name,
            mean=_mV(found.mean, found.expanded_uncertainty),
            count=len(group.values_V),
            scatter=significant(1000 * found.standard_deviation, 2, "mV"),
        )
    ]
    own = significant(1000 * group.usual_uncertainty_V, 2, "mV")
    if group.scatter_is_explained is True:
        said.append(
            translate("Shelf", "Their own uncertainties, about {own} each, explain that scatter.").format(
                own=own
            )
        )
    elif group.scatter_is_explained is False:
        said.append(
            translate(
                "Shelf",
                "Their own uncertainties, about {own} each, do not explain that scatter: something else "
                "differs from run to run.",
            ).format(own=own)
        )
    if group.without_outlier is not None:
        rest = group.without_outlier
        text = translate("Shelf", "Without the one that lies off: {mean} (for comparison only).")
        if group.second_outlier is not None:
            text = translate("Shelf", "Without the two that lie off: {mean} (for comparison only).")
        said.append(text.format(mean=_mV(rest.mean, rest.expanded_uncertainty)))
    return said


def _difference(comparison: RunComparison) -> list[str]:
    found = comparison.against_blanks
    if found is None:
        return []
    low_V, high_V = found.interval95
    shown = _mV(found.difference, (high_V - low_V) / 2)
    said = translate("Shelf", "Salt against blanks: {shown} more saved (95 %, Welch).").format(shown=shown)
    if low_V > 0.0:
        verdict = translate("Shelf", "The salt saves voltage; the handling alone does not explain it.")
    elif high_V < 0.0:
        verdict = translate("Shelf", "The runs with salt save less than the blanks do.")
    else:
        verdict = translate("Shelf", "No effect of the salt is shown: the interval holds zero.")
    return [said, verdict]


def _voltage(voltage: Voltage | None) -> str:
    if voltage is None:
        return MISSING
    text = with_uncertainty(voltage.voltage_V, 2.0 * voltage.standard_uncertainty_V, "V")
    return text if voltage.is_settled else translate("Shelf", "{value}, not settled").format(value=text)


def _mV(value_V: float, expanded_V: float) -> str:
    return with_uncertainty(1000 * value_V, 1000 * expanded_V, "mV")
