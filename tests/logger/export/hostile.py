"""Labels that would run, break out, mislead or break something where they are taken for more than text."""

from __future__ import annotations

import unicodedata

LABELS = (
    "=1+1",
    '=HYPERLINK("http://127.0.0.1:9/x","click")',
    "+1",
    "-2+3",
    "@SUM(A1)",
    "＝1+1",
    "'=1+1",
    "\t=1+1",
    "<script>document.title='run'</script>",
    '"><img src=x onerror="document.title=1">',
    "</svg></title></style><iframe src=http://127.0.0.1:9/></iframe>",
    "]]> & &amp; <!-- -->",
    "{{7*7}} ${7*7} %s %n {0}",
    "a\x00b\x1b[31mc\x07\x7f\x9b",
    "\u202egnp.exe\u2066 hidden \u200f",
    "\ufffe\uffff\ud800 not letters",
    "line one\r\nline two; x,y\t\"z\" 'w'",
    "Ångström Ü ß µ Ω 漢字 עברית العربية 👩🏽‍🔬 e\u0301",
    "word " * 200,
    "x" * 1000,
    "",
    " ",
    ".",
)

FILE_NAMES = ("Größe & Ähre 3 %.h5", "a 'b' \"c\" <d> #e ?f.h5", "=1+1.h5", "x" * 200 + ".h5")


def is_harmless(text: str) -> bool:
    """Whether a text holds no control, direction or private character that a reader would not see."""
    hidden = ("Cc", "Cs", "Cn")
    return not any(
        unicodedata.category(c) in hidden or c in "\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"
        for c in text
        if c not in "\r\n\t"
    )
