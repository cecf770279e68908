"""The board that prints lines, on a fake wire: contract, times, columns, and what it says of bad lines."""

from __future__ import annotations

import contextlib
import math
from collections.abc import Iterable
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drivers.address import parse_address
from drivers.errors import AddressError, CannotOpen, SourceError, SourceLost, SourceRefused
from drivers.registry import make_source
from drivers.samples import Notice, Quality, Samples
from drivers.simulated.emulated_board import FORMS, EmulatedBoard
from drivers.simulated.faults import Faults
from drivers.testing import FakeClock, FakeWire, ScriptedDevice
from drivers.text import TextSource
from tests.drivers.contract import InstrumentBench, InstrumentContract, check_order, collect, read_on


def ramp(time_s: float) -> float:
    """A voltage that tells the time at which it was taken, to 10 ms in four decimals."""
    return 0.01 * time_s


class BoardBench(InstrumentBench):
    """An emulated board, or one that says what it is told, on a fake wire."""

    def __init__(self, query: str = "", *, device: Any = None, chunk: int = 4096, **board: Any) -> None:
        self.fake_clock = clock = FakeClock()
        self.wire = FakeWire(device or EmulatedBoard(**{"voltage": ramp, **board}), clock, chunk=chunk)
        super().__init__(
            make=lambda: TextSource(parse_address("text:/dev/ttyFAKE0" + query), opener=self.wire.open_port),
            clock=clock,
            unplug=self._unplug,
            replug=self._replug,
            hush=self._hush,
        )

    def _unplug(self) -> None:
        self.wire.is_plugged = False

    def _replug(self) -> None:
        self.wire.is_plugged = True

    def _hush(self) -> None:
        self.wire.device = ScriptedDevice()

    def opened(self) -> TextSource:
        source = self.make()
        source.open(self.clock)
        assert isinstance(source, TextSource)
        return source


def printing(lines: Iterable[str], *, every_s: float = 0.1, begin_s: float = 0.1) -> ScriptedDevice:
    return ScriptedDevice([(begin_s + k * every_s, f"{line}\r\n".encode()) for k, line in enumerate(lines)])


def joined(blocks: list[Samples]) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    return (
        np.concatenate([b.times_s for b in blocks]),
        np.concatenate([b.values for b in blocks]),
        np.concatenate([b.quality for b in blocks]),
    )


def read_for(source: TextSource, bench: BoardBench, duration_s: float) -> tuple[list[Samples], list[Notice]]:
    until_s = bench.clock.now_s() + duration_s
    blocks: list[Samples] = []
    notices: list[Notice] = []
    while bench.clock.now_s() < until_s:
        delivery = source.read(0.2)
        blocks += delivery.samples
        notices += delivery.notices
    return blocks, notices


class TestContractOfVolts(InstrumentContract):
    @pytest.fixture
    def bench(self) -> InstrumentBench:
        return BoardBench(form="volts")


class TestContractOfMicrosInSmallPieces(InstrumentContract):
    @pytest.fixture
    def bench(self) -> InstrumentBench:
        return BoardBench(form="micros", chunk=3, latency_s=0.016, start_us=2**32 - 2_000_000)


class TestContractOfTwoColumns(InstrumentContract):
    @pytest.fixture
    def bench(self) -> InstrumentBench:
        return BoardBench("?column=2,3", form="columns", latency_s=0.016)


