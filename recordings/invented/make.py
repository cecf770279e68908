"""Make the invented recordings of this folder anew: .venv/bin/python recordings/invented/make.py [FOLDER]

Each is a run of the simulated cell through the real recorder, a few thousand times faster than it would
happen. Nothing in them was ever measured; titles, moments, bench and instrument say so in every file.
The readings come out the same each time. Start time and identity of a run are new each time, so make them
anew only when a recording or what is found in it has changed.
"""

from __future__ import annotations

import sys
from dataclasses import dataclass
from pathlib import Path

from drivers.registry import make_source
from logger.analysis.findings import findings
from logger.kept_findings import keep
from logger.reader import read_recording
from logger.run import Run

__all__ = ["RECORDINGS", "InventedRun", "make_recording"]

HERE = Path(__file__).resolve().parent
SPEED = 5000
LONGEST_S = 60.0  # host seconds; a run takes about one


@dataclass(frozen=True, slots=True)
class InventedRun:
    """One recording to be made.

    Attributes
    ----------
    name : file name below the folder, without its ending.
    title : as it stands in the recording.
    lesson, seed, noise, fault : what the simulated cell goes through (`drivers.simulated`).
    """

    name: str
    title: str
    seed: int
    lesson: str = "demo"
    noise: str = "lesson"
    fault: str = "rounded_1mV"

    @property
    def address(self) -> str:
        """The address of the simulated cell."""
        return (
            f"cell:{self.lesson}?seed={self.seed}&noise={self.noise}&rate=2&fault={self.fault}&speed={SPEED}"
        )


def _bench(number: int, words: str, **changes: str) -> InventedRun:
    title = f"Invented: bench {number} of a class, {words}"
    return InventedRun(f"class/bench-{number}", title, seed=20 + number, noise="rough", **changes)


RECORDINGS: tuple[InventedRun, ...] = (
    InventedRun("good-lesson", "Invented: a good lesson", seed=11),
    InventedRun(
        "salt-too-early", "Invented: the salt came too early", seed=12, fault="rounded_1mV,salt_early"
    ),
    InventedRun(
        "touching-electrodes",
        "Invented: the electrodes touched for 20 s",
        seed=13,
        fault="rounded_1mV,touching",
    ),
    InventedRun("blank", "Invented: a blank, no salt", seed=14, lesson="blank"),
    *(_bench(number, "with salt") for number in (1, 2, 3, 4)),
    _bench(5, "with salt, dipped too little after the swap", fault="rounded_1mV,half_dipped"),
    *(_bench(number, "blank", lesson="blank") for number in (6, 7)),
)
"""What is made. The class compares five runs with salt, one of them off the others, and two blanks."""


def make_recording(one: InventedRun, folder: Path) -> Path:
    """Record one run into `folder`, with its findings; return the file. What had its name is replaced.

    Raises
    ------
    LoggerError : it could not be recorded or saved.
    """
    out = folder / f"{one.name}.h5"
    out.parent.mkdir(parents=True, exist_ok=True)
    bench = (HERE / "bench.toml").read_text(encoding="utf-8")
    run = Run([make_source(one.address)], out, title=one.title, bench_toml=bench, replace=True)
    run.start()
    try:
        if not run.wait_ended(LONGEST_S):
            raise TimeoutError(f"{out}: the simulated run took longer than {LONGEST_S:g} s")
    finally:
        saved = run.stop()
    recording = read_recording(saved)
    keep(recording, {**findings(recording), "file": saved.name})
    return saved


def main(arguments: list[str]) -> int:
    """Make all of them, here or in the folder named."""
    folder = Path(arguments[0]) if arguments else HERE
    for one in RECORDINGS:
        saved = make_recording(one, folder)
        sys.stdout.write(f"{one.name:<22}{saved.stat().st_size / 1000:6.0f} kB  {one.title}\n")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
