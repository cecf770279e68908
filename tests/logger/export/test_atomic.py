"""Files appear whole or not at all; what killed exports left goes, what is still written stays."""

from __future__ import annotations

import os
import re
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from logger.disk import Disk
from logger.errors import LoggerError, OutputExists
from logger.export.atomic import (
    refuse_what_exists,
    remove_leftovers,
    working_folder,
    written_together,
    written_whole,
)

if os.name != "nt":
    import fcntl

WRITER = """
import sys, time
from pathlib import Path
from logger.export.atomic import written_whole
with written_whole(Path(sys.argv[1]), replace=False) as part:
    part.write_bytes(b"half")
    print("WRITING", flush=True)
    time.sleep(600)
"""


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_more_files_than_may_be_open_appear_together(tmp_path: Path) -> None:
    """macOS lets a program open 256 files where nobody asks for more (its launchctl manual page)."""
    resource = pytest.importorskip("resource")
    before = resource.getrlimit(resource.RLIMIT_NOFILE)
    spare = 20
    highest = os.dup(2)
    os.close(highest)
    resource.setrlimit(resource.RLIMIT_NOFILE, (highest + spare, before[1]))
    try:
        with written_together(replace=False) as begin:
            for number in range(3 * spare):
                begin(tmp_path / f"{number}.csv").write_text(str(number))
            assert len(names(tmp_path)) == 3 * spare
            with written_whole(tmp_path / "other.csv", replace=False) as part:
                part.write_text("meanwhile")
    finally:
        resource.setrlimit(resource.RLIMIT_NOFILE, before)
    assert names(tmp_path) == sorted(["other.csv", *(f"{number}.csv" for number in range(3 * spare))])
    assert all((tmp_path / f"{number}.csv").read_text() == str(number) for number in range(3 * spare))


@pytest.mark.skipif(os.name == "nt", reason="killed otherwise there")
def test_what_a_killed_export_of_several_files_left_goes_whole(tmp_path: Path) -> None:
    script = """
import os, sys
from pathlib import Path
from logger.export.atomic import written_together
with written_together(replace=False) as begin:
    for name in "abc":
        begin(Path(sys.argv[1]) / name).write_text(name)
    os.kill(os.getpid(), 9)
"""
    subprocess.run([sys.executable, "-c", script, str(tmp_path)], check=False)
    left = names(tmp_path)
    assert len(left) == 3
    first = min(left, key=len)
    for gone in ([], [first]):  # cut off before, or while names were given
        for name in left:
            (tmp_path / name).write_text("half")
        for name in gone:
            (tmp_path / name).unlink()
        remove_leftovers(tmp_path)
        assert names(tmp_path) == []


@pytest.mark.skipif(os.name == "nt", reason="killed otherwise there")
def test_what_a_killed_export_left_goes_with_the_next_one_and_not_before(tmp_path: Path) -> None:
    command = [sys.executable, "-c", WRITER, str(tmp_path / "a.csv")]
    child = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)
    try:
        assert child.stdout is not None
        assert child.stdout.readline() == "WRITING\n"
        with written_whole(tmp_path / "b.csv", replace=False) as part:
            part.write_bytes(b"whole")
        assert len(names(tmp_path)) == 2, "the part of an export that goes on was taken away"
        child.send_signal(signal.SIGKILL)
        child.wait(60)
        assert any(name.endswith(".part") for name in names(tmp_path))
        with written_whole(tmp_path / "c.csv", replace=False) as part:
            part.write_bytes(b"whole")
        assert names(tmp_path) == ["b.csv", "c.csv"]
    finally:
        if child.poll() is None:
            child.kill()
        child.communicate()


def test_two_exports_to_one_name_at_once_do_not_meet(tmp_path: Path) -> None:
    out = tmp_path / "a.csv"
    with written_whole(out, replace=True) as first:
        first.write_bytes(b"first")
        with written_whole(out, replace=True) as second:
            assert second != first
            second.write_bytes(b"second")
        assert out.read_bytes() == b"second"
    assert out.read_bytes() == b"first"
    assert names(tmp_path) == ["a.csv"]


def write_inside_another(folder: Path, outer: tuple[str, ...], inner: tuple[str, ...]) -> None:
    """Begin `outer`, write `inner` from begin to end, and then end `outer`; nothing may be replaced."""
    with written_together(replace=False) as begin:
        for name in outer:
            begin(folder / name).write_text("outer")
        with written_together(replace=False) as begin_inner:
            for name in inner:
                begin_inner(folder / name).write_text("inner")


@pytest.mark.parametrize("place", [0, 1, 2])
def test_of_two_exports_to_one_name_at_once_the_later_to_end_replaces_nothing(
    tmp_path: Path, place: int
) -> None:
    outer = ("a.csv", "a.moments.csv", "a.datapackage.json")
    with pytest.raises(OutputExists, match=re.escape(f"{outer[place]} exists; choose another name")):
        write_inside_another(tmp_path, outer, (outer[place], "b.csv"))
    assert names(tmp_path) == sorted([outer[place], "b.csv"]), "a set that is not whole was left"
    assert {path.read_text() for path in tmp_path.iterdir()} == {"inner"}


