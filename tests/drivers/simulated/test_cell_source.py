import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drivers.errors import AddressError, CannotOpen, SourceEnded, SourceError, SourceLost
from drivers.registry import make_source
from drivers.samples import Delivery
from drivers.simulated.cell import LessonCell
from drivers.simulated.cell_source import CellSource
from drivers.simulated.lesson import SIMULATED
from drivers.source import Source
from drivers.testing import FakeClock
from tests.drivers.contract import Bench, SourceContract


class TestContract(SourceContract):
    @pytest.fixture
    def bench(self) -> Bench:
        return Bench(lambda: make_source("cell:demo?rate=5&speed=10&fault=dropouts"), FakeClock(10.0))


class TestContractWithFastSamples(SourceContract):
    @pytest.fixture
    def bench(self) -> Bench:
        return Bench(lambda: make_source("cell:demo?rate=100000"), FakeClock())


def opened(address: str, *, now_s: float = 0.0) -> tuple[Source, FakeClock]:
    source = make_source(address)
    clock = FakeClock(source.speed)
    clock.advance_s(now_s)
    source.open(clock)
    return source, clock


def read_until(
    error: type[SourceError], source: Source, timeout_s: float = 1.0
) -> tuple[list[Delivery], SourceError]:
    deliveries = []
    try:
        while True:
            deliveries.append(source.read(timeout_s))
    except error as reason:
        return deliveries, reason


def read_to_end(source: Source) -> list[Delivery]:
    return read_until(SourceEnded, source)[0]


def joined(deliveries: list[Delivery]) -> tuple[np.ndarray, np.ndarray]:
    blocks = [block for delivery in deliveries for block in delivery.samples]
    return np.concatenate([b.times_s for b in blocks]), np.concatenate([b.values for b in blocks])


def test_a_whole_lesson_comes_sample_by_sample_and_ends() -> None:
    source, clock = opened("cell:demo?seed=3&rate=3&speed=120")
    deliveries = read_to_end(source)
    times_s, values = joined(deliveries)
    assert np.array_equal(times_s, np.arange(1665 * 3) / 3)
    assert np.array_equal(values, LessonCell("demo", 3).block(times_s))
    assert clock.now_s() == pytest.approx(1665, abs=120 * 0.1)
    moments = [moment for delivery in deliveries for moment in delivery.moments]
    assert tuple(moments) == LessonCell("demo", 3).moments
    with pytest.raises(SourceEnded):  # and stays ended
        source.read(0.0)


def test_a_moment_comes_with_the_samples_around_it() -> None:
    source, _ = opened("cell:demo?speed=50")
    for delivery in read_to_end(source):
        for moment in delivery.moments:
            assert delivery.samples[0].times_s[-1] >= moment.time_s - 0.34
            assert delivery.samples[0].times_s[0] <= moment.time_s + 1.01


def test_nothing_comes_before_its_time() -> None:
    source, clock = opened("cell:demo?rate=2")
    for _ in range(50):
        delivery = source.read(0.3)
        for block in delivery.samples:
            assert block.times_s[-1] <= clock.now_s()
            assert clock.now_s() - block.times_s[-1] < 0.01  # and at once when it is due
    assert clock.now_s() <= 50 * 0.3 + 1e-9


def test_a_read_waits_no_longer_than_it_was_allowed() -> None:
    source, clock = opened("cell:demo?rate=0.01&speed=10")
    source.read(0.0)
    before_s = clock.now_s()
    assert source.read(0.25) == Delivery()
    assert clock.now_s() - before_s == pytest.approx(0.25 * 10)


