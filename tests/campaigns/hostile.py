"""Spoilt recordings and journals, opened by everything that opens files: python -m tests.campaigns.hostile

Each file is spoilt in one of the ways of tests/campaigns/mutations.py and then given to `check`, `analyse`,
`export` and what the window opens files with; journals also to `recover`. Every time there has to be a clear
refusal (one line, status 1) or an answer; no fault of the program, no hang, nothing touched outside the
file's own folder, a refused file left as it was, and readings that chance changed never taken for those that
were recorded.

The look at a file in a child (`logger.vetting`) is done in one child for all files, which may hang or die as
the real one may; what passed it is opened in a second child, which may not. Every so many-th file goes
through the real commands, in processes of their own. Exit status 1 when anything was not as it should be.
"""

from __future__ import annotations

import argparse
import contextlib
import hashlib
import io
import os
import random
import shutil
import subprocess
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from unittest import mock

import h5py
import numpy as np

from drivers.samples import Samples
from logger import amend, archive, reader, vetting
from logger.commands import main as galvanote
from logger.errors import RecordingError
from logger.inspection import inspect
from logger.journal import FrameType, JournalWriter, encode_json, encode_samples, journal_of
from logger.moments import new_moment
from logger.reader import read_recording
from tests.campaigns.mutations import BYTES, JOURNAL_STRUCTURE, RARE, RECORDING_STRUCTURE, spoilt_entry
from tests.campaigns.record_command import MAIN, ROOT
from tests.campaigns.table import print_table
from tests.campaigns.worker import Ended, handled
from tests.logger.simulated_run import BENCH, lesson
from tests.logger.test_archive import CHANNEL, INSTRUMENT, head

LOOK_LIMIT_S = 20.0
OPEN_LIMIT_S = 30.0
REAL_EVERY = 250
PICTURE_EVERY = 10
NAME = "run.h5"


@dataclass(frozen=True)
class Spoilt:
    """One file to be made: from which original, in which way, with which seed."""

    number: int
    is_journal: bool
    way: str


@dataclass
class Seen:
    """What came of one file: refused or answered, and everything that was not as it should be."""

    answered: bool
    faults: list[str] = field(default_factory=list)


# ---------------------------------------------------------------- originals and spoilt files


def make_originals(folder: Path) -> None:
    """Write a short lesson as finished recording and as journal of a run that was cut off."""
    recording, _ = lesson(rate=0.5)
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


def plan(count: int, seed: int) -> Iterator[Spoilt]:
    """Lay out `count` files, two recordings for each journal, every way in turn."""
    rng = random.Random(seed)
    for number in range(count):
        is_journal = number % 3 == 2
        structure = [JOURNAL_STRUCTURE] if is_journal else list(RECORDING_STRUCTURE)
        way = rng.choice(structure if rng.random() < 0.5 else list(BYTES))
        while rng.random() > RARE.get(way, 1.0):
            way = rng.choice(list(BYTES))
        yield Spoilt(number, is_journal, way)


def spoil(spoilt: Spoilt, originals: Path, folder: Path) -> Path:
    """Make one file in the empty `folder`; return its path."""
    rng = random.Random(f"{spoilt.number} {spoilt.way}")
    if spoilt.is_journal:
        path = journal_of(folder / NAME)
        shutil.copy(originals / "journal", path)
    else:
        path = folder / NAME
        shutil.copy(originals / NAME, path)
    if spoilt.way in BYTES:
        data = bytearray(path.read_bytes())
        BYTES[spoilt.way](data, rng)
        path.write_bytes(data)
    elif spoilt.is_journal:
        spoilt_entry(path, rng)
    else:
        with h5py.File(path, "r+") as file:
            RECORDING_STRUCTURE[spoilt.way](file, rng, originals / "outside.h5")
    return path


# ---------------------------------------------------------------- the look, in a child that may die


def _prepare_look(_: object) -> Callable[[Path], str | None]:
    return vetting.reason_to_refuse


# ---------------------------------------------------------------- opening, in a child that may not


def _prepare_opening(given: tuple[str, str]) -> Callable[[tuple[Spoilt, str, str | None]], Seen]:
    os.environ["QT_QPA_PLATFORM"] = "offscreen"
    originals, _ = given
    right = read_recording(Path(originals) / NAME, is_own=True)

    def assemble(journal: Path, part: Path) -> None:
        try:
            archive.assemble(journal, part)
        except (OSError, archive.LoggerError, RuntimeError) as error:
            part.unlink(missing_ok=True)
            raise archive.ArchiveFailed(str(error)) from error

    def handle(item: tuple[Spoilt, str, str | None]) -> Seen:
        spoilt, path, refusal = item
        known = [refusal]

        def look(asked: Path) -> None:
            if known[0] is not None and asked == Path(path):
                raise RecordingError(f"{asked} is not a recording, or a damaged one: {known[0]}")

        with (
            mock.patch.object(archive, "_assemble_in_child", assemble),
            mock.patch.object(amend, "_edit_in_child", amend._edit),
            mock.patch.object(archive, "vet", look),
            mock.patch.object(reader, "vet", look),
            mock.patch("logger.inspection.vet", look),
        ):
            return _opened(spoilt, Path(path), right.channels[0])

    return handle


