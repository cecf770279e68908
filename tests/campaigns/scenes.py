"""Runs and edits recorded once on a `RecordedDisk`, with all that could be known of them at each step."""

from __future__ import annotations

import contextlib
import hashlib
import tempfile
import threading
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from unittest import mock

import numpy as np

from drivers.samples import Delivery, Samples, TaggedMoment
from drivers.source import Channel
from logger import amend, archive, editing, reader
from logger.disk import Disk
from logger.errors import LoggerError
from logger.journal import JournalFollower, begun_of, journal_of
from logger.moment_edits import add, edit, moments_of
from logger.reader import read_recording
from logger.recording import Recording
from logger.run import Run
from tests.campaigns.recorded_disk import Create, Log, RecordedDisk, Write, overwrite
from tests.logger.fakes import LOST, OVER, ScriptedSource, delivered

Mutate = Callable[[type[RecordedDisk]], type[RecordedDisk]]

NAME = "run.h5"
SYNC_EVERY_S = 0.004
PACE_S = 0.002


def unchanged(disk: type[RecordedDisk]) -> type[RecordedDisk]:
    """The disk as it is: no step is left out."""
    return disk


@dataclass(frozen=True)
class Known:
    """A recording as it could be known at one time, and a digest of all of it."""

    digest: str
    samples: int
    recording: Recording

    @classmethod
    def of(cls, recording: Recording) -> Known:
        found = hashlib.sha256()
        for channel in sorted(recording.channels, key=lambda c: c.name):
            found.update(repr((channel.name, channel.role, channel.unit, channel.times_s.size)).encode())
            for column in (channel.times_s, channel.values, channel.quality):
                found.update(np.ascontiguousarray(column).tobytes())
        rest = (
            recording.uuid,
            recording.title,
            recording.start_time,
            recording.duration_s,
            recording.moments,
            recording.moments_history,
            recording.gaps,
            recording.anchors,
            recording.findings_json,
        )
        found.update(repr(rest).encode())
        return cls(found.hexdigest(), sum(c.times_s.size for c in recording.channels), recording)


@dataclass(frozen=True)
class Scene:
    """What happened on the disk, and what was to be known of the recording after each durable step.

    `truth[k]` is acknowledged by `Ack(k)`; `truth[0]` is what was there before, None for nothing.
    `folders` hold copies of one recording: at least one of them must have what was acknowledged.
    """

    name: str
    log: Log
    truth: Sequence[Known | None]
    folders: tuple[str, ...] = (".",)

    def journal_bytes(self) -> bytes:
        """Return the whole journal as it was before it was removed."""
        return _journal_bytes(self.log)


# ---------------------------------------------------------------- in one process


@contextlib.contextmanager
def in_process() -> Iterator[None]:
    """Do here what the program leaves to children: building a file is then a matter of milliseconds."""

    def assemble(journal: Path, part: Path) -> None:
        try:
            archive.assemble(journal, part)
        except Exception as error:
            raise archive.ArchiveFailed(f"{part} could not be assembled: {error!r}") from error

    def trust(path: Path) -> None:
        pass

    with (
        mock.patch.object(archive, "_assemble_in_child", assemble),
        mock.patch.object(amend, "_edit_in_child", amend._edit),
        mock.patch.object(archive, "vet", trust),
        mock.patch.object(reader, "vet", trust),
    ):
        yield


# ---------------------------------------------------------------- runs


class PacedSource(ScriptedSource):
    """Delivers its steps slowly enough that the recorder syncs between them; a step may be a call."""

    silent_after_s = 1000.0

    def read(self, timeout_s: float) -> Delivery:
        self._pause.wait(PACE_S)
        step = super().read(timeout_s)
        if callable(step):
            step()
            return Delivery()
        return step


class StillClock:
    """A clock that stands: everything written with it has the same length in each run."""

    speed = 1.0

    def restart(self) -> None:
        pass

    def now_s(self) -> float:
        return 0.0

    def sleep_s(self, duration_s: float) -> None:
        threading.Event().wait(duration_s)


def blocks(count: int, *, channel: str, seed: int, rate: float = 100.0) -> list[Delivery]:
    """Blocks of very different lengths: below, across and far above a sector."""
    rng = np.random.default_rng(99)  # the lengths are the same for every seed: only the values differ
    values = np.random.default_rng(seed)
    lengths = rng.choice([1, 2, 7, 30, 31, 200, 700], count)
    found, first = [], 0
    for length in lengths.tolist():
        number = np.arange(first, first + length)
        found.append(
            delivered(
                Samples(
                    channel, number / rate, 2.0 + values.normal(0, 0.01, length), np.zeros(length, np.uint8)
                )
            )
        )
        first += length
    return found


def plain_run(seed: int = 1, mutate: Mutate = unchanged) -> Scene:
    """One channel, moments, edits of moments during the run, a lost source, a clean end."""

    def script(run: list[Run]) -> list[PacedSource]:
        return [PacedSource(_eventful(blocks(40, channel="cell_voltage", seed=seed), run))]

    return _record("plain", script, mutate)


def two_channels(seed: int = 2, mutate: Mutate = unchanged) -> Scene:
    """Two sources at different rates."""

    def script(run: list[Run]) -> list[PacedSource]:
        shunt = Channel("shunt_voltage", "shunt_voltage")
        second = blocks(8, channel=shunt.name, seed=seed + 1, rate=7.0)
        return [
            PacedSource(_eventful(blocks(24, channel="cell_voltage", seed=seed), run)),
            PacedSource([*second, OVER], channel=shunt, name="scripted:second"),
        ]

    return _record("two channels", script, mutate)


