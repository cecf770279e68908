"""Runs that were cut off: found when the window starts, offered, and finished."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from gui.job import Job
from gui.message_words import message_sentence
from gui.pages.page import PageHost
from gui.words import translate

if TYPE_CHECKING:
    from logger.recovery import Outcome

__all__ = ["FOLDER_KEY", "finish_runs", "look_for_cut_off_runs", "offer_to_finish"]

FOLDER_KEY = "shelf_folder"
"""The setting that holds the folder of the shelf."""

PASSES_S = 20.0


def look_for_cut_off_runs(host: PageHost, folders: Sequence[Path]) -> None:
    """Offer to finish the runs that were cut off in those folders; says nothing where there are none."""

    def look() -> list[Path]:
        from logger.recovery import cut_off_runs

        return [journal for folder in dict.fromkeys(folders) for journal in cut_off_runs(folder)]

    def tell(journals: list[Path] | None, _error: Exception | None) -> None:
        if journals:
            offer_to_finish(host, journals, lambda chosen: finish_runs(host, chosen, lambda: None))

    host.do(Job(look, tell, "look for runs that were cut off"))


def offer_to_finish(
    host: PageHost, journals: Sequence[Path], finish: Callable[[Sequence[Path]], None]
) -> None:
    """Show a bar for each folder that offers it; `finish` is called with the journals when it is taken up.

    The offer of one folder leaves that of another alone: the shelf knows of its own only.
    """
    for folder in dict.fromkeys(journal.parent for journal in journals):
        here = [journal for journal in journals if journal.parent == folder]
        if len(here) == 1:
            text = translate("Shelf", "A run was cut off: {name}. Nothing is lost.").format(name=here[0].name)
        else:
            text = translate("Shelf", "{count} runs were cut off. Nothing is lost.").format(count=len(here))
        action = (translate("Shelf", "Finish now"), partial(finish, here))
        host.tell(_key(folder), "warning", text, (action,))


def _key(folder: Path) -> str:
    return f"cut_off {folder}"


def finish_runs(host: PageHost, journals: Sequence[Path], then: Callable[[], None]) -> None:
    """Make recordings of runs that were cut off, and say what became of each; `then` is called at the end."""
    for journal in journals:
        host.untell(_key(journal.parent))

    def finish() -> list[Outcome]:
        from logger.recovery import recover

        return [recover(path) for path in journals]

    def tell(outcomes: list[Outcome] | None, error: Exception | None) -> None:
        for outcome in outcomes or ():
            if outcome.outcome == "recovered":
                open_it = None if outcome.recording is None else partial(host.open_file, outcome.recording)
                host.tell(
                    f"finish {outcome.journal}",
                    "info",
                    message_sentence(outcome.message),
                    () if open_it is None else ((translate("Shelf", "Show its findings"), open_it),),
                    passes_after_s=PASSES_S,
                )
            else:
                host.tell(f"finish {outcome.journal}", "warning", message_sentence(outcome.message))
        if error is not None:
            host.tell("finish", "warning", message_sentence(str(error)))
        then()

    host.do(Job(finish, tell, "finish runs"))
