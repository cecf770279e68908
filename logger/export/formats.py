"""Which exports there are, by the ending of the output's name."""

from __future__ import annotations

import json
import os
from collections.abc import Callable
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from logger.errors import LoggerError
from logger.export.atomic import refuse_what_exists
from logger.progress import Progress
from logger.recording import Recording

__all__ = ["FORMATS", "Choices", "check_output", "export", "has_findings_table", "with_ending"]

PICTURES = (".png", ".svg", ".pdf")
"""Endings of which a size can be chosen."""

EASILY_ANALYSED = 2_000_000
"""Readings up to which CSV gets findings made anew; beyond, analysing takes far more memory than writing."""


@dataclass(frozen=True, slots=True)
class Choices:
    """What may be chosen besides the format.

    `size` names a size of picture (`logger.export.picture.SIZES`); with ``.pdf`` it asks for the picture
    instead of the report. `decimal_comma` is for CSV.
    """

    replace: bool = False
    size: str | None = None
    decimal_comma: bool = False


def _csv(recording: Recording, out: Path, choices: Choices, progress: Progress) -> list[Path]:
    from logger.export.table import export_csv

    found = _findings_for_table(recording, progress.part(0.0, 0.05))
    return export_csv(
        recording, out, found, replace=choices.replace, decimal_comma=choices.decimal_comma,
        progress=progress.part(0.05, 1.0),
    )  # fmt: skip


def _xlsx(recording: Recording, out: Path, choices: Choices, progress: Progress) -> list[Path]:
    from logger.analysis.findings import findings
    from logger.export.workbook import export_xlsx

    found = findings(recording, progress=progress.part(0.0, 0.05))
    export_xlsx(recording, out, found, progress.part(0.05, 1.0), replace=choices.replace)
    return [out]


def _parquet(recording: Recording, out: Path, choices: Choices, progress: Progress) -> list[Path]:
    from logger.export.parquet import export_parquet

    return export_parquet(recording, out, replace=choices.replace, progress=progress)


def _picture(recording: Recording, out: Path, choices: Choices, progress: Progress) -> list[Path]:
    from logger.analysis.findings import findings
    from logger.export.picture import SIZES, export_picture

    found = findings(recording, progress=progress.part(0.0, 0.5))
    size = SIZES[choices.size or "screen"]
    export_picture(recording, found, out, size, progress.part(0.5, 1.0), replace=choices.replace)
    return [out]


def _pdf(recording: Recording, out: Path, choices: Choices, progress: Progress) -> list[Path]:
    if choices.size is not None:
        return _picture(recording, out, choices, progress)
    from logger.export.report import export_report

    export_report(recording, out, progress, replace=choices.replace)
    return [out]


def _html(recording: Recording, out: Path, choices: Choices, progress: Progress) -> list[Path]:
    from logger.export.report import export_report

    export_report(recording, out, progress, replace=choices.replace)
    return [out]


FORMATS: dict[str, Callable[[Recording, Path, Choices, Progress], list[Path]]] = {
    ".csv": _csv,
    ".xlsx": _xlsx,
    ".png": _picture,
    ".svg": _picture,
    ".pdf": _pdf,
    ".html": _html,
    ".parquet": _parquet,
}


def export(
    read: Callable[[], Recording],
    out: Path,
    choices: Choices | None = None,
    progress: Progress | None = None,
    *,
    replace: bool = False,
) -> list[Path]:
    """Write the recording that `read` returns to `out`; return the files written.

    Parameters
    ----------
    replace : short for `Choices` with nothing but that.
    progress : is told how far the work is, and may stop it from any thread.

    Raises
    ------
    LoggerError : an ending that is not known, a choice that is not for it, or a folder that is not there;
        nothing was written.
    OutputExists : `out` exists and may not be replaced.
    Cancelled : `progress` was told to stop; nothing was written.
    """
    choices = choices or Choices(replace=replace)
    check_output(out, tuple(FORMATS), replace=choices.replace)
    _check_choices(out, choices)
    recording = read()
    steps = progress or Progress()
    steps.reach(0.0)
    return FORMATS[out.suffix.lower()](recording, out, choices, steps)


def check_output(out: Path, endings: tuple[str, ...], *, replace: bool) -> None:
    """Refuse an output that could not be written, before any work is done for it.

    Raises
    ------
    LoggerError : an ending that is not among `endings`, a folder, or a folder that is not there.
    OutputExists : `out` exists and may not be replaced.
    """
    if os.path.isdir(out):  # takes a name that is too long for no folder
        wanted = out.suffix.lower()
        inside = out / f"run{wanted if wanted in endings else endings[0]}"
        raise LoggerError(f"{out} is a folder; name a file in it, such as {inside}")
    if not out.suffix:
        named = out.name.lower()
        example = with_ending(out, named if named in endings else endings[0]).name
        raise LoggerError(
            f"{out} has no ending, which says what to write; name it for example "
            f"{example} (known endings: {', '.join(endings)})"
        )
    if out.suffix.lower() not in endings:
        ending = out.suffix if out.suffix == out.suffix.strip() else repr(out.suffix)
        raise LoggerError(f"{out}: no export has the ending {ending}; known: {', '.join(endings)}")
    if not out.absolute().parent.is_dir():
        raise LoggerError(f"the folder {out.absolute().parent} is not there; make it first")
    refuse_what_exists([out], replace=replace)


def with_ending(out: Path, ending: str) -> Path:
    """Return a path like the one given, of a name without ending, that has one."""
    stem = out.name.rstrip(". ")
    return out.with_name(f"run{stem}" if stem.lower() == ending else f"{stem or 'run'}{ending}")


def _check_choices(out: Path, choices: Choices) -> None:
    """Refuse what would be passed over in silence."""
    from logger.export.picture import SIZES

    ending = out.suffix.lower()
    if choices.decimal_comma and ending != ".csv":
        raise LoggerError(
            f"{out}: a decimal comma is only for .csv; a spreadsheet shows .xlsx as its own settings say"
        )
    if choices.size is None:
        return
    if ending not in PICTURES:
        raise LoggerError(f"{out}: a size is only for pictures ({', '.join(PICTURES)}); leave --size away")
    if choices.size not in SIZES:
        raise LoggerError(f"there is no size of picture {choices.size}; known: {', '.join(SIZES)}")


def has_findings_table(recording: Recording) -> bool:
    """Tell whether CSV of this recording has a table of findings."""
    return _is_easily_analysed(recording) or _kept_findings(recording) is not None


def _findings_for_table(recording: Recording, progress: Progress) -> dict[str, Any] | None:
    """Return the findings, made anew; of a very long run those kept in it, or None."""
    if _is_easily_analysed(recording):
        from logger.analysis.findings import findings

        return findings(recording, progress=progress)
    return _kept_findings(recording)


def _is_easily_analysed(recording: Recording) -> bool:
    return sum(channel.times_s.size for channel in recording.channels) <= EASILY_ANALYSED


def _kept_findings(recording: Recording) -> dict[str, Any] | None:
    try:
        kept = json.loads(recording.findings_json or "null")
    except ValueError:
        return None
    if not isinstance(kept, dict):
        return None
    from logger.analysis.damage import CODE, cautions_of_damage
    from logger.kept_findings import cautions_of_age

    # They were found before the file was damaged, or after.
    known = [one for one in kept.get("warnings") or () if one.get("code") != CODE]
    said = [asdict(one) for one in (*cautions_of_damage(recording), *cautions_of_age(recording))]
    return {**kept, "warnings": [*said, *known]}
