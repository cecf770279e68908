"""Everything on paper can be read: contrast after WCAG 2.2, 1.4.3 (text, 4.5) and 1.4.11 (graphics, 3)."""

from __future__ import annotations

import re

import pytest

from logger.export import overlay_picture, plot, report_sheet
from logger.export.page import page

PAPERS = ("#ffffff", "#fbfaf7")


def luminance(colour: str) -> float:
    """Relative luminance (WCAG 2.2, definition)."""
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def test_the_formula_is_that_of_wcag() -> None:
    # WCAG 2.2: 21 to 1 is the most there is; #767676 on white is the known 4.54 (W3C's own examples).
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.01)


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", ["INK", "QUIET", "MOMENT", "SETTLED"])
def test_colours_of_text(name: str, paper: str) -> None:
    assert contrast(getattr(plot, name), paper) >= 4.5


@pytest.mark.parametrize("paper", PAPERS)
def test_colours_of_curves_and_bars(paper: str) -> None:
    for colour in (
        plot.CURVE,
        plot.QUIET,
        overlay_picture.FLAGGED,
        overlay_picture.LEFT_OUT,
        report_sheet.TINT,
    ):
        assert contrast(colour, paper) >= 3.0, colour


def test_numbers_in_discs() -> None:
    for colour in (plot.MOMENT, plot.CURVE, plot.QUIET, overlay_picture.FLAGGED):
        assert contrast("#ffffff", colour) >= 4.5, colour
    assert contrast(plot.INK, overlay_picture.LEFT_OUT) >= 4.5


def test_text_on_the_ruler_of_phases() -> None:
    assert contrast(plot.INK, plot.BAND) >= 4.5


def test_colours_of_text_in_the_page() -> None:
    style = page("t", "")
    colours = set(re.findall(r"[{;] *color: (#[0-9a-f]{6})", style))
    assert len(colours) >= 4
    for colour in colours:
        assert min(contrast(colour, paper) for paper in PAPERS) >= 4.5, colour
