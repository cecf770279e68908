"""The measuring of the start runs, and tells things in their order; how long they take is not judged here."""

from __future__ import annotations

from pathlib import Path

import pytest

pytest.importorskip("PySide6")

from tests.benchmarks import start


def test_the_window_is_painted_before_the_first_reading(tmp_path: Path) -> None:
    (tmp_path / "run").mkdir()
    window_s, window_own_s, curve_s, curve_own_s = start.start_once(tmp_path / "run", tmp_path / "compiled")
    assert 0 < window_s <= curve_s
    assert 0 < window_own_s <= curve_own_s
