"""The help: texts and a drawing that lie beside this file, without a network."""

from __future__ import annotations

from pathlib import Path

__all__ = ["TOPICS", "drawing_text", "topic_text"]

FOLDER = Path(__file__).parent
FALLBACK = "en"

TOPICS = ("first_run", "numbers", "wiring", "cautions", "keyboard", "trouble")
"""In the order in which they are offered. Cautions and keyboard are made from the program itself."""


def topic_text(topic: str, language: str) -> str:
    """Return the HTML of a topic that lies in a file, in English where the language has none.

    Raises
    ------
    FileNotFoundError : there is no such topic.
    """
    file = FOLDER / language / f"{topic}.html"
    if not file.is_file():
        file = FOLDER / FALLBACK / f"{topic}.html"
    return file.read_text(encoding="utf-8")


def drawing_text() -> str:
    """Return the SVG of the wiring; its words and colours are names in capitals, to be replaced."""
    return (FOLDER / "wiring.svg").read_text(encoding="utf-8")
