"""Finds out what is plugged in by listening only: no byte is ever sent.

An unknown board may switch something by single letters, so questions are asked on a person's word alone
(`ask_identity`). All ports are listened to at once, each on a thread of its own.
"""

from __future__ import annotations

import threading
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from drivers.errors import CannotOpen, SourceError, SourceLost
from drivers.formats.handheld import HANDHELD_FORMATS
from drivers.link import Link, OpenPort, open_port
from drivers.recognition import Candidate, Verdict, judge, recognise
from drivers.run_clock import HostClock, RunClock
from drivers.scpi_dialogue import Dialogue
from drivers.transmission import CONTROL_LINES

__all__ = [
    "BUDGET_S",
    "Heard",
    "address_of",
    "ask_identity",
    "listen",
    "listen_through_optics",
    "listen_to_all",
]

BUDGET_S = 4.4
"""Longest time for one port, and so for all of them (host seconds)."""

_SCHEDULE = ((115200, 1.7), (9600, 0.9), (2400, 1.1), (19200, 0.7))
"""Speeds in the order in which they are tried, and for how long; the first is long, for boot loaders."""

_HANDHELD_SCHEDULE = ((2400, 1.2), (9600, 0.9), (19200, 0.7))
_OPTICS_BUDGET_S = 3.0
_SLICE_S = 0.1
_STAY_S = 1.5
_SLOWEST_S = 1.2
_HOPELESS_BYTES = 40
_HOPELESS_SHARE = 0.3
_HOPELESS_AFTER_S = 0.25  # adapters hand over 62 bytes at a time: less than a packet
_LINES_TO_TELL = 4
_LONG_LINES_BYTES = _LINES_TO_TELL * 257
_TEXT_BYTES = bytes(range(0x20, 0x7F)) + b"\t\r\n"
_TEXT_SHARE = 0.9
_SLOW_PER_S = 3.5
_SLOW_FRAMES = 2
_OPENING_GRACE_S = 0.4
_ASK_BAUDS = (9600, 115200)
_ASK_S = 1.0
_LOOKS = {
    "time": "the board's time",
    "volts": "volts",
    "maybe_volts": "perhaps volts",
    "counts": "whole numbers",
    "other": "no volts",
}
_USUAL_BAUDS = {kind: formats[""].baud for kind, formats in HANDHELD_FORMATS.items()} | {
    "scpi": 9600,
    "text": 115200,
    "packet": 115200,
}


@dataclass(frozen=True, slots=True)
class Heard:
    """What was heard at one port. `baud` is the speed at which it was; 0 where there is none.

    `state` : recognised, ambiguous (a person has to choose or to tell something), not_understood, silent, or
    unavailable, for which `message` says why.
    """

    port: str
    state: Literal["recognised", "ambiguous", "not_understood", "silent", "unavailable"]
    baud: int = 0
    candidates: tuple[Candidate, ...] = ()
    bytes_heard: int = 0
    message: str = ""

    @property
    def addresses(self) -> tuple[str, ...]:
        """The source addresses of the candidates."""
        return tuple(address_of(one.kind, self.port, self.baud, dict(one.options)) for one in self.candidates)


def address_of(kind: str, port: str, baud: int, options: dict[str, str]) -> str:
    """Return a source address; a speed that is usual for the kind is left out."""
    is_unusual = "://" not in port and baud and baud != _USUAL_BAUDS.get(kind)
    query = [f"baud={baud}"] if is_unusual else []
    query += [f"{key}={value}" for key, value in options.items()]
    return f"{kind}:{port}" + (f"?{'&'.join(query)}" if query else "")


def listen(
    port: str,
    *,
    baud: int = 0,
    clock: RunClock | None = None,
    opener: OpenPort = open_port,
    budget_s: float = BUDGET_S,
) -> Heard:
    """Listen to one port until it is recognised, at most about `budget_s` seconds.

    Parameters
    ----------
    baud : the speed if it is known, 0 to try the usual ones. Links over the network have none.
    """
    clock = clock or HostClock()
    speeds: Sequence[tuple[int, float]] = _SCHEDULE
    if baud or "://" in port:
        speeds = ((baud or 9600, budget_s),)
    return _listen(port, speeds, clock, opener, budget_s)