class TestSeveralColumns:
    """One board, one clock, a channel for each column (see `drivers.channel_lists`)."""

    def both(self, bench: BoardBench) -> tuple[TextSource, dict[str, tuple[np.ndarray, ...]]]:
        source = bench.opened()
        blocks, _ = read_for(source, bench, 6.0)
        names = [channel.name for channel in source.channels]
        return source, {name: joined([b for b in blocks if b.channel == name]) for name in names}

    def test_both_are_recorded_at_the_same_times(self):
        bench = BoardBench("?column=2,3&role=cell_voltage,stack_voltage", form="columns", latency_s=0.016)
        source, found = self.both(bench)
        assert [c.role for c in source.channels] == ["cell_voltage", "stack_voltage"]
        assert [c.input for c in source.channels] == ["2", "3"]
        cell, stack = found["cell_voltage"], found["stack_voltage"]
        assert cell[0].size > 40
        np.testing.assert_array_equal(cell[0], stack[0])
        np.testing.assert_allclose(stack[1], 20 * cell[1], atol=0.0015)
        np.testing.assert_array_equal(cell[2], stack[2])

    def test_each_has_its_own_scale(self):
        bench = BoardBench(
            "?column=2,3&channel=cell,stack&role=cell_voltage,stack_voltage&scale=1,0.5", form="columns"
        )
        source, found = self.both(bench)
        np.testing.assert_allclose(found["stack"][1], 10 * found["cell"][1], atol=0.001)
        assert source.instrument.calibration == {"stack_scale": 0.5, "stack_offset": 0.0}

    def test_names_of_the_header_name_the_channels(self):
        bench = BoardBench("?column=cell_V,stack_V", form="columns", header="t_us\tcell_V\tstack_V")
        source, found = self.both(bench)
        assert [(c.name, c.role) for c in source.channels] == [
            ("cell_voltage", "cell_voltage"), ("stack_v", "other"),
        ]  # fmt: skip
        np.testing.assert_allclose(found["stack_v"][1], 20 * found["cell_voltage"][1], atol=0.0015)

    def test_a_column_that_is_not_there_does_not_open(self):
        with pytest.raises(SourceRefused, match="no column 7"):
            BoardBench("?column=2,7", form="columns").opened()

    def test_another_table_that_a_board_prints_first_is_waited_for(self):
        lines = [*(f"{k} 0.1" for k in range(6)), *(f"{100 * k} 1.5000 0.0500" for k in range(80))]
        _, found = self.both(BoardBench("?column=3&channel=shunt", device=printing(lines)))
        assert set(found["shunt"][1].tolist()) == {0.05}

    def test_a_column_without_values_at_first_keeps_no_other_from_opening(self):
        lines = [f"{100 * k},1.5000,{'nan' if k < 50 else '0.0500'}" for k in range(100)]
        bench = BoardBench(
            "?column=2,3&channel=cell,shunt&role=cell_voltage,shunt_voltage", device=printing(lines)
        )
        _, found = self.both(bench)
        assert set(found["cell"][1].tolist()) == {1.5}
        assert set(found["shunt"][1].tolist()) == {0.05}

    def test_names_that_come_with_a_later_header(self):
        lines = [*(f"{100 * k},1.5000,0.0500" for k in range(15)), "t_ms,cell_V,shunt_V"]
        lines += [f"{1600 + 100 * k},1.5000,0.0500" for k in range(80)]
        _, found = self.both(BoardBench("?column=cell_V,shunt_V", device=printing(lines)))
        assert set(found["cell_voltage"][1].tolist()) == {1.5}
        assert set(found["shunt_v"][1].tolist()) == {0.05}

    def test_names_that_never_come(self):
        lines = [f"{100 * k},1.5000,0.0500" for k in range(100)]
        with pytest.raises(SourceRefused, match="no line has named the columns yet"):
            BoardBench("?column=cell_V", device=printing(lines)).opened()

    def test_names_that_some_lines_leave_out_keep_no_other_from_opening(self):
        lines = [f'{{"t":{100 * k},"v":1.5' + (',"i":0.05}' if k % 20 == 0 else "}") for k in range(100)]
        _, found = self.both(BoardBench("?column=v,i", device=printing(lines)))
        assert set(found["cell_voltage"][1].tolist()) == {1.5}
        assert set(found["i"][1].tolist()) == {0.05}

    def test_a_unit_that_is_no_voltage_is_taken_for_a_channel_that_is_none(self):
        bench = BoardBench("?column=U,I&role=cell_voltage,other&channel=cell,current", form="pairs")
        _, found = self.both(bench)
        assert set(found["current"][1].tolist()) == {0.1}

    @pytest.mark.parametrize(
        ("query", "said"),
        [
            ("?column=2,2", "each once"),
            ("?column=2,", "each once"),
            ("?column=2,02", "each once"),
            ("?column=2,0", "counted from 1"),
            ("?column=-1", "counted from 1"),
            ("?role=cell_voltage,other", "names 1"),
            ("?column=2,3&channel=a,b,c", "names 2"),
            ("?column=2,3&channel=a,a&role=other,other", "two inputs are called a"),
            ("?column=2,3&role=cell_voltage,volts", "no role 'volts'"),
        ],
    )
    def test_lists_that_do_not_fit_are_refused(self, query: str, said: str):
        with pytest.raises(AddressError, match=said):
            TextSource(parse_address("text:/dev/ttyFAKE0" + query))


