"""Getting to know a SCPI meter: who it is, whether it obeys, and whether it is on DC volts."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable

from drivers.errors import SourceRefused
from drivers.formats.scpi import parse_function
from drivers.scpi_dialogue import SIDE_WAIT_S, Dialogue

__all__ = ["confirm_function", "greet"]

_DC_VOLTS = ("VOLT", "VOLT:DC", "VOLTAGE", "VOLTAGE:DC")
_OTHER_FUNCTIONS = ("CURR", "RES", "FRES", "FREQ", "PER", "CONT", "DIOD", "TEMP", "CAP", "VOLT")
_FIRST_WAIT_S = 3.0
_AGREEMENT_TRIES = 4
_IDENTITY_TRIES = 8


def greet(dialogue: Dialogue, port: str, tell: Callable[[str], None]) -> tuple[str, str]:
    """Ask the meter at `port` who it is and how it is set up; `tell` is told in words what is waited for.

    Returns
    -------
    Its answers to ``*IDN?`` and ``CONF?``, verbatim; "" for what it does not answer.

    Raises
    ------
    SourceRefused : it sends without being asked, or is set to something other than DC volts.
    SourceLost : the port failed.
    """
    if not dialogue.settle():
        raise SourceRefused(
            f"{port} sends without being asked, so it is not a meter that answers queries. Use the kind of "
            f"source that listens, for example text:{port}"
        )
    tell(f"The meter on {port} was asked who it is (*IDN?) and may take some seconds to answer.")
    identity = _identity(dialogue, _FIRST_WAIT_S)
    if not identity:
        tell(
            f"The meter on {port} has not said who it is (*IDN?). It is told to obey the line (SYST:REM) and "
            "asked once more. Is it on, and is the cable in place?"
        )
        dialogue.tell("")  # ends a half command that may stand in the meter's buffer
        dialogue.take_over()
        dialogue.settle()
        identity = _identity(dialogue, SIDE_WAIT_S)
    if not identity:
        dialogue.oldest_error(SIDE_WAIT_S)  # the other question that can bring us in step
        return "", ""
    configuration = _configuration(dialogue)
    _check_function(parse_function(configuration), port)
    return identity, configuration.decode("ascii", errors="replace").strip()


def confirm_function(dialogue: Dialogue, port: str) -> None:
    """Ask the meter at `port`, which had answered ``CONF?`` before, whether it still measures DC volts.

    Raises
    ------
    SourceRefused : it measures something else now.
    SourceLost : the port failed.
    """
    before = ""
    for _ in range(_AGREEMENT_TRIES):
        answer = dialogue.ask("CONF?", SIDE_WAIT_S)
        if answer is None or not dialogue.is_in_step:
            dialogue.is_in_step = False
            return
        function = parse_function(answer.line)
        if function in _DC_VOLTS:
            return
        if function == before:  # one answer alone may have lost a byte
            _check_function(function, port)
            return
        before = function


def _identity(dialogue: Dialogue, wait_s: float) -> str:
    """Ask until two answers agree: one that lost a byte would be another meter ever after."""
    answers = Counter([dialogue.identify(wait_s)])
    if "" in answers:
        return ""
    for _ in range(_IDENTITY_TRIES):
        answer = dialogue.identify(SIDE_WAIT_S)
        answers[answer] += bool(answer)
        if answers[answer] > 1:
            return answer
    return answers.most_common(1)[0][0]


def _configuration(dialogue: Dialogue) -> bytes:
    """Ask ``CONF?``, which not every meter knows; take over if it obeys only its keys."""
    for _ in range(2):
        answer = dialogue.ask("CONF?", SIDE_WAIT_S)
        if answer is not None and dialogue.is_in_step:
            return answer.line
        dialogue.settle()
        dialogue.take_over_if_asked()
        if not dialogue.has_taken_over:
            break
    dialogue.get_in_step(_FIRST_WAIT_S)
    return b""


def _check_function(function: str, port: str) -> None:
    if function in _DC_VOLTS or not function.startswith(_OTHER_FUNCTIONS):
        return
    raise SourceRefused(
        f"The meter on {port} is set to {function}. Set it to DC volts; nothing is recorded until then."
    )