def test_names_that_somebody_else_took_at_the_last_moment_are_left_to_him(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Somebody who knows nothing of our locks, between the look at all names and the second renaming."""
    give_name = Disk.give_name

    def too_late(disk: Disk, fd: int, source: Path, target: Path) -> int:
        if target.name == "b.csv":
            target.write_text("theirs")
        return give_name(disk, fd, source, target)

    monkeypatch.setattr(Disk, "give_name", too_late)

    def write() -> None:
        with written_together(replace=False) as begin:
            for name in ("a.csv", "b.csv", "c.csv"):
                begin(tmp_path / name).write_text("ours")

    with pytest.raises(OutputExists, match=r"b\.csv exists"):
        write()
    assert names(tmp_path) == ["b.csv"]
    assert (tmp_path / "b.csv").read_text() == "theirs"


def test_a_link_that_leads_nowhere_is_not_replaced_either(tmp_path: Path) -> None:
    link = tmp_path / "a.csv"
    link.symlink_to(tmp_path / "gone.csv")
    with pytest.raises(OutputExists), written_whole(link, replace=False) as part:
        part.write_text("whole")
    assert names(tmp_path) == ["a.csv"]
    assert link.is_symlink()


@pytest.mark.skipif(os.name == "nt", reason="folders cannot be locked there")
def test_names_are_given_one_set_after_the_other(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    fd = os.open(tmp_path, os.O_RDONLY)
    fcntl.flock(fd, fcntl.LOCK_EX)
    waits: list[float] = []

    def wait(seconds: float) -> None:
        assert names(tmp_path) != ["a.csv"], "the name was given while another export gives names"
        waits.append(seconds)
        if len(waits) == 3:
            os.close(fd)  # the other one has done

    monkeypatch.setattr("logger.disk.time.sleep", wait)
    with written_whole(tmp_path / "a.csv", replace=False) as part:
        part.write_text("whole")
    assert len(waits) == 3
    assert names(tmp_path) == ["a.csv"]


@pytest.mark.skipif(os.name == "nt", reason="folders cannot be locked there")
def test_a_folder_locked_for_good_is_not_waited_for_without_end(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    fd = os.open(tmp_path, os.O_RDONLY)
    fcntl.flock(fd, fcntl.LOCK_EX)
    waits: list[float] = []
    monkeypatch.setattr("logger.disk.time.sleep", waits.append)
    try:
        with written_whole(tmp_path / "a.csv", replace=False) as part:
            part.write_text("whole")
    finally:
        os.close(fd)
    assert names(tmp_path) == ["a.csv"]
    assert sum(waits) == pytest.approx(5.0)


def test_when_something_is_raised_nothing_is_left_and_what_was_there_stays(tmp_path: Path) -> None:
    (tmp_path / "a.csv").write_text("before")

    def write() -> None:
        with written_together(replace=True) as begin:
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
    with written_whole(tmp_path / "a.csv", replace=False) as part:
        part.write_text("whole")
    assert names(tmp_path) == [".galvanote-0011aabb.part", "a.csv"]


def test_a_folder_that_is_gone_is_told_by_the_name_of_the_output(tmp_path: Path) -> None:
    with (
        pytest.raises(LoggerError, match=r"nowhere.*could not be written"),
        written_whole(tmp_path / "nowhere/a.csv", replace=False),
    ):
        raise AssertionError("nothing can be written there")


def test_a_working_folder_goes_at_the_end_and_that_of_another_export_stays(tmp_path: Path) -> None:
    (tmp_path / ".galvanote-0011aabb.work").mkdir()
    (tmp_path / ".galvanote-0011aabb.work" / "sheet").write_text("of one that was killed")
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    (elsewhere / "kept").write_text("mine")
    (tmp_path / ".galvanote-22.work").symlink_to(elsewhere)
    with written_whole(tmp_path / "a.csv", replace=False) as part, working_folder(part) as folder:
        assert not (tmp_path / ".galvanote-0011aabb.work").exists()
        (folder / "sheet").write_text("growing")
        with written_whole(tmp_path / "b.csv", replace=False) as other:
            assert (folder / "sheet").read_text() == "growing"
            other.write_text("b")
        part.write_text("a")
    assert (elsewhere / "kept").read_text() == "mine"
    assert [name for name in names(tmp_path) if not name.startswith(".galvanote-22")] == [
        "a.csv", "b.csv", "elsewhere",
    ]  # fmt: skip


@pytest.mark.skipif(sys.platform == "win32", reason="there are no such names")
def test_a_pipe_is_not_replaced(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "a.csv")
    with pytest.raises(LoggerError, match=r"a\.csv is a pipe or a device and is not replaced"):
        refuse_what_exists([tmp_path / "a.csv"], replace=True)
