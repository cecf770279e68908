"""Each emulated instrument, read by its own source, whole and with each fault that can be ordered."""

from __future__ import annotations

import numpy as np
import pytest

from drivers.errors import AddressError, SourceError, SourceLost
from drivers.registry import make_source
from drivers.samples import Notice, Quality, Samples
from drivers.simulated.emulated import EMULATED, Emulation, make_device
from drivers.simulated.faults import Faults, parse_faults
from drivers.simulated.printed_columns import LINE_STYLES
from drivers.testing import FakeClock, FakeWire

SLOPE = 0.05  # volts per second: a reading tells when it was taken
START_V = 0.5
SPAN_S = 40.0
METERS = ("scpi", "lcd14", "ascii14", "digit11", "digit14", "stx16")
BOARDS = ("text", "packet")
RESOLUTION_V = {"packet": 8 * 187.5e-6, "text": 1e-4, "scpi": 1e-5, "digit14": 1e-4}
TIME_OFF_S = 0.5  # beyond it a reading stands at a wrong time


def ramp(times_s):
    return START_V + SLOPE * times_s


class Bench:
    """A source in front of an emulated instrument, on a fake clock, kept open as a run does."""

    def __init__(self, kind: str, query: str = "", options: dict | None = None, **faults) -> None:
        self.clock = FakeClock()
        rate = 50.0 if kind in BOARDS else None
        self.device = make_device(Emulation(kind, ramp, rate=rate, **(options or {})), Faults(**faults))
        self.wire = FakeWire(self.device, self.clock)
        self.source = make_source(f"{kind}:/dev/ttyS9{query}", opener=self.wire.open_port)
        self.samples: list[Samples] = []
        self.notices: list[Notice] = []
        self.errors: list[SourceError] = []
        self.is_open = False

    def run(self, until_s: float = SPAN_S, back_after_s: float = 2.0) -> None:
        """Read until then; open again after each loss, and plug in what was unplugged."""
        while self.clock.now_s() < until_s:
            try:
                if not self.is_open:
                    self.source.open(self.clock)
                    self.is_open = True
                delivery = self.source.read(0.2)
            except SourceError as error:
                self.errors.append(error)
                self.source.close()
                self.is_open = False
                self.clock.advance_s(back_after_s)
                self.wire.is_plugged = True
                continue
            self.samples += delivery.samples
            self.notices += delivery.notices
        self.source.close()

    @property
    def times_s(self):
        return np.concatenate([block.times_s for block in self.samples] or [np.zeros(0)])

    @property
    def values(self):
        return np.concatenate([block.values for block in self.samples] or [np.zeros(0)])

    @property
    def quality(self):
        return np.concatenate([block.quality for block in self.samples] or [np.zeros(0, np.uint8)])

    @property
    def codes(self):
        return {notice.code for notice in self.notices}

    def wrong(self):
        """Readings that are off by more than the display and its time allow, and not marked as doubtful."""
        off_V = np.abs(self.values - ramp(self.times_s))
        step_V = RESOLUTION_V.get(self.source.address.kind, 1e-3 if self.values.max(initial=0) < 4 else 1e-2)
        doubtful = self.quality & (Quality.SUSPECT | Quality.PARITY | Quality.TIME_UNCERTAIN)
        return (off_V > step_V + SLOPE * TIME_OFF_S) & (doubtful == 0)


def readings_expected(kind: str) -> float:
    """A lower bound of readings a second, from the figures of drivers.simulated.emulated."""
    return {"stx16": 1.0, "scpi": 1.0, "text": 50.0, "packet": 50.0}.get(kind, 2.5)


