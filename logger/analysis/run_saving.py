"""The voltage saved in a run, and what its reader must know of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from logger.analysis.caution import Cautions
from logger.analysis.comparison import compare
from logger.analysis.evidence import Evidence
from logger.analysis.meter_accuracy import MeterAccuracy
from logger.analysis.plateau_current import other_current, steady_stack
from logger.analysis.plateau_temperature import temperature_cautions, temperature_difference
from logger.analysis.refusal import Refused
from logger.analysis.run_current import CurrentSource
from logger.analysis.run_plateau import Plateau
from logger.analysis.saving import VoltageSaved
from logger.analysis.stirring import stirring_changed
from logger.bench_defaults import bench_kinetics
from logger.bench_tables import Bench
from logger.recording import Recording

__all__ = ["saving_of_run"]


def saving_of_run(
    recording: Recording,
    bench: Bench,
    source: CurrentSource,
    evidence: Evidence | None,
    plateaus: Mapping[str, Plateau],
    meters: Mapping[str, MeterAccuracy],
    cautions: Cautions,
) -> VoltageSaved | None:
    """Return the voltage saved, or None where the two voltages cannot be compared.

    Parameters
    ----------
    recording : Recording
    bench : Bench
    source : CurrentSource
        That of the first resistor.
    evidence : Evidence or None
    plateaus, meters : mappings
        By the names ``before`` and ``after``.
    cautions : Cautions
        Takes what the reader must know.
    """
    before, after = plateaus.get("before"), plateaus.get("after")
    if before is None or after is None or evidence is None:
        cautions.say("no_saving", "The voltage saved needs a voltage before and a voltage after.")
        return None
    currents = None
    if before.current is not None and after.current is not None:
        currents = (before.current, after.current)
        if (other := other_current(*currents)) is not None:
            cautions.extend((other,))
            return None
    kinetics = bench_kinetics(bench.cell)
    try:
        saved = compare(
            before.window,
            after.window,
            meters["before"],
            currents,
            kinetics.kinetics,
            cautions,
            temperature=temperature_difference(before.temperature_C, after.temperature_C),
            meter_after=meters["after"] if cautions.has("meter_changed") else None,
        )
    except Refused as refusal:
        cautions.say("no_saving", f"The two voltages were not compared: {refusal.explained}.")
        return None
    if saved is None:
        return None
    steady = steady_stack(recording, source, before.window, kinetics.kinetics)
    _tell(saved, (*kinetics.assumed, *steady), source, cautions)
    phases = {name: evidence.phases.named(name) for name in plateaus}
    measured_C = {name: one.temperature_C for name, one in plateaus.items()}
    cautions.extend(temperature_cautions(recording, phases, measured_C).all)
    if (stirred := stirring_changed(recording.moments, before.window, after.window)) is not None:
        cautions.extend((stirred,))
    return saved


def _tell(saved: VoltageSaved, assumed: Sequence[str], source: CurrentSource, cautions: Cautions) -> None:
    if saved.at_equal_current is not None and source.circuit is not None:
        cautions.say(
            "kinetics_assumed", f"For the saving at equal current were assumed: {'; '.join(assumed)}."
        )
    if saved.at_equal_current is None and not cautions.has("no_equal_current"):
        cautions.say(
            "no_equal_current", "The saving is stated as measured; at equal current it needs the currents."
        )
    if saved.is_provisional:
        cautions.say("provisional", "The voltage saved is provisional, since a voltage had not settled.")
    if saved.effect == "none_shown":
        cautions.say(
            "no_effect_shown", "No effect is shown: the change is within two standard uncertainties."
        )
    elif saved.effect == "lost":
        cautions.say("voltage_rose", "The cell needs more voltage after than before.")