class TestForms:
    @pytest.mark.parametrize("form", sorted(set(FORMS) - {"columns", "counts"}))
    def test_every_form_gives_the_boards_voltage(self, form: str):
        bench = BoardBench(form=form)
        times_s, values, _ = joined(collect(bench.opened(), bench, 50))
        assert np.abs(times_s - values / 0.01).max() < 0.02
        assert np.diff(times_s).mean() == pytest.approx(0.1, abs=0.002)

    def test_a_chosen_column(self):
        bench = BoardBench("?column=3", form="columns")
        times_s, values, _ = joined(collect(bench.opened(), bench, 20))
        assert np.abs(times_s - values / 0.2).max() < 0.02

    def test_a_column_chosen_by_name(self):
        bench = BoardBench("?column=stack_V", form="columns", header="t_us\tcell_V\tstack_V")
        source = bench.opened()
        times_s, values, _ = joined(collect(source, bench, 20))
        assert np.abs(times_s - values / 0.2).max() < 0.02
        assert source.instrument.details["column"] == "stack_V"

    def test_counts_with_a_scale(self):
        bench = BoardBench("?scale=0.005", form="counts", voltage=lambda _: 1.5)
        source = bench.opened()
        _, values, _ = joined(collect(source, bench, 5))
        assert values.tolist() == [1.5] * 5
        assert source.instrument.calibration == {"scale": 0.005, "offset": 0.0}

    @pytest.mark.parametrize(("form", "remedy"), [("columns", "column=2"), ("counts", "scale=")])
    def test_what_needs_the_users_word_does_not_open(self, form: str, remedy: str):
        bench = BoardBench(form=form)
        with pytest.raises(SourceRefused, match=remedy):
            bench.opened()
        assert bench.wire.ports[-1].is_closed

    def test_a_lone_comma_is_never_resolved(self):
        with pytest.raises(SourceRefused, match="decimal comma"):
            BoardBench(device=printing(["1,2345"] * 40)).opened()

    def test_counts_that_come_later_are_told_and_not_recorded(self):
        bench = BoardBench(device=printing(["1.5"] * 10 + ["512", "513"] * 40))
        blocks, notices = read_for(bench.opened(), bench, 9.0)
        assert set(joined(blocks)[1]) == {1.5}
        assert [notice.code for notice in notices] == ["damaged", "not_understood"]

    def test_overload_and_no_value(self):
        bench = BoardBench(device=printing(["1.5", "1.5", "1.5", "OL", "nan", "-OL", "1.6"]))
        blocks, notices = read_for(bench.opened(), bench, 1.0)
        _, values, quality = joined(blocks)
        assert values.tolist() == [1.5, math.inf, -math.inf, 1.6]
        assert quality.tolist() == [0, Quality.OVERLOAD, Quality.OVERLOAD, 0]
        assert [notice.code for notice in notices] == ["no_value"]


