"""Is each safety step needed, and does the power-cut campaign see it? python tests/campaigns/mutants.py

Leaves out one step of the way to the disk at a time and lets the campaign judge the states that follow.
Exit status 1 when the campaign does not notice one of them.
"""

from __future__ import annotations

import argparse
import contextlib
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from unittest import mock

from tests.campaigns import scenes
from tests.campaigns.crash_model import FILLINGS
from tests.campaigns.power_cut import GOOD, run_scene
from tests.campaigns.recorded_disk import RecordedDisk

DiskClass = type[RecordedDisk]


def no_sync_of_data(base: DiskClass) -> DiskClass:
    """Nothing written to the journal is ever synced."""

    class Mutant(base):  # type: ignore[valid-type,misc]
        def sync_data(self, fd: int) -> None:
            pass

    return Mutant


def no_sync_of_the_part(base: DiskClass) -> DiskClass:
    """The finished file takes its name before its content is durable."""

    class Mutant(base):  # type: ignore[valid-type,misc]
        def sync_file(self, path: Path) -> None:
            self.take(path)

    return Mutant


def no_sync_after_the_rename(base: DiskClass) -> DiskClass:
    """The journal is removed before the finished file's name is durable."""

    class Mutant(base):  # type: ignore[valid-type,misc]
        renamed = False

        def replace(self, source: Path, target: Path) -> None:
            super().replace(source, target)
            self.renamed = True

        def sync_folder(self, folder: Path) -> None:
            if not self.renamed:
                super().sync_folder(folder)
            self.renamed = False

    return Mutant


def no_sync_after_creating(base: DiskClass) -> DiskClass:
    """The run is called recording before the journal's name is durable."""

    class Mutant(base):  # type: ignore[valid-type,misc]
        renamed = False

        def replace(self, source: Path, target: Path) -> None:
            super().replace(source, target)
            self.renamed = True

        def sync_folder(self, folder: Path) -> None:
            if self.renamed:
                super().sync_folder(folder)

    return Mutant


@contextlib.contextmanager
def no_checksum() -> Iterator[None]:
    """A frame is believed whatever its bytes."""
    with mock.patch("logger.journal.zlib.crc32", return_value=0):
        yield


@contextlib.contextmanager
def no_salt() -> Iterator[None]:
    """All runs have one salt."""
    with mock.patch("logger.journal.os.urandom", lambda count: bytes(count)):
        yield


DISKS: tuple[Callable[[DiskClass], DiskClass], ...] = (
    no_sync_of_data,
    no_sync_of_the_part,
    no_sync_after_the_rename,
    no_sync_after_creating,
)
FORMATS = ((no_checksum, FILLINGS[:2]), (no_salt, FILLINGS[2:]))


def tell(name: str, counts: dict[str, int]) -> bool:
    """Print one line; True when the campaign saw that something is wrong."""
    bad = sum(n for word, n in counts.items() if word not in GOOD)
    told = "  ".join(f"{word} {n}" for word, n in sorted(counts.items()))
    print(f"{name:<26} {'seen' if bad else 'NOT SEEN':<9} {told}", flush=True)
    return bad > 0


def main() -> int:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--states", type=int, default=3000, help="for each step left out")
    arguments = parser.parse_args()
    old = scenes.plain_run(seed=99).journal_bytes()
    seen = True
    for mutate in DISKS:
        counts = run_scene(scenes.plain_run(mutate=mutate), arguments.states, 1, old, FILLINGS[:2])
        seen &= tell(mutate.__name__.replace("_", " "), counts)
    for weaken, fillings in FORMATS:
        with weaken():
            same_kind = scenes.plain_run(seed=99).journal_bytes()
            counts = run_scene(scenes.plain_run(), arguments.states, 1, same_kind, fillings)
        seen &= tell(weaken.__name__.replace("_", " "), counts)
    return 0 if seen else 1


if __name__ == "__main__":
    sys.exit(main())
