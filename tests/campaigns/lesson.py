"""Do the real commands find what the simulator knows? python tests/campaigns/lesson.py --seeds 100

Records `cell:demo` with `galvanote record`, runs `galvanote analyse --json`, and counts in how many runs
the truth of before, after, saved and saved at equal current lies in the stated 95 % interval. Variants:
plain, reversed leads, rounding to 1 mV. Exit status 1 when any of them holds in fewer than 90 of 100.
"""

from __future__ import annotations

import argparse
import json
import subprocess
import sys
import tempfile
from collections.abc import Iterator, Mapping
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any

import numpy as np
from scipy.special import stdtrit

from logger.reader import read_recording

ROOT = Path(__file__).resolve().parents[2]
BENCH = ROOT / "recordings" / "example-bench.toml"
VARIANTS = {"plain": "", "reversed leads": "&fault=reversed_leads", "1 mV rounding": "&fault=rounded_1mV"}
QUANTITIES = ("before", "after", "saved", "saved at equal current")
NEEDED = 0.9


def galvanote(*arguments: str) -> str:
    """Run one command in a process of its own; return what it printed on stdout."""
    code = "import sys; from logger.commands import main; sys.exit(main())"
    result = subprocess.run(
        [sys.executable, "-c", code, *arguments],
        cwd=ROOT,
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        check=False,
    )
    if result.returncode != 0:
        raise RuntimeError(f"galvanote {' '.join(arguments)}: status {result.returncode}\n{result.stderr}")
    return result.stdout


def run_once(seed: int, variant: str, speed: float, folder: Path) -> dict[str, bool]:
    """Record and analyse one lesson; tell for each quantity whether its interval holds the truth."""
    out = folder / f"{seed}-{variant.replace(' ', '-')}.h5"
    address = f"cell:demo?seed={seed}&speed={speed:g}{VARIANTS[variant]}"
    galvanote("record", "--source", address, "--bench", str(BENCH), "--out", str(out))
    (found,) = json.loads(galvanote("analyse", "--json", str(out)))
    truth = read_recording(out).channels[0].instrument["details"]
    out.unlink()
    return judge(found, truth)


def judge(found: Mapping[str, Any], truth: Mapping[str, float]) -> dict[str, bool]:
    """Compare findings with the simulator's truth."""
    held = {}
    for phase in ("before", "after"):
        held[phase] = holds(interval_of(found["settled"][phase]), truth[f"truth_voltage_{phase}_V"])
    saved = found["voltage_saved"]
    held["saved"] = holds(saved and saved["interval95_V"], truth["truth_saved_V"])
    equal = None
    if saved and saved["at_equal_current_V"] is not None:
        equal = saved["at_equal_current_interval95_V"]
    held["saved at equal current"] = holds(equal, truth["truth_saved_at_equal_current_V"])
    return held


def interval_of(settled: Mapping[str, Any] | None) -> tuple[float, float] | None:
    """Return the 95 % interval of a settled voltage, by Student's t at its effective samples."""
    if settled is None:
        return None
    factor = float(stdtrit(max(settled["effective_samples"] - 1, 1), 0.975))
    half = factor * settled["standard_uncertainty_V"]
    return settled["voltage_V"] - half, settled["voltage_V"] + half


def holds(interval: Any, truth: float) -> bool:
    """Tell whether the truth lies in an interval; a missing one holds nothing."""
    return bool(interval) and interval[0] <= truth <= interval[1]


def run_all(seeds: int, speed: float, folder: Path) -> Iterator[tuple[str, dict[str, int]]]:
    """Yield for each variant in how many runs each quantity held."""
    with ThreadPoolExecutor(2) as pool:
        for variant in VARIANTS:
            results = list(pool.map(lambda seed, v=variant: run_once(seed, v, speed, folder), range(seeds)))
            yield variant, {q: int(np.sum([r[q] for r in results])) for q in QUANTITIES}


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seeds", type=int, default=100)
    parser.add_argument("--speed", type=float, default=2000)
    parser.add_argument("--quick", action="store_true", help="four seeds")
    arguments = parser.parse_args()
    seeds = 4 if arguments.quick else arguments.seeds
    print(f"{'variant':<16}" + "".join(f"{q:>26}" for q in QUANTITIES) + f"   of {seeds}")
    worst = 1.0
    with tempfile.TemporaryDirectory() as folder:
        for variant, held in run_all(seeds, arguments.speed, Path(folder)):
            print(f"{variant:<16}" + "".join(f"{held[q]:>26}" for q in QUANTITIES), flush=True)
            worst = min(worst, *(n / seeds for n in held.values()))
    return 0 if worst >= NEEDED else 1


if __name__ == "__main__":
    sys.exit(main())
