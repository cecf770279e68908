"""Packets: the check values of the reference, and what no damage may ever do."""

from __future__ import annotations

import binascii
import zlib

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drivers.formats import cobs
from drivers.formats.packet import (
    RANGE_STEPS_V,
    BoardInfo,
    body_length,
    encode_data,
    encode_info,
    encode_text,
    opened,
    parse_info,
)
from drivers.formats.packet_stream import PacketBatch, PacketDecoder

WIRE = [
    (
        (0, 0, [0], 2, 0),
        "02 01 01 01 01 01 01 04 01 01 02 01 01 03 F6 6F 00",
        "01 0000 00000000 01 01 02 00 0000",
        0x6FF6,
    ),
    (
        (1, 1_000_000, [16000, -1], 1, 0),
        "03 01 01 04 40 42 0F 04 02 01 01 07 80 3E FF FF 3D 98 00",
        "01 0100 40420F00 02 01 01 00 803E FFFF",
        0x983D,
    ),
    (
        (65535, 0xFFFFFFF0, [32767, -32768, 0], 2, 1),
        "0E 01 FF FF F0 FF FF FF 03 01 02 01 FF 7F 02 80 01 03 4B 71 00",
        "01 FFFF F0FFFFFF 03 01 02 01 FF7F 0080 0000",
        0x714B,
    ),
]
"""The worked packets: (sequence, ticks, codes, range code, flags), bytes on the wire, body, CRC."""


def crc16_bit_by_bit(data: bytes) -> int:
    """CRC-16/IBM-3740 written from its parameters: polynomial 1021, initial FFFF, highest bit first."""
    register = 0xFFFF
    for byte in data:
        register ^= byte << 8
        for _ in range(8):
            register = (register << 1 ^ (0x1021 if register & 0x8000 else 0)) & 0xFFFF
    return register


def data_of(batch: PacketBatch) -> list[tuple[int, int, int, list[int], int, int]]:
    """Each data packet as (sequence, ticks, mask, codes in the order of the wire, range code, flags)."""
    return [
        (int(run.sequence[k]), int(run.ticks[k]), run.mask, run.codes[k].ravel().tolist(),
         int(run.range_code[k]), int(run.flags[k]))
        for run in batch.runs
        for k in range(len(run))
    ]  # fmt: skip


def joined(batches: list[PacketBatch]) -> tuple[object, ...]:
    return (
        [packet for batch in batches for packet in data_of(batch)],
        [info for batch in batches for info in batch.infos],
        [text for batch in batches for text in batch.texts],
        sum(batch.damaged for batch in batches),
        sum(batch.unknown for batch in batches),
    )


class TestCheckValues:
    @pytest.mark.parametrize(("data", "crc"), [(b"123456789", 0x29B1), (b"", 0xFFFF), (b"\0", 0xE1F0)])
    def test_crc_16_of_the_catalogue(self, data: bytes, crc: int):
        """Check value 29B1 of CRC-16/IBM-3740 in the catalogue of parametrised CRCs (G. Cook)."""
        assert binascii.crc_hqx(data, 0xFFFF) == crc == crc16_bit_by_bit(data)

    def test_crc_32_of_the_catalogue(self):
        """Check value CBF43926 of CRC-32/ISO-HDLC in the same catalogue."""
        assert zlib.crc32(b"123456789") == 0xCBF43926

    @pytest.mark.parametrize(("fields", "wire", "body", "crc"), WIRE)
    def test_worked_packets(
        self, fields: tuple[int, int, list[int], int, int], wire: str, body: str, crc: int
    ):
        sequence, ticks, codes, range_code, flags = fields
        sent = encode_data(sequence, ticks, codes, mask=1, range_code=range_code, flags=flags)
        assert sent == bytes.fromhex(wire)
        inside = cobs.decode(sent[:-1])
        assert inside == bytes.fromhex(body) + crc.to_bytes(2, "little")
        assert opened(inside) == bytes.fromhex(body)
        assert crc16_bit_by_bit(bytes.fromhex(body)) == crc
        batch = PacketDecoder().feed(sent)
        assert data_of(batch) == [(sequence, ticks, 1, codes, range_code, flags)]
        assert batch.damaged == 0

    def test_thirty_two_codes_are_79_bytes_and_one_is_17(self):
        """Section 4 of the reference: bytes per packet on the wire."""
        assert len(encode_data(0, 0, [1] * 32, mask=1, range_code=2)) == 79
        assert len(encode_data(0, 0, [1], mask=1, range_code=2)) == 17

    def test_codes_of_the_16_bit_converter(self):
        """Texas Instruments SBAS444 table 3: full scale / 2**15 for 6.144 ... 0.256 V."""
        for code, full_scale_V in enumerate([6.144, 4.096, 2.048, 1.024, 0.512, 0.256]):
            assert RANGE_STEPS_V[code] == pytest.approx(full_scale_V / 2**15, rel=1e-15)


