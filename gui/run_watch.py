"""What goes on around a run: bars, the alarm, notifications, sleep held off, the words on the wall."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QSettings
from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent
from PySide6.QtWidgets import QWidget

from gui.alarm_bell import AlarmBell
from gui.alerts import Alerts
from gui.notice_board import NoticeBoard
from gui.pages.run_page import RunPage
from gui.run_desk import RunDesk
from gui.sound import CHIME, DANGER, play
from gui.wakefulness import Holder, Wakefulness, system_holder
from gui.wall_texts import nothing_words, wall_words
from gui.widgets.notice_bars import NoticeBars
from gui.widgets.wall_view import WallView
from gui.words import translate

__all__ = ["FAILED", "RunWatch"]

SOUND_KEY = "sound"
FAILED = "failed"
"""So begin the keys of bars that tell of a run that is over: nothing is gained by an alarm."""
DISK_CODES = ("disk_error", "disk_full", "disk_low", "copy_stopped")
"""Notices of a disk against which a second place helps."""


class RunWatch:
    """Follows the run of a desk; `follow` is called a few times a second, whatever page is in front.

    Parameters
    ----------
    window : the window, for notifications and what is read aloud.
    choose_second_place : lets a folder be chosen for a second copy; offered where a disk is full or fails.
    make_sound : plays tones (`gui.sound.play`); for tests.
    holder : keeps the system awake; for tests.
    """

    def __init__(
        self,
        window: QWidget,
        desk: RunDesk,
        bars: NoticeBars,
        settings: QSettings,
        choose_second_place: Callable[[], None],
        *,
        make_sound: Callable[[tuple[tuple[float, float], ...]], None] = play,
        holder: Holder | None = None,
    ) -> None:
        self._window, self._desk, self._bars, self._settings = window, desk, bars, settings
        self._make_sound = make_sound
        self.alerts = Alerts(window)
        self.bell = AlarmBell(lambda: self._sound(DANGER))
        self.wakefulness = Wakefulness(holder or system_holder())
        second = ((translate("Run watch", "Second place …"), choose_second_place),)
        self._board = NoticeBoard(bars, self.alerts.call, dict.fromkeys(DISK_CODES, second))

    def follow(self) -> None:
        """Take in what is new."""
        session = self._desk.session
        if session is None:
            return
        self._board.follow(session)
        self.bell.follow(key for key in self._bars.keys_of("danger") if not key.startswith(FAILED))
        if self._desk.is_running and self.wakefulness.is_held is None:
            self.wakefulness.hold()
        elif session.is_over:
            self.wakefulness.release()
        if self._desk.page is not None:
            self._desk.page.attend()
            self._desk.page.show_about_system(self._system_words())

    def announce(self, text: str) -> None:
        """Say that it is time for the next step: a chime, a notification, and read aloud."""
        self._sound(CHIME)
        self.alerts.call(text)
        QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self._window, text))

    def show_wall(self, wall: WallView, page: RunPage | None) -> None:
        """Bring the words on the wall up to date."""
        session = self._desk.session
        if session is None or page is None:
            wall.show_words(nothing_words())
            return
        dangers = self._bars.keys_of("danger")
        danger = self._bars.texts[dangers[0]] if dangers else ""
        wall.show_words(wall_words(session, page.tagging, danger))

    @property
    def is_sound_on(self) -> bool:
        """Tell whether sounds are wanted."""
        return bool(self._settings.value(SOUND_KEY, True, type=bool))

    def turn_sound(self, on: bool) -> None:
        """Turn sounds on or off, and remember it."""
        self._settings.setValue(SOUND_KEY, on)

    def close(self) -> None:
        """Let the system sleep, and take the sign in its tray away."""
        self.wakefulness.release()
        self.alerts.close()

    def _system_words(self) -> str:
        sound = "" if self.is_sound_on else translate("Run watch", "sound off")
        return "  ·  ".join(text for text in (self.wakefulness.words, sound) if text)

    def _sound(self, tones: tuple[tuple[float, float], ...]) -> None:
        if self.is_sound_on:
            self._make_sound(tones)