def replacing(seed: int = 3, mutate: Mutate = unchanged) -> Scene:
    """A run that is to replace a recording of the same name."""

    def script(run: list[Run]) -> list[PacedSource]:
        return [PacedSource([*blocks(20, channel="cell_voltage", seed=seed), OVER])]

    return _record("replacing", script, mutate, replace=True)


def second_copy(seed: int = 4, mutate: Mutate = unchanged) -> Scene:
    """A run that is written to two folders."""

    def script(run: list[Run]) -> list[PacedSource]:
        return [PacedSource([*blocks(16, channel="cell_voltage", seed=seed), OVER])]

    return _record("second copy", script, mutate, folders=("first", "second"))


def _eventful(steps: list[Delivery], run: list[Run]) -> list:
    """Put moments, edits and a lost source between the blocks."""

    def rename() -> None:
        run[0].edit_moment(run[0].moments[0].id, label="three drops, not two")

    def remove() -> None:
        run[0].edit_moment(run[0].moments[-1].id, removed=True)

    found: list = list(steps)
    third = len(steps) // 3
    found.insert(2 * third, remove)
    found.insert(2 * third, Delivery(moments=(TaggedMoment(0.5, "note", "by mistake"),)))
    found.insert(third + 3, rename)
    found.insert(third, LOST)
    found.insert(3, Delivery(moments=(TaggedMoment(0.25, "salt_added", "2 Tropfen µ"),)))
    return [*found, OVER]


def _record(
    name: str,
    script: Callable[[list[Run]], list[PacedSource]],
    mutate: Mutate,
    *,
    replace: bool = False,
    folders: tuple[str, ...] = (".",),
) -> Scene:
    with tempfile.TemporaryDirectory(dir=_quick_folder()) as top, in_process(), _often_synced():
        root = Path(top)
        for folder in folders:
            (root / folder).mkdir(exist_ok=True)
        out = root / folders[0] / NAME
        before = _earlier_recording(out) if replace else None
        disk = mutate(RecordedDisk)(root)
        holder: list[Run] = []
        run = Run(
            script(holder),
            out,
            title="Strip 4",
            replace=replace,
            second_folder=root / folders[1] if len(folders) > 1 else None,
            clock=StillClock(),
            disk=disk,
            on_durable=lambda samples, moments: disk.acknowledge(_durable_frames(run)),
        )
        holder.append(run)
        run.start()
        disk.acknowledge(1)
        assert run.wait_ended(60)
        saved = run.stop()
        truth = [before, *_known_by_frame(_journal_bytes(disk.log), root)]
        disk.acknowledge(len(truth) - 1)
        at_the_end = Known.of(read_recording(saved, is_own=True))
        assert at_the_end.digest == truth[-1].digest, f"{name}: wrong at the end"
        return Scene(name, disk.log, truth, folders)


def _durable_frames(run: Run) -> int:
    assert run._recorder is not None
    return max(track.durable_frames for track in run._recorder.tracks)


def _earlier_recording(out: Path) -> Known:
    run = Run([PacedSource([*blocks(5, channel="cell_voltage", seed=77), OVER])], out, title="the old one")
    run.start()
    assert run.wait_ended(60)
    return Known.of(read_recording(run.stop(), is_own=True))


def _journal_bytes(log: Log) -> bytes:
    created = (event for event in log.events if isinstance(event, Create))
    file = next(event.file for event in created if event.path.endswith(begun_of(journal_of(Path(NAME))).name))
    content = bytearray()
    for event in log.events:
        if isinstance(event, Write) and event.file == file:
            overwrite(content, event.offset, event.data)
    return bytes(content)


def _known_by_frame(content: bytes, root: Path) -> list[Known]:
    """Return what is known after each frame, read by the reader of running journals."""
    path = root / "prefix.journal"
    path.write_bytes(content)
    with path.open("rb") as file:
        ends = [frame.end for frame in JournalFollower(file)]
    assert not any(content[ends[-1] :]), "nothing but what is laid out ahead"
    found = []
    for end in ends:
        path.write_bytes(content[:end])
        found.append(Known.of(read_recording(path)))
    path.unlink()
    return found


@contextlib.contextmanager
def _often_synced() -> Iterator[None]:
    with (
        mock.patch("logger.recorder.SYNC_EVERY_S", SYNC_EVERY_S),
        mock.patch("logger.feed.RETRY_AFTER_S", (0.001,)),
    ):
        yield


def _quick_folder() -> str | None:
    return "/dev/shm" if Path("/dev/shm").is_dir() else None


# ---------------------------------------------------------------- edits of a finished recording


def edits(mutate: Mutate = unchanged) -> Scene:
    """Changes of a finished recording; the folding of one fails, so that it stays in the side journal."""
    with tempfile.TemporaryDirectory(dir=_quick_folder()) as top, in_process():
        root = Path(top)
        out = root / NAME
        truth: list[Known | None] = [_earlier_recording(out)]
        disk = mutate(RecordedDisk)(root)

        def known() -> None:
            truth.append(Known.of(read_recording(out, is_own=True)))
            disk.acknowledge(len(truth) - 1)

        add(out, 0.01, "salt_added", "2 drops", disk=disk)
        known()
        edit(out, moments_of(out)[0].id, label="3 drops", disk=disk)
        known()
        with mock.patch.object(editing, "amend", _refuse):
            add(out, 0.02, "note", "kept in the side journal", disk=disk)
        known()
        edit(out, moments_of(out)[0].id, removed=True, disk=disk)
        known()
        with editing.editing(out, disk) as editor:
            editor.keep_findings('{"voltage_saved": null}')
        known()
        return Scene("edits", disk.log, truth)


def _refuse(recording: Path, amendment: object, disk: Disk) -> None:
    raise LoggerError("no room for a copy")
