"""The topics of the help as HTML in the colours and the language of the window."""

from __future__ import annotations

import html
import re
from collections.abc import Iterable

from PySide6.QtCore import QByteArray, QRectF
from PySide6.QtGui import QAction, QColor, QImage, QKeySequence, QPainter
from PySide6.QtSvg import QSvgRenderer

from gui.help import drawing_text, topic_text
from gui.message_words import message_words
from gui.theme import Colours
from gui.widgets.key_button import key_words
from gui.widgets.text_label import keep_together
from gui.words import translate
from logger.cautions import CAUTIONS, DEFERENCE

__all__ = [
    "COLUMN_GAP",
    "IN_COLUMNS",
    "SHOWN_WIDTH",
    "USUAL_PX",
    "drawing",
    "style",
    "topic_html",
    "topic_names",
]

DRAWING_WIDTH, DRAWING_HEIGHT = 720, 330
USUAL_PX = 15
"""Size of the letters on a small screen."""
COLUMN_GAP = 48
SHOWN_WIDTH = 576
"""Pixels that the drawing of the wiring takes beside letters of that size where there is room."""
NARROW = 420
"""In less room a name stands above its text, not beside it."""
NAME_BESIDE_TEXT = re.compile(r'<td class="name">(.*?)</td>\s*<td>', re.DOTALL)
IN_COLUMNS = ("first_run",)
"""Topics whose steps stand in two columns where there is room: followed beside the bench, seen at once."""
STEPS = re.compile(r"(<p>.*?)<ol>(.*)</ol>(.*)", re.DOTALL)
STEP = re.compile(r"<li>.*?</li>", re.DOTALL)
DRAWING_PLACE = '<img src="wiring">'


def topic_names() -> dict[str, str]:
    """Return the topics with the words they are offered by."""
    return {
        "first_run": translate("Help", "First run in ten steps"),
        "numbers": translate("Help", "What each number means"),
        "wiring": translate("Help", "Wiring"),
        "cautions": translate("Help", "Cautions"),
        "keyboard": translate("Help", "Keyboard"),
        "trouble": translate("Help", "When something is odd"),
    }


def topic_html(
    topic: str,
    actions: Iterable[QAction] = (),
    *,
    room: int = SHOWN_WIDTH,
    letter_px: int = USUAL_PX,
    in_two: bool = False,
) -> str:
    """Return one topic in `room` pixels; `actions` are what the window can do, for the list of keys.

    `in_two` has the steps of a topic that is in `IN_COLUMNS` stand in two columns.
    """
    if topic == "cautions":
        return _cautions()
    if topic == "keyboard":
        return _keyboard(actions)
    # Its translation is the folder of the language, so that texts and help are always in the same one.
    text = topic_text(topic, translate("Help", "en"))
    if in_two:
        text = STEPS.sub(_in_two_columns, text)
    if room < NARROW:
        text = NAME_BESIDE_TEXT.sub(r"<td><b>\1</b><br>", text)
    width = min(room, round(SHOWN_WIDTH * letter_px / USUAL_PX))
    height = round(width * DRAWING_HEIGHT / DRAWING_WIDTH)
    return text.replace(DRAWING_PLACE, f'<img src="wiring" width="{width}" height="{height}">')


def style(colours: Colours, letter_px: int = USUAL_PX) -> str:
    """Return the style of all topics, in letters of that size."""
    return f"""
        td, li, p {{ color: {colours.ink}; font-size: {letter_px}px; line-height: 138%; }}
        h1 {{ font-size: {letter_px + 8}px; font-weight: 600; margin-top: 0; margin-bottom: 14px; }}
        h2 {{ font-size: {letter_px - 1}px; font-weight: 600; margin-top: 22px; margin-bottom: 8px; }}
        li {{ margin-bottom: 9px; }}
        b {{ font-weight: 600; }}
        table {{ margin-top: 8px; margin-left: -2px; }}
        td {{ padding: 5px 18px 5px 0; }}
        table.steps {{ margin-left: 0; }}
        td.left {{ padding: 0 {COLUMN_GAP // 2}px 0 0; }}
        td.right {{ padding: 0 0 0 {COLUMN_GAP // 2}px; }}
        td.name {{ font-weight: 600; white-space: nowrap; }}
        td.key, span.key {{ font-weight: 600; color: {colours.moment}; white-space: nowrap; }}
        a {{ color: {colours.curve}; }}
    """


