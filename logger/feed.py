"""One source on its way into a run: opened, read, lost, opened again."""

from __future__ import annotations

import contextlib
import threading
import time
import uuid
from collections import deque
from collections.abc import Callable
from dataclasses import asdict, dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from drivers.errors import NotReadable, SourceEnded, SourceError, SourceRefused
from drivers.run_clock import RunClock
from drivers.samples import Delivery, MissingStretch, Samples, TaggedMoment
from drivers.source import Source
from logger.channel_watch import ChannelWatch
from logger.errors import LoggerError
from logger.heartbeat import STOOD_STILL_S
from logger.intake import Intake
from logger.journal import FrameType
from logger.notices import Notices
from logger.recording import Gap

__all__ = ["Feed", "SourceStatus"]

READ_TIMEOUT_S = 0.2
SURE_AFTER_S = 5.0
"""Host seconds: an instrument that was waited for so long in one try is not just waking up."""

RETRY_AFTER_S = (0.5, 1.0, 2.0, 5.0)
RATE_BLOCKS = 50
IMPOSSIBLE_TIMES = "readings with impossible times were left out"


@dataclass(frozen=True, slots=True)
class SourceStatus:
    """How one source is doing. `rate_per_s` counts readings per run second; ages are host seconds."""

    address: str
    identity: str
    state: str  # connecting | streaming | silent | lost | ended
    rate_per_s: float | None
    last_sample_age_s: float | None
    message: str