class TestTimes:
    def test_by_arrival_the_bytes_after_a_line_are_taken_off(self):
        """At 1200 baud a line of 8 bytes takes 67 ms; two lines that came in one piece are 67 ms apart."""
        device = ScriptedDevice([(0.5 * k, b"1.2345\r\n1.2345\r\n") for k in range(1, 8)])
        bench = BoardBench("?baud=1200", device=device)
        times_s, _, _ = joined(collect(bench.opened(), bench, 8))
        assert np.diff(times_s)[::2] == pytest.approx(8 * 10 / 1200, abs=1e-6)

    @pytest.mark.parametrize("form", ["millis", "micros", "checked", "json"])
    def test_the_boards_clock_takes_out_the_jitter(self, form: str):
        bench = BoardBench(form=form, latency_s=0.016, skew_ppm=200.0, rate=20.0, voltage=lambda t: 0.1 * t)
        source = bench.opened()
        bench.most_reads = 4000
        early = collect(source, bench, 40)
        assert source.instrument.clock["method"] == "board-clock, provisional"
        blocks = early + collect(source, bench, 1160)
        times_s, values, quality = joined(blocks)
        wrong_s = (times_s - values / 0.1)[600:]
        assert np.ptp(wrong_s) < 0.004
        assert (quality[600:] == 0).all()
        clock = source.instrument.clock
        assert clock["method"] == "board-clock, lower envelope"
        assert clock["skew_ppm"] == pytest.approx(-200.0, abs=20.0)
        assert blocks[-1].board_ticks is not None

    def test_lines_that_waited_for_a_busy_program_get_times_of_their_own(self):
        bench = BoardBench(form="micros")
        source = bench.opened()
        bench.fake_clock.advance_s(0.6)
        times_s, values, _ = joined(collect(source, bench, 40))
        assert np.diff(times_s) == pytest.approx(0.1, abs=1e-3)
        assert np.abs(times_s - values / 0.01).max() < 0.01

    def test_what_was_said_before_the_run_began_is_not_of_it(self):
        """Twelve lines of 67 ms each came in one piece, 0.5 s after the begin: seven are of the run."""
        device = ScriptedDevice([(0.5, b"1.2345\r\n" * 12), (1.0, b"1.2345\r\n" * 4)])
        bench = BoardBench("?baud=1200", device=device)
        times_s, _, _ = joined(collect(bench.opened(), bench, 8))
        assert 6 <= (times_s <= 0.51).sum() <= 8
        assert times_s[0] == pytest.approx(0.0, abs=0.07)
        assert (times_s >= 0).all()

    def test_first_lines_held_back_are_not_lost_with_the_board(self):
        bench = BoardBench(form="micros", faults=Faults(unplug_after=6))
        source = bench.opened()
        blocks: list[Samples] = []
        with pytest.raises(SourceLost):
            read_on(source, bench, blocks)
        assert sum(map(len, blocks)) == 4  # of 6 lines the first is partial, the second shows the form

    def test_the_first_lines_are_flagged_as_uncertain_in_time(self):
        bench = BoardBench(form="micros")
        bench.most_reads = 1000
        _, _, quality = joined(collect(bench.opened(), bench, 300))
        assert (quality[:90] == Quality.TIME_UNCERTAIN).all()
        assert (quality[-50:] == 0).all()

    def test_a_counter_that_is_no_time_is_given_up(self):
        lines = [f"{k},1.5000" for k in range(600)]
        bench = BoardBench(device=printing(lines))
        source = bench.opened()
        blocks, notices = read_for(source, bench, 50.0)
        assert [notice.code for notice in notices] == ["board_clock"]
        assert source.instrument.clock["method"] == "arrival"
        times_s, _, quality = joined(blocks)
        assert (quality[-100:] == 0).all()
        assert np.diff(times_s).max() < 0.11

    def test_a_clock_that_is_off_by_more_than_a_hundredth_is_told(self):
        bench = BoardBench(form="micros", skew_ppm=50_000.0)
        _, notices = read_for(bench.opened(), bench, 60.0)
        assert [notice.code for notice in notices] == ["board_clock"]
        assert "differs" in notices[0].text

    def test_what_the_columns_are_is_kept_while_the_board_is_away(self):
        """A board on a link of its own does not print its header again; its millivolts stay millivolts."""
        bench = BoardBench(
            "?column=2", device=printing(["t_ms,cell_mV"] + [f"{100 * k},1500.5" for k in range(60)])
        )
        source = bench.opened()
        before, _ = read_for(source, bench, 3.0)
        bench.unplug()
        with contextlib.suppress(SourceLost):
            read_for(source, bench, 1.0)
        source.close()
        bench.wire.device = printing(f"{4100 + 100 * k},1501.5" for k in range(60))
        bench.replug()
        source.open(bench.clock)
        after, _ = read_for(source, bench, 5.0)
        assert set(joined(before)[1].tolist()) == {1.5005}
        assert set(joined(after)[1].tolist()) == {1.5015}

    def test_a_board_that_comes_back_with_other_columns_is_told_and_not_recorded(self):
        bench = BoardBench("?column=2", device=printing(f"{100 * k},1.5000,0.0500" for k in range(60)))
        source = bench.opened()
        read_for(source, bench, 3.0)
        source.close()
        bench.wire.device = printing(f"{4100 + 100 * k},0.0500" for k in range(90))
        source.open(bench.clock)
        after, notices = read_for(source, bench, 8.0)
        assert after == []
        assert any("now 2 columns, and were 3 columns" in notice.text for notice in notices)

    def test_a_counter_beyond_all_counters_is_no_time(self):
        """A recording keeps ticks in 64 bits; such a number is a damaged line's."""
        lines = [f"{100 * k + (10**25 if k > 30 else 0)},1.5000" for k in range(60)]
        blocks, _ = read_for((bench := BoardBench(device=printing(lines))).opened(), bench, 7.0)
        assert set(joined(blocks)[1].tolist()) == {1.5}

    def test_a_restart_of_the_board_goes_on(self):
        lines = [f"{50_000 + 100 * k},1.5000" for k in range(200)] + [f"{100 * k},1.5000" for k in range(200)]
        bench = BoardBench(device=printing(lines))
        source = bench.opened()
        blocks, _ = read_for(source, bench, 40.0)
        check_order(blocks)
        times_s, _, _ = joined(blocks)
        assert times_s.size == 398
        assert source.instrument.clock["segments"] == 2.0


