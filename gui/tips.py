"""Words of a tooltip, shown as they are."""

from __future__ import annotations

import html

__all__ = ["tip"]


def tip(text: str) -> str:
    """Return what a tooltip is to be given to show `text`: Qt takes what looks like a tag for one.

    Labels, titles and names of files are other people's words.
    """
    return f"<qt>{html.escape(text)}</qt>" if "<" in text else text
