"""Files appear whole or not at all; what killed exports left goes, what is still written stays."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from logger.disk import Disk
from logger.errors import LoggerError
from logger.export.atomic import remove_leftovers, written_together, written_whole

WRITER = """
import sys, time
from pathlib import Path
from logger.export.atomic import written_whole
with written_whole(Path(sys.argv[1])) as part:
    part.write_bytes(b"half")
    print("WRITING", flush=True)
    time.sleep(600)
"""


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


@pytest.mark.skipif(os.name == "nt", reason="killed otherwise there")
def test_what_a_killed_export_left_goes_with_the_next_one_and_not_before(tmp_path: Path) -> None:
    command = [sys.executable, "-c", WRITER, str(tmp_path / "a.csv")]
    child = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)
    try:
        assert child.stdout is not None
        assert child.stdout.readline() == "WRITING\n"
        with written_whole(tmp_path / "b.csv") as part:
            part.write_bytes(b"whole")
        assert len(names(tmp_path)) == 2, "the part of an export that goes on was taken away"
        child.send_signal(signal.SIGKILL)
        child.wait(60)
        assert any(name.endswith(".part") for name in names(tmp_path))
        with written_whole(tmp_path / "c.csv") as part:
            part.write_bytes(b"whole")
        assert names(tmp_path) == ["b.csv", "c.csv"]
    finally:
        if child.poll() is None:
            child.kill()
        child.communicate()


def test_two_exports_to_one_name_at_once_do_not_meet(tmp_path: Path) -> None:
    out = tmp_path / "a.csv"
    with written_whole(out) as first:
        first.write_bytes(b"first")
        with written_whole(out) as second:
            assert second != first
            second.write_bytes(b"second")
        assert out.read_bytes() == b"second"
    assert out.read_bytes() == b"first"
    assert names(tmp_path) == ["a.csv"]


def test_when_something_is_raised_nothing_is_left_and_what_was_there_stays(tmp_path: Path) -> None:
    (tmp_path / "a.csv").write_text("before")

    def write() -> None:
        with written_together() as begin:
            begin(tmp_path / "a.csv").write_text("half")
            begin(tmp_path / "b.csv").write_text("half")
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        write()
    assert names(tmp_path) == ["a.csv"]
    assert (tmp_path / "a.csv").read_text() == "before"


def test_only_leftovers_of_exports_are_removed(tmp_path: Path) -> None:
    for name in (".galvanote-0011aabb.part", "run.h5.part", ".other.part", "galvanote-x.part"):
        (tmp_path / name).write_text("")
    remove_leftovers(tmp_path)
    assert names(tmp_path) == [".other.part", "galvanote-x.part", "run.h5.part"]
    remove_leftovers(tmp_path / "nowhere")


def test_without_locks_files_are_written_all_the_same(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def no_locks(_disk: Disk, _fd: int, _path: Path) -> None:
        raise OSError(95, "Operation not supported")

    monkeypatch.setattr(Disk, "lock", no_locks)
    (tmp_path / ".galvanote-0011aabb.part").write_text("whose is it?")
    with written_whole(tmp_path / "a.csv") as part:
        part.write_text("whole")
    assert names(tmp_path) == [".galvanote-0011aabb.part", "a.csv"]


def test_a_folder_that_is_gone_is_told_by_the_name_of_the_output(tmp_path: Path) -> None:
    with (
        pytest.raises(LoggerError, match=r"nowhere.*could not be written"),
        written_whole(tmp_path / "nowhere/a.csv"),
    ):
        raise AssertionError("nothing can be written there")
