"""Data packets out of a stream of bytes, many at a time. Pure.

Boards send up to thousands of packets a second, so packets of one length are unstuffed and taken apart
together, as the rows of an array; only their checks are calculated one by one.
"""

from __future__ import annotations

import binascii
from collections import defaultdict
from dataclasses import dataclass
from itertools import groupby

import numpy as np
from numpy.typing import NDArray

from drivers.formats import cobs
from drivers.formats.packet import DATA, DATA_HEAD, INFO, TEXT, BoardInfo, body_length, opened, parse_info

__all__ = ["PacketBatch", "PacketDecoder", "PacketRun"]

_LONGEST_BLOCK = 1100  # beyond every packet there is
_FEW = 8  # up to so many, arrays cost more than they save

_BITS = np.array([byte.bit_count() for byte in range(256)])

Rows = NDArray[np.uint8]


@dataclass(frozen=True, slots=True, eq=False)
class PacketRun:
    """Data packets that followed one another and have one shape: m packets of n codes.

    Parameters
    ----------
    mask : which inputs are sampled, one bit each.
    sequence : uint16, shape (m,).
    ticks : uint32, shape (m,); the board's counter at each packet's first sample.
    codes : int16, shape (m, n // inputs, inputs).
    range_code, flags : uint8, shape (m,).
    bytes_after : int64, shape (m,); bytes of the same `feed` that came after each packet.
    """

    mask: int
    sequence: NDArray[np.uint16]
    ticks: NDArray[np.uint32]
    codes: NDArray[np.int16]
    range_code: NDArray[np.uint8]
    flags: NDArray[np.uint8]
    bytes_after: NDArray[np.int64]

    def __len__(self) -> int:
        return int(self.sequence.size)

    def __getitem__(self, part: slice | NDArray[np.bool_]) -> PacketRun:
        """Return some of the packets."""
        return PacketRun(
            self.mask,
            self.sequence[part],
            self.ticks[part],
            self.codes[part],
            self.range_code[part],
            self.flags[part],
            self.bytes_after[part],
        )


@dataclass(frozen=True, slots=True)
class PacketBatch:
    """What one `feed` brought, each kind in the order of its arrival.

    `damaged` counts blocks that are no packets (wrong check, wrong stuffing), `unknown` sound packets of a
    type or form not known here.
    """

    runs: tuple[PacketRun, ...] = ()
    infos: tuple[BoardInfo, ...] = ()
    texts: tuple[str, ...] = ()
    damaged: int = 0
    unknown: int = 0


class PacketDecoder:
    """Takes bytes in pieces of any size. What comes before the first zero may be part of a packet, or not.

    `packets` counts the sound packets, `bytes_explained` their bytes, `bytes_taken` all bytes fed so far.
    """

    def __init__(self) -> None:
        self.packets = 0
        self.bytes_taken = 0
        self.bytes_explained = 0
        self._rest = b""
        self._is_first = True

    def feed(self, data: bytes) -> PacketBatch:
        """Take bytes as they came and return the packets that are complete now."""
        self.bytes_taken += len(data)
        whole = self._rest + data
        blocks = whole.split(b"\0")
        self._rest = blocks.pop()[: _LONGEST_BLOCK + 1]
        if not blocks:
            return PacketBatch()
        after = len(whole) - np.cumsum([len(block) + 1 for block in blocks])
        groups: dict[int, list[int]] = defaultdict(list)
        for place, block in enumerate(blocks):
            groups[len(block)].append(place)
        groups.pop(0, None)  # nothing between two zeros
        sorter = _Sorter()
        for length, places in groups.items():
            self._take_group([blocks[place] for place in places], length, np.array(places), sorter)
        if self._is_first:
            self._is_first = False
            sorter.excuse(0)
        self.packets += sorter.packets
        self.bytes_explained += sorter.bytes_explained
        return sorter.batch(after)

    def _take_group(
        self, blocks: list[bytes], length: int, places: NDArray[np.intp], sorter: _Sorter
    ) -> None:
        """Unstuff and check blocks of one length, and hand over what is sound."""
        if length > _LONGEST_BLOCK:
            sorter.add_damaged(places)
        elif length > cobs.LONGEST_ROW or len(blocks) < _FEW:
            for block, place in zip(blocks, places.tolist(), strict=True):
                payload = cobs.decode(block)
                body = opened(payload) if payload is not None else None
                if body is None:
                    sorter.add_damaged(np.array([place]))
                else:
                    sorter.add(np.frombuffer(body, np.uint8)[np.newaxis], np.array([place]), length + 1)
        elif (body_size := body_length(length - 1)) is None:
            sorter.add_damaged(places)
        else:
            rows = np.frombuffer(b"".join(blocks), np.uint8).reshape(-1, length)
            payloads, is_sound = cobs.decode_rows(rows)
            is_sound &= _has_right_check(payloads, body_size)
            sorter.add_damaged(places[~is_sound])
            sorter.add(payloads[is_sound, :body_size], places[is_sound], length + 1)


