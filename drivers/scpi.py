"""A meter that answers queries over IEEE 488.2 / SCPI: asked for one reading at a time.

The address ``scpi:PORT`` is the user's word that queries may be sent. The meter's settings are never
changed; ``*RST`` is never sent.
"""

from __future__ import annotations

import math
from collections import deque
from collections.abc import Mapping
from statistics import median

import numpy as np

from drivers.address import Address
from drivers.channel_options import ChannelOptions
from drivers.errors import CannotOpen, NotReadable, SourceLost, SourceRefused
from drivers.formats.number_shape import UsualShape
from drivers.formats.scpi import Reading, parse_reading
from drivers.link import WAIT_SLICE_S, Link, OpenPort, open_port
from drivers.notice_limit import NoticeLimit
from drivers.run_clock import RunClock
from drivers.samples import Delivery, MissingStretch, Notice, Quality, Samples
from drivers.scpi_dialogue import QUIET_S, Answer, Dialogue
from drivers.scpi_greeting import confirm_function, greet
from drivers.source import Channel, Instrument, Source

__all__ = ["ScpiSource"]

_QUERY = "READ?"
_FIRST_WAIT_S = 3.0
_PATIENT_WAIT_S = 10.0  # a meter that integrates over 100 periods of the mains, twice
_MISSES_TO_ASK_WHY = 2
_MISSES_TO_GIVE_UP = 5
_REMEMBERED = 51
_CONFIRM_EVERY_S = 5.0
_JUMP_SHARE, _JUMP_V = 0.05, 0.02  # a reading so far from the last may be of another function
_LATE = 1.5  # times the usual round trip: the meter changed its range, or something waited


