"""The line on which a TOML value stands."""

import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logger.toml_lines import error_line, line_of

TEXT = '''# a comment with a [bracket
title = """
two lines, one with key = 5
"""

[supply] # [cell]
"resistor_ohm" = 12000
cells = 3

[cell]
anode = 'quoted # [not] a comment'
meter = { range_V = 4.0, zero_V = 0.001 }
long = [
  1,
  [2, 3],
]
nested.deep.key = 1

[[steps]]
kind = "note"
[[steps]]
kind = "photo"
label = "}"
'''

INLINE = """title = "x"
steps = [
    { kind = "note" },

    { kind = "photo", label = "]" }, # last
]
after = 1
"""


@pytest.mark.parametrize(
    ("path", "line"),
    [
        (("title",), 2),
        (("supply",), 6),
        (("supply", "resistor_ohm"), 7),
        (("supply", "cells"), 8),
        (("cell", "anode"), 11),
        (("cell", "meter", "zero_V"), 12),
        (("cell", "long"), 13),
        (("cell", "long", 0), 14),
        (("cell", "long", 1), 15),
        (("cell", "nested", "deep", "key"), 17),
        (("steps",), 19),
        (("steps", 0, "kind"), 20),
        (("steps", 1), 21),
        (("steps", 1, "label"), 23),
        (("nothing",), 1),
        (("title", "inside"), 1),
        (("steps", 5), 1),
    ],
)
def test_every_kind_of_value_is_found(path: tuple[str | int, ...], line: int) -> None:
    assert line_of(TEXT, path) == line


@pytest.mark.parametrize(
    ("path", "line"),
    [(("steps", 0, "kind"), 3), (("steps", 1, "kind"), 5), (("steps", 1, "label"), 5), (("after",), 7)],
)
def test_the_entry_of_a_long_array_is_found(path: tuple[str | int, ...], line: int) -> None:
    assert line_of(INLINE, path) == line


def test_windows_line_ends_count_once() -> None:
    assert line_of(TEXT.replace("\n", "\r\n"), ("supply", "cells")) == 8


def test_a_string_may_end_in_five_quotes() -> None:
    assert line_of('a = """say "hi"""""\nb = \'\'\'[\'\'\'\'\nc = 1\n', ("c",)) == 3


def test_a_very_long_array_is_found_quickly_by_its_first_line() -> None:
    text = "a = 1\nb = [\n" + "1,\n" * 5000 + "]\nc = 1\n"
    assert line_of(text, ("b", 4000)) == 2
    assert line_of(text, ("c",)) == 5004


@given(
    st.lists(st.sampled_from(["k = 1", "# [", "", 's = "[{"', "a = [\n1,\n]", "t = {x = 1}"]), max_size=12)
)
def test_the_line_agrees_with_counting(parts: list[str]) -> None:
    # Each statement gets a key of its own; its true line is counted while the text is put together.
    lines, truth = [], {}
    for number, part in enumerate(parts):
        key = f"key{number}"
        if " = " in part:
            truth[key] = sum(line.count("\n") + 1 for line in lines) + 1
            part = key + part[part.index(" = ") :]
        lines.append(part)
    text = "\n".join(lines)
    tomllib.loads(text)
    assert {key: line_of(text, (key,)) for key in truth} == truth


@pytest.mark.parametrize(("text", "line"), [("a = 1\nb =\n", 2), ('a = 1\nb = """x', 2), ("[a\n", 1)])
def test_the_line_of_a_syntax_error(text: str, line: int) -> None:
    with pytest.raises(tomllib.TOMLDecodeError) as caught:
        tomllib.loads(text)
    assert error_line(caught.value, text) == line


def test_an_error_that_names_no_place_points_at_the_end() -> None:
    assert error_line(ValueError("at end of document"), "a = 1\nb = 2\n\n") == 2
    assert error_line(ValueError("at end of document"), "") == 1
