"""The work that goes on beside the window: asked after once a frame, ended with it."""

from __future__ import annotations

import logging
import time
from collections.abc import Callable, Iterable
from typing import Any

from gui.job import Job

__all__ = ["KEEPING_LIMIT_S", "Jobs", "wait_until_kept"]

log = logging.getLogger(__name__)

PATIENCE_S = 5.0
"""How long the end of the window waits for jobs that were asked to end."""

KEEPING_LIMIT_S = 30.0
"""The same for what keeps changes in files: longer, as else they are lost on a slow computer or disk."""


class Jobs:
    """Holds the jobs that are not over."""

    def __init__(self) -> None:
        self._jobs: list[Job[Any]] = []

    def add(self, job: Job[Any]) -> None:
        """Ask after `job` until it is over."""
        self._jobs.append(job)

    def frame(self) -> None:
        """Let each that is over tell its outcome; called once a frame."""
        # An outcome may add a job: to the list that is gone through, so that it is not lost.
        self._jobs = [job for job in self._jobs if not job.poll()]

    @property
    def are_over(self) -> bool:
        """Tell whether none is left."""
        return not self._jobs

    @property
    def is_exporting(self) -> bool:
        """Tell whether something is written that somebody may want to wait for."""
        return any(job.is_cancellable for job in self._jobs)

    def end(self, now_s: Callable[[], float] = time.monotonic) -> None:
        """Ask all of them to end, wait for that, and then ask after none; `now_s` is a clock in seconds."""
        for job in self._jobs:
            job.cancel()
        end_s = now_s() + PATIENCE_S  # for all of them at one time
        for job in self._jobs:
            job.wait(max(0.0, end_s - now_s()))
        self._jobs = []  # what they tell might begin another


def wait_until_kept(
    keeping: Iterable[Job[None]], now_s: Callable[[], float] = time.monotonic
) -> tuple[Job[None], ...]:
    """Wait for jobs that keep changes while the window goes, for all of them at one time, and tell each.

    Returns those that did not end in time.

    Parameters
    ----------
    now_s : a clock in seconds.
    """
    end_s = now_s() + KEEPING_LIMIT_S
    late = []
    for job in keeping:
        job.wait(max(0.0, end_s - now_s()))
        if not job.poll():
            log.error("changes were not kept within %g s", KEEPING_LIMIT_S)
            late.append(job)
    return tuple(late)
