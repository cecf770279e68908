"""Power cuts at any moment of a run, of edits and of recovery: python -m tests.campaigns.power_cut

Records several scenes once on a disk that writes everything down, builds states that an untimely stop can
leave (tests/campaigns/crash_model.py says which), opens each as the program would and compares with what had
been acknowledged. Exit status 1 when anything was lost, wrong or unreadable.
"""

from __future__ import annotations

import argparse
import sys
import time
from collections.abc import Iterable, Sequence

from tests.campaigns import scenes
from tests.campaigns.crash_model import FILLINGS
from tests.campaigns.scenes import Scene
from tests.campaigns.table import print_table
from tests.campaigns.trials import HEAD, Tally, Trial, first_order, second_order, tried

EACH = 10
"""How often one recovery is cut off."""


def tally(found: Sequence[Scene], trials: Iterable[Trial], old: bytes = b"") -> dict[str, Tally]:
    """Judge all trials; return the figures by scene."""
    figures = {scene.name: Tally() for scene in found}
    for trial, verdict, fingerprint in tried(found, trials, old=old):
        figures[found[trial.scene].name].add(trial, verdict, fingerprint)
    return figures


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the campaign; return 1 when it found something bad."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--quick", action="store_true", help="few states, a few seconds")
    parser.add_argument("--states", type=int, default=20_000)
    parser.add_argument("--recovery", type=int, default=5_000, help="states during recovery")
    parser.add_argument("--old", type=int, default=5_000, help="states with an old journal underneath")
    parser.add_argument("--seed", type=int, default=1)
    chosen = parser.parse_args(arguments)
    if chosen.quick:
        chosen.states, chosen.recovery, chosen.old = 150, 50, 40
    began_s = time.monotonic()
    plain = scenes.plain_run(chosen.seed)
    runs = [plain, scenes.two_channels(), scenes.replacing(), scenes.second_copy()]
    everything = [*runs, scenes.edits()]
    old = scenes.plain_run(chosen.seed + 1000).journal_bytes()
    rows = []
    examples: list[str] = []
    bad = 0
    parts = (
        ("", everything, first_order(everything, chosen.states, chosen.seed), b""),
        (
            ", during recovery",
            everything,
            second_order(everything, chosen.recovery, chosen.seed + 100, EACH),
            b"",
        ),
        (
            ", old journal beneath",
            [plain],
            first_order([plain], chosen.old, chosen.seed + 200, FILLINGS[2:]),
            old,
        ),
    )
    for suffix, found, trials, beneath in parts:
        for name, figures in tally(found, trials, beneath).items():
            rows.append(figures.row(name + suffix))
            examples += figures.examples
            bad += figures.bad
    print_table(HEAD, rows)
    states = sum(int(str(row[1])) for row in rows)
    print(f"{states} states, {bad} bad, {time.monotonic() - began_s:.0f} s")
    print("\n".join(examples))
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main())
