"""An analysis tells how far it is and ends where it is asked to; it never takes that for a finding."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from logger.analysis.findings import findings
from logger.analysis.readings import PIECE
from logger.analysis.run_analysis import analyse_run
from logger.export.formats import FORMATS, Choices, export
from logger.progress import Cancelled, Progress
from logger.reanalysis import analyse_again
from tests.logger.simulated_run import lesson


@pytest.fixture(scope="module")
def run():
    """A lesson stretched to five pieces of readings."""
    short, _ = lesson()
    (channel,) = short.channels
    times_s = np.linspace(channel.times_s[0], channel.times_s[-1], 5 * PIECE)
    nearest = np.searchsorted(channel.times_s, times_s)
    values, quality = channel.values[nearest], channel.quality[nearest]
    return replace(short, channels=(replace(channel, times_s=times_s, values=values, quality=quality),))


def shares_of(work):
    shares = []
    work(Progress(shares.append))
    return shares


class StopsAt(Progress):
    """Told to stop once it has been told of so many steps."""

    def __init__(self, step):
        super().__init__(self._count)
        self._left = step

    def _count(self, _share):
        self._left -= 1
        if self._left <= 0:
            self.cancel()


def test_it_tells_how_far_it_is_piece_by_piece(run):
    shares = shares_of(lambda progress: analyse_run(run, progress=progress))
    assert shares == sorted(shares)
    assert (shares[0], shares[-1]) == (0.0, 1.0)
    assert len(shares) >= 5 + 4  # each piece of the longest part, and the steps around it


def test_it_finds_the_same_with_and_without(run):
    assert findings(run) == findings(run, progress=Progress())


@pytest.mark.parametrize("step", range(1, 10))
def test_it_ends_at_its_next_step(run, step):
    with pytest.raises(Cancelled):
        findings(run, progress=StopsAt(step))
    with pytest.raises(Cancelled):
        analyse_again(run, {}, progress=StopsAt(step))


@pytest.mark.parametrize("ending", [".svg", ".html", ".xlsx"])
def test_an_export_can_be_ended_in_the_midst_of_its_analysis(run, tmp_path, ending):
    assert ending in FORMATS
    for step in (2, 5, 8):
        with pytest.raises(Cancelled):
            export(lambda: run, tmp_path / f"a{ending}", Choices(), StopsAt(step))
    assert list(tmp_path.iterdir()) == []
