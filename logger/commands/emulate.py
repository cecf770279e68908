"""An emulated instrument over an emulated cell, on a loopback TCP port or a pseudo-terminal.

Prints READY ADDRESS, the source address to record from. Ends on Ctrl-C or SIGTERM.

KIND: scpi, a meter that answers queries; lcd14, ascii14, digit11, digit14, stx16, handheld meters that send
frames; text, a board that prints lines; packet, a board that sends packets.

Faults to order with --fault NAME=VALUE: drop, flip (shares of bytes), garbage (share of messages),
late_every, late_s, lost_every, stall_at, stall_s, unplug_after, away_s, reboot_after, ac_after, ac_count,
wrong_speed, echo, banner, seed.
"""

from __future__ import annotations

import argparse


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of this command."""
    parser.add_argument("kind", metavar="KIND", help="the kind of instrument")
    parser.add_argument(
        "--port", type=int, metavar="N", help="loopback TCP port, 0 for any free one (else a pty)"
    )
    parser.add_argument(
        "--speed", type=float, default=1.0, metavar="X", help="cell seconds per second (default 1)"
    )
    parser.add_argument(
        "--fault",
        action="append",
        default=[],
        metavar="NAME=VALUE",
        help="what shall go wrong, for example drop=0.001 or unplug_after=100; may be repeated",
    )


def run(arguments: argparse.Namespace) -> int:
    """Serve until told to stop."""
    from drivers.errors import AddressError
    from drivers.simulated.emulator import run_emulator
    from drivers.simulated.faults import parse_faults

    if arguments.port is not None and not 0 <= arguments.port <= 65535:
        raise AddressError(f"--port {arguments.port} is no TCP port; give one from 1 to 65535, or 0 for any")
    if not 0 < arguments.speed <= 10_000:
        raise AddressError(f"--speed {arguments.speed:g}: the speed must be above 0 and at most 10000")
    run_emulator(
        arguments.kind, port=arguments.port, speed=arguments.speed, faults=parse_faults(arguments.fault)
    )
    return 0
