"""The queried meter on a fake wire: contract, times, and every way in which an answer can go wrong."""

from __future__ import annotations

import contextlib
import math
from collections.abc import Iterator
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drivers.address import parse_address
from drivers.errors import AddressError, CannotOpen, SourceError, SourceLost, SourceRefused
from drivers.registry import make_source
from drivers.samples import Notice, Quality, Samples
from drivers.scpi import ScpiSource
from drivers.simulated.emulated_meter import EmulatedMeter
from drivers.simulated.faults import Faults
from drivers.testing import FakeClock, FakeWire, ScriptedDevice
from tests.drivers.contract import InstrumentBench, InstrumentContract, check_order, collect


def ramp(time_s: float) -> float:
    """A voltage that tells the time at which it was taken."""
    return 1.0 + 0.001 * time_s


class MeterBench(InstrumentBench):
    """An emulated meter on a fake wire."""

    def __init__(self, query: str = "", *, chunk: int = 4096, **meter: Any) -> None:
        clock = FakeClock()
        self.meter = EmulatedMeter(**{"voltage": ramp, **meter})
        self.wire = FakeWire(self.meter, clock, chunk=chunk)
        self.fake_clock = clock
        super().__init__(
            make=lambda: ScpiSource(parse_address("scpi:/dev/ttyFAKE0" + query), opener=self.wire.open_port),
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

    def opened(self) -> ScpiSource:
        source = self.make()
        source.open(self.clock)
        assert isinstance(source, ScpiSource)
        return source


def joined(blocks: list[Samples]) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    return (
        np.concatenate([b.times_s for b in blocks]),
        np.concatenate([b.values for b in blocks]),
        np.concatenate([b.quality for b in blocks]),
    )


class TestContract(InstrumentContract):
    @pytest.fixture
    def bench(self) -> Iterator[InstrumentBench]:
        bench = MeterBench()
        yield bench
        assert all(port.is_closed for port in bench.wire.ports[:-1])


class TestContractInSmallPieces(InstrumentContract):
    @pytest.fixture
    def bench(self) -> InstrumentBench:
        return MeterBench(chunk=1, faults=Faults(echo=True))


class TestTimes:
    def test_a_reading_is_stamped_in_the_middle_of_the_round_trip(self):
        """The meter takes its value at mid-conversion, so the ramp tells how wrong the stamp is."""
        bench = MeterBench("?rate=5", conversion_s=0.1)
        times_s, values, _ = joined(collect(bench.opened(), bench, 20))
        taken_s = (values - 1.0) / 0.001
        assert np.abs(times_s - taken_s).max() < 0.011  # half of 10 uV steps of the ramp, and byte times

    def test_the_schedule_does_not_drift(self):
        bench = MeterBench("?rate=4")
        times_s, _, _ = joined(collect(bench.opened(), bench, 100))
        slots = (times_s - times_s[0]) / 0.25
        assert np.abs(slots - np.arange(100)).max() < 0.01

    def test_a_slow_meter_skips_slots_and_says_so(self):
        bench = MeterBench("?rate=10", conversion_s=0.15)
        source = bench.opened()
        notices = []
        for _ in range(200):
            notices += source.read(0.2).notices
        assert [notice.code for notice in notices] == ["rate_limited"]
        assert "10 were asked for" in notices[0].text

    def test_a_busy_reader_does_not_make_it_catch_up(self):
        bench = MeterBench("?rate=2")
        source = bench.opened()
        collect(source, bench, 3)
        bench.fake_clock.advance_s(60.0)
        before_s = bench.clock.now_s()
        times_s, _, _ = joined(collect(source, bench, 4))
        assert times_s[-1] - before_s == pytest.approx(1.5, abs=0.6)

    def test_a_program_that_stood_still_is_no_slow_meter(self):
        bench = MeterBench("?rate=2")
        source = bench.opened()
        collect(source, bench, 30)
        bench.fake_clock.advance_s(100.0)
        notices = [notice.code for _ in range(200) for notice in source.read(0.2).notices]
        assert notices == []

    def test_uncertainty_is_half_the_round_trip(self):
        bench = MeterBench(conversion_s=0.2)
        source = bench.opened()
        assert source.instrument.clock["uncertainty_s"] == pytest.approx(0.1, abs=0.015)

    def test_an_unusually_slow_answer_is_flagged(self):
        bench = MeterBench(faults=Faults(stall_at=12, stall_s=0.4))
        _, _, quality = joined(collect(bench.opened(), bench, 20))
        assert (quality == Quality.TIME_UNCERTAIN).sum() == 1

    def test_read_waits_no_longer_than_asked_for(self):
        bench = MeterBench("?rate=0.1")
        source = bench.opened()
        collect(source, bench, 1)
        before_s = bench.clock.now_s()
        assert not source.read(0.3).samples
        assert bench.clock.now_s() - before_s == pytest.approx(0.3, abs=0.01)


class TestAnswersThatGoWrong:
    """The ramp gives each reading away: an answer to an earlier query would be too old."""

    def fresh(self, bench: MeterBench, source: ScpiSource, count: int) -> np.ndarray:
        bench.most_reads = 2000
        times_s, values, quality = joined(collect(source, bench, count))
        age_s = times_s - (values - 1.0) / 0.001
        sure = (quality & Quality.SUSPECT) == 0
        assert np.abs(age_s[sure]).max() < 0.25, "an answer was taken for that of another query"
        return quality

    @pytest.mark.parametrize("late_s", [0.3, 0.9, 1.1, 1.29, 1.5, 2.0, 2.9, 4.0, 7.0])
    def test_a_late_answer_is_never_taken_for_the_next(self, late_s: float):
        bench = MeterBench(faults=Faults(late_every=7, late_s=late_s), voltage=steep)
        times_s, values, _ = joined(through_losses(bench, bench.opened(), 300))
        assert times_s.size > 40
        age_s = times_s - values / 0.01
        assert np.abs(age_s).max() < 0.5 + 0.03

    def test_late_answers_of_a_meter_without_a_name(self):
        meter = EmulatedMeter(steep, faults=Faults(late_every=6, late_s=1.6))
        bench = MeterBench()
        bench.wire.device = Nameless(meter)
        source = bench.opened()
        assert source.instrument.identity == ""
        bench.most_reads = 2000
        times_s, values, _ = joined(collect(source, bench, 20))
        assert np.abs(times_s - values / 0.01).max() < 0.53

    def test_lost_answers_cost_a_reading_each(self):
        bench = MeterBench(faults=Faults(lost_every=9))
        self.fresh(bench, bench.opened(), 40)

    @pytest.mark.parametrize("seed", range(8))
    def test_dropped_and_flipped_bytes(self, seed: int):
        bench = MeterBench(faults=Faults(drop=0.004, flip=0.002, garbage=0.02, seed=seed))
        blocks = through_losses(bench, bench.opened(), 600)
        assert len(blocks) > 100
        check_order(blocks)

    @pytest.mark.parametrize("seed", range(8))
    def test_a_number_that_lost_a_byte_is_refused_or_suspect(self, seed: int):
        bench = MeterBench(faults=Faults(drop=0.001, seed=seed))
        times_s, values, quality = joined(through_losses(bench, bench.opened(), 2000))
        assert (quality == Quality.SUSPECT).any()
        good = quality == Quality.GOOD
        good[:100] = False  # the usual shape of a number is learned from these
        assert good.sum() > 100
        assert np.abs(times_s - (values - 1.0) / 0.001)[good].max() < 0.25

    def test_echo_and_flow_control(self):
        bench = MeterBench(faults=Faults(echo=True))
        source = bench.opened()
        self.fresh(bench, source, 20)
        assert source.instrument.details["echo"] == "yes"

    def test_a_banner_is_no_identity(self):
        bench = MeterBench(faults=Faults(banner="Ready."))
        assert bench.opened().instrument.identity == bench.meter.identity

    def test_two_values_are_refused_with_the_reason(self):
        bench = MeterBench()
        bench.meter = bench.wire.device = EmulatedMeter(ramp)
        source = bench.opened()
        collect(source, bench, 2)
        spoiled = ScriptedDevice(answer=answers({b"READ?": b"+1.2E+00,+1.3E+00", b"*IDN?": IDENTITY}))
        bench.wire.device = spoiled
        notices, samples = until_lost(source)
        assert not samples
        assert notices[0].code == "answer_refused"
        assert "two values" in notices[0].text

    @pytest.mark.parametrize(("faults", "is_missing"), [({}, False), ({"lost_every": 12}, True)])
    def test_a_query_in_vain_is_a_gap(self, faults, is_missing):
        """From the last reading before to the first one after; the other way round nothing is missing."""
        bench = MeterBench("?rate=2", faults=Faults(**faults))
        source = bench.opened()
        deliveries = [source.read(0.5) for _ in range(100)]
        times_s = np.concatenate([block.times_s for one in deliveries for block in one.samples])
        stretches = [one for delivery in deliveries for one in delivery.missing]
        steps = np.flatnonzero(np.diff(times_s) > 0.75)
        assert [one.begin_s for one in stretches] == times_s[steps].tolist()
        assert [one.end_s for one in stretches] == times_s[steps + 1].tolist()
        assert all("did not answer in time" in one.reason for one in stretches)
        assert (len(stretches) > 2) == is_missing

    def test_not_a_number_is_no_sample_and_said_once(self):
        bench = MeterBench()
        source = bench.opened()
        collect(source, bench, 1)
        bench.wire.device = ScriptedDevice(answer=answers({b"READ?": b"+9.91000000E+37"}))
        deliveries = [source.read(0.5) for _ in range(20)]
        assert not any(delivery.samples for delivery in deliveries)
        assert [n.code for delivery in deliveries for n in delivery.notices] == ["no_value"]

    def test_overload_is_recorded_as_such(self):
        bench = MeterBench(voltage=lambda time_s: -50.0, range_V=10.0)
        _, values, quality = joined(collect(bench.opened(), bench, 3))
        assert values.tolist() == [-math.inf] * 3
        assert quality.tolist() == [Quality.OVERLOAD] * 3

    def test_a_meter_that_falls_silent_is_lost_within_seconds(self):
        bench = MeterBench()
        source = bench.opened()
        collect(source, bench, 2)
        bench.hush()
        before_s = bench.clock.now_s()
        notices, samples = until_lost(source)
        assert not samples
        assert notices[0].code == "no_answer"
        assert bench.clock.now_s() - before_s < 15

    def test_the_meter_is_asked_why_and_its_error_is_told(self):
        bench = MeterBench()
        source = bench.opened()
        collect(source, bench, 2)
        sulking = ScriptedDevice(
            answer=answers({b"*IDN?": IDENTITY, b"SYST:ERR?": b'-410,"Query INTERRUPTED"'})
        )
        bench.wire.device = sulking
        notices, _ = until_lost(source)
        assert "meter_error" in [notice.code for notice in notices]
        assert any("-410, Query INTERRUPTED" in notice.text for notice in notices)
        assert b"*CLS\n" in sulking.received

    def test_never_two_queries_outstanding(self):
        bench = MeterBench(faults=Faults(late_every=5, late_s=0.5))
        watched = Watched(bench.meter)
        bench.wire.device = watched
        source = bench.opened()
        bench.most_reads = 2000
        collect(source, bench, 40)
        assert watched.most_outstanding == 1


class TestOpening:
    def test_the_identity_is_kept_as_the_meter_gave_it(self):
        bench = MeterBench("?name=red%20meter")
        instrument = bench.opened().instrument
        assert instrument.identity == "Galvanote,emulated meter,0,1"
        assert instrument.details["configuration"] == '"VOLT +1.000000E+02,+1.000000E-05"'
        assert instrument.details["baud"] == 9600

    @pytest.mark.parametrize("seed", range(6))
    def test_an_identity_that_lost_a_byte_is_asked_again(self, seed: int):
        bench = MeterBench(faults=Faults(drop=0.01, seed=seed))
        assert bench.opened().instrument.identity == bench.meter.identity

    @pytest.mark.parametrize("seed", range(1, 6))
    def test_a_line_that_goes_on_losing_bytes_is_read_all_the_same(self, seed: int):
        """Half of the answers to *IDN? are then damaged; none may keep later answers from counting."""
        bench = MeterBench("?rate=2", faults=Faults(drop=0.02, seed=seed))
        source = bench.opened()
        values = []
        while bench.clock.now_s() < 60.0:
            values += [float(v) for block in source.read(0.2).samples for v in block.values]
        assert len(values) > 80
        assert source.instrument.identity == "Galvanote,emulated meter,0,1"

    def test_another_meter_in_the_same_run_is_refused(self):
        bench = MeterBench()
        source = bench.opened()
        collect(source, bench, 2)
        source.close()
        bench.meter.identity = "Galvanote,another meter,0,1"
        with pytest.raises(SourceRefused, match="another meter"):
            source.open(bench.clock)
        bench.wire.clock = new_run = FakeClock()
        bench.wire.device = bench.meter = EmulatedMeter(ramp)
        bench.meter.identity = "Galvanote,another meter,0,1"
        source.open(new_run)

    def test_the_meter_is_never_reset_nor_taken_over_without_need(self):
        bench = MeterBench()
        source = bench.opened()
        collect(source, bench, 3)
        source.close()
        assert set(bench.meter.commands) == {"*IDN?", "CONF?", "READ?"}

    def test_a_meter_that_obeys_its_keys_is_taken_over_and_handed_back(self):
        bench = MeterBench(needs_remote=True)
        source = bench.opened()
        collect(source, bench, 3)
        source.close()
        assert "SYST:REM" in bench.meter.commands
        assert bench.meter.commands[-1] == "SYST:LOC"

    @pytest.mark.parametrize("function", ['"VOLT:AC 10"', '"RES"', "CURR:DC 1"])
    def test_a_meter_on_another_function_is_refused(self, function: str):
        bench = MeterBench(configuration=function)
        with pytest.raises(SourceRefused, match="DC volts"):
            bench.opened()
        assert bench.wire.ports[-1].is_closed

    def test_a_board_that_talks_unasked_is_refused_with_the_remedy(self):
        bench = MeterBench()
        bench.wire.device = ScriptedDevice([(0.1 * k, b"1.2345\r\n") for k in range(1000)])
        with pytest.raises(SourceRefused, match="text:/dev/ttyFAKE0"):
            bench.opened()
        assert bench.wire.ports[-1].is_closed

    def test_silence_cannot_be_opened(self):
        bench = MeterBench()
        bench.hush()
        with pytest.raises(CannotOpen, match="does not answer READ"):
            bench.opened()
        assert bench.wire.ports[-1].is_closed
        assert bench.clock.now_s() < 25

    def test_while_nobody_answers_it_says_which_question_waits_and_what_to_look_at(self):
        bench = MeterBench()
        told: list[tuple[float, str]] = []

        def listen(_data: bytes) -> tuple[()]:
            told.append((bench.clock.now_s(), source.waits_for))
            return ()

        source = bench.make()
        bench.wire.device = ScriptedDevice(answer=listen)
        with pytest.raises(CannotOpen):
            source.open(bench.clock)
        assert told[0][0] < 1
        assert told[0][1].startswith("The meter on /dev/ttyFAKE0 was asked who it is (*IDN?)")
        asks_for_power_s = next(time_s for time_s, words in told if "Is it on" in words)
        assert asks_for_power_s < 4
        assert "(READ?)" in told[-1][1]
        assert "9600 baud" in told[-1][1]
        assert source.waits_for == ""

    def test_a_slow_meter_is_named_while_it_is_waited_for(self):
        bench = MeterBench(conversion_s=8.0)
        told: list[str] = []
        receive = bench.meter.receive

        def listen(data: bytes, now_s: float) -> None:
            told.append(source.waits_for)
            receive(data, now_s)

        bench.meter.receive = listen  # type: ignore[method-assign]
        source = bench.make()
        source.open(bench.clock)
        assert any(f"{bench.meter.identity} on /dev/ttyFAKE0 was asked for a reading" in one for one in told)
        assert "a slow meter may take 10 s" in told[-1]
        assert source.waits_for == ""

    def test_a_meter_that_answers_nonsense_is_refused(self):
        bench = MeterBench()
        bench.wire.device = ScriptedDevice(answer=answers({b"READ?": b"hello", b"*IDN?": IDENTITY}))
        with pytest.raises(SourceRefused, match="'hello'"):
            bench.opened()

    def test_a_slow_meter_is_waited_for(self):
        bench = MeterBench("?rate=0.2", conversion_s=4.0)
        source = bench.opened()
        bench.most_reads = 400
        times_s, values, _ = joined(collect(source, bench, 4))
        assert np.abs(times_s - (values - 1.0) / 0.001).max() < 0.02

    def test_a_busy_and_a_missing_port(self):
        bench = MeterBench()
        bench.wire.is_busy = True
        with pytest.raises(CannotOpen, match="in use"):
            bench.opened()
        bench.wire.is_plugged = False
        with pytest.raises(CannotOpen, match="Plug in the cable"):
            bench.opened()


class TestAddress:
    @pytest.mark.parametrize(
        "query", ["?rate=0", "?rate=fast", "?baud=1.5", "?baud=9999999999", "?role=anode", "?column=2"]
    )
    def test_a_wrong_key_or_value_is_refused_before_anything_is_touched(self, query: str):
        with pytest.raises(AddressError):
            make_source("scpi:/dev/ttyFAKE0" + query)

    def test_scale_offset_channel_and_role(self):
        bench = MeterBench("?scale=-10&offset=0.5&role=shunt_voltage&channel=shunt", voltage=lambda _: 0.25)
        source = bench.opened()
        block = collect(source, bench, 1)[0]
        assert block.channel == "shunt"
        assert block.values.tolist() == [-2.0]
        assert source.instrument.calibration == {"scale": -10.0, "offset": 0.5}

    def test_slow_schedules_are_not_called_silent(self):
        source = make_source("scpi:/dev/ttyFAKE0?rate=0.1")
        assert source.silent_after_s == 100.0


IDENTITY = b"Galvanote,emulated meter,0,1"


def steep(time_s: float) -> float:
    """10 mV a second: a reading half a second old is 5 mV off."""
    return 0.01 * time_s


def until_lost(source: ScpiSource) -> tuple[list[Notice], list[Samples]]:
    """Read until the source is lost; return what it said and gave."""
    notices: list[Notice] = []
    samples: list[Samples] = []
    for _ in range(60):
        try:
            delivery = source.read(0.2)
        except SourceLost:
            return notices, samples
        notices += delivery.notices
        samples += delivery.samples
    raise AssertionError("never lost")


def through_losses(bench: MeterBench, source: ScpiSource, reads: int) -> list[Samples]:
    """Read so many times, opening again after each loss as a recorder does."""
    blocks: list[Samples] = []
    for _ in range(reads):
        try:
            blocks += source.read(0.2).samples
        except SourceLost:
            open_again(bench, source)
    return blocks


def open_again(bench: MeterBench, source: ScpiSource) -> None:
    for _ in range(10):
        try:
            source.open(bench.clock)
        except (CannotOpen, SourceRefused):
            continue
        return
    raise AssertionError("it cannot be opened again")


def answers(table: dict[bytes, bytes]):
    def answer(data: bytes):
        return [(0.01, table[line] + b"\r\n") for line in data.split(b"\n") if line in table]

    return answer


PIECES = [
    b"+1.0E+00",
    b"*IDN?",
    b"READ?",
    IDENTITY,
    b'0,"No error"',
    b"\n",
    b"\r\n",
    b"\xff\x00",
    b"9.9E37",
    b'"VOLT"',
    b'"RES"',
    b"1,2",
    b"\x11",
    b'-1,"x"',
    b"",
]


@given(
    answered=st.lists(
        st.tuples(st.sampled_from([0.01, 0.2, 1.5, 4.0]), st.lists(st.sampled_from(PIECES), max_size=5)),
        max_size=60,
    )
)
@settings(max_examples=60)
def test_whatever_answers_only_errors_of_this_floor_come_out(
    answered: list[tuple[float, list[bytes]]],
):
    queue = iter(answered)

    def answer(data: bytes):
        delay_s, pieces = next(queue, (0.01, [b"+1.5E+00\n"]))
        return [(delay_s, b"".join(pieces))]

    bench = MeterBench()
    bench.wire.device = ScriptedDevice(answer=answer)
    source = bench.make()
    for _ in range(3):
        with contextlib.suppress(SourceError):
            source.open(bench.clock)
            collect(source, bench, 20)
    source.close()
    assert all(port.is_closed for port in bench.wire.ports)


class Nameless:
    """A meter that knows neither ``*IDN?`` nor ``SYST:ERR?``."""

    def __init__(self, meter: EmulatedMeter) -> None:
        self._meter = meter
        self.attach, self.next_due_s, self.take = meter.attach, meter.next_due_s, meter.take

    def receive(self, data: bytes, now_s: float) -> None:
        if b"IDN" not in data and b"ERR" not in data:
            self._meter.receive(data, now_s)


class Watched:
    """Counts the queries that have no answer yet."""

    def __init__(self, meter: EmulatedMeter) -> None:
        self._meter = meter
        self.attach, self.next_due_s = meter.attach, meter.next_due_s
        self._outstanding = 0
        self.most_outstanding = 0

    def receive(self, data: bytes, now_s: float) -> None:
        self._outstanding += data.count(b"?")
        self.most_outstanding = max(self.most_outstanding, self._outstanding)
        self._meter.receive(data, now_s)

    def take(self, now_s: float) -> bytes:
        data = self._meter.take(now_s)
        self._outstanding -= data.count(b"\n")
        return data
