"""Frames of handheld meters: every frame of the reference tables, and what no byte stream may ever do.

Sources of the layouts, by format:

* lcd14: interface note "VC820_VC840_VC860 Protocol" Rev 1.0 (Voltcraft); the bit order is from memory.
* ascii14: from memory (Fortune FS9922-DMM3/DMM4); no document was at hand.
* digit11: EZ Digital DM-530SRS manual p. 30, Ideal ND2385 guide p. 18-20, Cyrustek ES51960 data sheet p. 16;
  opt2 of profile A is from memory.
* digit14: from memory (Cyrustek ES51922); no document was at hand.
* stx16: Lutron DM-9962SD manual p. 17; the coding of digits is from memory.

No frame here was captured from a real meter: they were written from those tables.
"""

from __future__ import annotations

import math
from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from drivers.formats.frame import FrameDecoder, FrameFormat, FrameReading
from drivers.formats.handheld import HANDHELD_FORMATS
from drivers.samples import Quality
from drivers.simulated.frame_encoder import ENCODED_KINDS, encode_frame, with_odd_parity

GOOD, HOLD, LOW = Quality.GOOD, Quality.HOLD, Quality.LOW_BATTERY
OVER = Quality.OVERLOAD

VALUES = [
    ("lcd14", "17 20 35 4D 5B 61 7F 82 97 A0 B0 C0 D4 E0", 1.234, GOOD),
    ("lcd14", "17 2F 3D 43 5E 6F 7E 81 95 A0 B0 C0 D4 E0", -5.67, GOOD),
    ("lcd14", "15 21 3F 43 5F 63 7F 8B 9F A0 B0 C0 D4 E0", 399.9, GOOD),
    ("lcd14", "17 27 3D 47 5F 67 7D 88 95 A0 B8 C0 D4 E0", 0.0801, GOOD),
    ("lcd14", "17 20 30 47 5D 6E 78 80 90 A0 B0 C0 D4 E0", math.inf, OVER),
    ("lcd14", "17 20 35 4B 5E 67 7D 87 9D A0 B0 C1 D5 E0", 1.5, HOLD | LOW),
    ("ascii14", "2B 31 32 33 34 20 31 31 00 00 80 0C 0D 0A", 1.234, GOOD),
    ("ascii14", "2D 30 35 36 37 20 32 31 00 00 80 05 0D 0A", -5.67, GOOD),
    ("ascii14", "2B 30 38 30 31 20 34 31 00 40 80 08 0D 0A", 0.0801, GOOD),
    ("ascii14", "2B 3F 30 3A 3F 20 32 31 00 00 80 3C 0D 0A", math.inf, OVER),
    ("ascii14", "2B 31 35 30 30 20 31 33 04 00 80 0F 0D 0A", 1.5, HOLD | LOW),
    ("digit11", "31 31 32 33 34 3B 30 30 3A 0D 0A", 1.234, GOOD),
    ("digit11", "32 30 35 36 37 3B 34 30 3A 0D 0A", -5.67, GOOD),
    ("digit11", "30 30 38 30 31 3B 30 30 3A 0D 0A", 0.0801, GOOD),
    ("digit11", "33 33 36 30 30 3B 30 30 38 0D 0A", 360.0, GOOD),
    ("digit11", "32 34 30 30 30 3B 31 30 3A 0D 0A", math.inf, OVER),
    ("digit11", "31 31 35 30 30 3B 32 30 3A 0D 0A", 1.5, LOW),
    ("digit14", "30 31 32 33 34 35 3B 30 30 30 3A 30 0D 0A", 1.2345, GOOD),
    ("digit14", "31 31 39 38 37 36 3B 30 30 30 3A 30 0D 0A", 19.876, GOOD),
    ("digit14", "32 30 33 36 35 30 3B 34 30 30 3A 30 0D 0A", -36.5, GOOD),
    ("digit14", "34 31 32 33 34 35 3B 30 30 30 38 30 0D 0A", 0.12345, GOOD),
    ("digit14", "31 32 32 30 30 30 3B 31 30 30 3A 30 0D 0A", math.inf, OVER),
    ("digit14", "30 31 35 30 30 30 3B 32 30 30 3A 32 0D 0A", 1.5, HOLD | LOW),
    ("stx16", "02 34 31 33 34 30 33 30 30 30 30 31 32 33 34 0D", 1.234, GOOD),
    ("stx16", "02 34 31 33 34 31 32 30 30 30 30 30 35 36 37 0D", -5.67, GOOD),
    ("stx16", "02 34 31 31 38 30 31 30 30 30 30 30 38 30 31 0D", 0.0801, GOOD),
    ("stx16", "02 34 31 33 34 30 31 30 30 30 30 30 33 36 30 0D", 36.0, GOOD),
]
"""The tables of accepted frames: kind, bytes, volts, quality."""

