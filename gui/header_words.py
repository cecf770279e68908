"""What the header says about the page in front. No widget is touched here."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from PySide6.QtWidgets import QWidget

from gui.findings_texts import headings
from gui.live_texts import running_texts, source_words
from gui.pages.cautions_page import CautionsPage
from gui.pages.findings_page import FindingsPage
from gui.pages.page import Page
from gui.session import Session
from gui.words import translate
from logger.export.picture import is_simulated
from logger.run import RunStatus

__all__ = ["HeaderWords", "header_words"]


@dataclass(frozen=True, slots=True)
class HeaderWords:
    """What stands in the header.

    Attributes
    ----------
    title : of the run, the recording or the page.
    about : a line about it, then the same in fewer and fewer words.
    is_simulated : whether the data are invented.
    light : look of the light and its words, longest first; None: no light.
    """

    title: str = ""
    about: tuple[str, ...] = ("",)
    is_simulated: bool = False
    light: tuple[str, tuple[str, ...]] | None = None


def header_words(page: QWidget | None, session: Session | None) -> HeaderWords:
    """Return what to say above `page`, while or after `session` ran.

    The light belongs to readings that are coming in: it stands on every page while they do, so that a
    meter that falls silent is seen from anywhere, and goes with the run.
    """
    run = _run_words(session)
    light = None if run.light is None else _light(session)
    if isinstance(page, CautionsPage):
        return HeaderWords(translate("Header", "Cautions"), light=light)
    if isinstance(page, FindingsPage):
        recording = page.finished.recording
        simulated = is_simulated(recording.channel("cell_voltage"))
        began = recording.start_time if recording.has_known_start else ""
        title = named(recording.title, recording.path, began)
        return HeaderWords(title, headings(recording), simulated, light)
    words = page.header_words() if isinstance(page, Page) else None
    if words is None:
        return run
    title, about = words
    return HeaderWords(title, (about,), light=light)


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
