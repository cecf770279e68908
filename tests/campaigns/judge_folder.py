"""Judges folders for a power-cut tester of another origin: python -m tests.campaigns.judge_folder

Reads lines FOLDER<TAB>ACKFILE from stdin and answers each with one line that begins with OK, NOTHING, LOST,
WRONG or UNREADABLE. FOLDER is what is left of

    galvanote record --acks --source "cell:bench?rate=400&seed=1" --out FOLDER/run.h5

and ACKFILE holds what that had printed. A tester that traces the system calls of the real command, children
included, shares nothing with `power_cut`.
"""

from __future__ import annotations

import re
import sys
from pathlib import Path

from drivers.simulated.cell import LessonCell
from logger.errors import RecordingError
from tests.campaigns.kill import judged
from tests.campaigns.scenes import in_process

RATE, SEED = 400, 1


def told(folder: Path, acks: str) -> str:
    """Recover what lies in the folder, and compare with what was acknowledged and with the cell's truth."""
    found = re.findall(r"ACK samples=(\d+) moments=(\d+)", acks)
    samples, moments = map(int, found[-1]) if found else (0, 0)
    try:
        cell = LessonCell("bench", seed=SEED)
        word, detail = judged(folder / "run.h5", samples, moments, cell, RATE, after_power_cut=True)
    except RecordingError as error:
        return f"UNREADABLE {error}"
    if word == "OK" and not (folder / "run.h5").exists():
        return "NOTHING"
    return f"{word} {detail}"


def main() -> int:
    """Answer until stdin ends."""
    with in_process():
        for line in sys.stdin:
            folder, ack_file = line.rstrip("\n").split("\t")
            answer = told(Path(folder), Path(ack_file).read_text())
            print(" ".join(answer.split()), flush=True)
    return 0


if __name__ == "__main__":
    sys.exit(main())
