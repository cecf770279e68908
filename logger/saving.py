"""From the journals of a run that has ended to finished files, one for each copy."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from logger.archive import ArchiveFailed, finish
from logger.disk import Disk
from logger.errors import LoggerError
from logger.journal import target_of
from logger.notices import Notices
from logger.track import Track

__all__ = ["save"]


def save(tracks: Sequence[Track], lost_samples: int, disk: Disk, notices: Notices) -> Path:
    """Make the finished file of every copy and return the first, that of the copy which is most whole.

    A copy that is not whole is left as its journal where another one is.

    Parameters
    ----------
    tracks : the copies; nothing more is written to them.
    lost_samples : readings that are in none of them, to be told where saving fails.

    Raises
    ------
    ArchiveFailed : no finished file could be made; what was recorded is safe in the journals.
    """
    saved: list[Path] = []
    failures: list[OSError | LoggerError] = []
    ordered = sorted(tracks, key=lambda track: (track.is_failed, track.is_behind))
    for track in ordered:
        if saved and (track.is_failed or track.is_behind):
            notices.add(
                "danger",
                "copy_not_whole",
                f"The copy in {track.path.parent} is not whole and stays as {track.path.name}; the whole run "
                f"is {saved[0]}.",
            )
            continue
        try:
            writer = track.writer if track.writer.is_open else None  # closed when this is another try
            made = finish(track.path, disk=disk, writer=writer)
        except (OSError, LoggerError) as error:
            failures.append(error)
            continue
        assert made is not None  # the journal's head was durable before the first sample
        saved.append(made)
    for failure in failures:
        notices.add("danger", "not_archived", str(failure))
    if saved:
        return saved[0]
    raise ArchiveFailed(_told(failures[0], ordered[0].path, lost_samples)) from failures[0]


def _told(failure: OSError | LoggerError, journal: Path, lost_samples: int) -> str:
    told = str(failure)
    if not journal.exists():
        told = (
            f"{target_of(journal).name} could not be written: its journal is no longer there. If {journal} "
            "or its folder was moved or renamed, look for it there, and: galvanote recover FOLDER. If it was "
            "removed, what it held is lost"
        )
    elif not isinstance(failure, LoggerError):
        told = (
            f"{target_of(journal).name} could not be written ({told}). What was recorded is safe in "
            f"{journal}; later: galvanote recover '{journal}'"
        )
    if lost_samples:
        return f"The last {lost_samples} readings are lost: the disk stayed full. {told}"
    return told
