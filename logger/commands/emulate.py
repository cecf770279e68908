"""An emulated instrument over an emulated cell, on a loopback TCP port or a pseudo-terminal.

Prints READY ADDRESS, the source address to record from. Ends on Ctrl-C or SIGTERM.

KIND: scpi, a meter that answers queries; lcd14, ascii14, digit11, digit14, stx16, handheld meters that send
frames; text, a board that prints lines; packet, a board that sends packets.

A board can watch several things at once, for example --columns time_ms,cell_voltage,shunt_voltage. Columns:
time_ms, time_us (text only), cell_voltage, shunt_voltage (across the series resistor), stack_voltage,
temperature. A packet board sends one input for each.

Faults to order with --fault NAME=VALUE: drop, flip (shares of bytes), garbage (share of messages),
late_every, late_s, lost_every, twice_every, half_at, stall_at, stall_s, unplug_after, away_s, reboot_after,
wrap_after_s, ac_after, ac_count, wrong_speed, cr_only, echo, banner, seed.
"""

from __future__ import annotations

import argparse
import dataclasses


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
        "--rate", type=float, metavar="N", help="readings a second of a board (default: text 10, packet 860)"
    )
    parser.add_argument(
        "--columns", default="", metavar="NAME,NAME", help="what a board measures (default: the cell voltage)"
    )
    parser.add_argument(
        "--lines",
        default="commas",
        metavar="STYLE",
        help="how a text board prints its columns: commas, tabs, semicolons (with decimal commas), blanks, "
        "json, pairs (NAME=VALUE with units)",
    )
    parser.add_argument(
        "--header", action="store_true", help="print the names of the columns first, when the line is opened"
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
    from drivers.simulated.emulator import of_lesson, run_emulator
    from drivers.simulated.faults import parse_faults

    if arguments.port is not None and not 0 <= arguments.port <= 65535:
        raise AddressError(f"--port {arguments.port} is no TCP port; give one from 1 to 65535, or 0 for any")
    if not 0 < arguments.speed <= 10_000:
        raise AddressError(f"--speed {arguments.speed:g}: the speed must be above 0 and at most 10000")
    faults = parse_faults(arguments.fault)
    emulation = dataclasses.replace(
        of_lesson(arguments.kind, faults.seed),
        speed=arguments.speed,
        rate=arguments.rate,
        columns=tuple(filter(None, arguments.columns.split(","))),
        lines=arguments.lines,
        has_header=arguments.header,
    )
    run_emulator(emulation, port=arguments.port, faults=faults)
    return 0
