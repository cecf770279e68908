"""Recordings of simulated lessons, made in memory for the tests of analysis and assessment."""

from pathlib import Path

import numpy as np

from drivers.simulated.cell import LessonCell
from logger.moments import new_moment
from logger.recording import ChannelData, Recording

BENCH = """
title = "invented"
[supply]
stack_voltage_V = 27.0
internal_resistance_ohm = 6.0
resistor_ohm = 12000
resistor_tolerance_percent = 5.0
[cell]
anode_area_cm2 = 2.0
temperature_C = 22.0
pressure_kPa = 101.325
[meter]
resolution_V = 0.001
accuracy_percent_of_reading = 0.5
accuracy_counts = 2
input_resistance_ohm = 10e6
"""


def channel(times_s, values, *, name="cell_voltage", role="cell_voltage", unit="V", quality=None):
    """A channel of a recording."""
    times = np.asarray(times_s, dtype=np.float64)
    flags = np.zeros(times.size, dtype=np.uint8) if quality is None else np.asarray(quality, dtype=np.uint8)
    return ChannelData(name, role, unit, times, np.asarray(values, dtype=np.float64), flags)


def recording(*channels, moments=(), bench=BENCH, duration_s=None, gaps=()):
    """A recording of given channels; `moments` are (time, kind) or (time, kind, label)."""
    ends = [one.times_s[-1] for one in channels if one.times_s.size]
    return Recording(
        path=Path("run.h5"),
        uuid="0" * 32,
        title="invented",
        start_time="2024-05-14T10:00:00.000+02:00",
        end_time=None,
        time_zone="Europe/Berlin",
        duration_s=max(ends, default=0.0) if duration_s is None else duration_s,
        channels=tuple(channels),
        moments=tuple(sorted((new_moment(*one) for one in moments), key=lambda one: one.time_s)),
        gaps=gaps,
        bench_toml=bench,
    )


def readings(cell, *, rate=2.5, until_s=None, phase_s=0.1):
    """Times and readings of a whole simulated lesson; lost readings are left out."""
    end_s = cell.duration_s if until_s is None else until_s
    times = phase_s + np.arange(int((end_s - phase_s) * rate)) / rate
    volts = cell.block(times)
    kept = np.isfinite(volts)
    return times[kept], volts[kept]


def lesson(
    seed=0, *, lesson="demo", noise="lesson", faults=(), rate=2.5, tagged=True, bench=BENCH, until_s=None
):
    """A recording of a simulated lesson, and the cell with its truth."""
    cell = LessonCell(lesson, seed, noise, faults)
    times, volts = readings(cell, rate=rate, until_s=until_s)
    tags = [(one.time_s, one.kind, one.label) for one in cell.moments] if tagged else []
    if until_s is not None:
        tags = [one for one in tags if one[0] <= until_s]
    return recording(channel(times, volts), moments=tags, bench=bench), cell
