"""Preferred numbers of IEC 60063 and colour bands of IEC 60062."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logger.analysis.refusal import Refused
from logger.analysis.resistor import (
    SERIES_TOLERANCE_PERCENT,
    colour_bands,
    nearest_preferred_ohm,
    preferred_numbers,
    read_colour_bands,
)

# IEC 60063, table of the E96 series (from memory).
E96 = """
100 102 105 107 110 113 115 118 121 124 127 130 133 137 140 143 147 150 154 158 162 165 169 174
178 182 187 191 196 200 205 210 215 221 226 232 237 243 249 255 261 267 274 280 287 294 301 309
316 324 332 340 348 357 365 374 383 392 402 412 422 432 442 453 464 475 487 499 511 523 536 549
562 576 590 604 619 634 649 665 681 698 715 732 750 768 787 806 825 845 866 887 909 931 953 976
"""


def test_the_coarse_series() -> None:
    assert preferred_numbers("E6") == (10, 15, 22, 33, 47, 68)
    assert preferred_numbers("E12") == (10, 12, 15, 18, 22, 27, 33, 39, 47, 56, 68, 82)
    assert len(preferred_numbers("E24")) == 24
    odd = {n for k, n in enumerate(preferred_numbers("E24")) if n != round(10 * 10 ** (k / 24))}
    assert odd == {27, 30, 33, 36, 39, 43, 47, 82}


def test_the_fine_series() -> None:
    assert preferred_numbers("E96") == tuple(map(int, E96.split()))
    e192 = preferred_numbers("E192")
    assert len(e192) == 192
    assert e192[::2] == preferred_numbers("E96")
    assert 920 in e192
    assert 919 not in e192
    assert list(e192) == sorted(set(e192))


def test_the_tolerances_of_the_series() -> None:
    assert SERIES_TOLERANCE_PERCENT == {"E6": 20, "E12": 10, "E24": 5, "E96": 1, "E192": 0.5}


@pytest.mark.parametrize(
    ("wanted_ohm", "series", "ohm"),
    [
        (4944, "E24", 5100),  # nearer by ratio than 4700
        (974, "E24", 1000),  # the next decade
        (9.7, "E6", 10),
        (0.0123, "E12", 0.012),
        (4700, "E24", 4700),
        (3.2e6, "E24", 3.3e6),
    ],
)
def test_the_nearest_value_by_ratio(wanted_ohm: float, series: str, ohm: float) -> None:
    assert nearest_preferred_ohm(wanted_ohm, series) == ohm


@given(st.floats(1e-3, 1e9), st.sampled_from(sorted(SERIES_TOLERANCE_PERCENT)))
def test_no_value_of_the_series_is_nearer(wanted_ohm: float, series: str) -> None:
    nearest = nearest_preferred_ohm(wanted_ohm, series)
    off = abs(math.log(nearest / wanted_ohm))
    scale = 10 if series in ("E6", "E12", "E24") else 100
    for power in range(-5, 11):
        for number in preferred_numbers(series):
            assert off <= abs(math.log(number / scale * 10.0**power / wanted_ohm)) + 1e-12


@pytest.mark.parametrize(
    ("bands", "ohm", "percent"),
    # Source: resistorcolorcodes.org/chart
    [
        ("yellow violet red gold", 4700, 5),
        ("red red orange gold", 22000, 5),
        ("brown black black gold brown", 10.0, 1),
        ("orange orange red gold", 3300, 5),
        ("orange orange red", 3300, 20),
        ("Brown Black SILVER silver", 0.10, 10),
        ("red red black brown brown red", 2200, 1),
        ("gray red purple violet", 820e6, 0.1),
    ],
)
def test_reading_colour_bands(bands: str, ohm: float, percent: float) -> None:
    marked = read_colour_bands(bands.split())
    assert (marked.value_ohm, marked.tolerance_percent) == (ohm, percent)


def test_the_limits_of_a_marked_resistor() -> None:
    assert read_colour_bands(["orange", "orange", "red", "gold"]).limits_ohm == (3135, 3465)


@given(st.sampled_from(preferred_numbers("E96")), st.integers(-3, 9), st.sampled_from([1.0, 2.0, 5.0, 0.1]))
def test_bands_say_what_they_were_made_from(number: int, power: int, percent: float) -> None:
    ohm = float(f"{number}e{power}")
    if power == 9 and number % 10 == 0:
        return  # no multiplier goes beyond white
    marked = read_colour_bands(colour_bands(ohm, percent))
    assert (marked.value_ohm, marked.tolerance_percent) == (ohm, percent)


def test_two_digits_take_four_bands_and_three_take_five() -> None:
    assert colour_bands(4700) == ("yellow", "violet", "red", "gold")
    assert colour_bands(12400, 1.0) == ("brown", "red", "yellow", "red", "brown")
    assert colour_bands(3300, 20.0) == ("orange", "orange", "red")


@pytest.mark.parametrize(
    ("bands", "words"),
    [
        ("red red", "three to six"),
        ("red red red red red red red", "three to six"),
        ("gold red red gold", "turn the resistor round"),
        ("black black red gold", "they read zero"),
        ("red red none gold", "no multiplier"),
        ("red red red grey", "grey means"),
        ("red red red pink", "no tolerance"),
        ("red red ornge gold", "did you mean orange"),
        ("red red ??? gold", "known are black"),
    ],
)
def test_bands_that_make_no_sense_are_refused(bands: str, words: str) -> None:
    with pytest.raises(Refused, match=words):
        read_colour_bands(bands.split())


@pytest.mark.parametrize(
    ("ohm", "percent", "words"),
    [
        (4711, 5, "three digits cannot state it"),
        (4700, 3, "it has no colour"),
        (1e-6, 5, "no multiplier band"),
        (0, 5, "more than zero"),
    ],
)
def test_values_without_bands_are_refused(ohm: float, percent: float, words: str) -> None:
    with pytest.raises(Refused, match=words):
        colour_bands(ohm, percent)


@pytest.mark.parametrize("series", ["E7", "E48", "e24", ""])
def test_an_unknown_series_is_refused(series: str) -> None:
    with pytest.raises(Refused, match="give one of E6, E12, E24, E96, E192"):
        preferred_numbers(series)


@pytest.mark.parametrize("ohm", [0.0, -1.0, math.nan, math.inf])
def test_no_resistor_is_nearest_to_an_impossible_one(ohm: float) -> None:
    with pytest.raises(Refused):
        nearest_preferred_ohm(ohm)
