"""Whether a meter that sends unasked does send, and what to do and say when it does not. No I/O.

Most such meters have to be told to send by a long key press, fall asleep after a quarter of an hour or half
an hour, and reach the computer over an optical cable that takes its power from the modem lines.
"""

from __future__ import annotations

import math

__all__ = ["CONTROL_LINES", "Transmission"]

CONTROL_LINES = ((True, False), (True, True), (False, True))
"""Settings of (DTR, RTS) in the order in which they are tried: the usual need of optical cables first."""

_TRY_EACH_S = 1.2
_NOT_UNDERSTOOD_S = 3.0
_FRAMES_TO_WAIT = 2  # bytes without a frame, in frames, before they count as not understood


class Transmission:
    """Follows a line, from one opening to the next. Times are run seconds.

    `lines` is (DTR, RTS) as it should be set now.

    Parameters
    ----------
    frame_bytes : length of a frame.
    """

    def __init__(self, frame_bytes: int) -> None:
        self.lines = CONTROL_LINES[0]
        self._frame_bytes = frame_bytes
        self._has_had_frames = False
        self.begin(0.0)

    def begin(self, now_s: float) -> None:
        """Start anew: the line was opened, with the modem lines as `lines` says."""
        self._heard_s = self._frame_s = self._tried_s = now_s
        self._unexplained = 0
        self._has_frames = False
        self._has_told_silence = False

    def hear(self, byte_count: int, frame_count: int, now_s: float) -> None:
        """Take note of bytes that arrived, and of the frames found in them."""
        if not byte_count:
            return
        self._heard_s = now_s
        self._unexplained += byte_count
        if frame_count:
            self._frame_s, self._unexplained = now_s, 0
            self._has_frames = self._has_had_frames = True
            self._has_told_silence = False

    def changes_lines(self, now_s: float) -> bool:
        """Choose other `lines` and return True if the line is silent with these and never spoke with them."""
        if self._has_had_frames or now_s - max(self._heard_s, self._tried_s) < _TRY_EACH_S:
            return False
        self._tried_s = now_s
        self.lines = CONTROL_LINES[(CONTROL_LINES.index(self.lines) + 1) % len(CONTROL_LINES)]
        return True

    def is_not_understood(self, now_s: float) -> bool:
        """Whether bytes have come for 3 s without a frame among them."""
        is_enough = self._unexplained > _FRAMES_TO_WAIT * self._frame_bytes
        return is_enough and now_s - self._frame_s >= _NOT_UNDERSTOOD_S

    def silence_hint(self, port: str, silent_after_s: float, now_s: float) -> str:
        """Return once in a silence what to look at; "" when there is nothing (more) to say."""
        silent_s = now_s - self._heard_s
        trial_s = 0.0 if self._has_had_frames else _TRY_EACH_S * len(CONTROL_LINES)
        if self._has_told_silence or silent_s < max(trial_s, silent_after_s):
            return ""
        self._has_told_silence = True
        if self._has_frames:
            return (
                f"The meter on {port} stopped sending {math.floor(silent_s)} s ago, although the port is "
                "there. Most meters fall asleep after 15 to 30 minutes: switch it on, press its transmit key "
                "(often held for two seconds), and switch its automatic power-off off."
            )
        return (
            f"Nothing arrives from {port}. Switch the meter on and press its transmit key (often held for "
            "two seconds; the display then shows RS232 or a similar sign). Check that the cable sits right."
        )
