"""Spoilt recordings and journals, opened by everything that opens files: python -m tests.campaigns.hostile

Each file is spoilt in one of the ways of `mutations` (by chance, and by structure) or `malice` (by somebody
who knows the format) and then given to `check`, `analyse`, `export`, the shelf and what the window opens
files with; journals and side journals of edits also to `recover`. Every time there has to be a clear refusal
(one plain line, status 1) or an answer; no fault of the program, no hang, nothing outside the file's own
folder so much as opened, a refused file left as it was, a table that holds what another reader finds, and
nothing that chance changed taken by `check` for what was recorded.

The look at a file in a child (`logger.vetting`) is done in one child for all files, which may hang or die as
the real one may; what passed it is opened in a second child, which may not. Every so many-th file goes
through the real commands, in processes of their own. Exit status 1 when anything was not as it should be.
"""

from __future__ import annotations

import argparse
import os
import random
import shutil
import subprocess
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from unittest import mock

import h5py
import numpy as np

from drivers.samples import Samples
from logger import archive, vetting
from logger.edit_journal import edits_of
from logger.journal import FrameType, JournalWriter, journal_of
from logger.moments import new_moment
from logger.payload import encode_json, encode_samples
from logger.reader import read_recording
from tests.campaigns.malice import MALICE, odd_filter
from tests.campaigns.mutations import BYTES, JOURNAL_STRUCTURE, RARE, RECORDING_STRUCTURE, spoilt_entry
from tests.campaigns.openers import NAME, Seen, Spoilt, digest, prepare_opening, refused_in_one_line
from tests.campaigns.record_command import MAIN, ROOT
from tests.campaigns.table import print_table
from tests.campaigns.watched_folder import WatchedFolder
from tests.campaigns.worker import Ended, handled
from tests.logger.simulated_run import BENCH, lesson
from tests.logger.test_archive import CHANNEL, INSTRUMENT, head

FILES, QUICK_FILES = 10_000, 60
LOOK_LIMIT_S = 4.0
"""The real look has 20 s: whatever it is, it is refused."""
OPEN_LIMIT_S = 60.0
REAL_LIMIT_S = 180.0
REAL_EVERY, REAL_EVERY_QUICK = 250, 60
KINDS = (*("recording",) * 7, *("journal",) * 4, "edits")
ODD_FILTER, NO_HDF5 = "filter of nobody", "no HDF5"
ALONE = {**RECORDING_STRUCTURE, **MALICE}
RARE_ONES = {**RARE, "bomb": 0.2, "deep groups": 0.3, "odd filter": 0.5}

# ---------------------------------------------------------------- originals and spoilt files


def make_originals(folder: Path) -> None:
    """Write a short lesson as finished recording, as journal of a run that was cut off, and edits of it."""
    recording, _ = lesson(rate=0.15)
    (data,) = recording.channels
    writer = JournalWriter(journal_of(folder / NAME), head(bench_toml=BENCH))
    writer.append(FrameType.CHANNEL, encode_json({**CHANNEL, "instrument": INSTRUMENT}))
    for begin in range(0, data.times_s.size, 32):
        part = slice(begin, begin + 32)
        block = Samples("cell_voltage", data.times_s[part], data.values[part], data.quality[part])
        writer.append(FrameType.SAMPLES, encode_samples(0, block))
    for moment in recording.moments:
        tagged = new_moment(moment.time_s, moment.kind, moment.label)
        writer.append(FrameType.MOMENT, encode_json(tagged.as_dict()))
    writer.append(FrameType.ANCHOR, encode_json({"time_s": 0.0, "utc": "2026-03-05T09:00:00.000+00:00"}))
    gap = {"id": "g", "begin_s": 100.0, "end_s": 104.0, "channel": "cell_voltage", "reason": "cable pulled"}
    writer.append(FrameType.GAP, encode_json(gap))
    writer.close()
    shutil.copy(journal_of(folder / NAME), folder / "journal")
    archive.finish(journal_of(folder / NAME))
    uuid = read_recording(folder / NAME, is_own=True).uuid
    edits = JournalWriter(edits_of(folder / NAME), {"uuid": uuid})
    for label in ("first", "second"):
        edits.append(FrameType.MOMENT, encode_json(new_moment(90.0, "note", label).as_dict()))
    edits.append(FrameType.FINDINGS, encode_json({"json": "{}", "date": "2026-03-05T10:00:00+01:00"}))
    edits.close()
    edits_of(folder / NAME).rename(folder / "edits")


