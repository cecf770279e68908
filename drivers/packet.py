"""A board that sends packets: many samples at once, numbered, checked, and with the board's own time."""

from __future__ import annotations

import dataclasses
import math

import numpy as np

from drivers.address import Address
from drivers.errors import CannotOpen, NotReadable, SourceLost, SourceRefused
from drivers.formats.packet import BoardInfo, Flag
from drivers.formats.packet_stream import PacketBatch, PacketDecoder, PacketRun
from drivers.link import Link, OpenPort, open_port
from drivers.notice_limit import NoticeLimit
from drivers.packet_channels import ChannelPlan
from drivers.packet_ticks import Losses
from drivers.packet_times import LostStretch, PacketTimes, TimedRun
from drivers.packet_values import Converter, packet_quality
from drivers.run_clock import RunClock
from drivers.samples import Delivery, MissingStretch, Notice, Quality, Samples
from drivers.source import Channel, Instrument, Source

__all__ = ["PacketSource"]

_BAUD = 115200
_OPEN_WAIT_S = 4.0  # a boot loader runs 0.5 to 2 s, and info comes once a second
_INFO_WAIT_S = 1.3
_OPEN_SLICE_S = 0.25
_NOT_UNDERSTOOD_S = 3.0
_ENOUGH_BYTES = 64
_INTERVALS_OF_SILENCE = 10


