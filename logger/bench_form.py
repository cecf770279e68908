"""The bench as a form: what is typed into each field, whether it can be, and the file it makes.

Numbers are typed in the unit that stands on the part or the meter (milliampere, megohm, millivolt) and with
either decimal sign. The file holds the contract's units.
"""

from __future__ import annotations

import contextlib
import math
import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from pathlib import Path
from types import MappingProxyType
from typing import NamedTuple

from logger.bench import parse_bench, read_bench
from logger.bench_rules import SECTIONS, Number
from logger.bench_tables import Bench
from logger.bench_toml import TITLE, Key, Value, write_values
from logger.clean_text import clean_text
from logger.disk import Disk
from logger.errors import BenchError, LoggerError
from logger.export.atomic import written_whole

__all__ = [
    "FIELDS",
    "BenchDraft",
    "BenchForm",
    "Field",
    "FieldError",
    "parse_number",
    "save_bench_text",
    "shown",
]

_UNIT_OF_ENDING = (
    ("_mV_per_min", "mV/min"), ("_percent_of_reading", "%"), ("_percent", "%"), ("_ohm", "Ω"),
    ("_cm2", "cm²"), ("_kPa", "kPa"), ("_rpm", "1/min"), ("_mm", "mm"), ("_mL", "mL"), ("_mg", "mg"),
    ("_V", "V"), ("_W", "W"), ("_A", "A"), ("_C", "°C"), ("_s", "s"),
)  # fmt: skip
_HANDIER: Mapping[str, tuple[str, str]] = MappingProxyType({
    "current_A": ("mA", "0.001"),
    "input_resistance_ohm": ("MΩ", "1000000"),
    "resolution_V": ("mV", "0.001"),
    "zero_V": ("mV", "0.001"),
})  # fmt: skip
_SPELT: Mapping[str, tuple[str, ...]] = MappingProxyType({
    "Ω": ("\u2126", "ohm", "Ohm"), "MΩ": ("M\u2126", "Mohm", "MOhm"), "cm²": ("cm2",), "mL": ("ml",),
})  # fmt: skip
_PREFIXES = {"k": Decimal(1000), "M": Decimal(1000000)}
_NUMBER = re.compile(r"([-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d{1,2})?)\s*([kM]?)")
_SPACES = dict.fromkeys(map(ord, " \u00a0\u202f\u2009"))


class FieldError(LoggerError, ValueError):
    """What is typed cannot be. `meant` is the value in the field's unit that was probably meant, or None."""

    def __init__(self, text: str, meant: float | None = None) -> None:
        super().__init__(text)
        self.meant = meant


@dataclass(frozen=True, slots=True)
class Field:
    """One field: where its value stands in the file, its unit on screen, and the factor to the file's."""

    section: str
    key: str
    unit: str = ""
    factor: Decimal = Decimal(1)
    is_text: bool = False

    @property
    def path(self) -> Key:
        """Table and key in the file."""
        return (self.section, self.key)

    def value(self, text: str) -> Value:
        """Return what the file holds for a typed text; None for an empty one.

        Raises
        ------
        FieldError : no number, another unit, or impossible.
        """
        text = clean_text(text)
        if not text:
            return None
        if self.is_text:
            return text
        number = parse_number(self._without_unit(text), takes_prefix=self.unit == "Ω") * self.factor
        rule = SECTIONS[self.section][self.key]
        assert isinstance(rule, Number)
        value = float(number)
        if rule.whole and number != int(number):
            raise FieldError(f"must be a whole number; write for example {int(number)}")
        self._check(rule, value)
        return int(number) if rule.whole else value

    def _without_unit(self, text: str) -> str:
        """Return the text without the field's own unit, which people type though it stands beside it."""
        for unit in (self.unit, *_SPELT.get(self.unit, ())):
            if unit and text.endswith(unit):
                return text.removesuffix(unit).rstrip()
        return text

    def _check(self, rule: Number, value: float) -> None:
        for unit, meant in rule.meant(value):
            raise FieldError(f"looks like {unit}; {rule.reason}", meant / float(self.factor))
        if not rule.low <= value <= rule.high:
            low, high = (shown(self, end) for end in (rule.low, rule.high))
            raise FieldError(f"give {low} to {high} {self.unit}".rstrip() + f"; {rule.reason}")


def _field(section: str, key: str) -> Field:
    if not isinstance(SECTIONS[section][key], Number):
        return Field(section, key, is_text=True)
    if key in _HANDIER:
        unit, factor = _HANDIER[key]
        return Field(section, key, unit, Decimal(factor))
    return Field(section, key, next((unit for end, unit in _UNIT_OF_ENDING if key.endswith(end)), ""))


FIELDS: tuple[Field, ...] = (
    Field("", "title", is_text=True),
    *(_field(section, key) for section, keys in SECTIONS.items() for key in keys),
)
"""All fields, in the order of the contract."""