@settings(max_examples=30)
@given(
    rate=st.sampled_from([0.7, 3.0, 7.0, 1000.0, 44100.0, 100000.0]),
    speed=st.sampled_from([1.0, 37.0, 1000.0]),
    pauses_s=st.lists(st.floats(0, 0.3), min_size=1, max_size=20),
)
def test_time_stamps_are_exact_and_none_is_left_out(rate: float, speed: float, pauses_s: list[float]) -> None:
    source, clock = opened(f"cell:bench?rate={rate}&speed={speed}")
    blocks = []
    for pause_s in pauses_s:
        clock.advance_s(pause_s)
        for block in source.read(0.05).samples:
            blocks.append(block.times_s)
            assert block.times_s.size <= max(1, min(50_000, rate * speed * 0.1))
            assert block.times_s[-1] <= clock.now_s()
    times_s = np.concatenate(blocks)
    assert np.array_equal(times_s, np.arange(times_s.size) / rate)


def test_fast_samples_come_in_blocks_a_few_dozen_times_a_second() -> None:
    source, clock = opened("cell:demo?rate=100000")
    sizes = [source.read(1.0).samples[0].times_s.size for _ in range(50)]
    assert clock.now_s() == pytest.approx(0.98, abs=0.03)  # 50 deliveries, 20 ms apart
    assert max(sizes) <= 2001


def test_a_late_reader_catches_up_in_bounded_blocks() -> None:
    source, clock = opened("cell:demo?rate=1000")
    source.read(0.1)
    clock.advance_s(5.0)
    sizes = [source.read(0.1).samples[0].times_s.size for _ in range(100)]
    assert max(sizes) == 100
    assert sizes[0] == 100
    assert sizes[-1] <= 21  # caught up


def test_the_lesson_begins_with_the_run_even_if_opening_took_a_while() -> None:
    source, _ = opened("cell:demo?rate=1", now_s=3.5)
    deliveries = [source.read(1.0) for _ in range(6)]
    assert joined(deliveries)[0].tolist() == [0, 1, 2, 3, 4, 5]


def test_what_was_missed_between_close_and_open_stays_missed() -> None:
    source, clock = opened("cell:demo?rate=2")
    first = [source.read(1.0) for _ in range(4)]
    source.close()
    source.close()
    clock.advance_s(10.2)
    source.open(clock)
    second = [source.read(1.0) for _ in range(2)]
    assert joined(first)[0].tolist() == [0, 0.5, 1, 1.5]
    assert joined(second)[0].tolist() == [12, 12.5]
    assert joined(second)[1].tolist() == LessonCell().block(np.array([12, 12.5])).tolist()


def test_an_unplugged_cell_is_lost_and_comes_back() -> None:
    # The demo lesson's cable is out from 645 s to 665 s.
    source, clock = opened("cell:demo?fault=unplug&rate=3&speed=100")
    deliveries, reason = read_until(SourceLost, source)
    assert "pulled at 645 s" in str(reason)
    assert "after 665 s" in str(reason)
    times_s, _ = joined(deliveries)
    assert times_s[-1] == 1934 / 3  # the last before 645 s
    with pytest.raises(SourceLost, match="open it"):
        source.read(0.1)
    source.close()
    with pytest.raises(CannotOpen, match="still out"):
        source.open(clock)
    clock.advance_s(21.0)
    back_s = clock.now_s()
    source.open(clock)
    later_s, _ = joined([source.read(0.1)])
    assert 0 <= later_s[0] - back_s < 1 / 3
    read_to_end(source)  # once is enough


def test_an_unplugging_is_told_even_to_a_reader_who_slept_through_it() -> None:
    source, clock = opened("cell:demo?fault=unplug&rate=1&speed=10000")
    source.read(0.0)
    clock.advance_s(900.0)
    deliveries, _ = read_until(SourceLost, source)
    assert joined(deliveries)[0][-1] == 644
    assert [m.kind for d in deliveries for m in d.moments] == ["buffer_in", "salt_added"]
    source.open(clock)
    assert joined([source.read(0.1)])[0][0] >= 900


