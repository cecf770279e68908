"""The further page of a report that shows the pictures of its moments, on paper and in a browser."""

from __future__ import annotations

import base64
from collections.abc import Sequence

from logger.export.drawing import Drawing, Image, Rect, Shape, Text
from logger.export.letter_widths import shortened, wrapped
from logger.export.plot import BAND, INK, QUIET, numbered
from logger.export.report_model import Report
from logger.export.report_more import further_head
from logger.export.small_pictures import BOX_HEIGHT_MM, BOX_WIDTH_MM, SmallPicture
from logger.export.svg import escaped

__all__ = ["picture_sheets", "pictures_section"]

COLUMNS, ROWS = 2, 3
HEAD_MM = 12.0
CAPTION_MM = 18.0


def picture_sheets(
    report: Report,
    pictures: Sequence[SmallPicture],
    first_page: int,
    width_mm: float,
    height_mm: float,
    margin_mm: float,
) -> list[Drawing]:
    """Return pages with the pictures, six on each; the first is the page `first_page` of the report."""
    apart_mm = (width_mm - 2 * margin_mm - COLUMNS * BOX_WIDTH_MM) / (COLUMNS - 1)
    pages = []
    for number, begin in enumerate(range(0, len(pictures), COLUMNS * ROWS), first_page):
        shapes = further_head(report, number, width_mm, margin_mm)
        for place, one in enumerate(pictures[begin : begin + COLUMNS * ROWS]):
            x = margin_mm + place % COLUMNS * (BOX_WIDTH_MM + apart_mm)
            y = margin_mm + HEAD_MM + place // COLUMNS * (BOX_HEIGHT_MM + CAPTION_MM)
            shapes += _card(one, x, y)
        words = "Pictures that were attached to moments: " + "; ".join(
            f"{one.number} {one.text}" for one in pictures[begin : begin + COLUMNS * ROWS]
        )
        pages.append(Drawing(width_mm, height_mm, tuple(shapes), report.title, words))
    return pages


def _card(one: SmallPicture, x_mm: float, y_mm: float) -> list[Shape]:
    """The picture at the foot of its box, below it number and words of its moment."""
    shapes: list[Shape] = []
    if one.data is None:
        shapes.append(Rect(x_mm, y_mm, BOX_WIDTH_MM, BOX_HEIGHT_MM, BAND))
        for line, text in enumerate(wrapped(one.note, BOX_WIDTH_MM - 8, 7.5)[:4]):
            shapes.append(Text(x_mm + 4, y_mm + 8 + 4 * line, text, 7.5, QUIET))
    else:
        top = y_mm + BOX_HEIGHT_MM - one.height_mm
        shapes.append(Image(x_mm, top, one.width_mm, one.height_mm, one.data, one.media_type, one.file_name))
    y = y_mm + BOX_HEIGHT_MM + 4.6
    text_mm = BOX_WIDTH_MM - 5.0
    shapes += [
        *numbered(x_mm + 1.75, y - 0.9, one.number),
        Text(x_mm + 5.0, y, shortened(one.text, text_mm, 8.0), 8.0, INK),
        Text(x_mm + 5.0, y + 3.8, shortened(one.file_name, text_mm, 7.0), 7.0, QUIET),
    ]
    return shapes


def pictures_section(pictures: Sequence[SmallPicture]) -> str:
    """Return the pictures as a part of an HTML page that needs nothing else; empty where there are none."""
    if not pictures:
        return ""
    cards = "".join(
        f"<figure>{_shown(one)}<figcaption>{_caption(one)}</figcaption></figure>" for one in pictures
    )
    return f'<section class="pictures"><h2>Pictures</h2><div>{cards}</div></section>'


def _shown(one: SmallPicture) -> str:
    if one.data is None:
        return f'<p class="quiet">{escaped(one.note)}</p>'
    words = escaped(f"Picture of moment {one.number}: {one.text}")
    data = base64.b64encode(one.data).decode("ascii")
    return f'<img alt="{words}" src="data:{one.media_type};base64,{data}">'


def _caption(one: SmallPicture) -> str:
    return (
        f"<strong>{one.number}</strong> <bdi>{escaped(one.text)}</bdi><br>"
        f'<span class="quiet"><bdi>{escaped(one.file_name)}</bdi></span>'
    )
