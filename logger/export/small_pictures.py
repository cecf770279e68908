"""The pictures of a recording made small for a report, upright and without what a camera wrote into them."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from logger.errors import LoggerError, RecordingError
from logger.export.atomic import working_folder
from logger.export.drawing import Drawing, Image, Painter
from logger.export.painters import painter
from logger.export.picture import moment_text
from logger.moment_pictures import MomentPicture, moment_pictures, reading_pictures
from logger.moments import clean_label
from logger.picture_form import form_of
from logger.progress import Progress
from logger.recording import Recording

__all__ = ["BOX_HEIGHT_MM", "BOX_WIDTH_MM", "SmallPicture", "small_pictures"]

BOX_WIDTH_MM, BOX_HEIGHT_MM = 84.0, 64.0
DOTS_PER_INCH = 150
AS_IT_IS_BYTES = 200_000
"""Without a painter a picture goes into a report as it is, if it is no larger than that."""


@dataclass(frozen=True, slots=True)
class SmallPicture:
    """A picture of a report: number and words of its moment, its name, and its bytes, fit to be shown.

    `data` is None where it cannot be shown; `note` says why. Width and height lie within the box.
    """

    number: int
    text: str
    file_name: str
    media_type: str
    width_mm: float
    height_mm: float
    data: bytes | None
    note: str = ""


def small_pictures(recording: Recording, part: Path, progress: Progress) -> tuple[SmallPicture, ...]:
    """Return the pictures in the order of their moments; `part` is the file that is being written.

    Raises
    ------
    Cancelled : `progress` was told to stop.
    LoggerError : the recording cannot be read.
    """
    wanted = moment_pictures(recording)
    if not wanted:
        return ()
    try:
        paint: Painter | None = painter("png")
    except LoggerError:
        paint = None
    found = []
    with reading_pictures(recording) as read, working_folder(part) as folder:
        for place, one in enumerate(wanted):
            progress.reach(place / len(wanted))
            try:
                found.append(_small(one, read(one.attachment), paint, folder / "small.png"))
            except RecordingError as error:
                found.append(_made(one, None, note=str(error)))
    return tuple(found)


def _small(one: MomentPicture, data: bytes, paint: Painter | None, place: Path) -> SmallPicture:
    form = form_of(data)
    if form is None or not form.width or not form.height:
        return _made(one, None, note="it cannot be shown here")
    factor = min(BOX_WIDTH_MM / form.width, BOX_HEIGHT_MM / form.height)
    size_mm = max(form.width * factor, 1.0), max(form.height * factor, 1.0)
    if paint is None:
        note = "" if len(data) <= AS_IT_IS_BYTES else "too large to be shown without the window part"
        return _made(one, None if note else data, size_mm, one.attachment.media_type, note)
    image = Image(0.0, 0.0, *size_mm, data, one.attachment.media_type, "")
    paint(Drawing(*size_mm, (image,), "", ""), place, DOTS_PER_INCH)
    return _made(one, place.read_bytes(), size_mm, "image/png")


def _made(
    one: MomentPicture,
    data: bytes | None,
    size_mm: tuple[float, float] = (BOX_WIDTH_MM, BOX_HEIGHT_MM),
    media_type: str = "",
    note: str = "",
) -> SmallPicture:
    name = clean_label(one.attachment.file_name)
    return SmallPicture(one.number, moment_text(one.moment), name, media_type, *size_mm, data, note)
