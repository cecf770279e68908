"""Handheld meters on a fake wire and on a pseudo-terminal: contract, times, marks, and what is said."""

from __future__ import annotations

import math
import os
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from drivers.address import parse_address
from drivers.errors import AddressError, CannotOpen, SourceLost
from drivers.formats.handheld import HANDHELD_FORMATS
from drivers.frames import FrameSource
from drivers.link import Link
from drivers.registry import make_source
from drivers.samples import Notice, Quality, Samples
from drivers.simulated.emulated_handheld import EmulatedHandheld
from drivers.simulated.faults import Faults
from drivers.simulated.frame_encoder import ENCODED_KINDS, encode_frame
from drivers.simulated.wrong_speed import at_wrong_speed
from drivers.source import Source
from drivers.testing import FakeClock, FakePort, FakeWire, ScriptedDevice
from tests.drivers.contract import InstrumentBench, InstrumentContract, check_order, collect
from tests.drivers.pty_bench import PtyBench

PORT = "/dev/ttyFAKE0"


def ramp(time_s: float) -> float:
    """A voltage that tells the time at which it was taken, to 25 ms in counts of 1 mV."""
    return 0.04 * time_s


class MeterBench(InstrumentBench):
    """An emulated handheld meter, or a device that says what it is told, on a fake wire."""

    def __init__(
        self, kind: str = "lcd14", query: str = "", *, device: Any = None, chunk: int = 4096, **meter: Any
    ) -> None:
        self.fake_clock = clock = FakeClock()
        device = device or EmulatedHandheld(kind, **{"voltage": ramp, **meter})
        self.wire = FakeWire(device, clock, chunk=chunk)
        super().__init__(
            make=lambda: FrameSource(parse_address(f"{kind}:{PORT}{query}"), opener=self.open_port),
            clock=clock,
            unplug=self._unplug,
            replug=self._replug,
            hush=self._hush,
        )

    def open_port(self, name: str, baud: int) -> FakePort:
        self.baud = baud
        return self.wire.open_port(name, baud)

    def _unplug(self) -> None:
        self.wire.is_plugged = False

    def _replug(self) -> None:
        self.wire.is_plugged = True

    def _hush(self) -> None:
        self.wire.device = ScriptedDevice()

    def opened(self) -> Source:
        source = self.make()
        source.open(self.clock)
        return source


def joined(blocks: list[Samples]) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    return (
        np.concatenate([b.times_s for b in blocks]),
        np.concatenate([b.values for b in blocks]),
        np.concatenate([b.quality for b in blocks]),
    )


def read_for(source: Source, bench: MeterBench, duration_s: float) -> tuple[list[Samples], list[Notice]]:
    until_s = bench.clock.now_s() + duration_s
    blocks: list[Samples] = []
    notices: list[Notice] = []
    while bench.clock.now_s() < until_s:
        delivery = source.read(0.2)
        blocks += delivery.samples
        notices += delivery.notices
    return blocks, notices


def codes(notices: list[Notice]) -> list[str]:
    return [notice.code for notice in notices]


def sending(frames: list[bytes], *, every_s: float = 0.4, begin_s: float = 0.5) -> ScriptedDevice:
    return ScriptedDevice([(begin_s + k * every_s, frame) for k, frame in enumerate(frames)])


class TestContract(InstrumentContract):
    @pytest.fixture(params=ENCODED_KINDS)
    def bench(self, request: pytest.FixtureRequest) -> Iterator[InstrumentBench]:
        bench = MeterBench(request.param)
        yield bench
        assert all(port.is_closed for port in bench.wire.ports[:-1])


class TestContractInSmallPiecesWithDamage(InstrumentContract):
    @pytest.fixture(params=ENCODED_KINDS)
    def bench(self, request: pytest.FixtureRequest) -> InstrumentBench:
        faults = Faults(drop=0.005, flip=0.005, garbage=0.1)
        return MeterBench(request.param, chunk=1, frames_each=2, faults=faults)