REFUSALS = [
    ("lcd14", "1B 25 3B 41 5F 67 7D 8F 9D A0 B0 C0 D4 E0", "AC volts"),
    ("lcd14", "17 27 3D 4F 5D 60 75 87 9D A0 B0 C0 D8 E0", "a current"),
    ("ascii14", "2B 32 33 30 30 20 34 29 00 00 80 17 0D 0A", "AC volts"),
    ("ascii14", "2B 30 31 32 33 20 34 20 00 20 20 01 0D 0A", "a resistance"),
    ("digit11", "32 32 33 30 30 3B 30 30 36 0D 0A", "AC volts"),
    ("digit11", "30 30 31 32 33 33 30 30 32 0D 0A", "a resistance"),
    ("digit14", "32 32 33 30 30 30 3B 30 30 30 36 30 0D 0A", "AC volts"),
    ("stx16", "02 34 31 35 30 30 31 30 30 30 30 32 33 30 30 0D", "AC volts"),
    ("stx16", "02 34 31 33 36 30 32 30 30 30 30 30 31 35 30 0D", "a current"),
]
"""The tables of refused frames: kind, bytes, what the user is told."""


def decoder(kind: str, column: str = "") -> FrameDecoder:
    return FrameDecoder(HANDHELD_FORMATS[kind][column])


def read(kind: str, frame: str | bytes, column: str = "") -> FrameReading:
    """Return the one reading of one frame."""
    raw = bytes.fromhex(frame) if isinstance(frame, str) else frame
    (reading,) = decoder(kind, column).feed(raw)
    assert reading.raw == raw
    return reading


def changed(frame: str, place: int, byte: int) -> bytes:
    raw = bytearray.fromhex(frame)
    raw[place] = byte
    return bytes(raw)


class TestTheTables:
    @pytest.mark.parametrize(("kind", "frame", "value", "quality"), VALUES)
    def test_an_accepted_frame(self, kind: str, frame: str, value: float, quality: Quality):
        reading = read(kind, frame)
        assert reading.value == value
        assert reading.quality == quality
        assert not reading.text

    @pytest.mark.parametrize(("kind", "frame", "words"), REFUSALS)
    def test_a_refused_frame_says_what_to_do(self, kind: str, frame: str, words: str):
        reading = read(kind, frame)
        assert reading.value is None
        assert reading.code == "not_dc_volts"
        assert (
            reading.text
            == f"The meter shows {words}. Turn the dial to DC volts (V⎓). Nothing is recorded until then."
        )

    def test_every_example_of_the_prose(self):
        """The "Worked" lines, whose digits are given in part, with the rest of their table's first frame."""
        assert read("lcd14", "17 20 35 4D 5B 61 7F 82 97 A0 B0 C0 D4 E0").shown == "1.234 V"
        assert read("ascii14", "2D 30 35 36 37 20 32 31 00 00 80 00 0D 0A").value == -5.67
        assert read("digit11", "32 30 35 36 37 3B 34 30 3A 0D 0A").shown == "−5.67 V"
        assert read("digit14", "31 31 39 38 37 36 3B 30 30 30 3A 30 0D 0A").shown == "19.876 V"
        assert read("stx16", "02 34 31 31 38 30 31 30 30 30 30 30 38 30 31 0D").shown == "80.1 mV"

    def test_the_second_display_is_read_only_when_it_is_chosen(self):
        frame = bytes.fromhex("02 34 32 33 34 30 33 30 30 30 30 31 35 30 30 0D")
        assert decoder("stx16").feed(frame) == []
        assert decoder("stx16", "1").feed(frame) == []
        assert read("stx16", frame, "2").value == 1.5

    @pytest.mark.parametrize(
        ("kind", "frame", "step_V"),
        [
            ("lcd14", "17 20 35 4D 5B 61 7F 82 97 A0 B0 C0 D4 E0", 0.001),
            ("ascii14", "2B 30 38 30 31 20 34 31 00 40 80 08 0D 0A", 0.0001),
            ("digit11", "33 33 36 30 30 3B 30 30 38 0D 0A", 0.1),
            ("digit14", "30 31 32 33 34 35 3B 30 30 30 3A 30 0D 0A", 0.0001),
            ("stx16", "02 34 31 33 34 31 32 30 30 30 30 30 35 36 37 0D", 0.01),
        ],
    )
    def test_the_size_of_a_count_is_told(self, kind: str, frame: str, step_V: float):
        assert read(kind, frame).step_V == step_V


