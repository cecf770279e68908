"""The benchmark of the findings runs; speed itself is not judged here, memory is."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from logger.analysis.findings import findings
from tests.benchmarks.findings import COMMAND, compare, in_process, long_recording, plain_way, write_long


def test_it_compares_both_ways(tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    compare(200_000, tmp_path / "long.h5")
    assert "times as long as the plain way" in capsys.readouterr().out


def test_both_ways_find_the_same_charge(tmp_path: Path):
    write_long(tmp_path / "long.h5", 300_000)
    found = findings(long_recording(300_000))["charge_C"]["best"]
    assert found == pytest.approx(plain_way(tmp_path / "long.h5")["charge_C"], rel=1e-3)


@pytest.mark.skipif(sys.platform != "linux", reason="the kernel's peak is in kilobytes there")
def test_the_memory_does_not_hold_the_readings(tmp_path: Path):
    long, short = tmp_path / "long.h5", tmp_path / "short.h5"
    write_long(long, 20_000_000)
    write_long(short, 200_000)
    peaks_MB = [in_process("-c", COMMAND, "analyse", str(path)).peak_MB for path in (short, long)]
    assert peaks_MB[1] - peaks_MB[0] < 200.0  # their arrays are 340 MB; the cache is 100 MB
