"""Lines that boards print: every form, every refusal, and bytes that were lost on the way."""

from __future__ import annotations

import math
from decimal import Decimal

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from drivers.formats.text import RefusedLine, TextDecoder, TextReading, TextRows
from drivers.formats.text_cells import Header, NotCells, Row, parse_cells, time_unit_of, voltage_unit_of
from drivers.formats.text_columns import BoardTime, ColumnRule
from drivers.samples import Quality


def decoder(column: str = "", **rule: bool) -> TextDecoder:
    return TextDecoder(ColumnRule(column, **rule))


def last(*lines: str, column: str = "", **rule: bool) -> TextReading | RefusedLine | None:
    """Feed each line three times, as a board goes on printing, and return what the last one gave."""
    text = "".join(f"{line}\r\n" * 3 for line in lines)
    results = decoder(column, **rule).feed(text.encode())
    return results[-1] if results else None


@pytest.mark.parametrize(
    ("line", "value", "time"),
    [
        ("1.2345", 1.2345, None),
        ("-1.2345", -1.2345, None),
        ("+.5", 0.5, None),
        ("1.2345E+00", 1.2345, None),
        ("1.2345 V", 1.2345, None),
        ("1234.5mV", 1.2345, None),
        ("1234 mV", 1.234, None),
        ("1,2345;", 1.2345, None),
        ("123456,1.2345", 1.2345, BoardTime(123456, "")),
        ("123456, 1.2345", 1.2345, BoardTime(123456, "")),
        ("123456;1,2345", 1.2345, BoardTime(123456, "")),
        ("123456;1.2345", 1.2345, BoardTime(123456, "")),
        ("123456\t1.2345", 1.2345, BoardTime(123456, "")),
        ("123456 1.2345", 1.2345, BoardTime(123456, "")),
        ("123456  1.2345 V", 1.2345, BoardTime(123456, "")),
        ("123456,1234.5 mV", 1.2345, BoardTime(123456, "")),
        ('{"t":123456,"v":1.2345}', 1.2345, BoardTime(123456, "")),
        ('{"ms":123456,"voltage":1.2345}', 1.2345, BoardTime(123456, "ms")),
        ('{"micros":123456,"Volt":1.2345,"state":"ok"}', 1.2345, BoardTime(123456, "us")),
        ('{"t":12.5,"volts":1.2345}', 1.2345, BoardTime(12_500_000, "us")),
        ('{"v":1.2345,"n":[1,2]}', 1.2345, None),
        ('{"mV":1234}', 1.234, None),
        ("U=1.2345V I=0.31A", 1.2345, None),
        ("U = 1.2345 V I = 0.31 A", 1.2345, None),
        ("U=1.2345, I=0.31", 1.2345, None),
        ("t=123456 U=1234.5mV", 1.2345, BoardTime(123456, "")),
        ("voltage: 1.2345", 1.2345, None),
    ],
)
def test_a_line_and_its_meaning(line: str, value: float, time: BoardTime | None):
    reading = last(line)
    assert isinstance(reading, TextReading)
    assert reading.value == value
    assert reading.time == time
    assert reading.quality == Quality.GOOD
    assert reading.raw == line.encode()


@pytest.mark.parametrize(
    ("header", "line", "value", "time"),
    [
        ("t_ms,v", "123456,1.2345", 1.2345, BoardTime(123456, "ms")),
        ("time_us\tcell_voltage_V\ttemp", "123456\t1.2345\t25.3", 1.2345, BoardTime(123456, "us")),
        ("time (s);voltage (V)", "12,5;1,2345", 1.2345, BoardTime(12_500_000, "us")),
        ("millis voltage_mV", "123456 1234.5", 1.2345, BoardTime(123456, "ms")),
    ],
)
def test_a_header_names_the_columns(header: str, line: str, value: float, time: BoardTime):
    reading = last(header, line)
    assert isinstance(reading, TextReading)
    assert (reading.value, reading.time) == (value, time)


