"""Runs for tests: begun on scripted sources, and waited for."""

from __future__ import annotations

import threading

from logger.run import Run

WAIT_S = 10.0


def recorded(tmp_path, *sources, **keys):
    run = Run(sources, tmp_path / "run.h5", **keys)
    run.start()
    for source in sources:
        assert source.drained.wait(WAIT_S) or run.wait_ended(0.0)
    return run


def wait_until(true):
    for _ in range(10_000):
        if true():
            return
        threading.Event().wait(0.001)
    raise AssertionError("it never came true")
