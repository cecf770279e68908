"""Does the power-cut campaign notice a safety step that is left out? python -m tests.campaigns.mutants

A campaign that finds nothing wrong proves something only if it finds what is wrong. Each omission must be
caught, and the recorder as it is must pass. Exit status 1 otherwise.
"""

from __future__ import annotations

import argparse
import itertools
import sys
from collections.abc import Callable, Sequence

from tests.campaigns import scenes
from tests.campaigns.crash_model import FILLINGS
from tests.campaigns.omissions import OMISSIONS, Omission
from tests.campaigns.scenes import Scene
from tests.campaigns.table import print_table
from tests.campaigns.trials import HEAD, AfterCrash, Tally, first_order, tried

STRIDE = 16
NOTHING = Omission("nothing left out", "plain")
SCENES: dict[str, Callable[..., Scene]] = {
    "plain": scenes.plain_run,
    "replacing": scenes.replacing,
    "edits": scenes.edits,
}


def judged(omission: Omission, states: int, *, stop_when_caught: bool) -> Tally:
    """Record with the step left out and judge states until it is caught, or all of them."""
    old = b""
    with omission.patched():
        scene = SCENES[omission.scene](mutate=omission.disk)
        if omission.over_old_journal:
            old = SCENES[omission.scene](seed=1001).journal_bytes()
    fillings = FILLINGS[2:] if old else FILLINGS[:2]
    trials = list(first_order([scene], states, 1, fillings))
    tally = Tally()
    for trial, verdict, fingerprint in tried([scene], _spread(trials), mutant=_name(omission), old=old):
        tally.add(trial, verdict, fingerprint)
        if tally.bad and stop_when_caught:
            break
    return tally


def _spread(trials: Sequence[AfterCrash]) -> list[AfterCrash]:
    """Return them in another order: an omission shows in one part of a run only, and that comes early so.

    Every so many-th first, from the beginning and from the end in turns: most show where a run is archived.
    """
    strided = [trial for begin in range(STRIDE) for trial in trials[begin::STRIDE]]
    in_turns = itertools.chain.from_iterable(zip(strided, reversed(strided), strict=True))
    return list(itertools.islice(in_turns, len(strided)))


def _name(omission: Omission) -> str | None:
    return None if omission is NOTHING else omission.name


def main(arguments: Sequence[str] | None = None) -> int:
    """Try every omission; return 1 when one is not caught, or the recorder as it is fails."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument(
        "--quick", action="store_true", help="stop at the first bad state of each; all of them take an hour"
    )
    parser.add_argument("--states", type=int, default=6000)
    parser.add_argument("--only", help="one omission, by name")
    chosen = parser.parse_args(arguments)
    rows = []
    survivors = []
    for omission in (NOTHING, *OMISSIONS):
        if chosen.only not in (None, omission.name):
            continue
        states = 100 if chosen.quick and omission is NOTHING else chosen.states
        tally = judged(omission, states, stop_when_caught=chosen.quick)
        is_right = (tally.bad == 0) == (omission is NOTHING)
        if not is_right:
            survivors.append(omission.name)
        told = "passes" if tally.bad == 0 else "caught"
        if tally.examples and not chosen.quick:
            print(f"{omission.name}: {tally.examples[0]}")
        rows.append([*tally.row(omission.name), told if is_right else told.upper() + "!"])
    print_table([*HEAD, "so it"], rows)
    print(f"not as it should be: {', '.join(survivors) or 'none'}")
    return 1 if survivors else 0


if __name__ == "__main__":
    sys.exit(main())
