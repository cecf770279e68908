"""The quick half of the campaign: every export is opened by readers that no one here wrote."""

from __future__ import annotations

import os
import subprocess
import sys

import pytest


def test_short_form():
    pytest.importorskip("frictionless")
    # In a process of its own: painting without a window makes an application object.
    done = subprocess.run(
        [sys.executable, "-m", "tests.campaigns.outside_readers", "--quick"],
        capture_output=True,
        encoding="utf-8",
        env={**os.environ, "QT_QPA_PLATFORM": "offscreen", "PYTHONUTF8": "1"},
        check=False,
    )
    assert done.returncode == 0, done.stdout + done.stderr
    assert "9 tables valid, 9 tables valid" in done.stdout
    assert "FAILED" not in done.stdout
