"""Colours of the program, light and dark, and how they reach Qt.

Two palettes of their own, the dark one no inversion of the light one. They follow the system's choice
unless the user has chosen. Colour never carries a meaning alone: settled is a line with words, moments
are numbered, dangers are written out.
"""

from __future__ import annotations

from dataclasses import dataclass, fields

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QColor, QGuiApplication, QPalette

__all__ = ["CHOICES", "DARK", "LIGHT", "Colours", "Theme"]

CHOICES = ("system", "light", "dark")


@dataclass(frozen=True, slots=True)
class Colours:
    """One palette, as ``#rrggbb``. Text colours reach 4.5:1 on `paper`, on `raised` and on `band`."""

    paper: str  # the ground of the window
    raised: str  # fields, lists and bars on it
    ink: str  # text
    quiet: str  # lesser text
    rule: str  # hairlines that part things, grid of the chart
    outline: str  # edges of what can be clicked: 3:1 on paper
    band: str  # phases under the time axis
    curve: str
    moment: str
    settled: str
    settled_soft: str  # ground of the settling limit, ring of the settled line
    warning: str
    warning_soft: str
    danger: str
    danger_soft: str

    @property
    def is_dark(self) -> bool:
        """Tell whether this is a dark palette."""
        return QColor(self.paper).lightnessF() < 0.5


LIGHT = Colours(
    paper="#fbfaf7",
    raised="#ffffff",
    ink="#1d2327",
    quiet="#5e666b",
    rule="#e6e3dc",
    outline="#868d91",
    band="#efede8",
    curve="#0b5fa5",
    moment="#8a3d7a",
    settled="#0b7a55",
    settled_soft="#cfe5db",
    warning="#8a5300",
    warning_soft="#fbf0dc",
    danger="#b3261e",
    danger_soft="#fbe6e3",
)

DARK = Colours(
    paper="#15191c",
    raised="#1c2124",
    ink="#e9ecec",
    quiet="#9aa4a8",
    rule="#2a3034",
    outline="#6c767b",
    band="#23292d",
    curve="#6cb8f0",
    moment="#e09bcb",
    settled="#4cc79a",
    settled_soft="#1f4237",
    warning="#e6b566",
    warning_soft="#352b1a",
    danger="#ff8a80",
    danger_soft="#3d2322",
)


class Theme(QObject):
    """The palette in use; tells its listeners when it changes.

    Attributes
    ----------
    changed : emitted with nothing once `colours` is another palette and Qt's own has been set.
    """

    changed = Signal()

    def __init__(self, application: QGuiApplication, choice: str = "system") -> None:
        super().__init__(application)
        self._application = application
        self._choice = choice
        self.colours = LIGHT
        application.styleHints().colorSchemeChanged.connect(self._follow)
        self._follow()

    @property
    def choice(self) -> str:
        """What the user chose: system, light or dark."""
        return self._choice

    def choose(self, choice: str) -> None:
        """Take the user's choice: one of `CHOICES`."""
        if choice not in CHOICES:
            raise ValueError(f"a theme is one of {', '.join(CHOICES)}, not {choice!r}")
        self._choice = choice
        self._follow()

    def _follow(self) -> None:
        system_is_dark = self._application.styleHints().colorScheme() == Qt.ColorScheme.Dark
        dark = self._choice == "dark" or (self._choice == "system" and system_is_dark)
        self.colours = DARK if dark else LIGHT
        self._application.setPalette(qt_palette(self.colours))
        self.changed.emit()


def qt_palette(colours: Colours) -> QPalette:
    """Return Qt's palette for ordinary widgets."""
    palette = QPalette()
    role = QPalette.ColorRole
    for colour_role, name in (
        (role.Window, "paper"),
        (role.Base, "raised"),
        (role.AlternateBase, "band"),
        (role.Button, "paper"),
        (role.ToolTipBase, "raised"),
        (role.WindowText, "ink"),
        (role.Text, "ink"),
        (role.ButtonText, "ink"),
        (role.ToolTipText, "ink"),
        (role.PlaceholderText, "quiet"),
        (role.Highlight, "curve"),
        (role.HighlightedText, "paper"),
        (role.Link, "curve"),
        (role.Accent, "curve"),
        (role.Mid, "rule"),
        (role.Dark, "outline"),
    ):
        palette.setColor(colour_role, QColor(getattr(colours, name)))
    for disabled in (role.WindowText, role.Text, role.ButtonText):
        palette.setColor(QPalette.ColorGroup.Disabled, disabled, QColor(colours.outline))
    return palette


def style_sheet(colours: Colours) -> str:
    """Return the style of the program's own widgets: every rule names a property set on the widget."""
    names = {field.name: getattr(colours, field.name) for field in fields(colours)}
    text = _STYLE
    for name, value in sorted(names.items(), key=lambda item: -len(item[0])):
        text = text.replace(f"@{name}", value)
    return text


