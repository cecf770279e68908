"""What the fields of the bench are called, and what to write into them."""

from __future__ import annotations

from dataclasses import dataclass

from gui.words import translate
from logger.bench_toml import Key

__all__ = ["FieldText", "field_texts", "section_texts"]


@dataclass(frozen=True, slots=True)
class FieldText:
    """Name of a field, an example, and a sentence about it."""

    name: str
    example: str = ""
    about: str = ""


def section_texts() -> dict[str, tuple[str, str]]:
    """Return heading and sentence of each table."""
    return {
        "supply": (
            translate("Bench", "Supply"),
            translate("Bench", "Batteries in series and one large resistor keep the current steady."),
        ),
        "cell": (
            translate("Bench", "Cell"),
            translate("Bench", "Electrodes, solution and surroundings. What is empty is assumed, and said."),
        ),
        "meter": (
            translate("Bench", "Meter"),
            translate("Bench", "From the meter's data sheet. It decides how sure the voltages are."),
        ),
        "settling": (
            translate("Bench", "Settling"),
            translate(
                "Bench", "When a voltage counts as settled: 5 mV/min for a lesson, 0.5 in a laboratory."
            ),
        ),
    }


def field_texts() -> dict[Key, FieldText]:
    """Return the texts of every field."""
    return {
        ("", "title"): FieldText(translate("Bench", "Title of the run"), translate("Bench", "Strip 4")),
        **_supply(),
        **_cell(),
        **_meter(),
        **_settling(),
    }


def _supply() -> dict[Key, FieldText]:
    return {
        ("supply", "cells"): FieldText(translate("Bench", "Batteries in series"), "3"),
        ("supply", "cell_voltage_V"): FieldText(translate("Bench", "Voltage of one battery"), "9"),
        ("supply", "stack_voltage_V"): FieldText(
            translate("Bench", "Stack voltage, measured"), "27,4",
            translate("Bench", "Measured open, without the cell. Better than the label of the batteries."),
        ),
        ("supply", "internal_resistance_ohm"): FieldText(
            translate("Bench", "Resistance inside the stack"), "6"
        ),
        ("supply", "resistor_ohm"): FieldText(
            translate("Bench", "Series resistor"), "12k",
            translate("Bench", "As on the part: 12k, 4.7k, 1M or plain ohms."),
        ),
        ("supply", "resistor_tolerance_percent"): FieldText(
            translate("Bench", "Tolerance of the resistor"), "5"
        ),
        ("supply", "resistor_rating_W"): FieldText(
            translate("Bench", "Power rating of the resistor"), "0,25"
        ),
        ("supply", "current_A"): FieldText(
            translate("Bench", "Held current"), "2",
            translate("Bench", "Only for a supply that holds the current by itself; then no resistor."),
        ),
    }  # fmt: skip


def _cell() -> dict[Key, FieldText]:
    return {
        ("cell", "anode"): FieldText(translate("Bench", "Anode"), translate("Bench", "carbon rod")),
        ("cell", "cathode"): FieldText(translate("Bench", "Cathode"), translate("Bench", "steel wire")),
        ("cell", "anode_area_cm2"): FieldText(translate("Bench", "Anode area in the solution"), "2"),
        ("cell", "electrolyte"): FieldText(
            translate("Bench", "Electrolyte"), translate("Bench", "0.1 mol/L phosphate")
        ),
        ("cell", "pH"): FieldText(translate("Bench", "pH"), "7,0"),
        ("cell", "temperature_C"): FieldText(translate("Bench", "Temperature"), "22"),
        ("cell", "pressure_kPa"): FieldText(translate("Bench", "Air pressure"), "101,3"),
        ("cell", "spacing_mm"): FieldText(translate("Bench", "Distance of the electrodes"), "20"),
        ("cell", "volume_mL"): FieldText(translate("Bench", "Volume of the solution"), "80"),
        ("cell", "headspace_mL"): FieldText(
            translate("Bench", "Headspace, if closed by mistake"), "50",
            translate("Bench", "For the caution only: the vessel stays open."),
        ),
        ("cell", "metal_salt"): FieldText(
            translate("Bench", "Metal salt"), translate("Bench", "cobalt nitrate")
        ),
        ("cell", "salt_mass_mg"): FieldText(translate("Bench", "Mass of the salt"), "12"),
        ("cell", "stirring_rpm"): FieldText(translate("Bench", "Stirring"), "200"),
    }  # fmt: skip


def _meter() -> dict[Key, FieldText]:
    return {
        ("meter", "range_V"): FieldText(translate("Bench", "Range"), "40"),
        ("meter", "resolution_V"): FieldText(translate("Bench", "One digit"), "1"),
        ("meter", "accuracy_percent_of_reading"): FieldText(
            translate("Bench", "Accuracy, of the reading"), "0,5"
        ),
        ("meter", "accuracy_counts"): FieldText(translate("Bench", "Accuracy, digits more"), "2"),
        ("meter", "input_resistance_ohm"): FieldText(translate("Bench", "Input resistance"), "10"),
        ("meter", "zero_V"): FieldText(
            translate("Bench", "Zero: shown with the leads together"), "0",
            translate("Bench", "Taken off every reading in the findings; the file keeps what was read."),
        ),
        ("meter", "gain"): FieldText(
            translate("Bench", "Gain: shown change over true change"), "1",
            translate("Bench", "From a trusted voltage; 1 for a perfect meter."),
        ),
    }  # fmt: skip


def _settling() -> dict[Key, FieldText]:
    return {
        ("settling", "limit_mV_per_min"): FieldText(translate("Bench", "Largest drift"), "5"),
        ("settling", "window_s"): FieldText(translate("Bench", "Shortest window"), "60"),
    }
