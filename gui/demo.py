"""What runs at the first start: a simulated lesson. No Qt."""

from __future__ import annotations

from pathlib import Path

from gui.session import Plan
from logger.bench import Bench, parse_bench
from logger.folder import resolve_output

__all__ = ["DEMO_ADDRESS", "demo_bench", "demo_plan"]

DEMO_ADDRESS = "cell:demo?speed=20"


def demo_bench() -> Bench:
    """Return the bench of the simulated cell."""
    path = Path(__file__).with_name("demo_bench.toml")
    return parse_bench(path.read_text(encoding="utf-8"), path.name)


def demo_plan(
    out: Path | None = None, *, bench: Bench | None = None, duration_s: float | None = None
) -> Plan:
    """Return the plan of a simulated lesson, recorded in the usual folder unless `out` is given.

    Raises
    ------
    LoggerError : no file can be made there.
    """
    bench = bench or demo_bench()
    return Plan((DEMO_ADDRESS,), resolve_output(out), bench, bench.title or "", duration_s)
