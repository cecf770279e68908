"""What drivers and logger say, in the language of the window.

These floors speak English only: their messages also go to the command line, into recordings and through
child processes, and come back from there as plain text. So a message is recognised by its wording.
`gui.translations.message_list` holds every wording of their sources with its places; what stands in a place
of the message is a value, or itself a message. What is not recognised stays as it is. Keys of the bench file
that a message names become the names of their fields (`gui.field_names`), and what the operating system says
of a known failure becomes words of ours (`gui.system_words`).
"""

from __future__ import annotations

import functools
import itertools
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from PySide6.QtCore import QT_TRANSLATE_NOOP

from gui.field_names import are_keys, keep_keys, mark_keys, name_fields, path_before
from gui.numbers import decimal_sign
from gui.system_words import system_words
from gui.wording import Wording
from gui.words import translate

__all__ = ["load_wordings", "message_sentence", "message_sentences", "message_words"]

CONTEXT = "Messages"
LONGEST = 4000
"""Characters; nothing longer was written by us."""

DEEPEST = 30
"""Messages within messages; nothing of ours goes so deep."""

MOST_PARTS = 40
"""Places at which a text is looked at for one message behind another."""

LEAST_OF_A_SENTENCE = 20
"""Letters of its own by which a sentence is known even without its full stop."""

KEPT = 500
"""Messages kept taken apart: more than a screen shows. Those of a run hold numbers, and come only once."""

_SINGLE_WORDS = tuple(
    str(word)
    for word in (
        # phases and growth laws
        QT_TRANSLATE_NOOP("Messages", "before"),
        QT_TRANSLATE_NOOP("Messages", "after"),
        QT_TRANSLATE_NOOP("Messages", "growth"),
        QT_TRANSLATE_NOOP("Messages", "dry"),
        QT_TRANSLATE_NOOP("Messages", "exponential"),
        QT_TRANSLATE_NOOP("Messages", "logarithmic"),
        # sources of uncertainty
        QT_TRANSLATE_NOOP("Messages", "scatter"),
        QT_TRANSLATE_NOOP("Messages", "resolution"),
        QT_TRANSLATE_NOOP("Messages", "scatter before"),
        QT_TRANSLATE_NOOP("Messages", "scatter after"),
        QT_TRANSLATE_NOOP("Messages", "resolution before"),
        QT_TRANSLATE_NOOP("Messages", "resolution after"),
        QT_TRANSLATE_NOOP("Messages", "drift before"),
        QT_TRANSLATE_NOOP("Messages", "drift after"),
        QT_TRANSLATE_NOOP("Messages", "start-up before"),
        QT_TRANSLATE_NOOP("Messages", "start-up after"),
        # channels that bear the name of their role
        QT_TRANSLATE_NOOP("Messages", "cell voltage"),
        QT_TRANSLATE_NOOP("Messages", "shunt voltage"),
        QT_TRANSLATE_NOOP("Messages", "stack voltage"),
        QT_TRANSLATE_NOOP("Messages", "anode potential"),
        # units that were meant
        QT_TRANSLATE_NOOP("Messages", "millivolt"),
        QT_TRANSLATE_NOOP("Messages", "milliwatt"),
        QT_TRANSLATE_NOOP("Messages", "milliampere"),
        QT_TRANSLATE_NOOP("Messages", "microampere"),
        QT_TRANSLATE_NOOP("Messages", "kilo-ohm"),
        QT_TRANSLATE_NOOP("Messages", "megohm"),
        QT_TRANSLATE_NOOP("Messages", "kelvin"),
        QT_TRANSLATE_NOOP("Messages", "hectopascal"),
        QT_TRANSLATE_NOOP("Messages", "pascal"),
        QT_TRANSLATE_NOOP("Messages", "gram"),
        QT_TRANSLATE_NOOP("Messages", "litre"),
        QT_TRANSLATE_NOOP("Messages", "metre"),
        QT_TRANSLATE_NOOP("Messages", "minutes"),
        # marks of a reading
        QT_TRANSLATE_NOOP("Messages", "hold"),
        QT_TRANSLATE_NOOP("Messages", "overload"),
        QT_TRANSLATE_NOOP("Messages", "relative"),
        QT_TRANSLATE_NOOP("Messages", "low battery"),
        QT_TRANSLATE_NOOP("Messages", "parity"),
        QT_TRANSLATE_NOOP("Messages", "suspect"),
        QT_TRANSLATE_NOOP("Messages", "repeat"),
        QT_TRANSLATE_NOOP("Messages", "time uncertain"),
        # headings, and the rest
        QT_TRANSLATE_NOOP("Messages", "Batteries"),
        QT_TRANSLATE_NOOP("Messages", "Resistor"),
        QT_TRANSLATE_NOOP("Messages", "(simulated)"),
        QT_TRANSLATE_NOOP("Messages", "forward"),
        QT_TRANSLATE_NOOP("Messages", "back"),
        QT_TRANSLATE_NOOP("Messages", "and"),
    )
)
"""Words that stand alone in a place of a message."""

