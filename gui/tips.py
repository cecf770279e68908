"""Words of a tooltip, shown as they are."""

from __future__ import annotations

import html

__all__ = ["tip"]


def tip(text: str) -> str:
    """Return what a tooltip is to be given to show `text`: Qt takes a tag, and `&lt;`, for markup.

    Labels, titles and names of files are other people's words.
    """
    if "<" not in text and "&lt;" not in text:
        return text
    return f'<qt><span style="white-space: pre-wrap">{html.escape(text)}</span></qt>'
