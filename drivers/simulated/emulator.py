"""An emulated instrument over an emulated cell, on a real line, as a program of its own.

It prints ``READY ADDRESS``, where ADDRESS is the source address to record from, and serves until it is
told to end (SIGTERM, Ctrl-C).
"""

from __future__ import annotations

import argparse
import dataclasses
import difflib
import os
import signal
import sys
import threading
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TextIO

from drivers.errors import AddressError, SourceError
from drivers.simulated.device import Device, Unplugged
from drivers.simulated.emulated_board import FORMS, EmulatedBoard
from drivers.simulated.emulated_meter import EmulatedMeter
from drivers.simulated.endpoint import Endpoint, PseudoTerminal, TcpPort
from drivers.simulated.faults import Faults

__all__ = ["EMULATED", "main", "run_emulator"]

EMULATED = ("scpi", "text")
"""The kinds of instrument that can be emulated."""

_LOOK_AT_STOP_S = 0.2


def run_emulator(
    kind: str,
    *,
    port: int | None = None,
    speed: float = 1.0,
    faults: Faults | None = None,
    voltage: Callable[[float], float] | None = None,
    form: str = "micros",
    rate: float = 10.0,
    link: Path | None = None,
    stop: threading.Event | None = None,
    output: TextIO | None = None,
) -> None:
    """Serve an emulated instrument until it is told to stop.

    Parameters
    ----------
    kind : one of `EMULATED`.
    port : a TCP port of this computer, 0 for a free one; None for a pseudo-terminal where there are any.
    speed : seconds of the cell per second.
    faults : what shall go wrong.
    voltage : volts at the cell's time in seconds; by default the demonstration lesson.
    form, rate : of a board: one of `emulated_board.FORMS`, and lines per second.
    link : a path that shall point to the pseudo-terminal.
    stop : ends the serving when set; by default SIGTERM and SIGINT set it.
    output : where ``READY ADDRESS`` goes; by default stdout.

    Raises
    ------
    AddressError : unknown kind.
    CannotOpen : the TCP port is taken.
    """
    faults = faults or Faults()
    device = _make_device(kind, voltage or _demo_voltage(faults.seed), speed, faults, form, rate)
    stop = stop or _stop_on_signals()
    has_terminals = os.name == "posix"
    endpoint: Endpoint = PseudoTerminal(link) if port is None and has_terminals else TcpPort(port or 0)

    def announce() -> None:
        print(f"READY {kind}:{endpoint.port}", file=output or sys.stdout, flush=True)

    try:
        announce()
        _serve(device, endpoint, stop, faults.away_s, announce)
    finally:
        endpoint.close()


def _make_device(
    kind: str, voltage: Callable[[float], float], speed: float, faults: Faults, form: str, rate: float
) -> Device:
    if kind == "scpi":
        return EmulatedMeter(voltage, speed=speed, faults=faults)
    if kind == "text":
        return EmulatedBoard(voltage, speed=speed, faults=faults, form=form, rate=rate)
    near = difflib.get_close_matches(kind, EMULATED, n=1, cutoff=0.5)
    hint = f"; did you mean {near[0]}?" if near else ""
    raise AddressError(f"there is no emulated instrument {kind!r}{hint} (known: {', '.join(EMULATED)})")


def _demo_voltage(seed: int) -> Callable[[float], float]:
    from drivers.simulated.cell import LessonCell  # late: an emulator of a given voltage needs no cell

    return LessonCell("demo", seed=seed).voltage_V


def _stop_on_signals() -> threading.Event:
    stop = threading.Event()
    for number in (signal.SIGTERM, signal.SIGINT):
        signal.signal(number, lambda *_: stop.set())
    return stop


def _serve(
    device: Device, endpoint: Endpoint, stop: threading.Event, away_s: float, announce: Callable[[], None]
) -> None:
    """Carry bytes between the device and whoever opens the line, each at its time."""
    begin_s = time.monotonic()
    while not stop.is_set():
        due_s = device.next_due_s() if endpoint.is_open else None
        wait_s = _LOOK_AT_STOP_S
        if due_s is not None:
            wait_s = min(wait_s, max(due_s - (time.monotonic() - begin_s), 0.0))
        has_opened, data = endpoint.poll(wait_s)
        now_s = time.monotonic() - begin_s
        try:
            if has_opened:
                device.take(now_s)  # said to nobody
                device.attach(now_s)
            if data:
                device.receive(data, now_s)
            if endpoint.is_open:
                endpoint.send(device.take(now_s))
        except Unplugged:
            endpoint.unplug()
            stop.wait(away_s)
            endpoint.replug()
            announce()


def main(argv: Sequence[str] | None = None) -> int:
    """Run an emulator from the command line, with all its faults to order; for tests of other programs."""
    parser = argparse.ArgumentParser(prog="python -m drivers.simulated.emulator", description=__doc__)
    parser.add_argument("kind", choices=EMULATED)
    parser.add_argument("--port", type=int, help="TCP port, 0 for a free one (default: a pseudo-terminal)")
    parser.add_argument("--link", type=Path, help="path that shall point to the pseudo-terminal")
    parser.add_argument("--speed", type=float, default=1.0, help="seconds of the cell per second")
    parser.add_argument("--ramp", type=float, metavar="V/S", help="volts per second instead of the demo cell")
    parser.add_argument("--form", choices=sorted(FORMS), default="micros", help="line form of a board")
    parser.add_argument("--rate", type=float, default=10.0, help="lines per second of a board")
    parser.add_argument("--fault", action="append", default=[], metavar="NAME=VALUE", help="see Faults")
    arguments = parser.parse_args(argv)
    slope = arguments.ramp
    try:
        run_emulator(
            arguments.kind,
            port=arguments.port,
            speed=arguments.speed,
            faults=_parse_faults(arguments.fault),
            voltage=None if slope is None else (lambda time_s: slope * time_s),
            form=arguments.form,
            rate=arguments.rate,
            link=arguments.link,
        )
    except SourceError as error:
        sys.stderr.write(f"{error}\n")
        return 1
    return 0


def _parse_faults(texts: list[str]) -> Faults:
    """Read ``NAME=VALUE`` pairs; a yes-or-no fault is ordered by its name alone."""
    plain = dataclasses.asdict(Faults())
    for text in texts:
        name, _, value = text.partition("=")
        if name not in plain:
            raise AddressError(f"there is no fault {name!r} (known: {', '.join(plain)})")
        kind = type(plain[name])
        plain[name] = True if kind is bool else kind(value)
    return Faults(**plain)


if __name__ == "__main__":
    sys.exit(main())