@pytest.mark.parametrize(
    ("word", "value"),
    [
        ("OL", math.inf),
        ("inf", math.inf),
        ("+Inf", math.inf),
        ("ovf", math.inf),
        ("-inf", -math.inf),
        ("-OL", -math.inf),
    ],
)
def test_overload_is_infinite_and_flagged(word: str, value: float):
    for reading in (last(word), last("123,1.5", f"123,{word}"), last(f'{{"v":"{word}"}}')):
        assert isinstance(reading, TextReading)
        assert reading.value == value
        assert reading.quality == Quality.OVERLOAD


@pytest.mark.parametrize("line", ["nan", "123,NaN", '{"v":NaN}', '{"v":null}', "U=nan"])
def test_no_value_is_no_reading(line: str):
    refused = last(line)
    assert isinstance(refused, RefusedLine)
    assert refused.code == "no_value"


@pytest.mark.parametrize(
    ("line", "code", "remedy"),
    [
        ("1,2345", "comma_ambiguous", "column=2"),
        ("-1,2345", "comma_ambiguous", "column=2"),
        ("1,2345 V", "comma_ambiguous", "column=2"),
        ("123456 1,2345", "comma_ambiguous", "column=2"),
        ("123456\t1,2345", "comma_ambiguous", "column=2"),
        ("U=1,2345V", "comma_ambiguous", "column=2"),
        ("512", "raw_counts", "scale="),
        ("123456;512", "raw_counts", "scale="),
        ("1,2,3", "raw_counts", "scale="),
        ("A0: 512", "raw_counts", "scale="),
        ('{"t":123456,"v":512}', "raw_counts", "scale="),
        ("123456,1.2345,36.1", "column_needed", "column=2"),
        ("1.2,1.3", "column_needed", "column=1"),
        ("U=1.2345V Ustack=36.1V", "column_needed", "column=U"),
        ('{"t":123456,"ch0":1.2345}', "column_needed", "column=ch0"),
        ("0.31A", "not_volts", "volts"),
        ("I=0.31A", "not_volts", "volts"),
    ],
)
def test_what_only_the_user_can_tell_is_refused_with_the_key_that_tells_it(line: str, code: str, remedy: str):
    refused = last(line)
    assert isinstance(refused, RefusedLine)
    assert refused.code == code
    assert remedy in refused.why


@pytest.mark.parametrize(
    ("line", "column", "value"),
    [
        ("123456,1.2345,36.1", "3", 36.1),
        ("1.2,1.3", "1", 1.2),
        ("U=1.2345V Ustack=36.1V", "Ustack", 36.1),
        ('{"t":123456,"ch0":1.2345}', "ch0", 1.2345),
        ("123456,512,1.5", "3", 1.5),
    ],
)
def test_the_chosen_column(line: str, column: str, value: float):
    reading = last(line, column=column)
    assert isinstance(reading, TextReading)
    assert reading.value == value


@pytest.mark.parametrize(
    ("line", "column", "value"),
    [("512", "", 512.0), ("123456;512", "", 512.0), ("123456,512", "2", 512.0), ("A0: 512", "A0", 512.0)],
)
def test_counts_are_taken_once_there_is_a_scale(line: str, column: str, value: float):
    reading = last(line, column=column, takes_counts=True)
    assert isinstance(reading, TextReading)
    assert reading.value == value


def test_a_scale_alone_does_not_settle_the_comma():
    refused = last("1,2345", takes_counts=True)
    assert isinstance(refused, RefusedLine)
    assert refused.code == "comma_ambiguous"


@pytest.mark.parametrize(
    ("column", "code", "known"),
    [
        ("4", "column_missing", "1 to 2"),
        ("0", "column_missing", "1 to 2"),
        ("9" * 5000, "header_missing", "1 to 2"),
        ("x", "header_missing", "1 to 2"),
    ],
)
def test_a_column_that_is_not_there(column: str, code: str, known: str):
    refused = last("123456,1.2345", column=column)
    assert isinstance(refused, RefusedLine)
    assert refused.code == code
    assert known in refused.why


def test_a_temperature_may_have_its_own_unit():
    reading = last("U=1.2V T=25C", column="T", takes_any_unit=True, takes_counts=True)
    assert isinstance(reading, TextReading)
    assert reading.value == 25.0


