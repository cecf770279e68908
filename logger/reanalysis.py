"""Finding again what a recording shows after a person moved stretches or moments, and keeping that."""

from __future__ import annotations

import logging
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from logger.analysis.chosen_windows import ChosenWindow
from logger.analysis.findings import findings
from logger.errors import LoggerError
from logger.kept_findings import keep
from logger.moment_edits import Changes, keep_changes
from logger.progress import Cancelled, Progress
from logger.recording import Recording, with_findings

__all__ = ["Reanalysis", "analyse_again"]

log = logging.getLogger(__name__)

NO_CHANGES = Changes()


@dataclass(frozen=True, slots=True, eq=False)
class Reanalysis:
    """The recording with its new findings.

    `trouble` says why there are none, `not_kept` why they are not in the file, if so.
    """

    recording: Recording
    findings: dict[str, Any]
    trouble: str = ""
    not_kept: str | None = None


def analyse_again(
    recording: Recording,
    chosen: Mapping[str, ChosenWindow],
    changes: Changes = NO_CHANGES,
    progress: Progress | None = None,
) -> Reanalysis:
    """Keep what was changed, analyse with the chosen windows, and keep the findings in the file.

    Raises
    ------
    Cancelled : `progress` was told to stop; changes are kept by then.
    LoggerError : the changes could not be kept, or (where there are none) these windows cannot be.
    """
    if not changes:
        return _analysed(recording, chosen, progress)
    kept = keep_changes(recording, changes)
    try:
        return _analysed(kept, chosen, progress)
    except Cancelled:
        raise
    except Exception as error:  # whatever it is: it does not say that the changes are not in the file
        if not isinstance(error, LoggerError):
            log.exception("no findings of %s", kept.path)
        return Reanalysis(kept, {}, str(error) or type(error).__name__)  # the old ones are of other moments


def _analysed(
    recording: Recording, chosen: Mapping[str, ChosenWindow], progress: Progress | None
) -> Reanalysis:
    found = findings(recording, chosen, progress)
    return Reanalysis(with_findings(recording, found), found, not_kept=keep(recording, found))
