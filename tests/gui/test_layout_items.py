"""What the binding remembers of layout items ends no run."""

from __future__ import annotations

import os
import signal
import subprocess
import sys

import pytest
import shiboken6
from PySide6.QtCore import QMetaObject, QObject
from PySide6.QtWidgets import QApplication, QLabel, QLayoutItem, QVBoxLayout, QWidget

from gui.layout_items import forget_layout_items
from gui.widgets.flow_layout import FlowLayout
from gui.window import Window

PROGRAM = """
import sys
from PySide6.QtCore import QEvent
from PySide6.QtWidgets import QApplication, QLabel, QListWidget, QListWidgetItem, QVBoxLayout, QWidget
from gui.layout_items import forget_layout_items

application = QApplication([])
host = QWidget()
outer, inner = QVBoxLayout(host), QVBoxLayout()
labels = [QLabel(str(number)) for number in range(200)]
for label in labels:
    inner.addWidget(label)
outer.addLayout(inner)
if "forget" in sys.argv:
    print(forget_layout_items())
for label in labels:
    label.deleteLater()
application.sendPostedEvents(None, QEvent.Type.DeferredDelete)
one = QListWidget()
for _ in range(20):
    for number in range(500):
        item = QListWidgetItem("a moment")
        item.setData(256, (number, number))
        one.addItem(item)
    del item
    one.clear()
print("alive")
"""


def ends(*words: str) -> subprocess.CompletedProcess[str]:
    """How a program ends whose labels went while the binding remembered their items."""
    return subprocess.run(
        [sys.executable, "-c", PROGRAM, *words],
        env=os.environ | {"QT_QPA_PLATFORM": "offscreen"},
        capture_output=True,
        text=True,
        timeout=120,
    )


def remembered() -> list[object]:
    """The items that Qt made and the binding has an object for."""
    items = [one for one in shiboken6.getAllValidWrappers() if isinstance(one, QLayoutItem)]
    return [one for one in items if not isinstance(one, QObject) and not shiboken6.createdByPython(one)]


def test_a_list_can_be_cleared_after_the_items_were_forgotten() -> None:
    ended = ends("forget")
    assert (ended.returncode, ended.stdout.split()) == (0, ["200", "alive"]), ended.stderr


@pytest.mark.skipif(sys.platform == "win32", reason="a signal tells of it")
def test_the_trap_is_there() -> None:
    """Once this fails, the binding has been mended, and `forget_layout_items` can go."""
    assert ends().returncode == -signal.SIGSEGV


def test_layouts_go_on_working(qapp: QApplication) -> None:
    host = QWidget()
    outer, inner = QVBoxLayout(host), QVBoxLayout()
    labels = [QLabel(str(number)) for number in range(3)]
    for label in labels:
        inner.addWidget(label)
    outer.addLayout(inner)
    assert forget_layout_items() >= 3
    assert remembered() == []
    assert inner.itemAt(1).widget() is labels[1]
    inner.removeWidget(labels[1])
    taken = inner.takeAt(0)
    assert taken.widget() is labels[0]
    assert inner.count() == 1
    host.show()
    qapp.processEvents()
    assert labels[2].isVisible()


def test_the_window_remembers_none_of_its_items(window: Window, qapp: QApplication) -> None:
    for name in ("bench", "shelf", "help", "run"):
        window.show_page(name)
        window.tell("told", "info", "Something.")
        window.resize(900 if name == "bench" else 1366, 700)  # bars change their place
        qapp.processEvents()
        window.frame()
        assert remembered() == [], name
        window.untell("told")
    # Nothing else is remembered that Qt may delete without a word: only descriptions of classes, which stay.
    others = [one for one in shiboken6.getAllValidWrappers() if not isinstance(one, QObject)]
    of_qt = [one for one in others if not shiboken6.ownedByPython(one) and not shiboken6.createdByPython(one)]
    assert {type(one) for one in of_qt} == {QMetaObject}


def test_a_flow_of_widgets_goes_on_flowing(qapp: QApplication) -> None:
    """Its items are held by us, not by Qt."""
    host = QWidget()
    outer, flow = QVBoxLayout(host), FlowLayout()
    labels = [QLabel("as wide as that") for _ in range(6)]
    for label in labels:
        flow.addWidget(label)
    outer.addLayout(flow)
    forget_layout_items()
    host.resize(200, 400)
    host.show()
    qapp.processEvents()
    assert len({label.y() for label in labels}) > 1
    assert all(label.parent() is host for label in labels)
    height = flow.heightForWidth(180)
    shiboken6.delete(labels.pop())
    qapp.processEvents()
    assert flow.count() == 5
    flow.removeWidget(labels[0])
    assert flow.count() == 4
    assert flow.heightForWidth(180) < height
    host.close()