class ScpiSource(Source):
    """Readings of a queried meter, `rate` times a second (see `drivers.source.Source`).

    Parameters
    ----------
    address : ``scpi:PORT``; keys ``baud`` (9600), ``rate`` (2 readings per second) and those of a channel.
    opener : opens the port; a fake in tests.
    """

    def __init__(self, address: Address, *, opener: OpenPort = open_port) -> None:
        super().__init__(address)
        self._options = ChannelOptions.from_address(address)
        self._period_s = 1.0 / address.number("rate", 2.0, low=0.001, high=1000.0)
        self._link = Link(address.port, address.integer("baud", 9600, low=50, high=12_000_000), opener=opener)
        self._clock: RunClock | None = None
        self._dialogue: Dialogue | None = None
        self._identity = ""
        self._configuration = ""
        self._details: Mapping[str, str | float] = {}
        self._usual = UsualShape()
        self._limit = NoticeLimit()
        self._round_trips_s: deque[float] = deque(maxlen=_REMEMBERED)
        self._pending: list[Delivery] = []
        self._misses = 0
        self._why_missing = ""  # since the last reading; "" where no query was in vain
        self._waits_for = ""
        self._asked = 0
        self._skipped = 0
        self._start_s = 0.0
        self._slot = 0
        self._last_s = -math.inf
        self._last_V, self._confirmed_s = 0.0, 0.0
        self._run: RunClock | None = None  # stays after close: times go on in the same run
        self.silent_after_s = max(3.0, 10 * self._period_s)

    @property
    def channels(self) -> tuple[Channel, ...]:
        """The one channel that the meter fills."""
        return (self._options.channel,)

    @property
    def waits_for(self) -> str:
        """Which question the meter has not answered yet, and what to look at meanwhile."""
        return self._waits_for

    @property
    def instrument(self) -> Instrument:
        """Identity and configuration as the meter gave them; the clock's uncertainty as it stands now."""
        clock: dict[str, str | float] = {"method": "query-midpoint"}
        if self._round_trips_s:
            clock["uncertainty_s"] = median(self._round_trips_s) / 2
        details: dict[str, str | float] = {"query": _QUERY, "rate": 1 / self._period_s, **self._details}
        if self._configuration:
            details["configuration"] = self._configuration
        if self._dialogue is not None and self._dialogue.has_echo:
            details["echo"] = "yes"
        if self._options.name:
            details["name"] = self._options.name
        return Instrument(
            address=self.address.text,
            identity=self._identity,
            clock=clock,
            calibration=self._options.calibration,
            details=details,
        )

    def open(self, clock: RunClock) -> None:
        """Open the port, ask the meter who it is, check that it is on DC volts, and take one reading.

        Raises
        ------
        CannotOpen : no such port, or nothing there answers.
        SourceRefused : what answers is not a meter on DC volts.
        """
        self.close()
        self._link.open(clock)
        if clock is not self._run:
            self._last_s, self._identity = -math.inf, ""
            self._usual = UsualShape()
        self._clock = self._run = clock
        self._dialogue = Dialogue(self._link, clock)
        self._misses = 0
        self._why_missing = ""
        self._pending.clear()
        try:
            identity, self._configuration = greet(self._dialogue, self.address.port, self._tell)
            self._check_identity(identity)
            self._last_V, self._confirmed_s = math.nan, clock.now_s()
            self._take_first_reading(self._dialogue)
        except SourceLost as error:
            self.close()
            raise CannotOpen(str(error)) from error
        except BaseException:
            self.close()
            raise
        finally:
            self._waits_for = ""
        self._details = self._link.details()

    def read(self, timeout_s: float) -> Delivery:
        """Ask for the next reading when its time has come; see `Source.read`.

        May take as long as an answer may take (1 s, or four times what this meter usually needs).

        Raises
        ------
        SourceLost : the port failed, or the meter gave no good answer five times in a row.
        """
        if self._clock is None or self._dialogue is None:
            raise SourceLost(f"{self.address.text} is not open. Open it first.")
        if self._pending:
            return self._pending.pop(0)
        if not self._dialogue.is_in_step:
            return self._recover(self._dialogue)
        if not self._wait_for_slot(self._dialogue, self._clock, timeout_s):
            return Delivery()
        answer = self._dialogue.ask(_QUERY, self._answer_wait_s())
        return self._judged(self._dialogue, answer)

    def close(self) -> None:
        """Give the meter its keys back if they were taken, and close the port."""
        if self._dialogue is not None and self._link.is_open:
            self._dialogue.hand_back()
        self._link.close()
        self._clock = None

    def _check_identity(self, identity: str) -> None:
        """Refuse another meter than the one this run began with."""
        if self._identity and identity and identity != self._identity:
            raise SourceRefused(
                f"On {self.address.port} now answers {identity}, but this run was begun with "
                f"{self._identity}. Put that one back, or end the run and begin a new one."
            )
        self._identity = identity or self._identity

    def _take_first_reading(self, dialogue: Dialogue) -> None:
        """Ask once, then once more with patience; a meter that cannot be read now is refused now."""
        misfit, was_asked = "", False
        for wait_s in (_FIRST_WAIT_S, _PATIENT_WAIT_S if self._identity else _FIRST_WAIT_S):
            self._tell(self._first_reading_words(was_asked=was_asked))
            was_asked = True
            dialogue.get_in_step(_FIRST_WAIT_S)
            self._start_s, self._slot = self._now_s(), 1
            answer = dialogue.ask(_QUERY, wait_s)
            if answer is not None:
                misfit = parse_reading(answer.line).problem if parse_reading(answer.line).is_misfit else ""
                if not misfit:
                    self._pending.append(self._judged(dialogue, answer))
                    return
            dialogue.settle()
            dialogue.take_over_if_asked()
        if misfit:
            raise SourceRefused(
                f"The meter on {self.address.port} was asked {_QUERY}, but {misfit}. Set it to DC volts, one "
                "reading at a time."
            )
        baud = self._link.baud
        if self._identity:
            raise NotReadable(
                f"{self._identity} on {self.address.port} does not answer {_QUERY}. Is the meter on, is its "
                f"remote interface set to {baud} baud 8N1, and is the cable the right one (crossed or "
                "straight)?"
            )
        raise NotReadable(
            f"{self.address.port} does not answer {_QUERY}. Is the meter on, is its remote interface set to "
            f"{baud} baud 8N1, and is the cable the right one (crossed or straight)?"
        )

    def _tell(self, words: str) -> None:
        self._waits_for = words

    def _first_reading_words(self, *, was_asked: bool) -> str:
        port = self.address.port
        if not self._identity:
            return (
                f"The meter on {port} says neither who it is (*IDN?) nor what is wrong (SYST:ERR?). It is "
                f"asked for a reading ({_QUERY}) all the same, twice, which takes up to 15 s. Is it on, and "
                f"set to {self._link.baud} baud 8N1?"
            )
        if was_asked:
            return (
                f"{self._identity} on {port} has given no reading yet and is asked once more ({_QUERY}); a "
                "slow meter may take 10 s. Is it on DC volts?"
            )
        return f"{self._identity} on {port} was asked for a reading ({_QUERY}) and may take some seconds."

    def _now_s(self) -> float:
        assert self._clock is not None
        return self._clock.now_s()

    def _answer_wait_s(self) -> float:
        slowest_s = max(self._round_trips_s, default=0.5)
        return max(1.0, 4 * slowest_s + 0.2) + 30 * self._link.byte_time_s

    def _wait_for_slot(self, dialogue: Dialogue, clock: RunClock, timeout_s: float) -> bool:
        """Listen until the next reading is due and return True, or False when that is beyond the timeout."""
        now_s = clock.now_s()
        due_s = self._start_s + self._slot * self._period_s
        if now_s - due_s > self._period_s:
            missed = math.floor((now_s - due_s) / self._period_s)
            self._slot += missed
            self._skipped += 1  # however many: a program that stood still once is no slow meter
            due_s += missed * self._period_s
        until_s = min(due_s, now_s + timeout_s * clock.speed)
        listen_s = (until_s - now_s) / clock.speed - WAIT_SLICE_S  # a link may wait one slice too long
        if listen_s > 0:
            dialogue.watch(listen_s)
        if not dialogue.is_in_step:
            return False
        clock.sleep_s(until_s - clock.now_s())
        if until_s < due_s:
            return False
        self._slot += 1
        return True

    def _judged(self, dialogue: Dialogue, answer: Answer | None) -> Delivery:
        """Turn an answer, or its absence, into a delivery; count the misses."""
        self._asked += 1
        if answer is None:
            return self._missed("no_answer", f"The meter on {self.address.port} did not answer in time.")
        reading = parse_reading(answer.line)
        if reading.is_misfit:
            dialogue.is_in_step = False
            return self._missed("answer_refused", f"Not recorded: {reading.problem}.")
        self._misses = 0
        if reading.value is None:
            why = self._why_missing = f"Not recorded: {reading.problem}."
            notices = self._limit.pass_on("no_value", why, answer.arrived_s, is_refusal=True)
            return Delivery(notices=notices)
        if self._must_confirm(reading.value, answer.arrived_s):
            confirm_function(dialogue, self.address.port)
        before_s = self._last_s
        sample = self._sample(answer, reading)
        return Delivery(
            samples=(sample,),
            notices=self._rate_notice(answer.arrived_s),
            missing=self._missing_since(before_s),
        )

    def _missing_since(self, before_s: float) -> tuple[MissingStretch, ...]:
        """Return the stretch that ends with the last reading, if queries before it brought none."""
        why, self._why_missing = self._why_missing, ""
        if not why or not math.isfinite(before_s):
            return ()
        return (MissingStretch(self._options.channel.name, before_s, self._last_s, why),)

    def _must_confirm(self, value_V: float, now_s: float) -> bool:
        """Whether someone may have turned the meter to another function: the answers do not tell.

        Only a meter that had answered ``CONF?`` can be asked: every 5 s, and before a reading that jumps is
        delivered.
        """
        last_V, self._last_V = self._last_V, value_V
        if not self._configuration:
            return False
        has_jumped = value_V != last_V and abs(value_V - last_V) > _JUMP_V + _JUMP_SHARE * abs(last_V)
        if not has_jumped and now_s - self._confirmed_s < _CONFIRM_EVERY_S:
            return False
        self._confirmed_s = now_s
        return True

    def _sample(self, answer: Answer, reading: Reading) -> Samples:
        assert reading.value is not None
        quality = reading.quality
        if reading.shape is not None and self._usual.is_odd(reading.shape):
            quality |= Quality.SUSPECT
        time_s, round_trip_s = self._stamp(answer)
        if self._round_trips_s and round_trip_s > _LATE * median(self._round_trips_s) + WAIT_SLICE_S:
            quality |= Quality.TIME_UNCERTAIN
        self._round_trips_s.append(round_trip_s)
        self._last_s = max(self._last_s, time_s)
        return Samples(
            channel=self._options.channel.name,
            times_s=np.array([self._last_s]),
            values=self._options.apply(np.array([reading.value])),
            quality=np.array([quality], dtype=np.uint8),
        )

    def _stamp(self, answer: Answer) -> tuple[float, float]:
        """Return the middle between the query's last byte and the answer's first, and their distance.

        Byte times are those of the line; where the line is faster than its baud says (a
        pseudo-terminal), they are left out.
        """
        sent_s = answer.sent_s + (len(_QUERY) + 1) * self._link.byte_time_s
        left_s = answer.arrived_s - (len(answer.line) + 1) * self._link.byte_time_s
        if left_s < sent_s:
            sent_s, left_s = answer.sent_s, answer.arrived_s
        return (sent_s + left_s) / 2, left_s - sent_s

    def _rate_notice(self, now_s: float) -> tuple[Notice, ...]:
        """Say once that the meter is slower than it is asked to be."""
        if self._asked < 20 or self._skipped < self._asked // 4:
            return ()
        real = self._asked / (now_s - self._start_s) if now_s > self._start_s else 0.0
        self._skipped, self._asked = 0, 0
        return self._limit.pass_on(
            "rate_limited",
            f"The meter gives about {real:.2g} readings a second; {1 / self._period_s:g} were asked for.",
            now_s,
        )

    def _missed(self, code: str, text: str) -> Delivery:
        self._misses += 1
        self._why_missing = text
        if self._misses >= _MISSES_TO_GIVE_UP:
            raise SourceLost(
                f"{text} That was the {_MISSES_TO_GIVE_UP}th time in a row. Is the meter on, and still set "
                "to DC volts?"
            )
        return Delivery(notices=self._limit.pass_on(code, text, self._now_s()))

    def _recover(self, dialogue: Dialogue) -> Delivery:
        """Stop asking, let late answers run out, and go on only when none can be left."""
        dialogue.settle()
        notices: tuple[Notice, ...] = ()
        if self._misses == _MISSES_TO_ASK_WHY:
            notices = self._ask_why(dialogue)
        if dialogue.get_in_step(max(self._answer_wait_s(), QUIET_S)):
            return Delivery(notices=notices)
        missed = self._missed("no_answer", f"The meter on {self.address.port} does not answer.")
        return Delivery(notices=notices + missed.notices)

    def _ask_why(self, dialogue: Dialogue) -> tuple[Notice, ...]:
        """Flush a half command, ask for the meter's oldest error before clearing it, and tell it."""
        dialogue.tell("")
        dialogue.settle()
        error = dialogue.take_over_if_asked()
        dialogue.tell("*CLS")
        if error is None or error[0] == 0:
            return ()
        return self._limit.pass_on(
            "meter_error", f"The meter reports: {error[0]}, {error[1]}.", self._now_s()
        )
