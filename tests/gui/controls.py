"""What a person without a mouse finds on a page: which controls the Tab key reaches, and their names."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import QAbstractButton, QAbstractItemView, QComboBox, QLineEdit, QTextEdit, QWidget

CONTROLS = (QAbstractButton, QComboBox, QLineEdit, QAbstractItemView, QTextEdit)


def visible_controls(page: QWidget) -> list[QWidget]:
    """The controls that can be seen and used, without the parts that Qt puts inside others."""
    return [
        one
        for one in page.findChildren(QWidget)
        if isinstance(one, CONTROLS)
        and one.isVisibleTo(page)
        and one.isEnabled()
        and not isinstance(one.parentWidget(), QLineEdit | QComboBox)
        and not one.objectName().startswith("qt_")
        and one.window() is page.window()
    ]


def reached_by_tab(page: QWidget) -> set[QWidget]:
    """The widgets of the chain that the Tab key walks."""
    chain: list[QWidget] = []
    one = page.window().nextInFocusChain()
    while one not in chain:
        chain.append(one)
        one = one.nextInFocusChain()
    return {one for one in chain if one.focusPolicy() & Qt.FocusPolicy.TabFocus}


def names(page: QWidget) -> dict[QWidget, str]:
    """What a screen reader calls each control."""
    found = {}
    for one in visible_controls(page):
        interface = QAccessible.queryAccessibleInterface(one)
        found[one] = interface.text(QAccessible.Text.Name) if interface is not None else ""
    return found


def assert_reachable_and_named(page: QWidget) -> None:
    """Fail for a control that the keyboard does not reach or that has no name."""
    controls = visible_controls(page)
    assert controls
    reached = reached_by_tab(page)
    unreached = [f"{type(c).__name__} {c.accessibleName()}" for c in controls if c not in reached]
    assert not unreached, f"not reached by Tab: {unreached}"
    unnamed = [type(c).__name__ for c, name in names(page).items() if not name.strip()]
    assert not unnamed, f"without a name: {unnamed}"


def assert_nothing_clips(page: QWidget) -> None:
    """Fail where a button or label is smaller than its text needs, or a control sticks out of its parent."""
    for one in visible_controls(page):
        parent = one.parentWidget()
        assert parent is not None
        assert one.width() >= min(one.minimumSizeHint().width(), one.sizeHint().width()), (
            f"{type(one).__name__} {one.accessibleName()!r} is {one.width()} wide"
        )
        assert parent.rect().contains(one.geometry()), (
            f"{type(one).__name__} {one.accessibleName()!r} sticks out"
        )
