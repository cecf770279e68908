"""The measurement of the overlay runs, and no reading is left out of a curve; speed is not judged here."""

from __future__ import annotations

import pytest

pytest.importorskip("PySide6")

from PySide6.QtWidgets import QApplication

from tests.benchmarks import overlay


def test_every_reading_is_covered_by_its_curve(
    qapp: QApplication, capsys: pytest.CaptureFixture[str]
) -> None:
    assert overlay.run(2, 120.0, 2) == 0
    said = capsys.readouterr().out
    assert ", 0 not covered" in said
    assert " 0 readings" not in said
