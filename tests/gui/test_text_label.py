"""A number stays with its unit, and a unit in one piece, wherever a line ends."""

from __future__ import annotations

import pytest
from PySide6.QtGui import QTextDocument, QTextLayout, QTextOption
from pytestqt.qtbot import QtBot

from gui.theme import Theme
from gui.widgets.text_label import TextLabel, keep_together, text_label

SENTENCES = (
    "Assumed: the cell as warm after as before, within 0.3 K; 2 K more would look like 4 mV saved.",
    "Its drift lies between −121.7 and −85.9 mV/min, the limit is 5. Tafel slopes of 180 ± 60 mV per decade.",
    "Angenommen: die Zelle nachher so warm wie vorher, auf 0,3 K genau; 1,03 mA/cm² in 0,1 mol/L, 95 %.",
)
TOGETHER = (
    "0.3 K", "2 K", "4 mV", "−85.9 mV/min", "180 ± 60 mV", "0,3 K", "1,03 mA/cm²", "0,1 mol/L", "95 %",
)  # fmt: skip


def lines(text: str, width: float) -> list[str]:
    """Where Qt itself ends the lines of `text` at that width."""
    document = QTextDocument()
    document.setDefaultTextOption(QTextOption())
    layout = QTextLayout(text)
    layout.beginLayout()
    while (line := layout.createLine()).isValid():
        line.setLineWidth(width)
    layout.endLayout()
    found = [layout.lineAt(i) for i in range(layout.lineCount())]
    return [text[one.textStart() : one.textStart() + one.textLength()] for one in found]


@pytest.mark.parametrize("sentence", SENTENCES)
def test_no_line_ends_between_a_number_and_its_unit(sentence: str, theme: Theme) -> None:
    del theme  # loads the letters
    kept = keep_together(sentence)
    parted_before = 0
    for width in range(120, 420, 7):
        before = [line.strip() for line in lines(sentence, width)]
        after = [line.replace("\u00a0", " ").replace("\u2060", "").strip() for line in lines(kept, width)]
        wanted = [one for one in TOGETHER if one in sentence]
        parted_before += any(not any(one in line for line in before) for one in wanted)
        assert all(any(one in line for line in after) for one in wanted), (width, after)
    assert parted_before, "without it there are such line ends"


@pytest.mark.parametrize("text", ["4 Messungen", "3 hours", "12 mVolt", "5 mx", "see page 3. A run", "8 V’s"])
def test_words_are_no_units(text: str) -> None:
    assert keep_together(text) == text


def test_a_label_does_it(qtbot: QtBot) -> None:
    label = text_label("0.3 K", wraps=True)
    qtbot.addWidget(label)
    assert isinstance(label, TextLabel)
    assert label.text() == "0.3\u00a0K"
    label.setText("4 mV")
    assert label.text() == "4\u00a0mV"
