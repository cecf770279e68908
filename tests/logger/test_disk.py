"""What a file system may refuse, and what that means."""

from __future__ import annotations

import errno
import os
import sys

import pytest

from logger.disk import Disk
from logger.errors import RecordingBusy

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="folders are not synced, locks are others")


def refusing(number):
    def refuse(*_):
        raise OSError(number, os.strerror(number))

    return refuse


@pytest.fixture
def opened(tmp_path):
    disk = Disk()
    path = tmp_path / "a"
    fd = disk.create(path)
    yield disk, fd, path
    disk.close(fd)


def test_a_drive_that_syncs_no_folders_can_be_recorded_to(tmp_path, monkeypatch):
    """fsync(2): EINVAL where the object does not support synchronization."""
    monkeypatch.setattr("os.fsync", refusing(errno.EINVAL))
    Disk().sync_folder(tmp_path)
    monkeypatch.setattr("os.fsync", refusing(errno.EIO))
    with pytest.raises(OSError, match=r"\[Errno 5\]"):
        Disk().sync_folder(tmp_path)


def test_a_drive_without_locks_is_not_taken_for_one_that_is_busy(opened, monkeypatch):
    """flock(2): EWOULDBLOCK where the file is locked, ENOLCK where no lock can be given."""
    disk, fd, path = opened
    monkeypatch.setattr("fcntl.flock", refusing(errno.ENOLCK))
    with pytest.raises(OSError, match="locks available"):
        disk.lock(fd, path)
    assert not disk.is_locked(path)
    monkeypatch.setattr("fcntl.flock", refusing(errno.EWOULDBLOCK))
    assert disk.is_locked(path)
    with pytest.raises(RecordingBusy):
        disk.lock(fd, path)


def test_a_name_is_given_without_hard_links(opened, tmp_path, monkeypatch):
    monkeypatch.setattr("os.link", refusing(errno.EPERM))
    disk, fd, path = opened
    disk.lock(fd, path)
    target = tmp_path / "b"
    assert disk.give_name(fd, path, target) == fd
    assert disk.has_name(fd, target)
    assert not path.exists()
    with pytest.raises(RecordingBusy), disk.hold(target):
        pass


def test_a_name_that_is_taken_is_left_to_who_has_it(tmp_path):
    disk = Disk()
    target = tmp_path / "b"
    target.write_bytes(b"somebody else's")
    source = tmp_path / "a"
    fd = disk.create(source)
    with pytest.raises(FileExistsError):
        disk.give_name(fd, source, target)
    assert target.read_bytes() == b"somebody else's"
    assert not source.exists()
    with pytest.raises(OSError, match="Bad file descriptor"):
        os.fstat(fd)


@pytest.mark.parametrize("has_pwritev", [True, False])
@pytest.mark.parametrize("most", [1, 3, 7, 100])
def test_parts_are_written_whole_where_the_system_takes_them_in_portions(
    opened, monkeypatch, most, has_pwritev
):
    """pwritev(2), write(2): fewer bytes than asked for may be written."""
    disk, fd, path = opened
    real_pwrite, real_write = os.pwrite, os.write
    if has_pwritev:
        monkeypatch.setattr("os.pwritev", lambda fd, parts, at: real_pwrite(fd, b"".join(parts)[:most], at))
    else:
        monkeypatch.delattr("os.pwritev")
        monkeypatch.setattr("os.write", lambda fd, view: real_write(fd, view[:most]))
    disk.write_at(fd, [b"abc", b"", memoryview(b"defgh"), b"i"], 2)
    disk.write_at(fd, [b"XY"], 0)
    assert path.read_bytes() == b"XYabcdefghi"


def test_more_parts_than_the_system_takes_at_once_are_written_all(opened):
    """readv(2): at most IOV_MAX parts, 1024 on Linux."""
    disk, fd, path = opened
    parts = [b"%d;" % number for number in range(3000)]
    disk.write_at(fd, parts, 0)
    assert path.read_bytes() == b"".join(parts)
