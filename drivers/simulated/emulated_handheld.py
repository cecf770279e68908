"""An emulated handheld meter: sends frames of one format unasked, of the voltage of an emulated cell."""

from __future__ import annotations

from collections.abc import Callable

from drivers.formats.handheld import HANDHELD_FORMATS
from drivers.link import BITS_PER_BYTE
from drivers.simulated.faults import Faults, Outbox
from drivers.simulated.frame_encoder import encode_frame

__all__ = ["EmulatedHandheld"]


def _never(_: float) -> bool:
    return False


class EmulatedHandheld:
    """A meter of one of the frame formats, as a `Device`.

    Parameters
    ----------
    kind : one of `frame_encoder.ENCODED_KINDS`.
    voltage : called with the cell's time in seconds, never going back; returns volts.
    speed : seconds of the cell per second of the line.
    period_s : from one conversion to the next.
    conversion_s : how long one takes; the voltage is that at the middle of it.
    frames_each : how often each conversion is sent, one frame right after the other.
    is_ac, is_held : called with the time of the line; whether the dial is on AC, the display held. The fault
        ``ac_after`` turns the dial too.
    """

    def __init__(
        self,
        kind: str,
        voltage: Callable[[float], float],
        *,
        speed: float = 1.0,
        faults: Faults | None = None,
        period_s: float = 0.4,
        conversion_s: float = 0.3,
        frames_each: int = 1,
        has_low_battery: bool = False,
        is_ac: Callable[[float], bool] = _never,
        is_held: Callable[[float], bool] = _never,
    ) -> None:
        self._kind = kind
        self._voltage = voltage
        self._speed = speed
        self._period_s = period_s
        self._conversion_s = conversion_s
        self._frames_each = frames_each
        self._has_low_battery = has_low_battery
        self._is_ac = is_ac
        self._is_held = is_held
        frame = HANDHELD_FORMATS[kind][""]
        self._line_s = frame.length * BITS_PER_BYTE / frame.baud
        self._faults = faults or Faults()
        self._outbox = Outbox(self._faults)
        self._count = 0

    def attach(self, now_s: float) -> None:
        """Take no notice: the meter does not know who listens."""

    def receive(self, data: bytes, now_s: float) -> None:
        """Take no notice: the line goes one way."""

    def next_due_s(self) -> float | None:
        """Return when the next frame is complete or the next conversion over."""
        waiting = self._outbox.next_due_s()
        return self._over_s() if waiting is None else min(waiting, self._over_s())

    def take(self, now_s: float) -> bytes:
        """Convert what is due and return the frames that are complete on the line."""
        while (over_s := self._over_s()) <= now_s:
            middle_s = over_s - self._conversion_s / 2
            frame = encode_frame(
                self._kind,
                self._voltage(middle_s * self._speed),
                is_ac=self._is_ac(middle_s) or self._faults.is_on_ac(self._count),
                is_held=self._is_held(middle_s),
                has_low_battery=self._has_low_battery,
            )
            for copy in range(self._frames_each):
                self._outbox.post(over_s + (copy + 1) * self._line_s, frame)
            self._count += 1
        return self._outbox.take(now_s)

    def _over_s(self) -> float:
        """When the conversion that runs now is over."""
        return self._count * self._period_s + self._conversion_s
