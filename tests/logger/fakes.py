"""Faithful stand-ins: a source that does what it is told, and a disk that can be full or failing."""

from __future__ import annotations

import errno
import threading
from collections.abc import Iterator, Sequence

import numpy as np

from drivers.address import parse_address
from drivers.errors import CannotOpen, SourceEnded, SourceLost
from drivers.run_clock import RunClock
from drivers.samples import Delivery, Samples
from drivers.source import Channel, Instrument, Source
from logger.disk import Disk


def block(first: int, count: int, *, rate: float = 100.0, channel: str = "cell_voltage") -> Samples:
    """Samples number `first` to `first + count`: the value tells the number, so that none can be mixed up."""
    number = np.arange(first, first + count, dtype=np.float64)
    return Samples(channel, number / rate, 2.0 + number * 1e-6, np.zeros(count, np.uint8))


class ScriptedSource(Source):
    """Delivers what `steps` holds, one item a read: a Delivery, an exception, or None for silence.

    After the last step it is silent. `drained` is set then. It opens when `may_open` is set, as it is
    unless cleared, and says `words` meanwhile.
    """

    silent_after_s = 0.05

    def __init__(
        self,
        steps: list[Delivery | BaseException | None],
        *,
        channel: Channel = Channel("cell_voltage"),  # noqa: B008 - frozen
        open_errors: list[BaseException | None] | None = None,
        name: str = "scripted:port",
    ) -> None:
        super().__init__(parse_address(name))
        self._steps: Iterator[Delivery | BaseException | None] = iter(steps)
        self._channel = channel
        self._open_errors = iter(open_errors or [])
        self._pause = threading.Event()
        self.drained = threading.Event()
        self.opened = 0
        self.closed = 0
        self.threads: set[int] = set()
        self.words = ""
        self.may_open = threading.Event()
        self.may_open.set()

    @property
    def waits_for(self) -> str:
        return self.words

    @property
    def channels(self) -> tuple[Channel, ...]:
        return (self._channel,)

    @property
    def instrument(self) -> Instrument:
        return Instrument(self.address.text, identity="scripted", details={"counts": 4000})

    def open(self, clock: RunClock) -> None:
        self.threads.add(threading.get_ident())
        self.may_open.wait()
        error = next(self._open_errors, None)
        if error is not None:
            raise error
        self.opened += 1

    def read(self, timeout_s: float) -> Delivery:
        self.threads.add(threading.get_ident())
        step = next(self._steps, None)
        if isinstance(step, BaseException):
            raise step
        if step is None:
            self.drained.set()
            self._pause.wait(min(timeout_s, 0.01))
            return Delivery()
        return step

    def close(self) -> None:
        self.threads.add(threading.get_ident())
        self.closed += 1


def delivered(*blocks: Samples) -> Delivery:
    return Delivery(samples=blocks)


LOST = SourceLost("the cable was pulled")
GONE = CannotOpen("nobody there")
OVER = SourceEnded("over")


class FaultyDisk(Disk):
    """A disk that takes `room` bytes of journal and then is full, until `free` is called."""

    def __init__(self, room: int | None = None) -> None:
        self.room = room
        self.sync_error: OSError | None = None
        self.full_seen = threading.Event()
        self.operations: list[str] = []

    def write_at(self, fd: int, parts: Sequence[bytes | memoryview], offset: int) -> None:
        data = b"".join(parts)
        if self.room is not None and offset + len(data) > self.room:
            kept = max(0, self.room - offset)
            if kept:  # a full disk takes what still fits: the frame is torn
                super().write_at(fd, [data[:kept]], offset)
            self.full_seen.set()
            raise OSError(errno.ENOSPC, "No space left on device")
        self.operations.append("write")
        super().write_at(fd, parts, offset)

    def free(self) -> None:
        self.room = None

    def sync_data(self, fd: int) -> None:
        if self.sync_error is not None:
            raise self.sync_error
        self.operations.append("sync_data")
        super().sync_data(fd)

    def sync_file(self, path) -> None:
        self.operations.append(f"sync_file {path.name}")
        super().sync_file(path)

    def sync_folder(self, folder) -> None:
        self.operations.append("sync_folder")
        super().sync_folder(folder)

    def give_name(self, fd, source, target) -> int:
        self.operations.append("give_name")
        return super().give_name(fd, source, target)

    def replace(self, source, target) -> None:
        self.operations.append(f"replace {source.name} {target.name}")
        super().replace(source, target)

    def remove(self, path) -> None:
        if path.exists():
            self.operations.append(f"remove {path.name}")
        super().remove(path)
