"""Changing a finished recording: edit a copy, make it durable, give it the recording's name.

A finished file is never opened for writing in place: cut off at the wrong moment, that costs the whole
run. The copy is edited in a process of its own, for the reason given in `logger.archive`.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from logger.archive import write_moments
from logger.attachment_groups import GROUP, write_entry
from logger.checksum import is_part_whole, seal
from logger.disk import Disk
from logger.errors import LoggerError
from logger.moments import Moment
from logger.orphan import is_orphan, my_id
from logger.version import PROGRAM, VERSION

__all__ = ["Amendment", "amend", "check_protection", "copy_of"]

EDIT_SUFFIX = ".edit"
REWRITTEN = ("moments", "moments_history")


@dataclass(frozen=True, slots=True)
class Amendment:
    """What a recording shall hold: its moments, what edits replaced, (findings as JSON text, date), and
    pictures to add or remove (entries of `logger.attachments`)."""

    moments: Sequence[Moment]
    history: Sequence[tuple[Moment, str]]
    findings: tuple[str, str] | None = None
    pictures: Sequence[Mapping[str, Any]] = ()


def copy_of(recording: Path) -> Path:
    """Return the name of the copy that is changed."""
    return recording.with_name(recording.name + EDIT_SUFFIX)


def check_protection(recording: Path) -> None:
    """Refuse to change a file that is write-protected: its copy would be, too, and could not be changed.

    Raises
    ------
    LoggerError : it is.
    """
    if recording.is_file() and not os.access(recording, os.W_OK):
        raise LoggerError(
            f"{recording} could not be changed (it is write-protected); it is as it was. Take the protection "
            "away, or change a copy of it."
        )


def amend(recording: Path, amendment: Amendment, disk: Disk) -> None:
    """Put `amendment` into a finished recording. The caller keeps others from doing so at the same time.

    Raises
    ------
    LoggerError : the changed copy could not be made; the recording is as it was.
    """
    check_protection(recording)
    copy = copy_of(recording)
    change = {
        "moments": [asdict(m) for m in amendment.moments],
        "history": [[asdict(m), changed_at] for m, changed_at in amendment.history],
        "findings": amendment.findings,
        "pictures": [dict(entry) for entry in amendment.pictures],
    }
    try:
        disk.remove(copy)
        shutil.copyfile(recording, copy)
        shutil.copymode(recording, copy)
        _edit_in_child(copy, change)
        disk.sync_file(copy)
        disk.replace(copy, recording)
        disk.sync_folder(recording.parent)
    except (OSError, LoggerError) as error:
        disk.remove(copy)
        # Of a failed copy the system names two files: the recording, and one that is gone by now.
        reason = error.strerror if isinstance(error, OSError) else None
        raise _unchanged(recording, reason or error) from error


def _unchanged(recording: Path, error: object) -> LoggerError:
    return LoggerError(
        f"{recording} could not be changed ({error}); it is as it was. Check free space and permissions."
    )


def _edit_in_child(copy: Path, change: dict[str, Any]) -> None:
    result = subprocess.run(
        [sys.executable, "-m", "logger.amend", str(copy.resolve()), my_id()],
        cwd=Path(__file__).resolve().parent.parent,
        input=json.dumps(change),
        capture_output=True,
        text=True,
        check=False,
    )
    if result.returncode != 0:
        said = result.stderr.strip().splitlines()
        raise LoggerError(said[-1] if said else f"the editing process ended with status {result.returncode}")


# ---------------------------------------------------------------- in the child


def _edit(copy: Path, change: dict[str, Any]) -> None:
    import h5py

    with h5py.File(copy, "r+") as file:
        run = file["run"]
        # Moments are written anew from what was read: when that was damaged, it is not declared whole.
        sealed = [name for name in REWRITTEN if is_part_whole(run, name)]
        for name in REWRITTEN:
            if name in run:
                del run[name]
        history = [(Moment(**moment), changed_at) for moment, changed_at in change["history"]]
        write_moments(run, [Moment(**m) for m in change["moments"]], history)
        if change["pictures"] and is_part_whole(run, GROUP):
            sealed.append(GROUP)
        for entry in change["pictures"]:
            write_entry(run, entry)
        if change["findings"] is not None:
            _write_findings(run, *change["findings"])
            sealed.append("findings")
        seal(run, sealed)


def _write_findings(run: Any, findings_json: str, date: str) -> None:
    import h5py

    if "findings" in run:
        del run["findings"]
    group = run.create_group("findings")
    group.attrs["NX_class"] = "NXprocess"
    for name, value in (("program", PROGRAM), ("version", VERSION), ("date", date), ("json", findings_json)):
        group.create_dataset(name, data=value, dtype=h5py.string_dtype())


if __name__ == "__main__":
    import h5py  # noqa: F401 - as in logger.archive

    if is_orphan(sys.argv[2]):
        sys.exit(1)
    try:
        _edit(Path(sys.argv[1]), json.load(sys.stdin))
    except (OSError, RuntimeError, KeyError, ValueError) as problem:
        print(problem, file=sys.stderr)  # noqa: T201 - the parent reads it
        sys.exit(1)
