"""The texts in the program's source, as patterns that a message on the screen may match."""

import ast
import errno
import os
import re

LEAST_LITERAL = 12  # characters
LEAST_SHARE = 0.2  # a text that is nearly all placeholders would match anything
LEAST_FRAGMENT = 8
PROSE = re.compile(r"\b[A-Za-z]+ [a-z]+ [a-z]+\b")
"""Three words in a row: no name, number or address, so somebody has written them."""

OTHERS = (
    "cannot open shared object file",  # the loader of glibc
    "could not connect to display",  # Qt's plugin for X
    "unexpected end of data",  # the csv module
    *map(os.strerror, errno.errorcode),
)
"""What stands in a placeholder in words that are not the program's own."""


def pattern_of(node):
    """The regular expression of a text in the source, and how many of its characters are literal."""
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        return re.escape(node.value), len(node.value)
    if isinstance(node, ast.JoinedStr):
        parts = [pattern_of(one) for one in node.values]
    elif isinstance(node, ast.BinOp) and isinstance(node.op, ast.Add):
        parts = [pattern_of(node.left), pattern_of(node.right)]
    else:
        return ".*", 0
    return "".join(text for text, _ in parts), sum(literal for _, literal in parts)


class Texts:
    """Every text of Python sources that holds enough characters of its own, and the fragments of all."""

    def __init__(self, sources):
        self._patterns, fragments = [], set(OTHERS)
        for source in sources:
            for node in ast.walk(ast.parse(source)):
                text, literal = pattern_of(node)
                if literal >= LEAST_LITERAL:
                    self._patterns.append((re.compile(text), literal))
                if isinstance(node, ast.Constant) and isinstance(node.value, str):
                    fragments.add(node.value.strip())
        self._fragments = sorted((f for f in fragments if len(f) >= LEAST_FRAGMENT), key=len, reverse=True)

    def say(self, message):
        """Tell whether the program can say `message`: one of its texts is that, placeholders filled in.

        What fills them is a name or a number, or is said by the program elsewhere (or by OTHERS).
        """
        return self._is_made_of_fragments(message) and any(
            literal >= LEAST_SHARE * len(message)
            and (pattern.fullmatch(message) or pattern.fullmatch(f"{message}\n"))
            for pattern, literal in self._patterns
        )

    def _is_made_of_fragments(self, message):
        for fragment in self._fragments:
            message = message.replace(fragment, "\n")
        return not PROSE.search(message)
