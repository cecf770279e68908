"""A recording played again as a source: ``replay:FILE.h5?speed=10``."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

import numpy as np

from drivers.address import Address
from drivers.channel_options import ChannelOptions
from drivers.errors import CannotOpen, SourceEnded, SourceLost
from drivers.replay_file import DamagedRecording, RecordedChannel, ReplayFile
from drivers.run_clock import RunClock
from drivers.samples import Delivery, Notice, Samples, TaggedMoment
from drivers.source import Channel, Instrument, Source

__all__ = ["ReplaySource"]

SLICE = 50_000  # samples of one channel held in memory, and at most delivered at once
DELIVERY_EVERY_S = 0.02  # host seconds: more often would only cost
LONGEST_BLOCK_S = 0.1  # host seconds' worth in one delivery, when the reader is late
_OF_ONE_CHANNEL = ("role", "scale", "offset")


class ReplaySource(Source):
    """Delivers the samples and moments of a finished recording as the run's clock passes their times.

    ``channel`` picks one channel of the recording; without it all are replayed. ``role``, ``scale`` and
    ``offset`` belong to one channel; the last two act on top of what the recording holds. A reader that
    comes late gets everything it missed, in bounded blocks. The end of the recording is `SourceEnded`.
    """

    def __init__(self, address: Address) -> None:
        super().__init__(address)
        self._options = ChannelOptions.from_address(address)
        self._speed = address.number("speed", 1.0, low=1.0, high=10_000.0)
        self._file: ReplayFile | None = None
        self._clock: RunClock | None = None
        self._was_open = False
        self._cursors: tuple[_Cursor, ...] = ()
        self._channels: tuple[Channel, ...] = ()
        self._moments: list[TaggedMoment] = []
        self._identity = ""
        self._details: Mapping[str, str | float] = {}
        self._delivered_s = -math.inf
        self._notices: tuple[Notice, ...] = ()

    @property
    def channels(self) -> tuple[Channel, ...]:
        """The replayed channels, under the names of the recording; none before the first `open`."""
        return self._channels

    @property
    def speed(self) -> float:
        """Run seconds per host second, as the address asks."""
        return self._speed

    @property
    def instrument(self) -> Instrument:
        """The recording, and in the details who measured it first."""
        return Instrument(
            address=self.address.text,
            identity=self._identity,
            clock={"method": "times of the replayed recording"},
            calibration=self._options.calibration,
            details=self._details,
        )

    def open(self, clock: RunClock) -> None:
        """Start the recording with the run, or go on in it where the run is by now.

        Raises
        ------
        CannotOpen : the file is missing or no recording, or has not the one channel that was asked for.
        """
        self.close()
        file = ReplayFile(Path(self.address.port).expanduser())
        try:
            recorded = self._choose(file)
            if self._was_open:
                self._go_on(recorded, clock.now_s())
            else:
                self._begin(file, recorded)
        except DamagedRecording as error:
            file.close()
            raise CannotOpen(
                f"{self.address.text}: the recording is damaged: {error}; see galvanote check "
                f"{self.address.port}"
            ) from error
        except CannotOpen:
            file.close()
            raise
        self._file, self._clock, self._was_open = file, clock, True

    def read(self, timeout_s: float) -> Delivery:
        """Return the samples and moments whose times have passed; see `Source.read`."""
        clock = self._clock
        if clock is None:
            raise SourceLost(f"{self.address.text}: the recording is not open; open it (again) to read")
        try:
            next_s = self._next_s()
            if next_s == math.inf:
                raise SourceEnded(f"{self.address.text}: the recording is over")
            until_s = max(next_s, self._delivered_s + DELIVERY_EVERY_S * clock.speed)
            clock.sleep_s(min(until_s - clock.now_s(), timeout_s * clock.speed))
            now_s = clock.now_s()
            delivery = self._take(min(now_s, next_s + LONGEST_BLOCK_S * clock.speed))
        except DamagedRecording as error:
            self.close()
            raise SourceLost(
                f"{self.address.text}: the recording is damaged: {error}; see galvanote check "
                f"{self.address.port}. Opened again, it goes on behind the damage when the run has got there"
            ) from error
        if delivery.samples or delivery.moments:
            self._delivered_s = now_s
        notices, self._notices = self._notices, ()
        return replace(delivery, notices=notices) if notices else delivery

    def close(self) -> None:
        """Close the file; the run's clock goes on without being read."""
        self._clock = None
        if self._file is not None:
            self._file.close()
            self._file = None

    def _choose(self, file: ReplayFile) -> tuple[RecordedChannel, ...]:
        """Return the channels to replay, all or the one that the address names."""
        names = ", ".join(recorded.channel.name for recorded in file.channels)
        wanted = self.address.options.get("channel")
        chosen = tuple(c for c in file.channels if wanted in (None, c.channel.name))
        if not chosen:
            raise CannotOpen(f"{self.address.text}: the recording has no channel {wanted} (it has {names})")
        if len(chosen) > 1 and any(key in self.address.options for key in _OF_ONE_CHANNEL):
            raise CannotOpen(
                f"{self.address.text}: role, scale and offset belong to one channel, and the recording has "
                f"several; add channel= and one of {names}"
            )
        return chosen

    def _begin(self, file: ReplayFile, recorded: tuple[RecordedChannel, ...]) -> None:
        self._cursors = tuple(_Cursor(one) for one in recorded)
        role = self.address.options.get("role")
        channels = (one.channel for one in recorded)
        self._channels = tuple(replace(channel, role=role or channel.role) for channel in channels)
        self._moments = list(file.moments)
        if file.pictures:
            text = (
                f"{self.address.text}: pictures attached to moments are not replayed ({file.pictures} of "
                "them); they stay in the recording"
            )
            self._notices = (Notice("pictures", text),)
        self._identity = f"replay of {file.title or self.address.port}, recorded {file.start_time}"
        self._details = {"name": self._options.name} if self._options.name else {}
        for one in recorded:
            self._details = {**file.origin[one.channel.name], **self._details}

    def _go_on(self, recorded: tuple[RecordedChannel, ...], now_s: float) -> None:
        names = [one.channel.name for one in recorded]
        if names != [channel.name for channel in self._channels]:
            raise CannotOpen(f"{self.address.text}: the file has changed its channels since the run began")
        for cursor, one in zip(self._cursors, recorded, strict=True):
            cursor.go_on(one, now_s)

    def _next_s(self) -> float:
        """Return the time of what comes next, infinity when nothing does."""
        times_s = [cursor.next_s() for cursor in self._cursors]
        return min([*times_s, self._moments[0].time_s if self._moments else math.inf])

    def _take(self, until_s: float) -> Delivery:
        blocks = [block for cursor in self._cursors if (block := cursor.take(until_s)) is not None]
        # A moment may not overtake samples that did not fit into this delivery.
        until_s = min([until_s, *(cursor.known_until_s() for cursor in self._cursors)])
        moments = tuple(moment for moment in self._moments if moment.time_s <= until_s)
        del self._moments[: len(moments)]
        return Delivery(tuple(self._calibrated(block) for block in blocks), (), moments)

    def _calibrated(self, block: Samples) -> Samples:
        return replace(block, values=self._options.apply(block.values))


