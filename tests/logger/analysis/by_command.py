"""A run by the real commands: readings and moments as CSV, imported, then analysed as JSON and as text."""

from __future__ import annotations

import csv
import json
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import Any

import pytest

from logger.commands import main

__all__ = ["imported_and_analysed"]


def imported_and_analysed(
    folder: Path,
    capsys: pytest.CaptureFixture[str],
    readings: tuple[Iterable[float], Iterable[float]],
    moments: Sequence[tuple[float, str, str]],
    bench: str = "",
) -> tuple[dict[str, Any], str]:
    """Make ``run.h5`` in `folder` of times and voltages (s, V) and moments (s, kind, label); return what
    `analyse` says of it as a document and as text, with plain blanks."""
    times, volts = readings
    options = []
    for option, name, head, rows in (
        ("", "r.csv", ["time_s", "cell_voltage_V"], zip(times, volts, strict=True)),
        ("--moments", "m.csv", ["time_s", "kind", "label"], moments),
    ):
        with (folder / name).open("w", newline="", encoding="utf-8") as file:
            writer = csv.writer(file)
            writer.writerow(head)
            writer.writerows(rows)
        options += [option, str(folder / name)] if option else [str(folder / name)]
    if bench:
        (folder / "b.toml").write_text(bench)
        options += ["--bench", str(folder / "b.toml")]
    out = str(folder / "run.h5")
    assert main(["import", *options, "--out", out]) == 0
    capsys.readouterr()
    assert main(["analyse", "--json", out]) == 0
    (document,) = json.loads(capsys.readouterr().out)
    assert main(["analyse", out]) == 0
    return document, capsys.readouterr().out.replace("\N{NO-BREAK SPACE}", " ")