def _opened(spoilt: Spoilt, path: Path, right: reader.ChannelData) -> Seen:
    """Give the file to everything that opens files."""
    before = _digest(path)
    seen = Seen(answered=False)
    commands = [["check", str(path)], ["export", str(path), "--to", str(path.parent / "out.csv")]]
    if spoilt.number % PICTURE_EVERY == 0:
        commands.append(["export", str(path), "--to", str(path.parent / "out.png")])
    for command in commands:
        seen.answered |= _run(command, seen) == 0 and command[0] != "check"
    _look_at_readings(spoilt, path, right, seen)
    _open_in_window(path, seen)
    if _digest(path) != before:
        seen.faults.append("reading it changed it")
    status = _run(["analyse", str(path)], seen)
    seen.answered |= status == 0
    if _digest(path) != before and (status != 0 or spoilt.is_journal):
        seen.faults.append(f"analyse changed it (status {status})")
    if spoilt.is_journal:
        status = _run(["recover", str(path)], seen)
        if status != 0 and not path.exists() and not archive.damaged_of(path).exists():
            seen.faults.append("recovering failed and removed the journal")
    return seen


def _run(command: list[str], seen: Seen) -> int:
    """Run one command here; note what a person must never see."""
    out, err = io.StringIO(), io.StringIO()
    os.environ.pop("GALVANOTE_TRACE", None)
    try:
        with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
            status = galvanote(command)
    except BaseException as error:  # noqa: BLE001 - that is what is looked for
        seen.faults.append(f"{command[0]} raised {error!r}"[:300])
        return 1
    said = err.getvalue()
    if "internal fault" in said or "Traceback" in said or "Warning" in said:
        seen.faults.append(f"{command[0]}: {said[:300]}")
    if status not in (0, 1) or (status == 1 and not (said or out.getvalue())):
        seen.faults.append(f"{command[0]} ended with {status} and said {said[:100]!r}")
    if status == 1 and command[0] != "check" and len(said.strip().splitlines()) != 1:
        seen.faults.append(f"{command[0]} refused in {len(said.splitlines())} lines: {said[:300]}")
    return status


def _look_at_readings(spoilt: Spoilt, path: Path, right: reader.ChannelData, seen: Seen) -> None:
    """Readings that chance changed must be refused, or `check` must say so; in a journal they must end."""
    if spoilt.way not in BYTES:
        return
    try:
        found = read_recording(path)
    except RecordingError:
        return
    voltage = next((c for c in found.channels if c.name == right.name), None)
    n = 0 if voltage is None else voltage.times_s.size
    same = voltage is not None and all(
        np.array_equal(getattr(voltage, column), getattr(right, column)[:n])
        for column in ("times_s", "values", "quality")
    )
    if same and (spoilt.is_journal or n == right.times_s.size):
        return
    if inspect(path).is_whole and not (spoilt.is_journal and voltage is None):
        seen.faults.append(f"wrong readings ({n}) are read, and check finds them whole")


def _open_in_window(path: Path, seen: Seen) -> None:
    try:
        from gui.session import load_finished
    except ImportError:
        return
    try:
        load_finished(path)
    except RecordingError:
        pass
    except Exception as error:  # noqa: BLE001 - that is what is looked for
        seen.faults.append(f"the window's opener raised {error!r}"[:300])


def _digest(path: Path) -> str | None:
    return hashlib.sha256(path.read_bytes()).hexdigest() if path.exists() else None


# ---------------------------------------------------------------- the real commands


def really_run(spoilt: Spoilt, path: Path) -> list[str]:
    """Run the commands as a user does; return what was not as it should be."""
    faults = []
    for command in (["check"], ["analyse"], ["export", "--to", str(path.parent / "real.csv")]):
        began_s = time.monotonic()
        result = subprocess.run(
            [sys.executable, "-c", MAIN, command[0], str(path), *command[1:]],
            cwd=ROOT,
            capture_output=True,
            text=True,
            timeout=120,
            check=False,
        )
        if result.returncode not in (0, 1) or "Traceback" in result.stderr or "internal" in result.stderr:
            faults.append(f"real {command[0]}: status {result.returncode}, {result.stderr[-300:]}")
        if time.monotonic() - began_s > 2 * vetting.TIME_LIMIT_S:
            faults.append(f"real {command[0]}: took {time.monotonic() - began_s:.0f} s")
    return faults


