"""One recording of the shelf in words."""

from __future__ import annotations

from PySide6.QtCore import QLocale

from gui.kind_words import kind_words
from gui.live_texts import Row
from gui.numbers import clock_text, count_text, day_and_time, plain
from gui.words import translate
from logger.moments import KINDS
from logger.shelf_entry import ShelfEntry

__all__ = [
    "count_text",
    "date_text",
    "entry_rows",
    "length_text",
    "spoken",
    "state_text",
    "title_text",
    "words_of",
]


def title_text(entry: ShelfEntry) -> str:
    """Return the title in one line, or the file's name where there is none."""
    return " ".join(entry.title.split()) or entry.path.name.removesuffix(".journal").removesuffix(".h5")


def date_text(entry: ShelfEntry) -> str:
    """Return day and time of the start, by the locale; empty where it is not known."""
    return day_and_time(entry.start_time)


def length_text(entry: ShelfEntry) -> str:
    """Return how long the run lasted."""
    return clock_text(entry.duration_s)


def state_text(entry: ShelfEntry) -> str:
    """Return what is special about the recording; empty where it is finished and whole."""
    if entry.state == "damaged":
        return translate("Shelf", "cannot be read")
    if entry.state == "cut_off":
        return translate("Shelf", "was cut off")
    if entry.state == "recording":
        return translate("Shelf", "is being recorded")
    return translate("Shelf", "simulated") if entry.is_simulated else ""


def entry_rows(entry: ShelfEntry) -> tuple[Row, ...]:
    """Return what is known of a recording as lines of a table."""
    if entry.state == "damaged":
        return (Row(translate("Shelf", "Size"), _size(entry.size_bytes)),)
    last = "–" if entry.last_V is None else plain(entry.last_V, 3, "V")
    return (
        Row(translate("Shelf", "Begun"), date_text(entry) or "–"),
        Row(translate("Shelf", "Length"), length_text(entry)),
        Row(translate("Shelf", "Readings"), count_text(entry.samples)),
        Row(translate("Shelf", "Moments"), count_text(entry.moments)),
        Row(translate("Shelf", "Last reading"), last),
        Row(translate("Shelf", "Size"), _size(entry.size_bytes)),
    )


def words_of(entry: ShelfEntry) -> str:
    """Return what a recording can be searched by besides its own words: as it reads in this window."""
    kinds = (kind_words(kind) for kind, name in KINDS.items() if name in entry.labels)
    return " ".join((date_text(entry), state_text(entry), *kinds))


def spoken(entry: ShelfEntry) -> str:
    """Return the recording in one line, for the screen reader."""
    parts = (title_text(entry), date_text(entry), length_text(entry), state_text(entry))
    return ", ".join(part for part in parts if part)


def _size(size_bytes: int) -> str:
    return QLocale().formattedDataSize(size_bytes, 1, QLocale.DataSizeFormat.DataSizeSIFormat)