class TestLcd14:
    FIRST = VALUES[0][1]

    def test_relative_is_refused(self):
        reading = read("lcd14", changed(self.FIRST, 11, 0xC2))
        assert (reading.value, reading.quality, reading.code) == (None, Quality.RELATIVE, "relative")

    @pytest.mark.parametrize("first", [0x1A, 0x1E])
    def test_signs_in_the_order_that_the_note_prints_are_not_guessed_at(self, first: int):
        """The note prints byte 0 as RS232 AUTO DC AC; a meter of that order would be misread."""
        reading = read("lcd14", changed(self.FIRST, 0, first))
        assert reading.value is None
        assert reading.code == "unknown_order"
        assert f"{first:02X} 20 35" in reading.text

    def test_two_points_and_blanks_among_digits_are_refused(self):
        assert read("lcd14", changed(self.FIRST, 5, 0x69)).code == "damaged"
        blank_inside = "17 20 35 48 50 61 7F 82 97 A0 B0 C0 D4 E0"
        assert read("lcd14", blank_inside).code == "damaged"
        blank_first = "17 20 30 4D 5B 61 7F 82 97 A0 B0 C0 D4 E0"
        assert read("lcd14", blank_first).value == 0.234

    @pytest.mark.parametrize("variant", [(0x26, 0x3E), (0x23, 0x35), (0x23, 0x37)])
    def test_shapes_that_no_frame_has_proved_are_refused(self, variant: tuple[int, int]):
        frame = changed(self.FIRST, 1, variant[0])
        assert read("lcd14", frame[:2] + bytes([variant[1]]) + frame[3:]).code == "damaged"

    @pytest.mark.parametrize(
        ("place", "byte", "words"),
        [(9, 0xA1, "diode"), (10, 0xB1, "continuity"), (10, 0xB4, "duty"), (11, 0xC8, "capacitance"),
         (11, 0xC4, "resistance"), (12, 0xD2, "frequency"), (12, 0xD0, "something other")],
    )  # fmt: skip
    def test_every_other_mode_is_named(self, place: int, byte: int, words: str):
        assert words in read("lcd14", changed(self.FIRST, place, byte)).text

    @pytest.mark.parametrize(("place", "byte"), [(9, 0xA8), (9, 0xA4), (9, 0xA2), (10, 0xB2)])
    def test_kilovolts_and_microvolts_are_refused(self, place: int, byte: int):
        assert read("lcd14", changed(self.FIRST, place, byte)).value is None

    def test_minus_overload(self):
        assert read("lcd14", "17 28 30 47 5D 6E 78 80 90 A0 B0 C0 D4 E0").value == -math.inf