@pytest.mark.parametrize("kind", EMULATED)
class TestEachKind:
    def test_whole(self, kind):
        bench = Bench(kind)
        bench.run()
        assert not bench.errors
        assert not bench.wrong().any()
        assert bench.times_s.size > 0.85 * SPAN_S * readings_expected(kind)
        assert np.isfinite(bench.values).all()

    def test_lost_bytes_cost_readings_but_give_no_wrong_ones(self, kind):
        bench = Bench(kind, drop=0.002)
        bench.run()
        assert bench.wrong().sum() <= 1  # a lost digit of a line without a check may still be a number
        assert bench.times_s.size > 0.3 * SPAN_S * readings_expected(kind)

    def test_garbage_between_messages(self, kind):
        bench = Bench(kind, garbage=0.1)
        bench.run()
        assert not bench.wrong().any()
        assert bench.times_s.size > 0.3 * SPAN_S * readings_expected(kind)

    def test_a_stall_is_a_stretch_without_readings(self, kind):
        bench = Bench(kind, stall_at=20, stall_s=5.0)
        bench.run()
        assert not bench.wrong().any()
        if kind == "scpi":  # what the meter did not measure is missing
            assert np.diff(bench.times_s).max() > 4.0

    def test_lost_messages_are_missing_and_nothing_else(self, kind):
        bench = Bench(kind, lost_every=10)
        bench.run()
        assert not bench.wrong().any()
        assert bench.times_s.size > 0.5 * SPAN_S * readings_expected(kind)

    def test_late_messages(self, kind):
        bench = Bench(kind, late_every=400 if kind in BOARDS else 15, late_s=2.0)
        bench.run()
        assert (np.diff(bench.times_s) >= 0).all()
        if kind not in METERS[1:]:  # a one-way meter without a clock cannot tell that it was late
            assert not bench.wrong().any()

    def test_messages_sent_twice(self, kind):
        bench = Bench(kind, twice_every=5)
        bench.run()
        assert not bench.wrong().any()
        assert bench.times_s.size > 0.5 * SPAN_S * readings_expected(kind)

    def test_half_a_message_and_then_silence(self, kind):
        bench = Bench(kind, half_at=14, stall_s=5.0)
        bench.run()
        assert not bench.wrong().any()
        assert np.diff(bench.times_s).max() > 3.5
        assert bench.times_s[-1] > SPAN_S - 4

    def test_unplugged_and_back(self, kind):
        bench = Bench(kind, unplug_after=15)
        bench.run()
        assert any(isinstance(error, SourceLost) for error in bench.errors)
        assert not bench.wrong().any()
        assert np.diff(bench.times_s).max() > 1.5
        assert bench.times_s[-1] > SPAN_S - 4

    def test_a_flipped_bit_gives_few_wrong_readings(self, kind):
        """Without a check some pass; how many is measured in tests/campaigns/fuzz_frames.py."""
        bench = Bench(kind, flip=0.0005)
        bench.run()
        assert bench.wrong().sum() <= (0 if kind == "packet" else 3)

    def test_at_another_speed_there_is_nothing_to_read_and_that_is_said(self, kind):
        bench = Bench(kind, wrong_speed=0.5)
        bench.run(until_s=20.0)
        assert bench.times_s.size == 0
        said = " ".join([notice.text for notice in bench.notices] + [str(error) for error in bench.errors])
        assert "speed" in said or "baud" in said


@pytest.mark.parametrize("kind", BOARDS)
def test_a_board_that_restarts(kind):
    bench = Bench(kind, reboot_after=20)
    bench.run()
    assert not bench.errors
    assert not bench.wrong().any()
    assert bench.times_s[-1] > SPAN_S - 1


@pytest.mark.parametrize("kind", BOARDS)
def test_a_counter_that_turns_over(kind):
    bench = Bench(kind, wrap_after_s=20.0)
    bench.run()
    assert not bench.errors
    assert not bench.wrong().any()
    assert np.diff(bench.times_s).max() < 0.2
    ticks = np.concatenate([block.board_ticks for block in bench.samples if block.board_ticks is not None])
    assert (np.diff(ticks) > 0).all(), "unwrapped"
    assert ticks[0] < 1 << 32 < ticks[-1]


def test_a_line_sent_twice_is_marked_where_the_board_has_a_clock():
    bench = Bench("text", twice_every=50)
    bench.run()
    repeats = np.flatnonzero(bench.quality & Quality.REPEAT)
    assert 30 < repeats.size < SPAN_S  # one a second, from the first second or so on
    assert np.allclose(bench.times_s[repeats], bench.times_s[repeats - 1], atol=0.002)


