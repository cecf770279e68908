"""The report as PDF, read back by poppler: one page of A4 whose words can be searched."""

from __future__ import annotations

import re
import shutil
import subprocess
from pathlib import Path

import pytest

from logger.analysis.findings import findings
from logger.export.formats import Choices, export
from tests.logger.export.hostile import LABELS
from tests.logger.simulated_run import lesson

pytestmark = [
    pytest.mark.usefixtures("qapp"),
    pytest.mark.skipif(shutil.which("pdftotext") is None, reason="poppler-utils is not installed"),
]


def told(program: str, *arguments: object) -> str:
    done = subprocess.run([program, *map(str, arguments)], capture_output=True, check=True, encoding="utf-8")
    assert done.stderr == ""
    return done.stdout


def test_one_page_of_a4_says_what_was_found(tmp_path: Path) -> None:
    recording, _ = lesson(seed=3)
    out = tmp_path / "Bericht ü 1.pdf"
    export(lambda: recording, out)
    about = told("pdfinfo", out)
    assert re.search(r"Pages: +1\b", about)
    assert re.search(r"Page size: +595 x 842 pts \(A4\)", about)
    text = told("pdftotext", "-layout", out, "-")
    found = findings(recording)
    for name in ("before", "after"):
        assert f"{found['settled'][name]['voltage_V']:.3f} ±" in text
    for part in ("voltage saved, 95 % interval", "Our conclusions", "Cautions.", "Set-up", "Data quality"):
        assert part in text
    fonts = told("pdffonts", out)
    assert len(fonts.splitlines()) >= 4
    assert all(
        re.search(r" yes +(yes|no) +yes ", line) for line in fonts.splitlines()[2:]
    )  # embedded, with letters


@pytest.mark.parametrize("label", LABELS)
def test_hostile_titles_make_a_pdf_without_actions(tmp_path: Path, label: str) -> None:
    recording, _ = lesson(seed=3, until_s=200)
    out = tmp_path / "a.pdf"
    export(lambda: type(recording)(**{**_fields(recording), "title": label}), out)
    data = re.sub(rb"\bstream\b.*?\bendstream\b", b"", out.read_bytes(), flags=re.DOTALL)
    assert told("pdfinfo", "-js", out) == ""
    for action in (b"/JavaScript", b"/JS", b"/Launch", b"/URI", b"/OpenAction", b"/AA"):
        assert action not in data
    assert re.search(r"Pages: +1\b", told("pdfinfo", out))


def test_a_size_asks_for_the_picture_instead(tmp_path: Path) -> None:
    recording, _ = lesson(seed=3)
    export(lambda: recording, tmp_path / "a.pdf", Choices(size="slide"))
    assert re.search(r"Page size: +960 x 540 pts", told("pdfinfo", tmp_path / "a.pdf"))


def _fields(recording: object) -> dict[str, object]:
    return {name: getattr(recording, name) for name in recording.__dataclass_fields__}  # type: ignore[attr-defined]
