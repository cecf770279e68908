"""Which kind of instrument sent these bytes? Pure; `drivers.listening` fetches them.

Each format looks at the same bytes and says how much of them it explains. The score of a candidate is the
share of bytes that it explains, times min(1, frames / 3), times how special its structure is: a format with
a check is hard to meet by chance, a line of numbers easy. A candidate is taken when it explains at least 80 %
of the last 80 % of the bytes (of all, where they are few), the piece of a frame at either end left out, and
leads by 0.15. Where two readings of the same bytes remain, both are handed back, and a person has to say
which is right.

The figures are common practice of this project, tried on emulated instruments; no source.
"""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import dataclass
from typing import Literal, NamedTuple

from drivers.formats.digit11 import VOLTS
from drivers.formats.frame import FrameDecoder, FrameFormat, FrameReading
from drivers.formats.handheld import HANDHELD_FORMATS
from drivers.formats.packet_stream import PacketDecoder, PacketRun
from drivers.formats.text import RefusedLine, TextDecoder
from drivers.formats.text_cells import Header, Row
from drivers.formats.text_columns import ColumnRule
from drivers.formats.text_survey import SurveyedColumn, parse_line, survey_lines
from drivers.packet_values import Converter

__all__ = ["Candidate", "Verdict", "judge", "recognise"]

_SPECIFICITY = {
    "packet": 1.0, "lcd14": 0.98, "ascii14": 0.97, "stx16": 0.95, "digit14": 0.93, "digit11": 0.9,
    "json": 0.9, "pairs": 0.8, "columns": 0.5,
}  # fmt: skip
_ENOUGH_FRAMES = 3
_LEAST_SHARE = 0.8
_LEAST_MARGIN = 0.15
_MOST_BYTES = 16384
_SHORT = 200  # bytes, of which none are left out: few frames need all of them
_LONGEST_LINE = 257
_FIRST_LINES, _LAST_LINES = 50, 100  # looked at for names and looks of columns
_LONGEST_BLOCK = 1100
_DIGIT_FORMATS = ("digit11", "digit14")


@dataclass(frozen=True, slots=True)
class Candidate:
    """One way to read the bytes.

    `share` of the bytes is explained by `frames` frames, lines or packets. `options` belong behind the
    address. `shown` is the last reading as a display would have it, "" if there is none; `problem` says what
    a person has to change or to tell before anything can be recorded, `needs_word` that it is to tell.
    `columns` : of the lines of a board; of one that sends packets, its inputs.
    """

    kind: str
    share: float
    frames: int
    score: float
    options: tuple[tuple[str, str], ...] = ()
    shown: str = ""
    problem: str = ""
    needs_word: bool = False
    columns: tuple[SurveyedColumn, ...] = ()


@dataclass(frozen=True, slots=True)
class Verdict:
    """What the bytes are: recognised (one candidate), ambiguous (several, or a question is open), unknown."""

    state: Literal["recognised", "ambiguous", "unknown"]
    candidates: tuple[Candidate, ...] = ()