def test_lines_that_end_with_cr_alone():
    """A queried meter is understood; of a board it is said how its lines end."""
    meter, board = Bench("scpi", cr_only=True), Bench("text", cr_only=True)
    meter.run(until_s=10.0)
    assert meter.times_s.size > 5
    board.run(until_s=20.0)
    assert not board.samples
    assert any("end in CR alone" in notice.text for notice in board.notices)


@pytest.mark.parametrize("kind", METERS)
def test_the_dial_on_ac_is_refused_and_said(kind):
    bench = Bench(kind, ac_after=12, ac_count=8)
    bench.run()
    assert not bench.wrong().any()
    said = [notice.text for notice in bench.notices] + [str(error) for error in bench.errors]
    assert any("DC volts" in text for text in said)
    assert bench.times_s[-1] > SPAN_S - 8


def test_what_a_kind_cannot_do_is_told():
    with pytest.raises(AddressError, match="board"):
        make_device(Emulation("scpi", ramp), Faults(reboot_after=3))
    with pytest.raises(AddressError, match="dial"):
        make_device(Emulation("packet", ramp), Faults(ac_after=3))
    with pytest.raises(AddressError, match="queries"):
        make_device(Emulation("text", ramp), Faults(echo=True))
    with pytest.raises(AddressError, match="lines"):
        make_device(Emulation("lcd14", ramp), Faults(cr_only=True))
    with pytest.raises(AddressError, match="did you mean lcd14"):
        make_device(Emulation("lcd15", ramp), Faults())
    with pytest.raises(AddressError, match="rate"):
        make_device(Emulation("text", ramp, rate=0.0), Faults())
    with pytest.raises(AddressError, match="did you mean micros"):
        make_device(Emulation("text", ramp, form="micro"), Faults())


def test_faults_by_name():
    faults = parse_faults(["drop=0.1", "echo", "late_every=3", "banner=hello"])
    assert faults == Faults(drop=0.1, echo=True, late_every=3, banner="hello")
    with pytest.raises(AddressError, match="did you mean drop"):
        parse_faults(["drp=1"])
    with pytest.raises(AddressError, match="no number"):
        parse_faults(["drop=often"])
    with pytest.raises(AddressError, match="0 or more"):
        parse_faults(["drop=-1"])


def test_the_speed_of_a_line_is_that_of_its_kind():
    assert Emulation("lcd14", ramp).baud == 2400  # drivers.formats.lcd14 names the source
    assert Emulation("digit14", ramp).baud == 19200
    assert Emulation("text", ramp, line_baud=9600).baud == 9600


SHUNT_GAIN = 10.0
SIDE_BY_SIDE = {
    "columns": ("time_ms", "cell_voltage", "shunt_voltage"),
    "others": {"shunt_voltage": lambda times_s: SHUNT_GAIN * ramp(times_s)},
}
ORDERED_FAULTS = (
    {},
    {"drop": 0.002},
    {"flip": 0.0005},
    {"garbage": 0.1},
    {"late_every": 400},
    {"lost_every": 10},
    {"stall_at": 20, "stall_s": 5.0},
    {"unplug_after": 15},
    {"reboot_after": 20},
    {"banner": "board of two voltages, v1"},
)


def column_query(lines: str) -> str:
    is_named = lines in ("json", "pairs")
    columns = "cell_voltage,shunt_voltage" if is_named else "2,3"
    return f"?column={columns}&role=cell_voltage,shunt_voltage"


