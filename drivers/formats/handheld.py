"""The frame formats of handheld meters, by the kind of source and the ``column`` of its address.

``column`` says which of several columns is meant: of ``stx16`` the display (1, the main one, or 2), of
``digit11`` the layout of its last column of signs (a or b, see `drivers.formats.digit11`). The other formats
have one reading only.
"""

from __future__ import annotations

from collections.abc import Mapping

from drivers.formats import ascii14, digit11, digit14, lcd14, stx16
from drivers.formats.frame import FrameFormat

__all__ = ["HANDHELD_FORMATS"]

HANDHELD_FORMATS: Mapping[str, Mapping[str, FrameFormat]] = {
    "lcd14": {"": lcd14.FORMAT},
    "ascii14": {"": ascii14.FORMAT},
    "digit11": {"": digit11.PROFILE_A, "a": digit11.PROFILE_A, "b": digit11.PROFILE_B},
    "digit14": {"": digit14.FORMAT},
    "stx16": {"": stx16.MAIN_DISPLAY, "1": stx16.MAIN_DISPLAY, "2": stx16.SECOND_DISPLAY},
}
"""Kind, then column ("" for the usual one)."""
