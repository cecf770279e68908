"""Size the supply of a run: stack, resistor, current, ratings, fuse, meter, run time and hydrogen.

With --current or --current-density the nearest resistors one can buy; otherwise what the resistor of the
bench file gives. What the bench file does not say is assumed, and said.
"""

from __future__ import annotations

import argparse
import json
import sys
from pathlib import Path


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of this command."""
    parser.add_argument("--bench", type=Path, metavar="B.toml", help="what stands on the table")
    wanted = parser.add_mutually_exclusive_group()
    wanted.add_argument("--current", type=_number, metavar="A", help="wanted current in ampere (0.002)")
    wanted.add_argument(
        "--current-density",
        type=_number,
        metavar="mA/cm2",
        help="wanted, on the anode area of the bench file",
    )
    parser.add_argument("--json", action="store_true", help="print one JSON document")


def _number(text: str) -> float:
    try:
        return float(text)
    except ValueError:
        raise argparse.ArgumentTypeError(
            f"'{text}' is not a number; give it with a point and without a unit, for example 0.002"
        ) from None


def run(arguments: argparse.Namespace) -> int:
    """Plan, and print the plan."""
    from logger.analysis.planned_current import checked_current_A, current_from_density_A
    from logger.analysis.supply_plan import plan_supply
    from logger.analysis.supply_plan_text import plan_text
    from logger.bench import read_bench
    from logger.bench_tables import Bench

    current_A = None if arguments.current is None else checked_current_A(arguments.current)
    if arguments.bench is None and arguments.current_density is not None:
        print(
            "galvanote: --current-density needs the area of the anode: give --bench B.toml with [cell] "
            "anode_area_cm2, or --current instead",
            file=sys.stderr,
        )
        return 2
    if arguments.bench is None and current_A is None:
        print("galvanote: plan needs --current or --bench B.toml; see galvanote plan --help", file=sys.stderr)
        return 2
    bench = Bench() if arguments.bench is None else read_bench(arguments.bench)
    if arguments.current_density is not None:
        current_A = current_from_density_A(arguments.current_density, bench)
    plan = plan_supply(bench, current_A)
    if arguments.json:
        print(json.dumps(plan.document, ensure_ascii=False, indent=2, allow_nan=False))
    else:
        print(plan_text(plan))
    return 0
