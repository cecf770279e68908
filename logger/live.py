"""A disposable HDF5 file that other programs can follow while a run goes on.

A process of its own tails the journal into a file in SWMR mode (single writer, multiple readers). It is
never synced and thrown away at the end; when the process dies it is started again from the beginning of
the journal. The recorder knows nothing of it and never waits for it. Readers open the file with
``h5py.File(name, "r", swmr=True)`` and refresh the datasets.
"""

from __future__ import annotations

import contextlib
import os
import subprocess
import sys
import threading
import time
from pathlib import Path
from typing import Any

import numpy as np

from drivers.samples import Samples
from logger.errors import LoggerError, OutputExists
from logger.journal import FrameType, JournalFollower
from logger.ledger import Ledger
from logger.notices import Notices
from logger.payload import decode_samples

__all__ = ["LiveFile"]

CHUNK = 4096
POLL_S = 0.1
READ_AT_ONCE = 1_000_000
"""Samples taken from the journal before they are written: whoever begins late must not hold all of it."""
WATCH_S = 0.5
KIND_BYTES = 32
LABEL_BYTES = 512


class LiveFile:
    """Keeps the following process alive during a run. One thread of its own watches it.

    Parameters
    ----------
    path : the file to make; must not exist.

    Raises
    ------
    OutputExists : there is a file of that name.
    LoggerError : its folder is not there.
    """

    def __init__(self, journal: Path, path: Path, notices: Notices) -> None:
        if path.exists():
            raise OutputExists(
                f"{path} exists; a live file is thrown away at the end, so name one that is not there"
            )
        if not path.absolute().parent.is_dir():
            raise LoggerError(f"the folder {path.absolute().parent} is not there; make it first")
        self.path = path.absolute()
        self._journal = journal
        self._notices = notices
        self._process: subprocess.Popen[bytes] | None = None
        self._stopping = threading.Event()
        self._thread = threading.Thread(target=self._watch, name="live file", daemon=True)
        self.restarts = 0

    def start(self) -> None:
        """Begin to follow."""
        self._start_process()
        self._thread.start()

    def stop(self) -> None:
        """End the following process and remove the file. May be called twice."""
        self._stopping.set()
        if self._thread.ident is not None:
            self._thread.join(5.0)
        if self._process is not None:
            self._end_process()
        self.path.unlink(missing_ok=True)

    @property
    def process_id(self) -> int | None:
        """The following process, for tests."""
        return None if self._process is None else self._process.pid

    def _start_process(self) -> None:
        self.path.unlink(missing_ok=True)
        self._process = subprocess.Popen(
            [sys.executable, "-m", "logger.live", str(self._journal.resolve()), str(self.path)],
            cwd=Path(__file__).resolve().parent.parent,
            stdin=subprocess.PIPE,  # ends with this process, however that ends
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )

    def _end_process(self) -> None:
        assert self._process is not None
        self._process.kill()  # nothing in the file is worth waiting for
        self._process.wait()
        assert self._process.stdin is not None
        self._process.stdin.close()

    def _watch(self) -> None:
        while not self._stopping.wait(WATCH_S):
            assert self._process is not None
            if self._process.poll() is not None:
                self._end_process()
                self.restarts += 1
                self._notices.add("warning", "live_restarted", "The live file had to be begun anew.")
                self._start_process()


# ---------------------------------------------------------------- in the child


def _follow(journal: Path, path: Path) -> None:
    import h5py

    ledger = Ledger()
    with journal.open("rb") as source, h5py.File(path, "x", libver="latest") as file:
        follower = JournalFollower(source)
        waiting: list[tuple[int, Samples]] = []
        while not waiting:  # no group can be added later: wait until all channels are known
            waiting = _take(follower, ledger)
            time.sleep(0.0 if waiting else POLL_S)
        _lay_out(file, ledger)
        file.swmr_mode = True
        known_moments = -1
        while True:
            _append(file, ledger, waiting)
            if len(ledger.revisions) != known_moments:
                known_moments = len(ledger.revisions)
                _write_moments(file["run/moments"], ledger)
            if ledger.end is not None:
                return
            if sum(len(samples) for _, samples in waiting) < READ_AT_ONCE:
                time.sleep(POLL_S)
            waiting = _take(follower, ledger)


def _take(follower: JournalFollower, ledger: Ledger) -> list[tuple[int, Samples]]:
    blocks = []
    count = 0
    for frame in follower:
        if frame.type != FrameType.SAMPLES:
            ledger.take(frame)
            continue
        index, samples = decode_samples(frame.payload)
        blocks.append((index, samples))
        count += len(samples)
        if count >= READ_AT_ONCE:
            break
    return blocks


def _lay_out(file: Any, ledger: Ledger) -> None:
    file.attrs.update(NX_class="NXroot", default="run")
    run = file.create_group("run")
    run.attrs.update(NX_class="NXentry", default=next(iter(ledger.channels.values())).name)
    run.attrs["title"] = ledger.head["title"]
    run.attrs["start_time"] = ledger.head["start_time"]
    for entry in ledger.channels.values():
        group = run.create_group(entry.name)
        group.attrs.update(NX_class="NXdata", signal="value", axes=["time"], role=entry.role)
        for name, dtype in (("time", "f8"), ("value", "f8"), ("quality", "u1")):
            group.create_dataset(name, shape=(0,), maxshape=(None,), dtype=dtype, chunks=(CHUNK,))
        group["time"].attrs["units"] = "s"
        group["value"].attrs["units"] = entry.unit
    moments = run.create_group("moments")
    moments.attrs["NX_class"] = "NXcollection"
    for name, dtype in (("time", "f8"), ("kind", f"S{KIND_BYTES}"), ("label", f"S{LABEL_BYTES}")):
        moments.create_dataset(name, shape=(0,), maxshape=(None,), dtype=dtype, chunks=(64,))


def _append(file: Any, ledger: Ledger, blocks: list[tuple[int, Samples]]) -> None:
    for index, entry in ledger.channels.items():
        mine = [samples for number, samples in blocks if number == index]
        if not mine:
            continue
        group = file["run"][entry.name]
        columns = (
            ("quality", np.concatenate([s.quality for s in mine])),
            ("value", np.concatenate([s.values for s in mine])),
            ("time", np.concatenate([s.times_s for s in mine])),  # last: a reader goes by its length
        )
        for name, block in columns:
            dataset = group[name]
            old = dataset.shape[0]
            dataset.resize((old + block.size,))
            dataset[old:] = block
            dataset.flush()


def _write_moments(group: Any, ledger: Ledger) -> None:
    moments = ledger.moments
    for name, values in (
        ("kind", [m.kind.encode() for m in moments]),
        ("label", [_cut(m.label) for m in moments]),
        ("time", [m.time_s for m in moments]),
    ):
        dataset = group[name]
        dataset.resize((len(moments),))
        if moments:
            dataset[:] = np.array(values, dtype=dataset.dtype)
        dataset.flush()


def _cut(label: str) -> bytes:
    """Return the label in UTF-8, cut between characters where it is too long."""
    return label.encode()[:LABEL_BYTES].decode(errors="ignore").encode()


def _end_with_parent(path: Path) -> None:
    """Wait until the recorder has ended, without this process if it was killed; then leave no trace."""
    while os.read(0, 4096):  # not sys.stdin: its lock, held here, would spoil an orderly end
        pass
    with contextlib.suppress(OSError):
        path.unlink()
    os._exit(1)


if __name__ == "__main__":
    threading.Thread(target=_end_with_parent, args=(Path(sys.argv[2]),), daemon=True).start()
    _follow(Path(sys.argv[1]), Path(sys.argv[2]))
