"""Every message that the guide quotes is one that the program says."""

import re

import pytest

from logger.bench import parse_bench
from logger.errors import BenchError
from tests.docs.messages import Texts
from tests.docs.pages import DOCS, ROOT

PAGE = DOCS / "troubleshooting.md"
MESSAGES = [line.removeprefix("> ") for line in PAGE.read_text("utf-8").splitlines() if line.startswith("> ")]
BENCH_MESSAGE = (
    "bench.toml, line 12: cell.anode_area is not known in a table [cell]; did you mean anode_area_cm2?"
)
"""Put together from so many parts that only the program itself can show that it says so."""


@pytest.fixture(scope="module")
def texts():
    files = [
        ROOT / "run.py",
        *(f for top in ("drivers", "logger", "gui") for f in (ROOT / top).rglob("*.py")),
    ]
    return Texts(path.read_text("utf-8") for path in files)


@pytest.mark.parametrize("message", [one for one in MESSAGES if one != BENCH_MESSAGE])
def test_the_program_says_this(message, texts):
    assert texts.say(message)


@pytest.mark.parametrize("message", [one for one in MESSAGES if one != BENCH_MESSAGE])
def test_the_program_does_not_say_it_with_a_sentence_more_or_with_other_words(message, texts):
    assert not texts.say(f"{message} And now for something else.")
    words = list(re.finditer(r"\b[a-z]{3,}\b", message))
    others = [f"{message[: one.start()]}qqqq{message[one.end() :]}" for one in words]
    assert sum(not texts.say(other) for other in others) >= min(3, len(others))


def test_a_misspelt_key_of_the_bench_file():
    assert BENCH_MESSAGE in MESSAGES
    with pytest.raises(BenchError, match=re.escape(BENCH_MESSAGE)):
        parse_bench("\n" * 10 + "[cell]\nanode_area = 2.0\n", "bench.toml")


@pytest.mark.parametrize(
    "message",
    [
        "/dev/ttyUSB0 is not there. Plug in the cable or choose another meter.",
        "strip4.h5 exists; choose another name, or add --force to replace it",
        "The port /dev/ttyUSB0 cannot be opened, please try again later.",
        "",
    ],
)
def test_what_the_program_does_not_say_is_not_found(message, texts):
    assert not texts.say(message)


def test_the_page_quotes_enough_and_nothing_twice():
    assert len(MESSAGES) > 40
    assert len(set(MESSAGES)) == len(MESSAGES)
