"""What stands on the wall, made from what the session knows."""

from __future__ import annotations

from gui.chart_notes import is_sure_so_far, saving_caption
from gui.kind_words import whole_words
from gui.live_texts import (
    STALE_S,
    age_text,
    big_unit,
    big_voltage,
    rows,
    saved_words,
    state_words,
    verdict_words,
)
from gui.numbers import clock_text
from gui.session import Session
from gui.sheet_texts import next_hint, step_name
from gui.tagging import Tagging
from gui.widgets.wall_view import WallWords
from gui.words import translate

__all__ = ["nothing_words", "wall_words"]

FIGURES = 3
"""Current, charge and hydrogen: the first rows of the table."""

TAGGED_S = 6.0
"""How long the wall says what was tagged (host seconds): hands that tag there see it nowhere else."""


def nothing_words() -> WallWords:
    """Return the words for the wall while there is no run, with the way back."""
    return WallWords(
        unit="",
        sentence=translate("Wall view", "Nothing is being recorded."),
        next_step=translate("Wall view", "Esc leads back."),
    )


def wall_words(session: Session, tagging: Tagging, danger: str) -> WallWords:
    """Return the words for the wall; `danger` is the text of the gravest danger, empty: none."""
    status, view, last = session.status(), session.view, session.overview.last
    if status is None or last is None:
        return WallWords(
            big_voltage(None), "", translate("Wall view", "Waiting for the first readings …"), danger=danger
        )
    age_s = (session.now_s - last[0]) / status.speed
    stale = ""
    if age_s > STALE_S:
        stale = translate("Wall view", "last reading {age}").format(age=age_text(age_s))
    is_over = session.state != "running"
    if view is None:
        return WallWords(big_voltage(last[1]), big_unit(last[1]), stale=stale, danger=danger)
    return WallWords(
        number=big_voltage(last[1]),
        unit=big_unit(last[1]),
        sentence=state_words(view, is_over=is_over),
        verdict=_capital(verdict_words(view, is_over=is_over)) if view.drift_mV_per_min is not None else "",
        saved=saved_words(view) or "",
        saving_caption=saving_caption(is_over=is_over),
        is_saving_sure=is_sure_so_far(view, is_over=is_over),
        next_step="" if is_over else _next(tagging),
        tagged="" if is_over else _tagged(session, status.speed),
        figures=tuple((row.name, row.value) for row in rows(view)[:FIGURES]),
        stale=stale,
        danger=danger,
        is_settled=view.verdict == "settled",
    )


def _next(tagging: Tagging) -> str:
    step = tagging.sheet.next_step
    if step is None:
        return ""
    return translate("Wall view", "Next: {step}, {hint}").format(
        step=step_name(step), hint=next_hint(tagging.sheet, tagging.wait())
    )


def _tagged(session: Session, speed: float) -> str:
    """Return the moment that was tagged just now."""
    moment = session.moments[-1] if session.moments else None
    if moment is None or session.now_s - moment.time_s > TAGGED_S * speed:
        return ""
    return translate("Wall view", "Tagged at {time}: {moment}").format(
        time=clock_text(moment.time_s), moment=whole_words(moment)
    )


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
