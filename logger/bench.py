"""The bench file: what stands on the table, in TOML, kept with every recording.

Every key is optional. What is absent is None; `logger.bench_defaults` says what is assumed instead.
"""

from __future__ import annotations

import difflib
import re
import tomllib
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any, NoReturn

from logger.analysis.refusal import Refused
from logger.analysis.supply import EXTRA_LOW_VOLTAGE_V, SupplyCircuit
from logger.bench_rules import SECTIONS, Number, Rule
from logger.bench_tables import Bench, Cell, Meter, Settling, Step, Supply
from logger.clean_text import clean_text
from logger.duration import DurationError, parse_duration_s
from logger.errors import BenchError
from logger.moments import KINDS, clean_label
from logger.toml_lines import error_line, line_of

__all__ = [
    "UNTIL_SETTLED",
    "Bench",
    "Cell",
    "Meter",
    "Settling",
    "Step",
    "Supply",
    "parse_bench",
    "read_bench",
]

UNTIL_SETTLED = "until settled"

_LARGEST_TEXT = 65536  # characters; a bench file is a page
_LONGEST_CHARACTER = 4  # bytes, in UTF-8
_MOST_STEPS = 200
_TOO_MANY_DIGITS = re.compile(r"[\d_]{4000,}")
_LEAST_SPLITTING_V = 1.3
_GREATEST_DENSITY_mA_cm2 = 500.0
_GREATEST_SALT_g_L = 238.0  # 1 mol/L of the lightest salt in use


def read_bench(path: str | Path) -> Bench:
    """Read a bench file.

    Raises
    ------
    BenchError : missing, unreadable, not text, or malformed; see `parse_bench`.
    """
    path = Path(path)
    try:
        with path.open("rb") as file:
            raw = file.read(_LARGEST_TEXT * _LONGEST_CHARACTER + 1)
    except FileNotFoundError:
        raise BenchError(f"{path}: there is no such bench file; check the name and the folder") from None
    except IsADirectoryError:
        raise BenchError(f"{path}: that is a folder; name the bench file in it") from None
    except OSError as error:
        raise BenchError(f"{path}: cannot be read ({error.strerror}); check its permissions") from error
    if len(raw) > _LARGEST_TEXT * _LONGEST_CHARACTER:
        raise _too_long(str(path))
    try:
        text = raw.decode("utf-8-sig")  # some editors put a mark in front
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        raise BenchError(
            f"{path}, line {line}: a character is not UTF-8; save the file as UTF-8 text"
        ) from error
    return replace(parse_bench(text, str(path)), path=path)


def _too_long(name: str) -> BenchError:
    return BenchError(f"{name}: too long for a bench file; keep it below {_LARGEST_TEXT} characters")


def parse_bench(text: str, name: str = "bench file") -> Bench:
    """Read the text of a bench file; `name` stands in front of every complaint.

    Raises
    ------
    BenchError : not TOML, an unknown table or key (the nearest known one is named), a value of the wrong
        type, a slip of units, an impossible value, or values that contradict one another; each with line,
        reason and remedy.
    """
    return _Reader(text, name).bench()


