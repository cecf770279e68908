"""A source whose readings are corrected by the calibration that is kept for its instrument."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable, Mapping
from datetime import date

from drivers.run_clock import RunClock
from drivers.samples import Delivery, Notice, Samples
from drivers.source import Channel, Instrument, Source
from logger.bench import Bench
from logger.calibration import Calibration, CalibrationError
from logger.calibration_store import CalibrationStore
from logger.input_range import divider_advice
from logger.instrument_identity import identity_of, is_same_input

__all__ = ["CalibratedSource", "corrected_sources"]

OLD_DAYS = 365


class CalibratedSource(Source):
    """Any source; on opening, looks up the calibration of its instrument and applies it from then on.

    What the instrument itself showed can be had back: `Instrument.calibration` says of each channel the
    factors with which value = reading * scale + offset, the calibration included. A calibration is for the
    run: one that changes meanwhile changes nothing.

    Parameters
    ----------
    source : not open yet.
    store : where calibrations are kept.
    bench : tells what will lie on the meter's input, and the meter's range.
    passed_over : roles whose correction the user has in the bench file; they are left as they are.
    """

    def __init__(
        self,
        source: Source,
        store: CalibrationStore,
        *,
        bench: Bench | None = None,
        passed_over: frozenset[str] = frozenset(),
    ) -> None:
        super().__init__(source.address)
        self._source = source
        self._store = store
        self._bench = bench or Bench()
        self._passed_over = passed_over
        self._found: dict[str, Calibration] | None = None
        self._notices: list[Notice] = []

    @property
    def channels(self) -> tuple[Channel, ...]:
        """Those of the source."""
        return self._source.channels

    @property
    def speed(self) -> float:
        """That of the source."""
        return self._source.speed

    @property
    def waits_for(self) -> str:
        """What the source waits for."""
        return self._source.waits_for

    @property
    def instrument(self) -> Instrument:
        """The source's, with all that turns a reading into the value that is delivered."""
        known = self._source.instrument
        if not self._found:
            return known
        facts = dict(known.calibration)
        for channel in self.channels:
            if channel.name in self._found:
                prefix = f"{channel.name}_" if len(self.channels) > 1 else ""
                facts |= _facts(self._found[channel.name], facts, prefix)
        return dataclasses.replace(known, calibration=facts)

    def open(self, clock: RunClock) -> None:
        """Open the source; the first time, look up the calibration. Raises what the source raises."""
        self._source.open(clock)
        if self._found is None:
            self._found = self._look_up()
            self._look_at_range()

    def read(self, timeout_s: float) -> Delivery:
        """Return what the source read, corrected."""
        delivery = self._source.read(timeout_s)
        self.silent_after_s = self._source.silent_after_s
        if self._found:
            delivery = dataclasses.replace(
                delivery, samples=tuple(self._corrected(block) for block in delivery.samples)
            )
        if self._notices:
            delivery = dataclasses.replace(delivery, notices=(*self._notices, *delivery.notices))
            self._notices.clear()
        return delivery

    def close(self) -> None:
        """Close the source."""
        self._source.close()

    def _look_up(self) -> dict[str, Calibration]:
        found: dict[str, Calibration] = {}
        for channel in self.channels:
            try:
                identity = identity_of(self._source, channel)
                kept = self._store.find(identity)
            except CalibrationError as error:
                self._notices.append(Notice("calibration_unread", f"No calibration is applied: {error}."))
                return {}
            if channel.unit != "V":
                continue
            if kept is None:
                self._tell_of_other_dividers(identity)
                continue
            if channel.role in self._passed_over:
                self._notices.append(
                    Notice(
                        "calibration_in_bench",
                        "The bench file corrects the meter (meter.zero_V, meter.gain); the calibration that "
                        "is kept for it is therefore not applied.",
                    )
                )
                continue
            found[channel.name] = kept
            self._notices.append(Notice("calibrated", _told(channel, kept)))
        return found

    def _tell_of_other_dividers(self, identity: str) -> None:
        """Say that this input was calibrated, but not with the divider that the address tells."""
        others = [one for one in self._store.all() if is_same_input(identity, one)]
        if others:
            text = (
                f"No calibration is applied to {identity}: it was calibrated with another divider "
                f"({'; '.join(others)}). Calibrate it with the scale= and offset= that it is recorded with."
            )
            self._notices.append(Notice("calibrated_otherwise", text))

    def _look_at_range(self) -> None:
        """Ask for a divider where the open stack would be too much for the meter."""
        facts = self._source.instrument.calibration
        for channel in self.channels:
            if channel.role == "cell_voltage" and self.address.kind not in ("cell", "replay"):
                prefix = f"{channel.name}_" if len(self.channels) > 1 else ""
                advice = divider_advice(self._bench, float(facts.get(f"{prefix}scale", 1.0)))
                if advice:
                    self._notices.append(Notice("divider_needed", advice))

    def _corrected(self, block: Samples) -> Samples:
        assert self._found is not None
        kept = self._found.get(block.channel)
        if kept is None:
            return block
        return dataclasses.replace(block, values=kept.apply(block.values))


def _facts(kept: Calibration, facts: Mapping[str, str | float], prefix: str) -> dict[str, str | float]:
    """Return what the recording keeps: factors of the whole, and where they come from."""
    scale, offset = float(facts.get(f"{prefix}scale", 1.0)), float(facts.get(f"{prefix}offset", 0.0))
    points = "; ".join(
        f"{one.true_V:g} V shown as {one.shown_V:.6g} V ({one.readings} readings, {one.day}"
        + (f", {one.against})" if one.against else ")")
        for one in kept.points
    )
    return {
        f"{prefix}scale": scale / kept.gain,
        f"{prefix}offset": (offset - kept.zero_V) / kept.gain,
        f"{prefix}meter_zero_V": kept.zero_V,
        f"{prefix}meter_gain": kept.gain,
        f"{prefix}calibrated_on": kept.day,
        f"{prefix}calibrated_at": points,
    }


def _told(channel: Channel, kept: Calibration) -> str:
    age = kept.age_days(date.today())
    # A channel that bears the name of its role is said in words; one that a person named keeps that name.
    name = channel.name.replace("_", " ") if channel.name == channel.role else channel.name
    zero_mV = f"{round(1000 * kept.zero_V, 6) + 0.0:.3g}".replace("-", "−")
    told = [f"Calibration of {kept.day} is applied to {name}: zero {zero_mV} mV, gain {kept.gain:.6g}."]
    if age > OLD_DAYS:
        told.append("It is older than a year: accuracy not verified.")
    return " ".join(told)


def corrected_sources(
    sources: Iterable[Source], bench: Bench, *, store: CalibrationStore | None = None
) -> list[Source]:
    """Return the sources of a run, each with the calibration that is kept for its instrument.

    Where the bench file corrects the meter of the cell voltage itself, no calibration is applied to that.
    What the meter's range does not hold is said at the run's begin.
    """
    kept = store or CalibrationStore()
    has_own = bench.meter.zero_V is not None or bench.meter.gain is not None
    passed_over = frozenset(["cell_voltage"] if has_own else [])
    return [CalibratedSource(source, kept, bench=bench, passed_over=passed_over) for source in sources]