@pytest.mark.parametrize(
    "line",
    [
        "ADC ready v1.2",
        "ets Jun  8 2016 00:22:57",
        "12:34:56",
        "hello",
        "V",
        "ms",
        "1.2.3",
        "--",
        "{",
        '{"v":',
        "0x1F",
        "1.5 2a3",
    ],
)
def test_a_greeting_is_no_reading_and_no_header(line: str):
    assert isinstance(parse_cells(line), NotCells)


def test_a_byte_order_mark_is_dropped():
    assert [r.value for r in readings("\ufeff1.5\n1.5\n1.6\n")] == [1.6]


def readings(text: str, **rule: bool) -> list[TextReading]:
    return [r for r in decoder(**rule).feed(text.encode()) if isinstance(r, TextReading)]


def test_the_first_line_is_never_a_reading():
    """Its beginning may be missing: 1.2345 may be the end of 31.2345."""
    assert [r.value for r in readings("1.2345\n31.5\n31.6\n")] == [31.6]


def test_a_line_that_lost_its_separator_is_refused():
    good = "".join(f"{1000 + k},1.2345\n" for k in range(5))
    results = decoder().feed((good + "10051.2345\n" + good).encode())
    assert [r.code for r in results if isinstance(r, RefusedLine)] == ["damaged"]
    assert {r.value for r in results if isinstance(r, TextReading)} == {1.2345}


def test_two_lines_run_together_are_refused():
    good = "".join(f"{1000 + k},1.2345\n" for k in range(5))
    results = decoder().feed((good + "1005,1.23451006,1.2346\n" + good).encode())
    assert {r.value for r in results if isinstance(r, TextReading)} == {1.2345}


def test_a_board_may_change_its_form():
    values = [r.value for r in readings("1.5\n" * 5 + "10,1.6\n" * 5)]
    assert values == [1.5] * 3 + [1.6] * 4


SETTLED = "".join(f"{1000 + k} 1.5000 0.0500\n" for k in range(20))


@pytest.mark.parametrize("others", [2, 3, 50])
def test_a_column_left_out_never_moves_another_into_its_place(others: int):
    """With blanks between, the third column then stands where the second was."""
    left_out = "".join(f"{1020 + k} 0.0500\n" for k in range(others))
    results = decoder("2").feed((SETTLED + left_out + SETTLED).encode())
    assert {r.value for r in results if isinstance(r, TextReading)} == {1.5}
    codes = {r.code for r in results if isinstance(r, RefusedLine)}
    assert codes == ({"damaged", "columns_changed"} if others > 2 else {"damaged"})


@pytest.mark.parametrize("separator", [",", ";", "\t"])
@pytest.mark.parametrize(("column", "expected"), [("2", {1.5}), ("3", {0.05})])
def test_nothing_between_two_separators_is_no_value_of_that_column(
    separator: str, column: str, expected: set[float]
):
    lines = [("1", "1.5000", "0.0500"), ("2", "", "0.0500"), ("3", "1.5000", ""), ("4", "", "")] * 10
    text = "".join(separator.join(line) + "\n" for line in lines)
    results = decoder(column).feed(text.encode())
    readings = [r.value for r in results if isinstance(r, TextReading)]
    assert set(readings) == expected
    assert len(readings) >= 18
    assert {r.code for r in results if isinstance(r, RefusedLine)} == {"no_value"}


def test_a_separator_behind_the_last_column_is_no_column_to_ask_for():
    assert [r.value for r in readings("12,1.5000,\n" * 4)] == [1.5, 1.5]


def test_two_names_on_lines_of_their_own_are_never_taken_for_one_voltage():
    results = decoder().feed(b"V1=1.5000\nV2=0.0500\n" * 20)
    assert not [r for r in results if isinstance(r, TextReading)]
    assert {r.code for r in results if isinstance(r, RefusedLine)} == {"column_needed"}
    assert "V1, V2" in next(r.why for r in results if isinstance(r, RefusedLine))


