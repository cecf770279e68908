"""SVG: well-formed, described, with text that stays text whatever it says."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from logger.export.drawing import Bars, Disc, Drawing, Line, Polygon, Polyline, Rect, Text
from logger.export.svg import svg, write_svg

SVG = "{http://www.w3.org/2000/svg}"


def one_of_each(text: str = "2.25 V") -> Drawing:
    shapes = (
        Line(1, 2, 3, 4, "#112233", 0.5, (1.0, 0.5)),
        Polyline(np.array([[1.0, 2.0], [3.0, 4.0]]), "#112233"),
        Polygon(np.array([[0.0, 0.0], [1.0, 0.0], [0.0, 1.0]]), "#445566"),
        Rect(1, 2, 3, 4, "#112233", 0.5, 0.7),
        Bars(np.array([[0.0, 5.0, 1.0], [0.1, 4.0, 2.0]]), 0.1, "#000000"),
        Disc(5, 6, 1.75, "#8a3d7a"),
        Text(10, 20, text, 72 / 25.4, "#1d2327", "right", "semibold"),
    )
    return Drawing(100, 50, shapes, "Strip 4", "Cell voltage over 20:00.")


def test_every_shape_is_an_element_at_its_place() -> None:
    root = ET.fromstring(svg(one_of_each().magnified(2), "run"))
    assert (root.get("width"), root.get("height"), root.get("viewBox")) == ("200mm", "100mm", "0 0 100 50")
    assert [child.tag.removeprefix(SVG) for child in root] == [
        "title", "desc", "rect", "line", "path", "path", "rect", "path", "circle", "text",
    ]  # fmt: skip
    text = root.find(f"{SVG}text")
    assert text is not None
    assert text.text == "2.25 V"
    assert text.attrib == {
        "x": "10", "y": "20", "font-size": "1", "font-weight": "600", "text-anchor": "end", "fill": "#1d2327",
    }  # fmt: skip
    bars = root.findall(f"{SVG}path")[2]
    assert bars.get("d") == "M0 5L0.1 5L0.1 4L0.2 4L0.2 6L0.1 6L0.1 6L0 6Z"


def test_it_is_described_for_those_who_cannot_see_it() -> None:
    root = ET.fromstring(svg(one_of_each(), "run"))
    assert root.get("role") == "img"
    named = [root.find(f"*[@id='{name}']") for name in (root.get("aria-labelledby") or "").split()]
    assert [one.text for one in named if one is not None] == ["Strip 4", "Cell voltage over 20:00."]


@given(st.text())
def test_text_is_never_markup(text: str) -> None:
    root = ET.fromstring(svg(one_of_each(text)))
    assert len(root) == 10
    found = root[-1].text or ""
    # XML 1.0, 2.2 (Char): a processor takes no control characters, surrogates, U+FFFE and U+FFFF.
    assert found == "".join(c for c in text if c in found)
    assert "<" not in svg(one_of_each(text)).splitlines()[-2].removeprefix("<text").removesuffix("</text>")


@pytest.mark.parametrize(
    "text", ["<script>alert(1)</script>", '" onload="x', "]]>", "&amp;", "a\x00b\x1b", "\ud800"]
)
def test_hostile_text_is_shown_as_text(text: str, tmp_path: Path) -> None:
    write_svg(one_of_each(text), tmp_path / "a.svg")
    root = ET.parse(tmp_path / "a.svg").getroot()
    assert (root[-1].text or "") == "".join(c for c in text if c.isprintable())
    assert root.find(f".//{SVG}script") is None
