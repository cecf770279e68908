"""Text that is shown holds nothing that misleads, and says so where it was cut."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logger.clean_text import clean_text
from logger.moments import LABEL_LIMIT, MomentError, check_length, clean_label, is_too_long
from tests.logger.export.hostile import LABELS, is_harmless


@given(st.text(), st.one_of(st.none(), st.integers(1, 40)))
def test_cleaning_what_is_clean_changes_nothing(text, most):
    once = clean_text(text, most)
    assert clean_text(once, most) == once
    assert most is None or len(once) <= most


@pytest.mark.parametrize("label", LABELS)
def test_nothing_that_misleads_is_left(label):
    assert is_harmless(clean_text(label))


def test_a_cut_text_ends_in_an_ellipsis_and_a_whole_one_does_not():
    assert clean_text("seven letters", 13) == "seven letters"
    assert clean_text("seven letters", 12) == "seven lette…"
    assert clean_text("seven letters", 7) == "seven…"  # no blank before it


def test_a_label_is_too_long_only_beyond_the_limit():
    assert clean_label("x" * LABEL_LIMIT) == "x" * LABEL_LIMIT
    assert not is_too_long("x" * LABEL_LIMIT + "\x00  ")
    check_length("x" * LABEL_LIMIT)
    assert clean_label("x" * (LABEL_LIMIT + 1)) == "x" * (LABEL_LIMIT - 1) + "…"
    assert is_too_long("x" * (LABEL_LIMIT + 1))
    with pytest.raises(MomentError, match="the label has 501 characters, 500 are the most; shorten it"):
        check_length("x" * (LABEL_LIMIT + 1))
