"""Where recordings go, and what that place is called."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from logger.folder import folder_words


@pytest.mark.skipif(sys.platform == "win32", reason="no ~ there")
def test_a_folder_at_home_is_called_from_there(monkeypatch):
    monkeypatch.setattr(Path, "home", lambda: Path("/home/teacher"))
    assert folder_words(Path("/home/teacher/class 9b/strips")) == "~/class 9b/strips"
    assert folder_words(Path("/home/teacher")) == "/home/teacher"
    assert folder_words(Path("/home/teacherette/x")) == "/home/teacherette/x"
    assert folder_words(Path("/media/stick")) == "/media/stick"
