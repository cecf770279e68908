"""What a run has to tell, as bars: notices when they come, live cautions while they last. No Qt."""

from __future__ import annotations

from collections.abc import Callable
from typing import Protocol

from gui.session import Session
from logger.notices import RunNotice

__all__ = ["INFO_PASSES_S", "NoticeBoard"]

INFO_PASSES_S = 8.0

SETTLES = {"back": ("lost", "fault", "silent"), "disk_back": ("disk_full",)}
"""Notices that tell that an earlier one no longer holds."""

LIVE_LEVELS = {
    "touching": "danger",
    "overload": "warning",
    "poor_contact": "warning",
    "leads_reversed": "warning",
}
"""Cautions of the live assessment that become bars. The others are told elsewhere: the state in the
sentence, silence by the source's own notice and the grey number."""


class Bars(Protocol):
    """Where the bars appear; see `gui.widgets.notice_bars`."""

    def show_bar(self, key: str, level: str, text: str, *, passes_after_s: float = 0.0) -> None:
        """Show or replace a bar."""

    def drop(self, key: str) -> None:
        """Take a bar away."""


class NoticeBoard:
    """Follows a session and keeps the bars true.

    Parameters
    ----------
    bars : where they appear.
    alarm : called for every new danger; it must be heard as well as seen.
    """

    def __init__(self, bars: Bars, alarm: Callable[[], None]) -> None:
        self._bars, self._alarm = bars, alarm
        self._live_codes: set[str] = set()
        self._told_trouble = False

    def follow(self, session: Session) -> None:
        """Show what is new, drop what no longer holds; called a few times a second."""
        for notice in session.new_notices():
            self._show(notice)
        status = session.status()
        if status is not None and not any(source.state == "silent" for source in status.sources):
            self._bars.drop("silent")
        if session.trouble and not self._told_trouble:
            self._told_trouble = True
            self._bars.show_bar("trouble", "warning", session.trouble)
        self._follow_cautions(session)

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
            self._bars.drop(code)
        passes_after_s = INFO_PASSES_S if notice.level == "info" else 0.0
        self._bars.show_bar(notice.code, notice.level, notice.text, passes_after_s=passes_after_s)
        if notice.level == "danger":
            self._alarm()
