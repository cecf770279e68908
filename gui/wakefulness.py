"""Sleep held off while a run goes on, as far as the system lets itself be asked. Best effort, and said so.

The lid of a laptop cannot be held off; the recording then shows the sleep as a gap.
"""

from __future__ import annotations

import logging
import os
import subprocess
import sys
from typing import Protocol

from gui.words import translate

__all__ = ["Holder", "Wakefulness", "system_holder"]

log = logging.getLogger(__name__)

ASK_LIMIT_MS = 1500


class Holder(Protocol):
    """Keeps one system awake."""

    def hold(self) -> None:
        """Ask the system to stay awake. Raises OSError when it will not."""

    def release(self) -> None:
        """Let it sleep again; may be called without `hold`."""


class Wakefulness:
    """Holds sleep off between `hold` and `release`, and knows whether that worked."""

    def __init__(self, holder: Holder) -> None:
        self._holder = holder
        self.is_held: bool | None = None
        """True: held off; False: asked in vain; None: not asked."""

    def hold(self) -> None:
        """Ask the system to stay awake."""
        try:
            self._holder.hold()
        except OSError as error:
            log.warning("sleep cannot be held off: %s", error)
            self.is_held = False
        else:
            self.is_held = True

    def release(self) -> None:
        """Let the system sleep again."""
        if self.is_held:
            self._holder.release()
        self.is_held = None

    @property
    def words(self) -> str:
        """What is so, in words; empty while nothing is asked."""
        if self.is_held is None:
            return ""
        if self.is_held:
            return translate("Wakefulness", "Sleep is held off")
        return translate("Wakefulness", "Sleep is not held off: keep the computer awake")


def system_holder() -> Holder:
    """Return what keeps this system awake."""
    if sys.platform == "win32":
        return _WindowsHolder()
    return _MacHolder() if sys.platform == "darwin" else _LogindHolder()


class _LogindHolder:
    """Linux: an inhibitor of logind; it holds as long as its file descriptor is open."""

    def __init__(self) -> None:
        self._held: object | None = None

    def hold(self) -> None:
        from PySide6.QtDBus import QDBusConnection, QDBusInterface, QDBusMessage

        bus = QDBusConnection.systemBus()
        if not bus.isConnected():
            raise OSError("no system bus")
        manager = QDBusInterface(
            "org.freedesktop.login1", "/org/freedesktop/login1", "org.freedesktop.login1.Manager", bus
        )
        manager.setTimeout(ASK_LIMIT_MS)
        why = translate("Wakefulness", "A run is being recorded")
        reply = manager.call("Inhibit", "sleep:idle", "Galvanote", why, "block")
        if reply.type() == QDBusMessage.MessageType.ErrorMessage or not reply.arguments():
            raise OSError(reply.errorMessage() or "logind gave no answer")
        self._held = reply.arguments()[0]

    def release(self) -> None:
        self._held = None  # closes the descriptor


class _MacHolder:
    """macOS: `caffeinate`, which ends with this process at the latest."""

    def __init__(self) -> None:
        self._process: subprocess.Popen[bytes] | None = None

    def hold(self) -> None:
        self._process = subprocess.Popen(["caffeinate", "-i", "-w", str(os.getpid())])

    def release(self) -> None:
        if self._process is not None:
            self._process.terminate()
            self._process.wait()
            self._process = None


class _WindowsHolder:
    """Windows: a state of this thread, which ends with it at the latest."""

    CONTINUOUS, SYSTEM_REQUIRED = 0x80000000, 0x00000001

    def hold(self) -> None:
        self._set(self.CONTINUOUS | self.SYSTEM_REQUIRED)

    def release(self) -> None:
        self._set(self.CONTINUOUS)

    def _set(self, state: int) -> None:
        import ctypes

        if not ctypes.windll.kernel32.SetThreadExecutionState(state):  # type: ignore[attr-defined,unused-ignore]
            raise OSError("the system did not take the state")
