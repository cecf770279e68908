"""What to do about a warning, and which page helps."""

from __future__ import annotations

from gui.words import translate

__all__ = ["advice", "page_that_helps"]

_BENCH = frozenset({
    "no_bench", "bench_unreadable", "conditions_assumed", "conditions_impossible", "meter_unknown",
    "no_current", "supply_assumed", "no_equal_current", "stack_voltage_from_readings",
    "stack_voltage_differs",
    "resolution_coarser", "kinetics_assumed", "area_unknown",
})  # fmt: skip
"""Warnings that the bench file answers."""


def advice(code: str) -> str:
    """Return one sentence on what to do; empty where the warning says it already."""
    return {
        "not_settled_before": translate(
            "Advice", "The result stands, with a wider uncertainty. Next time add the salt only at settled."
        ),
        "not_settled_after": translate(
            "Advice",
            "The result stands, with a wider uncertainty. Next time let the end run a few minutes longer.",
        ),
        "salt_too_early": translate("Advice", "Repeat the run; the figure for before is only a bound."),
        "no_growth_fit": translate(
            "Advice", "Nothing is wrong with the saving: the fit is not needed for it."
        ),
        "growth_poor_fit": translate("Advice", "Look at the residuals; do not quote a time constant."),
        "no_saving": translate(
            "Advice", "If the phases were not recognised, tag the moments, or choose the windows by hand."
        ),
        "no_settled_before": translate("Advice", "Choose another window by hand, or repeat the run."),
        "no_settled_after": translate("Advice", "Choose another window by hand, or repeat the run."),
        **dict.fromkeys(
            ("salt_recognised", "swap_recognised", "buffer_in_recognised", "electrodes_in_recognised"),
            translate("Advice", "Add the missing moment; then the phases are certain."),
        ),
        "leads_reversed": translate("Advice", "Nothing is lost; plus belongs to the anode."),
        "polarity_changed": translate("Advice", "Compare only what was measured with one polarity."),
        "relative_reading": translate("Advice", "Switch the meter's REL off before the next run."),
        "no_effect_shown": translate("Advice", "More runs, or a longer growth, would tell."),
        "no_bench": translate(
            "Advice", "Fill in the bench and record with it; then the current is known too."
        ),
        "meter_unknown": translate("Advice", "Copy the accuracy from the meter's data sheet to the bench."),
        "supply_assumed": translate("Advice", "Measure the open stack and write it on the bench."),
    }.get(code, "")


def page_that_helps(code: str) -> str:
    """Return the name of the page where the warning can be answered; empty where none can."""
    return "bench" if code in _BENCH else ""
