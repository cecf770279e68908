"""States after a crash, laid out and judged one by one in a child."""

from __future__ import annotations

import hashlib
import shutil
import tempfile
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import ExitStack
from dataclasses import dataclass, field
from pathlib import Path

from tests.campaigns import omissions
from tests.campaigns.crash_model import FILLINGS, Choice, State, Stop, build, choices, stop_before
from tests.campaigns.recorded_disk import Log, RecordedDisk
from tests.campaigns.scenes import Scene, in_process
from tests.campaigns.verdict import BAD, WORDS, Verdict, judge
from tests.campaigns.worker import Ended, handled

__all__ = ["AfterCrash", "DuringRecovery", "Tally", "first_order", "second_order", "tried"]

LIMIT_S = 20.0


@dataclass(frozen=True)
class AfterCrash:
    """One state after a crash of what a scene shows."""

    scene: int
    choice: Choice


@dataclass(frozen=True)
class DuringRecovery:
    """Recovery, after the computer was started again or right after a kill, itself cut off `count` times."""

    scene: int
    choice: Choice
    after_kill: bool
    count: int


Trial = AfterCrash | DuringRecovery


@dataclass
class Tally:
    """How often each verdict came, and the first examples of bad ones."""

    words: Counter[str] = field(default_factory=Counter)
    distinct: set[bytes] = field(default_factory=set)
    examples: list[str] = field(default_factory=list)

    def add(self, trial: Trial, verdict: Verdict, fingerprint: bytes) -> None:
        self.words[verdict.word] += 1
        self.distinct.add(fingerprint)
        if verdict.word in BAD and len(self.examples) < 5:
            self.examples.append(f"{verdict.word}: {verdict.detail}\n    {trial}")

    @property
    def states(self) -> int:
        return sum(self.words.values())

    @property
    def bad(self) -> int:
        return sum(count for word, count in self.words.items() if word in BAD)

    def row(self, name: str) -> list[object]:
        return [name, self.states, len(self.distinct), *(self.words[word] or "-" for word in WORDS)]


HEAD = ["what", "states", "distinct", *WORDS]


def first_order(
    scenes: Sequence[Scene], count: int, seed: int, fillings: Sequence[str] = FILLINGS[:2]
) -> Iterator[AfterCrash]:
    """Choose `count` states, spread over the scenes."""
    for i, scene in enumerate(scenes):
        share = count // len(scenes) + (i < count % len(scenes))
        for choice in choices(scene.log, share, seed + i, fillings):
            yield AfterCrash(i, choice)


def second_order(scenes: Sequence[Scene], count: int, seed: int, each: int) -> Iterator[DuringRecovery]:
    """Choose crashes whose recovery is cut off `each` times, `count` times in all."""
    firsts = list(first_order(scenes, -(-count // each), seed))
    for number, first in enumerate(firsts):
        yield DuringRecovery(first.scene, first.choice, number % 2 == 1, min(each, count - number * each))


def tried(
    scenes: Sequence[Scene], trials: Iterable[Trial], *, mutant: str | None = None, old: bytes = b""
) -> Iterator[tuple[Trial, Verdict, bytes]]:
    """Yield trial, verdict and a fingerprint of the state, for every state of every trial."""
    with tempfile.TemporaryDirectory(dir="/dev/shm" if Path("/dev/shm").is_dir() else None) as folder:
        given = (list(scenes), mutant, old, folder)
        for trial, found in handled(_prepare, given, trials, LIMIT_S):
            if isinstance(found, Ended):
                yield trial, Verdict(found.word, found.detail), repr(trial).encode()
            else:
                for verdict, fingerprint in found:
                    yield trial, verdict, fingerprint


# ---------------------------------------------------------------- in the child


def _prepare(
    given: tuple[list[Scene], str | None, bytes, str],
) -> Callable[[Trial], list[tuple[Verdict, bytes]]]:
    scenes, mutant, old, folder = given
    stack = ExitStack()
    stack.enter_context(in_process())
    if mutant is not None:
        stack.enter_context(omissions.by_name(mutant).patched())
    bench = _Bench(scenes, old, Path(folder), stack)
    return lambda trial: bench.first(trial) if isinstance(trial, AfterCrash) else bench.second(trial)


class _Bench:
    def __init__(self, scenes: list[Scene], old: bytes, folder: Path, patches: ExitStack) -> None:
        self._patches = patches  # they end when this object does
        self._scenes = scenes
        self._old = old
        self._folder = folder
        self._stop: tuple[int, int, Stop] | None = None

    def first(self, trial: AfterCrash) -> list[tuple[Verdict, bytes]]:
        scene = self._scenes[trial.scene]
        return [self._judge(scene, self._state(trial.scene, trial.choice))]

    def second(self, trial: DuringRecovery) -> list[tuple[Verdict, bytes]]:
        """Recover a state on a recorded disk, then judge states in which that was cut off."""
        scene = self._scenes[trial.scene]
        if trial.after_kill:
            earlier: Log | None = scene.log.upto(trial.choice.position)
            choice = Choice(trial.choice.position, "exact", "ordered", 512, FILLINGS[0], 0)
        else:
            earlier, choice = None, trial.choice
        state = self._state(trial.scene, choice)
        log = self._recovery(scene, state, earlier)
        begin = 0 if earlier is None else len(earlier.events)
        found = []
        for second in choices(log, trial.count, trial.choice.seed or 1, begin=begin):
            after = build(stop_before(log, second.position), second, self._old)
            found.append(self._judge(scene, State(after.files, state.level)))
        return found

    def _recovery(self, scene: Scene, state: State, earlier: Log | None) -> Log:
        folder = self._laid_out(scene, state)
        try:
            disk = RecordedDisk(folder, earlier)
            judge([folder / name for name in scene.folders], scene.truth, state.level, disk)
            return disk.log
        finally:
            shutil.rmtree(folder)

    def _state(self, number: int, choice: Choice) -> State:
        if self._stop is None or self._stop[:2] != (number, choice.position):
            self._stop = (number, choice.position, stop_before(self._scenes[number].log, choice.position))
        return build(self._stop[2], choice, self._old)

    def _judge(self, scene: Scene, state: State) -> tuple[Verdict, bytes]:
        folder = self._laid_out(scene, state)
        try:
            verdict = judge([folder / name for name in scene.folders], scene.truth, state.level)
        except Exception as error:  # noqa: BLE001 - whatever the program raises is what is being looked for
            verdict = Verdict("CRASH", repr(error))
        finally:
            shutil.rmtree(folder)
        return verdict, _fingerprint(scene, state)

    def _laid_out(self, scene: Scene, state: State) -> Path:
        folder = Path(tempfile.mkdtemp(dir=self._folder))
        for name in scene.folders:
            (folder / name).mkdir(exist_ok=True)
        state.lay_out(folder)
        return folder


def _fingerprint(scene: Scene, state: State) -> bytes:
    found = hashlib.blake2b(repr((scene.name, state.level)).encode(), digest_size=12)
    for name, content in sorted(state.files.items()):
        found.update(repr((name, len(content))).encode())
        found.update(content)
    return found.digest()