def listen_through_optics(port: str, *, clock: RunClock | None = None, opener: OpenPort = open_port) -> Heard:
    """Listen to a port whose cable reads the meter through a window and takes its supply from the port.

    Such a cable is silent until the lines DTR and RTS stand as it needs them: the ways they can stand are
    tried one after another, at most about 9 s. Nothing is sent.
    """
    clock = clock or HostClock()
    heard = Heard(port, "silent")
    for lines in CONTROL_LINES:
        heard = _listen(port, _HANDHELD_SCHEDULE, clock, opener, _OPTICS_BUDGET_S, lines)
        if heard.state != "silent":
            break
    if heard.state == "silent":
        text = (
            "Nothing arrives, however the lines of the port stand. Is the cable seated on the meter, the "
            "meter on, and sending (a long press of its transmit key)?"
        )
        return replace(heard, message=text)
    return heard


def _listen(
    port: str,
    speeds: Sequence[tuple[int, float]],
    clock: RunClock,
    opener: OpenPort,
    budget_s: float,
    lines: tuple[bool, bool] | None = None,
) -> Heard:
    link = Link(port, speeds[0][0], opener=opener)
    ear = _Ear(link, clock, clock.now_s() + budget_s)
    try:
        link.open(clock)
        if lines is not None:
            link.set_control_lines(dtr=lines[0], rts=lines[1])
        return ear.hear(speeds)
    except CannotOpen as error:
        return Heard(port, "unavailable", message=str(error))
    except SourceLost as error:
        return Heard(port, "unavailable", bytes_heard=ear.bytes_heard, message=str(error))
    finally:
        link.close()


class _Ear:
    """Listens over an open link, speed by speed."""

    def __init__(self, link: Link, clock: RunClock, until_s: float) -> None:
        self.bytes_heard = 0
        self._link = link
        self._clock = clock
        self._until_s = until_s

    def hear(self, speeds: Sequence[tuple[int, float]]) -> Heard:
        best = Verdict("unknown")
        best_baud = 0
        for baud, span_s in speeds:
            if baud != self._link.baud:
                self._link.change_baud(baud)
                self._link.drain()  # what arrived at another speed
            verdict = self._at_this_speed(span_s)
            if _rank(verdict) > _rank(best) or not best_baud:
                best, best_baud = verdict, baud
            if best.state != "unknown" or self._clock.now_s() >= self._until_s:
                break
        return self._result(best, best_baud)

    def _at_this_speed(self, span_s: float) -> Verdict:
        """Listen for `span_s`, longer where something sound has come, shorter where it is hopeless."""
        data = bytearray()
        begin_s = self._clock.now_s()
        if self.bytes_heard:  # it does send: give a slow one the time for a frame
            span_s = max(span_s, _SLOWEST_S)
        end_s = min(begin_s + span_s, self._until_s)
        verdict, first_s, may_stay = Verdict("unknown"), begin_s, True
        while self._clock.now_s() < end_s:
            arrived, now_s = self._link.read(_SLICE_S)
            if not arrived:
                continue
            first_s = first_s if data else now_s
            data += arrived
            self.bytes_heard += len(arrived)
            candidates = recognise(bytes(data))
            verdict = judge(candidates)
            if verdict.state != "unknown":
                break
            if now_s - first_s >= _HOPELESS_AFTER_S and _is_hopeless(bytes(data), candidates):
                break
            if may_stay and candidates and candidates[0].share >= _HOPELESS_SHARE:
                may_stay = False
                end_s = min(max(end_s, now_s + _STAY_S), self._until_s)
        return self._of_slow(verdict, self._clock.now_s() - first_s)

    def _of_slow(self, verdict: Verdict, heard_s: float) -> Verdict:
        """Be content with two frames of an instrument that sends few."""
        if verdict.state != "unknown" or not verdict.candidates:
            return verdict
        is_slow = verdict.candidates[0].frames <= max(_SLOW_PER_S * heard_s, _SLOW_FRAMES)
        return judge(verdict.candidates, least_frames=_SLOW_FRAMES) if is_slow else verdict

    def _result(self, verdict: Verdict, baud: int) -> Heard:
        port, count = self._link.port, self.bytes_heard
        baud = 0 if "://" in port else baud
        if verdict.state != "unknown":
            return Heard(port, verdict.state, baud, verdict.candidates, count, _words(verdict))
        if not count:
            return Heard(
                port,
                "silent",
                message="Nothing arrives. Switch the instrument on; a handheld meter sends only after a "
                "long press of its transmit key, through an optical cable perhaps only with: galvanote "
                f"sources --optical {port}. A meter that answers questions has to be asked: galvanote "
                f"sources --ask {port}",
            )
        sound = tuple(one for one in verdict.candidates if one.share >= _HOPELESS_SHARE)
        return Heard(
            port,
            "not_understood",
            baud if sound else 0,
            sound,
            count,
            f"{count} bytes arrived, but too few of them make sense. Is its speed an unusual one? Name kind "
            "and speed in the address, for example text:PORT?baud=57600",
        )