class _Sorter:
    """Collects the packets of one feed, group by group, and puts them in order again."""

    def __init__(self) -> None:
        self.packets = 0
        self.bytes_explained = 0
        self._damaged: list[int] = []
        self._unknown = 0
        self._messages: list[tuple[int, BoardInfo | str]] = []
        self._data: list[tuple[Rows, NDArray[np.intp]]] = []

    def add_damaged(self, places: NDArray[np.intp]) -> None:
        self._damaged += places.tolist()

    def excuse(self, place: int) -> None:
        """Do not count the block at `place` as damaged: its beginning was not seen."""
        self._damaged = [other for other in self._damaged if other != place]

    def add(self, bodies: Rows, places: NDArray[np.intp], wire_length: int) -> None:
        """Take sound bodies, uint8, shape (m, length), of one length."""
        self.packets += len(bodies)
        self.bytes_explained += len(bodies) * wire_length
        is_data = bodies[:, 0] == DATA
        for body, place in zip(bodies[~is_data], places[~is_data].tolist(), strict=True):
            self._add_message(body.tobytes(), place)
        if is_data.all():
            self._add_data(bodies, places)
        elif is_data.any():
            self._add_data(bodies[is_data], places[is_data])

    def _add_message(self, body: bytes, place: int) -> None:
        message: BoardInfo | str | None = None
        if body[0] == INFO:
            message = parse_info(body)
        elif body[0] == TEXT:
            message = body[1:].decode("utf-8", errors="replace")
        if message is None:
            self._unknown += 1
        else:
            self._messages.append((place, message))

    def _add_data(self, bodies: Rows, places: NDArray[np.intp]) -> None:
        count, length = bodies.shape
        n, odd_byte = divmod(length - DATA_HEAD.size, 2)
        if n < 1 or odd_byte:
            self._unknown += count
            return
        masks = bodies[:, 8]
        inputs = _BITS[masks]
        is_known = (bodies[:, 7] == n) & (inputs > 0) & (n % np.maximum(inputs, 1) == 0)
        self._unknown += count - int(np.count_nonzero(is_known))
        for mask in np.unique(masks[is_known]).tolist():
            chosen = is_known & (masks == mask)
            self._data.append((bodies, places) if chosen.all() else (bodies[chosen], places[chosen]))

    def batch(self, after: NDArray[np.int64]) -> PacketBatch:
        """Return everything in the order of arrival; `after` is how many bytes follow each block."""
        self._messages.sort(key=lambda entry: entry[0])
        return PacketBatch(
            runs=tuple(self._runs(after)),
            infos=tuple(m for _, m in self._messages if isinstance(m, BoardInfo)),
            texts=tuple(m for _, m in self._messages if isinstance(m, str)),
            damaged=len(self._damaged),
            unknown=self._unknown,
        )

    def _runs(self, after: NDArray[np.int64]) -> list[PacketRun]:
        if len(self._data) <= 1:
            return [_run(bodies, after[places]) for bodies, places in self._data]
        packets = [
            (place, body)
            for bodies, places in self._data
            for place, body in zip(places.tolist(), bodies, strict=True)
        ]
        packets.sort(key=lambda packet: packet[0])
        return [
            _run(np.stack([body for _, body in part]), after[[place for place, _ in part]])
            for part in (list(group) for _, group in groupby(packets, lambda packet: _shape(packet[1])))
        ]


def _shape(body: NDArray[np.uint8]) -> tuple[int, int]:
    return body.size, int(body[8])


def _run(bodies: Rows, bytes_after: NDArray[np.int64]) -> PacketRun:
    """Take apart the bodies of data packets of one length and one mask."""
    mask = int(bodies[0, 8])
    return PacketRun(
        mask=mask,
        sequence=_column(bodies, 1, 3, "<u2").astype(np.uint16),
        ticks=_column(bodies, 3, 7, "<u4").astype(np.uint32),
        codes=np.ascontiguousarray(bodies[:, DATA_HEAD.size :])
        .view("<i2")
        .astype(np.int16, copy=False)
        .reshape(len(bodies), -1, mask.bit_count()),
        range_code=bodies[:, 9].copy(),
        flags=bodies[:, 10].copy(),
        bytes_after=bytes_after,
    )


def _column(bodies: Rows, begin: int, end: int, form: str) -> NDArray[np.generic]:
    return np.ascontiguousarray(bodies[:, begin:end]).view(form)[:, 0]


def _has_right_check(payloads: Rows, body_size: int) -> NDArray[np.bool_]:
    """Return whether the CRC-16 of each payload is right: from uint8, shape (m, length), bool, shape (m,)."""
    count, length = payloads.shape
    flat = payloads.tobytes()
    check = binascii.crc_hqx
    checks = [check(flat[begin : begin + body_size], 0xFFFF) for begin in range(0, count * length, length)]
    is_right: NDArray[np.bool_] = np.array(checks, np.uint16) == _column(payloads, body_size, length, "<u2")
    return is_right
