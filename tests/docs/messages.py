"""The texts in the program's source, as patterns that a message on the screen may match."""

import ast
import re

LEAST_LITERAL = 12  # characters
LEAST_SHARE = 0.2  # a text that is nearly all placeholders would match anything


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


def texts_in(source):
    """Every text of Python source that holds enough characters of its own: (pattern, literal characters)."""
    for node in ast.walk(ast.parse(source)):
        text, literal = pattern_of(node)
        if literal >= LEAST_LITERAL:
            yield re.compile(text), literal


def is_said(message, texts):
    """Tell whether the program can say `message`: one of its texts is that, placeholders filled in."""
    return any(
        literal >= LEAST_SHARE * len(message)
        and (pattern.fullmatch(message) or pattern.fullmatch(f"{message}\n"))
        for pattern, literal in texts
    )