# ---------------------------------------------------------------- the campaign


@dataclass
class Row:
    files: int = 0
    refused: int = 0
    answered: int = 0
    looks_ended: int = 0
    bad: int = 0


def campaign(count: int, seed: int, real_every: int) -> tuple[dict[str, Row], list[str]]:
    """Try `count` files; return figures for each way, and what was not as it should be."""
    rows: dict[str, Row] = {}
    complaints: list[str] = []
    with tempfile.TemporaryDirectory(dir="/dev/shm" if Path("/dev/shm").is_dir() else None) as top:
        originals, work = Path(top) / "originals", Path(top) / "work"
        originals.mkdir()
        work.mkdir()
        make_originals(originals)
        with h5py.File(originals / "outside.h5", "w") as file:
            file["run/title"] = "not yours"
            file["x"] = np.zeros(100)
        untouched = {path.name: _digest(path) for path in originals.iterdir()}
        spoilt_files = _spoilt_files(count, seed, originals, work)
        looks = _looked_at(spoilt_files)
        opened = handled(_prepare_opening, (str(originals), ""), looks, OPEN_LIMIT_S)
        for (spoilt, path, refusal), seen in opened:
            if isinstance(seen, Ended):
                seen = Seen(False, [f"{seen.word}: {seen.detail}"])
            if spoilt.number % real_every == 0 and Path(path).exists():
                seen.faults += really_run(spoilt, Path(path))
            if {p.name: _digest(p) for p in originals.iterdir()} != untouched:
                seen.faults.append("a file of another folder was changed")
            if {p.name for p in work.iterdir()} != {str(spoilt.number)}:
                seen.faults.append("something was made outside the file's folder")
            name = ("journal: " if spoilt.is_journal else "recording: ") + spoilt.way
            row = rows.setdefault(name, Row())
            row.files += 1
            row.answered += seen.answered
            row.refused += not seen.answered
            row.looks_ended += refusal is not None and refusal.startswith("(")
            row.bad += bool(seen.faults)
            complaints += [f"{spoilt}: {fault}" for fault in seen.faults]
            shutil.rmtree(work / str(spoilt.number))
    return rows, complaints


def _spoilt_files(count: int, seed: int, originals: Path, work: Path) -> Iterator[tuple[Spoilt, Path]]:
    for spoilt in plan(count, seed):
        folder = work / str(spoilt.number)
        folder.mkdir()
        yield spoilt, spoil(spoilt, originals, folder)


def _looked_at(files: Iterator[tuple[Spoilt, Path]]) -> Iterator[tuple[Spoilt, str, str | None]]:
    """Put beside each file why the look refused it."""
    waiting: list[tuple[Spoilt, Path]] = []

    def paths() -> Iterator[Path]:
        for spoilt, path in files:
            waiting.append((spoilt, path))
            yield path

    for path, reason in handled(_prepare_look, None, paths(), LOOK_LIMIT_S):
        spoilt, _ = waiting.pop()
        if isinstance(reason, Ended):  # as when the real look hangs or dies
            reason = f"(the look ended with {reason.word})"
        yield spoilt, str(path), None if spoilt.is_journal else reason


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the campaign; return 1 when something was not as it should be."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--quick", action="store_true", help="few files, a few seconds")
    parser.add_argument("--files", type=int, default=10_000)
    parser.add_argument("--seed", type=int, default=1)
    chosen = parser.parse_args(arguments)
    count = 60 if chosen.quick else chosen.files
    began_s = time.monotonic()
    rows, complaints = campaign(count, chosen.seed, 50 if chosen.quick else REAL_EVERY)
    total = Counter[str]()
    table = []
    for name, row in sorted(rows.items()):
        table.append([name, row.files, row.refused, row.answered, row.looks_ended or "-", row.bad or "-"])
        total.update(files=row.files, refused=row.refused, answered=row.answered, bad=row.bad)
    print_table(["what was spoilt, how", "files", "refused", "answered", "look died or hung", "bad"], table)
    print(
        f"{total['files']} files, {total['refused']} refused, {total['answered']} answered, "
        f"{total['bad']} bad, {time.monotonic() - began_s:.0f} s"
    )
    for complaint in complaints[:40]:
        print(complaint)
    return 1 if complaints else 0


if __name__ == "__main__":
    sys.exit(main())
