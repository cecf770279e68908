"""Pictures of moments in report and workbook: small, numbered, inside the file, and told where not shown."""

from __future__ import annotations

import base64
import shutil
import subprocess
from pathlib import Path

import h5py
import pytest

from logger.commands import main
from logger.export.formats import export
from logger.moment_pictures import moment_pictures
from logger.picture_edits import attach, attach_file
from logger.picture_form import form_of
from logger.reader import read_recording
from tests.logger.export.page_reader import Page
from tests.logger.export.test_picture_round_trip import LESSON
from tests.logger.test_attachments import png

HOSTILE = "<img src=x onerror=alert(1)> & \u202e.png"


@pytest.fixture
def lesson(tmp_path: Path) -> Path:
    """A lesson with two pictures at the third moment and one at the first."""
    path = Path(shutil.copy(LESSON, tmp_path / "lesson.h5"))
    moments = read_recording(path).moments
    given = ((2, "anode.png", png(400, 300, 90)), (2, HOSTILE, png(90, 200, 30)), (0, "a.png", png()))
    for place, name, data in given:
        attach(read_recording(path), moments[place].id, name, data)
    return path


def told(*command: object) -> str:
    return subprocess.run([*map(str, command)], capture_output=True, text=True, check=True).stdout


def page_of(path: Path) -> tuple[Page, str]:
    out = path.with_suffix(".html")
    export(lambda: read_recording(path), out, replace=True)
    document = out.read_text("utf-8")
    return Page(document), document


def test_the_page_shows_each_picture_with_number_and_words_of_its_moment(lesson: Path) -> None:
    page, _ = page_of(lesson)
    page.assert_inert()
    images = [attributes for name, attributes in page.elements if name == "img"]
    assert len(images) == 3
    assert [str(one["alt"])[:20] for one in images] == ["Picture of moment 1:", *["Picture of moment 3:"] * 2]
    for one in images:
        kind, _, data = str(one["src"]).partition(",")
        form = form_of(base64.b64decode(data, validate=True))
        assert form is not None
        assert kind == f"data:{form.media_type};base64"
        assert form.is_whole
    assert "Pictures 3 attached to moments" in page.text
    assert "anode.png" in page.text


def test_a_run_without_pictures_has_no_such_part(tmp_path: Path) -> None:
    path = Path(shutil.copy(LESSON, tmp_path / "lesson.h5"))
    page, document = page_of(path)
    assert "img" not in page.names()
    assert "img-src" not in document
    assert "Pictures" not in page.text


def test_a_damaged_picture_is_told_in_its_place(lesson: Path) -> None:
    identity = moment_pictures(read_recording(lesson))[1].attachment.id
    with h5py.File(lesson, "r+") as file:
        file[f"run/attachments/{identity}/data"][60] ^= 1
    page, _ = page_of(lesson)
    assert sum(name == "img" for name, _ in page.elements) == 2
    assert "the picture anode.png is damaged" in page.text


def test_the_pdf_has_a_further_page_with_them(lesson: Path) -> None:
    pytest.importorskip("PySide6")
    out = lesson.with_suffix(".pdf")
    assert main(["export", str(lesson), "--to", str(out)]) == 0
    assert not list(lesson.parent.glob(".galvanote-*"))
    if shutil.which("pdftotext") is None:
        pytest.skip("pdftotext (poppler-utils) is not there")
    text = told("pdftotext", "-layout", out, "-")
    first, second, *_ = text.split("\f")
    assert "anode.png" not in first
    assert "page 2" in second
    assert second.index("a.png") < second.index("anode.png")
    listed = told("pdfimages", "-list", out)
    assert len(listed.splitlines()) - 2 == 3


def test_a_large_picture_is_made_small(lesson: Path) -> None:
    pytest.importorskip("PySide6")
    image = pytest.importorskip("PIL.Image")
    file = lesson.with_name("large.png")
    image.effect_noise((3000, 2000), 90).save(file)
    attach_file(lesson, read_recording(lesson).moments[1].id, file)
    page, document = page_of(lesson)
    sizes = [
        form_of(base64.b64decode(str(attributes["src"]).partition(",")[2]))
        for name, attributes in page.elements
        if name == "img"
    ]
    assert all(one is not None and one.width <= 500 and one.height <= 400 for one in sizes)
    assert len(document) < 1_000_000 < file.stat().st_size


@pytest.mark.parametrize("ending", ["html", "pdf"])
def test_a_picture_that_cannot_be_decoded_leaves_the_report_whole(lesson: Path, ending: str) -> None:
    if ending == "pdf":
        pytest.importorskip("PySide6")
    broken = bytearray(png(40, 30))
    broken[45:60] = bytes(15)
    file = lesson.with_name("broken.png")
    file.write_bytes(bytes(broken))
    attach_file(lesson, read_recording(lesson).moments[1].id, file)
    assert main(["export", str(lesson), "--to", str(lesson.with_suffix(f".{ending}"))]) == 0


def test_the_workbook_names_them(lesson: Path) -> None:
    openpyxl = pytest.importorskip("openpyxl")
    out = lesson.with_suffix(".xlsx")
    assert main(["export", str(lesson), "--to", str(out)]) == 0
    book = openpyxl.load_workbook(out)
    rows = list(book["Pictures"].iter_rows(values_only=True))
    assert [row[0] for row in rows[1:]] == [1, 3, 3]
    assert [row[2] for row in rows[1:]] == ["a.png", "anode.png", rows[3][2]]
    assert "extract" in rows[0][-1]
    summary = [cell for row in book["Summary"].iter_rows(values_only=True) for cell in row if cell]
    assert "Pictures" in summary
