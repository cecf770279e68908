"""The comparison of charts runs, and what it checks holds; speed itself is not judged here."""

from __future__ import annotations

import pytest

pytest.importorskip("PySide6")

from tests.benchmarks import chart


def test_no_column_is_wrong_and_no_spike_is_lost() -> None:
    compared, wrong = chart.wrong_columns(3)
    assert compared > 900
    assert wrong == 0
    assert all(shown >= there for _name, there, shown in chart.spikes_shown())


def test_the_comparison_runs(capsys: pytest.CaptureFixture[str]) -> None:
    assert chart.run((2000,), 0.2, 1) == 0
    said = capsys.readouterr().out
    assert "0 wrong" in said
    assert "100000/s" in said