class TestAscii14:
    FIRST = VALUES[6][1]

    def test_signs_that_equal_line_ends_do_not_cut_a_frame(self):
        frame = changed(self.FIRST, 11, 0x0A)
        readings = decoder("ascii14").feed(frame * 3)
        assert [reading.value for reading in readings] == [1.234] * 3

    @pytest.mark.parametrize(
        ("place", "byte", "words"),
        [(7, 0x39, "AC and DC"), (9, 0x04, "diode"), (9, 0x08, "continuity"), (9, 0x02, "duty"),
         (10, 0x40, "current"), (10, 0x08, "frequency"), (10, 0x04, "capacitance"), (10, 0x02, "temperature"),
         (10, 0x10, "gain"), (7, 0x21, "something other")],
    )  # fmt: skip
    def test_every_other_mode_is_named(self, place: int, byte: int, words: str):
        assert words in read("ascii14", changed(self.FIRST, place, byte)).text

    def test_relative_is_refused_and_extremes_are_held(self):
        assert read("ascii14", changed(self.FIRST, 7, 0x35)).code == "relative"
        assert read("ascii14", changed(self.FIRST, 8, 0x20)).quality == Quality.HOLD
        assert read("ascii14", changed(self.FIRST, 8, 0x10)).quality == Quality.HOLD

    @pytest.mark.parametrize(("place", "byte"), [(9, 0x80), (9, 0x20), (9, 0x10), (8, 0x02)])
    def test_other_prefixes_than_milli_are_refused(self, place: int, byte: int):
        assert read("ascii14", changed(self.FIRST, place, byte)).value is None


class TestParity:
    FIRST = VALUES[11][1]

    def test_the_documented_bytes_of_a_line_with_odd_parity(self):
        """The digit11 example of 7O1 as it arrives at 8N1 (recomputed bit by bit in the reference)."""
        sent = bytes.fromhex("31 31 32 33 34 3B 30 30 3A 0D 0A")
        seen = bytes.fromhex("31 31 32 B3 34 3B B0 B0 BA 0D 8A")
        assert with_odd_parity(sent) == seen
        reading = read("digit11", seen)
        assert (reading.value, reading.quality) == (1.234, Quality.GOOD)
        assert reading.raw == seen

    @pytest.mark.parametrize("place", range(11))
    def test_a_wrong_parity_bit_is_told_and_the_value_not_trusted(self, place: int):
        seen = bytearray(with_odd_parity(bytes.fromhex(self.FIRST)))
        seen[place] ^= 0x80
        assert read("digit11", bytes(seen)).quality == Quality.PARITY | Quality.SUSPECT

    @given(st.integers(0, 10), st.integers(0, 7))
    def test_no_single_flipped_bit_passes_for_good_under_parity(self, place: int, bit: int):
        seen = bytearray(with_odd_parity(bytes.fromhex(self.FIRST)))
        seen[place] ^= 1 << bit
        for reading in decoder("digit11").feed(bytes(seen)):
            assert reading.value is None or reading.quality & Quality.PARITY


