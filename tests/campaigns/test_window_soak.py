"""What the soak of the window calls growth."""

from __future__ import annotations

import numpy as np
import pytest

from tests.campaigns.window_soak import GROWTH_LIMIT_MB_PER_H, Row, Soaked, grows

HOUR_S = np.arange(0.0, 3600.0, 10.0)


def soaked(window_MB: np.ndarray) -> Soaked:
    """An hour in which the window took so much."""
    times_and_MB = zip(HOUR_S, window_MB, strict=True)
    return Soaked([Row(t, MB, MB - 80.0, 40.0, 13, 7, 0.3 * t) for t, MB in times_and_MB], 0, 0)


def wandering(step_MB: float) -> np.ndarray:
    """Memory that goes up and down by chance, each step a little further."""
    return np.cumsum(np.random.default_rng(3).normal(0.0, step_MB, HOUR_S.size))


@pytest.mark.parametrize(
    ("window_MB", "is_growth"),
    [
        (np.full(HOUR_S.size, 181.0), False),
        (181.0 + 0.5 * GROWTH_LIMIT_MB_PER_H * HOUR_S / 3600, False),
        (181.0 + 1.5 * GROWTH_LIMIT_MB_PER_H * HOUR_S / 3600, True),
        (150.0 + 30.0 * (1 - np.exp(-HOUR_S / 200.0)), False),  # pages, libraries, caches: met once
        (181.0 + np.floor(4 * HOUR_S / 3600 * 4) / 4, True),  # 4 MB an hour in pieces
        (181.0 + wandering(0.3), True),  # nothing can be told, so it is not shown that it does not grow
    ],
)
def test_memory_that_may_have_grown_counts_as_growth(window_MB: np.ndarray, is_growth: bool) -> None:
    assert grows(soaked(window_MB), "window_MB") is is_growth


def test_a_descriptor_that_stays_open_is_seen() -> None:
    run = soaked(np.full(HOUR_S.size, 181.0))
    assert run.rise("descriptors") == 0
    rows = [Row(r.at_s, 181.0, 101.0, 40.0, 13 + int(r.at_s // 900), 7, r.cpu_s) for r in run.rows]
    assert Soaked(rows, 0, 0).rise("descriptors") == 1
