"""Kind, size and end of a picture, told from its bytes; pictures of a library that knows nothing of ours."""

from __future__ import annotations

import pytest

from logger.attachments import AttachmentError, new_attachment
from logger.picture_form import form_of
from tests.logger.test_attachments import jpeg, png, webp


@pytest.mark.parametrize(
    ("data", "media_type", "size"),
    [(png(7, 5), "image/png", (7, 5)), (jpeg(), "image/jpeg", (4, 3)), (webp(), "image/webp", (5, 3))],
)
def test_form_and_size_follow_from_the_bytes(data: bytes, media_type: str, size: tuple[int, int]) -> None:
    form = form_of(data)
    assert form is not None
    assert (form.media_type, form.width, form.height, form.is_whole) == (media_type, *size, True)


@pytest.mark.parametrize("data", [png(), jpeg(b"x" * 300), webp()], ids=["png", "jpeg", "webp"])
def test_one_that_is_cut_off_is_refused_wherever_it_was_cut(data: bytes) -> None:
    assert new_attachment("m", "a", data).size_bytes == len(data)
    for end in range(12, len(data)):
        with pytest.raises(AttachmentError, match=r"a\.png is damaged or cut off: .* copy it again"):
            new_attachment("m", "a.png", data[:end])


def test_the_first_twenty_bytes_of_a_picture_are_none() -> None:
    with pytest.raises(AttachmentError, match="damaged or cut off"):
        new_attachment("m", "a.png", png()[:20])
    with pytest.raises(AttachmentError, match="damaged or cut off"):
        new_attachment("m", "a.png", png().replace(b"IHDR", b"IHDQ"))


def test_what_lies_behind_the_end_does_not_matter() -> None:
    """Telephones put short films there."""
    for data in (png(), jpeg(), webp()):
        assert new_attachment("m", "a", data + b"more").size_bytes == len(data) + 4


@pytest.mark.parametrize("kind", ["PNG", "JPEG", "WEBP"])
@pytest.mark.parametrize("mode", ["RGB", "L", "RGBA"])
def test_pictures_of_another_library_are_taken(kind: str, mode: str) -> None:
    """Pillow writes them; what it says of their size is the standard here."""
    import io

    image = pytest.importorskip("PIL.Image")
    if kind == "JPEG" and mode == "RGBA":
        pytest.skip("JPEG has no transparency")
    for options in ({}, {"progressive": True}, {"lossless": True}):
        buffer = io.BytesIO()
        image.new(mode, (123, 45)).save(buffer, kind, **options)
        form = form_of(buffer.getvalue())
        assert form is not None
        assert (form.width, form.height, form.is_whole) == (123, 45, True)
        assert form_of(buffer.getvalue()[:-20]) != form