@pytest.mark.parametrize(
    ("column", "line"), [("", '{"v_ref":5.0}'), ("2", '{"t":7,"volts":5.0}'), ("", "U2=5V")]
)
def test_where_names_tell_another_name_is_never_recorded_instead(column: str, line: str):
    usual = '{"t":7,"v":1.5}' if line.startswith("{") else "U=1.5V"
    results = decoder(column).feed((f"{usual}\n" * 20 + f"{line}\n" * 20).encode())
    assert {r.value for r in results if isinstance(r, TextReading)} == {1.5}
    assert isinstance(results[-1], RefusedLine)


def test_a_number_among_names_stays_with_the_name_it_had():
    results = decoder("2").feed(b'{"t":1,"v":1.5,"i":0.05}\n' * 20 + b'{"v":1.6,"i":0.05}\n' * 5)
    assert {r.value for r in results if isinstance(r, TextReading)} == {1.5, 1.6}


ROWS = "10,1500.0,50.0\n" * 10


@pytest.mark.parametrize(
    ("before", "now"),
    [
        ("t_ms,cell_mV,shunt_mV", "t_ms,cell_V,shunt_mV"),  # a lost byte, a thousand times as much
        ("t_ms,cell_mV,shunt_mV", "t_ms,shunt_mV,cell_mV"),
        ("hello", "t_ms,cell_mV,shunt_mV"),  # taken for volts until then
    ],
)
def test_a_header_that_gives_the_column_another_meaning_is_not_believed(before: str, now: str):
    """Nobody can tell whether it is damaged; with the former header it goes on."""
    decoding = decoder("2")
    assert decoding.feed(f"{ROWS}".encode() if before == "hello" else f"{before}\n{ROWS}".encode())
    refused = decoding.feed(f"{now}\n{ROWS}".encode())
    assert {r.code for r in refused if isinstance(r, RefusedLine)} == {"columns_changed"}
    assert not [r for r in refused if isinstance(r, TextReading)]
    if before != "hello":
        again = decoding.feed(f"{before}\n{ROWS}".encode())
        assert {r.value for r in again if isinstance(r, TextReading)} == {1.5}


def test_a_header_that_does_not_fit_the_lines_is_told():
    results = decoder("2").feed(f"{ROWS}t_ms,cell_mV\n{ROWS}".encode())
    assert [r.code for r in results if isinstance(r, RefusedLine)] == ["header_unfit"]
    results = decoder("2").feed(f"t_ms,cell_mV\n{ROWS}".encode())
    assert [r.code for r in results if isinstance(r, RefusedLine)] == ["header_unfit"]
    assert len([r for r in results if isinstance(r, TextReading)]) == 8


@pytest.mark.parametrize(
    ("usual", "sentence"),
    [
        ("U=1.5000V I=0.0500A", "U1.5000V I0.0500A"),  # two lost bytes make names of pairs
        ("10,1.5000,0.0500", "cell voltage low"),
        ('{"v":1.5}', "t_ms,cell_mV"),
    ],
)
def test_what_is_no_header_of_the_lines_changes_nothing(usual: str, sentence: str):
    text = f"{usual}\n" * 20 + f"{sentence}\n" + f"{usual}\n" * 20
    column = "U" if usual.startswith("U") else "v" if usual.startswith("{") else "2"
    results = decoder(column).feed(text.encode())
    assert [r.value for r in results if isinstance(r, TextReading)] == [1.5] * 38
    assert [r.code for r in results if isinstance(r, RefusedLine)] == ["not_a_reading"]


def test_a_lost_m_of_millivolts_is_suspect():
    results = readings("U=1500.5mV\n" * 60 + "U=1500.5V\n")
    assert results[-1].quality == Quality.SUSPECT
    assert {r.quality for r in results[:-1]} == {Quality.GOOD}


def test_a_json_line_may_have_more_keys_now_and_then():
    text = '{"v":1.5}\n{"v":1.6}\n{"v":1.7,"temp":25.1}\n{"v":1.8}\n'
    assert [r.value for r in readings(text)] == [1.7, 1.8]


