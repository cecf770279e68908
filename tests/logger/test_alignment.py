"""Several runs over one another: where they can be aligned, and under which names."""

from __future__ import annotations

from pathlib import Path

import numpy as np

from logger.alignment import START, alignments, distinct_names, zero_s
from tests.logger.simulated_run import channel, recording

A = recording(
    channel(np.arange(9.0), np.full(9, 2.0)),
    moments=[(2.0, "salt_added"), (5.0, "salt_added"), (1.0, "note")],
)
B = recording(channel(np.arange(9.0), np.full(9, 2.0)), moments=[(3.0, "buffer_in")])
GROWN = {"phases": [{"phase": "growth", "begin_s": 2.5, "end_s": 8.0}]}


def test_the_first_moment_of_a_kind_is_at_zero() -> None:
    assert zero_s("moment:salt_added", A, {}) == 2.0
    assert zero_s("moment:salt_added", B, {}) is None
    assert zero_s(START, B, {}) == 0.0
    assert zero_s("phase:growth", B, GROWN) == 2.5
    assert zero_s("phase:growth", B, {"phases": None}) is None


def test_what_most_runs_have_is_offered_first_and_notes_are_not() -> None:
    found = alignments([(A, GROWN), (B, GROWN)])
    assert [(one.key, one.count) for one in found] == [
        ("start", 2), ("phase:growth", 2), ("moment:buffer_in", 1), ("moment:salt_added", 1),
    ]  # fmt: skip


def test_runs_of_one_title_are_told_apart_by_file() -> None:
    paths = [Path("a.h5"), Path("b.h5"), Path("c.h5")]
    assert distinct_names(["Strip", "Strip", "Blank"], paths) == ("a", "b", "Blank")
    assert distinct_names(["", "x", "y"], paths) == ("a", "x", "y")