class PacketSource(Source):
    """Samples of a board that sends packets (see `drivers.source.Source`); all its inputs, or those named.

    Samples from before the run began are not part of it.

    Parameters
    ----------
    address : ``packet:PORT``; keys ``baud`` (115200), ``column`` and those of a channel, which may be lists
        (`drivers.packet_channels`).
    opener : opens the port; a fake in tests.
    """

    def __init__(self, address: Address, *, opener: OpenPort = open_port) -> None:
        super().__init__(address)
        self._plan = ChannelPlan(address)
        self._channels = self._plan.fixed
        baud = address.integer("baud", _BAUD, low=50, high=12_000_000)
        self._link = Link(address.port, baud, opener=opener)
        self._clock: RunClock | None = None
        self._run: RunClock | None = None  # stays after close: times go on in the same run
        self._limit = NoticeLimit()
        self._details: dict[str, str | float] = {}
        self._greeting: list[str] = []
        self._converter = Converter()
        self._times = PacketTimes()
        self._damaged = 0
        self._floor_s = -math.inf  # of times: what was delivered before
        self._listen_anew(0.0)

    def _listen_anew(self, now_s: float) -> None:
        """Begin with an empty line; what is known of the board stays."""
        self._decoder = PacketDecoder()
        self._is_fresh = True
        self._packet_s = now_s

    @property
    def channels(self) -> tuple[Channel, ...]:
        """One for each input that is recorded."""
        return tuple(one.options.channel for one in self._channels or ())

    @property
    def instrument(self) -> Instrument:
        """The board's greeting as identity, what it declares of itself, and what was counted so far."""
        losses = self._times.losses
        details: dict[str, str | float] = {
            **self._details,
            "crc_errors": float(self._damaged),
            "dropped": float(losses.packets),
            "dropped_samples": float(losses.samples),
            "duplicates": float(losses.duplicates),
            "restarts": float(losses.restarts),
        }
        if self._times.rate_per_s is not None:
            details["rate_per_s"] = self._times.rate_per_s
        if self._converter.info is not None:
            details["dropped_by_board"] = float(self._converter.info.dropped)
        if "name" in self.address.options:
            details["name"] = self.address.options["name"]
        return Instrument(
            address=self.address.text,
            identity="\n".join(self._greeting),
            clock=self._times.facts,
            calibration=self._calibration(),
            details=details,
        )

    def open(self, clock: RunClock) -> None:
        """Open the port. For the first time, listen to what the board samples, at most 4 s.

        Raises
        ------
        CannotOpen : no such port, or nothing comes from it.
        SourceRefused : what comes is no packets, or not from the inputs that the address names.
        """
        self.close()
        self._link.open(clock)
        self._floor_s = self._times.last_s if clock is self._run else -math.inf
        self._clock = self._run = clock
        self._listen_anew(clock.now_s())
        try:
            if self._channels is None or self._converter.info is None:
                self._listen(clock)
        except SourceLost as error:
            self.close()
            raise CannotOpen(str(error)) from error
        except BaseException:
            self.close()
            raise
        self._details = dict(self._link.details())

    def read(self, timeout_s: float) -> Delivery:
        """Return the samples of the packets that have arrived; see `Source.read`."""
        if self._clock is None:
            raise SourceLost(f"{self.address.text} is not open. Open it first.")
        if self._is_fresh:
            self._begin(self._clock)
        data, arrived_s = self._link.read(timeout_s)
        batch = self._decoder.feed(data)
        notices = [*self._messages(batch, arrived_s)]
        before = dataclasses.replace(self._times.losses)
        samples: list[Samples] = []
        missing: list[MissingStretch] = []
        for run in batch.runs:
            arrivals_s = np.asarray(arrived_s - run.bytes_after * self._link.byte_time_s, np.float64)
            for timed in self._times.stamp(run, arrivals_s):
                samples += self._samples(timed)
                missing += self._missing(timed)
            notices += self._run_notices(run, arrived_s)
        notices += self._loss_notices(before, arrived_s)
        notices += self._health(sum(map(len, batch.runs)), bool(data), arrived_s)
        return Delivery(samples=tuple(samples), notices=tuple(notices), missing=tuple(missing))

    def close(self) -> None:
        """Close the port."""
        self._link.close()
        self._clock = None

    # ------------------------------------------------------------ opening

    def _listen(self, clock: RunClock) -> None:
        """Learn which inputs there are, how far samples are apart, and what the board declares."""
        scout = PacketTimes()
        begin_s = clock.now_s()
        first_s = math.inf
        mask = 0
        while clock.now_s() - begin_s < _OPEN_WAIT_S * clock.speed:
            data, now_s = self._link.read(_OPEN_SLICE_S)
            batch = self._decoder.feed(data)
            for info in batch.infos:
                self._learn(info)
            self._greeting += [text for text in batch.texts if text not in self._greeting]
            for run in batch.runs:
                mask |= run.mask
                scout.stamp(run, np.full(len(run), now_s))
                first_s = min(first_s, now_s)
            has_waited = now_s - first_s > _INFO_WAIT_S * clock.speed
            if scout.spacing and (self._converter.info is not None or has_waited):
                break
        self._times.declare_spacing(scout.spacing)
        if mask:
            self._channels = self._plan.choose(mask)
        elif self._decoder.bytes_taken >= _ENOUGH_BYTES:
            raise SourceRefused(self._not_understood())
        elif self._channels is None:
            raise NotReadable(
                f"Nothing arrives from {self.address.port}. Is the board on, and does its program send "
                "packets?"
            )

    def _begin(self, clock: RunClock) -> None:
        """Throw away what waits in the port, since nothing tells when it arrived, and follow from here."""
        self._link.drain()
        self._times.begin(self._floor_s)
        self._listen_anew(clock.now_s())
        self._is_fresh = False

    # ------------------------------------------------------------ samples

    def _samples(self, timed: TimedRun) -> list[Samples]:
        """Return the samples of one piece, channel by channel."""
        inputs = [number for number in range(8) if timed.run.mask >> number & 1]
        quality = np.repeat(packet_quality(timed.run, timed.is_sure), timed.times_s.shape[1])
        times_s, ticks = timed.times_s.ravel(), timed.ticks.ravel()
        blocks = []
        for channel in self._channels or ():
            if channel.number not in inputs:
                continue
            volts = self._converter.volts(timed.run, inputs.index(channel.number), channel.number).ravel()
            is_kept = (times_s >= 0) & ~np.isnan(volts)
            if is_kept.any():
                overload = np.isinf(volts) * np.uint8(Quality.OVERLOAD)
                blocks.append(
                    Samples(
                        channel=channel.options.channel.name,
                        times_s=times_s[is_kept],
                        values=channel.options.apply(volts[is_kept]),
                        quality=(quality | overload)[is_kept],
                        board_ticks=ticks[is_kept],
                    )
                )
        return blocks

    def _missing(self, timed: TimedRun) -> list[MissingStretch]:
        """Return what was lost within the run, for every channel that is recorded."""
        return [
            MissingStretch(
                channel.options.channel.name, max(lost.begin_s, 0.0), lost.end_s, _why_missing(lost)
            )
            for lost in timed.missing
            if lost.end_s > 0
            for channel in self._channels or ()
        ]

    def _calibration(self) -> dict[str, str | float]:
        """Return what turns codes at the converter into values, by channel where there are several."""
        facts: dict[str, str | float] = {}
        channels = self._channels or ()
        for channel in channels:
            prefix = f"{channel.options.channel.name}_" if len(channels) > 1 else ""
            own = {**channel.options.calibration, **self._converter.divider(channel.number)}
            facts |= {prefix + key: value for key, value in own.items()}
        return facts

    # ------------------------------------------------------------ what is said

    def _messages(self, batch: PacketBatch, now_s: float) -> list[Notice]:
        """Take what is no data."""
        notices: list[Notice] = []
        for info in batch.infos:
            change = self._learn(info)
            if change is not None:
                notices += self._limit.pass_on(change.code, change.text, now_s)
        for text in batch.texts:
            if text not in self._greeting:
                notices += self._limit.pass_on("board_says", f"The board says: {text}", now_s)
        if batch.damaged:
            self._damaged += batch.damaged
            text = f"Packets from {self.address.port} arrive damaged and are not used. Check cable and speed."
            notices += self._limit.pass_on("damaged", text, now_s, is_refusal=True)
        if batch.unknown:
            text = "Packets of an unknown form arrive. Is the board's program newer than this one?"
            notices += self._limit.pass_on("unknown_packets", text, now_s)
        return notices

    def _learn(self, info: BoardInfo) -> Notice | None:
        """Take what the board declares and return what that changes."""
        dropped = info.dropped - (self._converter.info.dropped if self._converter.info is not None else 0)
        has_changed = self._converter.learn(info)
        self._times.declare_tick(info.ticks_per_s)
        self._times.declare_spacing(float(info.sample_ticks))
        if has_changed:
            return Notice(
                "board_changed",
                f"The board on {self.address.port} declares other ranges or dividers than before. Readings "
                "from now on follow them.",
            )
        if dropped > 0:
            return Notice(
                "board_dropped",
                f"The board dropped {dropped} samples before it could send them. Lower its rate.",
            )
        return None

    def _run_notices(self, run: PacketRun, now_s: float) -> list[Notice]:
        notices: list[Notice] = []
        flags = int(np.bitwise_or.reduce(run.flags))
        if flags & Flag.OVERFLOW:
            text = "The board's buffer was full; samples were lost. Lower its rate or raise the line's speed."
            notices += self._limit.pass_on("board_overflow", text, now_s)
        if flags & Flag.SENSOR_ERROR:
            text = "The board's converter did not answer; readings around that are marked. Check its wiring."
            notices += self._limit.pass_on("sensor_error", text, now_s)
        unknown = self._converter.unknown_ranges(run.range_code)
        if unknown:
            text = f"Not recorded: the board uses range {unknown[0]}, and nothing tells what it is in volts."
            notices += self._limit.pass_on("unknown_range", text, now_s, is_refusal=True)
        recorded = sum(1 << channel.number for channel in self._channels or ())
        if self._plan.fixed is None and run.mask & ~recorded:
            text = "The board samples another input than at the start of the run; it is not recorded."
            notices += self._limit.pass_on("new_input", text, now_s)
        return notices

    def _loss_notices(self, before: Losses, now_s: float) -> list[Notice]:
        losses = self._times.losses
        notices: list[Notice] = []
        packets, samples = losses.packets - before.packets, losses.samples - before.samples
        if packets or samples:
            text = (
                f"{packets} packets from {self.address.port} were lost; by the board's clock {samples} "
                "samples of each channel are missing. They stay a gap. If this goes on, lower the board's "
                "rate or raise the line's speed."
            )
            notices += self._limit.pass_on("packets_lost", text, now_s)
        if losses.restarts > before.restarts:
            text = f"The board on {self.address.port} restarted; its clock begins anew. Check its supply."
            notices += self._limit.pass_on("board_restarted", text, now_s)
        return notices

    def _health(self, packets: int, has_data: bool, now_s: float) -> tuple[Notice, ...]:
        """Learn how often packets come; say that what comes is none, or that the board's clock is wrong."""
        if packets:
            interval_s = (now_s - self._packet_s) / packets
            self.silent_after_s = max(type(self).silent_after_s, _INTERVALS_OF_SILENCE * interval_s)
            self._packet_s = now_s
        elif has_data and now_s - self._packet_s >= _NOT_UNDERSTOOD_S:
            return self._limit.pass_on("not_understood", self._not_understood(), now_s, is_refusal=True)
        if self._times.has_wrong_rate:
            text = "The board's clock differs from the computer's by more than 1 %. Check its clock setting."
            return self._limit.pass_on("board_clock", text, now_s)
        return ()

    def _not_understood(self) -> str:
        speed = (
            f"the speed of {self._link.baud} baud may be wrong (add baud= to the address), or "
            if self._link.byte_time_s
            else ""
        )
        return (
            f"Data arrive from {self.address.port} but hold no packet: {speed}the board sends something else "
            "(galvanote sources)."
        )


def _why_missing(lost: LostStretch) -> str:
    if lost.is_restart:
        return "the board restarted"
    if lost.packets:
        return f"{lost.packets} packets of the board were lost ({lost.samples} samples)"
    return f"the board dropped {lost.samples} samples"