def checked(text: str) -> str:
    check = 0
    for byte in text.encode():
        check ^= byte
    return f"{text} *{check:02X}"


def test_the_check_of_a_line():
    """Worked by hand: 0x31 ^ 0x2E ^ 0x35 = 0x2A."""
    assert checked("1.5") == "1.5 *2A"
    assert [r.value for r in readings("1.5 *2A\r\n" * 4)] == [1.5, 1.5]
    refused = decoder().feed(b"1.5 *2A\n" * 3 + b"1.6 *2A\n")[-1]
    assert isinstance(refused, RefusedLine)
    assert refused.code == "damaged"


def test_where_checks_are_usual_a_line_without_one_is_refused():
    results = decoder().feed((f"{checked('1.5')}\n" * 5 + "1.6\n").encode())
    assert isinstance(results[-1], RefusedLine)


@given(st.floats(-99, 99), st.data())
def test_no_lost_byte_passes_the_check(value: float, data: st.DataObject):
    text = checked(f"123456,{value:.4f}")
    lost = data.draw(st.integers(0, len(text) - 1))
    stream = f"{checked('123455,1.5000')}\n" * 5 + text[:lost] + text[lost + 1 :] + "\n"
    result = decoder().feed(stream.encode())[-1]
    same = (
        isinstance(result, TextReading)
        and result.value == round(value, 4)
        and result.time == BoardTime(123456, "")
    )
    assert isinstance(result, RefusedLine) or result.raw == checked("123455,1.5000").encode() or same


def test_a_number_with_fewer_decimals_is_suspect():
    results = readings("1.2345\n" * 60 + "1.235\n")
    assert results[-1].quality == Quality.SUSPECT
    assert {r.quality for r in results[:-1]} == {Quality.GOOD}


@pytest.mark.parametrize(
    ("usual", "damaged"),
    [
        ("10,26.5013", "10,6.5013"),
        ("10,26.5013", "10,2.5013"),
        ("10,-0.3021", "10,0.3021"),
        ("10,1.3113", "10,.3113"),
        ("U=1.3113V", "U=13113V"),
    ],
)
@pytest.mark.parametrize("piece", [40, 4000])
def test_a_lost_character_that_leaves_the_decimals_is_suspect(usual: str, damaged: str, piece: int):
    """Also where too few zeros have come to know the number of decimals; 4000 bytes are read as rows."""
    stream = (f"{usual}\n" * 30 + f"{damaged}\n" + f"{usual}\n" * 30).encode() * 8
    decoding, readings = decoder(), []
    for begin in range(0, len(stream), piece):
        for one in decoding.feed_blocks(stream[begin : begin + piece]):
            assert not isinstance(one, TextRows), "a block with such a number must be looked at line by line"
            readings += [one] if isinstance(one, TextReading) else []
    assert len(readings) == 8 * 61 - 2
    assert {r.raw for r in readings if r.quality == Quality.SUSPECT} == {damaged.encode()}
    assert sum(r.quality == Quality.SUSPECT for r in readings) == 8


def test_a_step_of_the_voltage_is_not_suspect():
    for steps in ([26.5, 2.3, 26.5], [2.2, 0.0, 2.2], [-1.5, 1.2, -1.5], [12.0, 9.9, 12.0]):
        text = "".join(f"{step:.4f}\n" * 40 for step in steps)
        assert {r.quality for r in readings(text)} == {Quality.GOOD}


def test_noise_around_zero_has_lost_no_sign():
    chance = np.random.default_rng(3)
    text = "".join(f"{volt:.4f}\n" for volt in chance.normal(0.0, 0.03, 2000))
    suspect = sum(r.quality == Quality.SUSPECT for r in readings(text))
    assert suspect < 20


def test_an_endless_line_is_refused_and_takes_no_memory():
    endless = decoder()
    for _ in range(1000):
        assert endless.feed(b"9" * 1000) == []
    assert endless.pending < 300
    refused = endless.feed(b"\n")[0]
    assert isinstance(refused, RefusedLine)
    assert refused.code == "damaged"


