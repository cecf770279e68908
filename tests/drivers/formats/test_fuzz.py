"""Damaged frames and packets: short form of tests/campaigns/fuzz_frames.py."""

from __future__ import annotations

import pytest

from drivers.simulated.frame_encoder import ENCODED_KINDS
from tests.campaigns.fuzz_frames import DAMAGES, Tally, campaign


@pytest.fixture(scope="module")
def tallies() -> dict[tuple[str, str], Tally]:
    return campaign(72_000, seed=2, say=lambda _: None)


def test_damage_never_costs_frames_away_from_it(tallies: dict[tuple[str, str], Tally]):
    assert all(tally.lost_whole == 0 for tally in tallies.values())
    assert all(tally.damaged > 100 for tally in tallies.values())


def test_no_packet_is_accepted_that_was_not_sent(tallies: dict[tuple[str, str], Tally]):
    assert sum(tallies["packet", what].wrong for what in DAMAGES) == 0


@pytest.mark.parametrize("kind", ENCODED_KINDS)
def test_a_dropped_byte_never_makes_a_wrong_value(tallies: dict[tuple[str, str], Tally], kind: str):
    """The reference, 2(d), says it of lcd14: 300 dropped bytes gave 0 wrong."""
    assert tallies[kind, "one byte dropped"].wrong == 0


def test_a_lines_check_lets_next_to_nothing_pass(tallies: dict[tuple[str, str], Tally]):
    """One flipped bit or lost byte always changes an exclusive or; several pass one time in 256."""
    assert tallies["checked", "one bit flipped"].wrong <= 1
    assert sum(tallies["checked", what].wrong for what in DAMAGES) <= 4


@pytest.mark.parametrize("kind", ["digit11", "digit14"])
def test_parity_marks_every_single_flipped_bit(tallies: dict[tuple[str, str], Tally], kind: str):
    tally = tallies[kind, "one bit flipped"]
    assert tally.wrong > 10
    assert tally.unmarked == 0


def test_flipped_bits_of_lcd14_are_as_often_accepted_as_the_reference_found(
    tallies: dict[tuple[str, str], Tally],
):
    """2(d): of 300 flips 13 gave a plausible wrong voltage, 4.3 % (95 %: 2.3 to 7.3 %, Clopper-Pearson).

    The upper limit is wider by the scatter of about 200 flips here; the full campaign found 6.5 %.
    """
    tally = tallies["lcd14", "one bit flipped"]
    assert 0.023 < tally.wrong / tally.damaged < 0.11


@pytest.mark.parametrize("kind", ["lcd14", "ascii14", "stx16"])
def test_neighbours_mark_most_of_the_far_ones(tallies: dict[tuple[str, str], Tally], kind: str):
    tally = tallies[kind, "one bit flipped"]
    assert tally.wrong > 5
    assert tally.far < 0.5 * tally.wrong
