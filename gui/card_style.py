"""Style of cards, small headings and text panes, for pages that have them; beside `gui.theme.style_sheet`."""

from __future__ import annotations

from gui.theme import Colours

__all__ = ["card_style"]

_STYLE = """
QFrame[look="card"] { background: @raised; border: 1px solid @rule; border-radius: 14px; }
QFrame[look="card"] QFrame[look="rule"] { border: none; border-radius: 0; }
QFrame[look="note"] { background: @warning_soft; border: none; border-radius: 10px; }
QPlainTextEdit, QTextBrowser { background: @band; color: @ink; border: 1px solid transparent;
                               border-radius: 8px; padding: 6px 8px; selection-background-color: @curve;
                               selection-color: @paper; }
QPlainTextEdit:focus, QTextBrowser:focus { border: 1px solid @curve; }
QLineEdit[look="wrong"] { border: 2px solid @danger; padding: 5px 9px; }
QToolButton { border: none; color: @quiet; padding: 4px 2px; background: transparent; }
QToolButton:hover { color: @ink; }
QToolButton:focus { color: @curve; text-decoration: underline; }
"""


def card_style(colours: Colours) -> str:
    """Return the rules in these colours."""
    style = _STYLE
    for name in ("raised", "rule", "warning_soft", "band", "ink", "curve", "danger", "quiet", "paper"):
        style = style.replace(f"@{name}", getattr(colours, name))
    return style