def parse_number(text: str, *, takes_prefix: bool = False) -> Decimal:
    """Return the number that a person typed: ``1.5``, ``1,5``, ``−3``, and ``4.7k`` where prefixes are taken.

    Raises
    ------
    FieldError : no number, or with signs between thousands, which would be guessed wrong.
    """
    plain = text.strip().translate(_SPACES).replace("\u2212", "-")
    if plain.count(",") + plain.count(".") > 1:
        raise FieldError("has signs between thousands; leave them out, for example 1234.5 or 1234,5")
    found = _NUMBER.fullmatch(plain.replace(",", "."))
    if found is None or (found[2] and not takes_prefix):
        raise FieldError("is no number; write for example 1.5 or 1,5, without a unit")
    try:
        number = Decimal(found[1])
    except InvalidOperation as error:
        raise FieldError("is no number; write for example 1.5 or 1,5") from error
    if not math.isfinite(float(number)):
        raise FieldError("is too large")
    return number * _PREFIXES.get(found[2], Decimal(1))


def shown(field: Field, value: Value, decimal_sign: str = ".") -> str:
    """Return a value of the file as it stands in its field."""
    if value is None:
        return ""
    if isinstance(value, str):
        return value
    number = Decimal(repr(value)) / field.factor
    text = f"{number.normalize():f}" if abs(number) < Decimal(10) ** 9 else f"{float(number):g}"
    return text.replace(".", decimal_sign)


class BenchDraft(NamedTuple):
    """A form put away: the file it came from, that file's text, and the text with what was typed over it."""

    path: Path | None
    base: str
    text: str


class BenchForm:
    """A bench file being edited. Holds the text of the file and what is typed over it."""

    def __init__(self, bench: Bench | None = None) -> None:
        self._base = "" if bench is None else bench.source_text
        self.path: Path | None = None if bench is None else bench.path
        present = {} if bench is None else _values(bench)
        self._saved: dict[Key, Value] = {field.path: present.get(field.path) for field in FIELDS}
        self._values = dict(self._saved)
        self._problems: dict[Key, FieldError] = {}

    @classmethod
    def of_draft(cls, draft: BenchDraft) -> BenchForm:
        """Return the form that was put away: over its file as that is now, or without one where it is gone.

        Raises
        ------
        BenchError : the texts are none of a bench.
        """
        name = "this bench" if draft.path is None else draft.path.name
        form = cls(parse_bench(draft.base, name))
        form._values = dict.fromkeys(form._values) | _values(parse_bench(draft.text, name))
        if draft.path is not None:
            with contextlib.suppress(BenchError):
                return form.moved_to(read_bench(draft.path))
        return form

    @property
    def draft(self) -> BenchDraft:
        """What to put away, so that `of_draft` brings the form back; texts that cannot be are not in it."""
        return BenchDraft(self.path, self._base, self.text)

    def value(self, path: Key) -> Value:
        """Return the present value of a key; None where it is not given."""
        return self._values[path]

    def type(self, field: Field, text: str) -> FieldError | None:
        """Take what is typed into a field; return what is wrong with it, if anything."""
        try:
            self._values[field.path] = field.value(text)
        except FieldError as error:
            self._problems[field.path] = error
            return error
        self._problems.pop(field.path, None)
        return None

    @property
    def base(self) -> str:
        """The text of the file that is edited, without what is typed over it."""
        return self._base

    def moved_to(self, bench: Bench, *, since: Bench | None = None) -> BenchForm:
        """Return a form over another bench, with what is not as in `since`: by default the present file."""
        before = self._saved if since is None else BenchForm(since)._saved
        moved = BenchForm(bench)
        moved._values |= {key: value for key, value in self._values.items() if value != before[key]}
        return moved

    @property
    def problems(self) -> Mapping[Key, FieldError]:
        """Fields whose text cannot be used, with the reason."""
        return self._problems

    @property
    def is_changed(self) -> bool:
        """Tell whether something differs from the file."""
        return self._values != self._saved or bool(self._problems)

    def bench(self) -> Bench:
        """Return the bench as it stands; fields with problems keep their last good value.

        Raises
        ------
        BenchError : values contradict one another.
        """
        return parse_bench(self.text, "this bench")

    @property
    def text(self) -> str:
        """The file that it makes."""
        changed = {key: value for key, value in self._values.items() if value != self._saved[key]}
        return write_values(self._base, changed)

    def save(self, path: Path) -> Bench:
        """Write the file and go on from there.

        Raises
        ------
        BenchError : something typed cannot be, or values contradict one another; nothing was written.
        LoggerError : the file cannot be written.
        """
        if self._problems:
            (section, key), problem = next(iter(self._problems.items()))
            raise BenchError(f"{key} {problem}", f"{section}.{key}: {problem}".lstrip("."))
        text = self.text
        bench = parse_bench(text, path.name)
        save_bench_text(text, path)
        self._base, self._saved, self.path = text, dict(self._values), path
        return bench


def save_bench_text(text: str, path: Path) -> None:
    """Write a bench file; it appears whole or not at all.

    Raises
    ------
    LoggerError : it cannot be written; an earlier file of that name is as it was.
    """
    with written_whole(path, replace=True) as part:
        part.write_text(text, encoding="utf-8")
    Disk().sync_folder(path.absolute().parent)


def _values(bench: Bench) -> dict[Key, Value]:
    found: dict[Key, Value] = {TITLE: bench.title}
    text = bench.source_text
    document = tomllib.loads(text) if text else {}
    for section, keys in SECTIONS.items():
        table = getattr(bench, section)
        given = document.get(section, {})
        found.update({(section, key): getattr(table, key) for key in keys if key in given})
    return found