def recognise(data: bytes) -> tuple[Candidate, ...]:
    """Return all ways to read `data` (only its end counts, where it is long), the best first."""
    tail = data[len(data) // 5 if len(data) > _SHORT else 0 :][-_MOST_BYTES:]
    found = [_as_frames(tail, kind, column, one) for kind, column, one in _frame_formats()]
    found += [_as_packets(tail, data), *_as_text(tail, data)]
    candidates = [one for one in found if one is not None]
    return tuple(sorted(candidates, key=lambda one: -one.score))


def judge(candidates: tuple[Candidate, ...], *, least_frames: int = _ENOUGH_FRAMES) -> Verdict:
    """Decide between the candidates, or leave the decision to a person.

    `least_frames` : 2 for instruments that send no more than three times a second.
    """
    sound = [one for one in candidates if one.share >= _LEAST_SHARE and one.frames >= least_frames]
    if not sound:
        return Verdict("unknown", candidates)
    best = sound[0]
    rivals = [one for one in sound[1:] if _is_rival(best, one)]
    if rivals or best.needs_word:
        return Verdict("ambiguous", (best, *rivals))
    return Verdict("recognised", (best,))


def _is_rival(best: Candidate, other: Candidate) -> bool:
    """Whether `other` may be meant too.

    Digits of a meter that is not on volts may as well be whole numbers that a board prints: the structure of
    the frame does not decide that.
    """
    is_close = best.score - other.score < _LEAST_MARGIN
    is_other_profile = best.kind == other.kind
    may_be_numbers = best.kind in _DIGIT_FORMATS and not best.shown and other.kind == "text"
    return is_close or is_other_profile or may_be_numbers


def _frame_formats() -> list[tuple[str, str, FrameFormat]]:
    """Return kind, column to be written into the address, and format; the usual column is not written."""
    formats = [(kind, "", by_column[""]) for kind, by_column in HANDHELD_FORMATS.items()]
    return [*formats, ("digit11", "b", HANDHELD_FORMATS["digit11"]["b"])]


def _score(kind: str, share: float, frames: int) -> float:
    return share * min(1.0, frames / _ENOUGH_FRAMES) * _SPECIFICITY[kind]


def _share(explained: int, total: int, lead: int, trail: int, most: int) -> float:
    """Return the explained share without a piece of a frame, at most `most` bytes, at either end."""
    counted = total - min(lead, most) - min(trail, most)
    return explained / counted if counted > 0 else 0.0


def _as_frames(tail: bytes, kind: str, column: str, frame_format: FrameFormat) -> Candidate | None:
    spans = [found.span() for found in frame_format.pattern.finditer(tail)]
    if not spans:
        return None
    length = frame_format.length
    share = _share(length * len(spans), len(tail), spans[0][0], len(tail) - spans[-1][1], length - 1)
    readings = FrameDecoder(frame_format).feed(tail)
    values = [one for one in readings if one.value is not None]
    refusals = [one for one in readings if one.value is None]
    if column and not (values and _asks_for_profile_b(tail)):
        return None  # without a sign of the other profile it is no candidate
    problem = refusals[-1].text if refusals and len(refusals) >= len(values) else ""
    return Candidate(
        kind=kind,
        share=share,
        frames=len(spans),
        score=_score(kind, share, len(spans)),
        options=(("column", column),) if column else (),
        shown=_last_shown(values) if not problem else "",
        problem=problem,
    )


def _last_shown(readings: list[FrameReading]) -> str:
    return readings[-1].shown if readings else ""


def _asks_for_profile_b(tail: bytes) -> bool:
    readings = FrameDecoder(HANDHELD_FORMATS["digit11"][""]).feed(tail)
    return any(one.code == "profile_needed" and one.raw[5] & 0x7F == VOLTS for one in readings)


def _as_packets(tail: bytes, data: bytes) -> Candidate | None:
    first, last = tail.find(b"\0"), tail.rfind(b"\0")
    if first < 0:
        return None
    decoder, converter = PacketDecoder(), Converter()
    batch = decoder.feed(tail)
    if not decoder.packets:
        return None
    for info in PacketDecoder().feed(data).infos:  # it may have come before the tail
        converter.learn(info)
    explained = decoder.bytes_explained
    is_first_whole = explained > last - first
    lead = 0 if is_first_whole else first + 1
    share = min(_share(explained, len(tail), lead, len(tail) - last - 1, _LONGEST_BLOCK), 1.0)
    inputs = _inputs_of(batch.runs[-1], converter) if batch.runs else ()
    return Candidate(
        kind="packet",
        share=share,
        frames=decoder.packets,
        score=_score("packet", share, decoder.packets),
        shown=inputs[0].last if inputs else "",
        columns=inputs,
    )


def _inputs_of(run: PacketRun, converter: Converter) -> tuple[SurveyedColumn, ...]:
    """Return the inputs that a board samples, with the last voltage of each."""
    inputs = [number for number in range(8) if run.mask >> number & 1]
    values = [float(converter.volts(run, place, number)[-1, -1]) for place, number in enumerate(inputs)]
    return tuple(
        SurveyedColumn(str(number), "", "volts", "V", _volts_text(value) if math.isfinite(value) else "")
        for number, value in zip(inputs, values, strict=True)
    )


def _as_text(tail: bytes, data: bytes) -> list[Candidate]:
    first, last = tail.find(b"\n"), tail.rfind(b"\n")
    if first < 0 or first == last:
        return []
    forms: Counter[str] = Counter()
    explained = 0
    for line in tail[first + 1 : last + 1].splitlines(keepends=True):
        row = parse_line(line) if len(line) <= _LONGEST_LINE else None
        if isinstance(row, Row):
            forms[row.form] += 1
            explained += len(line)
    if not forms:
        return []
    form, _ = forms.most_common(1)[0]
    lines = sum(forms.values())
    share = _share(explained, len(tail), first + 1, len(tail) - last - 1, _LONGEST_LINE)
    score = _score(form, share, lines)
    return [
        Candidate(
            "text", share, lines, score, way.options, way.shown, way.question, bool(way.question), columns
        )
        for columns in [_columns_of(data)]
        for way in _ways_to_read(tail, columns)
    ]


class _Way(NamedTuple):
    """What an address may say of the columns of lines, and what is read then, or has to be told before."""

    options: tuple[tuple[str, str], ...] = ()
    shown: str = ""
    question: str = ""


def _columns_of(data: bytes) -> tuple[SurveyedColumn, ...]:
    """Survey the end of `data`, and its beginning for names; the last line may be cut off."""
    lines = data.split(b"\n")[:-1]
    return survey_lines(lines[:_FIRST_LINES] + lines[max(len(lines) - _LAST_LINES, _FIRST_LINES) :])


def _ways_to_read(tail: bytes, columns: tuple[SurveyedColumn, ...]) -> list[_Way]:
    """Return the one way to read these lines, or a way for each column that may be meant, and for all."""
    shown, refused = _text_preview(tail, "")
    sure = [one for one in columns if one.looks_like == "volts"]
    if refused is None:
        needs_number = len(sure) == 1 and _text_preview(_without_names(tail), "")[1] is not None
        return [_Way((("column", sure[0].column),) if needs_number else (), shown)]
    if refused.code != "column_needed":
        return [_Way(question=refused.why)]
    may_be = sure or [one for one in columns if one.looks_like in ("maybe_volts", "other")]
    previews = [(one.column, *_text_preview(tail, one.column)) for one in may_be]
    found = [(column, shown) for column, shown, refused in previews if refused is None]
    if not found:
        return [_Way(question=refused.why)]
    ways = [_Way((("column", column),), shown) for column, shown in found]
    if len(found) > 1:
        names, values = zip(*found, strict=True)
        ways.append(_Way((("column", ",".join(names)),), " and ".join(values)))
    return ways


def _without_names(tail: bytes) -> bytes:
    """Return the lines without those that name the columns, which need not come again."""
    lines = tail.splitlines(keepends=True)
    return b"".join(line for line in lines if not isinstance(parse_line(line), Header))


def _text_preview(tail: bytes, column: str) -> tuple[str, RefusedLine | None]:
    """Return the last reading, or why most lines give none."""
    results = TextDecoder(ColumnRule(column)).feed(tail)
    readings = [one for one in results if not isinstance(one, RefusedLine) and math.isfinite(one.value)]
    refusals = [one for one in results if isinstance(one, RefusedLine)]
    if refusals and len(refusals) > len(readings):
        return "", refusals[-1]
    return (_volts_text(readings[-1].value) if readings else ""), None


def _volts_text(value_V: float) -> str:
    return f"{value_V:.4f} V".replace("-", "−")
