"""``python -m gui.translations.update``: takes changed texts into the translations. For who changes texts.

Lists the texts of the lower floors anew, lets Qt's lupdate enter every text into the files ``*.ts``, makes
the files ``*.qm`` from them, and tells what waits for a translation (Qt Linguist, or any editor).
"""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path
from xml.etree import ElementTree

from gui.language import FOLDER, TRANSLATED
from gui.translations.lower_texts import ROOT, texts_of_lower_floors

__all__ = ["list_source", "main", "missing_of", "release"]

LIST = FOLDER / "message_list.py"
LIST_HEAD = '''"""Every wording of drivers and logger; made by ``python -m gui.translations.update``."""

from __future__ import annotations

from PySide6.QtCore import QT_TRANSLATE_NOOP

__all__ = ["MESSAGES"]

# fmt: off
MESSAGES: tuple[str, ...] = tuple(str(text) for text in (
'''


def main() -> int:
    """Bring everything up to date; returns the number of languages with missing texts."""
    LIST.write_text(list_source(), encoding="utf-8")
    sources = sorted(path for path in (ROOT / "gui").rglob("*.py"))
    incomplete = 0
    for language in TRANSLATED:
        listing = FOLDER / f"galvanote_{language}.ts"
        options = ["-locations", "none", "-no-obsolete", "-source-language", "en", "-silent"]
        options += ["-disable-heuristic", "sametext", "-disable-heuristic", "similartext"]
        _tool("lupdate", *options, "-target-language", language, *sources, "-ts", listing)
        release(listing, listing.with_suffix(".qm"))
        missing = missing_of(listing)
        incomplete += bool(missing)
        for context, text in missing:
            sys.stdout.write(f"{language}: {context}: {text}\n")
        sys.stdout.write(f"{listing.name}: {len(missing)} texts to translate\n")
    return incomplete


def list_source() -> str:
    """Return the source of the list of wordings as it should be at present."""
    lines = (f'    QT_TRANSLATE_NOOP("Messages", {_literal(text)}),\n' for text in texts_of_lower_floors())
    return f"{LIST_HEAD}{''.join(lines)}))\n"


def release(listing: Path, out: Path) -> None:
    """Make the file that the program loads."""
    _tool("lrelease", "-silent", listing, "-qm", out)


def missing_of(listing: Path) -> list[tuple[str, str]]:
    """Return context and text of what has no finished translation."""
    return [
        (context.findtext("name") or "", message.findtext("source") or "")
        for context in ElementTree.parse(listing).iter("context")
        for message in context.iter("message")
        if (given := message.find("translation")) is None or given.get("type") or not given.text
    ]


def _literal(text: str) -> str:
    escaped = text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n").replace("\u00a0", "\\u00a0")
    return f'"{escaped}"'


def _tool(name: str, *arguments: object) -> None:
    """Run one of Qt's tools, which come with PySide6."""
    tool = Path(sys.executable).with_name(f"pyside6-{name}")
    subprocess.run([str(tool), *map(str, arguments)], check=True, timeout=300)


if __name__ == "__main__":
    main()
