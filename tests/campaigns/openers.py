"""Everything that opens files, given one file in this process, and what was not as it should be."""

from __future__ import annotations

import contextlib
import hashlib
import io
import json
import os
import re
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from unittest import mock

import h5py
import numpy as np

from logger import amend, archive, reader, shelf_child
from logger.commands import main as galvanote
from logger.errors import LoggerError, RecordingError
from logger.inspection import inspect
from logger.reader import read_recording
from tests.campaigns.mutations import BYTES
from tests.campaigns.scenes import Known

__all__ = ["NAME", "Seen", "Spoilt", "digest", "prepare_opening", "refused_in_one_line"]

NAME = "run.h5"
PICTURE_EVERY = 10
SAID_BY_THE_LIBRARY = re.compile(
    r"synchronously|errno|\b0x[0-9a-f]|_addr|B-tree|object header|codec|dtype|NoneType"
)
"""Words that tell a person nothing."""


@dataclass(frozen=True)
class Spoilt:
    """One file to be made: of which kind, in which way, with which seed."""

    number: int
    kind: str  # recording, journal, edits
    way: str

    @property
    def name(self) -> str:
        return NAME if self.kind == "recording" else f"{NAME}.{self.kind}"


@dataclass
class Seen:
    """What came of one file: answered or refused, and everything that was not as it should be."""

    answered: bool = False
    faults: list[str] = field(default_factory=list)


def digest(path: Path) -> str | None:
    return hashlib.sha256(path.read_bytes()).hexdigest() if path.is_file() else None


def prepare_opening(originals: str) -> Callable[[tuple[Spoilt, str, str | None]], Seen]:
    """Return what opens (spoilt, path, refusal of the look or None) with everything that opens files."""
    os.environ["QT_QPA_PLATFORM"] = "offscreen"
    os.environ.pop("GALVANOTE_TRACE", None)
    right = read_recording(Path(originals) / NAME, is_own=True)

    def assemble(journal: Path, part: Path) -> None:
        try:
            archive.assemble(journal, part)
        except (OSError, LoggerError, RuntimeError) as error:
            part.unlink(missing_ok=True)
            raise archive.ArchiveFailed(str(error)) from error

    def handle(item: tuple[Spoilt, str, str | None]) -> Seen:
        spoilt, named, refusal = item
        path = Path(named)

        def look(asked: Path) -> None:
            if refusal is not None and asked == path:
                raise RecordingError(f"{asked} is not a recording, or not a whole one: {refusal}")

        with (
            mock.patch.object(archive, "_assemble_in_child", assemble),
            mock.patch.object(amend, "_edit_in_child", amend._edit),
            mock.patch.object(archive, "vet", look),
            mock.patch.object(reader, "vet", look),
            mock.patch("logger.inspection.vet", look),
        ):
            return _Opening(spoilt, path, right).all_of_it(refusal)

    return handle