_IN_WINDOW = {
    wording: str(in_window)
    for wording, in_window in (
        (
            "{path} exists; choose another name, or add --replace",
            QT_TRANSLATE_NOOP("Messages", "{path} exists; choose another name"),
        ),
        (
            "{out} exists; choose another name, or add --replace to replace it",
            QT_TRANSLATE_NOOP("Messages", "{out} exists; choose another name"),
        ),
        (
            "{target} exists; choose another name, or add --replace to replace it",
            QT_TRANSLATE_NOOP("Messages", "{target} exists; choose another name"),
        ),
        (
            "the folder {folder} cannot be made ({strerror}); name a file with --out",
            QT_TRANSLATE_NOOP(
                "Messages",
                "the folder {folder} cannot be made ({strerror}); choose another folder on the page Bench",
            ),
        ),
        (
            "the label of resistor_changed must hold the ohms, for example 4.7k, not {label}",
            QT_TRANSLATE_NOOP(
                "Messages",
                "the words of a changed resistor must hold its ohms, for example 4.7k, not {label}",
            ),
        ),
        (
            "the label of temperature must hold degrees Celsius from 0 to 100, for example 22.5, not {label}",
            QT_TRANSLATE_NOOP(
                "Messages",
                "the words of a temperature must hold degrees Celsius from 0 to 100, for example 22.5, not "
                "{label}",
            ),
        ),
        (
            "{size} readings are too few to go by; let the meter send for longer (--for 20s)",
            QT_TRANSLATE_NOOP(
                "Messages", "{size} readings are too few to go by; let the meter send for longer"
            ),
        ),
        (
            "two channels are called {name}; give one of the sources another channel=, and its role=",
            QT_TRANSLATE_NOOP(
                "Messages",
                "two channels are called {name}. On the page Bench choose for one of the sources what it "
                "“Stands for”; two of one kind need “Name of the channel”, “More settings”.",
            ),
        ),
        (
            "the numbers are whole: counts of a converter, not volts. Add scale= (volts per count) to the "
            "address, for example scale=0.0048828125.",
            QT_TRANSLATE_NOOP(
                "Messages",
                "the numbers are whole: counts of a converter, not volts. Write the volts per count in "
                "“Times (divider)” of the source, “More settings”, for example 0.0048828125.",
            ),
        ),
        (
            "the meter would show {gain} V for each true volt; no sound meter is that far off. Was the known "
            "voltage really on its leads? A divider is undone by scale= in the address",
            QT_TRANSLATE_NOOP(
                "Messages",
                "the meter would show {gain} V for each true volt; no sound meter is that far off. Was the "
                "known voltage really on its leads? A divider belongs in “Times (divider)” of the source, "
                "“More settings”",
            ),
        ),
        (
            "The speed of {baud} baud may be wrong: add baud= to the address.",
            QT_TRANSLATE_NOOP(
                "Messages",
                "The speed of {baud} baud may be wrong: choose another “Line speed” of the source, “More "
                "settings”.",
            ),
        ),
        (
            "several columns may be the voltage ({named}). Add the one to record to the address, for example "
            "column={example}; a list of columns fills a channel each.",
            QT_TRANSLATE_NOOP(
                "Messages",
                "several columns may be the voltage ({named}). Write the one to record on the page Bench, "
                "“More settings”, “Column”, for example {example}; a list of columns fills a channel each.",
            ),
        ),
        (
            "several names may be the voltage ({known}). Add the one to record to the address, for example "
            "column={name}; a list of names fills a channel each.",
            QT_TRANSLATE_NOOP(
                "Messages",
                "several names may be the voltage ({known}). Write the one to record on the page Bench, "
                "“More settings”, “Column”, for example {name}; a list of names fills a channel each.",
            ),
        ),
        (
            "no name says which column is the voltage ({names}). Add column={names_2} to the address if that "
            "is the one.",
            QT_TRANSLATE_NOOP(
                "Messages",
                "no name says which column is the voltage ({names}). Write {names_2} on the page Bench, "
                "“More settings”, “Column”, if that is the one.",
            ),
        ),
        (
            "a line without {name}, which is recorded (it has {names}). If another one is meant, name it in "
            "the address: column={names_2}",
            QT_TRANSLATE_NOOP(
                "Messages",
                "a line without {name}, which is recorded (it has {names}). If another one is meant, for "
                "example {names_2}, write it on the page Bench, “More settings”, “Column”",
            ),
        ),
        (
            "no line has named the columns yet, so {column} is not known. Press the board's reset button if "
            "it prints the names when it starts, or give the number: column={known}.",
            QT_TRANSLATE_NOOP(
                "Messages",
                "no line has named the columns yet, so {column} is not known. Press the board's reset "
                "button if it prints the names when it starts, or write the number on the page Bench, “More "
                "settings”, “Column”: {known}.",
            ),
        ),
        (
            "A dry cell reads {reading_v} V, beyond the range of {range_v} V: take a higher range, or put a "
            "divider of {divider} to 1 (some megohms in all, so as not to load the cell) before the input "
            "and add scale={divider} to the source address. Before that, never let the cell run dry.",
            QT_TRANSLATE_NOOP(
                "Messages",
                "A dry cell reads {reading_v} V, beyond the range of {range_v} V: take a higher range, or "
                "put a divider of {divider} to 1 (some megohms in all, so as not to load the cell) before "
                "the input and write {divider} in “Times (divider)” of the source, “More settings”. Before "
                "that, never let the cell run dry.",
            ),
        ),
        (
            "While the cell is open (dry, or a lead off), the whole stack of {stack_v} V lies on the meter's "
            "input, whose range is {range_v} V: that reads as overload and may harm a board's input. Choose "
            "a larger range, or put a divider before it, for example {ratio}:1, and add scale={ratio} to the "
            "address.",
            QT_TRANSLATE_NOOP(
                "Messages",
                "While the cell is open (dry, or a lead off), the whole stack of {stack_v} V lies on the "
                "meter's input, whose range is {range_v} V: that reads as overload and may harm a board's "
                "input. Choose a larger range, or put a divider before it, for example {ratio}:1, and write "
                "{ratio} in “Times (divider)” of the source, “More settings”.",
            ),
        ),
    )
}
"""Wordings whose remedy belongs to the command line, an option or an address: the window has other ways."""

