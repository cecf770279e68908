"""Work beside the window: what its end waits for, and how long."""

from __future__ import annotations

import pytest

from gui.job import Job
from gui.jobs import KEEPING_LIMIT_S, PATIENCE_S, Jobs, wait_until_kept


class Keeping(Job[None]):
    """Takes a time that a test says, of a clock that stands still meanwhile."""

    def __init__(self, clock: list[float], takes_s: float) -> None:
        super().__init__(lambda: None, lambda _done, _error: self.told.append(self.is_over), "keep")
        self._clock, self._over_s = clock, clock[0] + takes_s
        self.waited: list[float] = []
        self.told: list[bool] = []
        self._thread.join()

    @property
    def is_over(self) -> bool:
        return self._clock[0] >= self._over_s

    def wait(self, limit_s: float) -> None:
        self.waited.append(limit_s)
        self._clock[0] += max(0.0, min(limit_s, self._over_s - self._clock[0]))


def test_all_jobs_that_end_with_the_window_share_one_limit() -> None:
    clock = [100.0]
    jobs = Jobs()
    stuck = [Keeping(clock, 1e6), Keeping(clock, 1e6)]
    for job in stuck:
        jobs.add(job)
    jobs.end(lambda: clock[0])
    assert clock[0] == 100.0 + PATIENCE_S
    assert [job.waited for job in stuck] == [[PATIENCE_S], [0.0]]


def test_all_that_is_kept_at_the_end_shares_one_limit(caplog: pytest.LogCaptureFixture) -> None:
    clock = [100.0]
    slow, stuck, quick = Keeping(clock, 20.0), Keeping(clock, 1e6), Keeping(clock, 1.0)
    wait_until_kept([slow, stuck, quick], lambda: clock[0])
    assert clock[0] == 100.0 + KEEPING_LIMIT_S
    assert (slow.told, stuck.told, quick.told) == ([True], [], [True])
    assert "not kept within" in caplog.text
    assert caplog.text.count("not kept") == 1
