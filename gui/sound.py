"""Two sounds of the program: a danger, and that it is time for the next step.

Qt's own sound is not in the parts of it that we use, so a tone is written once and given to what the system
has for playing; where there is nothing, the system's beep must do.
"""

from __future__ import annotations

import array
import atexit
import functools
import io
import math
import shutil
import sys
import tempfile
import wave
from pathlib import Path

from PySide6.QtCore import QProcess
from PySide6.QtWidgets import QApplication

__all__ = ["CHIME", "DANGER", "play", "tone_wave"]

RATE_HZ = 22050
DANGER: tuple[tuple[float, float], ...] = (
    (880.0, 0.16),
    (0.0, 0.05),
    (660.0, 0.22),
    (0.0, 0.05),
    (880.0, 0.16),
)
CHIME: tuple[tuple[float, float], ...] = ((523.25, 0.12), (659.25, 0.2))
"""Tones as frequency in hertz (0: a pause) and length in seconds."""

FADE_S = 0.012
PLAYERS = ("pw-play", "paplay", "aplay", "afplay")


def tone_wave(tones: tuple[tuple[float, float], ...]) -> bytes:
    """Return the tones as a wave file: one channel, 16 bit."""
    samples = array.array("h")
    for frequency_Hz, length_s in tones:
        count = round(length_s * RATE_HZ)
        for i in range(count):
            edge = min(i, count - 1 - i) / (FADE_S * RATE_HZ)
            level = 0.35 * min(1.0, edge)  # faded at both ends, or it clicks
            samples.append(round(32767 * level * math.sin(2 * math.pi * frequency_Hz * i / RATE_HZ)))
    if sys.byteorder == "big":
        samples.byteswap()
    made = io.BytesIO()
    with wave.open(made, "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(RATE_HZ)
        file.writeframes(samples.tobytes())
    return made.getvalue()


def play(tones: tuple[tuple[float, float], ...]) -> None:
    """Let the tones be heard, and return at once."""
    try:
        path = _kept(tones)
    except OSError:
        QApplication.beep()
        return
    if sys.platform == "win32":
        import winsound

        winsound.PlaySound(str(path), winsound.SND_FILENAME | winsound.SND_ASYNC | winsound.SND_NODEFAULT)
        return
    player = next((found for name in PLAYERS if (found := shutil.which(name))), None)
    if player is None or not QProcess.startDetached(player, [str(path)])[0]:
        QApplication.beep()


def _kept(tones: tuple[tuple[float, float], ...]) -> Path:
    """Return a file with the tones, written once for each run of the program."""
    if tones not in _files:
        # A folder of our own: in a shared one, another user's file of that name could stand in its place.
        folder = _folder()
        _files[tones] = folder / f"tones-{len(_files)}.wav"
        _files[tones].write_bytes(tone_wave(tones))
    return _files[tones]


@functools.cache
def _folder() -> Path:
    made = Path(tempfile.mkdtemp(prefix="galvanote-"))
    atexit.register(shutil.rmtree, made, ignore_errors=True)
    return made


_files: dict[tuple[tuple[float, float], ...], Path] = {}
