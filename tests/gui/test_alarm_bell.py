"""A danger is heard at once, again while it lasts, and not once it is known."""

from __future__ import annotations

import io
import wave

import numpy as np
import pytest

from gui.alarm_bell import AGAIN_AFTER_S, AlarmBell
from gui.sound import CHIME, DANGER, tone_wave


class Ear:
    def __init__(self) -> None:
        self.time_s = 100.0
        self.heard: list[float] = []
        self.bell = AlarmBell(lambda: self.heard.append(self.time_s), lambda: self.time_s)

    def after(self, by_s: float, *dangers: str) -> int:
        self.time_s += by_s
        self.bell.follow(dangers)
        return len(self.heard)


def test_a_new_danger_rings_at_once_and_again_while_it_lasts() -> None:
    ear = Ear()
    assert ear.after(0) == 0
    assert ear.after(1, "touching") == 1
    assert ear.after(1, "touching") == 1
    assert ear.after(0.5, "touching", "lost") == 2
    assert ear.after(AGAIN_AFTER_S, "touching", "lost") == 3
    assert ear.after(AGAIN_AFTER_S) == 3


def test_silenced_it_is_quiet_until_another_danger_or_the_same_one_again() -> None:
    ear = Ear()
    ear.after(0, "touching")
    ear.bell.silence()
    assert not ear.bell.is_ringing
    assert ear.after(60, "touching") == 1
    assert ear.after(1, "touching", "silent") == 2
    ear.bell.silence()
    ear.after(1)
    assert ear.after(1, "touching") == 3


@pytest.mark.parametrize("tones", [DANGER, CHIME])
def test_the_tones_begin_and_end_softly(tones: tuple[tuple[float, float], ...]) -> None:
    with wave.open(io.BytesIO(tone_wave(tones))) as file:
        assert (file.getnchannels(), file.getsampwidth()) == (1, 2)
        samples = np.frombuffer(file.readframes(file.getnframes()), np.int16).astype(float)
        length_s = file.getnframes() / file.getframerate()
    assert length_s == pytest.approx(sum(part[1] for part in tones), abs=0.001)
    assert abs(samples[0]) < 50
    assert abs(samples[-1]) < 50
    assert 5_000 < np.abs(samples).max() < 20_000  # heard, and not clipped
    strongest_Hz = np.argmax(np.abs(np.fft.rfft(samples))) / length_s
    assert min(abs(strongest_Hz - part[0]) for part in tones if part[0]) < 15