class _Opening:
    def __init__(self, spoilt: Spoilt, path: Path, right: reader.Recording) -> None:
        self.spoilt = spoilt
        self.path = path
        self.asked = path if spoilt.kind != "edits" else path.with_suffix("")
        """What a person would name: the recording beside which edits lie."""
        self.right = right
        self.seen = Seen()

    def all_of_it(self, refusal: str | None) -> Seen:
        before = self._digests()
        self._command("check", self.path)
        table, picture = self.path.parent / "out.csv", self.path.parent / "out.png"
        if self._command("export", self.asked, "--to", table) == 0:
            self.seen.answered = True
            self._compare_table(table)
        if self.spoilt.number % PICTURE_EVERY == 0:
            self._command("export", self.asked, "--to", picture)
        self._look_for_silent_damage()
        self._open_in_window()
        if refusal is None:
            self._put_on_shelf()
        if self._digests() != before:
            self._fault("reading it changed it")
        self._analyse(before)
        if self.spoilt.kind != "recording":
            self._recover()
        return self.seen

    def _fault(self, text: str) -> None:
        self.seen.faults.append(text[:300])

    def _digests(self) -> tuple[str | None, ...]:
        return digest(self.path), digest(self.path.parent / NAME)

    def _command(self, *words: object) -> int:
        """Run one command here; note what a person must never see."""
        out, err = io.StringIO(), io.StringIO()
        command = [str(word) for word in words]
        try:
            with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
                status = galvanote(command)
        except BaseException as error:  # noqa: BLE001 - that is what is looked for
            self._fault(f"{command[0]} raised {error!r}")
            return 1
        for fault in refused_in_one_line(status, out.getvalue(), err.getvalue()):
            self._fault(f"{command[0]} {fault}")
        if "--json" in command and status == 0:
            json.loads(out.getvalue())
        return status

    def _compare_table(self, table: Path) -> None:
        """The first channel exported must be what another reader finds in the file."""
        if self.spoilt.kind != "recording" or not table.exists():
            return  # without a channel there is no table of readings
        try:
            with table.open() as file:
                column = file.readline().split(",")[1]
                rows = np.loadtxt(file, delimiter=",", ndmin=2)
        except (ValueError, IndexError) as error:
            self._fault(f"the table cannot be read: {error}")
            return
        with h5py.File(self.path) as file:
            names = [n for n, item in file["run"].items() if "role" in item.attrs]
            alike = [n for n in names if column.startswith(f"{n}_")]
            if not alike and len(names) != 1:
                return  # a name that was made plain: which of them it was cannot be told
            group = file["run"][max(alike or names, key=len)]
            found = [np.asarray(group[c][()], np.float64) for c in ("time", "value", "quality")]
        same = rows.shape[0] == found[0].size and all(
            np.array_equal(rows[:, i], one, equal_nan=True) for i, one in enumerate(found) if one.size
        )
        if not same:
            self._fault("the table does not hold what is in the file")

    def _look_for_silent_damage(self) -> None:
        """What chance changed must be refused or found by `check`; a cut journal may end earlier."""
        if self.spoilt.way not in BYTES or self.spoilt.kind == "edits":
            return
        try:
            found = read_recording(self.path)
        except RecordingError:
            return
        if self.spoilt.kind == "recording":
            if Known.of(found).digest != Known.of(self.right).digest and inspect(self.path).is_whole:
                self._fault("it is read with other contents, and check finds it whole")
            return
        (right,) = self.right.channels
        for voltage in found.channels:
            n = voltage.times_s.size
            columns = ("times_s", "values", "quality")
            if not all(np.array_equal(getattr(voltage, c), getattr(right, c)[:n]) for c in columns):
                self._fault("other readings are read than were written")

    def _open_in_window(self) -> None:
        try:
            from gui.session import load_finished
        except ImportError:
            return
        try:
            load_finished(self.asked)
            self.seen.answered = True
        except LoggerError as error:
            if SAID_BY_THE_LIBRARY.search(str(error)):
                self._fault(f"the window would say {error}")
        except Exception as error:  # noqa: BLE001 - that is what is looked for
            self._fault(f"the window's opener raised {error!r}")

    def _put_on_shelf(self) -> None:
        """As the shelf's child does, after the look."""
        if self.spoilt.kind != "recording":
            return
        try:
            with np.errstate(all="ignore"):
                json.dumps(shelf_child._of_file(self.asked))
        except (LoggerError, OSError, RuntimeError, LookupError, ValueError, TypeError, AttributeError):
            pass
        except Exception as error:  # noqa: BLE001 - that is what is looked for
            self._fault(f"the shelf raised {error!r}")

    def _analyse(self, before: tuple[str | None, ...]) -> None:
        """Findings may be kept in a recording that is answered for; its readings stay."""
        as_json = ["--json"] if self.spoilt.number % 2 else []
        status = self._command("analyse", self.asked, *as_json)
        self.seen.answered |= status == 0
        if self._digests() != before and (status != 0 or self.spoilt.kind == "journal"):
            self._fault(f"analyse changed it (status {status})")

    def _recover(self) -> None:
        status = self._command("recover", self.path)
        kept = self.path.exists() or archive.damaged_of(self.path).exists()
        if status != 0 and not kept:
            self._fault("recovering failed and removed the journal")
        if self.spoilt.kind == "edits" and not (self.path.parent / NAME).is_file():
            self._fault("the recording is gone")


def refused_in_one_line(status: int, out: str, err: str) -> list[str]:
    """Return what is wrong with how a command ended: its status, or what it said."""
    faults = []
    if "internal fault" in err or "Traceback" in err or "Warning" in err:
        faults.append(f"said {err[:250]}")
    if SAID_BY_THE_LIBRARY.search(err + out):
        faults.append(f"said in the library's words: {SAID_BY_THE_LIBRARY.findall(err + out)} {err[:200]}")
    if status not in (0, 1):
        faults.append(f"ended with status {status}")
    if status == 1 and len(err.strip().splitlines()) != 1:
        faults.append(f"refused in {len(err.splitlines())} lines: {err[:200]!r}")
    return faults
