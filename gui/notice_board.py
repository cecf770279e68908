"""What a run has to tell, as bars: notices when they come, cautions while they last. Touches no widget."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Protocol

from gui.live_texts import rough_time
from gui.message_words import message_sentence
from gui.numbers import plain
from gui.session import Session
from gui.words import translate
from logger.disk_room import DiskRoom
from logger.notices import RunNotice

__all__ = ["INFO_PASSES_S", "LONG_INFO_PASSES_S", "NoticeBoard"]

INFO_PASSES_S = 8.0
LONG_INFO_PASSES_S = 12.0
"""Of words that take longer to read, or offer something to press."""

DISK_FULL = "disk_full"

SETTLES = {
    "back": ("lost", "fault", "silent"),
    "channel_back": ("channel_silent",),
    "disk_back": (DISK_FULL,),
    "lost": ("back",),
    "fault": ("back",),
    "silent": ("back",),
    "channel_silent": ("channel_back",),
}
"""Notices that tell that an earlier one no longer holds."""

AWAITED = ("lost", "fault", "silent", "channel_silent")
"""Notices of a source that ask for it to come back; when the run is over nothing waits for it any more."""

SAID_BY_FAILURE = ("not_archived", "unsaved", DISK_FULL, "disk_error")
"""Notices that say what the bar of a run says that could not be saved, or promise what it knows better: a
second place, too, is one only while the run goes on."""

GRAVER = {"silent": "danger"}
"""Notices that the window takes more seriously than a log does: readings are being missed right now."""

LIVE_LEVELS = {
    "touching": "danger",
    "overload": "warning",
    "poor_contact": "warning",
    "leads_reversed": "warning",
    "meter_changed": "warning",
}
"""Cautions of the live assessment that become bars. The others are told elsewhere: the state in the
sentence, silence by the source's own notice and the grey number."""


Actions = Sequence[tuple[str, Callable[[], None]]]
"""Words on the buttons of a bar, and what they do."""


class Bars(Protocol):
    """Where the bars appear; see `gui.widgets.notice_bars`."""

    def show_bar(
        self, key: str, level: str, text: str, actions: Actions = (), *, passes_after_s: float = 0.0
    ) -> None:
        """Show or replace a bar."""

    def drop(self, key: str) -> None:
        """Take a bar away."""

    @property
    def texts(self) -> Mapping[str, str]:
        """What is shown at present, by key."""


class NoticeBoard:
    """Follows a session and keeps the bars true.

    Parameters
    ----------
    bars : where they appear.
    call : called with the text of every new danger, for whoever does not look at the window.
    remedies : what can be done at once about the notices of a code.
    """

    def __init__(
        self, bars: Bars, call: Callable[[str], None], remedies: Mapping[str, Actions] | None = None
    ) -> None:
        self._bars, self._call, self._remedies = bars, call, remedies or {}
        self._session: Session | None = None
        self._awaited: set[str] = set()
        self._live_codes: set[str] = set()
        self._told_trouble = False
        self._is_disk_low = False

    def follow(self, session: Session) -> None:
        """Show what is new, drop what no longer holds; called a few times a second."""
        if session is not self._session:
            self._session = session
            self._drop_awaited()  # of the run before
            self._told_trouble = False
            self._bars.drop("trouble")
        for notice in session.new_notices():
            self._show(notice)
        if session.can_save_again:
            for code in SAID_BY_FAILURE:
                self._bars.drop(code)
        if session.state not in ("opening", "running"):
            self._drop_awaited()
        status = session.status()
        for source in status.sources if status is not None else ():
            if source.state != "silent":
                self._bars.drop(_key("silent", source.address))
        if session.trouble and not self._told_trouble:
            self._told_trouble = True
            self._bars.show_bar("trouble", "warning", message_sentence(session.trouble))
        self._follow_cautions(session)
        self._follow_disk(session)

    def _drop_awaited(self) -> None:
        while self._awaited:
            self._bars.drop(self._awaited.pop())

    def _follow_disk(self, session: Session) -> None:
        room = session.disk_room if session.state == "running" else None
        is_low = room is not None and room.is_low
        if DISK_FULL in self._bars.texts:  # says more
            is_low = False
        if room is not None and is_low:
            text = translate("Notices", "The disk is nearly full: {room}. Make room, or stop and save.")
            actions = self._remedies.get("disk_low", ())
            self._bars.show_bar("disk_low", "danger", text.format(room=room_words(room)), actions)
            if not self._is_disk_low:
                self._call(text.format(room=room_words(room)))
        elif self._is_disk_low:
            self._bars.drop("disk_low")
        self._is_disk_low = is_low

    def _follow_cautions(self, session: Session) -> None:
        view = session.view if session.state == "running" else None
        found = {c.code: c for c in (view.cautions if view is not None else ()) if c.code in LIVE_LEVELS}
        for code in self._live_codes - found.keys():
            self._bars.drop(code)
        for code in found.keys() - self._live_codes:
            self._show(RunNotice(session.now_s, LIVE_LEVELS[code], code, found[code].message))
        self._live_codes = set(found)

    def _show(self, notice: RunNotice) -> None:
        for code in SETTLES.get(notice.code, ()):
            self._bars.drop(_key(code, notice.source, notice.channel))
        level = GRAVER.get(notice.code, notice.level)
        passes_after_s = INFO_PASSES_S if level == "info" else 0.0
        actions = self._remedies.get(notice.code, ())
        text = message_sentence(notice.text)
        key = _key(notice.code, notice.source, notice.channel)
        if notice.source and notice.code in AWAITED:
            self._awaited.add(key)
        self._bars.show_bar(key, level, text, actions, passes_after_s=passes_after_s)
        if level == "danger":
            self._call(text)


def _key(code: str, source: str, channel: str = "") -> str:
    """Of several sources or channels each has bars of its own: what holds for one may be over for another."""
    return f"{code} {source} {channel}".rstrip()


def room_words(room: DiskRoom) -> str:
    """Return how much room is left, in words."""
    if room.left_s is None:
        return plain(room.free_bytes / 1e6, 0, "MB")
    return translate("Notices", "room for about {time} more").format(time=rough_time(room.left_s))
