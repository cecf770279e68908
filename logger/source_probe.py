"""Listening to one source outside a run: what it sends, raw and read, without recording anything."""

from __future__ import annotations

import threading
import time
from collections import deque
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from drivers.errors import SourceEnded, SourceError
from drivers.port_release import PortRelease
from drivers.port_tap import tapped
from drivers.registry import make_source
from drivers.run_clock import HostClock
from drivers.samples import Quality
from drivers.source import Source
from logger.instrument_identity import identity_of

__all__ = ["RAW_KEPT_BYTES", "ProbedChannel", "SourceProbe", "raw_lines"]

RAW_KEPT_BYTES = 512
READ_TIMEOUT_S = 0.2
RECENT_S = 6.0
"""Host seconds of readings that are kept to compare with a display or a known voltage."""

RECENT_KEPT = 4096
BYTES_A_LINE = 16
FLAGS = Quality.__members__.values()


@dataclass(frozen=True, slots=True)
class ProbedChannel:
    """What a channel has delivered lately.

    `recent` and `recent_quality` are the readings of the last seconds and their quality bits, newest last;
    `identity` is by what the instrument is known again (`logger.instrument_identity`), "" by nothing.
    """

    name: str
    role: str
    unit: str
    value: float | None = None
    quality: tuple[str, ...] = ()
    rate_per_s: float | None = None
    age_s: float | None = None
    recent: tuple[float, ...] = ()
    recent_quality: tuple[int, ...] = ()
    identity: str = ""


class SourceProbe:
    """Opens a source on a thread of its own and reads it until told to stop.

    Parameters
    ----------
    address : a source address.
    make : makes the source; takes the address and, as `opener`, what opens its port.

    Attributes
    ----------
    state : opening, listening, failed or ended; `message` then says why, or what the source told.
    identity : what the instrument says of itself.
    """

    def __init__(self, address: str, *, make: Callable[..., Source] = make_source) -> None:
        self.address = address
        self.state = "opening"
        self.message = ""
        self.identity = ""
        self._make = make
        self._raw: deque[int] = deque(maxlen=RAW_KEPT_BYTES)
        self._raw_count = 0
        self._recent: dict[str, deque[tuple[float, float, int]]] = {}
        self._channels: tuple[tuple[str, str, str], ...] = ()
        self._identities: dict[str, str] = {}
        self._stopping = threading.Event()
        self._ports = PortRelease(tapped(self._look))
        self._source: Source | None = None
        self._thread = threading.Thread(target=self._work, name=f"probe {address}", daemon=True)
        self._thread.start()

    # ------------------------------------------------------------ from other threads

    @property
    def waits_for(self) -> str:
        """What opening the source waits for just now, in words; "" for nothing in particular."""
        source = self._source
        return source.waits_for if source is not None and self.state == "opening" else ""

    @property
    def raw(self) -> bytes:
        """The last bytes that came from the port; empty for sources without one."""
        return bytes(self._raw.copy())

    @property
    def raw_count(self) -> int:
        """How many bytes have come in all."""
        return self._raw_count

    def channels(self) -> tuple[ProbedChannel, ...]:
        """Return what each channel has delivered so far."""
        return tuple(self._channel(*one) for one in self._channels)

    def stop(self) -> None:
        """Ask the thread to give the source back, also one that is being opened; `join` waits for it."""
        self._stopping.set()
        if self.state == "opening":
            self._ports.let_go()

    def join(self, limit_s: float) -> bool:
        """Wait for the thread; False when it stays."""
        self._thread.join(limit_s)
        return not self._thread.is_alive()

    def _channel(self, name: str, role: str, unit: str) -> ProbedChannel:
        kept = tuple(self._recent[name].copy())
        identity = self._identities.get(name, "")
        if not kept:
            return ProbedChannel(name, role, unit, identity=identity)
        now_s = time.monotonic()
        last_s, value, bits = kept[-1]
        recent = [one for one in kept if now_s - one[0] <= RECENT_S]
        span_s = now_s - recent[0][0] if recent else 0.0
        flags = tuple(flag.name.lower() for flag in FLAGS if flag and flag.name and bits & flag)
        rate = len(recent) / max(span_s, RECENT_S / 6) if recent else None
        values, qualities = tuple(one[1] for one in recent), tuple(one[2] for one in recent)
        age_s = now_s - last_s
        return ProbedChannel(name, role, unit, value, flags, rate, age_s, values, qualities, identity)

    # ------------------------------------------------------------ on the thread

    def _look(self, data: bytes) -> None:
        self._raw.extend(data[-RAW_KEPT_BYTES:])
        self._raw_count += len(data)

    def _work(self) -> None:
        source: Source | None = None
        try:
            source = self._source = self._make(self.address, opener=self._ports.open)
            source.open(HostClock(source.speed))
            self._recent = {one.name: deque(maxlen=RECENT_KEPT) for one in source.channels}
            self._channels = tuple((one.name, one.role, one.unit) for one in source.channels)
            self.state = "listening"
            while not self._stopping.is_set():
                self._take(source)
            self.state = "ended"
        except SourceEnded as error:
            self.state, self.message = "ended", str(error)
        except SourceError as error:
            is_let_go = self._stopping.is_set()  # what that made of the source is no fault of it
            self.state, self.message = ("ended", "") if is_let_go else ("failed", str(error))
        except Exception as error:  # noqa: BLE001 - shown to the user, who looks at nothing else
            self.state, self.message = "failed", f"A fault of the program: {error!r}"
        finally:
            if source is not None:
                source.close()

    def _take(self, source: Source) -> None:
        delivery = source.read(READ_TIMEOUT_S)
        now_s = time.monotonic()
        for samples in delivery.samples:
            kept = self._recent.get(samples.channel)
            if kept is not None:
                pairs = zip(samples.values[-RECENT_KEPT:], samples.quality[-RECENT_KEPT:], strict=True)
                kept.extend((now_s, float(value), int(bits)) for value, bits in pairs)
        for notice in delivery.notices:
            self.message = notice.text
        self.identity = source.instrument.identity
        if not self._identities:
            self._identities = {one.name: identity_of(source, one) for one in source.channels}


def raw_lines(data: bytes, lines: int) -> tuple[str, ...]:
    """Return the end of `data` as lines of hexadecimal numbers with the letters that they are beside them."""
    rows = np.frombuffer(data, np.uint8)
    first = max(0, -(-rows.size // BYTES_A_LINE) - lines) * BYTES_A_LINE
    found = []
    for begin in range(first, rows.size, BYTES_A_LINE):
        part = rows[begin : begin + BYTES_A_LINE].tobytes()
        letters = "".join(chr(byte) if 0x20 <= byte < 0x7F else "·" for byte in part)
        found.append(f"{part.hex(' ').upper():<{3 * BYTES_A_LINE - 1}}  {letters}")
    return tuple(found)