@pytest.mark.skipif(os.name != "posix", reason="pseudo-terminals are POSIX only")
class TestContractOnAPseudoTerminal(InstrumentContract):
    @pytest.fixture
    def bench(self, tmp_path: Path) -> Iterator[InstrumentBench]:
        device = EmulatedHandheld("ascii14", ramp, period_s=0.03, conversion_s=0.02)
        bench = PtyBench(
            device, lambda port: FrameSource(parse_address(f"ascii14:{port}")), tmp_path / "meter"
        )
        with bench.served():
            yield bench


class TestTimes:
    @pytest.mark.parametrize("kind", ENCODED_KINDS)
    @pytest.mark.parametrize("conversion_s", [0.2, 0.35, 0.5])
    def test_a_reading_is_stamped_within_its_uncertainty(self, kind: str, conversion_s: float):
        """Conversions of 0.2 to 0.5 s are the 0.1 to 0.25 s of half a conversion of the reference, 2e."""
        bench = MeterBench(kind, period_s=0.6, conversion_s=conversion_s)
        source = bench.opened()
        times_s, values, _ = joined(collect(source, bench, 30))
        error_s = times_s - values / 0.04
        assert abs(error_s.mean() - (conversion_s / 2 - 0.175)) < 0.01
        assert np.abs(error_s).max() < source.instrument.clock["uncertainty_s"]

    def test_frames_that_arrive_together_keep_their_distance_on_the_line(self):
        pair = encode_frame("lcd14", 1.5) + encode_frame("lcd14", 1.501)
        bench = MeterBench(device=sending([pair]))
        times_s, _, _ = joined(read_for(bench.opened(), bench, 2.0)[0])
        assert np.diff(times_s) == pytest.approx([14 * 10 / 2400])
        assert times_s[1] == pytest.approx(0.5 - 14 * 10 / 2400 - 0.175)

    def test_frames_that_waited_on_the_way_are_uncertain_in_time(self):
        """After a stall they come one after the other, as quickly as the line carries them."""
        steady = [(0.5 + 0.4 * k, encode_frame("lcd14", 1.5 + 0.001 * k)) for k in range(12)]
        waited = [(9.0 + 0.06 * k, encode_frame("lcd14", 1.512 + 0.001 * k)) for k in range(8)]
        after = [(9.8 + 0.4 * k, encode_frame("lcd14", 1.52 + 0.001 * k)) for k in range(8)]
        bench = MeterBench(device=ScriptedDevice([*steady, *waited, *after]))
        times_s, _, quality = joined(read_for(bench.opened(), bench, 14.0)[0])
        is_uncertain = (quality & Quality.TIME_UNCERTAIN) > 0
        assert times_s.size == 28
        assert is_uncertain[13:20].all()  # nothing tells of the first of them that it waited
        assert not is_uncertain[:12].any()
        assert not is_uncertain[21:].any()

    def test_what_was_true_before_the_run_began_is_not_of_it(self):
        bench = MeterBench(device=sending([encode_frame("lcd14", 1.5)] * 5, begin_s=0.1))
        times_s, _, _ = joined(read_for(bench.opened(), bench, 3.0)[0])
        assert times_s.size == 4
        assert times_s.min() >= 0

    def test_what_waited_in_the_port_before_reading_began_is_left_out(self):
        frames = [encode_frame("lcd14", 1.5)] * 10 + [encode_frame("lcd14", 1.51)] * 5
        bench = MeterBench(device=sending(frames))
        source = bench.opened()
        bench.fake_clock.advance_s(4.3)  # another source of the run took long to open
        times_s, values, _ = joined(read_for(source, bench, 3.0)[0])
        assert values.tolist() == [1.51] * 5
        assert np.diff(times_s) == pytest.approx([0.4] * 4)

    def test_a_slow_meter_is_not_called_silent(self):
        bench = MeterBench("stx16", period_s=2.0)
        source = bench.opened()
        _, notices = read_for(source, bench, 30)
        assert source.silent_after_s == pytest.approx(20, rel=0.1)
        assert codes(notices) == ["compare_display"]


