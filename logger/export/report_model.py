"""What the report of a run says, as texts in order; `report_page` and `report_sheet` put it on paper."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from drivers.samples import Quality
from logger.analysis.readings import slices_of
from logger.bench import parse_bench
from logger.bench_tables import Bench
from logger.cautions import DEFERENCE, IN_SHORT
from logger.clean_text import clean_text
from logger.errors import BenchError
from logger.export.picture import about, is_simulated, moment_text
from logger.export.plot import is_provisional, is_sure, saved_text
from logger.moment_pictures import moment_pictures
from logger.moments import clean_label, is_too_long
from logger.progress import Progress
from logger.quantity import human_conditions, plain, significant, with_uncertainty
from logger.recording import ChannelData, Recording
from logger.remarks import worth_saying
from logger.scale import clock_text
from logger.touching import touching_count, touching_times
from logger.version import PROGRAM, VERSION

__all__ = ["MESSAGE_LIMIT", "BudgetLine", "Entry", "Report", "report_of"]

MISSING = "not known"
BYTES_AT_ONCE = 2**24
MESSAGE_LIMIT = 10_000
"""Characters of one message on paper; only a file that was made to harm has more."""


@dataclass(frozen=True, slots=True)
class Entry:
    """One line of a table: what, how much, and what to know about it."""

    name: str
    value: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class BudgetLine:
    """One source of uncertainty of the voltage saved; `share` of the largest one, from 0 to 1."""

    source: str
    evaluation: str
    amount_mV: float
    share: float

    @property
    def name(self) -> str:
        """The source and how it was evaluated."""
        return f"{self.source} ({self.evaluation})" if self.evaluation else self.source

    @property
    def amount(self) -> str:
        """The standard uncertainty with its unit."""
        return plain(self.amount_mV, 2, "mV")


@dataclass(frozen=True, slots=True)
class Report:
    """A report of one run.

    `origin` is said where data are invented; `headline` is the voltage saved, and `is_sure` where it may be
    green; `blanks` are names of lines to be filled in by hand; `file_lines` say which file this is about, and
    by which program.
    """

    title: str
    about: str
    origin: str
    headline: str
    headline_note: str
    is_known: bool
    is_sure: bool
    results: tuple[Entry, ...]
    budget: tuple[BudgetLine, ...]
    setup: tuple[Entry, ...]
    quality: tuple[Entry, ...]
    moments: tuple[str, ...]
    warnings: tuple[str, ...]
    cautions: str
    file_lines: tuple[str, ...]
    blanks: tuple[str, ...] = ("Names", "Class", "Place")


def report_of(recording: Recording, findings: Mapping[str, Any], progress: Progress | None = None) -> Report:
    """Return the report of a run with its findings; what the data do not support reads as not known."""
    found = dict(findings)
    saved = saved_text(found)
    channel = recording.channel("cell_voltage")
    return Report(
        title=clean_label(recording.title) or clean_label(recording.path.stem),
        about=about(recording) + _zone(recording),
        origin="Simulated cell: invented data" if is_simulated(channel) else "",
        headline=saved or "not determined",
        headline_note=_headline_note(found, saved is not None),
        is_known=saved is not None,
        is_sure=is_sure(found),
        results=tuple(_results(found)),
        budget=_budget(found),
        setup=tuple(_setup(recording, channel)),
        quality=tuple(_quality(recording, channel, found)),
        moments=tuple(moment_text(moment) for moment in recording.moments),
        warnings=_warnings(found),
        cautions=f"{IN_SHORT} {DEFERENCE}",
        file_lines=_file_lines(recording, progress or Progress()),
    )


def _zone(recording: Recording) -> str:
    is_told = recording.time_zone and recording.has_known_start
    return f"   ·   {clean_label(recording.time_zone)}" if is_told else ""


def _headline_note(findings: dict[str, Any], is_known: bool) -> str:
    if not is_known:
        return "voltage saved; see “To know” for why, and what would help"
    if is_provisional(findings):
        return "voltage saved, 95 % interval, provisional: not every level had settled"
    return "voltage saved, 95 % interval"


def _results(findings: dict[str, Any]) -> list[Entry]:
    settled = findings.get("settled") or {}
    return [
        _level("Voltage before", settled.get("before")),
        _level("Voltage after", settled.get("after")),
        *_equal_current(findings.get("voltage_saved") or {}),
        *_current(findings.get("current") or {}, has_voltage=any(settled.values())),
        *_efficiency(findings),
        *_passed(findings),
        *_collected(findings.get("faradaic_efficiency") or {}),
        *_interrupted(findings.get("current_interrupt") or ()),
        *_growth(findings.get("growth") or {}),
        *_tafel(findings.get("tafel") or {}),
    ]


def _level(name: str, level: Mapping[str, Any] | None) -> Entry:
    if not level or level.get("voltage_V") is None:
        return Entry(name, MISSING)
    value = with_uncertainty(level["voltage_V"], 2.0 * (level.get("standard_uncertainty_V") or 0.0), "V")
    note = "settled" if level.get("is_settled") else "not settled"
    if level.get("chosen_by_hand"):
        note += ", stretch chosen by hand"
    drift = level.get("drift_interval90_mV_per_min")
    if drift:
        note += f"; drift {plain(drift[0], 1)} to {plain(drift[1], 1, 'mV/min')}"
    return Entry(name, value, note)


def _equal_current(saved: Mapping[str, Any]) -> list[Entry]:
    value, interval = saved.get("at_equal_current_V"), saved.get("at_equal_current_interval95_V")
    if value is None or interval is None:
        return []
    text = with_uncertainty(1000 * value, 1000 * (interval[1] - interval[0]) / 2.0, "mV")
    return [Entry("Saved at equal current", text, "at the current before")]


def _current(current: Mapping[str, Any], *, has_voltage: bool) -> list[Entry]:
    before, after = current.get("before_A"), current.get("after_A")
    if before is None and after is None:
        needed = "supply and resistor in the bench file" if has_voltage else "a voltage before or after"
        return [Entry("Current", MISSING, f"needs {needed}")]
    doubt_mA = 2000.0 * (current.get("standard_uncertainty_A") or 0.0)
    entries = [
        Entry(f"Current {name}", with_uncertainty(1000.0 * value, doubt_mA, "mA"))
        for name, value in (("before", before), ("after", after))
        if value is not None
    ]
    notes = []
    if current.get("density_before_mA_cm2") is not None:
        notes.append(significant(current["density_before_mA_cm2"], 3, "mA/cm²"))
    entries[0] = Entry(entries[0].name, entries[0].value, ", ".join(notes))
    change = current.get("change_percent")
    if change is not None and len(entries) == 2:
        sign = "+" if change > 0 else ""
        entries[1] = Entry(entries[1].name, entries[1].value, f"{sign}{plain(change, 1, '%')}")
    return entries


def _efficiency(findings: dict[str, Any]) -> list[Entry]:
    efficiency = findings.get("efficiency") or {}
    voltages = findings.get("thermodynamics") or {}
    conventions = (
        ("higher_heating", "thermoneutral_voltage_V", "thermoneutral"),
        ("lower_heating", "lower_heating_voltage_V", "lower heating"),
        ("reversible", "reversible_voltage_V", "reversible"),
    )
    entries = []
    for key, voltage_key, words in conventions:
        parts = [(efficiency.get(name) or {}).get(key) for name in ("before", "after")]
        if any(part is not None for part in parts):
            value = " → ".join("–" if part is None else plain(100 * part, 1) for part in parts)
            whole_V = voltages.get(voltage_key)
            note = "" if whole_V is None else f"of {plain(whole_V, 3, 'V')}"
            entries.append(Entry(f"Efficiency, {words}", f"{value}\u00a0%", note))
    energy = efficiency.get("energy_kWh_per_kg_hydrogen") or {}
    parts = [energy.get(name) for name in ("before", "after")]
    if any(part is not None for part in parts):
        value = " → ".join("–" if part is None else plain(part, 1) for part in parts)
        entries.append(Entry("Energy for hydrogen", f"{value}\u00a0kWh/kg", "at least"))
    return entries


def _passed(findings: dict[str, Any]) -> list[Entry]:
    charge, gas = findings.get("charge_C") or {}, findings.get("gas") or {}
    entries = []
    if charge.get("best") is not None:
        low, high = charge.get("low"), charge.get("high")
        spread = ""
        if low is not None and significant(low, 3) != significant(high or low, 3):
            spread = f"between {significant(low, 3)} and {MISSING if high is None else significant(high, 3)}"
        entries.append(Entry("Charge", significant(charge["best"], 3, "C"), spread))
    if gas.get("hydrogen_mL") is not None:
        conditions = human_conditions(clean_label(gas.get("conditions") or ""))
        amounts = (
            f"H₂ {significant(gas['hydrogen_mL'], 3, 'mL')}, O₂ {significant(gas['oxygen_mL'], 3, 'mL')}"
        )
        entries.append(Entry("Gas, at most", amounts, conditions))
    return entries


def _collected(found: Mapping[str, Any]) -> list[Entry]:
    return [
        Entry(
            f"Faradaic efficiency, {clean_label(gas)}",
            with_uncertainty(100.0 * one["value"], 200.0 * one["standard_uncertainty"], "%"),
            f"{significant(one['volume_mL'], 3, 'mL')} {human_conditions(clean_label(one['conditions']))}",
        )
        for gas, one in found.items()
    ]


def _interrupted(found: Sequence[Mapping[str, Any]]) -> list[Entry]:
    return [
        Entry(
            "Ohmic resistance",
            with_uncertainty(one["resistance_ohm"], 2.0 * one["resistance_standard_uncertainty_ohm"], "Ω"),
            f"lead lifted at {clock_text(one['opened_at_s'])}",
        )
        for one in found
    ]


def _growth(growth: Mapping[str, Any]) -> list[Entry]:
    if growth.get("time_constant_s") is None:
        return []
    note = clean_label(growth.get("model") or "")
    if growth.get("settling_voltage_V") is not None:
        note += f", towards {plain(growth['settling_voltage_V'], 3, 'V')}"
    return [Entry("Growth, time constant", significant(growth["time_constant_s"], 3, "s"), note)]


def _tafel(tafel: Mapping[str, Any]) -> list[Entry]:
    if tafel.get("slope_V_per_decade") is None:
        return []
    doubt = 2000.0 * (tafel.get("standard_uncertainty") or 0.0)
    return [Entry("Tafel slope", with_uncertainty(1000.0 * tafel["slope_V_per_decade"], doubt, "mV/decade"))]


def _budget(findings: dict[str, Any]) -> tuple[BudgetLine, ...]:
    lines = (findings.get("voltage_saved") or {}).get("budget") or []
    lines = sorted(lines, key=lambda one: -one["standard_uncertainty_V"])
    largest = max((one["standard_uncertainty_V"] for one in lines), default=0.0) or 1.0
    return tuple(
        BudgetLine(
            clean_label(one["source"]),
            clean_label(one["type"]),
            1000 * one["standard_uncertainty_V"],
            one["standard_uncertainty_V"] / largest,
        )
        for one in lines
    )


def _setup(recording: Recording, channel: ChannelData | None) -> list[Entry]:
    try:
        bench = parse_bench(recording.bench_toml)
    except BenchError:
        bench = Bench()
    supply, cell, meter = bench.supply, bench.cell, bench.meter
    entries = [
        Entry("Anode", _joined(_text(cell.anode), _number(cell.anode_area_cm2, "cm²"))),
        Entry("Cathode", _joined(_text(cell.cathode), _number(cell.spacing_mm, "mm apart"))),
        Entry("Solution", _joined(
            _text(cell.electrolyte), _number(cell.pH, "", "pH\u00a0"), _number(cell.volume_mL, "mL"),
        )),
        Entry("Metal salt", _joined(_text(cell.metal_salt), _number(cell.salt_mass_mg, "mg"))),
        Entry("Conditions", _joined(
            _number(cell.temperature_C, "°C"), _number(cell.pressure_kPa, "kPa"),
            _number(cell.stirring_rpm, "rpm"),
        )),
        Entry("Supply", _joined(
            _number(supply.current_A, "A constant current"), _number(supply.best_stack_voltage_V, "V"),
            _number(supply.resistor_ohm, "Ω in series"),
        )),
        Entry("Meter", _joined(*_meter(channel))),
        Entry("Meter, accuracy", _joined(
            _number(meter.accuracy_percent_of_reading, "% of reading"),
            _number(meter.accuracy_counts, "counts"),
            _number(None if meter.resolution_V is None else 1000 * meter.resolution_V, "mV steps"),
        )),
    ]  # fmt: skip
    known = [entry for entry in entries if entry.value]
    return known or [Entry("Set-up", MISSING, "no bench file was given")]


def _meter(channel: ChannelData | None) -> list[str]:
    if channel is None:
        return []
    instrument = channel.instrument
    identity = clean_label(str(instrument.get("identity") or ""))
    return [identity, clean_label(str(instrument.get("address") or ""))]


def _quality(recording: Recording, channel: ChannelData | None, found: Mapping[str, Any]) -> list[Entry]:
    count = 0 if channel is None else channel.times_s.size
    entries = [Entry("Readings", f"{count}", _rate(channel))]
    gaps = [gap for gap in recording.gaps if channel is None or gap.channel == channel.name]
    missing_s = sum(gap.end_s - gap.begin_s for gap in gaps)
    reasons = sorted({clean_label(gap.reason) for gap in gaps})
    note = f"{plain(missing_s, 1, 's')} missing: {', '.join(reasons)}" if gaps else ""
    entries.append(Entry("Gaps", str(len(gaps)) if gaps else "none", note))
    doubtful = "none"
    notes: list[str] = []
    counts = np.zeros(256, np.int64) if channel is None else _counts_of_quality(channel)
    if flagged := int(counts[1:].sum()):
        doubtful = f"{flagged} of {count}"
        codes = np.arange(256)
        of_bits = {bit: int(counts[(codes & bit) != 0].sum()) for bit in Quality if bit}
        notes = [f"{(bit.name or '').lower().replace('_', ' ')} {n}" for bit, n in of_bits.items() if n]
    entries.append(Entry("Marked readings", doubtful, ", ".join(notes)))
    if long := sum(is_too_long(moment.label) for moment in recording.moments):
        entries.append(
            Entry("Long labels", f"{long} shortened", "end in “…”; the tables (CSV, XLSX) have them in full")
        )
    if shown := len(moment_pictures(recording)):
        entries.append(Entry("Pictures", f"{shown}", "attached to moments; the recording has them in full"))
    if touching_count(found):
        entries.append(Entry("Electrodes touched", touching_count(found), touching_times(found)))
    if recording.is_running:
        entries.append(Entry("State", "still recording", "the report shows it as far as it has come"))
    return entries


def _counts_of_quality(channel: ChannelData) -> NDArray[np.int64]:
    """Return how many readings have each sum of bits, shape (256,)."""
    counts = np.zeros(256, np.int64)
    for part in slices_of(0, channel.quality.size):
        counts += np.bincount(channel.quality[part], minlength=256)
    return counts


def _rate(channel: ChannelData | None) -> str:
    if channel is None or channel.times_s.size < 2:
        return ""
    step_s = float(np.median(np.diff(channel.times_s[: 2**20])))
    return f"about {significant(1 / step_s, 2)} per second" if step_s > 0 else ""


def _warnings(findings: dict[str, Any]) -> tuple[str, ...]:
    lines = []
    for warning in worth_saying(findings.get("warnings")):
        at = "" if warning.get("at_s") is None else f"At {clock_text(warning['at_s'])}: "
        lines.append(at + clean_text(warning["message"], MESSAGE_LIMIT))
    return tuple(lines)


def _file_lines(recording: Recording, progress: Progress) -> tuple[str, ...]:
    name = clean_label(recording.path.name)
    return (
        f"{name}   ·   {_checksum(recording.path, progress)}",
        f"{PROGRAM} {VERSION}   ·   run {clean_label(recording.uuid)}",
    )


def _checksum(path: Path, progress: Progress) -> str:
    if not path.is_file():
        return "no checksum: the recording is not finished"
    digest, done, size = hashlib.sha256(), 0, path.stat().st_size
    with path.open("rb") as file:
        while piece := file.read(BYTES_AT_ONCE):
            digest.update(piece)
            done += len(piece)
            progress.reach(done / max(size, 1))
    return f"SHA-256 {digest.hexdigest()}"


def _text(value: str | None) -> str:
    return "" if value is None else clean_label(value)


def _number(value: float | None, unit: str, before: str = "") -> str:
    return "" if value is None else f"{before}{value:g}".replace("-", "−") + (f"\u00a0{unit}" if unit else "")


def _joined(*parts: str) -> str:
    return ", ".join(part for part in parts if part)
