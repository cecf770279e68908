"""Finding again what a recording shows, with windows that a person chose, and keeping that with it."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from logger.analysis.chosen_windows import ChosenWindow
from logger.analysis.findings import findings
from logger.kept_findings import keep
from logger.recording import Recording

__all__ = ["Reanalysis", "analyse_again"]


@dataclass(frozen=True, slots=True, eq=False)
class Reanalysis:
    """The recording with its new findings; `not_kept` says why they are not in the file, if so."""

    recording: Recording
    findings: dict[str, Any]
    not_kept: str | None


def analyse_again(recording: Recording, chosen: Mapping[str, ChosenWindow]) -> Reanalysis:
    """Analyse with the chosen windows (none takes every choice back) and keep the findings in the file."""
    found = findings(recording, chosen)
    text = json.dumps(found, ensure_ascii=False, allow_nan=False)
    return Reanalysis(replace(recording, findings_json=text), found, keep(recording, found))
