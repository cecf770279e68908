"""An emulated instrument over an emulated cell, on a real line, as a program of its own.

It prints ``READY ADDRESS``, where ADDRESS is the source address to record from, and serves until it is
told to end (SIGTERM, Ctrl-C).
"""

from __future__ import annotations

import argparse
import dataclasses
import os
import signal
import sys
import threading
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TextIO

from drivers.errors import SourceError
from drivers.simulated.device import Device, Unplugged
from drivers.simulated.emulated import EMULATED, Emulation, make_device
from drivers.simulated.emulated_board import FORMS
from drivers.simulated.endpoint import Endpoint, PseudoTerminal, TcpPort
from drivers.simulated.faults import Faults, parse_faults
from drivers.simulated.wrong_speed import at_wrong_speed

__all__ = ["main", "of_lesson", "run_emulator"]

_LOOK_AT_STOP_S = 0.2


def run_emulator(
    emulation: Emulation,
    *,
    port: int | None = None,
    faults: Faults | None = None,
    link: Path | None = None,
    stop: threading.Event | None = None,
    output: TextIO | None = None,
) -> None:
    """Serve an emulated instrument until it is told to stop.

    A program that reads a pseudo-terminal at another speed than the line's gets what a serial port would make
    of it.

    Parameters
    ----------
    emulation : what shall be emulated; `of_lesson` returns one over the demonstration lesson.
    port : a TCP port of this computer, 0 for a free one; None for a pseudo-terminal where there are any.
    faults : what shall go wrong.
    link : a path that shall point to the pseudo-terminal.
    stop : ends the serving when set; by default SIGTERM and SIGINT set it.
    output : where ``READY ADDRESS`` goes; by default stdout.

    Raises
    ------
    AddressError : whatever `make_device` refuses.
    CannotOpen : the TCP port is taken.
    """
    faults = faults or Faults()
    device = make_device(emulation, faults)
    stop = stop or _stop_on_signals()
    has_terminals = os.name == "posix"
    endpoint: Endpoint = PseudoTerminal(link) if port is None and has_terminals else TcpPort(port or 0)

    def announce() -> None:
        print(f"READY {emulation.kind}:{endpoint.port}", file=output or sys.stdout, flush=True)

    try:
        announce()
        _Server(device, endpoint, emulation.baud).serve(stop, faults.away_s, announce)
    finally:
        endpoint.close()


def of_lesson(kind: str, seed: int = 1) -> Emulation:
    """Return an instrument of `kind` over the demonstration lesson, with all quantities of its cell."""
    from drivers.simulated.cell import LessonCell  # late: an emulator of a given voltage needs no cell

    cell = LessonCell("demo", seed=seed)
    others = {
        "shunt_voltage": cell.resistor_V,
        "stack_voltage": cell.stack_V,
        "temperature": cell.temperature_C,
    }
    return Emulation(kind, cell.block, others=others)


def _stop_on_signals() -> threading.Event:
    stop = threading.Event()
    for number in (signal.SIGTERM, signal.SIGINT):
        signal.signal(number, lambda *_: stop.set())
    return stop


class _Server:
    """Carries bytes between a device and whoever opens the line, each at its time."""

    def __init__(self, device: Device, endpoint: Endpoint, baud: int) -> None:
        self._device = device
        self._endpoint = endpoint
        self._baud = baud

    def serve(self, stop: threading.Event, away_s: float, announce: Callable[[], None]) -> None:
        """Serve until told to stop; a device that vanishes comes back after `away_s`."""
        begin_s = time.monotonic()
        while not stop.is_set():
            due_s = self._device.next_due_s() if self._endpoint.is_open else None
            wait_s = _LOOK_AT_STOP_S
            if due_s is not None:
                wait_s = min(wait_s, max(due_s - (time.monotonic() - begin_s), 0.0))
            has_opened, data = self._endpoint.poll(wait_s)
            try:
                self._carry(has_opened, data, time.monotonic() - begin_s)
            except Unplugged:
                self._endpoint.unplug()
                stop.wait(away_s)
                self._endpoint.replug()
                announce()

    def _carry(self, has_opened: bool, data: bytes, now_s: float) -> None:
        if has_opened:
            self._device.take(now_s)  # said to nobody
            self._device.attach(now_s)
        other_baud = self._endpoint.reader_baud or self._baud
        if data:
            self._device.receive(self._through_line(data, other_baud, self._baud), now_s)
        if self._endpoint.is_open:
            sent = self._device.take(now_s)
            self._endpoint.send(self._through_line(sent, self._baud, other_baud))

    @staticmethod
    def _through_line(data: bytes, sent_baud: int, read_baud: int) -> bytes:
        return data if sent_baud == read_baud or not data else at_wrong_speed(data, sent_baud, read_baud)


def main(argv: Sequence[str] | None = None) -> int:
    """Run an emulator from the command line, with all that can be ordered; for tests of other programs."""
    parser = argparse.ArgumentParser(prog="python -m drivers.simulated.emulator", description=__doc__)
    parser.add_argument("kind", choices=EMULATED)
    parser.add_argument("--port", type=int, help="TCP port, 0 for a free one (default: a pseudo-terminal)")
    parser.add_argument("--link", type=Path, help="path that shall point to the pseudo-terminal")
    parser.add_argument("--speed", type=float, default=1.0, help="seconds of the cell per second")
    parser.add_argument("--ramp", type=float, metavar="V/S", help="volts per second instead of the demo cell")
    parser.add_argument("--level", type=float, default=0.0, metavar="V", help="where the ramp begins")
    parser.add_argument("--form", choices=sorted(FORMS), default="micros", help="line form of a board")
    parser.add_argument("--rate", type=float, help="readings per second of a board")
    parser.add_argument("--columns", default="", help="names with commas between: see printed_columns")
    parser.add_argument("--lines", default="commas", help="how columns are printed")
    parser.add_argument("--line-baud", type=int, default=0, help="speed of the line")
    parser.add_argument("--fault", action="append", default=[], metavar="NAME=VALUE", help="see Faults")
    arguments = parser.parse_args(argv)
    try:
        faults = parse_faults(arguments.fault)
        emulation = dataclasses.replace(
            _base(arguments, faults.seed),
            speed=arguments.speed,
            form=arguments.form,
            rate=arguments.rate,
            line_baud=arguments.line_baud,
            columns=tuple(filter(None, arguments.columns.split(","))),
            lines=arguments.lines,
        )
        run_emulator(emulation, port=arguments.port, faults=faults, link=arguments.link)
    except SourceError as error:
        sys.stderr.write(f"{error}\n")
        return 1
    return 0


def _base(arguments: argparse.Namespace, seed: int) -> Emulation:
    """Return the demonstration lesson, or the ramp that was asked for, with ten times as much at a shunt."""
    slope, level_V = arguments.ramp, arguments.level
    if slope is None:
        return of_lesson(arguments.kind, seed)
    return Emulation(
        arguments.kind,
        lambda times_s: level_V + slope * times_s,
        others={"shunt_voltage": lambda times_s: 10.0 * (level_V + slope * times_s)},
    )


if __name__ == "__main__":
    sys.exit(main())
