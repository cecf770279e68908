"""What becomes of a folder after a crash, opened as the application opens it, against what was acknowledged.

OK          everything acknowledged is there and right; perhaps also something that came after
NOTHING     there is nothing, and nothing had been acknowledged
LOST        something acknowledged is missing
CORRUPT     something acknowledged is there and wrong
TAIL        what was acknowledged is right, but wrong readings or moments follow it
UNREADABLE  the program does not open or recover it
HANG, CRASH the program does not end, or dies
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from logger.archive import damaged_of
from logger.disk import Disk
from logger.errors import RecordingError
from logger.journal import journal_of, read_head
from logger.reader import read_recording
from logger.recording import Recording
from logger.recovery import find_journals, recover
from tests.campaigns.scenes import NAME, Known

__all__ = ["BAD", "WORDS", "Verdict", "judge"]

WORDS = ("OK", "NOTHING", "LOST", "CORRUPT", "TAIL", "UNREADABLE", "HANG", "CRASH")
BAD = frozenset(WORDS[2:])


@dataclass(frozen=True)
class Verdict:
    """One of `WORDS`, and what was seen where that is not plain."""

    word: str
    detail: str = ""


def judge(
    folders: Sequence[Path], truth: Sequence[Known | None], level: int, disk: Disk | None = None
) -> Verdict:
    """Open what lies in the folders, recover it, open it again, and compare with what had to be there."""
    verdicts = [_judge_one(folder, truth, level, disk) for folder in folders]
    bad = [v for v in verdicts if v.word in BAD]
    # A second copy may be behind the first, but never wrong; the whole is where the better one is.
    wrong = [v for v in bad if v.word != "LOST"]
    if wrong:
        return wrong[0]
    return next((v for v in verdicts if v.word == "OK"), verdicts[0])


def _judge_one(folder: Path, truth: Sequence[Known | None], level: int, disk: Disk | None) -> Verdict:
    try:
        found = _open(folder / NAME)
        before = _compare(found, truth, 0)
        if before.word in BAD:
            return Verdict(before.word, f"before recovering: {before.detail}")
        complaint = _recover_all(folder, disk)
        if complaint:
            return Verdict("UNREADABLE", complaint)
        verdict = _compare(_open(folder / NAME), truth, level)
        if verdict.word == "OK" and (left := _leftovers(folder)):
            return Verdict("UNREADABLE", f"left behind: {left}")
        return verdict
    except RecordingError as error:
        return Verdict("UNREADABLE", str(error))


def _open(path: Path) -> Recording | None:
    """Return the recording, or None where the application says rightly that there is none."""
    if not path.exists():
        journal = journal_of(path)
        if not journal.exists() or read_head(journal) is None:
            return None
    return read_recording(path, is_own=True)


def _recover_all(folder: Path, disk: Disk | None) -> str | None:
    """Recover twice, as somebody does who is not sure; return what went wrong."""
    for attempt in range(2):
        for journal in find_journals(folder):
            outcome = recover(journal, disk)
            if outcome.outcome not in ("recovered", "partly", "empty"):
                return f"recovering: {outcome.outcome}: {outcome.message}"
            if attempt and outcome.outcome != "empty":
                return f"recovering again found something: {outcome.message}"
    return None


def _leftovers(folder: Path) -> list[str]:
    journal = journal_of(folder / NAME)
    # Whole frames behind a hole were never acknowledged; the program keeps them beside the recording.
    kept = {NAME, damaged_of(journal).name}
    names = {path.name for path in folder.iterdir() if path.is_file()} - kept
    if journal.name in names and read_head(journal) is None:
        names.remove(journal.name)  # of a run in which nothing was acknowledged; the program leaves it there
    return sorted(names)


def _compare(found: Recording | None, truth: Sequence[Known | None], level: int) -> Verdict:
    if found is None:
        if truth[0] is None and level == 0:
            return Verdict("NOTHING")
        return Verdict("LOST", f"nothing is there, level {level} was acknowledged")
    known = Known.of(found)
    at = max(
        (i for i, one in enumerate(truth) if one is not None and one.digest == known.digest), default=None
    )
    if at is None:
        return _what_is_wrong(found, truth[level], level)
    if at < level:
        return Verdict("LOST", f"level {at} of {level} acknowledged")
    return Verdict("OK")


def _what_is_wrong(found: Recording, acknowledged: Known | None, level: int) -> Verdict:
    if acknowledged is None:
        return Verdict("TAIL", "something is there of which nothing was acknowledged")
    for channel in acknowledged.recording.channels:
        same = next((c for c in found.channels if c.name == channel.name), None)
        n = channel.times_s.size
        if same is None or same.times_s.size < n:
            return Verdict("LOST", f"{channel.name}: fewer than the {n} samples of level {level}")
        if not (
            np.array_equal(same.values[:n], channel.values)
            and np.array_equal(same.times_s[:n], channel.times_s)
        ):
            return Verdict("CORRUPT", f"{channel.name}: the first {n} samples are not those of level {level}")
    moments = {m.id for m in found.moments} | {m.id for m, _ in found.moments_history}
    if missing := [m.label for m in acknowledged.recording.moments if m.id not in moments]:
        return Verdict("LOST", f"moments of level {level}: {missing}")
    return Verdict("TAIL", f"all of level {level} is there, but what follows was never recorded so")
