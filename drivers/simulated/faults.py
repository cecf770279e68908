"""Faults to order for emulated instruments, and the line on which they happen."""

from __future__ import annotations

import dataclasses
import difflib
import math
import random
from collections.abc import Iterable
from dataclasses import dataclass

from drivers.errors import AddressError
from drivers.simulated.device import Unplugged
from drivers.simulated.wrong_speed import at_wrong_speed

__all__ = ["Faults", "Outbox", "parse_faults"]


@dataclass(frozen=True, slots=True)
class Faults:
    """What shall go wrong. Nothing does by default; probabilities are per byte or per message.

    `drop` : a byte is lost. `flip` : one bit of a byte is wrong. `garbage` : random bytes come before a
    message. `late_every` : each so-many-th message leaves `late_s` seconds late, and those behind it wait.
    `lost_every` : each so-many-th message is never sent, `twice_every` : sent twice. `half_at` : of that
    message only the first half is sent, and for `stall_s` seconds nothing more. `stall_at` : that message
    and all behind it wait `stall_s` seconds. `unplug_after` : the line goes dead, once, after so many
    messages, and comes back after `away_s` seconds. `reboot_after` : a board starts anew by itself, once,
    after so many messages. `ac_after` : the dial stands on AC volts for the `ac_count` readings after so
    many. `wrong_speed` : the sender's line speed as a multiple of the reader's. `wrap_after_s` : so long
    after a board's start its counter turns over to 0. `cr_only` : lines end with CR alone. `echo` : a meter
    repeats each command. `banner` : a board prints this when a program opens it. All are drawn from `seed`.
    """

    drop: float = 0.0
    flip: float = 0.0
    garbage: float = 0.0
    late_every: int = 0
    late_s: float = 2.0
    lost_every: int = 0
    twice_every: int = 0
    half_at: int = 0
    stall_at: int = 0
    stall_s: float = 1.0
    unplug_after: int = 0
    away_s: float = 1.0
    reboot_after: int = 0
    ac_after: int = 0
    ac_count: int = 10
    wrong_speed: float = 1.0
    wrap_after_s: float = 0.0
    cr_only: bool = False
    echo: bool = False
    banner: str = ""
    seed: int = 1

    def first_count(self, counts_per_s: float) -> int:
        """Return what a board's counter of 32 bits shows when it starts."""
        return (1 << 32) - round(self.wrap_after_s * counts_per_s) if self.wrap_after_s else 0

    def is_on_ac(self, reading: int) -> bool:
        """Whether the dial stands on AC volts for the reading of this number, counted from 0."""
        return bool(self.ac_after) and 0 <= reading - self.ac_after < self.ac_count


def parse_faults(texts: Iterable[str]) -> Faults:
    """Read ``NAME=VALUE`` pairs; a yes-or-no fault is ordered by its name alone.

    Raises
    ------
    AddressError : unknown name (the nearest known one is named), or a value that is none.
    """
    plain = dataclasses.asdict(Faults())
    for text in texts:
        name, _, value = text.partition("=")
        if name not in plain:
            near = difflib.get_close_matches(name, plain, n=1, cutoff=0.5)
            hint = f"; did you mean {near[0]}?" if near else ""
            raise AddressError(f"there is no fault {name!r}{hint} (known: {', '.join(plain)})")
        kind = type(plain[name])
        try:
            plain[name] = True if kind is bool else kind(value)
        except ValueError as error:
            raise AddressError(
                f"fault {text}: {value!r} is no number; write for example {name}={plain[name]}"
            ) from error
        if kind in (int, float) and not plain[name] >= 0:
            raise AddressError(f"fault {text}: the value must be 0 or more")
    return Faults(**plain)


class Outbox:
    """Messages on their way out, first in first out, each with the time at which it leaves."""

    def __init__(self, faults: Faults) -> None:
        self._faults = faults
        self._random = random.Random(faults.seed)
        self._queue: list[tuple[float, bytes]] = []
        self._posted = 0
        self._sent = 0
        self._was_unplugged = False
        self._hushed_until_s = -math.inf

    def post(self, time_s: float, message: bytes) -> None:
        """Queue `message` to leave at `time_s`, or later behind a late one."""
        faults = self._faults
        self._posted += 1
        if time_s < self._hushed_until_s or _is_due(self._posted, faults.lost_every):
            return
        if self._posted == faults.half_at:
            message = message[: len(message) // 2]
            self._hushed_until_s = time_s + faults.stall_s
        if faults.cr_only:
            message = message.replace(b"\r\n", b"\r")
        if _is_due(self._posted, faults.late_every):
            time_s += faults.late_s
        if self._posted == faults.stall_at:
            time_s += faults.stall_s
        if self._queue:
            time_s = max(time_s, self._queue[-1][0])
        for _ in range(2 if _is_due(self._posted, faults.twice_every) else 1):
            self._queue.append((time_s, self._spoiled(message)))

    def next_due_s(self) -> float | None:
        """Return when the next message leaves."""
        return self._queue[0][0] if self._queue else None

    def take(self, now_s: float) -> bytes:
        """Return the bytes of all messages that have left by `now_s`.

        Raises
        ------
        Unplugged : `Faults.unplug_after` messages have been returned.
        """
        taken = bytearray()
        while self._queue and self._queue[0][0] <= now_s:
            if self._sent == self._faults.unplug_after and self._sent and not self._was_unplugged:
                if taken:
                    break
                self._was_unplugged = True
                self._queue.clear()
                raise Unplugged
            taken += self._queue.pop(0)[1]
            self._sent += 1
        return bytes(taken)

    def clear(self) -> None:
        """Forget what has not left yet."""
        self._queue.clear()

    def _spoiled(self, message: bytes) -> bytes:
        faults, chance = self._faults, self._random.random
        if faults.wrong_speed != 1.0:
            message = at_wrong_speed(message, faults.wrong_speed, 1.0)
        if not (faults.drop or faults.flip or faults.garbage):
            return message
        kept = bytearray()
        if chance() < faults.garbage:
            kept += self._random.randbytes(self._random.randint(1, 8))
        for byte in message:
            if chance() < faults.drop:
                continue
            kept.append(byte ^ (1 << self._random.randrange(8)) if chance() < faults.flip else byte)
        return bytes(kept)


def _is_due(number: int, every: int) -> bool:
    return every > 0 and number % every == 0
