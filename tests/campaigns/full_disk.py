"""A disk that is full during a run, while it is saved, and at an edit: python -m tests.campaigns.full_disk

Uses a small file system in memory, which only the superuser may mount; elsewhere the campaign is skipped with
a word. Exit status 1 when anything acknowledged was lost, a process died, or a run did not go on.
"""

from __future__ import annotations

import argparse
import contextlib
import hashlib
import os
import random
import re
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from drivers.simulated.cell import LessonCell
from logger.journal import journal_of
from logger.reader import read_recording
from tests.campaigns.record_command import RecordCommand, galvanote
from tests.campaigns.table import print_table

DISK_BYTES = 8 * 2**20
RATE = 20_000
LIMIT_S = 60.0
FULL_S = 1.2
"""How long the disk stays full: at least three attempts of the recorder."""


class Wrong(AssertionError):
    """What must not be."""


@dataclass
class SmallDisk:
    """A file system of a few megabytes, and ballast to fill it with."""

    folder: Path

    @property
    def out(self) -> Path:
        return self.folder / "run.h5"

    @property
    def _ballast(self) -> Path:
        return self.folder / "ballast"

    @property
    def free_bytes(self) -> int:
        found = os.statvfs(self.folder)
        return found.f_bavail * found.f_frsize

    def fill_up(self, leave_bytes: int = 0) -> None:
        """Leave only so many bytes."""
        with self._ballast.open("ab") as file, contextlib.suppress(OSError):
            while (room := self.free_bytes - leave_bytes) > 0:
                file.write(bytes(min(room, 2**16)))
                file.flush()

    def make_room(self) -> None:
        self._ballast.unlink(missing_ok=True)


@contextlib.contextmanager
def small_disk() -> Iterator[SmallDisk]:
    """Mount one."""
    with tempfile.TemporaryDirectory() as folder:
        subprocess.run(["mount", "-t", "tmpfs", "-o", f"size={DISK_BYTES}", "tmpfs", folder], check=True)
        try:
            yield SmallDisk(Path(folder))
        finally:
            subprocess.run(["umount", "--lazy", folder], check=True)


# ---------------------------------------------------------------- what happens


def goes_on(disk: SmallDisk, rng: random.Random) -> str:
    """Full during the run, then room again: not one reading is missing."""
    command = _recorded_until_full(disk, rng)
    acknowledged = command.samples
    command.type("salt_added while it was full")
    time.sleep(FULL_S)
    _require(command.process.poll() is None, "the recorder died")
    disk.make_room()
    _require(command.wait_said("takes data again"), "it never went on")
    _require(command.wait_acknowledged(acknowledged + RATE), "nothing was acknowledged afterwards")
    command.interrupt()
    _require(command.wait() == 0, f"status {command.process.returncode}: {command.said[-1]}")
    count, labels = _read_right(disk.out)
    _require(count >= command.samples, f"{count} of {command.samples} acknowledged readings")
    _require("while it was full" in labels, "the moment tagged meanwhile is missing")
    return f"{count} readings, none missing"


def killed_while_full(disk: SmallDisk, rng: random.Random) -> str:
    """kill -9 while the disk is full: what had been acknowledged is recovered."""
    command = _recorded_until_full(disk, rng)
    time.sleep(rng.uniform(0, FULL_S))
    command.kill()
    told = galvanote("recover", disk.folder)
    _require(told.returncode == 1 or disk.out.exists(), "recovered, yet no recording")
    disk.make_room()
    return _recovered(disk, command.samples)


def ended_while_full(disk: SmallDisk, rng: random.Random) -> str:
    """Ctrl-C while the disk is full, room a little later: the run is saved whole."""
    command = _recorded_until_full(disk, rng)
    command.interrupt()
    time.sleep(FULL_S)
    disk.make_room()
    _require(command.wait() == 0, f"status {command.process.returncode}: {command.said[-1]}")
    count, _ = _read_right(disk.out)
    _require(count >= command.samples, f"{count} of {command.samples} acknowledged readings")
    return f"{count} readings"


def ended_and_still_full(disk: SmallDisk, rng: random.Random) -> str:
    """Ctrl-C on a full disk, and nobody makes room: what was acknowledged stays, the rest is counted."""
    command = _recorded_until_full(disk, rng)
    command.interrupt()
    status = command.wait()
    _require(status == 1, f"status {status}: {command.said[-1]}")
    found = next((m for line in command.said if (m := re.search(r"(\d+) readings could not be", line))), None)
    _require(found is not None, f"the lost readings were not told: {command.said}")
    lost = int(found[1])
    disk.make_room()
    if not disk.out.exists():
        _require("is safe in" in command.said[-1], command.said[-1])
        _require(f"The last {lost} readings are lost" in command.said[-1], command.said[-1])
        _recovered(disk, command.samples)
    count, _ = _read_right(disk.out)
    _require(count >= command.samples, f"{count} of {command.samples} acknowledged readings")
    return f"{count} readings, {command.samples} acknowledged, {lost} said to be lost"