def test_bytes_after_a_line_count_those_of_the_same_piece():
    results = decoder().feed(b"1.5\n1.5\n1.6\n1.7\n1.")
    assert [r.bytes_after for r in results if isinstance(r, TextReading)] == [6, 2]


BOARD_LINES = st.sampled_from(
    [
        "1.2345",
        "123,1.5",
        "124,1.6",
        "t_ms,v",
        '{"v":1.2}',
        "U=1.2V",
        "1,5",
        "OL",
        "nan",
        "hello",
        "",
        "1.5 *2A",
        "9" * 300,
    ]
)


@given(st.lists(st.tuples(BOARD_LINES, st.sampled_from(["\n", "\r\n", "\r"]))), st.data())
def test_pieces_of_any_size_give_the_same_readings(lines: list[tuple[str, str]], data: st.DataObject):
    stream = "".join(line + end for line, end in lines).encode()
    whole = decoder().feed(stream)
    pieces, rest, in_pieces = decoder(), stream, []
    while rest:
        size = data.draw(st.integers(1, len(rest)))
        in_pieces += pieces.feed(rest[:size])
        rest = rest[size:]
    assert list(map(without_place, in_pieces)) == list(map(without_place, whole))


def without_place(result: TextReading | RefusedLine) -> tuple[object, ...]:
    if isinstance(result, TextReading):
        return result.raw, result.value, result.quality, result.time
    return result.raw, result.code


@given(st.lists(st.binary(max_size=80)), st.booleans())
def test_random_bytes_never_raise_nor_give_more_readings_than_lines(parts: list[bytes], takes_counts: bool):
    stream = b"\n".join(parts) + b"\n"
    results = decoder(takes_counts=takes_counts).feed(stream)
    assert len(results) <= stream.count(b"\n")
    for result in results:
        assert isinstance(result, RefusedLine) or not math.isnan(result.value)


@given(st.text(alphabet='0123456789.,;+-eE \tVm={}:"tv', max_size=30))
def test_lines_almost_right_never_raise(text: str):
    assert isinstance(parse_cells(text), Row | Header | NotCells)
    last(text)
    last(text, column="2", takes_counts=True, takes_any_unit=True)


@given(st.floats(-1e6, 1e6), st.integers(0, 2**32 - 1))
def test_what_a_board_prints_comes_back_exactly(value: float, ticks: int):
    reading = last(f"{ticks},{value:.6f}")
    assert isinstance(reading, TextReading)
    assert reading.value == float(f"{value:.6f}")
    assert reading.time == BoardTime(ticks, "")


@pytest.mark.parametrize(
    ("name", "unit"),
    [
        ("t", ""),
        ("time", ""),
        ("t_ms", "ms"),
        ("ms", "ms"),
        ("micros", "us"),
        ("time (s)", "s"),
        ("v", None),
        ("temp", None),
        ("ts", None),
        ("", None),
    ],
)
def test_names_of_times(name: str, unit: str | None):
    assert time_unit_of(name) == unit


@pytest.mark.parametrize(
    ("name", "unit"),
    [
        ("v", "V"),
        ("U", "V"),
        ("V1", "V"),
        ("volts", "V"),
        ("cell_voltage_V", "V"),
        ("voltage (mV)", "mV"),
        ("mv", "mV"),
        ("U [V]", "V"),
        ("dev", None),
        ("A0", None),
        ("t", None),
        ("", None),
    ],
)
def test_names_of_voltages(name: str, unit: str | None):
    assert voltage_unit_of(name) == unit


@pytest.mark.parametrize(("word", "overload"), [("nan", 0), ("OL", 1), ("-ovf", -1), ("null", 0), ("inf", 1)])
def test_a_word_for_no_number_behind_a_number_is_no_unit_of_it(word: str, overload: int):
    row = parse_cells(f"1234 {word} 22.50 V 1.0")
    assert isinstance(row, Row)
    assert [cell.value for cell in row.cells] == [1234, None, Decimal("22.50"), Decimal("1.0")]
    assert row.cells[1].overload == overload
    assert row.cells[2].unit == "V"
