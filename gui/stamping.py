"""The keys that stamp a moment: its time is that of the key going down, however busy the program is."""

from __future__ import annotations

import time
from collections.abc import Callable

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QGuiApplication, QInputEvent, QKeyEvent, QWindow
from PySide6.QtWidgets import QAbstractButton, QApplication, QWidget

from gui.focused import focused_widget, is_typed_into
from logger.moments import KINDS

__all__ = ["DIGIT_KINDS", "STEP", "EventDelay", "StampingKeys", "shares_clock"]

LONGEST_DELAY_S = 5.0

LONGEST_KNOWN_S = 30.0
"""The same where the clock of the stamps is known: no coincidence can be taken for a delay."""

TURN_S = 2**32 / 1000
"""After which the stamps of the X server and of Windows begin at 0 again."""

SHARE_CLOCK = frozenset({"xcb", "wayland"})
"""Whose stamps are of the computer's own monotonic clock: seen with X, of Wayland from memory. A compositor
within a screen was seen to stamp with the time of day: of such a clock the delay is told from its least."""


class EventDelay:
    """How long ago an input event happened, from the window system's time stamps.

    Stamps count milliseconds from a beginning that nobody names. Where it is that of the computer's own
    monotonic clock, each stamp tells the delay by itself, also that of the first key of a busy program. Of
    any other clock, as of a display on another computer, the least difference seen belongs to an event that
    was handled at once; what another one has beyond that is its delay. A difference that cannot be a delay
    (no stamps, another clock) begins the count anew.

    Parameters
    ----------
    clock_s : the computer's monotonic clock.
    shares_clock : whether the window system takes its stamps from there, where it runs on this computer.
    """

    def __init__(self, clock_s: Callable[[], float] = time.monotonic, *, shares_clock: bool = False) -> None:
        self._clock_s, self._shares_clock = clock_s, shares_clock
        self._least_s: float | None = None

    def of(self, stamp_ms: int) -> float:
        """Return the delay of an event in seconds, as far as it can be told; 0 where it cannot."""
        if stamp_ms <= 0:
            return 0.0
        difference_s = self._clock_s() - stamp_ms / 1000
        waited_s = difference_s % TURN_S
        if self._shares_clock and waited_s <= LONGEST_KNOWN_S:
            return waited_s
        if self._least_s is None or not 0 <= difference_s - self._least_s <= LONGEST_DELAY_S:
            self._least_s = difference_s
        return difference_s - self._least_s


def shares_clock() -> bool:
    """Tell whether this window system takes its stamps from the computer's own monotonic clock."""
    return QGuiApplication.platformName() in SHARE_CLOCK


STEP = "step"
"""What the space bar means; every other act is a kind of moment."""

DIGIT_KINDS: tuple[str, ...] = (*tuple(KINDS)[:9], "temperature")
"""The kinds on the digit keys 1 to 9 and 0."""

ACTS: dict[Qt.Key, str] = {
    Qt.Key.Key_Space: STEP,
    Qt.Key.Key_M: "note",
    **{Qt.Key(Qt.Key.Key_0.value + number % 10): kind for number, kind in enumerate(DIGIT_KINDS, start=1)},
}


class StampingKeys(QObject):
    """Watches the window system's key events of one window for the keys that stamp a moment.

    Events are seen here before any widget sees them, and the time they have waited is taken off. A plain
    key is text while words are being typed; with Ctrl it stamps even then. The space bar does the next step
    unless it is text, presses the button that was reached by Tab, or the widget has the property
    ``keeps_space``. A key that is held repeats nothing.

    Parameters
    ----------
    window : the window to watch.
    now_s : returns the run time in seconds.
    speed : returns run seconds per second of the computer.
    stamp : called with the act (a kind of moment, or `STEP`) and the run time of the press; returns whether
        the key was used.
    """

    def __init__(
        self,
        window: QWindow,
        now_s: Callable[[], float],
        speed: Callable[[], float],
        stamp: Callable[[str, float], bool],
    ) -> None:
        super().__init__(window)
        self._now_s, self._speed, self._stamp = now_s, speed, stamp
        self._delay = EventDelay(shares_clock=shares_clock())
        window.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Stamp on the press of the key; pass everything else on."""
        if not isinstance(event, QInputEvent):
            return super().eventFilter(watched, event)
        time_s = self._now_s()
        time_s -= self._delay.of(event.timestamp()) * self._speed()
        if not isinstance(event, QKeyEvent) or event.type() != QEvent.Type.KeyPress:
            return False
        act = ACTS.get(Qt.Key(event.key()))
        if act is None or QApplication.activePopupWidget() is not None:
            return False
        if not self._is_meant(act, event, focused_widget(watched)):
            return False
        return True if event.isAutoRepeat() else self._stamp(act, time_s)

    def _is_meant(self, act: str, event: QKeyEvent, focused: QWidget | None) -> bool:
        held = event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
        if act == "note":
            held &= ~Qt.KeyboardModifier.ShiftModifier
        typing = is_typed_into(focused)
        if act == STEP:
            keeps_space = focused is not None and bool(focused.property("keeps_space"))
            return not (held or typing or keeps_space or isinstance(focused, QAbstractButton))
        if held == Qt.KeyboardModifier.ControlModifier:
            return True
        return not held and not typing
