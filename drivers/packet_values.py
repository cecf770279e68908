"""From the codes of packets to volts and quality. Pure."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from drivers.formats.packet import RANGE_STEPS_V, BoardInfo, Flag
from drivers.formats.packet_stream import PacketRun
from drivers.samples import Quality

__all__ = ["Converter", "packet_quality"]

_LOWEST, _HIGHEST = -32768, 32767


class Converter:
    """Volts per code and dividers, as the board declares them; the usual ranges while it has not."""

    def __init__(self) -> None:
        self.info: BoardInfo | None = None
        self._steps_V = np.full(256, np.nan)
        for code, step_V in RANGE_STEPS_V.items():
            self._steps_V[code] = step_V

    def learn(self, info: BoardInfo) -> bool:
        """Take an info packet; return whether it changes what readings mean."""
        known, self.info = self.info, info
        for code, step_V in info.steps_V.items():
            self._steps_V[code] = step_V
        if known is None:
            return bool(info.gains) and any(
                self.gain(number) != 1.0 or self.offset_V(number) != 0.0 for number in info.gains
            )
        return (known.steps_V, known.gains, known.offsets_V) != (info.steps_V, info.gains, info.offsets_V)

    def gain(self, number: int) -> float:
        """Return the factor of the divider before input `number`."""
        return self.info.gains.get(number, 1.0) if self.info is not None else 1.0

    def offset_V(self, number: int) -> float:
        """Return the offset of input `number` in volts."""
        return self.info.offsets_V.get(number, 0.0) if self.info is not None else 0.0

    def divider(self, number: int) -> Mapping[str, float]:
        """Return gain and offset of input `number` as declared, for `Instrument.calibration`."""
        if self.info is None or number not in self.info.gains:
            return {}
        return {"board_gain": self.gain(number), "board_offset_V": self.offset_V(number)}

    def unknown_ranges(self, range_codes: NDArray[np.uint8]) -> list[int]:
        """Return the range codes among these, uint8, shape (m,), whose size nobody has told."""
        codes = np.unique(range_codes)
        return [int(code) for code in codes if np.isnan(self._steps_V[code])]

    def volts(self, run: PacketRun, place: int, number: int) -> NDArray[np.float64]:
        """Return the voltages of input `number`, the `place`-th of the mask; float64, shape (m, instants).

        The ends of the converter's range are overload, +inf or -inf; an unknown range gives NaN.
        """
        codes = run.codes[:, :, place]
        step_V = self._steps_V[run.range_code] * self.gain(number)
        volts = codes * step_V[:, np.newaxis] + self.offset_V(number)
        sign = np.sign(self.gain(number))
        volts[codes == _HIGHEST] = sign * np.inf
        volts[codes == _LOWEST] = -sign * np.inf
        return volts


def packet_quality(run: PacketRun, is_time_sure: NDArray[np.bool_]) -> NDArray[np.uint8]:
    """Return the quality that all samples of each packet share; uint8, shape (m,).

    A packet whose converter failed is suspect, and one that says that it was clipped without a code at an
    end of the range, since nothing then tells which codes are meant.
    """
    quality = np.where(is_time_sure, 0, np.uint8(Quality.TIME_UNCERTAIN)).astype(np.uint8)
    at_end = ((run.codes == _HIGHEST) | (run.codes == _LOWEST)).any(axis=(1, 2))
    is_clipped = ((run.flags & Flag.CLIPPED) != 0) & ~at_end
    is_suspect = is_clipped | ((run.flags & Flag.SENSOR_ERROR) != 0)
    quality[is_suspect] |= np.uint8(Quality.SUSPECT)
    return quality
