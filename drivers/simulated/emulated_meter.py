"""An emulated bench meter: answers SCPI queries with the voltage of an emulated cell.

The command forms are those of IEEE 488.2-1992 chapter 10 and SCPI-1999 volume 2.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable

from drivers.formats.scpi import AnswerLines
from drivers.simulated.faults import Faults, Outbox

__all__ = ["EmulatedMeter"]

_READ = re.compile(r"READ\?|FETC(H)?\?|MEAS(URE)?(:VOLT(AGE)?)?(:DC)?\?( .*)?")
_CONFIGURED = re.compile(r"CONF(IGURE)?\?")
_ERROR = re.compile(r"SYST(EM)?:ERR(OR)?(:NEXT)?\?")
_REMOTE = re.compile(r"SYST(EM)?:REM(OTE)?")
_LOCAL = re.compile(r"SYST(EM)?:LOC(AL)?")
_CONFIGURE = re.compile(r"(CONF(IGURE)?|SENS(E)?|VOLT(AGE)?):.*")
_QUICK_S = 0.002  # an answer that needs no conversion
_OVERLOAD = 9.9e37
_NO_NUMBER = 9.91e37
_QUEUE_LIMIT = 20
_AC_CONFIGURATION = '"VOLT:AC +1.000000E+02,+1.000000E-04"'


class EmulatedMeter:
    """A meter on DC volts, as a `Device`.

    Parameters
    ----------
    voltage : called with the cell's time in seconds, never going back; returns volts.
    speed : seconds of the cell per second of the line.
    conversion_s : seconds one reading takes; the voltage is that at the middle of it.
    range_V : readings beyond 1.2 times this are overload.
    needs_remote : refuse to measure until told ``SYST:REM``, as many meters do on a serial line.
    configuration : what ``CONF?`` answers.
    """

    def __init__(
        self,
        voltage: Callable[[float], float],
        *,
        speed: float = 1.0,
        faults: Faults | None = None,
        conversion_s: float = 0.02,
        range_V: float = 100.0,
        needs_remote: bool = False,
        configuration: str = '"VOLT +1.000000E+02,+1.000000E-05"',
    ) -> None:
        self.identity = "Galvanote,emulated meter,0,1"
        self.commands: list[str] = []
        self._voltage = voltage
        self._speed = speed
        self._faults = faults or Faults()
        self._conversion_s = conversion_s
        self._range_V = range_V
        self._is_remote = not needs_remote
        self._configuration = configuration
        self._outbox = Outbox(self._faults)
        self._lines = AnswerLines()
        self._errors: list[str] = []
        self._busy_until_s = 0.0
        self._readings = 0

    def attach(self, now_s: float) -> None:
        """Print the banner, if one is ordered."""
        if self._faults.banner:
            self._outbox.post(now_s, self._faults.banner.encode() + b"\r\n")

    def receive(self, data: bytes, now_s: float) -> None:
        """Carry out the commands that are complete."""
        for line in self._lines.feed(data):
            for command in line.decode("ascii", errors="replace").split(";"):
                self._carry_out(command.strip().upper(), now_s)

    def next_due_s(self) -> float | None:
        """Return when the next answer leaves."""
        return self._outbox.next_due_s()

    def take(self, now_s: float) -> bytes:
        """Return the answers that have left."""
        return self._outbox.take(now_s)

    def _carry_out(self, command: str, now_s: float) -> None:
        self.commands.append(command)
        if self._faults.echo:
            self._outbox.post(now_s, command.encode("ascii", errors="replace") + b"\r\n")
        start_s = max(now_s, self._busy_until_s)
        if command == "*IDN?":
            self._answer(start_s + _QUICK_S, self.identity)
        elif _ERROR.fullmatch(command):
            self._answer(start_s + _QUICK_S, self._errors.pop(0) if self._errors else '0,"No error"')
        elif command == "*OPC?":
            self._answer(start_s + _QUICK_S, "1")
        elif command == "*CLS":
            self._errors.clear()
        elif _REMOTE.fullmatch(command) or _LOCAL.fullmatch(command):
            self._is_remote = bool(_REMOTE.fullmatch(command))
        elif not self._is_remote:
            self._fail('550,"Command not allowed in local"')
        elif _CONFIGURED.fullmatch(command):
            is_on_ac = self._faults.is_on_ac(self._readings)
            self._readings += is_on_ac  # so that the dial comes back also when nobody measures any more
            self._answer(start_s + _QUICK_S, _AC_CONFIGURATION if is_on_ac else self._configuration)
        elif _READ.fullmatch(command):
            self._answer(start_s + self._conversion_s, self._measured(start_s + self._conversion_s / 2))
        elif command not in ("", "*RST") and not _CONFIGURE.fullmatch(command):
            self._fail('-113,"Undefined header"')

    def _measured(self, time_s: float) -> str:
        volts = round(self._voltage(time_s * self._speed), 5)  # 10 uV steps
        if self._faults.is_on_ac(self._readings):
            volts = 0.00012  # what is left of a steady voltage
        self._readings += 1
        if math.isnan(volts):
            volts = _NO_NUMBER
        elif abs(volts) > 1.2 * self._range_V:
            volts = _OVERLOAD if volts > 0 else -_OVERLOAD
        return f"{volts:+.8E}"

    def _answer(self, time_s: float, text: str) -> None:
        self._busy_until_s = time_s
        self._outbox.post(time_s, text.encode() + b"\r\n")

    def _fail(self, error: str) -> None:
        if len(self._errors) < _QUEUE_LIMIT:
            self._errors.append(error)
