"""Changing a finished recording: edit a copy, make it durable, give it the recording's name.

A finished file is never opened for writing in place: cut off at the wrong moment, that costs the whole
run. The copy is edited in a process of its own, for the reason given in `logger.archive`.
"""

from __future__ import annotations

import json
import shutil
import subprocess
import sys
from collections.abc import Sequence
from dataclasses import asdict
from pathlib import Path
from typing import Any

from logger.archive import write_moments
from logger.disk import Disk
from logger.errors import LoggerError
from logger.moments import Moment
from logger.version import PROGRAM, VERSION

__all__ = ["store_findings", "store_moments"]

EDIT_SUFFIX = ".edit"


def store_moments(
    recording: Path,
    moments: Sequence[Moment],
    history: Sequence[tuple[Moment, str]],
    disk: Disk | None = None,
) -> None:
    """Replace the moments of a finished recording, and the history of what edits replaced.

    Raises
    ------
    LoggerError : the edited copy could not be made; the recording is as it was.
    """
    _amend(
        recording,
        {
            "moments": [asdict(m) for m in moments],
            "history": [[asdict(m), changed_at] for m, changed_at in history],
        },
        disk or Disk(),
    )


def store_findings(recording: Path, findings_json: str, date: str, disk: Disk | None = None) -> None:
    """Keep the findings in the recording, as JSON text with program version and date.

    Raises
    ------
    LoggerError : the edited copy could not be made; the recording is as it was.
    """
    _amend(recording, {"findings": findings_json, "date": date}, disk or Disk())


def _amend(recording: Path, change: dict[str, Any], disk: Disk) -> None:
    copy = recording.with_name(recording.name + EDIT_SUFFIX)
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
        raise LoggerError(
            f"{recording} could not be changed ({error}); it is as it was. Check free space and permissions."
        ) from error


def _edit_in_child(copy: Path, change: dict[str, Any]) -> None:
    result = subprocess.run(
        [sys.executable, "-m", "logger.amend", str(copy.resolve())],
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
        if "moments" in change:
            for name in ("moments", "moments_history"):
                if name in run:
                    del run[name]
            history = [(Moment(**moment), changed_at) for moment, changed_at in change["history"]]
            write_moments(run, [Moment(**m) for m in change["moments"]], history)
        if "findings" in change:
            if "findings" in run:
                del run["findings"]
            group = run.create_group("findings")
            group.attrs["NX_class"] = "NXprocess"
            text = h5py.string_dtype()
            group.create_dataset("program", data=PROGRAM, dtype=text)
            group.create_dataset("version", data=VERSION, dtype=text)
            group.create_dataset("date", data=change["date"], dtype=text)
            group.create_dataset("json", data=change["findings"], dtype=text)


if __name__ == "__main__":
    try:
        _edit(Path(sys.argv[1]), json.load(sys.stdin))
    except (OSError, RuntimeError, KeyError, ValueError) as problem:
        print(problem, file=sys.stderr)  # noqa: T201 - the parent reads it
        sys.exit(1)
