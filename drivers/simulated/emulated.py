"""Every instrument that can be emulated, made by kind over a voltage that depends on time."""

from __future__ import annotations

import difflib
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

import numpy as np

from drivers.errors import AddressError
from drivers.formats.handheld import HANDHELD_FORMATS
from drivers.simulated.device import Device
from drivers.simulated.emulated_board import FORMS, BoardColumns, EmulatedBoard
from drivers.simulated.emulated_handheld import EmulatedHandheld
from drivers.simulated.emulated_meter import EmulatedMeter
from drivers.simulated.emulated_packet_board import EmulatedPacketBoard, Signal
from drivers.simulated.faults import Faults
from drivers.simulated.frame_encoder import ENCODED_KINDS
from drivers.simulated.printed_columns import LINE_STYLES, TIME_COLUMNS, PrintedColumns, check_columns

__all__ = ["EMULATED", "Emulation", "make_device"]

EMULATED = ("scpi", *ENCODED_KINDS, "text", "packet")
"""The kinds of instrument that can be emulated."""

_SENT_TWICE = ("digit11",)  # each conversion, as its sources say: see drivers.formats.digit11
_PERIODS_S = {"stx16": 1.0}  # of a conversion; two and a half a second for the others
_USUAL_PERIOD_S = 0.4
_PACKET_BAUD = 115200
_BOARD_KINDS = ("text", "packet")
_RATES = {"text": 10.0, "packet": 860.0}
_CELL_RANGE_CODE = 0  # 6.144 V
_GAIN = 8.0  # of the divider before it: the open stack of the demonstration, 27 V, must not clip
_MOST_INPUTS = 8
_BOARDS = ("a board", _BOARD_KINDS)
_DIALS = ("a meter with a dial", ("scpi", *ENCODED_KINDS))
_FAULT_OWNERS = {
    "reboot_after": _BOARDS,
    "wrap_after_s": _BOARDS,
    "ac_after": _DIALS,
    "echo": ("a meter that answers queries", ("scpi",)),
    "banner": ("a board or a meter that answers queries", ("scpi", *_BOARD_KINDS)),
    "cr_only": ("what sends lines", ("scpi", "text")),
}
"""Faults that not every kind can have: who can."""


@dataclass(frozen=True, slots=True)
class Emulation:
    """What shall be emulated.

    `kind` : one of `EMULATED`. `volts` : from times of the cell in seconds, never going back, shape (n,), to
    volts, shape (n,). `speed` : seconds of the cell per second. `rate` : readings per second of a board, None
    for its usual. `form` : of a text board, one of `emulated_board.FORMS`. `line_baud` : speed of the line, 0
    for the usual one of the kind.

    `columns` : of a text board, what it prints instead of `volts` in `form`: times (`printed_columns`),
    ``cell_voltage`` (that is `volts`) and whatever `others` holds, in the style `lines`, named in a first
    line if `has_header`; of a packet board, one quantity for each input.
    """

    kind: str
    volts: Signal
    speed: float = 1.0
    rate: float | None = None
    form: str = "micros"
    line_baud: int = 0
    columns: tuple[str, ...] = ()
    lines: str = "commas"
    has_header: bool = False
    others: Mapping[str, Signal] = field(default_factory=dict)

    @property
    def quantities(self) -> Mapping[str, Signal]:
        """Everything that can be measured, by name."""
        return {"cell_voltage": self.volts, **self.others}

    @property
    def baud(self) -> int:
        """The speed of the instrument's line."""
        if self.kind in HANDHELD_FORMATS:
            return self.line_baud or HANDHELD_FORMATS[self.kind][""].baud
        return self.line_baud or (9600 if self.kind == "scpi" else _PACKET_BAUD)


def make_device(emulation: Emulation, faults: Faults) -> Device:
    """Return the instrument.

    Raises
    ------
    AddressError : unknown kind, form or column, an impossible rate, or a fault that this kind cannot have.
    """
    kind, speed = emulation.kind, emulation.speed
    if kind not in EMULATED:
        raise AddressError(_unknown("emulated instrument", kind, EMULATED))
    _check_faults(kind, faults)
    if kind in _BOARD_KINDS:
        return _board(emulation, faults)
    if emulation.columns or emulation.rate is not None:
        raise AddressError(f"only a board ({' or '.join(_BOARD_KINDS)}) has a rate or columns to choose")
    voltage = _single(emulation.volts)
    if kind == "scpi":
        return EmulatedMeter(voltage, speed=speed, faults=faults)
    return EmulatedHandheld(
        kind,
        voltage,
        speed=speed,
        faults=faults,
        period_s=_PERIODS_S.get(kind, _USUAL_PERIOD_S),
        frames_each=2 if kind in _SENT_TWICE else 1,
    )


def _board(emulation: Emulation, faults: Faults) -> Device:
    kind, speed = emulation.kind, emulation.speed
    rate = _RATES[kind] if emulation.rate is None else emulation.rate
    if not 0 < rate <= 100_000:
        raise AddressError(f"a board's rate must be above 0 and at most 100000 a second, not {rate:g}")
    if kind == "packet":
        return EmulatedPacketBoard(
            _inputs(emulation), speed=speed, faults=faults, rate=rate, range_code=_CELL_RANGE_CODE, gain=_GAIN
        )
    if emulation.form not in FORMS:
        raise AddressError(_unknown("line form", emulation.form, tuple(FORMS)))
    columns = _columns(emulation)
    return EmulatedBoard(
        _single(emulation.volts),
        speed=speed,
        faults=faults,
        form=emulation.form,
        columns=columns,
        rate=rate,
        header=columns.printed.header if columns is not None and emulation.has_header else "",
    )


def _inputs(emulation: Emulation) -> list[Signal]:
    """Return what each input of a packet board measures."""
    columns = emulation.columns or ("cell_voltage",)
    check_columns(columns, tuple(emulation.quantities))
    if len(columns) > _MOST_INPUTS:
        raise AddressError(f"a packet board has {_MOST_INPUTS} inputs, not {len(columns)}")
    return [emulation.quantities[name] for name in columns]


def _columns(emulation: Emulation) -> BoardColumns | None:
    """Return what a text board prints side by side, None where it prints one voltage."""
    if not emulation.columns:
        return None
    if emulation.lines not in LINE_STYLES:
        raise AddressError(_unknown("style of lines", emulation.lines, LINE_STYLES))
    check_columns(emulation.columns, (*TIME_COLUMNS, *emulation.quantities))
    printed = PrintedColumns(emulation.columns, emulation.lines)
    return BoardColumns(printed, [_single(emulation.quantities[name]) for name in printed.quantities])


def _single(signal: Signal) -> Callable[[float], float]:
    """Return a signal that is asked for one time after the other."""
    return lambda time_s: float(signal(np.array([time_s]))[0])


def _check_faults(kind: str, faults: Faults) -> None:
    plain = Faults()
    for name, (owner, kinds) in _FAULT_OWNERS.items():
        if kind not in kinds and getattr(faults, name) != getattr(plain, name):
            raise AddressError(f"the fault {name} is one of {owner}; {kind} cannot have it")


def _unknown(what: str, name: str, known: tuple[str, ...]) -> str:
    near = difflib.get_close_matches(name, known, n=1, cutoff=0.5)
    hint = f"; did you mean {near[0]}?" if near else ""
    return f"there is no {what} {name!r}{hint} (known: {', '.join(known)})"
