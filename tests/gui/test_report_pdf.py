"""The report as PDF, read back by poppler: one page of A4 whose words can be searched."""

from __future__ import annotations

import re
import shutil
import subprocess
from dataclasses import replace
from pathlib import Path

import pytest

from logger.analysis.compared_run import compared_run
from logger.analysis.findings import findings
from logger.analysis.run_comparison import compare_runs
from logger.export.comparison_report import export_comparison
from logger.export.formats import Choices, export
from logger.export.overlay_picture import reduced
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
        level_V = found["settled"][name]["voltage_V"]
        shown = [float(one) for one in re.findall(r"([\d.]+) ± [\d.]+\s*V\b", text)]
        assert any(abs(one - level_V) <= 0.005 for one in shown)
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
    export(lambda: replace(recording, title=label), out)
    data = re.sub(rb"\bstream\b.*?\bendstream\b", b"", out.read_bytes(), flags=re.DOTALL)
    assert told("pdfinfo", "-js", out) == ""
    for action in (b"/JavaScript", b"/JS", b"/Launch", b"/URI", b"/OpenAction", b"/AA"):
        assert action not in data
    pages = re.search(r"Pages: +(\d+)", told("pdfinfo", out))
    assert pages is not None
    assert int(pages[1]) == 1 or len(label) > 60  # a long title follows in full


def test_a_size_asks_for_the_picture_instead(tmp_path: Path) -> None:
    recording, _ = lesson(seed=3)
    export(lambda: recording, tmp_path / "a.pdf", Choices(size="slide"))
    assert re.search(r"Page size: +960 x 540 pts", told("pdfinfo", tmp_path / "a.pdf"))


def test_a_comparison_is_pages_of_a4(tmp_path: Path) -> None:
    runs = [replace(lesson(seed=seed)[0], uuid=str(seed), title=f"Bench ü {seed}") for seed in (1, 2)]
    found = [findings(run) for run in runs]
    comparison = compare_runs([compared_run(*pair) for pair in zip(runs, found, strict=True)])
    curves = [reduced(*pair) for pair in zip(runs, found, strict=True)]
    export_comparison(comparison, curves, tmp_path / "a.pdf")
    assert "(A4)" in told("pdfinfo", tmp_path / "a.pdf")
    text = told("pdftotext", "-layout", tmp_path / "a.pdf", "-")
    for part in ("2 runs compared", "Bench ü 1", "Bench ü 2", "Grubbs' test", "with salt", "Cautions"):
        assert part in text
    export_comparison(comparison, curves, tmp_path / "a.png")
    assert (tmp_path / "a.png").read_bytes().startswith(b"\x89PNG")
