"""Which widget of a window takes the keys, and whether it takes them for text."""

from __future__ import annotations

from PySide6.QtCore import QObject
from PySide6.QtWidgets import (
    QAbstractSpinBox,
    QApplication,
    QComboBox,
    QLineEdit,
    QPlainTextEdit,
    QTextEdit,
    QWidget,
)

__all__ = ["focused_widget", "is_typed_into"]


def focused_widget(window: QObject) -> QWidget | None:
    """Return the widget that takes the keys, also where no window manager says which window is active."""
    focused = QApplication.focusWidget()
    if focused is not None:
        return focused
    mine = (widget for widget in QApplication.topLevelWidgets() if widget.windowHandle() is window)
    return next((widget.focusWidget() for widget in mine), None)


def is_typed_into(widget: QWidget | None) -> bool:
    """Tell whether plain keys are text there."""
    return isinstance(widget, QLineEdit | QComboBox | QAbstractSpinBox | QTextEdit | QPlainTextEdit)
