"""What several runs read at one time, in words. No Qt but the translation."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from gui.chart.frame import Frame
from gui.chart.reading_texts import apart_words, flag_words, outside_words, step_words, value_words
from gui.numbers import clock_text
from gui.words import translate
from logger.aligned_reading import AlignedReading, NoReading
from logger.reading_off import Reading

__all__ = ["OverlayWords", "RunWords", "overlay_words"]


@dataclass(frozen=True, slots=True)
class RunWords:
    """Words for run `number` (from 0): its voltage, empty without one, and more, the first matters most."""

    number: int
    value: str
    more: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class OverlayWords:
    """Words for one time: when, counted from where the runs are aligned; of both times compared; each run."""

    time: str
    about: tuple[str, ...]
    runs: tuple[RunWords, ...]

    @property
    def spoken(self) -> str:
        """All of it in one line."""
        text = translate("Reading", "run {number}: {words}")
        runs = (
            text.format(number=run.number + 1, words=", ".join(filter(None, (run.value, *run.more))))
            for run in self.runs
        )
        return "; ".join((", ".join((self.time, *self.about)), *runs))


def overlay_words(
    here: AlignedReading,
    since: AlignedReading | None,
    frame: Frame,
    numbers: Sequence[int],
    decimals: Sequence[int],
    time_decimals: int,
) -> OverlayWords:
    """Return the words for what the runs read.

    Parameters
    ----------
    since : the other time that it is compared with, if there is one: each run with its own reading there.
    numbers : of each run, its place among those that are ticked, from 0.
    decimals : of each run, the decimals of volts in which its readings are written.
    """
    about = []
    if since is not None and since.time_s == here.time_s:
        about.append(translate("Reading", "measured from here"))
    elif since is not None:
        about.append(apart_words(here.time_s, since.time_s, time_decimals))
    about += outside_words(here.time_s, frame)
    compared = None if since is None or since.time_s == here.time_s else since.readings
    runs = []
    for place, reading in enumerate(here.readings):
        if isinstance(reading, NoReading):
            why = (translate("Reading", "no reading"), _why_none(reading))
            runs.append(RunWords(numbers[place], "", why))
            continue
        other = None if compared is None else compared[place]
        step = step_words(reading, other, decimals[place]) if isinstance(other, Reading) else []
        more = (*step, *_own_time(reading, here, time_decimals), *flag_words(reading.quality))
        runs.append(RunWords(numbers[place], value_words(reading, decimals[place]), more))
    return OverlayWords(clock_text(here.time_s, time_decimals), tuple(about), tuple(runs))


def _why_none(reading: NoReading) -> str:
    return {
        NoReading.NONE_AT_ALL: translate("Reading", "it has none at all"),
        NoReading.NOT_BEGUN: translate("Reading", "not begun yet"),
        NoReading.IN_GAP: translate("Reading", "within a gap"),
        NoReading.ENDED: translate("Reading", "already ended"),
        NoReading.UNREADABLE: translate("Reading", "its file cannot be read there"),
    }[reading]


def _own_time(reading: Reading, here: AlignedReading, time_decimals: int) -> list[str]:
    """Say when it was measured, where that differs from the time read off as that is written."""
    own, there = (clock_text(one.time_s, time_decimals) for one in (reading, here))
    return [] if own == there else [translate("Reading", "at {time}").format(time=own)]