class TestCheckChoice:
    @pytest.mark.parametrize(
        ("payload", "body"),
        [(2, None), (3, 1), (502, 500), (503, None), (504, None), (505, 501), (527, 523)],
    )
    def test_the_length_tells_which_check_it_is(self, payload: int, body: int | None):
        assert body_length(payload) == body

    @pytest.mark.parametrize(("n", "size"), [(244, 2), (245, 4), (255, 4)])
    def test_more_than_500_bytes_get_four_of_check(self, n: int, size: int):
        sent = encode_data(0, 0, [1000] * n, mask=1, range_code=2)
        inside = cobs.decode(sent[:-1])
        assert inside is not None
        assert len(inside) == 11 + 2 * n + size
        body = inside[:-size]
        check = crc16_bit_by_bit(body) if size == 2 else zlib.crc32(body)
        assert inside[-size:] == check.to_bytes(size, "little")
        assert data_of(PacketDecoder().feed(sent))[0][3] == [1000] * n


class TestMessages:
    INFO = BoardInfo(
        ticks_per_s=1_000_000,
        sample_ticks=1163,
        dropped=7,
        steps_V={2: 62.5e-6, 5: 7.8125e-6, 9: 4.8828125e-3},
        gains={0: 20.0, 2: 1.000123},
        offsets_V={0: -0.003762, 2: 0.0},
    )

    def test_info_comes_back_exactly(self):
        assert PacketDecoder().feed(encode_info(self.INFO)).infos == (self.INFO,)

    def test_text_comes_back(self):
        assert PacketDecoder().feed(encode_text("Board 1, ±2 V")).texts == ("Board 1, ±2 V",)

    @given(st.binary(max_size=60))
    def test_info_of_any_content_never_raises(self, content: bytes):
        info = parse_info(b"\x02" + content)
        assert info is None or info.ticks_per_s > 0

    @pytest.mark.parametrize(
        "body", [b"\x04abc", b"\x01", b"\x01" + bytes(11), b"\x02\x02" + bytes(20), b"\x02"]
    )
    def test_sound_packets_of_unknown_form_are_counted(self, body: bytes):
        sent = cobs.encode(body + crc16_bit_by_bit(body).to_bytes(2, "little")) + b"\0"
        for copies in (1, 20):  # single blocks and rows take different ways
            batch = PacketDecoder().feed(sent * copies)
            assert (batch.unknown, batch.damaged, batch.runs) == (copies, 0, ())

    @pytest.mark.parametrize(("n", "mask"), [(3, 0b11), (4, 0), (3, 0b101)])
    def test_codes_that_do_not_fill_the_channels_are_unknown(self, n: int, mask: int):
        sent = encode_data(0, 0, [1] * n, mask=mask, range_code=2)
        assert PacketDecoder().feed(sent * 20).unknown == 20

    def test_channels_are_interleaved(self):
        run = PacketDecoder().feed(encode_data(0, 0, [1, 2, 3, 4, 5, 6], mask=0b1010, range_code=2)).runs[0]
        assert run.mask == 0b1010
        assert run.codes.tolist() == [[[1, 2], [3, 4], [5, 6]]]


masks = st.sampled_from([1, 0b11, 0b100, 0b111, 0b10000001])
code = st.sampled_from([0, 1, -1, 255, 256, 32767, -32768, 9000])


@st.composite
def data_packets(draw: st.DrawFn) -> tuple[int, int, int, list[int], int, int]:
    mask = draw(masks)
    instants = draw(st.sampled_from([1, 1, 2, 2, 3, 32]))
    codes = draw(st.lists(code, min_size=instants * mask.bit_count(), max_size=instants * mask.bit_count()))
    return (
        draw(st.integers(0, 65535)), draw(st.integers(0, 2**32 - 1)), mask, codes,
        draw(st.integers(0, 255)), draw(st.integers(0, 255)),
    )  # fmt: skip


def wire(packet: tuple[int, int, int, list[int], int, int]) -> bytes:
    sequence, ticks, mask, codes, range_code, flags = packet
    return encode_data(sequence, ticks, codes, mask=mask, range_code=range_code, flags=flags)


def split_at(stream: bytes, cuts: list[int]) -> list[bytes]:
    places = sorted({cut % (len(stream) + 1) for cut in cuts})
    return [stream[a:b] for a, b in zip([0, *places], [*places, len(stream)], strict=True)]


