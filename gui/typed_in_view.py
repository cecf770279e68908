"""The field that is typed into stays in view where its page grows beyond a low window, as under a bar."""

from __future__ import annotations

from PySide6.QtWidgets import QScrollArea, QWidget

from gui.focused import is_typed_into

__all__ = ["TypedInView"]

ROOM_BELOW = 8


class TypedInView:
    """Scrolls to the field once, when the page has grown: whoever scrolls away then may do so.

    Parameters
    ----------
    window : whose field takes the keys.
    pane : what the pages of the window scroll in.
    """

    def __init__(self, window: QWidget, pane: QScrollArea) -> None:
        self._window, self._pane = window, pane
        self._has_grown = False
        pane.verticalScrollBar().rangeChanged.connect(self._note)

    def _note(self, _least: int, most: int) -> None:
        self._has_grown = most > 0

    def frame(self) -> None:
        """Scroll where that is due, and all has its place; called once a frame."""
        if not self._has_grown:
            return
        self._has_grown = False
        field, contents = self._window.focusWidget(), self._pane.widget()
        if field is None or contents is None or not is_typed_into(field):
            return
        if _pane_around(field) is self._pane:
            # Not ensureWidgetVisible: of a field it shows the text cursor only.
            end = field.mapTo(contents, field.rect().bottomLeft())
            self._pane.ensureVisible(end.x(), end.y(), 0, ROOM_BELOW)


def _pane_around(field: QWidget) -> QScrollArea | None:
    """Return the nearest pane that a field scrolls in: one within the page shows its fields itself."""
    around = field.parentWidget()
    while around is not None and not isinstance(around, QScrollArea):
        around = around.parentWidget()
    return around