class _Cursor:
    """A place in a recorded channel, with the slice of samples around it."""

    def __init__(self, recorded: RecordedChannel) -> None:
        self._recorded = recorded
        self._number = 0
        self._last_s = -math.inf
        self._slice: Samples | None = None
        self._slice_begin = 0

    def go_on(self, recorded: RecordedChannel, now_s: float) -> None:
        """Continue in the file as opened again, at `now_s` or where the cursor was, whichever is later."""
        self._recorded = recorded
        self._number = max(self._number, recorded.first_at_or_after(now_s))
        self._slice = None

    def next_s(self) -> float:
        """Return the time of the next sample, infinity at the end of the channel."""
        if self._number >= len(self._recorded):
            return math.inf
        block = self._loaded()
        return float(block.times_s[self._number - self._slice_begin])

    def known_until_s(self) -> float:
        """Return up to when all samples were taken, without reading on in the file."""
        if self._number >= len(self._recorded):
            return math.inf
        block = self._slice
        if block is None or self._number >= self._slice_begin + len(block):
            return self._last_s
        return float(block.times_s[self._number - self._slice_begin])

    def take(self, until_s: float) -> Samples | None:
        """Return the next samples up to `until_s`, at most the rest of the slice; None if there are none."""
        if self.next_s() > until_s:
            return None
        block = self._loaded()
        begin = self._number - self._slice_begin
        end = int(np.searchsorted(block.times_s, until_s, side="right"))
        self._number = self._slice_begin + end
        self._last_s = float(block.times_s[end - 1])
        return Samples(
            block.channel, block.times_s[begin:end], block.values[begin:end], block.quality[begin:end]
        )

    def _loaded(self) -> Samples:
        block = self._slice
        if block is None or self._number >= self._slice_begin + len(block):
            end = min(self._number + SLICE, len(self._recorded))
            block = self._recorded.samples(self._number, end)
            if block.times_s[0] < self._last_s:
                raise DamagedRecording(f"the time goes back at sample {self._number}")
            self._slice, self._slice_begin = block, self._number
        return block
