"""A point taken while listening is kept for that instrument, and nothing else is."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from logger.calibration import CalibrationError
from logger.calibration_store import CalibrationStore
from logger.probe_calibration import forget_calibration, keep_again, kept_calibration, take_point
from logger.source_probe import ProbedChannel

TODAY = date(2026, 3, 5)


def channel(value: float, *, identity: str = "scpi bench meter 7", unit: str = "V") -> ProbedChannel:
    recent = tuple(value + 0.0001 * (i % 2) for i in range(12))
    return ProbedChannel(
        "cell_voltage",
        "cell_voltage",
        unit,
        value,
        recent=recent,
        recent_quality=(0,) * 12,
        identity=identity,
    )


def test_two_points_make_a_line_and_it_is_found_again(tmp_path: Path) -> None:
    store = CalibrationStore(tmp_path)
    take_point(channel(0.010), "0", "leads together", store=store, today=TODAY)
    found = take_point(channel(2.510), "2,500", "bench meter", store=store, today=TODAY)
    # shown change 2.5 V over a true change of 2.5 V, shown 10 mV at 0 V: by hand
    assert found.gain == pytest.approx(1.0, abs=1e-4)
    assert found.zero_V == pytest.approx(0.010, abs=1e-3)
    assert kept_calibration(channel(2.0), store) == found
    assert kept_calibration(channel(2.0, identity="another"), store) is None


@pytest.mark.parametrize(
    ("one", "typed", "words"),
    [
        (channel(0.0, identity=""), "0", "name"),
        (channel(0.0, unit="degC"), "0", "no voltage"),
        (channel(0.0), "1.234,5", "known voltage has signs between thousands"),
        (channel(2.25), "0", "not the zero"),
    ],
)
def test_what_makes_no_point_is_refused_and_nothing_is_kept(
    tmp_path: Path, one: ProbedChannel, typed: str, words: str
) -> None:
    store = CalibrationStore(tmp_path)
    with pytest.raises(CalibrationError, match=words):
        take_point(one, typed, "", store=store, today=TODAY)
    assert store.all() == {}


def test_what_was_forgotten_corrects_no_longer_until_it_is_kept_again(tmp_path: Path) -> None:
    store = CalibrationStore(tmp_path)
    found = take_point(channel(0.010), "0", "leads together", store=store, today=TODAY)
    forget_calibration(channel(2.0), store)
    assert kept_calibration(channel(2.0), store) is None
    with pytest.raises(CalibrationError, match="no calibration"):
        forget_calibration(channel(2.0), store)
    assert keep_again(channel(2.0), found, store) == found
    assert kept_calibration(channel(2.0), store) == found
