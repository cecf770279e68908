"""An emulated board: prints lines with its own clock and the voltage of an emulated cell, unasked."""

from __future__ import annotations

import math
import random
from collections.abc import Callable, Sequence
from typing import NamedTuple

from drivers.simulated.faults import Faults, Outbox
from drivers.simulated.printed_columns import PrintedColumns

__all__ = ["FORMS", "BoardColumns", "EmulatedBoard"]

_WRAP = 1 << 32

FORMS: dict[str, Callable[[int, float], str]] = {
    "volts": lambda us, volts: f"{volts:.4f}",
    "millis": lambda us, volts: f"{us // 1000 % _WRAP},{volts:.4f}",
    "micros": lambda us, volts: f"{us % _WRAP},{volts:.4f}",
    "columns": lambda us, volts: f"{us % _WRAP}\t{volts:.4f}\t{20 * volts:.3f}",
    "semicolon": lambda us, volts: f"{us // 1000 % _WRAP};{volts:.4f}".replace(".", ","),
    "json": lambda us, volts: f'{{"ms":{us // 1000 % _WRAP},"v":{_json_number(volts)}}}',
    "pairs": lambda us, volts: f"U={volts:.4f}V I={0.1:.2f}A",
    "checked": lambda us, volts: _checked(f"{us % _WRAP},{volts:.4f}"),
    "counts": lambda us, volts: "nan" if math.isnan(volts) else f"{round(volts / 0.005)}",
}
"""Line forms by name: from the board's microseconds and the volts to the text."""


def _json_number(volts: float) -> str:
    return "null" if math.isnan(volts) else f"{volts:.4f}"


def _checked(text: str) -> str:
    check = 0
    for byte in text.encode():
        check ^= byte
    return f"{text} *{check:02X}"


class BoardColumns(NamedTuple):
    """Several columns of a board: how they are printed, and the voltage or other quantity of each."""

    printed: PrintedColumns
    quantities: Sequence[Callable[[float], float]]

    def line(self, board_us: int, cell_s: float) -> str:
        """Return the line for the board's microseconds and the cell's time in seconds."""
        return self.printed.line(board_us, [quantity(cell_s) for quantity in self.quantities])


class EmulatedBoard:
    """A board that prints one line a reading, as a `Device`.

    Parameters
    ----------
    voltage : called with the cell's time in seconds, never going back; returns volts.
    speed : seconds of the cell per second of the line.
    form : one of `FORMS`.
    columns : what to print instead of `voltage` in `form`.
    rate : lines per second.
    skew_ppm : how much the board's clock is too fast, millionths.
    start_us : what the board's clock shows after it starts.
    latency_s : each line leaves up to this much after its reading, at random.
    boot_s : silence after a program has opened the line and thereby restarted the board.
    header : a first line that names the columns ("" for none).
    """

    def __init__(
        self,
        voltage: Callable[[float], float],
        *,
        speed: float = 1.0,
        faults: Faults | None = None,
        form: str = "micros",
        columns: BoardColumns | None = None,
        rate: float = 10.0,
        skew_ppm: float = 0.0,
        start_us: int = 0,
        latency_s: float = 0.0,
        boot_s: float = 0.1,
        header: str = "",
    ) -> None:
        self._line = columns.line if columns is not None else _one_voltage(form, voltage)
        self._speed = speed
        self._faults = faults or Faults()
        self._rate = rate
        self._skew = 1.0 + skew_ppm * 1e-6
        self._start_us = start_us or 1000 * self._faults.first_count(1e3)
        self._latency_s = latency_s
        self._boot_s = boot_s
        self._header = header
        self._outbox = Outbox(self._faults)
        self._random = random.Random(self._faults.seed)
        self._started_s = 0.0
        self._count = 0
        self._may_reboot = self._faults.reboot_after > 0

    def attach(self, now_s: float) -> None:
        """Restart, as boards do when a program opens the line."""
        self._outbox.clear()
        self._start(now_s)

    def _start(self, now_s: float) -> None:
        self._started_s = now_s + self._boot_s
        self._count = 0
        for line in filter(None, (self._faults.banner, self._header)):
            self._outbox.post(self._started_s, line.encode() + b"\r\n")

    def receive(self, data: bytes, now_s: float) -> None:
        """Take no notice: this board listens to nobody."""

    def next_due_s(self) -> float | None:
        """Return when the next line leaves."""
        waiting = self._outbox.next_due_s()
        return self._reading_s() if waiting is None else min(waiting, self._reading_s())

    def take(self, now_s: float) -> bytes:
        """Take the readings that are due and return the lines that have left."""
        while (time_s := self._reading_s()) <= now_s:
            self._count += 1
            board_us = self._start_us + round((time_s - self._started_s) * self._skew * 1e6)
            line = self._line(board_us, time_s * self._speed)
            leaves_s = time_s + self._random.uniform(0.0, self._latency_s)
            self._outbox.post(leaves_s, line.encode() + b"\r\n")
            if self._may_reboot and self._count == self._faults.reboot_after:
                self._may_reboot = False
                self._start(time_s)
        return self._outbox.take(now_s)

    def _reading_s(self) -> float:
        return self._started_s + (self._count + 1) / self._rate


def _one_voltage(form: str, voltage: Callable[[float], float]) -> Callable[[int, float], str]:
    write = FORMS[form]
    return lambda board_us, cell_s: write(board_us, voltage(cell_s))