class _Reader:
    """Reads one text; knows where to point when something is wrong."""

    def __init__(self, text: str, name: str) -> None:
        self._text = text
        self._name = name
        self._document = self._parsed()

    def bench(self) -> Bench:
        self._check_known((), self._document, ("title", *SECTIONS, "steps"), "bench file")
        values = {section: self._section(section, rules) for section, rules in SECTIONS.items()}
        bench = Bench(
            title=self._text_value(("title",), self._document["title"])
            if "title" in self._document
            else None,
            supply=Supply(**values["supply"]),
            cell=Cell(**values["cell"]),
            meter=Meter(**values["meter"]),
            settling=Settling(**values["settling"]),
            steps=self._steps(),
            source_text=self._text,
        )
        self._check_supply(bench.supply)
        self._check_cell(bench.cell, bench.supply.current_A)
        self._check_meter(bench.meter)
        return bench

    def _parsed(self) -> dict[str, Any]:
        if len(self._text) > _LARGEST_TEXT:
            raise _too_long(self._name)
        try:
            return tomllib.loads(self._text)
        except RecursionError:
            raise BenchError(
                f"{self._name}, line 1: brackets are nested too deeply; write plain tables"
            ) from None
        except tomllib.TOMLDecodeError as error:
            reason = str(error).partition(" (at ")[0]
            raise BenchError(
                f"{self._name}, line {error_line(error, self._text)}: not TOML, {reason}; "
                'write key = value, numbers with a point, texts in "quotes", tables as [supply]'
            ) from error
        except ValueError as error:  # more digits than Python turns into a number
            found = _TOO_MANY_DIGITS.search(self._text)
            line = self._text.count("\n", 0, found.start()) + 1 if found else 1
            raise BenchError(
                f"{self._name}, line {line}: a number has thousands of digits; write a shorter one"
            ) from error

    def _refuse(self, path: Sequence[str | int], reason: str, remedy: str) -> NoReturn:
        parts = (f"[{part + 1}]" if isinstance(part, int) else f".{clean_label(part)}" for part in path)
        shown = "".join(parts).lstrip(".")
        line = line_of(self._text, path)
        raise BenchError(
            f"{self._name}, line {line}: {shown} {reason}; {remedy}", f"{shown} {reason}; {remedy}"
        )

    def _check_known(
        self, path: tuple[str | int, ...], table: dict[str, Any], known: Sequence[str], where: str
    ) -> None:
        for key in table:
            if key in known:
                continue
            near = difflib.get_close_matches(key, known, n=1, cutoff=0.5)
            home = next((section for section, rules in SECTIONS.items() if key in rules), None)
            if home is not None:
                remedy = f"it belongs in [{home}]"
            else:
                remedy = f"did you mean {near[0]}?" if near else f"known are {', '.join(known)}"
            self._refuse((*path, key), f"is not known in a {where}", remedy)

    def _section(self, section: str, rules: dict[str, Rule]) -> dict[str, Any]:
        table = self._document.get(section, {})
        if not isinstance(table, dict):
            self._refuse(
                (section,), "must be a table", f"write [{section}] on a line of its own, its keys below"
            )
        self._check_known((section,), table, tuple(rules), f"table [{section}]")
        return {
            key: self._number((section, key), value, rule)
            if isinstance(rule := rules[key], Number)
            else self._text_value((section, key), value)
            for key, value in table.items()
        }

    def _text_value(self, path: Sequence[str | int], value: object) -> str:
        if not isinstance(value, str):
            self._refuse(path, f"must be a text, not {_kind_of(value)}", 'put it in "quotes"')
        return clean_text(value)

    def _number(self, path: Sequence[str | int], value: object, rule: Number) -> float | int:
        if isinstance(value, bool) or not isinstance(value, int | float):
            self._refuse(path, f"must be a number, not {_kind_of(value)}", "write it without quotes or unit")
        if rule.whole and value != (whole := _whole(value)):
            self._refuse(path, f"= {_shown(value)} must be a whole number", f"write for example {whole}")
        slips = [f"{unit} (then write {number:.6g})" for unit, number in rule.meant(value)]
        if slips:
            self._refuse(path, f"= {_shown(value)} looks like {' or '.join(slips)}", rule.reason)
        if not rule.low <= value <= rule.high:
            accepted = f"give {rule.low:g} to {rule.high:g}"
            self._refuse(path, f"= {_shown(value)} is impossible, {rule.reason}", accepted)
        return int(value) if rule.whole else float(value)

    def _steps(self) -> tuple[Step, ...]:
        steps = self._document.get("steps", [])
        if not isinstance(steps, list) or not all(isinstance(step, dict) for step in steps):
            self._refuse(("steps",), "must be a list of tables", "write [[steps]] before each step")
        if len(steps) > _MOST_STEPS:
            self._refuse(("steps", _MOST_STEPS), "is one step too many", f"keep to {_MOST_STEPS} steps")
        return tuple(self._step(number, step) for number, step in enumerate(steps))

    def _step(self, number: int, step: dict[str, Any]) -> Step:
        path = ("steps", number)
        self._check_known(path, step, ("kind", "label", "hold"), "step")
        if "kind" not in step:
            self._refuse(path, "has no kind", 'write for example kind = "salt_added"')
        kind = self._text_value((*path, "kind"), step["kind"])
        if kind not in KINDS:
            near = difflib.get_close_matches(kind, KINDS, n=1, cutoff=0.5)
            remedy = f"did you mean {near[0]}?" if near else f"known are {', '.join(KINDS)}"
            self._refuse((*path, "kind"), f"= {kind!r} is no kind of moment", remedy)
        label = self._text_value((*path, "label"), step.get("label", ""))
        hold_s, until_settled = self._hold((*path, "hold"), step["hold"]) if "hold" in step else (None, False)
        return Step(kind, label, hold_s, until_settled)

    def _hold(self, path: Sequence[str | int], value: object) -> tuple[float | None, bool]:
        remedy = f'write for example "90s", "15m" or "{UNTIL_SETTLED}"'
        if not isinstance(value, str):
            self._refuse(path, f"must be a text, not {_kind_of(value)}", remedy)
        text = " ".join(value.split()).lower()
        if text == UNTIL_SETTLED:
            return None, True
        try:
            return parse_duration_s(text), False
        except DurationError:
            self._refuse(path, f"= {clean_label(value)!r} is no time to hold", remedy)

    def _check_supply(self, supply: Supply) -> None:
        if supply.current_A is not None and supply.resistor_ohm is not None:
            self._refuse(
                ("supply", "current_A"),
                "contradicts resistor_ohm",
                "keep current_A only for a supply that holds the current by itself",
            )
        declared_V = supply.declared_stack_voltage_V
        if declared_V is not None and not _LEAST_SPLITTING_V <= declared_V <= EXTRA_LOW_VOLTAGE_V:
            self._refuse(
                ("supply", "cells"),
                f"and cell_voltage_V make a stack of {declared_V:g} V",
                f"give {_LEAST_SPLITTING_V:g} to {EXTRA_LOW_VOLTAGE_V:g} V (above, local rules decide)",
            )
        stack_V = supply.best_stack_voltage_V
        if supply.resistor_rating_W is not None and supply.resistor_ohm is not None and stack_V is not None:
            circuit = SupplyCircuit(stack_V, supply.resistor_ohm, supply.internal_resistance_ohm or 0.0)
            try:
                circuit.check_rating(supply.resistor_rating_W)
            except Refused as refusal:
                self._refuse(
                    ("supply", "resistor_rating_W"),
                    f"= {supply.resistor_rating_W:g} is too small, {refusal.reason}",
                    refusal.accepted,
                )

    def _check_cell(self, cell: Cell, current_A: float | None) -> None:
        if current_A is not None and cell.anode_area_cm2 is not None:
            density = 1000.0 * current_A / cell.anode_area_cm2
            if density > _GREATEST_DENSITY_mA_cm2:
                self._refuse(
                    ("supply", "current_A"),
                    f"= {current_A:g} on {cell.anode_area_cm2:g} cm2 makes {density:.4g} mA/cm2",
                    f"check both units; up to {_GREATEST_DENSITY_mA_cm2:g} mA/cm2 is expected",
                )
        if cell.salt_mass_mg is not None and cell.volume_mL is not None:
            gram_per_litre = cell.salt_mass_mg / cell.volume_mL
            if gram_per_litre > _GREATEST_SALT_g_L:
                self._refuse(
                    ("cell", "salt_mass_mg"),
                    f"= {cell.salt_mass_mg:g} in {cell.volume_mL:g} mL is more than 1 mol/L",
                    "check both units: milligram and millilitre",
                )

    def _check_meter(self, meter: Meter) -> None:
        if (
            meter.range_V is not None
            and meter.resolution_V is not None
            and meter.resolution_V > meter.range_V / 10
        ):
            self._refuse(
                ("meter", "resolution_V"),
                f"= {meter.resolution_V:g} is more than a tenth of the range",
                "give one count of the last digit, for example 0.001 V",
            )


def _kind_of(value: object) -> str:
    names = {
        bool: "true or false",
        str: "a text",
        list: "a list",
        dict: "a table",
        int: "a number",
        float: "a number",
    }
    return names.get(type(value), "a date or time")


def _whole(value: float | int) -> int:
    try:
        return int(value)
    except (ValueError, OverflowError):
        return 1


def _shown(value: float | int) -> str:
    """Return a number as text; a whole one of thousands of digits has no other short form."""
    return str(value) if abs(value) < 1e15 else "a very large number" if value == value else "nan"
