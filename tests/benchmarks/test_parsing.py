"""The benchmark runs, and both ways of taking packets apart agree in it; speed itself is not judged here."""

from __future__ import annotations

import pytest

from tests.benchmarks import lines
from tests.benchmarks.parsing import compare, source_share


def test_both_ways_give_the_same_codes(capsys: pytest.CaptureFixture[str]):
    compare(300)  # asserts it
    assert "times" in capsys.readouterr().out


def test_both_ways_give_the_same_values_of_lines(capsys: pytest.CaptureFixture[str]):
    lines.compare(3000)  # asserts it
    assert "times" in capsys.readouterr().out


def test_the_source_keeps_every_sample_at_a_hundred_thousand_a_second(capsys: pytest.CaptureFixture[str]):
    source_share(seconds=1)
    said = capsys.readouterr().out
    assert "lost 0;" in said
    assert int(said.split("second: ")[1].split()[0]) == pytest.approx(100_000, rel=0.03)
