"""The pages of the guide, and what is in them."""

import re
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
DOCS = ROOT / "docs"
PAGES = sorted([*DOCS.glob("*.md"), ROOT / "README.md", *(ROOT / "recordings").rglob("*.md")])

_FENCE = re.compile(r"^( *)```([^\n]*)\n(.*?)^\1```$", re.MULTILINE | re.DOTALL)


def fenced(path):
    """The fenced blocks of a page, as (info string, text without the block's indentation)."""
    for indent, info, body in _FENCE.findall(path.read_text(encoding="utf-8")):
        yield info.strip(), "".join(line.removeprefix(indent) for line in body.splitlines(keepends=True))


def page_id(path):
    return path.relative_to(ROOT).as_posix()
