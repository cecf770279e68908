"""A drawing as SVG: real text, a title and a description for those who cannot see it. Needs no painter."""

from __future__ import annotations

import base64
import html
import unicodedata
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from logger.export.drawing import Bars, Disc, Drawing, Image, Line, Polygon, Polyline, Rect, Shape, Text

__all__ = ["escaped", "svg", "write_svg"]

MM_PER_POINT = 25.4 / 72
FONTS = "Inter, 'Helvetica Neue', 'Segoe UI', 'Noto Sans', Arial, sans-serif"
_ANCHORS = {"left": "start", "middle": "middle", "right": "end"}
_WEIGHTS = {"regular": 400, "medium": 500, "semibold": 600}


def write_svg(drawing: Drawing, path: Path, dpi: int = 0) -> None:
    """Write `drawing` as an SVG file of its size; `dpi` does not matter here.

    Raises
    ------
    OSError : the file could not be written.
    """
    path.write_text(f'<?xml version="1.0" encoding="UTF-8"?>\n{svg(drawing)}', "utf-8", newline="\n")


def svg(drawing: Drawing, name: str = "picture") -> str:
    """Return `drawing` as one ``svg`` element; its identifiers begin with `name`, unlike others in a page."""
    size = f"{_n(drawing.width_mm)} {_n(drawing.height_mm)}"
    large = drawing.magnification
    lines = [
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{_n(drawing.width_mm * large)}mm" '
        f'height="{_n(drawing.height_mm * large)}mm" viewBox="0 0 {size}" role="img" '
        f'aria-labelledby="{name}-title {name}-text" font-family="{FONTS}" '
        'style="font-variant-numeric: tabular-nums">',
        f'<title id="{name}-title">{escaped(drawing.title)}</title>',
        f'<desc id="{name}-text">{escaped(drawing.description)}</desc>',
        f'<rect width="100%" height="100%" fill="{drawing.background}"/>',
        *(_element(shape) for shape in drawing.shapes),
        "</svg>\n",
    ]
    return "\n".join(lines)


def escaped(text: str) -> str:
    """Return `text` for XML and HTML, in an element or a quoted attribute, without what neither may hold."""
    kept = "".join(c for c in text if c in "\t\n" or _is_allowed(c))
    return html.escape(kept, quote=True)


def _is_allowed(letter: str) -> bool:
    is_no_letter = 0xFDD0 <= ord(letter) <= 0xFDEF or ord(letter) & 0xFFFE == 0xFFFE
    return unicodedata.category(letter) not in ("Cc", "Cs") and not is_no_letter


def _element(shape: Shape) -> str:
    match shape:
        case Line():
            dash = "".join(f" {_n(part)}" for part in shape.dash_mm).strip()
            ends = f'x1="{_n(shape.x1_mm)}" y1="{_n(shape.y1_mm)}"'
            ends += f' x2="{_n(shape.x2_mm)}" y2="{_n(shape.y2_mm)}"'
            style = f' stroke-dasharray="{dash}"' if dash else ' stroke-linecap="round"'
            return f'<line {ends} stroke="{shape.colour}" stroke-width="{_n(shape.width_mm)}"{style}/>'
        case Polyline():
            return (
                f'<path d="{_path(shape.points_mm)}" fill="none" stroke="{shape.colour}" '
                f'stroke-width="{_n(shape.width_mm)}" stroke-linejoin="round" stroke-linecap="round"/>'
            )
        case Polygon():
            return f'<path d="{_path(shape.points_mm)}Z" fill="{shape.fill}"/>'
        case Bars():
            d = "".join(f"{_path(outline)}Z" for outline in shape.outlines_mm())
            return f'<path d="{d}" fill="{shape.fill}"/>'
        case Rect():
            extra = f' rx="{_n(shape.radius_mm)}"' if shape.radius_mm else ""
            extra += f' fill-opacity="{_n(shape.opacity)}"' if shape.opacity < 1 else ""
            return (
                f'<rect x="{_n(shape.x_mm)}" y="{_n(shape.y_mm)}" width="{_n(shape.width_mm)}" '
                f'height="{_n(shape.height_mm)}" fill="{shape.fill}"{extra}/>'
            )
        case Disc():
            centre = f'cx="{_n(shape.x_mm)}" cy="{_n(shape.y_mm)}"'
            return f'<circle {centre} r="{_n(shape.radius_mm)}" fill="{shape.fill}"/>'
        case Image():
            data = base64.b64encode(shape.data).decode("ascii")
            return (
                f'<image x="{_n(shape.x_mm)}" y="{_n(shape.y_mm)}" width="{_n(shape.width_mm)}" '
                f'height="{_n(shape.height_mm)}" href="data:{shape.media_type};base64,{data}">'
                f"<title>{escaped(shape.description)}</title></image>"
            )
        case Text():
            style = f' font-size="{_n(shape.size_pt * MM_PER_POINT)}"'
            style += "" if shape.weight == "regular" else f' font-weight="{_WEIGHTS[shape.weight]}"'
            style += "" if shape.anchor == "left" else f' text-anchor="{_ANCHORS[shape.anchor]}"'
            return (
                f'<text x="{_n(shape.x_mm)}" y="{_n(shape.y_mm)}" '
                f'fill="{shape.colour}"{style}>{escaped(shape.text)}</text>'
            )


def _path(points_mm: NDArray[np.float64]) -> str:
    return "M" + "L".join(f"{_n(x)} {_n(y)}" for x, y in points_mm.tolist())


def _n(value: float) -> str:
    """A length to a thousandth of a millimetre, without idle digits."""
    return f"{value:.3f}".rstrip("0").rstrip(".")