_NUMBER = re.compile(r"(?<![\w.:/\\-])([-−+]?\d+)\.(\d+)(?![\w:/\\]|\.\w)")
_BETWEEN_PARTS = re.compile(r"[;:,]\s+|(?<=[.?!])\s+|\s+(?=\()|\s·\s|\n")
_COMPLAINT = "{name}, line {line}: {shown} {reason}; {remedy}"
_OF_A_FILE = re.compile(
    r"(?P<name>.+?), line (?P<line>\d+): (?P<shown>\w+[.[][^\s;]+) (?P<reason>[^;]+); (?P<remedy>.+)",
    re.DOTALL,
)
_OF_SYSTEM = re.compile(
    r"""\[Errno \d+\] (?P<words>[^:]+)(?:: (?P<quote>['"])(?P<file>((?!(?P=quote)).)+)(?P=quote))?"""
)
"""As Python writes a failure of the system, of a file or of none."""

_IN_BRACKETS = re.compile(r"(\()(.+)(\)\.?)", re.DOTALL)


@dataclass(frozen=True, slots=True)
class _Said:
    """A message taken apart: the wording and what stands in its places; it may have lost its full stop."""

    template: str
    places: dict[str, _Message] = field(default_factory=dict)
    has_lost_stop: bool = False


_Message = str | _Said | tuple["_Message", ...]


def load_wordings() -> None:
    """Make the list of wordings ready, on any thread, before the first message is to be put into words."""
    _wordings()


def message_words(text: str) -> str:
    """Return a message of drivers or logger in the language of the window, its numbers in the locale."""
    if not text or are_keys(text):
        return text
    message = _take_apart(text)
    # Where the line of a file is named, its keys are what stands there.
    return (keep_keys if _names_a_line(message) else name_fields)(_say(message))


def message_sentence(text: str) -> str:
    """Return `message_words` where they stand alone, as in a bar: a wording of ours begins with a capital.

    A value that begins a message (a name, a path, an address) stays as it is.
    """
    words = message_words(text)
    first = _take_apart(text)
    while isinstance(first, tuple):
        first = first[0]
    begins = isinstance(first, _Said) and not translate(CONTEXT, first.template).startswith("{")
    return words[:1].upper() + words[1:] if begins else words