def drawing(colours: Colours, scale: float) -> QImage:
    """Return the drawing of the wiring, `scale` dots for each pixel."""
    text = drawing_text()
    for name, words in (
        ("STACK", translate("Help", "Batteries")),
        ("FUSE", translate("Help", "Fuse")),
        ("RESISTOR", translate("Help", "Resistor")),
        ("ANODE", translate("Help", "Anode")),
        ("CATHODE", translate("Help", "Cathode")),
        ("CELL", translate("Help", "Cell, open vessel")),
        ("METER", translate("Help", "Meter")),
    ):
        text = text.replace(f">{name}<", f">{html.escape(words)}<")
    for name in ("outline", "curve", "settled", "paper", "ink"):
        text = text.replace(name.upper(), getattr(colours, name))
    image = QImage(
        round(DRAWING_WIDTH * scale), round(DRAWING_HEIGHT * scale), QImage.Format.Format_ARGB32_Premultiplied
    )
    image.fill(QColor(colours.paper))
    painter = QPainter(image)
    try:
        renderer = QSvgRenderer(QByteArray(text.encode()))
        renderer.render(painter, QRectF(0, 0, image.width(), image.height()))
    finally:
        painter.end()
    return image


def _in_two_columns(found: re.Match[str]) -> str:
    """Return what introduces the steps, the steps, and what follows in two columns about as long."""
    before, after = found[1], found[3]
    steps: list[str] = STEP.findall(found[2])
    lengths = [len(before), *map(len, steps), len(after)]
    left = min(
        range(1, len(steps)), key=lambda count: abs(sum(lengths[: count + 1]) - sum(lengths[count + 1 :]))
    )
    return (
        '<table class="steps" width="100%" cellspacing="0"><tr>'
        f'<td class="left" width="50%">{before}<ol>{"".join(steps[:left])}</ol></td>'
        f'<td class="right" width="50%"><ol start="{left + 1}">{"".join(steps[left:])}</ol>{after}</td>'
        "</tr></table>"
    )


def _cautions() -> str:
    parts = [
        f"<h1>{html.escape(translate('Help', 'Cautions'))}</h1>",
        f"<p>{html.escape(message_words(DEFERENCE))}</p>",
    ]
    parts += [
        f"<h2>{html.escape(message_words(title))}</h2><p>{html.escape(keep_together(message_words(text)))}</p>"
        for title, text in CAUTIONS
    ]
    return "".join(parts)


def _keyboard(actions: Iterable[QAction]) -> str:
    rows = []
    for action in actions:
        words, _, shown = action.text().replace("&", "").partition("\t")
        native = QKeySequence.SequenceFormat.NativeText
        key = shown or action.shortcut().toString(native)
        if words and key:
            rows.append((key, words))
    here = (
        (translate("Help", "0 to 9"), translate("Help", "Tag a moment of the kind with that number")),
        (translate("Help", "Tab, Shift+Tab"), translate("Help", "To the next control, to the one before")),
        (translate("Help", "← →"), translate("Help", "On the curve: earlier, later")),
        ("+ −", translate("Help", "On the curve: less time, more time")),
        (translate("Help", "End"), translate("Help", "On the curve: follow the newest readings")),
        (
            translate("Help", "Return"),
            translate("Help", "On the curve: read values off, with a cursor; once more: compare from here"),
        ),
        (translate("Help", "← →"), translate("Help", "With the cursor: to the reading before, to the next")),
        (
            key_words("Ctrl+Left"),
            translate("Help", "With the cursor: a tenth of the picture, also to the right"),
        ),
        (
            key_words("Shift+Left"),
            translate("Help", "With the cursor: compare on the way, also to the right"),
        ),
        (translate("Help", "Home, End"), translate("Help", "With the cursor: the first reading, the newest")),
        (translate("Help", "Esc"), translate("Help", "With the cursor: compare no more, then leave")),
        (
            translate("Help", "The same keys"),
            translate("Help", "On runs laid over one another, of all of them: each its own reading there"),
        ),
        (translate("Help", "Space"), translate("Help", "On the shelf: tick a recording")),
        (translate("Help", "Return"), translate("Help", "On the shelf: show the findings")),
        (key_words("Ctrl+C"), translate("Help", "On the findings: copy the picture")),
    )
    keyboard, everywhere = translate("Help", "Keyboard"), translate("Help", "Everywhere")
    in_places = translate("Help", "In places")
    return (
        f"<h1>{html.escape(keyboard)}</h1>"
        f"<h2>{html.escape(everywhere)}</h2>{_table(rows)}"
        f"<h2>{html.escape(in_places)}</h2>{_table(here)}"
    )


def _table(rows: Iterable[tuple[str, str]]) -> str:
    lines = (
        f'<tr><td class="key">{html.escape(key)}</td><td>{html.escape(words)}</td></tr>'
        for key, words in rows
    )
    return f"<table>{''.join(lines)}</table>"