class TestAnyStream:
    @given(st.lists(data_packets(), max_size=30))
    def test_every_packet_comes_back(self, packets: list[tuple[int, int, int, list[int], int, int]]):
        decoder = PacketDecoder()
        batch = decoder.feed(b"".join(map(wire, packets)))
        assert data_of(batch) == packets
        assert (batch.damaged, batch.unknown) == (0, 0)
        assert decoder.packets == len(packets)
        assert decoder.bytes_explained == decoder.bytes_taken

    @given(
        st.lists(st.one_of(data_packets().map(wire), st.binary(max_size=30)), max_size=25),
        st.lists(st.integers(0, 10_000), max_size=12),
    )
    def test_pieces_of_any_size_give_the_same(self, parts: list[bytes], cuts: list[int]):
        parts = [*parts, encode_info(TestMessages.INFO), encode_text("hello"), b"x" * 1200, b"\0"]
        stream = b"".join(parts)
        whole = PacketDecoder()
        decoder = PacketDecoder()
        assert joined([decoder.feed(piece) for piece in split_at(stream, cuts)]) == joined(
            [whole.feed(stream)]
        )
        assert decoder.packets == whole.packets

    @pytest.mark.parametrize("size", [1, 7, 78, 79, 80, 500])
    def test_equal_packets_in_pieces(self, size: int):
        """Long enough that whole rows of packets are taken apart together."""
        packets = [(k, 320 * k, 1, list(range(k, k + 32)), 2, 0) for k in range(40)]
        stream = b"".join(map(wire, packets))
        decoder = PacketDecoder()
        pieces = [stream[a : a + size] for a in range(0, len(stream), size)]
        assert joined([decoder.feed(piece) for piece in pieces])[0] == packets

    @given(
        st.lists(data_packets(), min_size=1, max_size=12), st.binary(max_size=20).filter(lambda b: 0 not in b)
    )
    def test_bytes_after_are_counted(
        self, packets: list[tuple[int, int, int, list[int], int, int]], tail: bytes
    ):
        wires = [wire(packet) for packet in packets]
        batch = PacketDecoder().feed(b"".join(wires) + tail)
        after = [int(count) for run in batch.runs for count in run.bytes_after]
        assert after == [sum(map(len, wires[k + 1 :])) + len(tail) for k in range(len(wires))]

    @given(st.binary(max_size=2000))
    def test_no_byte_stream_raises(self, data: bytes):
        decoder = PacketDecoder()
        batch = decoder.feed(data)
        assert decoder.packets == len(data_of(batch)) + len(batch.infos) + len(batch.texts) + batch.unknown

    def test_random_bytes_give_less_than_one_packet_in_a_megabyte(self):
        """About 1 block in 256 bytes, of which 2**-16 has a right check by chance: 0.06 a megabyte."""
        noise = np.random.default_rng(6).integers(0, 256, 3_000_000, dtype=np.uint8).tobytes()
        decoder = PacketDecoder()
        decoder.feed(noise)
        assert decoder.packets < 3

    def test_an_endless_block_is_one_damaged_block(self):
        decoder = PacketDecoder()
        for _ in range(1000):
            assert decoder.feed(b"\x05" * 1000) == PacketBatch()
        assert decoder.feed(b"\0").damaged == 0, "the first block may have begun before us"
        assert decoder.feed(b"\x05" * 2000 + b"\0").damaged == 1


class TestDamage:
    """One damaged byte: what is accepted was sent."""

    SENT = [bytes.fromhex(sent) for _, sent, _, _ in WIRE] + [
        encode_data(5, 123456, list(range(9000, 9032)), mask=1, range_code=2)
    ]

    def accepted(self, stream: bytes) -> list[object]:
        return list(data_of(PacketDecoder().feed(b"\0" + stream + b"\0")))

    @pytest.mark.parametrize("sent", SENT, ids=len)
    def test_every_deleted_byte_and_every_flipped_bit(self, sent: bytes):
        truth = self.accepted(sent)
        for place in range(len(sent)):
            for stream in [
                sent[:place] + sent[place + 1 :],
                *(sent[:place] + bytes([sent[place] ^ 1 << bit]) + sent[place + 1 :] for bit in range(8)),
            ]:
                assert self.accepted(stream) in ([], truth)

    @settings(derandomize=True)  # a check of 16 bits misses one in 65536 of the worst kinds of damage
    @given(data_packets(), data_packets(), st.data())
    def test_a_deleted_or_changed_byte_never_makes_another_packet(self, one, other, data):
        stream = wire(one) + wire(other)
        place = data.draw(st.integers(0, len(stream) - 1))
        damage = data.draw(st.binary(max_size=1))
        for packet in self.accepted(stream[:place] + damage + stream[place + 1 :]):
            assert packet in (one, other)

    def test_damage_in_a_row_of_packets_costs_those_packets_only(self):
        packets = [(k, 320 * k, 1, list(range(k, k + 32)), 2, 0) for k in range(40)]
        wires = [bytearray(wire(packet)) for packet in packets]
        wires[7][20] ^= 0x10
        del wires[20][40]
        del wires[30][-1]  # the zero that ends it: the next one is lost with it
        batch = PacketDecoder().feed(b"".join(map(bytes, wires)))
        lost = {7, 20, 30, 31}
        assert data_of(batch) == [packet for k, packet in enumerate(packets) if k not in lost]
        assert batch.damaged == 3
