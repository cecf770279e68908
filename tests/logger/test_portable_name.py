"""Names of files that every system takes."""

from __future__ import annotations

from pathlib import Path, PurePosixPath, PureWindowsPath

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logger.errors import LoggerError
from logger.export.atomic import refuse_what_exists
from logger.folder import resolve_output
from logger.portable_name import portable_name


@pytest.mark.parametrize(
    ("name", "given"),
    [
        ("anode ü.jpg", "anode ü.jpg"),
        ("CON", "_CON"),
        ("nul.png", "_nul.png"),
        ("com1.jpeg", "_com1.jpeg"),
        ("COM1 .txt", "_COM1 .txt"),
        ("console.png", "console.png"),
        ("anode: before.jpg", "anode_ before.jpg"),
        ("C:x.png", "C_x.png"),
        ("../../evil.png", "_.._evil.png"),
        ("/etc/passwd", "_etc_passwd"),
        ("a\\b.png", "a_b.png"),
        ("trailing. . ", "trailing"),
        (" .. ", "_"),
        ("", "_"),
    ],
)
def test_what_is_forbidden_somewhere_is_replaced(name: str, given: str) -> None:
    assert portable_name(name) == given


@given(st.one_of(st.text(), st.text(alphabet="conaux1.: /\\ ", max_size=8)))
def test_it_is_one_name_on_both_systems(name: str) -> None:
    """The standard library knows the names that Windows keeps for devices."""
    found = portable_name(name)
    assert PurePosixPath(found).name == found
    assert PureWindowsPath(found).name == found
    assert not PureWindowsPath(found).is_reserved()
    assert portable_name(found) == found


@pytest.mark.parametrize("name", ["CON", "nul", "a:b", "what?"])
@pytest.mark.parametrize("on_windows", [True, False])
def test_recordings_and_exports_get_no_name_that_windows_takes_for_something_else(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str, on_windows: bool
) -> None:
    monkeypatch.setattr("logger.portable_name.ON_WINDOWS", on_windows)
    for path, check in (
        (tmp_path / f"{name}.h5", resolve_output),
        (tmp_path / f"{name}.csv", lambda one: refuse_what_exists([one], replace=False)),
    ):
        if on_windows:
            with pytest.raises(LoggerError, match="is no name for a file on this system; choose another"):
                check(path)
        else:
            check(path)
