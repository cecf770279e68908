"""Keeping the last findings in the recording they were found in."""

from __future__ import annotations

import json
import os
from collections.abc import Mapping
from datetime import datetime
from typing import Any

from logger.analysis.caution import Caution
from logger.edit_journal import real_path
from logger.editing import editing
from logger.errors import LoggerError
from logger.recording import Recording

__all__ = ["cautions_of_age", "keep"]

SIZE_LIMIT_BYTES = 256 * 2**20
"""Keeping them means copying the file: above this it would take longer than finding them again."""


def keep(recording: Recording, findings: Mapping[str, Any]) -> str | None:
    """Keep findings in a finished recording unless it holds the same already, or is another one by now.

    The same are kept once more where moments were changed since: their date says of which moments they are.

    Returns None when they are there, else one line that says why they are not: that is no failure, the
    findings can be found again at any time.
    """
    path = real_path(recording.path)
    if recording.is_running or not path.is_file():
        return "the run is not finished"
    if _same(recording.findings_json, findings) and not _are_outdated(recording):
        return None
    if not (os.access(path, os.W_OK) and os.access(path.parent, os.W_OK)):
        return "the recording or its folder may not be written"
    if path.stat().st_size > SIZE_LIMIT_BYTES:
        return "the recording is large; copying it would take long"
    try:
        with editing(path) as editor:
            if editor.recording.uuid != recording.uuid:
                return "another recording has taken the place of the file"
            if set(editor.recording.moments) != set(recording.moments):
                return "its moments have been changed in the file meanwhile"
            editor.keep_findings(json.dumps(findings, ensure_ascii=False, allow_nan=False))
    except (LoggerError, OSError) as error:
        return str(error)
    return None


def cautions_of_age(recording: Recording) -> tuple[Caution, ...]:
    """Return a caution where moments have been changed since the kept findings were worked out."""
    if not _are_outdated(recording):
        return ()
    message = (
        "Moments were changed after these findings were worked out and kept; what they say may be of other "
        "stretches. Analyse the recording again: galvanote analyse, or export it from the window."
    )
    return (Caution("older_findings", message),)


def _are_outdated(recording: Recording) -> bool:
    if not recording.findings_date:
        return False
    changes = (moment.noted_at for moment in recording.moments)
    replaced = (changed_at for _, changed_at in recording.moments_history)
    try:
        worked_out = datetime.fromisoformat(recording.findings_date)
        return any(datetime.fromisoformat(at) > worked_out for at in (*changes, *replaced))
    except (TypeError, ValueError):  # a date of another program, or with no offset: nothing can be told
        return False


def _same(kept: str | None, findings: Mapping[str, Any]) -> bool:
    """Tell whether kept findings say the same; where the file lies does not count."""
    try:
        known = json.loads(kept) if kept else None
    except (ValueError, RecursionError):
        return False
    return isinstance(known, dict) and {**known, "file": ""} == {**findings, "file": ""}