def plan(count: int, seed: int) -> Iterator[Spoilt]:
    """Lay out `count` files: of each kind, half spoilt by chance, half in their structure."""
    rng = random.Random(seed)
    for number in range(count):
        kind = KINDS[number % len(KINDS)]
        structure = [*ALONE, ODD_FILTER, NO_HDF5] if kind == "recording" else [JOURNAL_STRUCTURE]
        way = rng.choice(structure if rng.random() < 0.5 else list(BYTES))
        if rng.random() > RARE_ONES.get(way, 1.0):
            way = rng.choice(list(BYTES))
        yield Spoilt(number, kind, way)


def spoil(spoilt: Spoilt, originals: Path, outside: Path, folder: Path) -> Path:
    """Make one file in the empty `folder`; return its path."""
    rng = random.Random(f"{spoilt.number} {spoilt.way}")
    path = folder / spoilt.name
    if spoilt.kind == "edits":
        shutil.copy(originals / NAME, folder / NAME)
    shutil.copy(originals / (NAME if spoilt.kind == "recording" else spoilt.kind), path)
    if spoilt.way in BYTES:
        data = bytearray(path.read_bytes())
        BYTES[spoilt.way](data, rng)
        path.write_bytes(data)
    elif spoilt.way == ODD_FILTER:
        odd_filter(path, rng)
    elif spoilt.way == NO_HDF5:
        path.write_bytes(
            rng.choice((b"", b"a,b\r\n1,2\r\n", rng.randbytes(5000), b"\x89PNG\r\n\x1a\n", b"GJ" * 99))
        )
    elif spoilt.kind != "recording":
        spoilt_entry(path, rng)
    else:
        with h5py.File(path, "r+") as file:
            ALONE[spoilt.way](file, rng, outside / "outside.h5")
    return path


def _prepare_look(_: object) -> Callable[[Path], str | None]:
    vetting._limit_memory()
    return vetting.reason_to_refuse


# ---------------------------------------------------------------- the real commands


def really_run(path: Path) -> list[str]:
    """Run the commands as a user does; return what was not as it should be."""
    faults = []
    for command in (["check"], ["analyse"], ["export", "--to", str(path.parent / "real.csv")], ["recover"]):
        try:
            result = subprocess.run(
                [sys.executable, "-c", MAIN, command[0], str(path), *command[1:]],
                cwd=ROOT,
                stdin=subprocess.DEVNULL,
                capture_output=True,
                text=True,
                timeout=REAL_LIMIT_S,
                check=False,
            )
        except subprocess.TimeoutExpired:
            faults.append(f"real {command[0]} took more than {REAL_LIMIT_S:g} s")
            continue
        found = refused_in_one_line(result.returncode, result.stdout, result.stderr)
        faults += [f"real {command[0]} {fault}" for fault in found]
    return faults


# ---------------------------------------------------------------- the campaign


@dataclass
class Row:
    """Figures of one way of spoiling one kind of file."""

    files: int = 0
    answered: int = 0
    looks_ended: int = 0
    bad: int = 0


