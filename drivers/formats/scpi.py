"""Answers of meters that are queried (IEEE 488.2 / SCPI): lines, numbers, errors, functions. No I/O.

Sources: IEEE 488.2-1992 section 8.7 (NR1, NR2, NR3); SCPI-1999 volume 1 section 7.2.1 (9.9E37 infinity,
9.91E37 not a number); volume 2 chapter 21 (SYSTem:ERRor?; chapter from memory).
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from drivers.formats.number_shape import NumberShape, number_shape
from drivers.samples import Quality

__all__ = [
    "AnswerLines",
    "Reading",
    "parse_error",
    "parse_function",
    "parse_reading",
]

_NUMBER = re.compile(r"([+-]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]+)?)(?: *(?:V|VDC))?")
_OVERLOAD_WORD = re.compile(r"([+-]?) *(?:OL|0\.L|OVLD|OVERLOAD)", re.IGNORECASE)
_ERROR = re.compile(r'([+-]?[0-9]+) *, *"(.*)"')
_INFINITE_FROM = 9.9e36  # some meters send 9.9E36 for 9.9E37
_NOT_A_NUMBER = 9.91e37
_LINE_LIMIT = 256
_FLOW_CONTROL = b"\x11\x13"


@dataclass(frozen=True, slots=True)
class Reading:
    """What one answer to ``READ?`` says.

    `value` is in volts, +inf or -inf for overload, None when the answer is no reading; then `problem`
    tells why and `is_misfit` whether the line itself was wrong (True) or the meter said, in good form,
    that it has no number (False). `shape` is how the number was written, None if it was none.
    """

    value: float | None
    quality: Quality = Quality.GOOD
    shape: NumberShape | None = None
    problem: str = ""
    is_misfit: bool = False


def parse_reading(line: bytes) -> Reading:
    """Read the answer to one ``READ?``: exactly one number, in volts if it has a unit at all."""
    text = line.decode("ascii", errors="replace").strip()
    word = _OVERLOAD_WORD.fullmatch(text)
    if word:
        return Reading(-math.inf if word.group(1) == "-" else math.inf, Quality.OVERLOAD)
    number = _NUMBER.fullmatch(text)
    if not number:
        return Reading(None, problem=_why_refused(text), is_misfit=True)
    value = float(number.group(1))
    if math.isclose(abs(value), _NOT_A_NUMBER, rel_tol=5e-4):  # 9.9E37 is 1e-3 away
        return Reading(None, problem="the meter answers that it has no number (9.91E37)")
    if abs(value) >= _INFINITE_FROM:
        return Reading(math.copysign(math.inf, value), Quality.OVERLOAD)
    return Reading(value, shape=number_shape(number.group(1)))


def parse_error(line: bytes) -> tuple[int, str] | None:
    """Read an answer to ``SYSTem:ERRor?``: its code and text, or None if it is none."""
    found = _ERROR.fullmatch(line.decode("ascii", errors="replace").strip())
    return (int(found.group(1)), found.group(2)) if found else None


def parse_function(line: bytes) -> str:
    """Return what an answer to ``CONFigure?`` says is measured, such as ``VOLT`` or ``VOLT:AC``."""
    text = line.decode("ascii", errors="replace").strip().strip('"')
    return re.split(r"[ ,]", text, maxsplit=1)[0].strip('"').upper()


def _why_refused(text: str) -> str:
    if not text:
        return "the answer is empty"
    if "," in text or ";" in text:
        return f"the answer {text!r} is not one number (two values, or a decimal comma)"
    return f"the answer {text!r} is not a number in volts"


class AnswerLines:
    """Cuts the bytes that arrive into answer lines, ended by LF, CR, CR LF or LF CR.

    XON and XOFF between them are dropped, empty lines too; a line beyond 256 bytes is dropped whole.
    """

    def __init__(self) -> None:
        self._partial = bytearray()
        self._is_skipping = False

    def feed(self, data: bytes) -> list[bytes]:
        """Take bytes as they came, in pieces of any size; return the lines that are complete now."""
        lines = []
        for byte in data.translate(None, _FLOW_CONTROL):
            if byte in b"\r\n":
                if self._partial and not self._is_skipping:
                    lines.append(bytes(self._partial))
                self.reset()
            elif len(self._partial) >= _LINE_LIMIT:
                self._is_skipping = True
            else:
                self._partial.append(byte)
        return lines

    @property
    def has_partial(self) -> bool:
        """Whether a line has begun that is not complete yet."""
        return bool(self._partial)

    def reset(self) -> None:
        """Forget what has come of the present line."""
        self._partial.clear()
        self._is_skipping = False