class TestDigit11Profiles:
    def frame(self, option: int) -> bytes:
        return changed(VALUES[11][1], 8, option)

    @pytest.mark.parametrize(
        ("option", "in_a", "in_b"),
        [
            (0x3A, "volts", "volts"),  # A: DC AUTO; B: DC MAN
            (0x38, "volts", "volts"),  # A: DC manual
            (0x3C, "profile_needed", "volts"),  # A: AC and DC; B: DC AUTO
            (0x36, "not_dc_volts", "not_dc_volts"),  # A: AC AUTO
            (0x34, "not_dc_volts", "not_dc_volts"),  # B: AC AUTO
            (0x32, "not_dc_volts", "not_dc_volts"),  # B: AC MAN
            (0x3E, "profile_needed", "damaged"),  # A: AC and DC, AUTO; B: AUTO and MAN at once
        ],
    )
    def test_what_each_profile_makes_of_the_signs(self, option: int, in_a: str, in_b: str):
        for column, expected in (("", in_a), ("a", in_a), ("b", in_b)):
            reading = read("digit11", self.frame(option), column)
            assert (reading.code or "volts") == expected
            assert (reading.value == 1.234) == (expected == "volts")

    def test_the_remedy_names_the_key(self):
        assert "column=b" in read("digit11", self.frame(0x3C)).text

    def test_unknown_signs_are_told_but_the_value_kept(self):
        reading = read("digit11", changed(VALUES[11][1], 7, 0x34))
        assert reading.value == 1.234
        assert reading.code == "unknown_signs"

    def test_a_range_that_volts_do_not_have_is_refused(self):
        assert read("digit11", changed(VALUES[11][1], 0, 0x35)).code == "damaged"

    @pytest.mark.parametrize("function", [0x31, 0x32, 0x33, 0x35, 0x36, 0x39, 0x3D, 0x3F, 0x34])
    def test_no_other_function_becomes_volts(self, function: int):
        assert read("digit11", changed(VALUES[11][1], 5, function)).code == "not_dc_volts"


class TestDigit14:
    FIRST = VALUES[17][1]

    def test_relative_underload_and_other_modes_are_refused(self):
        assert read("digit14", changed(self.FIRST, 8, 0x32)).code == "relative"
        assert read("digit14", changed(self.FIRST, 9, 0x38)).code == "underload"
        assert "frequency" in read("digit14", changed(self.FIRST, 10, 0x3B)).text
        assert "AC and DC" in read("digit14", changed(self.FIRST, 10, 0x3C)).text
        assert "something other" in read("digit14", changed(self.FIRST, 6, 0x33)).text

    @pytest.mark.parametrize(("place", "byte"), [(8, 0x38), (8, 0x34), (8, 0x31), (9, 0x34), (9, 0x32)])
    def test_extremes_and_peaks_are_no_live_voltage(self, place: int, byte: int):
        assert read("digit14", changed(self.FIRST, place, byte)).quality == Quality.HOLD

    def test_more_counts_than_the_display_has_are_no_frame(self):
        assert decoder("digit14").feed(changed(self.FIRST, 1, 0x33)) == []


class TestStx16:
    def test_anything_but_digits_is_refused_with_a_guess_at_overload(self):
        reading = read("stx16", b"\x02413403     OL \r")
        assert reading.value is None
        assert reading.code == "no_digits"
        assert "OL" in reading.text


def all_formats() -> list[FrameFormat]:
    return [choice for columns in HANDHELD_FORMATS.values() for choice in columns.values()]


def stream(kind: str, values: list[float]) -> bytes:
    return b"".join(encode_frame(kind, value) for value in values)


some_voltages = st.lists(st.floats(-300, 300), min_size=1, max_size=6)
kinds = st.sampled_from(ENCODED_KINDS)


