"""Names of files that every system takes."""

from __future__ import annotations

from pathlib import PurePosixPath, PureWindowsPath

import pytest
from hypothesis import given
from hypothesis import strategies as st

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
