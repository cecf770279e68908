"""Letting go of what the binding remembers of Qt's layout items, before it becomes a trap.

Where layouts are put into one another, PySide makes a Python object for each item in them and keeps it with
the layout. Qt deletes an item with its widget and tells nobody. From then on the binding takes whatever comes
to lie at that address for two objects, and ends the program when the second one is deleted by Qt: a list that
was cleared, a bar that was closed, minutes or hours later. Forgotten while the item is still there, nothing
is left of it to be mistaken.
"""

from __future__ import annotations

import shiboken6
from PySide6.QtWidgets import QLayoutItem, QSpacerItem, QWidgetItem

__all__ = ["forget_layout_items"]

ITEMS = frozenset({QLayoutItem, QSpacerItem, QWidgetItem})
"""What Qt makes for itself; a layout is an item, too, and is told when it goes."""


def forget_layout_items() -> int:
    """Forget the items of all layouts; return how many.

    To be called once a frame: in between no widget goes whose item has just been met. The fifth of a
    millisecond is for looking through all that the binding remembers.
    """
    items = [one for one in shiboken6.getAllValidWrappers() if type(one) in ITEMS]
    made_by_qt = [item for item in items if not shiboken6.createdByPython(item)]
    for item in made_by_qt:
        shiboken6.invalidate(item)
    return len(made_by_qt)
