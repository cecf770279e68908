"""Finds the texts of drivers and logger that a window may have to show. A tool of who changes texts.

These floors speak English and know of no language. A text is found where it is written: a literal of two
words or more, or an f-string, whose expressions become named places. What is never shown (regular
expressions, log lines, texts of the command line and of files) is left out.
"""

from __future__ import annotations

import ast
import itertools
import re
from collections.abc import Iterator
from pathlib import Path

__all__ = ["templates_of", "texts_of_lower_floors"]

ROOT = Path(__file__).parents[2]
FLOORS = ("drivers", "logger")
WITHOUT_QT = ("gui/session.py", "gui/paper.py")
"""Modules of the window that raise and tell as the lower floors do."""

STAYS_ENGLISH = (
    "drivers/simulated/emulat", "drivers/simulated/endpoint", "drivers/simulated/device",
    "drivers/simulated/frame_encoder", "drivers/simulated/portable_noise", "drivers/testing",
    "logger/commands/", "logger/export/channel_files", "logger/export/comparison", "logger/export/drawing",
    "logger/export/findings_rows", "logger/export/label_room", "logger/export/letter_widths",
    "logger/export/overlay_picture", "logger/export/page", "logger/export/picture", "logger/export/plot",
    "logger/export/reading_lines", "logger/export/report", "logger/export/svg", "logger/export/table",
    "logger/export/workbook", "logger/analysis/allan", "logger/analysis/deposit", "logger/analysis/interrupt",
    "logger/analysis/findings_text", "logger/analysis/run_comparison_text",
    "logger/analysis/supply_plan_text", "logger/inspection", "logger/import_csv", "logger/checksum",
)  # fmt: skip
"""The command line, the files, and analyses that no page shows."""

NOT_SHOWN_CALLS = frozenset({
    "compile", "debug", "info", "exception", "warning", "getLogger", "strftime", "startswith", "endswith",
    "partition", "split", "removeprefix", "removesuffix", "replace", "search", "match", "Thread",
})  # fmt: skip

DULL = frozenset(
    ["self", "text", "value", "plain", "significant", "join", "for", "in", "if", "or", "else", "abs", "len"]
)
"""Words of an expression that say nothing about what stands there."""

_WORD = re.compile(r"[A-Za-z][a-z']+|[A-Z]{2,}")
_TECHNICAL = re.compile(r"\\[dsw.]|\(\?|\[[A-Za-z]-|\n|^errno|^Application |[<>]/?[a-z]+ |;q=")


def texts_of_lower_floors() -> list[str]:
    """Return every text once, sorted."""
    files = [path for floor in FLOORS for path in (ROOT / floor).rglob("*.py")]
    files += [ROOT / name for name in WITHOUT_QT]
    shown = (path for path in files if not path.relative_to(ROOT).as_posix().startswith(STAYS_ENGLISH))
    return sorted({text for path in shown for text in templates_of(path.read_text("utf-8"))})


def templates_of(source: str) -> Iterator[str]:
    """Return the texts of one module, with places in braces."""
    yield from _walk(ast.parse(source))


def _walk(node: ast.AST) -> Iterator[str]:
    if isinstance(node, ast.Compare | ast.Assert) or _is_docstring(node):
        return
    if (
        isinstance(node, ast.Call)
        and getattr(node.func, "attr", getattr(node.func, "id", "")) in NOT_SHOWN_CALLS
    ):
        return
    if isinstance(node, ast.Constant):
        if isinstance(node.value, str) and _is_text(node.value):
            yield node.value.replace("{", "{{").replace("}", "}}")
        return
    if isinstance(node, ast.JoinedStr):
        yield from (text for text in _spelt_out(node) if _is_text(text))
        for part in node.values:
            if isinstance(part, ast.FormattedValue) and not isinstance(part.value, ast.IfExp):
                yield from _walk(part.value)
        return
    children = [node.value] if isinstance(node, ast.Subscript) else ast.iter_child_nodes(node)
    for child in children:
        yield from _walk(child)


def _called(call: ast.Call) -> str:
    return str(getattr(call.func, "attr", getattr(call.func, "id", "")))


def _is_docstring(node: ast.AST) -> bool:
    return isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)


def _is_text(text: str) -> bool:
    words = _WORD.findall(re.sub(r"\{[a-z_0-9]*\}", " ", text))
    tells = len(words) >= 2 or ("{" in text and any(len(word) > 2 for word in words))
    return tells and " " in text.strip() and _TECHNICAL.search(text) is None


def _spelt_out(node: ast.JoinedStr) -> Iterator[str]:
    """Return an f-string as a text; one with a choice between two wordings gives both."""
    names: dict[str, str] = {}
    parts: list[list[str]] = []
    for part in node.values:
        if isinstance(part, ast.Constant):
            parts.append([str(part.value).replace("{", "{{").replace("}", "}}")])
        elif isinstance(part, ast.FormattedValue):
            parts.append(_wordings(part.value) or ["{" + _name(part.value, names) + "}"])
    yield from ("".join(chosen) for chosen in itertools.product(*parts))


def _wordings(expression: ast.expr) -> list[str]:
    """Return the wordings of ``"a" if … else "b"``."""
    if not isinstance(expression, ast.IfExp):
        return []
    ends = (expression.body, expression.orelse)
    found = [end.value for end in ends if isinstance(end, ast.Constant) and isinstance(end.value, str)]
    return found if len(found) == len(ends) else []


def _name(expression: ast.expr, names: dict[str, str]) -> str:
    """Return a name for what stands in a place: the last word of the expression that says something."""
    source = ast.unparse(expression)
    if source not in names:
        words = [word.lower() for word in re.findall(r"[A-Za-z_]\w*", re.sub(r"'[^']*'", "", source))]
        telling = [word.strip("_") for word in words if word.strip("_") not in DULL]
        keys = [word.lower() for word in re.findall(r"\['([A-Za-z_]\w*)'\]", source)]
        name = (keys or telling or ["value"])[-1] or "value"
        taken = set(names.values())
        names[source] = next(n for n in (name, *(f"{name}_{i}" for i in range(2, 9))) if n not in taken)
    return names[source]
