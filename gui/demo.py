"""What runs at the first start: a simulated lesson. Touches no widget."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from PySide6.QtCore import QT_TRANSLATE_NOOP

from gui.session import Plan
from gui.words import translate
from logger.bench import Bench, parse_bench
from logger.folder import resolve_output

__all__ = ["DEMO_ADDRESS", "demo_bench", "demo_plan", "holds_invented", "in_window_language", "lesson_bench"]

DEMO_ADDRESS = "cell:demo?speed=20"
FILE = Path(__file__).with_name("demo_bench.toml")

MARK = "# The bench of the built-in simulated cell."
"""In its bench file, and in every file that was saved from it: such a file is known again by it.

Invented values stand also in a file that is there to be copied, but what was opened to be used stays."""

_TEXTS = tuple(
    str(text)
    for text in (
        QT_TRANSLATE_NOOP("Demo", "Simulated lesson"),
        QT_TRANSLATE_NOOP("Demo", "0.1 mol/L potassium phosphate"),
        QT_TRANSLATE_NOOP("Demo", "Connect everything, cell dry"),
        QT_TRANSLATE_NOOP("Demo", "Pour in the buffer"),
        QT_TRANSLATE_NOOP("Demo", "Add the metal salt"),
        QT_TRANSLATE_NOOP("Demo", "Lift the electrodes out"),
        QT_TRANSLATE_NOOP("Demo", "Swap in fresh buffer"),
        QT_TRANSLATE_NOOP("Demo", "Put the electrodes back in"),
    )
)
"""The texts of the bench file, named here so that the translator's tool finds them; a test compares."""


def demo_bench() -> Bench:
    """Return the bench of the simulated cell, its texts in the language of the window."""
    text = FILE.read_text(encoding="utf-8")
    for one in _TEXTS:
        text = text.replace(f'"{one}"', f'"{translate("Demo", one)}"')
    return parse_bench(text, FILE.name)


def holds_invented(text: str) -> bool:
    """Tell whether the text of a bench file is that of the simulated cell, or was made from it."""
    return MARK in text


def lesson_bench() -> Bench:
    """Return the steps and the settling limit of the simulated lesson, and none of its invented values."""
    text = demo_bench().source_text
    return parse_bench(text[text.index("[settling]") :], FILE.name)


def demo_plan(
    out: Path | None = None, *, bench: Bench | None = None, duration_s: float | None = None
) -> Plan:
    """Return the plan of a simulated lesson, recorded in the usual folder unless `out` is given.

    Raises
    ------
    LoggerError : no file can be made there.
    """
    bench = bench or demo_bench()
    return Plan((DEMO_ADDRESS,), resolve_output(out), bench, bench.title or "", duration_s)


def in_window_language(plan: Plan) -> Plan:
    """Return `plan`; one on the demonstration bench that was made before a language was loaded, in it."""
    if plan.bench.source_text != FILE.read_text(encoding="utf-8"):
        return plan
    bench = demo_bench()
    return replace(plan, bench=bench, title=bench.title or "")
