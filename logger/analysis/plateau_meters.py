"""The meter that read each of two settled voltages: one and the same, or another range half-way."""

from __future__ import annotations

from collections.abc import Mapping

from logger.analysis.caution import Cautions
from logger.analysis.evidence import Evidence
from logger.analysis.meter_accuracy import MeterAccuracy
from logger.analysis.phase_window import with_its_phase
from logger.analysis.reading_faults import display_held, meter_changed
from logger.analysis.readings import Stretch
from logger.analysis.resolution import with_digits_of
from logger.analysis.settled import SettledWindow
from logger.recording import ChannelData

__all__ = ["plateau_meters"]


def plateau_meters(
    channel: ChannelData,
    evidence: Evidence,
    windows: Mapping[str, SettledWindow],
    stated: MeterAccuracy,
    meter: MeterAccuracy,
    cautions: Cautions,
) -> dict[str, MeterAccuracy]:
    """Return the meter of each settled window, by its name.

    Parameters
    ----------
    channel : ChannelData
        The cell voltage as shown.
    evidence : Evidence
    windows : mapping of SettledWindow
        ``before``, ``after``, one of them or none.
    stated, meter : MeterAccuracy
        By the bench file, and with the digits that the run as a whole shows.
    cautions : Cautions
        Takes what the reader must know: ``meter_changed`` where each window has its own meter, and
        ``display_held``.
    """
    meters = dict.fromkeys(windows, meter)
    if not {"before", "after"} <= windows.keys():
        return meters
    spans = {name: with_its_phase(evidence, name, one) for name, one in windows.items()}
    changed = meter_changed(channel, spans["before"], spans["after"])
    if changed is not None:
        cautions.extend((changed,))
        parts = {name: evidence.within(*span[-1]) for name, span in spans.items()}
        meters = {
            name: with_digits_of(stated, Stretch(evidence.magnitude_V, part.start, part.stop))
            for name, part in parts.items()
        }
    digits_V = meters["before"].resolution_V, meters["after"].resolution_V
    held = display_held(channel, windows["before"], windows["after"], digits_V)
    cautions.extend(() if held is None else (held,))
    return meters
