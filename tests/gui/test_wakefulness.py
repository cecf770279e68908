"""Sleep is held off exactly while a run goes on, and what did not work is said."""

from __future__ import annotations

import subprocess
import sys

import pytest

from gui.wakefulness import Wakefulness, _LogindHolder, _MacHolder, _WindowsHolder, system_holder


class FakeHolder:
    def __init__(self, refusal: str = "") -> None:
        self.refusal, self.acts = refusal, list[str]()

    def hold(self) -> None:
        self.acts.append("hold")
        if self.refusal:
            raise OSError(self.refusal)

    def release(self) -> None:
        self.acts.append("release")


def test_what_is_held_is_released_and_said() -> None:
    holder = FakeHolder()
    wakefulness = Wakefulness(holder)
    assert wakefulness.words == ""
    wakefulness.hold()
    assert wakefulness.words == "Sleep is held off"
    wakefulness.release()
    wakefulness.release()
    assert holder.acts == ["hold", "release"]
    assert wakefulness.words == ""


def test_a_refusal_is_said_and_nothing_is_released() -> None:
    holder = FakeHolder("no system bus")
    wakefulness = Wakefulness(holder)
    wakefulness.hold()
    assert "keep the computer awake" in wakefulness.words
    wakefulness.release()
    assert holder.acts == ["hold"]


@pytest.mark.parametrize(
    ("platform", "kind"), [("linux", _LogindHolder), ("darwin", _MacHolder), ("win32", _WindowsHolder)]
)
def test_each_system_has_its_own(monkeypatch: pytest.MonkeyPatch, platform: str, kind: type) -> None:
    monkeypatch.setattr(sys, "platform", platform)
    assert isinstance(system_holder(), kind)


def test_the_mac_is_kept_awake_by_a_process_that_ends(monkeypatch: pytest.MonkeyPatch) -> None:
    started: list[subprocess.Popen[bytes]] = []
    real = subprocess.Popen

    def start(command: list[str]) -> subprocess.Popen[bytes]:
        assert command[:3] == ["caffeinate", "-i", "-w"]
        started.append(real([sys.executable, "-c", "import time; time.sleep(60)"]))
        return started[0]

    monkeypatch.setattr(subprocess, "Popen", start)
    holder = _MacHolder()
    holder.hold()
    assert started[0].poll() is None
    holder.release()
    assert started[0].poll() is not None
    holder.release()


def test_windows_is_asked_with_the_documented_flags(monkeypatch: pytest.MonkeyPatch) -> None:
    """ES_CONTINUOUS 0x80000000, ES_SYSTEM_REQUIRED 1: the system's documentation of SetThreadExecutionState,
    from memory."""
    states: list[int] = []
    monkeypatch.setattr(_WindowsHolder, "_set", lambda _holder, state: states.append(state))
    holder = _WindowsHolder()
    holder.hold()
    holder.release()
    assert states == [0x80000001, 0x80000000]
