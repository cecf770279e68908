"""Kinds of instrument, roles, states and verdicts of a source in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from gui.message_words import message_words
from gui.numbers import plain
from gui.words import translate

if TYPE_CHECKING:
    from drivers.listening import Heard
    from logger.calibration import Calibration
    from logger.display_check import DisplayVerdict
    from logger.source_probe import ProbedChannel, SourceProbe

__all__ = [
    "calibration_text",
    "heard_text",
    "kind_texts",
    "lesson_texts",
    "option_texts",
    "reading_text",
    "role_texts",
    "roles_text",
    "state_text",
    "verdict_text",
]


def kind_texts() -> dict[str, str]:
    """Return the kinds of source, in the order in which they are offered."""
    return {
        "cell": translate("Bench", "Simulated cell"),
        "auto": translate("Bench", "Recognise it by listening"),
        "scpi": translate("Bench", "Meter that answers queries (SCPI)"),
        "text": translate("Bench", "Board that prints lines"),
        "packet": translate("Bench", "Board that sends checked packets"),
        "lcd14": translate("Bench", "Handheld meter, sends its segments"),
        "ascii14": translate("Bench", "Handheld meter, sends digits and signs"),
        "digit11": translate("Bench", "Handheld meter of 4000 counts"),
        "digit14": translate("Bench", "Handheld meter of 22000 counts"),
        "stx16": translate("Bench", "Handheld meter with two displays"),
        "replay": translate("Bench", "Recording played again"),
    }


def lesson_texts() -> dict[str, str]:
    """Return the lessons of the simulated cell, in the order in which they are offered."""
    return {
        "demo": translate("Bench", "a lesson (demo)"),
        "blank": translate("Bench", "a lesson without salt (blank)"),
        "bench": translate("Bench", "a laboratory run (bench)"),
        "stability": translate("Bench", "a lesson, then long watching (stability)"),
    }


def role_texts() -> dict[str, str]:
    """Return what a channel can stand for."""
    return {
        "cell_voltage": translate("Bench", "Cell voltage"),
        "shunt_voltage": translate("Bench", "Voltage of a shunt"),
        "stack_voltage": translate("Bench", "Stack voltage"),
        "anode_potential": translate("Bench", "Anode potential"),
        "temperature": translate("Bench", "Temperature"),
        "other": translate("Bench", "Something else"),
    }


def roles_text(roles: str) -> str:
    """Return in words what the channels of an address stand for, one role for each between commas."""
    words = role_texts()
    return ", ".join(words.get(role.strip(), role.strip()) for role in roles.split(","))


def option_texts() -> dict[str, str]:
    """Return the options of an address."""
    return {
        "name": translate("Bench", "Name of the instrument"),
        "channel": translate("Bench", "Name of the channel"),
        "baud": translate("Bench", "Line speed"),
        "column": translate("Bench", "Column"),
        "rate": translate("Bench", "Readings a second"),
        "scale": translate("Bench", "Times (divider)"),
        "offset": translate("Bench", "Plus (offset)"),
        "speed": translate("Bench", "Times real speed"),
        "seed": translate("Bench", "Seed"),
        "noise": translate("Bench", "Noise"),
        "fault": translate("Bench", "Fault to order"),
    }


def reading_text(channel: ProbedChannel) -> str:
    """Return the newest reading with its unit."""
    if channel.value is None:
        return "–"
    if abs(channel.value) == float("inf"):
        return translate("Bench", "overload")
    unit = "°C" if channel.unit == "degC" else channel.unit
    return plain(channel.value, 4 if abs(channel.value) < 10 else 3, unit)


def state_text(probe: SourceProbe) -> str:
    """Return how listening goes, in one line."""
    if probe.state == "opening":
        return message_words(probe.waits_for) or translate("Bench", "opening …")
    if probe.state == "failed":
        return message_words(probe.message)
    if probe.state == "ended":
        return message_words(probe.message) or translate("Bench", "has ended")
    channels = probe.channels()
    if not any(channel.value is not None for channel in channels):
        if probe.raw_count:
            return translate(
                "Bench", "bytes come, but no reading yet: is the kind right, and the line speed?"
            )
        return translate("Bench", "nothing has come yet: is it switched on, and does it send?")
    words = []
    for channel in channels:
        if channel.rate_per_s:
            words.append(translate("Bench", "{rate} readings/s").format(rate=plain(channel.rate_per_s, 1)))
        elif channel.age_s is not None:
            words.append(
                translate("Bench", "last reading {age} ago").format(age=plain(channel.age_s, 0, "s"))
            )
        words += [message_words(flag.replace("_", " ")) for flag in channel.quality]
    if probe.message:
        words.append(message_words(probe.message))
    return " · ".join(words)


def calibration_text(kept: Calibration) -> str:
    """Return by what a meter is corrected."""
    text = (
        translate("Bench", "Calibration of {day}, 1 point: zero {zero}, gain {gain}. It corrects every run.")
        if len(kept.points) == 1
        else translate(
            "Bench", "Calibration of {day}, {count} points: zero {zero}, gain {gain}. It corrects every run."
        )
    )
    return text.format(
        day=kept.day,
        count=len(kept.points),
        zero=plain(1000 * kept.zero_V, 2, "mV"),
        gain=plain(kept.gain, 5),
    )


def heard_text(heard: Heard) -> str:
    """Return what was heard at a port."""
    shown = heard.candidates[0].shown if heard.candidates else ""
    if heard.state == "recognised":
        kind = heard.candidates[0].kind
        text = translate("Bench", "{port}: {kind}, shows {shown}.")
        return text.format(
            port=heard.port, kind=kind_texts().get(kind, kind), shown=message_words(shown) or "–"
        )
    if heard.state == "ambiguous":
        text = translate(
            "Bench", "{port} can be read in several ways; choose the one that agrees with the display."
        )
        return f"{text.format(port=heard.port)} {message_words(heard.message)}".strip()
    return f"{heard.port}: {message_words(heard.message)}"


def verdict_text(found: DisplayVerdict) -> str:
    """Return what comparing with the display showed, and what to do."""
    read, shown = plain(found.read_V, 4, "V"), plain(found.shown_V, 4, "V")
    difference = plain(1000 * found.difference_V, 1, "mV")
    if found.code == "agrees":
        return translate("Bench", "Agrees: read {read}, {difference} from the display.").format(
            read=read, difference=difference
        )
    if found.code == "sign":
        return translate(
            "Bench",
            "The sign is the other way round: read {read}. Swap the leads, or the kind of meter is wrong.",
        ).format(read=read)
    if found.code == "factor":
        return translate(
            "Bench",
            "Read {read} where the display shows {shown}: the point or the unit is off by a factor of ten or "
            "more. Choose another kind of meter; do not record like this.",
        ).format(read=read, shown=shown)
    return translate(
        "Bench",
        "Read {read}, the display shows {shown}: {difference} apart. Type the display once more while it "
        "stands still; if it stays like this, do not record with this kind of meter.",
    ).format(read=read, shown=shown, difference=difference)
