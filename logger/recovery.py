"""Finding runs that were cut off, and finishing them."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from logger.archive import damaged_of, finish
from logger.disk import Disk
from logger.edit_journal import EDITS_SUFFIX, edits_of
from logger.editing import finish_leftover
from logger.errors import LoggerError, RecordingBusy
from logger.journal import BEGUN_SUFFIX, SUFFIX, journal_of
from logger.reader import is_recording

__all__ = ["Outcome", "cut_off_runs", "find_journals", "recover"]


_SUFFIXES = (SUFFIX, EDITS_SUFFIX, BEGUN_SUFFIX)


@dataclass(frozen=True, slots=True)
class Outcome:
    """What became of one journal: recovered, partly, running, empty or failed, and one line for people."""

    journal: Path
    outcome: str
    recording: Path | None
    message: str


def find_journals(path: Path) -> list[Path]:
    """Return the journals that `path` names: itself, the one beside a recording, or those in a folder.

    Raises
    ------
    LoggerError : no such file or folder, or a file that is neither a journal nor a recording.
    """
    if path.is_dir():
        return sorted(found for suffix in _SUFFIXES for found in path.glob(f"*{suffix}"))
    if path.name.endswith(_SUFFIXES):
        if path.is_file():
            return [path]
        if path.with_suffix("").exists():
            return []  # recovered already: safe to be asked twice
    elif journal_of(path).is_file() or edits_of(path).is_file():
        return [p for p in (journal_of(path), edits_of(path)) if p.is_file()]
    elif is_recording(path):
        return []  # finished, or recovered already: safe to be asked twice
    elif path.exists():
        raise LoggerError(
            f"{path} is not a journal, none lies beside it, and it is no whole recording: nothing can be "
            f"recovered from it; name a journal (ending in {SUFFIX}) or a folder"
        )
    raise LoggerError(f"{path} is not there; name a journal (ending in {SUFFIX}) or a folder")


def cut_off_runs(folder: Path) -> list[Path]:
    """Return the journals in `folder` that nobody writes and whose recording is not there.

    Never raises: a folder that cannot be read has none.
    """
    try:
        journals = sorted(folder.glob(f"*.h5{SUFFIX}"))
    except OSError:
        return []
    return [journal for journal in journals if not journal.with_suffix("").exists() and _is_left(journal)]


def _is_left(journal: Path) -> bool:
    try:
        return journal.is_file() and not Disk().is_locked(journal)
    except OSError:  # not ours to read, or gone meanwhile
        return False


def recover(journal: Path, disk: Disk | None = None) -> Outcome:
    """Finish one run that was cut off. Never raises for what the disk or the journal may be like."""
    disk = disk or Disk()
    if journal.exists() and not journal.is_file():
        text = f"{journal} is a folder, a pipe or a device, no journal; it is left as it is"
        return Outcome(journal, "failed", None, text)
    if journal.name.endswith(EDITS_SUFFIX):
        return _recover_edits(journal, disk)
    if journal.name.endswith(BEGUN_SUFFIX):
        return _remove_beginning(journal, disk)
    try:
        recording = finish(journal, disk=disk)
    except RecordingBusy:
        return Outcome(
            journal, "running", None, f"{journal} is still being recorded, or being recovered; end that first"
        )
    except (LoggerError, OSError) as error:
        return Outcome(journal, "failed", None, f"{journal}: {error}")
    if recording is None:
        return Outcome(
            journal,
            "empty",
            None,
            f"{journal} holds no reading that was ever acknowledged; it is left where it is.",
        )
    if damaged_of(journal).exists():
        return Outcome(
            journal,
            "partly",
            recording,
            f"Recovered {recording}, up to a damaged spot. More of the run lies behind it and could not be "
            f"read in order: it is kept in {damaged_of(journal)}. Copy that file to a safe place.",
        )
    return Outcome(journal, "recovered", recording, f"Recovered {recording}")


def _recover_edits(edits: Path, disk: Disk) -> Outcome:
    recording = edits.with_suffix("")
    try:
        finish_leftover(recording, disk)
    except RecordingBusy as error:
        return Outcome(edits, "running", None, str(error))
    except (LoggerError, OSError) as error:
        return Outcome(edits, "failed", None, f"{edits}: {error}")
    return Outcome(edits, "recovered", recording, f"Folded the last edits into {recording}")


def _remove_beginning(begun: Path, disk: Disk) -> Outcome:
    """Remove a journal that was cut off before it got its name."""
    try:
        with disk.hold(begun) as held:
            held.remove()
    except FileNotFoundError:
        pass  # it has just got its name, or was removed
    except RecordingBusy:
        return Outcome(begun, "running", None, f"{begun}: a run is just being started")
    except OSError as error:
        return Outcome(begun, "failed", None, f"{begun}: {error}")
    return Outcome(begun, "empty", None, f"{begun}: removed; that run was cut off before it began to record.")
