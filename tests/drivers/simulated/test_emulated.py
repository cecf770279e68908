"""Each emulated instrument, read by its own source, whole and with each fault that can be ordered."""

from __future__ import annotations

import numpy as np
import pytest

from drivers.errors import AddressError, SourceError, SourceLost
from drivers.registry import make_source
from drivers.samples import Notice, Quality, Samples
from drivers.simulated.emulated import EMULATED, Emulation, make_device
from drivers.simulated.faults import Faults, parse_faults
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

    def __init__(self, kind: str, **faults) -> None:
        self.clock = FakeClock()
        rate = 50.0 if kind in BOARDS else None
        self.device = make_device(Emulation(kind, ramp, rate=rate), Faults(**faults))
        self.wire = FakeWire(self.device, self.clock)
        self.source = make_source(f"{kind}:/dev/ttyS9", opener=self.wire.open_port)
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
