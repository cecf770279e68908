"""Durations as people type them."""

from __future__ import annotations

import pytest

from logger.duration import DurationError, parse_duration_s


@pytest.mark.parametrize(
    ("text", "seconds"),
    [("90", 90), ("90s", 90), ("15m", 900), ("2h", 7200), ("1.5m", 90), (" 3 s ", 3), (".5h", 1800)],
)
def test_forms(text, seconds):
    assert parse_duration_s(text) == seconds


@pytest.mark.parametrize("text", ["", "0", "-5s", "5 min", "1h30m", "inf", "nan", "1e3", "9999999h", "s"])
def test_anything_else_is_refused(text):
    with pytest.raises(DurationError, match="for example"):
        parse_duration_s(text)
