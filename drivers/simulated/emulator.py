"""An emulated instrument over an emulated cell, on a real line, as a program of its own.

It prints ``READY ADDRESS``, where ADDRESS is the source address to record from, and serves until it is
told to end (SIGTERM, Ctrl-C).
"""

from __future__ import annotations

import argparse
import os
import signal
import sys
import threading
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TextIO

import numpy as np
from numpy.typing import NDArray

from drivers.errors import SourceError
from drivers.simulated.device import Device, Unplugged
from drivers.simulated.emulated import EMULATED, Emulation, make_device
from drivers.simulated.emulated_board import FORMS
from drivers.simulated.endpoint import Endpoint, PseudoTerminal, TcpPort
from drivers.simulated.faults import Faults, parse_faults
from drivers.simulated.wrong_speed import at_wrong_speed

__all__ = ["main", "run_emulator"]

_LOOK_AT_STOP_S = 0.2


def run_emulator(
    kind: str,
    *,
    port: int | None = None,
    speed: float = 1.0,
    faults: Faults | None = None,
    volts: Callable[[NDArray[np.float64]], NDArray[np.float64]] | None = None,
    form: str = "micros",
    rate: float | None = None,
    line_baud: int = 0,
    link: Path | None = None,
    stop: threading.Event | None = None,
    output: TextIO | None = None,
) -> None:
    """Serve an emulated instrument until it is told to stop.

    Parameters
    ----------
    kind : one of `emulated.EMULATED`.
    port : a TCP port of this computer, 0 for a free one; None for a pseudo-terminal where there are any.
    speed : seconds of the cell per second.
    faults : what shall go wrong.
    volts : from the cell's times in seconds to volts; by default the demonstration lesson.
    form, rate, line_baud : see `emulated.Emulation`. A program that reads a pseudo-terminal at another speed
        than the line's gets what a serial port would make of it.
    link : a path that shall point to the pseudo-terminal.
    stop : ends the serving when set; by default SIGTERM and SIGINT set it.
    output : where ``READY ADDRESS`` goes; by default stdout.

    Raises
    ------
    AddressError : unknown kind or form, an impossible rate, or a fault that this kind cannot have.
    CannotOpen : the TCP port is taken.
    """
    faults = faults or Faults()
    emulation = Emulation(kind, volts or _demo_volts(faults.seed), speed, rate, form, line_baud)
    device = make_device(emulation, faults)
    stop = stop or _stop_on_signals()
    has_terminals = os.name == "posix"
    endpoint: Endpoint = PseudoTerminal(link) if port is None and has_terminals else TcpPort(port or 0)

    def announce() -> None:
        print(f"READY {kind}:{endpoint.port}", file=output or sys.stdout, flush=True)

    try:
        announce()
        _Server(device, endpoint, emulation.baud).serve(stop, faults.away_s, announce)
    finally:
        endpoint.close()


def _demo_volts(seed: int) -> Callable[[NDArray[np.float64]], NDArray[np.float64]]:
    from drivers.simulated.cell import LessonCell  # late: an emulator of a given voltage needs no cell

    return LessonCell("demo", seed=seed).block


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
    parser.add_argument("--line-baud", type=int, default=0, help="speed of the line")
    parser.add_argument("--fault", action="append", default=[], metavar="NAME=VALUE", help="see Faults")
    arguments = parser.parse_args(argv)
    slope, level_V = arguments.ramp, arguments.level
    try:
        run_emulator(
            arguments.kind,
            port=arguments.port,
            speed=arguments.speed,
            faults=parse_faults(arguments.fault),
            volts=None if slope is None else (lambda times_s: level_V + slope * times_s),
            form=arguments.form,
            rate=arguments.rate,
            line_baud=arguments.line_baud,
            link=arguments.link,
        )
    except SourceError as error:
        sys.stderr.write(f"{error}\n")
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
