"""Cautions to be shown before the first run and beside every result. Reminders, not a risk assessment.

Flammable range of hydrogen in air and its ignition energy: Molkov, Fundamentals of Hydrogen Safety
Engineering. Hazards of cobalt(II) and nickel(II) salts: harmonised classification, Regulation (EC) 1272/2008
(CLP), Annex VI; the supplier's safety data sheet decides. The rest is common practice, no source.
"""

from __future__ import annotations

__all__ = ["CAUTIONS", "DEFERENCE", "IN_SHORT"]

IN_SHORT = (
    "The cell makes hydrogen and oxygen: open vessel, fresh air, no sparks. Never short the batteries; "
    "the resistor can be hot; metal salts are toxic. Your local rules decide."
)

DEFERENCE = (
    "These are reminders, not a risk assessment. Local codes, the rules of your school or laboratory, "
    "and qualified people decide."
)

CAUTIONS: tuple[tuple[str, str], ...] = (
    (
        "Hydrogen and oxygen",
        "Both gases rise from the same vessel, and their mixture burns from about 4 % hydrogen in air; the "
        "faintest spark is enough. Never close the vessel, never collect the gas, air the room, keep flames "
        "and sparks away, and do not pull a lead under a space filled with gas.",
    ),
    (
        "Batteries",
        "A stack shorted without its resistor gives amperes and burns. Insulate the terminals, put a fuse at "
        "the battery, never recharge primary cells, and take the leads off before changing the wiring. "
        "Extra-low voltage only; no home-made supply on the mains.",
    ),
    ("Resistor", "It can get hot, above all while the electrodes touch. Let it cool before you hold it."),
    (
        "Metal salts",
        "Cobalt and nickel salts can cause cancer when breathed in, sensitise skin and lungs, may harm "
        "reproduction, and are very toxic to life in water. Follow the supplier's safety data sheet; use "
        "solutions made up by a qualified person; gloves and eye protection; no dust; never down the drain: "
        "collect them as heavy-metal waste. Many schools restrict or forbid them.",
    ),
    (
        "Other solutions and electrodes",
        "No salt water: it can give off chlorine. Steel that holds nickel or chromium can dissolve. Buffers "
        "and caustic mist hurt eyes: wear protection, wash your hands, label every beaker.",
    ),
)