class TestBadLines:
    @pytest.mark.parametrize("seed", range(6))
    def test_lost_bytes_never_give_a_wrong_value_unflagged(self, seed: int):
        """With the check at the end of each line; without it one damaged line in three may pass."""
        bench = BoardBench(form="checked", faults=Faults(drop=0.005, flip=0.002, garbage=0.01, seed=seed))
        source = bench.opened()
        blocks, notices = read_for(source, bench, 100.0)
        times_s, values, quality = joined(blocks)
        good = (quality & Quality.SUSPECT) == 0
        assert good.sum() > 500
        assert np.abs(times_s - values / 0.01)[good].max() < 0.05
        assert "damaged" in {notice.code for notice in notices}
        check_order(blocks)

    def test_a_notice_is_not_repeated_for_each_line(self):
        lines = ["1.5000"] * 30 + ["what?"] * 300
        bench = BoardBench(device=printing(lines))
        _, notices = read_for(bench.opened(), bench, 33.0)
        assert [notice.code for notice in notices].count("not_a_reading") == 1

    def test_binary_data_are_refused_with_the_speed(self):
        noise = np.random.default_rng(1).bytes(4000)
        device = ScriptedDevice([(0.05 * k, noise[40 * k : 40 * k + 40]) for k in range(100)])
        with pytest.raises(SourceRefused, match="speed of 9600 baud may be wrong"):
            BoardBench("?baud=9600", device=device).opened()

    @pytest.mark.parametrize(("end", "told"), [(b" ", "No line ends"), (b"\r", "end in CR alone")])
    def test_text_without_line_ends_is_told(self, end: bytes, told: str):
        device = ScriptedDevice([(0.1 * k, b"1.2345" + end) for k in range(1, 200)])
        bench = BoardBench(device=device)
        _, notices = read_for(bench.opened(), bench, 8.0)
        assert [notice.code for notice in notices] == ["not_understood"]
        assert told in notices[0].text

    def test_a_greeting_is_kept_as_identity(self):
        bench = BoardBench(form="volts", faults=Faults(banner="ADC board v1.2"), boot_s=1.5)
        source = bench.opened()
        assert source.instrument.identity == "ADC board v1.2"
        assert not read_for(source, bench, 5.0)[1]


