"""On which line of a TOML text a value stands: what the standard parser does not tell."""

from __future__ import annotations

import re
import tomllib
from bisect import bisect_left
from collections.abc import Sequence
from typing import Any

__all__ = ["error_line", "line_of"]

Path = Sequence[str | int]

# Everything that may hide a line end or a bracket, then the brackets and line ends themselves.
_TOKEN = re.compile(
    r"""
    \"\"\"(?:\\.|[^\\])*?\"\"\"\"{0,2}   # a string over several lines may end in up to five quotes
    | '''.*?''''{0,2}
    | "(?:\\.|[^"\\\n])*" | '[^'\n]*'
    | \#[^\n]*
    | [\[{] | [\]}] | \n
    """,
    re.VERBOSE | re.DOTALL,
)
_LONGEST_ARRAY = 300  # lines of one array that are looked through one by one
_AT_LINE = re.compile(r"\(at line (\d+), column \d+\)")


def line_of(text: str, path: Path) -> int:
    """Return the line (from 1) on which a value of a valid TOML text is given.

    Parameters
    ----------
    text : a text that `tomllib` reads.
    path : keys and list positions from the top, for example ``("steps", 2, "kind")``.

    Returns
    -------
    The line of the key; for a table or a list entry the line of its header. A statement that spans several
    lines is searched for the entry of a list; else its first line counts. 1 where there is no such value.
    """
    text = text.replace("\r\n", "\n")  # a line cut off before its line end must not keep half of it
    lines = text.split("\n")
    starts = _statement_starts(text)
    ends = [*starts[1:], len(lines)]
    first = bisect_left(range(len(ends)), True, key=lambda i: _holds(lines[: ends[i]], path))
    if first == len(ends):
        return 1
    begin, end = starts[first], ends[first]
    # A closing bracket put in early tells which line of a long array brings the value.
    if 1 < end - begin <= _LONGEST_ARRAY:
        for line in range(begin + 1, end):
            if _holds([*lines[:line], "]"], path):
                return line
    return begin + 1


def error_line(error: Exception, text: str) -> int:
    """Return the line (from 1) at which `tomllib` stopped reading `text`; the last one if it does not say."""
    found = _AT_LINE.search(str(error))
    return int(found[1]) if found else max(len(text.rstrip().split("\n")), 1)


def _statement_starts(text: str) -> list[int]:
    """Return the lines (from 0) on which a statement begins, or a blank or comment line stands."""
    starts, line, depth = [0], 0, 0
    for match in _TOKEN.finditer(text):
        token = match[0]
        line += token.count("\n")
        if token in "[{":
            depth += 1
        elif token in "]}":
            depth -= 1
        elif token == "\n" and depth == 0:
            starts.append(line)
    return starts


def _holds(lines: list[str], path: Path) -> bool:
    try:
        found: Any = tomllib.loads("\n".join(lines))
        for key in path:
            found = found[key]
    except (ValueError, LookupError, TypeError):
        return False
    return True
