"""Hold a meter against known voltages, once; every later recording with it is then corrected.

zero: its two leads are held together. against: they are on a voltage that a better meter shows. The zero
alone corrects the zero, one known voltage the gain; two or more give the straight line through them. It is
kept for this instrument, with its date, and used by itself whenever the instrument is recorded. An instrument
is known again by the serial number that it or its adapter tells, or by name= in the address.
"""

from __future__ import annotations

import argparse
import json
import sys
import time
from dataclasses import asdict
from datetime import date
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from drivers.source import Channel, Source
    from logger.calibration import Calibration

DEFAULT_S = 5.0
LONGEST_S = 600.0


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of this command."""
    ways = parser.add_subparsers(dest="way", metavar="zero | against | show | forget", required=True)
    zero = ways.add_parser("zero", help="the meter's two leads are held together")
    against = ways.add_parser("against", help="the meter's leads are on a known voltage")
    against.add_argument(
        "--volts", type=float, required=True, metavar="V", help="the known voltage, for example 2.500"
    )
    against.add_argument(
        "--by",
        default="",
        metavar="WORDS",
        help="what it is known by, for example 'bench meter, checked 2026'",
    )
    for way in (zero, against):
        way.add_argument("address", metavar="ADDRESS", help="the source address, as for record")
        way.add_argument("--for", dest="duration", metavar="DURATION", help="how long to read (5s)")
    show = ways.add_parser("show", help="what is kept, by instrument")
    forget = ways.add_parser("forget", help="remove what is kept for an instrument")
    forget.add_argument("instrument", metavar="INSTRUMENT", help="as show prints it")
    for way in (zero, against, show):
        way.add_argument("--json", action="store_true", help="print one JSON document and nothing else")


def run(arguments: argparse.Namespace) -> int:
    """Take a point, show, or forget."""
    from logger.calibration_store import CalibrationStore

    store = CalibrationStore()
    if arguments.way == "show":
        _show({**store.all()}, as_json=arguments.json)
    elif arguments.way == "forget":
        store.forget(arguments.instrument)
        print(f"Forgotten: {arguments.instrument}")
    else:
        _take(arguments, store_path=str(store.path))
    return 0


def _take(arguments: argparse.Namespace, *, store_path: str) -> None:
    from logger.calibration import add_point, point_from_readings
    from logger.calibration_store import CalibrationStore
    from logger.duration import parse_duration_s

    true_V = 0.0 if arguments.way == "zero" else arguments.volts
    limit_s = parse_duration_s(arguments.duration) if arguments.duration else DEFAULT_S
    identity, values, quality = _read(arguments.address, min(limit_s, LONGEST_S))
    point = point_from_readings(
        true_V, values, quality, day=date.today().isoformat(), against=getattr(arguments, "by", "")
    )
    store = CalibrationStore()
    calibration = add_point(store.find(identity), point)
    store.keep(identity, calibration)
    print(f"Kept in {store_path}.", file=sys.stderr)
    for remark in calibration.remarks:
        print(remark.replace("of -", "of −"), file=sys.stderr)
    _show({identity: calibration}, as_json=arguments.json)


def _read(address: str, limit_s: float) -> tuple[str, list[float], list[int]]:
    """Read the one channel of a source for `limit_s` seconds; return its identity, values and quality."""
    from drivers.registry import make_source
    from drivers.run_clock import HostClock
    from logger.calibration import CalibrationError
    from logger.instrument_identity import identity_of

    values: list[float] = []
    quality: list[int] = []
    with make_source(address) as source:
        clock = HostClock()
        source.open(clock)
        channel = _only_channel(source)
        identity = identity_of(source, channel)
        if source.address.kind in ("cell", "replay"):
            raise CalibrationError(f"{address} is no instrument, so there is nothing to calibrate")
        if not identity:
            raise CalibrationError(
                "nothing tells this instrument from another one of its kind (no serial number), so a "
                f"calibration cannot be kept for it; add a name of your own to {address}: name=…"
            )
        until_s = time.monotonic() + limit_s
        while time.monotonic() < until_s:
            delivery = source.read(0.2)
            for notice in delivery.notices:
                print(notice.text, file=sys.stderr)
            for block in delivery.samples:
                values += block.values.tolist()
                quality += block.quality.tolist()
    return identity, values, quality


def _only_channel(source: Source) -> Channel:
    from logger.calibration import CalibrationError

    channels = source.channels
    if len(channels) != 1:
        names = ", ".join(channel.name for channel in channels)
        raise CalibrationError(
            f"{source.address.text} has several inputs ({names}); calibrate one at a time, with column="
        )
    if channels[0].unit != "V":
        raise CalibrationError(
            f"{source.address.text} measures no voltage; only voltages are calibrated here"
        )
    return channels[0]


def _show(calibrations: dict[str, Calibration], *, as_json: bool) -> None:
    if as_json:
        document = {
            identity: {
                "zero_V": one.zero_V,
                "gain": one.gain,
                "calibrated_on": one.day,
                "largest_misfit_V": one.largest_misfit_V,
                "points": [asdict(point) for point in one.points],
            }
            for identity, one in calibrations.items()
        }
        print(json.dumps(document, ensure_ascii=False, indent=2))
        return
    if not calibrations:
        print("No calibration is kept.")
    for identity, one in calibrations.items():
        print(identity)
        print(f"  zero {_mV(one.zero_V)}, gain {one.gain:.6g}, oldest point of {one.day}")
        for point in one.points:
            by = f", by {point.against}" if point.against else ""
            print(
                f"  {_signed(point.true_V)} V shown as {_signed(point.shown_V)} V, scatter "
                f"{_mV(point.spread_V)}, {point.readings} readings, {point.day}{by}"
            )
        if len(one.points) > 2:
            print(f"  the worst point lies {_mV(one.largest_misfit_V)} off the line")


def _signed(volts: float) -> str:
    return f"{volts:.6g}".replace("-", "−")


def _mV(volts: float) -> str:
    """To three digits, and no finer than a nanovolt: less is the arithmetic's."""
    return f"{round(1000 * volts, 6) + 0.0:.3g} mV".replace("-", "−")