_STYLE = """
QToolTip { background: @raised; color: @ink; border: 1px solid @rule; padding: 4px 6px; }
QPushButton { border: 1px solid @outline; border-radius: 10px; padding: 6px 14px; background: transparent;
              color: @ink; }
QPushButton { outline: none; }
QPushButton:hover { background: @band; }
QPushButton:focus { border: 2px solid @curve; padding: 5px 13px; }
QPushButton:disabled { color: @outline; border-color: @rule; }
QPushButton[look="primary"] { background: @ink; color: @paper; border: 1px solid @ink; border-radius: 12px; }
QPushButton[look="primary"]:hover { background: @quiet; border-color: @quiet; }
QPushButton[look="primary"]:focus { border: 3px solid @curve; }
QPushButton[look="primary"]:disabled { background: @band; color: @outline; border-color: @band; }
QPushButton[look="ready"] { background: @settled; color: @paper; border: 1px solid @settled;
                            border-radius: 12px; }
QPushButton[look="ready"]:focus { border: 3px solid @ink; }
QPushButton[look="moment"] { color: @moment; border: 1px solid @moment; border-radius: 12px; }
QPushButton[look="moment"]:focus { border: 3px solid @moment; }
QPushButton[look="moment"]:disabled { color: @outline; border-color: @rule; }
QPushButton[look="plain"]:disabled { color: @outline; border-color: @rule; }
QPushButton[look="plain"] { border-radius: 12px; }
QPushButton[look="plain"]:focus { border: 3px solid @curve; }
QPushButton[look="ready"]:disabled { background: @band; color: @outline; border-color: @band; }
QPushButton[look="flat"], QPushButton[look="act"] { border: 1px solid transparent; border-radius: 8px;
                                                    padding: 3px 8px; color: @quiet; }
QPushButton[look="act"] { color: @ink; }
QPushButton[look="flat"]:disabled { color: @outline; }
QPushButton[look="flat"]:hover:enabled { color: @ink; background: @band; }
QPushButton[look="act"]:hover { background: @raised; }
QPushButton[look="flat"]:focus, QPushButton[look="act"]:focus { border: 2px solid @curve; padding: 2px 7px; }
QPushButton[look="link"] { border: none; border-bottom: 2px solid transparent; border-radius: 0;
                           color: @curve; min-height: 20px; padding: 3px 0 1px 0; }
QPushButton[look="link"]:hover { background: transparent; border-bottom: 2px solid @curve; }
QPushButton[look="link"]:focus { border-bottom: 2px solid @curve; padding: 3px 0 1px 0; }
QPushButton[look="tab"] { border: none; border-radius: 0; border-bottom: 2px solid transparent; color: @quiet;
                          min-height: 20px; padding: 6px 0 4px 0; margin: 6px 2px; }
QPushButton[look="tab"]:checked { color: @ink; border-bottom: 2px solid @ink; }
QPushButton[look="tab"]:hover { color: @ink; background: transparent; }
QPushButton[look="tab"]:disabled { color: @outline; }
QPushButton[look="tab"]:focus { color: @curve; border-bottom: 4px solid @curve; padding-bottom: 2px; }
QPushButton::menu-indicator { width: 0; }
QLineEdit, QComboBox { border: 1px solid @outline; border-radius: 8px; padding: 6px 10px; background: @raised;
                       color: @ink; min-height: 30px; selection-background-color: @curve;
                       selection-color: @paper; }
QLineEdit:focus, QComboBox:focus { border: 2px solid @curve; padding: 5px 9px; }
QComboBox { combobox-popup: 0; }
QComboBox::drop-down { border: none; width: 22px; }
QComboBox QAbstractItemView { background: @raised; color: @ink; border: 1px solid @outline; padding: 4px;
                              outline: none; selection-background-color: @band; selection-color: @ink; }
QComboBox QAbstractItemView::item { min-height: 44px; padding: 0 8px; border: none; border-radius: 6px;
                                    color: @ink; }
QComboBox QAbstractItemView::item:selected { background: @band; color: @ink; border: 1px solid @outline; }
QMenu { background: @raised; color: @ink; border: 1px solid @rule; padding: 6px; menu-scrollable: 1; }
QMenu::item { padding: 6px 18px; border-radius: 6px; }
QMenu::item:selected { background: @band; }
QMenu::item:disabled { color: @outline; }
QMenu::separator { background: @rule; height: 1px; margin: 5px 8px; }
QScrollArea, QScrollArea > QWidget > QWidget { background: transparent; border: none; }
QScrollBar:vertical { background: transparent; width: 8px; margin: 0; }
QScrollBar::handle:vertical { background: @outline; border-radius: 2px; min-height: 24px; margin: 0 2px; }
QScrollBar[look="keys"]::handle:vertical { background: @curve; margin: 0; }
QScrollBar:horizontal { background: transparent; height: 8px; margin: 0; }
QScrollBar::handle:horizontal { background: @outline; border-radius: 2px; min-width: 24px; margin: 2px 0; }
QScrollBar::add-line, QScrollBar::sub-line { height: 0; }
QScrollBar::add-page, QScrollBar::sub-page { background: transparent; }
QFrame[look="rule"] { background: @rule; border: none; max-height: 1px; min-height: 1px; }
QFrame[look="sheet"] { background: @raised; border: 1px solid @outline; border-radius: 14px; }
QFrame[look="bar-info"] { background: @band; border: 1px solid @band; border-radius: 10px; }
QFrame[look="bar-warning"] { background: @warning_soft; border: 1px solid @warning_soft;
                             border-radius: 10px; }
QFrame[look="bar-danger"] { background: @danger_soft; border: 1px solid @danger; border-radius: 10px; }
QLabel { color: @ink; background: transparent; }
QLabel[look="quiet"] { color: @quiet; }
QLabel[look="settled"] { color: @settled; }
QLabel[look="moment"] { color: @moment; }
QLabel[look="warning"] { color: @warning; }
QLabel[look="danger"] { color: @danger; }
QLabel[look="stale"] { color: @quiet; }
QLabel[look="pill"] { color: @moment; border: 1px solid @moment; border-radius: 9px; padding: 1px 8px; }
"""
