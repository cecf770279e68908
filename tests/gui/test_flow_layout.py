"""What does not fit into one line goes on in the next: by parts first, then item by item."""

from __future__ import annotations

import pytest
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from gui.widgets.flow_layout import FlowLayout


def flow_of_four(qtbot: QtBot, *, part_from: int) -> tuple[QWidget, FlowLayout]:
    """Four items of 100 x 20 pixels, a part beginning with one of them."""
    host = QWidget()
    qtbot.addWidget(host)
    flow = FlowLayout(across=10, down=4, parent=host)
    for number in range(4):
        if number == part_from:
            flow.begin_part()
        item = QWidget()
        item.setFixedSize(100, 20)
        flow.addWidget(item)
    return host, flow


@pytest.mark.parametrize(
    ("width", "lines"),
    [(430, [4]), (429, [2, 2]), (210, [2, 2]), (209, [1, 1, 1, 1]), (300, [2, 2])],
)
def test_a_part_begins_a_line_where_not_all_fit_into_one(qtbot: QtBot, width: int, lines: list[int]) -> None:
    host, flow = flow_of_four(qtbot, part_from=2)
    host.resize(width, 100)
    host.show()
    heights = [flow.itemAt(number).geometry().top() for number in range(4)]  # type: ignore[union-attr]
    assert [heights.count(y) for y in sorted(set(heights))] == lines
    assert flow.heightForWidth(width) == 20 * len(lines) + 4 * (len(lines) - 1)


def test_a_part_whose_first_item_is_gone_is_none(qtbot: QtBot) -> None:
    host, flow = flow_of_four(qtbot, part_from=1)
    assert flow.takeAt(1) is not None
    assert flow.takeAt(9) is None
    host.resize(210, 100)
    host.show()
    assert flow.heightForWidth(210) == 44
    assert [len(line) for line in flow._lines(210)] == [2, 1]