def no_room_for_the_archive(disk: SmallDisk, rng: random.Random) -> str:
    """The journal fits, the finished file does not: refused in words, and recovered later."""
    command = _recording(disk, rng)
    command.wait_acknowledged(2 * RATE)
    disk.fill_up(leave_bytes=rng.choice((40, 80, 120)) * 1024)
    command.interrupt()
    status = command.wait()
    _require(status in (0, 1), f"died with status {status}")
    if status == 1:
        _require("is safe in" in command.said[-1], command.said[-1])
        _require(not disk.out.exists(), "a file of the recording's name was left although saving failed")
        again = galvanote("recover", disk.folder)
        _require(again.returncode == 1 and journal_of(disk.out).exists(), "recovering on a full disk")
    disk.make_room()
    return f"status {status}, then {_recovered(disk, command.samples)}"


def no_room_for_an_edit(disk: SmallDisk, rng: random.Random) -> str:
    """An edit on a full disk is refused or durable; the recording is never worse for it."""
    command = _recording(disk, rng)
    command.wait_acknowledged(RATE)
    command.interrupt()
    _require(command.wait() == 0, "could not record")
    before = hashlib.sha256(disk.out.read_bytes()).hexdigest()
    disk.fill_up(leave_bytes=rng.choice((0, 0, 4096, 20_000)))
    told = galvanote("moment", disk.out, "add", "--at", "0.5", "note", "on a full disk")
    _require(told.returncode in (0, 1), f"status {told.returncode}")
    _require(hashlib.sha256(disk.out.read_bytes()).hexdigest() == before, "the recording was changed")
    disk.make_room()
    galvanote("recover", disk.folder)
    _, labels = _read_right(disk.out)
    _require(
        ("on a full disk" in labels) == (told.returncode == 0), f"said {told.returncode}, holds {labels}"
    )
    left = [p.name for p in disk.folder.iterdir() if p != disk.out]
    _require(not left, f"left behind: {left}")
    return "kept in the side journal, then folded in" if told.returncode == 0 else "refused"


SCENES: dict[str, Callable[[SmallDisk, random.Random], str]] = {
    "full during the run, then room": goes_on,
    "killed while full": killed_while_full,
    "ended while full, then room": ended_while_full,
    "ended and still full": ended_and_still_full,
    "no room for the archive": no_room_for_the_archive,
    "no room for an edit": no_room_for_an_edit,
}


# ---------------------------------------------------------------- how


def _recording(disk: SmallDisk, rng: random.Random) -> RecordCommand:
    command = RecordCommand(disk.out, f"cell:bench?rate={RATE}&seed={_SEED}")
    _require(command.wait_said("Recording to"), f"did not begin: {command.said}")
    return command


def _recorded_until_full(disk: SmallDisk, rng: random.Random) -> RecordCommand:
    disk.fill_up(leave_bytes=rng.randrange(100_000, 600_000))
    command = _recording(disk, rng)
    _require(command.wait_said("takes no more data", LIMIT_S), f"the full disk was not told: {command.said}")
    return command


def _recovered(disk: SmallDisk, acknowledged: int) -> str:
    told = galvanote("recover", disk.folder)
    _require(told.returncode == 0, told.stderr)
    count, _ = _read_right(disk.out)
    _require(count >= acknowledged, f"{count} of {acknowledged} acknowledged readings")
    return f"{count} readings, {acknowledged} acknowledged"


_SEED = 5


def _read_right(out: Path) -> tuple[int, list[str]]:
    """Return how many readings there are, all right and none missing, and the labels of moments."""
    recording = read_recording(out)
    (channel,) = recording.channels
    times_s = np.arange(channel.times_s.size) / RATE
    _require(np.array_equal(channel.times_s, times_s), "wrong times, or readings are missing")
    _require(np.array_equal(channel.values, LessonCell("bench", seed=_SEED).block(times_s)), "wrong values")
    return channel.times_s.size, [m.label for m in recording.moments]


def _require(is_so: bool, otherwise: str) -> None:
    if not is_so:
        raise Wrong(otherwise)


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the campaign; return 1 when it found something bad."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--quick", action="store_true", help="once each")
    parser.add_argument("--times", type=int, default=8, help="how often each")
    parser.add_argument("--only", choices=SCENES, help="one of them")
    chosen = parser.parse_args(arguments)
    if not hasattr(os, "geteuid") or os.geteuid() != 0:
        print("skipped: only the superuser may mount a small file system")
        return 0
    rows = []
    bad = 0
    for name in [chosen.only] if chosen.only else SCENES:
        words = []
        for number in range(1 if chosen.quick else chosen.times):
            with small_disk() as disk:
                try:
                    words.append(SCENES[name](disk, random.Random(number)))
                except Wrong as error:
                    words.append(f"BAD: {error}")
                    bad += 1
        rows.append(
            [
                name,
                len(words),
                sum(w.startswith("BAD") for w in words) or "-",
                "; ".join(sorted(set(words), key=lambda word: not word.startswith("BAD"))[:3]),
            ]
        )
    print_table(["what", "times", "bad", "for example"], rows)
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main())
