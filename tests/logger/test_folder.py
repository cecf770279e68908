"""Where recordings go, and what that place is called."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from logger.errors import LoggerError
from logger.folder import folder_words, resolve_output


@pytest.mark.skipif(sys.platform == "win32", reason="no ~ there")
def test_a_folder_at_home_is_called_from_there(monkeypatch):
    monkeypatch.setattr(Path, "home", lambda: Path("/home/teacher"))
    assert folder_words(Path("/home/teacher/class 9b/strips")) == "~/class 9b/strips"
    assert folder_words(Path("/home/teacher")) == "/home/teacher"
    assert folder_words(Path("/home/teacherette/x")) == "/home/teacherette/x"
    assert folder_words(Path("/media/stick")) == "/media/stick"


def test_a_folder_is_no_recording_whatever_it_is_called(tmp_path):
    """It was told to write --out .h5 instead of the folder's own name, a point."""
    for folder in (tmp_path, tmp_path / "strips.h5"):
        folder.mkdir(exist_ok=True)
        with pytest.raises(LoggerError, match="is a folder; name a file in it"):
            resolve_output(folder)
