"""Power cuts at every point of a run: python tests/campaigns/power_cut.py [--states 20000] [--quick]

Runs and edits are recorded once on a disk that writes down each operation (`scenes`, `recorded_disk`).
From each log come states that an untimely stop can leave (`crash_model`: both folder models, torn
sectors, any subset of what was not synced, old bytes underneath). Each is opened as the program would
open it, twice, and compared with what had been acknowledged by then. Exit status 1 when one is bad.

OK        what was acknowledged is there, and all that is there is right
NOTHING   nothing is there, and nothing had been acknowledged
LOST      something acknowledged is missing
WRONG     what is there is not what the run held at any of its steps
UNREADABLE  what is there cannot be read
CRASH     the program falls over it
"""

from __future__ import annotations

import argparse
import collections
import shutil
import sys
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path

from logger.errors import LoggerError, RecordingError
from logger.journal import journal_of
from logger.reader import read_recording
from logger.recovery import find_journals, recover
from tests.campaigns import scenes
from tests.campaigns.crash_model import FILLINGS, State, build, choices, stop_before
from tests.campaigns.scenes import NAME, Known, Scene, in_process

SCENES: tuple[Callable[[], Scene], ...] = (
    scenes.plain_run,
    scenes.two_channels,
    scenes.replacing,
    scenes.second_copy,
    scenes.edits,
)
GOOD = ("OK", "NOTHING")


def states_of(scene: Scene, count: int, seed: int, fillings: tuple[str, ...], old: bytes) -> Iterator[State]:
    """Yield `count` states that a power cut can leave of a scene."""
    position, stop = -1, None
    for choice in choices(scene.log, count, seed, fillings):
        if choice.position != position or stop is None:
            position, stop = choice.position, stop_before(scene.log, choice.position)
        yield build(stop, choice, old)


def judge(scene: Scene, state: State, root: Path) -> str:
    """Open a state as the program would, and say in one word what is left of the run."""
    folders = [root / folder for folder in scene.folders]
    for folder in folders:
        folder.mkdir(parents=True, exist_ok=True)
    state.lay_out(root)
    for _ in range(2):  # recovering twice must be harmless
        for folder in folders:
            for journal in find_journals(folder):
                recover(journal)
    found, unreadable = [], 0
    for folder in folders:
        try:
            found.append(Known.of(read_recording(folder / NAME, is_own=True)))
        except RecordingError:
            unreadable += (folder / NAME).exists() or journal_of(folder / NAME).exists()
        except LoggerError:
            unreadable += 1
    return verdict(scene, state.level, found, unreadable)


def verdict(scene: Scene, level: int, found: list[Known], unreadable: int) -> str:
    """Compare what was found with what was known when the stop came."""
    digests = [known.digest if known is not None else None for known in scene.truth]
    needed = scene.truth[level] is not None
    levels = [max((k for k, d in enumerate(digests) if d == one.digest), default=-1) for one in found]
    if any(k < 0 for k in levels):
        return "WRONG"
    if max(levels, default=-1) >= level:
        return "OK"
    if found or needed:
        return "LOST" if found or not unreadable else "UNREADABLE"
    return "NOTHING"


def run_scene(
    scene: Scene, count: int, seed: int, old: bytes, fillings: tuple[str, ...]
) -> collections.Counter[str]:
    """Judge `count` states of one scene."""
    counts: collections.Counter[str] = collections.Counter()
    folder = scenes._quick_folder()
    with in_process():
        for state in states_of(scene, count, seed, fillings, old):
            root = Path(tempfile.mkdtemp(dir=folder))
            try:
                counts[judge(scene, state, root)] += 1
            except Exception as error:  # noqa: BLE001 - counted: the program would have fallen over it
                counts[f"CRASH {type(error).__name__}"] += 1
            finally:
                shutil.rmtree(root, ignore_errors=True)
    return counts


def main() -> int:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--states", type=int, default=20_000, help="in all, over every scene")
    parser.add_argument(
        "--stale", type=int, default=5_000, help="besides, with an old journal's bytes underneath"
    )
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--quick", action="store_true", help="200 states in all")
    arguments = parser.parse_args()
    total, stale = (150, 50) if arguments.quick else (arguments.states, arguments.stale)
    old = scenes.plain_run(seed=99).journal_bytes()
    bad = 0
    for what, count, fillings in (("power cut", total, FILLINGS[:2]), ("old bytes", stale, FILLINGS[2:])):
        for make in SCENES:
            scene = make()
            counts = run_scene(scene, -(-count // len(SCENES)), arguments.seed, old, tuple(fillings))
            told = "  ".join(f"{word} {n}" for word, n in sorted(counts.items()))
            print(f"{what:<10} {scene.name:<14} {sum(counts.values()):>6} states: {told}", flush=True)
            bad += sum(n for word, n in counts.items() if word not in GOOD)
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main())