def _is_hopeless(data: bytes, candidates: tuple[Candidate, ...]) -> bool:
    """Whether so much came that something of it should make sense at this speed, and does not.

    Text is given the time for three long lines.
    """
    text = len(data) - len(data.translate(None, _TEXT_BYTES))
    is_text = text >= _TEXT_SHARE * len(data)
    enough = _LONG_LINES_BYTES if is_text and data.count(b"\n") < _LINES_TO_TELL else _HOPELESS_BYTES
    return len(data) >= enough and all(one.share < _HOPELESS_SHARE for one in candidates)


def _rank(verdict: Verdict) -> float:
    if verdict.state == "unknown":
        return verdict.candidates[0].score if verdict.candidates else 0.0
    return 2.0


def _words(verdict: Verdict) -> str:
    best = verdict.candidates[0]
    if verdict.state == "recognised":
        said = best.problem or (f"It reads {best.shown}. Does its display agree?" if best.shown else "")
    elif len(verdict.candidates) == 1:
        said = best.problem
    else:
        ways = "; ".join(f"{one.kind}{_brief(one)}" for one in verdict.candidates)
        take = (
            "Take the one that agrees with the display."
            if any(one.kind != "text" for one in verdict.candidates)
            else "Take the column of the cell voltage, or the list, which fills a channel with each."
        )
        said = f"It can be read in more than one way ({ways}). {take}"
    return " ".join(filter(None, (said, _of_columns(best))))


def _brief(candidate: Candidate) -> str:
    options = "".join(f" with {key}={value}" for key, value in candidate.options)
    return f"{options}: {candidate.shown or 'no volts'}"


def _of_columns(candidate: Candidate) -> str:
    """Say what each column of a line looks like, or what each input reads, where there are several."""
    columns = candidate.columns
    if len(columns) < 2:
        return ""
    if candidate.kind == "packet":
        inputs = ", ".join(f"{one.column} ({one.last or 'overload'})" for one in columns)
        return f"The board samples {len(columns)} inputs: {inputs}."
    each = []
    for one in columns:
        name = one.column if one.name in ("", one.column) else f"{one.column} {one.name}"
        look = one.unit if one.looks_like == "other" and one.unit else _LOOKS[one.looks_like]
        each.append(f"{name} ({look})")
    return f"Each line has {len(columns)} columns: {', '.join(each)}."


def listen_to_all(ports: Iterable[str], *, opener: OpenPort = open_port) -> tuple[Heard, ...]:
    """Listen to all ports at once and return what was heard, in their order, within about `BUDGET_S`.

    A port that does not even open by then is given up; its thread ends when the system lets go of it.
    """
    names = tuple(dict.fromkeys(ports))
    heard: dict[str, Heard] = {}

    def work(port: str) -> None:
        heard[port] = listen(port, opener=opener)

    threads = [
        threading.Thread(target=work, args=(name,), name=f"listen {name}", daemon=True) for name in names
    ]
    clock = HostClock()
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(max(BUDGET_S + _OPENING_GRACE_S - clock.now_s(), 0.0))
    late = "The port does not open in time. Is it a wireless one, or its device off?"
    return tuple(heard.get(name) or Heard(name, "unavailable", message=late) for name in names)


def ask_identity(
    port: str, *, clock: RunClock | None = None, opener: OpenPort = open_port
) -> tuple[str, str]:
    """Ask ``*IDN?`` at the usual speeds, because a person wants it; return address and identity.

    Both are "" if nothing there answers.

    Raises
    ------
    CannotOpen : no such port.
    """
    clock = clock or HostClock()
    for baud in _ASK_BAUDS if "://" not in port else _ASK_BAUDS[:1]:
        link = Link(port, baud, opener=opener)
        try:
            link.open(clock)
            identity = Dialogue(link, clock).identify(_ASK_S)
        except CannotOpen:
            raise
        except SourceError:
            identity = ""
        finally:
            link.close()
        if identity:
            return address_of("scpi", port, baud, {}), identity
    return "", ""
