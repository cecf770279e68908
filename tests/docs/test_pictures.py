"""The script that pictures the window for the guide works with the window as it is."""

import os
import subprocess
import sys

import pytest

from tests.docs.pages import DOCS

pytest.importorskip("PySide6.QtWidgets")

PNG = b"\x89PNG\r\n\x1a\n"
LEAST_BYTES = 20_000  # an empty window of this size has about 5 kB


def test_every_picture_of_the_guide_can_be_made(tmp_path):
    command = [sys.executable, str(DOCS / "make_pictures.py"), str(tmp_path), "--quick"]
    environment = {**os.environ, "QT_QPA_PLATFORM": "offscreen"}
    made = subprocess.run(command, capture_output=True, text=True, env=environment, check=False)
    assert made.returncode == 0, made.stderr
    pictures = {path.name: path.read_bytes() for path in tmp_path.iterdir()}
    assert pictures.keys() == {path.name for path in (DOCS / "pictures").iterdir()}
    for name, data in pictures.items():
        assert data.startswith(PNG), name
        assert len(data) > LEAST_BYTES, name