class TestOpening:
    def test_a_silent_board_opens_and_is_empty(self):
        bench = BoardBench(device=ScriptedDevice())
        source = bench.opened()
        assert bench.clock.now_s() == pytest.approx(3.5, abs=0.3)
        assert source.read(0.2).samples == ()

    def test_nothing_is_ever_sent_to_the_board(self):
        device = printing(["1.5"] * 50)
        bench = BoardBench(device=device)
        source = bench.opened()
        read_for(source, bench, 3.0)
        source.close()
        assert device.received == []

    def test_a_busy_and_a_missing_port(self):
        bench = BoardBench()
        bench.wire.is_busy = True
        with pytest.raises(CannotOpen, match="in use"):
            bench.opened()
        bench.wire.is_plugged = False
        with pytest.raises(CannotOpen, match="Plug in the cable"):
            bench.opened()

    def test_unplugged_while_it_is_opened(self):
        bench = BoardBench(faults=Faults(unplug_after=1), boot_s=0.5)
        with pytest.raises(CannotOpen):
            bench.opened()
        assert bench.wire.ports[-1].is_closed

    def test_a_slow_board_is_understood_before_it_is_complained_of(self):
        """Of its first two lines none is a reading; that takes 8 s and is no fault."""
        bench = BoardBench(device=printing((f"{4000 * k},1.5000" for k in range(9)), every_s=4.0))
        blocks, notices = read_for(bench.opened(), bench, 30.0)
        assert set(joined(blocks)[1].tolist()) == {1.5}
        assert [notice for notice in notices if notice.code == "not_understood"] == []

    def test_a_slow_board_is_not_called_silent(self):
        bench = BoardBench(form="volts", rate=0.5)
        source = bench.opened()
        bench.most_reads = 400
        collect(source, bench, 5)
        assert source.silent_after_s == pytest.approx(20.0, rel=0.1)

    def test_another_run_begins_its_times_anew(self):
        bench = BoardBench(form="volts")
        source = bench.opened()
        collect(source, bench, 20)
        source.close()
        bench.wire.clock = later = FakeClock()
        bench.wire.device = EmulatedBoard(ramp, form="volts")
        source.open(later)
        assert source.read(0.2).samples[0].times_s[0] < 1.0


PIECES = [
    b"1.2345",
    b"1.2345\n",
    b"123456,1.5\r\n",
    b",",
    b"\t",
    b";",
    b"\n",
    b"12345",
    b"v",
    b"t_ms",
    b'{"v":1.5}\n',
    b"U=1.2V\n",
    b"OL\n",
    b"nan",
    b" *2A",
    b"\xff\xfe",
    b"-",
    b" ",
    b"e5",
    b"",
]


@given(
    pieces=st.lists(st.lists(st.sampled_from(PIECES), max_size=8), max_size=150),
    query=st.sampled_from(["", "?column=2", "?column=v", "?scale=2", "?role=other&baud=1200"]),
    chunk=st.sampled_from([1, 7, 4096]),
)
@settings(max_examples=60)
def test_whatever_arrives_only_errors_of_this_floor_come_out(
    pieces: list[list[bytes]], query: str, chunk: int
):
    script = [(0.05 * k, b"".join(piece)) for k, piece in enumerate(pieces)]
    bench = BoardBench(query, device=ScriptedDevice(script), chunk=chunk)
    source = bench.make()
    blocks: list[Samples] = []
    for _ in range(3):
        with contextlib.suppress(SourceError):
            source.open(bench.clock)
            blocks += read_for(source, bench, 3.0)[0]
    source.close()
    check_order(blocks)
    assert all(port.is_closed for port in bench.wire.ports)


@pytest.mark.parametrize("query", ["?baud=0", "?baud=fast", "?rate=2", "?role=anode", "?scale=0"])
def test_a_wrong_key_or_value_is_refused_before_anything_is_touched(query: str):
    with pytest.raises(AddressError):
        make_source("text:/dev/ttyFAKE0" + query)