class TestSeveralColumns:
    """Two voltages of one board: each with every fault, the second always ten times the first."""

    @pytest.mark.parametrize("lines", LINE_STYLES)
    def test_both_are_read_at_the_same_times(self, lines):
        bench = Bench("text", column_query(lines), SIDE_BY_SIDE | {"lines": lines})
        bench.run(until_s=10.0)
        cell, shunt = by_channel(bench)
        assert cell[0].size > 400
        assert np.array_equal(cell[0], shunt[0])
        assert np.allclose(shunt[1], SHUNT_GAIN * cell[1], atol=0.6e-3)  # each is printed to 0.1 mV
        assert np.abs(cell[1] - ramp(cell[0])).max() < 1e-4 + SLOPE * 0.1

    @pytest.mark.parametrize("faults", ORDERED_FAULTS, ids=lambda faults: next(iter(faults), "none"))
    def test_no_fault_gives_a_wrong_value(self, faults):
        bench = Bench("text", column_query("commas"), SIDE_BY_SIDE, **faults)
        bench.run()
        # a digit lost before the point, or flipped, goes unseen without a check: see fuzz_frames
        allowed = 0.01 * SPAN_S * 50 if {"drop", "flip"} & faults.keys() else 0
        for gain, (times_s, values, quality) in zip((1.0, SHUNT_GAIN), by_channel(bench), strict=True):
            assert times_s.size > 0.3 * SPAN_S * 50
            assert times_s[-1] > SPAN_S - 4
            is_doubtful = quality & (Quality.SUSPECT | Quality.TIME_UNCERTAIN)
            is_off = np.abs(values - gain * ramp(times_s)) > 1e-4 + gain * SLOPE * TIME_OFF_S
            assert (is_off & (is_doubtful == 0)).sum() <= allowed

    def test_at_another_speed_nothing_is_read(self):
        bench = Bench("text", column_query("commas"), SIDE_BY_SIDE, wrong_speed=0.5)
        bench.run(until_s=20.0)
        assert not bench.samples

    def test_a_header_names_the_columns(self):
        query = "?column=cell_voltage,shunt_voltage&role=cell_voltage,shunt_voltage"
        bench = Bench("text", query, SIDE_BY_SIDE | {"has_header": True})
        bench.run(until_s=5.0)
        assert [part[0].size > 150 for part in by_channel(bench)] == [True, True]

    def test_inputs_of_a_packet_board(self):
        options = {"columns": ("cell_voltage", "shunt_voltage"), "others": SIDE_BY_SIDE["others"]}
        bench = Bench("packet", "?role=cell_voltage,shunt_voltage", options)
        bench.run(until_s=10.0)
        cell, shunt = by_channel(bench)
        assert cell[0].size > 400
        assert np.allclose(shunt[1], SHUNT_GAIN * cell[1], atol=11 * RESOLUTION_V["packet"])


def by_channel(bench: Bench):
    """Times, values and quality of cell and shunt."""
    parts = []
    for name in ("cell_voltage", "shunt_voltage"):
        blocks = [block for block in bench.samples if block.channel == name]
        parts.append(
            tuple(
                np.concatenate([getattr(block, what) for block in blocks])
                for what in ("times_s", "values", "quality")
            )
        )
    return parts


def test_columns_that_cannot_be_are_told():
    for columns, words in (
        (("time_ms", "cell_volage"), "did you mean cell_voltage"),
        (("cell_voltage", "cell_voltage"), "twice"),
        (("time_us",), "only times"),
    ):
        with pytest.raises(AddressError, match=words):
            make_device(Emulation("text", ramp, columns=columns), Faults())
    with pytest.raises(AddressError, match="did you mean semicolons"):
        make_device(Emulation("text", ramp, columns=("cell_voltage",), lines="semicolon"), Faults())
    with pytest.raises(AddressError, match="only a board"):
        make_device(Emulation("scpi", ramp, columns=("cell_voltage",)), Faults())


class TestManyPacketsAtOnce:
    """100,000 samples a second are taken in portions; nothing on the wire tells in which."""

    def sent(self, steps_s, **faults):
        device = make_device(Emulation("packet", ramp, rate=100_000.0), Faults(**faults))
        device.attach(0.0)
        return b"".join(device.take(time_s) for time_s in steps_s)

    @pytest.mark.parametrize("faults", [{}, {"reboot_after": 700}, {"lost_every": 9}, {"drop": 0.001}])
    def test_any_portions_are_the_same_packets(self, faults):
        one_by_one = self.sent(np.arange(1, 10_000) * 1e-4, **faults)
        assert len(one_by_one) > 150_000
        assert self.sent([0.3, 0.30001, 0.9999], **faults) == one_by_one
        assert self.sent([0.9999], **faults) == one_by_one

    def test_nobody_has_to_come_more_often_than_a_usb_adapter(self):
        device = make_device(Emulation("packet", ramp, rate=100_000.0), Faults())
        device.attach(0.0)
        due_s, takes = device.next_due_s(), 0
        while due_s < 1.0:
            device.take(due_s)
            due_s, takes = device.next_due_s(), takes + 1
        assert 200 <= takes <= 260
