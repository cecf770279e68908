"""Every instrument that can be emulated, made by kind over a voltage that depends on time."""

from __future__ import annotations

import difflib
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from drivers.errors import AddressError
from drivers.formats.handheld import HANDHELD_FORMATS
from drivers.simulated.device import Device
from drivers.simulated.emulated_board import FORMS, EmulatedBoard
from drivers.simulated.emulated_handheld import EmulatedHandheld
from drivers.simulated.emulated_meter import EmulatedMeter
from drivers.simulated.emulated_packet_board import EmulatedPacketBoard
from drivers.simulated.faults import Faults
from drivers.simulated.frame_encoder import ENCODED_KINDS

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
_ONLY_BOARDS = ("reboot_after",)
_ONLY_DIALS = ("ac_after",)


@dataclass(frozen=True, slots=True)
class Emulation:
    """What shall be emulated.

    `kind` : one of `EMULATED`. `volts` : from times of the cell in seconds, never going back, shape (n,), to
    volts, shape (n,). `speed` : seconds of the cell per second. `rate` : readings per second of a board, None
    for its usual. `form` : of a text board, one of `emulated_board.FORMS`. `line_baud` : speed of the line, 0
    for the usual one of the kind.
    """

    kind: str
    volts: Callable[[NDArray[np.float64]], NDArray[np.float64]]
    speed: float = 1.0
    rate: float | None = None
    form: str = "micros"
    line_baud: int = 0

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
    AddressError : unknown kind or form, an impossible rate, or a fault that this kind cannot have.
    """
    kind, speed = emulation.kind, emulation.speed
    if kind not in EMULATED:
        raise AddressError(_unknown("emulated instrument", kind, EMULATED))
    _check_faults(kind, faults)

    def voltage(time_s: float) -> float:
        return float(emulation.volts(np.array([time_s]))[0])

    if kind == "scpi":
        return EmulatedMeter(voltage, speed=speed, faults=faults)
    if kind in ENCODED_KINDS:
        return EmulatedHandheld(
            kind,
            voltage,
            speed=speed,
            faults=faults,
            period_s=_PERIODS_S.get(kind, _USUAL_PERIOD_S),
            frames_each=2 if kind in _SENT_TWICE else 1,
        )
    rate = _RATES[kind] if emulation.rate is None else emulation.rate
    if not 0 < rate <= 100_000:
        raise AddressError(f"a board's rate must be above 0 and at most 100000 a second, not {rate:g}")
    if kind == "packet":
        return EmulatedPacketBoard(
            [emulation.volts], speed=speed, faults=faults, rate=rate, range_code=_CELL_RANGE_CODE, gain=_GAIN
        )
    if emulation.form not in FORMS:
        raise AddressError(_unknown("line form", emulation.form, tuple(FORMS)))
    return EmulatedBoard(voltage, speed=speed, faults=faults, form=emulation.form, rate=rate)


def _check_faults(kind: str, faults: Faults) -> None:
    plain = Faults()
    impossible = _ONLY_DIALS if kind in _BOARD_KINDS else _ONLY_BOARDS
    for name in impossible:
        if getattr(faults, name) != getattr(plain, name):
            owner = "a meter with a dial" if impossible is _ONLY_DIALS else "a board"
            raise AddressError(f"the fault {name} is one of {owner}; {kind} cannot have it")


def _unknown(what: str, name: str, known: tuple[str, ...]) -> str:
    near = difflib.get_close_matches(name, known, n=1, cutoff=0.5)
    hint = f"; did you mean {near[0]}?" if near else ""
    return f"there is no {what} {name!r}{hint} (known: {', '.join(known)})"
