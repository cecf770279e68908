"""What the header says about the page in front. No widget is touched here."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime
from pathlib import Path

from PySide6.QtWidgets import QWidget

from gui.live_texts import running_texts, source_words
from gui.pages.cautions_page import CautionsPage
from gui.pages.page import HeaderWords, Page
from gui.session import Session
from gui.words import translate
from logger.run import RunStatus

__all__ = ["header_words", "named", "run_title"]


def header_words(page: QWidget | None, session: Session | None) -> HeaderWords:
    """Return what to say above `page`, while or after `session` ran.

    The light belongs to readings that are coming in: it stands on every page while they do, so that a
    meter that falls silent is seen from anywhere, and goes with the run.
    """
    run = _run_words(session)
    light = None if run.light is None else _light(session)
    if isinstance(page, CautionsPage):
        return HeaderWords(translate("Header", "Cautions"), light=light)
    words = page.header_words() if isinstance(page, Page) else None
    return run if words is None else replace(words, light=light)


def _run_words(session: Session | None) -> HeaderWords:
    if session is None:
        return HeaderWords()
    status = session.status()
    if status is None:
        failed = session.state == "failed"
        about = translate("Header", "not recording") if failed else translate("Header", "opening")
        return HeaderWords(session.plan.title, (about,))
    states = {
        "saving": translate("Header", "saving"),
        "finished": translate("Header", "saved"),
        "failed": translate("Header", "not saved"),
    }
    state = states.get(session.state)
    words = running_texts(status) if state is None else (state,)
    simulated = any(source.address.startswith("cell:") for source in status.sources)
    light = _light(session, is_named=not simulated)
    return HeaderWords(run_title(status), words, simulated, light)


def _light(session: Session | None, *, is_named: bool = True) -> tuple[str, tuple[str, ...]] | None:
    status = None if session is None else session.status()
    if session is None or status is None or session.state not in ("opening", "running"):
        return None
    return source_words(status, is_named=is_named)


def run_title(status: RunStatus) -> str:
    """Return the title of a run; one that nobody named is called after the time at which it began."""
    return named(status.title, status.out, status.start_time)


def named(title: str, file: Path, start_time: str) -> str:
    """Return a title; where it is only the name of the file, the time at which the run began."""
    if title != file.stem:
        return title
    try:
        began = datetime.fromisoformat(start_time)
    except ValueError:
        return title
    return translate("Header", "Run begun at {time}").format(time=began.strftime("%H:%M"))
