"""A guard: some releases of the Qt binding abort on the older Pythons after some thousand calls."""

from __future__ import annotations

import sys

import pytest
from PySide6.QtWidgets import QLabel


@pytest.mark.usefixtures("qapp")
def test_calls_into_qt_do_not_use_up_references_to_none() -> None:
    """PySide6 6.12.0 on Python 3.11 loses one reference to None in every call that returns nothing."""
    label = QLabel()
    before = sys.getrefcount(None)
    for i in range(500):
        label.setText(str(i))
    assert sys.getrefcount(None) > before - 50