class Campaign:
    """Makes spoilt files, has them opened, and counts."""

    def __init__(self, top: Path) -> None:
        self._originals, self._work, self._outside = top / "originals", top / "work", top / "outside"
        for folder in (self._originals, self._work, self._outside):
            folder.mkdir()
        make_originals(self._originals)
        with h5py.File(self._outside / "outside.h5", "w") as file:
            file["run/title"] = "not yours"
            file["x"] = np.zeros(100)
        self._untouched = [digest(path) for path in sorted(self._originals.iterdir())]
        self._watch = WatchedFolder(self._outside)
        self.rows: dict[str, Row] = {}
        self.complaints: list[str] = []
        self.real = 0

    def run(self, count: int, seed: int, real_every: int) -> None:
        with mock.patch.dict(os.environ, {"HDF5_PLUGIN_PATH": str(self._outside)}):
            looks = self._looked_at(self._spoilt_files(count, seed))
            for item, seen in handled(prepare_opening, str(self._originals), looks, OPEN_LIMIT_S):
                spoilt, path, refusal = item
                if isinstance(seen, Ended):
                    seen = Seen(False, [f"{seen.word}: {seen.detail}"])
                if spoilt.number % real_every == 0:
                    self._remade(spoilt)
                    seen.faults += really_run(Path(path))
                    self.real += 1
                self._look_around(spoilt, seen)
                self._count(spoilt, refusal, seen)
                shutil.rmtree(self._work / str(spoilt.number))
        self._watch.close()

    def _spoilt_files(self, count: int, seed: int) -> Iterator[tuple[Spoilt, Path]]:
        for spoilt in plan(count, seed):
            path = self._remade(spoilt)
            self._watch.touched()  # making it may have
            yield spoilt, path

    def _remade(self, spoilt: Spoilt) -> Path:
        folder = self._work / str(spoilt.number)
        shutil.rmtree(folder, ignore_errors=True)
        folder.mkdir()
        path = spoil(spoilt, self._originals, self._outside, folder)
        self._watch.touched()
        return path

    def _looked_at(self, files: Iterator[tuple[Spoilt, Path]]) -> Iterator[tuple[Spoilt, str, str | None]]:
        """Put beside each file why the look refused it; what is no recording is not looked at."""
        waiting: list[tuple[Spoilt, Path]] = []

        def paths() -> Iterator[Path]:
            for spoilt, path in files:
                waiting.append((spoilt, path))
                yield path.parent / NAME if spoilt.kind == "edits" else path

        for _, reason in handled(_prepare_look, None, paths(), LOOK_LIMIT_S):
            spoilt, path = waiting.pop()
            if isinstance(reason, Ended):  # as when the real look hangs or dies
                reason = f"(the look ended with {reason.word})"
            yield spoilt, str(path), None if spoilt.kind == "journal" else reason

    def _look_around(self, spoilt: Spoilt, seen: Seen) -> None:
        if self._watch.touched():
            seen.faults.append("a file outside its folder was opened")
        originals = sorted(self._originals.iterdir())
        if spoilt.number % 100 == 0 and [digest(path) for path in originals] != self._untouched:
            seen.faults.append("a file of another folder was changed")
        if {path.name for path in self._work.iterdir()} != {str(spoilt.number)}:
            seen.faults.append("something was made outside the file's folder")

    def _count(self, spoilt: Spoilt, refusal: str | None, seen: Seen) -> None:
        row = self.rows.setdefault(f"{spoilt.kind}: {spoilt.way}", Row())
        row.files += 1
        row.answered += seen.answered
        row.looks_ended += refusal is not None and refusal.startswith("(")
        row.bad += bool(seen.faults)
        self.complaints += [f"{spoilt}: {fault}" for fault in seen.faults]


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the campaign; return 1 when something was not as it should be."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--quick", action="store_true", help="few files, a few seconds")
    parser.add_argument("--files", type=int, default=FILES)
    parser.add_argument("--seed", type=int, default=1)
    chosen = parser.parse_args(arguments)
    count = QUICK_FILES if chosen.quick else chosen.files
    began_s = time.monotonic()
    with tempfile.TemporaryDirectory(dir="/dev/shm" if Path("/dev/shm").is_dir() else None) as top:
        campaign = Campaign(Path(top))
        campaign.run(count, chosen.seed, REAL_EVERY_QUICK if chosen.quick else REAL_EVERY)
    total = Counter[str]()
    table = []
    for name, row in sorted(campaign.rows.items()):
        refused = row.files - row.answered
        table.append([name, row.files, refused, row.answered, row.looks_ended or "-", row.bad or "-"])
        total.update(files=row.files, refused=refused, answered=row.answered, bad=row.bad)
    print_table(["what was spoilt, how", "files", "refused", "answered", "look died or hung", "bad"], table)
    print(
        f"{total['files']} files ({campaign.real} also by the real commands), {total['refused']} refused, "
        f"{total['answered']} answered, {total['bad']} bad, {time.monotonic() - began_s:.0f} s"
    )
    for complaint in campaign.complaints[:40]:
        print(complaint)
    return 1 if campaign.complaints else 0


if __name__ == "__main__":
    sys.exit(main())