def test_a_silent_cell_says_nothing_and_goes_on() -> None:
    # The demo lesson is silent from 465 s to 485 s.
    source, _ = opened("cell:demo?fault=silence&rate=4&speed=100")
    times_s, _ = joined(read_to_end(source))
    expected = np.arange(1665 * 4) / 4
    assert np.array_equal(times_s, expected[(expected < 465) | (expected >= 485)])


def test_a_dropout_is_no_sample() -> None:
    source, _ = opened("cell:demo?fault=dropouts&rate=20&speed=1000&seed=1")
    times_s, values = joined(read_to_end(source))
    assert np.isfinite(values).all()
    assert 10 < 1665 * 20 - times_s.size < 60  # 33 expected
    assert np.isin(times_s, np.arange(1665 * 20) / 20).all()


def test_scale_and_offset_and_names_of_the_address_hold() -> None:
    source, _ = opened("cell:demo?scale=2&offset=0.5&channel=shunt&role=shunt_voltage&name=left")
    block = source.read(1.0).samples[0]
    assert block.channel == "shunt"
    assert block.values[0] == 2 * LessonCell().voltage_V(0.0) + 0.5
    assert source.channels[0].role == "shunt_voltage"
    assert dict(source.instrument.calibration) == {"scale": 2.0, "offset": 0.5}
    assert source.instrument.details["name"] == "left"


def test_the_instrument_says_that_it_is_invented_and_holds_the_truth() -> None:
    source = make_source("cell:bench?seed=4&noise=rough&fault=reversed_leads,dropouts")
    instrument = source.instrument
    assert instrument.identity == "simulated cell (invented data)"
    assert instrument.address == "cell:bench?seed=4&noise=rough&fault=reversed_leads,dropouts"
    # Section 10 of the chemistry reference: 254.556896 mV.
    assert instrument.details["truth_saved_V"] == pytest.approx(0.254556896, abs=1e-9)
    assert instrument.details["truth_salt_added_s"] == 2420
    assert instrument.details["seed"] == 4
    assert instrument.details["fault"] == "dropouts,reversed_leads"
    truth = {k: v for k, v in instrument.details.items() if k.startswith("truth_")}
    assert all(isinstance(value, float) for value in truth.values())


def test_all_labels_are_marked() -> None:
    source, _ = opened("cell:demo?speed=10000")
    labels = [moment.label for delivery in read_to_end(source) for moment in delivery.moments]
    assert len(labels) == 6
    assert all(label.endswith(SIMULATED) for label in labels)


def test_slow_readings_are_not_called_silence() -> None:
    assert make_source("cell:demo?rate=0.1").silent_after_s == pytest.approx(30)
    assert make_source("cell:demo").silent_after_s == 3


def test_speed_is_the_address_s() -> None:
    assert make_source("cell:demo?speed=120").speed == 120
    assert make_source("cell:demo").speed == 1


@pytest.mark.parametrize(
    ("address", "message"),
    [
        ("cell:dmo", "did you mean demo"),
        ("cell:demo?noise=loud", "no noise 'loud'"),
        ("cell:demo?fault=unplugged", "did you mean unplug"),
        ("cell:demo?rate=100001", "outside 0.001 to 100000"),
        ("cell:demo?rate=0", "outside"),
        ("cell:demo?speed=0.5", "outside 1 to 10000"),
        ("cell:demo?seed=1.5", "whole number"),
        ("cell:demo?seed=-1", "outside"),
        ("cell:demo?sed=1", "did you mean seed"),
        ("cell:demo?role=voltage", "no role"),
    ],
)
def test_a_wrong_address_is_refused(address: str, message: str) -> None:
    with pytest.raises(AddressError, match=message) as refusal:
        make_source(address)
    assert address in str(refusal.value)


def test_reading_before_opening_is_no_crash() -> None:
    source = make_source("cell:demo")
    assert isinstance(source, CellSource)
    with pytest.raises(SourceLost, match="not open"):
        source.read(0.0)
    source.close()