class TestAnyStream:
    @given(kinds, some_voltages, st.binary(max_size=30), st.data())
    def test_pieces_of_any_size_give_the_same_readings(self, kind, values, noise, data):
        whole = noise + stream(kind, values) + noise
        expected = [(r.raw, r.value, r.quality) for r in decoder(kind).feed(whole)]
        pieces, rest, got = decoder(kind), whole, []
        while rest:
            size = data.draw(st.integers(1, len(rest)))
            got += [(r.raw, r.value, r.quality) for r in pieces.feed(rest[:size])]
            rest = rest[size:]
        assert got == expected

    @given(kinds, st.integers(-3999, 3999), st.integers(1, 3))
    def test_what_a_display_can_show_comes_back_exactly(self, kind: str, counts: int, decimals: int):
        value = float(Fraction(counts, 10**decimals))
        assert read(kind, encode_frame(kind, value)).value == value

    @given(kinds, st.floats(-399, 399), st.booleans(), st.booleans())
    def test_signs_and_values_come_back(self, kind: str, value: float, is_held: bool, is_low: bool):
        reading = read(kind, encode_frame(kind, value, is_held=is_held, has_low_battery=is_low))
        assert reading.value == pytest.approx(value, abs=reading.step_V * 0.51)
        if kind not in ("digit11", "stx16"):
            assert bool(reading.quality & Quality.HOLD) == is_held
        if kind != "stx16":
            assert bool(reading.quality & Quality.LOW_BATTERY) == is_low

    @pytest.mark.parametrize("kind", ENCODED_KINDS)
    def test_ac_and_overload_are_encoded_too(self, kind: str):
        assert read(kind, encode_frame(kind, 2.0, is_ac=True)).code == "not_dc_volts"
        over = read(kind, encode_frame(kind, -math.inf))
        assert over.value == (None if kind == "stx16" else -math.inf)

    @given(kinds, some_voltages, st.binary(max_size=40))
    def test_a_decoder_finds_its_step_again(self, kind: str, values: list[float], noise: bytes):
        """After any noise no more than the first frame is lost."""
        readings = decoder(kind).feed(noise + stream(kind, [*values, 1.5, 1.25]))
        assert [reading.value for reading in readings][-1] == 1.25

    @given(kinds, some_voltages, st.data())
    def test_bytes_after_are_counted(self, kind: str, values: list[float], data: st.DataObject):
        tail = data.draw(st.binary(max_size=8))
        readings = decoder(kind).feed(stream(kind, values) + b"\0" + tail)
        assert readings[-1].bytes_after == 1 + len(tail)

    @given(st.binary(max_size=400))
    def test_no_byte_stream_raises(self, data: bytes):
        for choice in all_formats():
            seen = FrameDecoder(choice)
            readings = seen.feed(data)
            assert len(readings) <= seen.frames <= len(data) // choice.length
            assert seen.bytes_explained <= seen.bytes_taken == len(data)

    @given(kinds, st.binary(min_size=16, max_size=16))
    def test_no_frame_of_any_content_raises_or_gives_nonsense(self, kind: str, content: bytes):
        """Start from a sound frame so that the structure fits and the content is what is tried."""
        frame = bytearray(encode_frame(kind, 1.5))
        for place, byte in enumerate(content[: len(frame)]):
            keep = 0xF0 if kind == "lcd14" else 0x70 if kind.startswith("digit") else 0xFF
            frame[place] = (frame[place] & keep) | (byte & ~keep & 0xFF)
        for reading in decoder(kind).feed(bytes(frame)):
            assert reading.value is None or not math.isnan(reading.value)
            assert reading.value is not None or (reading.text and reading.code)

    @pytest.mark.parametrize("choice", all_formats(), ids=lambda choice: choice.name)
    def test_random_bytes_give_less_than_one_reading_in_a_megabyte(self, choice: FrameFormat):
        noise = np.random.default_rng(4).integers(0, 256, 3_000_000, dtype=np.uint8).tobytes()
        seen = FrameDecoder(choice)
        readings = seen.feed(noise)
        assert sum(reading.value is not None for reading in readings) < 3
        assert seen.frames < 3


class TestLinesOfDigits:
    """Lines of 9 and 12 digits have the structure of frames; they must not become volts."""

    @given(st.lists(st.from_regex(r"[0-9]{9}", fullmatch=True), min_size=1, max_size=20))
    def test_nine_digits_are_digit11_frames_but_never_volts(self, lines: list[str]):
        for column in ("a", "b"):
            seen = decoder("digit11", column)
            readings = seen.feed("".join(f"{line}\r\n" for line in lines).encode())
            assert seen.bytes_explained == seen.bytes_taken
            assert all(reading.value is None for reading in readings)

    @given(st.lists(st.from_regex(r"[0-9][0-2][0-9]{10}", fullmatch=True), min_size=1, max_size=20))
    def test_twelve_digits_are_both_but_never_volts(self, lines: list[str]):
        data = "".join(f"{line}\r\n" for line in lines).encode()
        for kind in ("digit11", "digit14"):
            assert all(reading.value is None for reading in decoder(kind).feed(data))
        assert decoder("digit14").feed(data)
