"""A finished recording, read slice by slice, so that a day of fast samples needs little memory."""

from __future__ import annotations

import bisect
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import h5py
import numpy as np
from numpy.typing import NDArray

from drivers.errors import CannotOpen
from drivers.samples import ROLES, Samples, TaggedMoment
from drivers.source import Channel

__all__ = ["DamagedRecording", "RecordedChannel", "ReplayFile"]


class DamagedRecording(Exception):
    """The file is a recording, but these samples of it cannot be read or break its rules."""


class RecordedChannel:
    """One channel of an open recording."""

    def __init__(self, name: str, group: h5py.Group) -> None:
        self._times = _dataset(group, "time", "f")
        self._values = _dataset(group, "value", "fiu")
        self._quality = _dataset(group, "quality", "iu")
        if not self._times.shape == self._values.shape == self._quality.shape:
            raise DamagedRecording(f"time, value and quality of channel {name} differ in length")
        role = _as_text(group.attrs["role"])
        unit = _as_text(self._values.attrs.get("units", "V"))
        self.channel = Channel(name, role if role in ROLES else "other", unit)

    def __len__(self) -> int:
        return int(self._times.size)

    def time_s(self, number: int) -> float:
        """Return the time of one sample.

        Raises
        ------
        DamagedRecording : it cannot be read.
        """
        try:
            return float(self._times[number])
        except OSError as error:
            raise DamagedRecording(f"the time of sample {number} cannot be read ({error})") from error

    def first_at_or_after(self, time_s: float) -> int:
        """Return the number of the first sample not before `time_s`, reading but a few of them."""
        return bisect.bisect_left(range(len(self)), time_s, key=self.time_s)

    def samples(self, begin: int, end: int) -> Samples:
        """Return samples number `begin` to `end` - 1 as they were recorded.

        Raises
        ------
        DamagedRecording : they cannot be read, their times go back, or a value is no number.
        """
        try:
            times_s = np.asarray(self._times[begin:end], dtype=np.float64)
            values = np.asarray(self._values[begin:end], dtype=np.float64)
            quality = np.asarray(self._quality[begin:end], dtype=np.uint8)
        except OSError as error:
            raise DamagedRecording(f"samples {begin} to {end - 1} cannot be read ({error})") from error
        if not np.isfinite(times_s).all() or (np.diff(times_s) < 0).any() or np.isnan(values).any():
            raise DamagedRecording(
                f"samples {begin} to {end - 1} hold a time that goes back or something that is no number"
            )
        return Samples(self.channel.name, times_s, values, quality)


class ReplayFile:
    """An open recording: its channels, its moments and what is known of it.

    Raises
    ------
    CannotOpen : the file is missing, may not be read, is no finished recording, or a damaged one.
    """

    def __init__(self, path: Path) -> None:
        self._path = path
        try:
            self._file = h5py.File(path, "r")
        except OSError as error:
            raise self._refusal(error) from error
        try:
            self._read_in()
        except CannotOpen:  # itself an OSError, so it must come first
            self.close()
            raise
        except (DamagedRecording, OSError, KeyError, ValueError, TypeError, RuntimeError) as error:
            self.close()
            raise CannotOpen(
                f"cannot replay {path}: it is no whole recording ({error}); see galvanote check {path}"
            ) from error

    def close(self) -> None:
        """Close the file. May be called twice."""
        self._file.close()

    def _read_in(self) -> None:
        run = self._file.get("run")
        if not isinstance(run, h5py.Group) or not isinstance(run.get("start_time"), h5py.Dataset):
            raise CannotOpen(
                f"cannot replay {self._path}: it is an HDF5 file, but no recording (it has no "
                "/run/start_time); give a file that galvanote recorded or imported"
            )
        self.title = _text(run, "title")
        self.start_time = _text(run, "start_time")
        default = _as_text(run.attrs.get("default", ""))
        names = sorted((name for name in run if _is_channel(run, name)), key=lambda name: name != default)
        self.channels = tuple(RecordedChannel(name, run[name]) for name in names)
        if not self.channels:
            raise CannotOpen(f"cannot replay {self._path}: the recording has no channel")
        self.moments = tuple(sorted(_moments(run), key=lambda moment: moment.time_s))
        pictures = run.get("attachments")
        self.pictures = len(pictures) if isinstance(pictures, h5py.Group) else 0
        self.origin = {c.channel.name: _origin(run, c.channel.name) for c in self.channels}

    def _refusal(self, error: OSError) -> CannotOpen:
        if isinstance(error, FileNotFoundError):
            return CannotOpen(f"cannot replay {self._path}: there is no such file; check the name")
        if isinstance(error, PermissionError):
            return CannotOpen(f"cannot replay {self._path}: it may not be read; check its permissions")
        return CannotOpen(
            f"cannot replay {self._path}: it is not an HDF5 file, or not a whole one; a run that was "
            "cut off is finished with galvanote recover"
        )


def _is_channel(run: h5py.Group, name: str) -> bool:
    if not isinstance(run.get(name, getlink=True), h5py.HardLink):  # never follow a link to another file
        return False
    group = run[name]
    return isinstance(group, h5py.Group) and "role" in group.attrs and "time" in group and "value" in group


def _dataset(group: h5py.Group, name: str, kinds: str) -> h5py.Dataset:
    """Return a one-dimensional dataset of numbers that lies in this very file."""
    item = group[name] if isinstance(group.get(name, getlink=True), h5py.HardLink) else None
    if not isinstance(item, h5py.Dataset) or item.ndim != 1 or item.dtype.kind not in kinds or item.external:
        raise DamagedRecording(f"{group.name}/{name} is missing or is not a column of numbers")
    return item


def _moments(run: h5py.Group) -> list[TaggedMoment]:
    group = run.get("moments")
    if not isinstance(group, h5py.Group):
        return []
    times_s: NDArray[np.float64] = np.asarray(group["time"][()], dtype=np.float64)
    kinds, labels = (map(_as_text, group[name][()]) for name in ("kind", "label"))
    moments = zip(times_s.tolist(), kinds, labels, strict=True)
    return [TaggedMoment(time_s, kind, label) for time_s, kind, label in moments]


def _origin(run: h5py.Group, channel: str) -> Mapping[str, str | float]:
    """Return who measured a channel first, and, if it was the simulated cell, its truth."""
    sensor = run.get(f"instrument/{channel}")
    if not isinstance(sensor, h5py.Group):
        return {}
    origin: dict[str, str | float] = {
        f"original_{name}": _text(sensor, name) for name in ("address", "identity") if name in sensor
    }
    details = sensor.get("details")
    if isinstance(details, h5py.Group):
        if "original_address" in details:  # a replay of a replay
            origin["original_address"] = _text(details, "original_address")
        for name, item in details.items():
            if name.startswith("truth_") and isinstance(item, h5py.Dataset) and item.shape == ():
                origin[name] = float(item[()])
    return origin


def _text(group: h5py.Group, name: str) -> str:
    return _as_text(group[name][()]) if name in group else ""


def _as_text(value: Any) -> str:
    return value.decode("utf-8", "replace") if isinstance(value, bytes) else str(value)
