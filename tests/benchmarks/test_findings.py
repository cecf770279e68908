"""The benchmark of the findings runs; speed itself is not judged here, memory is."""

from __future__ import annotations

import sys

import pytest

from logger.analysis.findings import findings
from tests.benchmarks.findings import compare, long_recording, plain_way, timed


def test_it_compares_both_ways(capsys: pytest.CaptureFixture[str]):
    compare(200_000)
    assert "times as long as the plain way" in capsys.readouterr().out


def test_both_ways_find_the_same_charge():
    run = long_recording(300_000)
    found = findings(run)["charge_C"]["best"]
    assert found == pytest.approx(plain_way(run)["charge_C"], rel=1e-3)


@pytest.mark.skipif(sys.platform != "linux", reason="the kernel's peak is read from /proc")
def test_the_memory_beyond_the_readings_does_not_grow_with_them():
    run = long_recording(4_000_000)
    findings(long_recording(200_000))
    taken = timed(lambda: findings(run))
    if taken.extra_MB is None:
        pytest.skip("this kernel does not let the peak be counted anew")
    assert taken.extra_MB < 30.0  # one more array of float64 would be 32 MB
