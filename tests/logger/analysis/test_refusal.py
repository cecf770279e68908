"""A refusal says which value, why, and what would be accepted."""

import pickle

import pytest

from logger.analysis.refusal import Refused, require_finite, require_positive, require_within
from logger.errors import LoggerError


def test_a_refusal_names_value_reason_and_remedy() -> None:
    refusal = Refused("cell voltage in V", 2.5, "the stack has less", "check the stack")
    assert str(refusal) == "cell voltage in V: 2.5 is refused, the stack has less; check the stack"
    assert (refusal.quantity, refusal.value, refusal.accepted) == (
        "cell voltage in V",
        2.5,
        "check the stack",
    )


def test_a_refusal_is_both_a_logger_error_and_a_value_error() -> None:
    assert issubclass(Refused, LoggerError)
    assert issubclass(Refused, ValueError)


def test_a_refusal_crosses_a_process_border_whole() -> None:
    refusal = pickle.loads(pickle.dumps(Refused("a", 1.0, "b", "c")))
    assert str(refusal) == "a: 1 is refused, b; c"


@pytest.mark.parametrize("value", [float("nan"), float("inf"), -float("inf")])
def test_what_is_not_finite_is_refused(value: float) -> None:
    with pytest.raises(Refused, match="not a finite number"):
        require_finite("x", value)


def test_zero_is_positive_only_where_allowed() -> None:
    assert require_positive("x", 0, zero_allowed=True) == 0.0
    with pytest.raises(Refused, match="more than zero"):
        require_positive("x", 0)
    with pytest.raises(Refused, match="zero or more"):
        require_positive("x", -1, zero_allowed=True)


def test_limits_belong_to_the_accepted_range() -> None:
    assert require_within("x", 1, 1, 2, "why") == 1.0
    assert require_within("x", 2, 1, 2, "why") == 2.0
    with pytest.raises(Refused, match=r"2\.5 is refused, why; accepted is 1 to 2"):
        require_within("x", 2.5, 1, 2, "why")