class Feed:
    """Owns one source and the one thread that touches it.

    The thread opens the source and waits for `go`; then it reads until told to stop, putting what comes
    into the intake. When the source is lost it closes it, notes a gap, and opens it again with growing
    pauses; the run goes on meanwhile. It never touches a file. Other threads call the public methods;
    what they read are single values, replaced as a whole.
    """

    def __init__(
        self, source: Source, intake: Intake, notices: Notices, *, on_moment: Callable[[TaggedMoment], None]
    ) -> None:
        self.name = f"feed {source.address.text}"
        self._source = source
        self._intake = intake
        self._notices = notices
        self._on_moment = on_moment
        self._thread = threading.Thread(target=self._work, name=self.name, daemon=True)
        self._opened = threading.Event()
        self._may_read = threading.Event()
        self._stopping = threading.Event()
        self._ended = threading.Event()
        self._open_error: BaseException | None = None
        self._numbers: dict[str, int] = {}
        self._watch = ChannelWatch(())
        self._last_s: dict[str, float] = {}
        self._arrived_s = 0.0
        self._looked_s = 0.0, 0.0  # host and run seconds after the last read
        self._held_up = Gap(0.0, 0.0, "", "")  # when the program last stood still, and why
        self._recent: deque[tuple[float, int]] = deque(maxlen=RATE_BLOCKS)
        self._state = "connecting"
        self._message = ""
        self._open_gaps: dict[str, dict[str, Any]] = {}
        self._refusal = ""  # why what arrived since the last reading is none
        self._gaps: tuple[Gap, ...] = ()
        self._refused_samples = 0
        self._told_impossible: set[str] = set()
        self._known_missing: set[tuple[str, float]] = set()

    # ------------------------------------------------------------ from other threads

    def open(self, clock: RunClock) -> None:
        """Begin to open the source; `wait_open` tells how it went."""
        self._clock = clock
        self._thread.start()

    def wait_open(self) -> None:
        """Return once the source is open, or the feed was told to stop; raise what opening raised."""
        self._opened.wait()
        if self._open_error is not None:
            raise self._open_error

    @property
    def open_trouble(self) -> str:
        """Why the source could not be opened; empty where it could, and while it is being opened."""
        return "" if self._open_error is None else str(self._open_error)

    def number_channels(self, first: int) -> int:
        """Give the channels their numbers in the journal, from `first`; return the next free one."""
        self._numbers = {channel.name: first + i for i, channel in enumerate(self._source.channels)}
        self._watch = ChannelWatch(self._numbers)
        return first + len(self._numbers)

    def declare_channels(self) -> None:
        """Put into the intake what is known of the channels and their instrument."""
        instrument = {
            key: value if isinstance(value, str) else _storable(value)
            for key, value in asdict(self._source.instrument).items()
        }
        for channel in self._source.channels:
            self._intake.put(
                FrameType.CHANNEL,
                {
                    "index": self._numbers[channel.name],
                    "name": channel.name,
                    "role": channel.role,
                    "unit": channel.unit,
                    "instrument": instrument,
                },
            )

    def go(self) -> None:
        """Begin to read. `declare_channels` was called for every feed of the run before."""
        self._may_read.set()

    def stop(self) -> None:
        """Ask the thread to end; `join` waits for it, `wait_open` no longer for a source that opens."""
        self._stopping.set()
        self._may_read.set()
        self._opened.set()

    def join(self, timeout_s: float) -> bool:
        """Wait for the thread to end; False when it stays."""
        if self._thread.ident is not None:
            self._thread.join(timeout_s)
        return not self._thread.is_alive()

    def wait_ended(self, timeout_s: float) -> bool:
        """Wait until the source has nothing more to give; True when it has."""
        return self._ended.wait(timeout_s)

    @property
    def last_sample_s(self) -> float:
        """Run time of the last sample of any channel; 0 before the first."""
        return max(self._last_s.values(), default=0.0)

    def gaps(self, now_s: float) -> tuple[Gap, ...]:
        """Return the gaps so far; an open one ends now."""
        still_open = (
            Gap(entry["begin_s"], max(now_s, entry["begin_s"]), entry["channel"], entry["reason"])
            for entry in list(self._open_gaps.values())
        )
        return (*self._gaps, *still_open)

    def status(self) -> SourceStatus:
        """Return how the source is doing."""
        recent = tuple(self._recent)
        span_s = recent[-1][0] - recent[0][0] if len(recent) > 1 else 0.0
        count = sum(n for _, n in recent) - (recent[0][1] if recent else 0)
        return SourceStatus(
            address=self._source.address.text,
            identity=self._source.instrument.identity,
            state=self._state,
            rate_per_s=count / span_s if span_s > 0 else None,
            last_sample_age_s=time.monotonic() - self._arrived_s if self._last_s else None,
            message=self._message,
        )

    # ------------------------------------------------------------ on the thread

    def _work(self) -> None:
        try:
            self._source.open(self._clock)
        except BaseException as error:  # noqa: BLE001 - delivered to the owner, who raises it
            self._open_error = error
            self._source.close()
            return
        finally:
            self._opened.set()
        self._may_read.wait()
        if self._stopping.is_set():  # another source of the run could not be opened
            self._source.close()
            return
        self._arrived_s = time.monotonic()
        self._state = "streaming"
        try:
            while not self._stopping.is_set():
                self._read_until_lost()
        except SourceEnded:
            self._state = "ended"
            self._message = "The source has nothing more to give."
        finally:
            self._source.close()
            if not self._stopping.is_set():
                self._ended.set()
            with contextlib.suppress(LoggerError):  # the run has ended without waiting for this thread
                self.declare_channels()  # what was learned on the way: clock skew, counts

    def _read_until_lost(self) -> None:
        try:
            self._looked_s = time.monotonic(), self._clock.now_s()
            while not self._stopping.is_set():
                delivery = self._source.read(READ_TIMEOUT_S)
                self._watch_program()
                self._take(delivery)
        except SourceEnded:
            raise
        except SourceError as error:
            self._lose("lost", str(error))
        except Exception as error:  # noqa: BLE001 - a fault of one driver must not end the run
            self._lose("fault", f"{self._source.address.text}: internal fault in the driver: {error!r}")
        else:
            return
        self._source.close()
        self._reopen()

    def _lose(self, code: str, reason: str) -> None:
        self._state = "lost"
        self._message = reason
        self._tell("danger", code, reason)
        for channel in self._source.channels:
            self._open_gap(channel.name, reason)

    def _tell(self, level: str, code: str, text: str, channel: str = "") -> None:
        self._notices.add(level, code, text, self._source.address.text, channel)

    def _reopen(self) -> None:
        attempt, seen, told = 0, "", self._message
        while not self._stopping.wait(RETRY_AFTER_S[min(attempt, len(RETRY_AFTER_S) - 1)]):
            attempt += 1
            began_s = time.monotonic()
            try:
                self._source.open(self._clock)
            except SourceEnded:
                raise
            except SourceError as error:
                self._source.close()
                self._message = str(error)
                # Something is plugged in, and no passing trouble of waking up keeps it from being read.
                is_sure = self._message == seen or time.monotonic() - began_s > SURE_AFTER_S
                if is_sure and self._message != told and isinstance(error, SourceRefused | NotReadable):
                    told = self._message
                    self._tell("danger", "lost", told)
                seen = self._message
                continue
            self._state = "streaming"
            self._message = ""
            self._arrived_s = time.monotonic()
            self._recent.clear()
            self._tell("info", "back", f"{self._source.address.text} is back{self._where()}.")
            return

    def _where(self) -> str:
        """Say the port's new name, where the system has given it one; and that the run goes on."""
        now = self._source.instrument.details.get("link", self._source.address.port)
        is_elsewhere = now != self._source.address.port and self._source.address.port
        return f", now on {now}; the run goes on" if is_elsewhere else "; the run goes on"

    def _take(self, delivery: Delivery) -> None:
        for notice in delivery.notices:
            self._tell("warning", notice.code, notice.text)
        for moment in delivery.moments:
            self._on_moment(moment)
        refusals = [notice.text for notice in delivery.notices if notice.is_refusal]
        self._refusal = refusals[-1] if refusals else self._refusal
        self._known_missing = {(one.channel, one.begin_s) for one in delivery.missing}
        for samples in delivery.samples:
            if len(samples):
                self._put_in_order(samples)
        for missing in delivery.missing:
            self._keep_missing(missing)
        if any(len(samples) for samples in delivery.samples):
            self._watch_channels()
        else:
            self._watch_silence()

    def _watch_program(self) -> None:
        """Notice that this program, or the computer, stood still: the meter did not fall silent then."""
        (before_s, run_before_s), after_s = self._looked_s, time.monotonic()
        run_after_s = self._clock.now_s()
        self._looked_s = after_s, run_after_s
        still_s = after_s - before_s
        asleep_s = (run_after_s - run_before_s) / self._clock.speed - still_s
        if max(still_s, asleep_s) < STOOD_STILL_S:
            return
        is_asleep = asleep_s >= STOOD_STILL_S
        if not is_asleep and self._intake.taking.longest_pause_s(before_s) < STOOD_STILL_S:
            return  # it was the instrument that took so long
        self._arrived_s = after_s
        if is_asleep:  # of which the recorder tells
            self._held_up = Gap(run_before_s, run_after_s, "", "the computer slept")
            return
        self._held_up = Gap(run_before_s, run_after_s, "", "the program stood still")
        self._tell(
            "warning",
            "stood_still",
            f"Nothing was read from {self._source.address.text} for {still_s:.0f} s: the program was "
            "stopped, or the computer too busy. What was not kept for it meanwhile is missing: a gap.",
        )

    def _put_in_order(self, samples: Samples) -> None:
        """Put what has a time; one that is no number, or lies before an earlier one, is a driver's fault.

        No recording holds a backward time: such readings are left out, which is said and kept as a gap.
        """
        times_s = np.where(np.isfinite(samples.times_s), samples.times_s, np.nan)
        last_s = self._last_s.get(samples.channel, -np.inf)
        is_right = times_s >= np.fmax.accumulate(np.concatenate(([last_s], times_s)))[:-1]
        if is_right.all():
            self._put(samples)
            return
        if is_right.any():
            self._put(_chosen(samples, is_right))
        first = int(np.argmin(is_right))
        begin_s = float(times_s[first - 1]) if first else max(last_s, 0.0)
        self._open_gap(samples.channel, IMPOSSIBLE_TIMES, begin_s)
        if (after_s := times_s[first:][is_right[first:]]).size:
            self._close_gap(samples.channel, float(after_s[0]))
        if samples.channel not in self._told_impossible:
            self._told_impossible.add(samples.channel)
            self._tell("danger", "backwards", f"{self._source.address.text}: {IMPOSSIBLE_TIMES}.")

    def _put(self, samples: Samples) -> None:
        if not self._intake.put_samples(self._numbers[samples.channel], samples):
            if self._refused_samples == 0:
                self._notices.add("danger", "too_slow", "The disk cannot keep up: readings are being lost.")
            self._refused_samples += len(samples)
            self._open_gap(samples.channel, "the recorder could not keep up")
            return
        self._refused_samples = 0
        self._refusal = ""
        self._note_jumps(samples)
        self._close_gap(samples.channel, float(samples.times_s[0]))
        self._last_s[samples.channel] = float(samples.times_s[-1])
        times_s = float(samples.times_s[0]), float(samples.times_s[-1])
        if self._watch.note(samples.channel, *times_s, len(samples)):
            text = f"Readings of {samples.channel} come again from {self._source.address.text}."
            self._tell("info", "channel_back", text, samples.channel)
        self._arrived_s = time.monotonic()
        self._recent.append((float(samples.times_s[-1]), len(samples)))
        if self._state == "silent":
            self._state, self._message = "streaming", ""

    def _note_jumps(self, samples: Samples) -> None:
        """Keep as a gap what the times themselves show, also where it passed too quickly to be noticed."""
        times_s = samples.times_s
        last_s = self._last_s.get(samples.channel)
        if last_s is not None:
            times_s = np.concatenate(([last_s], times_s))
        limit_s = self._source.silent_after_s
        if times_s.size < 2 or times_s[-1] - times_s[0] <= limit_s:
            return
        steps_s = np.diff(times_s)
        # Ten usual periods: a slow meter's rhythm is no gap.
        for i in np.flatnonzero(steps_s > max(limit_s, 10 * self._period_s(steps_s))):
            if (samples.channel, float(times_s[i])) in self._known_missing:
                continue
            begin_s, end_s = float(times_s[i]), float(times_s[i + 1])
            is_ours = self._held_up.begin_s < end_s and begin_s < self._held_up.end_s
            reason = self._held_up.reason if is_ours else "no data arrived"
            self._open_gap(samples.channel, reason, begin_s=begin_s)
            self._close_gap(samples.channel, end_s)

    def _period_s(self, steps_s: NDArray[np.float64]) -> float:
        """Return the usual time between readings, infinite while too few have come to tell."""
        if steps_s.size >= 10:
            return float(np.median(steps_s))
        if len(self._recent) < 4:
            return np.inf
        count = sum(n for _, n in self._recent) - self._recent[0][1]
        return (self._recent[-1][0] - self._recent[0][0]) / max(count, 1)

    def _watch_silence(self) -> None:
        silent_s = time.monotonic() - self._arrived_s
        if self._state != "streaming" or silent_s < self._source.silent_after_s:
            return
        self._state = "silent"
        self._message = (
            f"No readings from {self._source.address.text} for {silent_s:.0f} s. {self._refusal}"
            if self._refusal
            else f"No data from {self._source.address.text} for {silent_s:.0f} s although it is open. "
            "Is the meter asleep or the cable off? Switch it on and press its transmit key."
        )
        self._tell("warning", "silent", self._message)
        for channel in self._source.channels:
            self._open_gap(channel.name, self._refusal or "no data arrived")

    def _watch_channels(self) -> None:
        """Say that one channel has fallen silent where the others go on, and keep it as a gap."""
        for channel, silent_s in self._watch.newly_silent(self._source.silent_after_s):
            self._tell(
                "warning",
                "channel_silent",
                f"No reading of {channel} from {self._source.address.text} for {silent_s:.0f} s, although "
                "its other channels come. Does its column, or its input, still hold numbers?",
                channel,
            )
            self._open_gap(channel, "no data arrived")

    def _keep_missing(self, missing: MissingStretch) -> None:
        """Keep as a gap, however short, what the source itself knows to be missing."""
        is_kept = any(
            (gap.channel, gap.begin_s) == (missing.channel, missing.begin_s) for gap in self._gaps[-8:]
        )
        if is_kept or missing.channel not in self._numbers:  # a silence that was noticed as it happened
            return
        entry = {
            "id": uuid.uuid4().hex,
            "begin_s": missing.begin_s,
            "end_s": missing.end_s,
            "channel": missing.channel,
            "reason": missing.reason,
        }
        self._intake.put(FrameType.GAP, entry)
        self._gaps = (*self._gaps, Gap(missing.begin_s, missing.end_s, missing.channel, missing.reason))

    def _open_gap(self, channel: str, reason: str, begin_s: float | None = None) -> None:
        if channel in self._open_gaps:
            return
        if begin_s is None:
            begin_s = self._last_s.get(channel, 0.0)
        entry = {
            "id": uuid.uuid4().hex,
            "begin_s": begin_s,
            "end_s": None,
            "channel": channel,
            "reason": reason,
        }
        self._open_gaps[channel] = entry
        self._intake.put(FrameType.GAP, entry)

    def _close_gap(self, channel: str, end_s: float) -> None:
        entry = self._open_gaps.pop(channel, None)
        if entry is not None:
            self._intake.put(FrameType.GAP, {**entry, "end_s": end_s})
            self._gaps = (*self._gaps, Gap(entry["begin_s"], end_s, channel, entry["reason"]))


def _chosen(samples: Samples, which: NDArray[np.bool_]) -> Samples:
    ticks = samples.board_ticks
    return Samples(
        samples.channel,
        samples.times_s[which],
        samples.values[which],
        samples.quality[which],
        None if ticks is None else ticks[which],
    )


def _storable(entries: dict[str, Any]) -> dict[str, Any]:
    """Return text and finite numbers as they are, anything else as text: the journal holds plain JSON."""
    return {
        key: float(value) if isinstance(value, int | float) and np.isfinite(value) else str(value)
        for key, value in entries.items()
    }
