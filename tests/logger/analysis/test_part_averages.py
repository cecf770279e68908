"""Averages over parts of a run are made once."""

import numpy as np

from logger.analysis.part_averages import PartAverages
from logger.analysis.readings import Between


class Counted:
    """An array that counts how often slices of it are taken."""

    def __init__(self, values):
        self.values, self.size, self.taken = values, values.size, 0

    def __getitem__(self, part):
        self.taken += 1
        return self.values[part]


def test_what_was_averaged_once_is_not_read_again():
    times = np.arange(0.0, 100.0, 0.1)
    volts = Counted(2.0 + 0.001 * np.sin(times))
    usable = Between(times, volts, slice(100, 900), 1.0, 4.0)
    averages = PartAverages()
    first = averages.of(usable, 50)
    before = volts.taken
    again = averages.of(Between(times, volts, slice(100, 900), 1.0, 4.0), 50)
    assert volts.taken == before > 0
    assert np.array_equal(first.values, again.values)
    assert len(averages.of(usable, 20)) < len(again)
    assert volts.taken > before
