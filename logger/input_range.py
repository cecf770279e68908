"""Does the meter hold what the run will put on it? With the cell open that is the whole stack. Pure."""

from __future__ import annotations

import math

from logger.bench import Bench

__all__ = ["divider_advice", "open_voltage_V"]

MARGIN = 1.05
"""Fresh cells lie above their nominal voltage (common practice, no source)."""

USUAL_RATIOS = (2, 3, 5, 6, 10, 11, 16, 20, 21, 51, 101)


def open_voltage_V(bench: Bench) -> float | None:
    """Return the voltage of the open stack as the bench file has it, None if it does not say."""
    supply = bench.supply
    if supply.stack_voltage_V is not None:
        return supply.stack_voltage_V
    if supply.cells is not None and supply.cell_voltage_V is not None:
        return supply.cells * supply.cell_voltage_V
    return None


def divider_advice(bench: Bench, scale: float = 1.0) -> str:
    """Return what to do about a range that does not hold the open stack, "" if it does or nothing tells.

    Parameters
    ----------
    bench : with the meter's range and the stack.
    scale : of the source's address: the ratio of a divider that is there already.
    """
    stack_V, range_V = open_voltage_V(bench), bench.meter.range_V
    if stack_V is None or range_V is None or range_V * abs(scale) >= stack_V:
        return ""
    least = math.ceil(MARGIN * stack_V / range_V)
    ratio = next((one for one in USUAL_RATIOS if one >= least), least)
    return (
        f"While the cell is open (dry, or a lead off), the whole stack of {stack_V:g} V lies on the meter's "
        f"input, whose range is {range_V:g} V: that reads as overload and may harm a board's input. Choose a "
        f"larger range, or put a divider before it, for example {ratio}:1, and add scale={ratio} to the "
        "address."
    )
