"""Handheld meters that send frames unasked: ``lcd14``, ``ascii14``, ``digit11``, ``digit14``, ``stx16``."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np

from drivers.address import Address
from drivers.channel_options import ChannelOptions
from drivers.errors import AddressError, SourceLost
from drivers.formats.frame import FrameDecoder, FrameFormat, FrameReading
from drivers.formats.handheld import HANDHELD_FORMATS
from drivers.frame_judge import LoneOutliers, RepeatWatch, TimedReading
from drivers.link import Link, OpenPort, open_port
from drivers.notice_limit import NoticeLimit
from drivers.run_clock import RunClock
from drivers.samples import Delivery, Notice, Quality, Samples
from drivers.source import Channel, Instrument, Source
from drivers.transmission import Transmission

__all__ = ["FrameSource"]

_HALF_CONVERSION_S = 0.175  # unknown, 0.1 to 0.25 s
_UNCERTAINTY_S = 0.3
_LONGEST_HOLD_S = 1.5
_PERIODS_TO_HOLD = 2
_PERIODS_OF_SILENCE = 10
_MARKS = (
    (
        Quality.HOLD,
        "held",
        "The meter's display is held (HOLD, MAX or MIN): its readings are kept but marked. Press that key "
        "again.",
    ),
    (
        Quality.LOW_BATTERY,
        "low_battery",
        "The meter says that its battery is low. Change it: readings may be off.",
    ),
    (
        Quality.PARITY,
        "parity",
        "Bytes arrive damaged (wrong parity); those readings are kept but marked. Check the cable, and keep "
        "bright light off an optical one.",
    ),
)


class FrameSource(Source):
    """Readings of a meter that sends by itself (see `drivers.source.Source`).

    A reading is true half a conversion before its frame leaves; how long a conversion takes is not known, so
    times are uncertain by 0.3 s. A reading that jumps waits for the next one before it is delivered, so that
    a lone damaged frame can be marked (`drivers.frame_judge`). Readings from before the run began are not
    part of it.

    Parameters
    ----------
    address : ``KIND:PORT``; keys ``baud`` (by kind), for ``digit11`` and ``stx16`` also ``column`` (see
        `drivers.formats.handheld`), and those of a channel.
    opener : opens the port; a fake in tests.
    """

    def __init__(self, address: Address, *, opener: OpenPort = open_port) -> None:
        super().__init__(address)
        self._options = ChannelOptions.from_address(address)
        self._format = _find_format(address)
        baud = address.integer("baud", self._format.baud, low=50, high=12_000_000)
        self._link = Link(address.port, baud, opener=opener)
        self._clock: RunClock | None = None
        self._run: RunClock | None = None  # stays after close: times go on in the same run
        self._limit = NoticeLimit()
        self._details: dict[str, str | float] = {}
        self._counts = {"refused": 0, "parity_errors": 0, "repeats": 0, "suspects": 0}
        self._has_asked = not self._format.doubt
        self._last_s = 0.0
        self._transmission = Transmission(self._format.length)
        self._is_fresh = True
        self._forget()

    def _forget(self) -> None:
        """Begin with an empty line."""
        self._decoder = FrameDecoder(self._format)
        self._frames = 0
        self._repeats = RepeatWatch()
        self._outliers = LoneOutliers()

    @property
    def channels(self) -> tuple[Channel, ...]:
        """The one channel that the meter fills."""
        return (self._options.channel,)

    @property
    def instrument(self) -> Instrument:
        """What the address says, how times are made, and what was counted so far."""
        details: dict[str, str | float] = dict(self._details)
        if "column" in self.address.options:
            details["column"] = self.address.options["column"]
        if self._format.doubt:
            details["from_memory"] = self._format.doubt
        if self._options.name:
            details["name"] = self._options.name
        return Instrument(
            address=self.address.text,
            clock={
                "method": "arrival, less the time on the line and half a conversion",
                "uncertainty_s": _UNCERTAINTY_S,
            },
            calibration=self._options.calibration,
            details={**details, **{name: float(count) for name, count in self._counts.items()}},
        )

    def open(self, clock: RunClock) -> None:
        """Open the port, with the modem lines as optical cables usually need them; nothing is sent.

        Raises
        ------
        CannotOpen : no such port.
        """
        self.close()
        self._link.open(clock)
        self._set_lines()
        self._details = dict(self._link.details())
        if clock is not self._run:
            self._last_s = 0.0
        self._clock = self._run = clock
        self._is_fresh = True

    def read(self, timeout_s: float) -> Delivery:
        """Return the readings of the frames that have arrived; see `Source.read`."""
        if self._clock is None:
            raise SourceLost(f"{self.address.text} is not open. Open it first.")
        if self._is_fresh:
            self._link.drain()  # nothing tells when this arrived
            self._forget()
            self._transmission.begin(self._clock.now_s())
            self._is_fresh = False
        try:
            data, arrived_s = self._link.read(timeout_s)
        except SourceLost:
            waiting = self._outliers.flush()
            if not waiting:
                raise
            return Delivery(samples=self._block(waiting))  # the next read fails again
        readings = self._decoder.feed(data)
        self._transmission.hear(len(data), self._decoder.frames - self._frames, arrived_s)
        self._frames = self._decoder.frames
        return self._judge(readings, arrived_s)

    def close(self) -> None:
        """Close the port."""
        self._link.close()
        self._clock = None

    def _set_lines(self) -> None:
        dtr, rts = self._transmission.lines
        self._link.set_control_lines(dtr=dtr, rts=rts)

    def _judge(self, readings: list[FrameReading], arrived_s: float) -> Delivery:
        """Turn the readings of one arrival into a delivery."""
        judged: list[TimedReading] = []
        notices: list[Notice] = []
        # Several conversions at once: they have waited somewhere, nobody knows how long.
        has_waited = self._repeats.period_s is not None and len({reading.raw for reading in readings}) > 1
        for reading in readings:
            notices += self._notices_about(reading, arrived_s)
            if has_waited:
                reading = replace(reading, quality=reading.quality | Quality.TIME_UNCERTAIN)
            if reading.value is None:
                self._counts["refused"] += 1
                judged += self._outliers.flush()
            else:
                judged += self._take(reading, reading.value, arrived_s)
        if (
            self._outliers.held is not None
            and arrived_s - self._outliers.held.time_s > self._longest_hold_s()
        ):
            judged += self._outliers.flush()
        notices += self._line_notices(arrived_s)
        return Delivery(samples=self._block(judged), notices=tuple(notices))

    def _take(self, reading: FrameReading, value_V: float, arrived_s: float) -> list[TimedReading]:
        bytes_back = reading.bytes_after + self._format.length
        time_s = arrived_s - bytes_back * self._link.byte_time_s - _HALF_CONVERSION_S
        quality = reading.quality
        if self._repeats.is_repeat(reading.raw, time_s):
            quality |= Quality.REPEAT
            self._counts["repeats"] += 1
        elif self._repeats.came_early:
            quality |= Quality.TIME_UNCERTAIN
        elif self._repeats.period_s is not None:
            self.silent_after_s = max(Source.silent_after_s, _PERIODS_OF_SILENCE * self._repeats.period_s)
        if quality & Quality.PARITY:
            self._counts["parity_errors"] += 1
        if time_s < 0:
            return []
        if time_s < self._last_s:
            time_s = self._last_s
            quality |= Quality.TIME_UNCERTAIN
        self._last_s = time_s
        return self._outliers.feed(TimedReading(time_s, value_V, reading.step_V, quality))

    def _longest_hold_s(self) -> float:
        period_s = self._repeats.period_s
        return _LONGEST_HOLD_S if period_s is None else max(_LONGEST_HOLD_S, _PERIODS_TO_HOLD * period_s)

    def _block(self, judged: list[TimedReading]) -> tuple[Samples, ...]:
        if not judged:
            return ()
        self._counts["suspects"] += sum(bool(one.quality & Quality.SUSPECT) for one in judged)
        return (
            Samples(
                channel=self._options.channel.name,
                times_s=np.array([one.time_s for one in judged]),
                values=self._options.apply(np.array([one.value_V for one in judged])),
                quality=np.array([one.quality for one in judged], dtype=np.uint8),
            ),
        )

    def _notices_about(self, reading: FrameReading, now_s: float) -> list[Notice]:
        notices: list[Notice] = []
        if reading.code:
            is_refusal = reading.value is None
            notices += self._limit.pass_on(reading.code, reading.text, now_s, is_refusal=is_refusal)
        if reading.value is None:
            return notices
        for mark, code, text in _MARKS:
            if reading.quality & mark:
                notices += self._limit.pass_on(code, text, now_s)
        if not self._has_asked and math.isfinite(reading.value):
            self._has_asked = True
            notices.append(
                Notice(
                    "compare_display",
                    f"How a meter of the kind {self.address.kind} sends ({self._format.doubt}) is known from "
                    f"memory only. Compare once: does the display show {reading.shown}?",
                )
            )
        return notices

    def _line_notices(self, now_s: float) -> tuple[Notice, ...]:
        """Care for a line from which no frames come, and say so."""
        if self._transmission.changes_lines(now_s):
            self._set_lines()
        if self._transmission.is_not_understood(now_s):
            return self._limit.pass_on("not_understood", self._not_understood(), now_s, is_refusal=True)
        hint = self._transmission.silence_hint(self.address.port, self.silent_after_s, now_s)
        return (Notice("no_transmission", hint),) if hint else ()

    def _not_understood(self) -> str:
        speed = f"the speed of {self._link.baud} baud may be wrong (add baud= to the address), or "
        return (
            f"Data arrive from {self.address.port} but hold no {self.address.kind} frame: "
            f"{speed if self._link.byte_time_s else ''}the meter may be of another kind (galvanote sources)."
        )


def _find_format(address: Address) -> FrameFormat:
    choices = HANDHELD_FORMATS[address.kind]
    column = address.options.get("column", "")
    if column not in choices:
        known = " or ".join(f"column={name}" for name in choices if name)
        raise AddressError(
            f"{address.text}: a {address.kind} meter has no column {column!r}; write {known}, or leave it out"
        )
    return choices[column]