def message_sentences(texts: Iterable[str]) -> str:
    """Return several messages as sentences one after the other; a single one stands as it is."""
    first, *others = [message_sentence(text) for text in texts] or [""]
    for other in others:
        first = f"{first} {other}" if first.endswith((".", "?", "!", "…")) else f"{first}. {other}"
    return first


def _say(message: _Message) -> str:
    if isinstance(message, str):
        if are_keys(message):
            return mark_keys(message).replace(" and ", f" {translate(CONTEXT, 'and')} ")
        return _NUMBER.sub(rf"\1{decimal_sign()}\2", message)
    if isinstance(message, tuple):
        return "".join(_say(part) for part in message)
    values = {name: _say(value) for name, value in message.places.items()}
    words = mark_keys(translate(CONTEXT, message.template)).format(**values)
    return words.removesuffix(".") if message.has_lost_stop else words


def _names_a_line(message: _Message) -> bool:
    if isinstance(message, _Said):
        return "{line}" in message.template or any(map(_names_a_line, message.places.values()))
    return isinstance(message, tuple) and any(map(_names_a_line, message))


@functools.lru_cache(maxsize=KEPT)
def _take_apart(text: str, depth: int = 0) -> _Message:
    if len(text) > LONGEST or depth > DEEPEST or not any(letter.isalpha() for letter in text):
        return text
    if are_keys(text):
        return text
    if (complaint := _OF_A_FILE.fullmatch(text)) is not None:  # its parts hold wordings with more letters
        parts = {name: _take_apart(part, depth + 1) for name, part in complaint.groupdict().items()}
        return _Said(_COMPLAINT, parts)
    if path := path_before(text):
        reason, semicolon, remedy = text[len(path) + 1 :].partition("; ")
        first, last = _take_apart(reason, depth + 1), _take_apart(remedy, depth + 1)
        return (
            text if isinstance(first, str) and isinstance(last, str) else (path, " ", first, semicolon, last)
        )
    if (failure := _OF_SYSTEM.fullmatch(text)) is not None and (words := system_words(failure["words"])):
        return _Said(words) if failure["file"] is None else (failure["file"], ": ", _Said(words))
    said = _recognise(text, depth)
    if said is not None:
        return said
    if (inside := _IN_BRACKETS.fullmatch(text)) is not None:
        return (inside[1], _take_apart(inside[2], depth + 1), inside[3])
    return _in_parts(text, depth)


def _in_parts(text: str, depth: int) -> _Message:
    """Part a text at the first place where what stands before or behind it is a message."""
    for gap in itertools.islice(_BETWEEN_PARTS.finditer(text), MOST_PARTS):
        for begin in (gap.end(), gap.start()):  # some wordings begin with the gap itself
            left, right = text[: gap.start()], text[begin:]
            if not left.strip() or not right.strip():
                continue
            if (first := _recognise(left, depth)) is not None:
                return (first, text[gap.start() : begin], _take_apart(right, depth + 1))
            if (last := _recognise(right, depth)) is not None:
                return (_take_apart(left, depth + 1), text[gap.start() : begin], last)
    return text


def _recognise(text: str, depth: int) -> _Said | None:
    if (of_system := system_words(text)) is not None:
        return _Said(of_system)
    for wording in _wordings():
        if (places := wording.places_of(text)) is not None:
            values = {name: _take_apart(value, depth + 1) for name, value in places.items()}
            return _Said(_IN_WINDOW.get(wording.template, wording.template), values)
    return None if text.endswith(".") else _recognise_sentence(text, depth)


def _recognise_sentence(text: str, depth: int) -> _Said | None:
    """Recognise a sentence whose full stop was left out, as where it became part of another."""
    for wording in _wordings():
        if wording.weight < LEAST_OF_A_SENTENCE:
            return None
        if wording.is_sentence and (places := wording.places_of(text + ".")) is not None:
            values = {name: _take_apart(value, depth + 1) for name, value in places.items()}
            return _Said(wording.template, values, has_lost_stop=True)
    return None


@functools.cache
def _wordings() -> Sequence[Wording]:
    """Return all wordings, those that say most themselves first: they leave least to their places."""
    from gui.translations.message_list import MESSAGES

    return sorted(map(Wording, (*MESSAGES, *_SINGLE_WORDS)), key=lambda one: -one.weight)