class TestMarks:
    def test_each_conversion_sent_twice_is_recorded_twice_and_flagged(self):
        bench = MeterBench("digit11", frames_each=2)
        source = bench.opened()
        _, values, quality = joined(collect(source, bench, 60))
        repeats = (quality & Quality.REPEAT) != 0
        assert repeats[10:].tolist() == [False, True] * ((repeats.size - 10) // 2) or repeats[
            10:
        ].tolist() == [True, False] * ((repeats.size - 10) // 2)
        assert (values[1:][repeats[1:]] == values[:-1][repeats[1:]]).all()
        assert source.instrument.details["repeats"] == repeats.sum()

    def test_hold_and_low_battery_are_kept_marked_and_told_once(self):
        bench = MeterBench("ascii14", has_low_battery=True, is_held=lambda t: 4 < t < 8)
        blocks, notices = read_for(bench.opened(), bench, 12)
        _, _, quality = joined(blocks)
        assert codes(notices).count("held") == 1
        assert codes(notices).count("low_battery") == 1
        assert (quality & Quality.LOW_BATTERY).all()
        assert 8 <= ((quality & Quality.HOLD) != 0).sum() <= 11

    def test_damaged_bytes_of_a_line_with_parity_are_told_and_marked(self):
        bench = MeterBench("digit11", faults=Faults(flip=0.02))
        source = bench.opened()
        blocks, notices = read_for(source, bench, 60)
        times_s, values, quality = joined(blocks)
        assert "parity" in codes(notices)
        marked = (quality & Quality.PARITY) != 0
        assert marked.any()
        assert np.abs(times_s - values / 0.04)[~marked].max() < 0.3
        assert source.instrument.details["parity_errors"] == marked.sum()

    def test_a_lone_damaged_frame_is_suspect_and_the_others_are_not(self):
        frames = [encode_frame("lcd14", 1.5)] * 10
        frames[5] = encode_frame("lcd14", 7.5)
        bench = MeterBench(device=sending(frames))
        _, values, quality = joined(read_for(bench.opened(), bench, 6)[0])
        assert values.tolist() == [1.5] * 5 + [7.5] + [1.5] * 4
        assert quality.tolist() == [0] * 5 + [Quality.SUSPECT] + [0] * 4

    def test_a_jump_that_nothing_follows_is_delivered_unmarked(self):
        frames = [encode_frame("lcd14", 1.5), encode_frame("lcd14", 7.5)]
        bench = MeterBench(device=sending(frames))
        times_s, values, quality = joined(read_for(bench.opened(), bench, 4)[0])
        assert values.tolist() == [1.5, 7.5]
        assert quality.tolist() == [0, 0]
        assert np.diff(times_s) == pytest.approx([0.4])

    def test_a_jump_right_before_the_plug_is_pulled_is_delivered_before_the_loss(self):
        frames = [encode_frame("lcd14", 1.5), encode_frame("lcd14", 7.5)]
        bench = MeterBench(device=sending(frames))
        source = bench.opened()
        blocks, _ = read_for(source, bench, 1.0)
        assert joined(blocks)[1].tolist() == [1.5]
        bench.unplug()
        assert source.read(0.2).samples[0].values.tolist() == [7.5]
        for _ in range(2):
            with pytest.raises(SourceLost, match="disconnected"):
                source.read(0.2)
        source.close()

    def test_overload_is_recorded_as_such(self):
        bench = MeterBench("lcd14", voltage=lambda _: -1000.0)
        _, values, quality = joined(collect(bench.opened(), bench, 3))
        assert values.tolist() == [-math.inf] * 3
        assert quality.tolist() == [Quality.OVERLOAD] * 3


class TestWhatIsSaid:
    @pytest.mark.parametrize("kind", ENCODED_KINDS)
    def test_the_dial_on_ac_in_the_middle_is_told_and_not_recorded(self, kind: str):
        bench = MeterBench(kind, is_ac=lambda t: 4 < t < 8)
        blocks, notices = read_for(bench.opened(), bench, 12)
        times_s, _, _ = joined(blocks)
        assert not ((times_s > 4.5) & (times_s < 7.5)).any()
        assert (times_s < 4).any()
        assert (times_s > 8.2).any()
        told = [notice.text for notice in notices if notice.code == "not_dc_volts"]
        assert len(told) == 1
        assert "Turn the dial to DC volts" in told[0]

    @pytest.mark.parametrize("kind", ENCODED_KINDS)
    def test_a_format_from_memory_asks_to_compare_with_the_display(self, kind: str):
        bench = MeterBench(kind, voltage=lambda _: -2.251)
        source = bench.opened()
        _, notices = read_for(source, bench, 20)
        questions = [notice for notice in notices if notice.code == "compare_display"]
        assert len(questions) == 1
        assert "does the display show −2.251 V?" in questions[0].text
        assert source.instrument.details["from_memory"]

    def test_the_documented_profile_asks_nothing(self):
        frame = bytes.fromhex("31 31 32 33 34 3B 30 30 3C 0D 0A")
        bench = MeterBench("digit11", "?column=b", device=sending([frame] * 10))
        source = bench.opened()
        blocks, notices = read_for(source, bench, 6)
        assert joined(blocks)[1].tolist() == [1.234] * 10
        assert notices == []
        assert source.instrument.details["column"] == "b"

    def test_the_other_profile_is_refused_with_the_key(self):
        frame = bytes.fromhex("31 31 32 33 34 3B 30 30 3C 0D 0A")
        bench = MeterBench("digit11", device=sending([frame] * 10))
        blocks, notices = read_for(bench.opened(), bench, 6)
        assert not blocks
        assert codes(notices) == ["profile_needed"]

    def test_a_wrong_speed_is_told_with_the_remedy(self):
        stream = b"".join(encode_frame("lcd14", 0.04 * k) for k in range(200))
        noise = at_wrong_speed(stream, 2400, 9600)
        size = len(noise) // 40
        device = sending([noise[k * size : (k + 1) * size] for k in range(40)], every_s=0.2)
        bench = MeterBench("lcd14", "?baud=9600", device=device)
        source = bench.opened()
        blocks, notices = read_for(source, bench, 8)
        assert bench.baud == 9600
        assert not blocks
        assert codes(notices) == ["not_understood"]
        assert "9600 baud may be wrong" in notices[0].text

    def test_a_meter_that_falls_asleep_gets_a_hint(self):
        bench = MeterBench()
        source = bench.opened()
        collect(source, bench, 5)
        bench.hush()
        blocks, notices = read_for(source, bench, 20)
        assert sum(map(len, blocks)) <= 1
        assert codes(notices) == ["no_transmission"]
        assert "stopped sending" in notices[0].text

    def test_a_meter_that_never_sends_gets_another(self):
        bench = MeterBench(device=ScriptedDevice())
        _, notices = read_for(bench.opened(), bench, 20)
        assert codes(notices) == ["no_transmission"]
        assert "Nothing arrives" in notices[0].text


class PoweredCable(ScriptedDevice):
    """An optical cable that passes frames only while its modem lines power it."""

    def __init__(self, needs: tuple[bool, bool]) -> None:
        super().__init__([(0.4 * k, encode_frame("lcd14", 1.5)) for k in range(1, 100)])
        self.needs = needs
        self.port: Any = None

    def take(self, now_s: float) -> bytes:
        data = super().take(now_s)
        powered = self.port is not None and (self.port.dtr, self.port.rts) == self.needs
        return data if powered else b""


class TestModemLines:
    @pytest.mark.parametrize("needs", [(True, False), (True, True), (False, True)])
    def test_an_optical_cable_gets_the_power_it_needs(self, needs: tuple[bool, bool]):
        device = PoweredCable(needs)
        bench = MeterBench(device=device)

        def open_port(name: str, baud: int) -> FakePort:
            device.port = port = bench.wire.open_port(name, baud)
            port.dtr = port.rts = True  # type: ignore[attr-defined] # as pyserial opens it
            return port

        source = FrameSource(parse_address(f"lcd14:{PORT}"), opener=open_port)
        source.open(bench.clock)
        blocks, _ = read_for(source, bench, 8)
        assert sum(map(len, blocks)) >= 10
        source.close()
        source.open(bench.clock)
        assert (device.port.dtr, device.port.rts) == needs, "what worked is kept"

    def test_a_link_that_is_not_open_has_none(self):
        with pytest.raises(SourceLost, match="not open"):
            Link(PORT, 2400).set_control_lines(dtr=True, rts=False)

    def test_a_port_without_modem_lines_works_all_the_same(self):
        bench = MeterBench()
        assert collect(bench.opened(), bench, 3)


class TestAddress:
    @pytest.mark.parametrize("kind", ENCODED_KINDS)
    def test_every_kind_is_registered_and_has_its_usual_speed(self, kind: str):
        bench = MeterBench(kind)
        source = make_source(f"{kind}:{PORT}")
        assert isinstance(source, FrameSource)
        bench.opened()
        assert bench.baud == HANDHELD_FORMATS[kind][""].baud
        usual = {"lcd14": 2400, "ascii14": 2400, "digit11": 2400, "digit14": 19200, "stx16": 9600}
        assert bench.baud == usual[kind]

    @pytest.mark.parametrize(
        "address",
        [
            f"lcd14:{PORT}?column=2",
            f"digit11:{PORT}?column=c",
            f"stx16:{PORT}?column=3",
            f"digit14:{PORT}?rate=2",
        ],
    )
    def test_a_wrong_key_or_value_is_refused_before_anything_is_touched(self, address: str):
        with pytest.raises(AddressError):
            make_source(address)

    def test_the_columns_that_there_are_are_named(self):
        with pytest.raises(AddressError, match="column=1 or column=2"):
            make_source(f"stx16:{PORT}?column=3")

    def test_scale_offset_channel_and_role(self):
        bench = MeterBench(
            "digit14", "?scale=-10&offset=0.5&role=shunt_voltage&channel=shunt", voltage=lambda _: 0.25
        )
        source = bench.opened()
        block = collect(source, bench, 1)[0]
        assert block.channel == "shunt"
        assert block.values.tolist() == [-2.0]
        assert source.instrument.calibration == {"scale": -10.0, "offset": 0.5}

    def test_a_busy_and_a_missing_port(self):
        bench = MeterBench()
        bench.wire.is_busy = True
        with pytest.raises(CannotOpen, match="in use"):
            bench.opened()
        bench.wire.is_plugged = False
        with pytest.raises(CannotOpen, match="Plug in the cable"):
            bench.opened()

    def test_the_second_display_is_recorded_when_chosen(self):
        main = encode_frame("stx16", 1.5)
        second = bytes.fromhex("02 34 32 33 34 30 33 30 30 30 30 31 35 30 31 0D")
        bench = MeterBench("stx16", "?column=2", device=sending([main + second] * 5, every_s=1.0))
        _, values, _ = joined(read_for(bench.opened(), bench, 6)[0])
        assert set(values) == {1.501}


@pytest.mark.parametrize("kind", ENCODED_KINDS)
def test_losses_come_back_in_the_same_run(kind: str):
    bench = MeterBench(kind, faults=Faults(unplug_after=7, away_s=1.0))
    source = bench.opened()
    blocks: list[Samples] = []
    losses = 0
    for _ in range(200):
        try:
            blocks += source.read(0.2).samples
        except SourceLost:
            losses += 1
            source.close()
            bench.replug()
            source.open(bench.clock)
    assert losses == 1
    check_order(blocks)
    assert sum(map(len, blocks)) > 20
