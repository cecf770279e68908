"""Figures as a table that is easily read on screen and in Markdown."""

from __future__ import annotations

from collections.abc import Sequence

__all__ = ["print_table"]


def print_table(head: Sequence[str], rows: Sequence[Sequence[object]]) -> None:
    """Print rows below a head, as Markdown with aligned columns."""
    cells = [[str(cell) for cell in row] for row in (head, *rows)]
    widths = [max(len(row[i]) for row in cells) for i in range(len(head))]
    lines = ["| " + " | ".join(c.ljust(w) for c, w in zip(row, widths, strict=True)) + " |" for row in cells]
    lines.insert(1, "|" + "|".join("-" * (w + 2) for w in widths) + "|")
    print("\n".join(lines), flush=True)
