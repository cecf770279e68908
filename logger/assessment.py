"""The live assessment: what the run shows so far, at a cost that does not grow with its length."""

from __future__ import annotations

import threading
from collections.abc import Iterable

from drivers.samples import Samples
from logger.analysis.evidence import UNUSABLE
from logger.assessment_view import AssessmentView, look_at
from logger.bench_tables import Bench
from logger.live_run import LiveRun
from logger.moments import Moment

__all__ = ["Assessment"]


class Assessment:
    """Follows a run: a listener of it, and the model of whatever shows it.

    `add` is called on the recorder's thread, `set_moments` and `view` on any other. One lock guards all: each
    call takes milliseconds, and the parts belong together. The heavier judgements are made in `add`, every
    few run seconds; `view` only puts together what is known.

    Parameters
    ----------
    bench : what stands on the table; where it is silent, the same is assumed as in the findings.
    channel : name of the channel with the cell voltage; other channels are ignored.
    speed : run seconds per second of the computer.
    """

    def __init__(self, bench: Bench | None = None, channel: str = "cell_voltage", speed: float = 1.0) -> None:
        self._channel = channel
        self._lock = threading.Lock()
        self._run = LiveRun(bench or Bench(), speed)

    def add(self, samples: Samples) -> None:
        """Take one block of samples of any channel."""
        if samples.channel != self._channel:
            return
        usable = (samples.quality & UNUSABLE) == 0
        times_s, shown_V = samples.times_s[usable], samples.values[usable]
        if times_s.size:
            with self._lock:
                self._run.add(times_s, shown_V)

    def set_moments(self, moments: Iterable[Moment]) -> None:
        """Replace the moments of the run."""
        with self._lock:
            self._run.set_moments(moments)

    def view(self, now_s: float) -> AssessmentView:
        """Return what the run shows at run time `now_s`."""
        with self._lock:
            return look_at(self._run, now_s)
