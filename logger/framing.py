"""From what has come to the frames of a journal: short blocks of a channel that wait together go together."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from drivers.samples import Samples
from logger.intake import Entry
from logger.journal import FrameType
from logger.payload import BLOCK_LIMIT, encode_json, sample_parts
from logger.track import FrameToWrite

__all__ = ["frames_of", "gathered"]

TOGETHER_LIMIT = 1024
"""Samples of short blocks that go into one frame at most; a longer block is a frame of its own."""


def gathered(entries: Sequence[Entry]) -> Iterator[list[Entry]]:
    """Yield the entries in groups, each to be given to `frames_of`.

    Blocks of a channel keep their order, and no block passes a moment or any other entry. Where readings
    come no faster than the disk takes them, each group is one block.
    """
    waiting: dict[int, list[Entry]] = {}
    counts: dict[int, int] = {}
    for entry in entries:
        samples = entry.samples
        if samples is None:
            yield from waiting.values()
            waiting, counts = {}, {}
            yield [entry]
            continue
        index, count = entry.index, samples.times_s.size
        group = waiting.get(index)
        if group is not None and counts[index] + count <= TOGETHER_LIMIT and _are_alike(group[0], entry):
            group.append(entry)
            counts[index] += count
        else:
            if group is not None:
                yield group
            waiting[index], counts[index] = [entry], count
    yield from waiting.values()


def _are_alike(one: Entry, other: Entry) -> bool:
    """Tell whether both blocks have times of a board, or none has."""
    assert one.samples is not None
    assert other.samples is not None
    return (one.samples.board_ticks is None) == (other.samples.board_ticks is None)


def frames_of(group: Sequence[Entry]) -> list[FrameToWrite]:
    """Return the frames for one group: blocks of one channel, or one other entry."""
    if group[0].samples is None:
        assert group[0].content is not None
        return [FrameToWrite(group[0].type, encode_json(group[0].content))]
    samples = _joined([entry.samples for entry in group if entry.samples is not None])
    return [
        FrameToWrite(FrameType.SAMPLES, sample_parts(group[0].index, part), len(part))
        for part in _portions(samples)
    ]


def _joined(blocks: Sequence[Samples]) -> Samples:
    if len(blocks) == 1:
        return blocks[0]
    ticks = [block.board_ticks for block in blocks if block.board_ticks is not None]
    return Samples(
        blocks[0].channel,
        np.concatenate([block.times_s for block in blocks]),
        np.concatenate([block.values for block in blocks]),
        np.concatenate([block.quality for block in blocks]),
        np.concatenate(ticks) if ticks else None,
    )


def _portions(samples: Samples) -> Iterator[Samples]:
    if len(samples) <= BLOCK_LIMIT:
        yield samples
        return
    ticks = samples.board_ticks
    for begin in range(0, len(samples), BLOCK_LIMIT):
        part = slice(begin, begin + BLOCK_LIMIT)
        yield Samples(
            samples.channel,
            samples.times_s[part],
            samples.values[part],
            samples.quality[part],
            None if ticks is None else ticks[part],
        )
