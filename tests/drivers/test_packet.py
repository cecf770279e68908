"""The board that sends packets, on a fake wire and a pseudo-terminal: contract, times, losses, channels."""

from __future__ import annotations

import math
import os
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray

from drivers.address import parse_address
from drivers.errors import AddressError, CannotOpen, SourceRefused
from drivers.formats.packet import BoardInfo, Flag, encode_data, encode_info
from drivers.packet import PacketSource
from drivers.registry import make_source
from drivers.samples import Notice, Quality, Samples
from drivers.simulated.emulated_packet_board import EmulatedPacketBoard
from drivers.simulated.faults import Faults
from drivers.source import Source
from drivers.testing import FakeClock, FakeWire, ScriptedDevice
from tests.drivers.contract import InstrumentBench, InstrumentContract, check_order, collect
from tests.drivers.pty_bench import PtyBench

PORT = "/dev/ttyFAKE0"
STEP_V = 62.5e-6


def ramp(times_s: NDArray[np.float64]) -> NDArray[np.float64]:
    """A voltage that tells the time at which it was taken, to 6 ms in codes of 62.5 uV."""
    return 0.01 * times_s


def minus(times_s: NDArray[np.float64]) -> NDArray[np.float64]:
    return -0.01 * times_s


class BoardBench(InstrumentBench):
    """An emulated board, or a device that says what it is told, on a fake wire."""

    def __init__(self, query: str = "", *, device: Any = None, chunk: int = 4096, **board: Any) -> None:
        self.fake_clock = clock = FakeClock()
        device = device or EmulatedPacketBoard(**{"signals": [ramp], **board})
        self.wire = FakeWire(device, clock, chunk=chunk)
        super().__init__(
            make=lambda: PacketSource(parse_address(f"packet:{PORT}{query}"), opener=self.wire.open_port),
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

    def opened(self) -> Source:
        source = self.make()
        source.open(self.clock)
        return source


def joined(blocks: list[Samples], channel: str = "cell_voltage") -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    mine = [block for block in blocks if block.channel == channel]
    return (
        np.concatenate([b.times_s for b in mine]),
        np.concatenate([b.values for b in mine]),
        np.concatenate([b.quality for b in mine]),
    )


def read_for(source: Source, bench: BoardBench, duration_s: float) -> tuple[list[Samples], list[Notice]]:
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


class TestContract(InstrumentContract):
    @pytest.fixture
    def bench(self) -> Iterator[InstrumentBench]:
        bench = BoardBench()
        yield bench
        assert all(port.is_closed for port in bench.wire.ports[:-1])


class TestContractOfThreeChannelsInSmallPiecesWithDamage(InstrumentContract):
    @pytest.fixture
    def bench(self) -> InstrumentBench:
        return BoardBench(
            chunk=7,
            signals=[ramp, minus, ramp],
            rate=100.0,
            faults=Faults(drop=0.001, flip=0.001),
            latency_s=0.016,
            start_ticks=2**32 - 2_000_000,
        )


class TestContractOfABoardWithoutInfo(InstrumentContract):
    @pytest.fixture
    def bench(self) -> InstrumentBench:
        return BoardBench(info_every_s=0.0, rate=10.0)


@pytest.mark.skipif(os.name != "posix", reason="pseudo-terminals are POSIX only")
class TestContractOnAPseudoTerminal(InstrumentContract):
    @pytest.fixture
    def bench(self, tmp_path: Path) -> Iterator[InstrumentBench]:
        device = EmulatedPacketBoard([ramp], rate=2000.0)
        bench = PtyBench(
            device, lambda port: PacketSource(parse_address(f"packet:{port}")), tmp_path / "board"
        )
        with bench.served():
            yield bench


class TestTimes:
    def test_every_sample_has_its_time_and_none_is_missing(self):
        bench = BoardBench(skew_ppm=80.0, latency_s=0.016)
        source = bench.opened()
        times_s, values, _ = joined(read_for(source, bench, 30)[0])
        assert np.diff(values).max() < 1.5 * STEP_V, "860 samples a second leave no step of the ramp out"
        assert times_s.size == pytest.approx(30 * 860, abs=70)
        assert np.diff(times_s).min() >= 0
        # 4 ms of quantisation and up to 16 ms by which the very first packet may have been late
        assert np.abs(times_s - values / 0.01).max() < 0.02

    def test_times_are_good_once_the_boards_clock_is_known(self):
        bench = BoardBench(skew_ppm=-500.0, latency_s=0.016, rate=200.0)
        source = bench.opened()
        times_s, values, quality = joined(read_for(source, bench, 60)[0])
        late = times_s > 40
        assert np.abs((times_s - values / 0.01)[late]).max() < 0.006
        assert (quality[late] == 0).all()
        assert (quality[times_s < 9] & Quality.TIME_UNCERTAIN).all()
        facts = source.instrument.clock
        assert facts["method"] == "board-clock, lower envelope"
        assert facts["skew_ppm"] == pytest.approx(500, abs=60)

    def test_the_boards_ticks_are_kept_unwrapped(self):
        bench = BoardBench(start_ticks=2**32 - 1_000_000, rate=500.0)
        blocks, _ = read_for(bench.opened(), bench, 5)
        ticks = np.concatenate([block.board_ticks for block in blocks if block.board_ticks is not None])
        assert ticks.max() > 2**32
        assert np.diff(ticks).tolist() == [2000] * (ticks.size - 1)

    def test_small_pieces_give_the_same_ticks_and_values(self):
        got = []
        for chunk in (3, 4096):
            bench = BoardBench(chunk=chunk, rate=300.0, lose=[9, 10, 40])
            source = bench.opened()
            blocks, _ = read_for(source, bench, 6)
            ticks = np.concatenate([block.board_ticks for block in blocks if block.board_ticks is not None])
            got.append(dict(zip(ticks.tolist(), joined(blocks)[1].tolist(), strict=True)))
        common = sorted(set(got[0]) & set(got[1]))
        assert len(common) > 1500
        assert [got[0][tick] for tick in common] == [got[1][tick] for tick in common]
        inside = [tick for tick in set(got[0]) ^ set(got[1]) if common[0] < tick < common[-1]]
        assert inside == []

    def test_what_was_true_before_the_run_began_is_not_of_it(self):
        bench = BoardBench(rate=100.0, chunk=200)
        source = bench.opened()
        bench.fake_clock.advance_s(4.05)  # another source of the run took long to open
        offset_s = bench.clock.now_s()
        bench.fake_clock.restart()
        bench.wire.device = Shifted(bench.wire.device, offset_s)
        times_s, values, _ = joined(read_for(source, bench, 3)[0])
        assert times_s[0] == pytest.approx(0.005, abs=0.0051)
        assert np.abs(times_s + offset_s - values / 0.01).max() < 0.01

    def test_a_board_without_info_gives_its_samples_their_places_from_the_first_packet_on(self):
        bench = BoardBench(rate=250.0, info_every_s=0.0)
        blocks, _ = read_for(bench.opened(), bench, 2)
        ticks = np.concatenate([block.board_ticks for block in blocks if block.board_ticks is not None])
        assert np.diff(ticks).tolist() == [4000] * (ticks.size - 1)

    def test_bytes_that_came_after_a_packet_tell_how_long_ago_it_was_complete(self):
        """Ten bytes of the next packet lie behind each: 83 ms at 1200 baud."""
        packets = [encode_data(k, 1_000_000 * k, [k], mask=1, range_code=2) for k in range(12)]
        stream = b"".join(packets)
        ends = [sum(map(len, packets[: k + 1])) + 10 for k in range(12)]
        script = [(float(k), stream[a:b]) for k, (a, b) in enumerate(zip([0, *ends], ends, strict=False))]
        bench = BoardBench("?baud=1200&column=0", device=ScriptedDevice(script))
        times_s, values, _ = joined(read_for(bench.opened(), bench, 5)[0])
        assert times_s == pytest.approx(values / STEP_V - 10 * 10 / 1200)


class Shifted:
    """A device whose clock is that of a run begun later."""

    def __init__(self, device: Any, offset_s: float) -> None:
        self._device, self._offset_s = device, offset_s

    def take(self, now_s: float) -> bytes:
        return self._device.take(now_s + self._offset_s)

    def next_due_s(self) -> float:
        return self._device.next_due_s() - self._offset_s


class TestLosses:
    def test_a_lost_packet_is_a_gap_of_the_right_length_and_is_told(self):
        bench = BoardBench(rate=320.0, lose=[60])
        source = bench.opened()
        blocks, notices = read_for(source, bench, 10)
        times_s, _, _ = joined(blocks)
        steps_s = np.diff(times_s)
        gap = int(np.argmax(steps_s))
        assert steps_s[gap] == pytest.approx(33 / 320, rel=1e-3)
        assert np.delete(steps_s, gap).max() == pytest.approx(1 / 320, rel=0.01)
        lost = [notice for notice in notices if notice.code == "packets_lost"]
        assert len(lost) == 1
        assert "1 packets" in lost[0].text
        assert "32 samples" in lost[0].text
        assert source.instrument.details["dropped"] == 1
        assert source.instrument.details["dropped_samples"] == 32

    def test_damaged_packets_are_not_used_and_counted(self):
        bench = BoardBench(faults=Faults(flip=0.0005, drop=0.0005), rate=2000.0)
        source = bench.opened()
        blocks, notices = read_for(source, bench, 10)
        times_s, values, _ = joined(blocks)
        assert {"damaged", "packets_lost"} <= set(codes(notices))
        assert np.abs(times_s - values / 0.01).max() < 0.01
        details = source.instrument.details
        assert details["crc_errors"] >= 10
        sent = round((times_s[-1] - times_s[0]) * 2000) + 1
        assert times_s.size + details["dropped_samples"] == pytest.approx(sent, abs=2)

    def test_a_restart_of_the_board_is_told_and_times_go_on(self):
        bench = BoardBench(rate=320.0, restart_at=70)
        source = bench.opened()
        blocks, notices = read_for(source, bench, 15)
        times_s, values, _ = joined(blocks)
        assert "board_restarted" in codes(notices)
        assert "packets_lost" not in codes(notices)
        check_order(blocks)
        assert np.abs(times_s - values / 0.01).max() < 0.02
        assert source.instrument.details["restarts"] == 1

    def test_what_the_board_says_of_itself_is_told_and_marked(self):
        flags = {20: Flag.OVERFLOW, 30: Flag.SENSOR_ERROR, 40: Flag.CLIPPED}
        bench = BoardBench(rate=320.0, flags=flags)
        source = bench.opened()
        blocks, notices = read_for(source, bench, 8)
        _, _, quality = joined(blocks)
        assert {"board_overflow", "sensor_error"} <= set(codes(notices))
        assert ((quality & Quality.SUSPECT) != 0).sum() == 64

    def test_a_packet_that_comes_twice_is_recorded_once(self):
        packets = [encode_data(k, 100_000 * k, [k], mask=1, range_code=2) for k in range(60)]
        device = ScriptedDevice([(0.1 * k, packet * 2) for k, packet in enumerate(packets)])
        bench = BoardBench(device=device)
        source = bench.opened()
        _, values, _ = joined(read_for(source, bench, 3)[0])
        assert (np.diff(values) > 0).all()
        assert source.instrument.details["duplicates"] == values.size


class TestValues:
    def test_the_divider_of_the_board_is_applied_here(self):
        bench = BoardBench(gain=20.0, signals=[lambda t: np.full(t.shape, 36.0)])
        source = bench.opened()
        _, values, _ = joined(collect(source, bench, 10))
        assert values == pytest.approx(36.0, abs=20 * STEP_V / 2)
        assert source.instrument.calibration == {"board_gain": 20.0, "board_offset_V": 0.0}

    def test_both_ends_of_the_range_are_overload(self):
        signals = [lambda t: np.full(t.shape, 5.0), lambda t: np.full(t.shape, -5.0)]
        bench = BoardBench(signals=signals)
        blocks = collect(bench.opened(), bench, 50)
        assert set(joined(blocks)[1]) == {math.inf}
        assert set(joined(blocks, "input_1")[1]) == {-math.inf}
        assert {int(bits) & ~Quality.TIME_UNCERTAIN for bits in joined(blocks)[2]} == {Quality.OVERLOAD}

    def test_a_range_that_nobody_explains_is_not_recorded(self):
        packets = [encode_data(k, 100_000 * k, [k], mask=1, range_code=77) for k in range(60)]
        bench = BoardBench(device=ScriptedDevice([(0.1 * k, packet) for k, packet in enumerate(packets)]))
        blocks, notices = read_for(bench.opened(), bench, 3)
        assert not blocks
        assert codes(notices) == ["unknown_range"]

    def test_other_dividers_in_the_middle_are_told(self):
        def info(gain: float) -> bytes:
            return encode_info(BoardInfo(1_000_000, 100_000, gains={0: gain}))

        packets = [encode_data(k, 100_000 * k, [16000], mask=1, range_code=2) for k in range(80)]
        script = [(0.1 * k, info(1.0 if k < 40 else 20.0) + packet) for k, packet in enumerate(packets)]
        bench = BoardBench(device=ScriptedDevice(script))
        blocks, notices = read_for(bench.opened(), bench, 7)
        assert set(joined(blocks)[1]) == {1.0, 20.0}
        assert codes(notices) == ["board_changed"]


class TestChannels:
    def test_all_inputs_are_recorded_the_first_as_the_cell(self):
        bench = BoardBench(signals=[ramp, minus, ramp])
        source = bench.opened()
        assert [(c.name, c.role, c.unit) for c in source.channels] == [
            ("cell_voltage", "cell_voltage", "V"),
            ("input_1", "other", "V"),
            ("input_2", "other", "V"),
        ]
        blocks = collect(source, bench, 300)
        assert (joined(blocks, "input_1")[1] == -joined(blocks)[1]).all()

    def test_lists_give_each_input_its_role_and_scale(self):
        query = "?column=2,0&role=shunt_voltage,cell_voltage&scale=-1,10&channel=shunt,cell"
        bench = BoardBench(query, signals=[ramp, minus, minus])
        source = bench.opened()
        assert [(c.name, c.role) for c in source.channels] == [
            ("shunt", "shunt_voltage"),
            ("cell", "cell_voltage"),
        ]
        blocks = collect(source, bench, 300)
        assert joined(blocks, "cell")[1] == pytest.approx(10 * joined(blocks, "shunt")[1])
        assert source.instrument.calibration["cell_scale"] == 10.0

    def test_an_input_that_is_not_sampled_is_refused_by_name(self):
        bench = BoardBench("?column=0,3", signals=[ramp, ramp])
        with pytest.raises(SourceRefused, match="input 3, but the board samples input 0, 1"):
            bench.opened()
        assert bench.wire.ports[-1].is_closed

    def test_more_roles_than_inputs_are_refused(self):
        bench = BoardBench("?role=cell_voltage,shunt_voltage")
        with pytest.raises(SourceRefused, match="2 inputs"):
            bench.opened()

    @pytest.mark.parametrize(
        "query",
        ["?column=8", "?column=a", "?column=0,0", "?column=", "?column=0&role=cell_voltage,other",
         "?role=cell_voltage,anode", "?role=other,other&channel=a,a", "?scale=1,0", "?rate=5"],
    )  # fmt: skip
    def test_a_wrong_list_is_refused_before_anything_is_touched(self, query: str):
        with pytest.raises(AddressError):
            make_source(f"packet:{PORT}{query}")


class TestOpening:
    def test_the_greeting_and_what_the_board_declares_are_kept(self):
        bench = BoardBench(faults=Faults(banner="Galvanote board, firmware 2"), rate=500.0)
        source = bench.opened()
        assert source.instrument.identity == "Galvanote board, firmware 2"
        assert source.instrument.details["rate_per_s"] == pytest.approx(500)
        assert source.instrument.details["baud"] == 115200

    def test_a_board_that_boots_slowly_is_waited_for(self):
        bench = BoardBench(boot_s=2.0)
        assert collect(bench.opened(), bench, 10)

    def test_silence_cannot_be_opened_but_a_named_input_can(self):
        bench = BoardBench(device=ScriptedDevice())
        with pytest.raises(CannotOpen, match="Nothing arrives"):
            bench.opened()
        assert bench.wire.ports[-1].is_closed
        named = BoardBench("?column=0", device=ScriptedDevice())
        assert [channel.name for channel in named.opened().channels] == ["cell_voltage"]

    def test_text_is_refused_with_what_may_be_wrong(self):
        bench = BoardBench(device=ScriptedDevice([(0.1 * k, b"1.2345\r\n") for k in range(100)]))
        with pytest.raises(SourceRefused, match="115200 baud may be wrong"):
            bench.opened()

    def test_what_turns_to_nonsense_later_is_told(self):
        bench = BoardBench(rate=320.0)
        source = bench.opened()
        collect(source, bench, 100)
        now_s = bench.clock.now_s()
        bench.wire.device = ScriptedDevice([(now_s + 0.1 * k, b"1.2345\r\n" * 4) for k in range(100)])
        _, notices = read_for(source, bench, 8)
        assert codes(notices) == ["not_understood"]

    def test_a_second_opening_does_not_wait(self):
        bench = BoardBench()
        source = bench.opened()
        collect(source, bench, 100)
        source.close()
        before_s = bench.clock.now_s()
        source.open(bench.clock)
        assert bench.clock.now_s() - before_s < 0.01

    def test_losses_of_all_openings_are_added_up(self):
        bench = BoardBench(rate=320.0, lose=[60, 160])
        source = bench.opened()
        read_for(source, bench, 8)
        source.close()
        source.open(bench.clock)
        read_for(source, bench, 10)
        assert source.instrument.details["dropped"] == 2
