"""The layout of a recording: the contract, section 3."""

import math
import tracemalloc
from pathlib import Path

import h5py
import numpy as np
import pytest

from drivers.errors import AddressError, CannotOpen, SourceEnded, SourceError, SourceLost
from drivers.registry import make_source
from drivers.samples import Delivery, Quality, Samples, TaggedMoment
from drivers.source import Source
from drivers.testing import FakeClock
from tests.drivers.contract import Bench, SourceContract

MOMENTS = (
    TaggedMoment(0.5, "buffer_in", "buffer without salt (simulated)"),
    TaggedMoment(2.5, "salt_added", "µ = −1 “quoted”"),
    TaggedMoment(40.0, "note", "after the last sample"),
)


def write_channel(
    run: h5py.Group, name: str, times_s: np.ndarray, values: np.ndarray, role: str = "cell_voltage"
) -> None:
    group = run.create_group(name)
    group.attrs.update(NX_class="NXdata", signal="value", axes=["time"], role=role)
    chunks = {"maxshape": (None,), "chunks": (4096,), "compression": "gzip"}
    group.create_dataset("time", data=times_s, **chunks).attrs["units"] = "s"
    group.create_dataset("value", data=values, **chunks).attrs["units"] = "V"
    quality = np.where(np.isinf(values), np.uint8(Quality.OVERLOAD), np.uint8(0))
    group.create_dataset("quality", data=quality, dtype="u1", **chunks)
    group.create_group("overview").attrs["NX_class"] = "NXcollection"


def write_recording(path: Path, times_s: np.ndarray, values: np.ndarray, **more: np.ndarray) -> Path:
    with h5py.File(path, "w") as file:
        run = file.create_group("run")
        run.attrs.update(NX_class="NXentry", default="cell_voltage")
        run["title"] = "Monday"
        run["start_time"] = "2025-11-24T10:00:00+01:00"
        write_channel(run, "cell_voltage", times_s, values)
        for name, extra in more.items():
            write_channel(run, name, times_s, extra, role="anode_potential")
        moments = run.create_group("moments")
        moments["time"] = [m.time_s for m in MOMENTS]
        for field in ("kind", "label"):
            texts = [getattr(m, field) for m in MOMENTS]
            moments.create_dataset(field, data=texts, dtype=h5py.string_dtype())
        sensor = run.create_group("instrument/cell_voltage")
        sensor["address"] = "cell:demo"
        sensor["identity"] = "simulated cell (invented data)"
        sensor["details/truth_saved_V"] = 0.25
        sensor["details/noise"] = "lesson"
    return path


@pytest.fixture
def recording(tmp_path: Path) -> Path:
    times_s = np.arange(100) / 3
    values = 2 + np.sin(times_s)
    values[7], values[8] = math.inf, -math.inf
    return write_recording(tmp_path / "run.h5", times_s, values)


def opened(address: str) -> tuple[Source, FakeClock]:
    source = make_source(address)
    clock = FakeClock(source.speed)
    source.open(clock)
    return source, clock


def read_until(error: type[SourceError], source: Source) -> tuple[list[Delivery], SourceError]:
    deliveries = []
    try:
        while True:
            deliveries.append(source.read(0.1))
    except error as reason:
        return deliveries, reason


def blocks_of(deliveries: list[Delivery]) -> list[Samples]:
    return [block for delivery in deliveries for block in delivery.samples]


class TestContract(SourceContract):
    @pytest.fixture
    def bench(self, recording: Path) -> Bench:
        return Bench(lambda: make_source(f"replay:{recording}?speed=10"), FakeClock(10.0))


def test_samples_come_bit_for_bit_with_their_quality(recording: Path) -> None:
    source, _ = opened(f"replay:{recording}?speed=10")
    with source:
        deliveries, _ = read_until(SourceEnded, source)
    with h5py.File(recording) as file:
        for name, part in (("time", "times_s"), ("value", "values"), ("quality", "quality")):
            replayed = np.concatenate([getattr(block, part) for block in blocks_of(deliveries)])
            assert np.array_equal(replayed, file["run/cell_voltage"][name][()])


def test_moments_come_in_their_place_with_their_labels(recording: Path) -> None:
    source, _ = opened(f"replay:{recording}")
    with source:
        deliveries, _ = read_until(SourceEnded, source)
    assert tuple(moment for delivery in deliveries for moment in delivery.moments) == MOMENTS
    seen_s = -1.0
    for delivery in deliveries:
        for moment in delivery.moments[:1]:
            assert moment.time_s > seen_s - 1e-9
        for block in delivery.samples:
            seen_s = block.times_s[-1]


def test_the_run_s_clock_sets_the_pace(recording: Path) -> None:
    source, clock = opened(f"replay:{recording}?speed=10")
    with source:
        while clock.now_s() < 30:
            for block in source.read(0.1).samples:
                assert block.times_s[-1] <= clock.now_s()
                assert clock.now_s() - block.times_s[0] < 1.0
    assert source.speed == 10


def test_a_read_waits_no_longer_than_it_was_allowed(recording: Path) -> None:
    source, clock = opened(f"replay:{recording}?speed=2")
    with source:
        source.read(0.0)
        assert source.read(0.1) == Delivery()
        assert clock.now_s() == pytest.approx(0.2)


def test_a_late_reader_catches_up_in_bounded_blocks(tmp_path: Path) -> None:
    times_s = np.arange(200_000) / 1000
    source, clock = opened(f"replay:{write_recording(tmp_path / 'a.h5', times_s, times_s)}?speed=100")
    with source:
        clock.advance_s(150.0)
        sizes = [len(block) for block in blocks_of([source.read(0.1) for _ in range(10)])]
        assert max(sizes) <= 10_001  # 0.1 s at 100 times 1000 a second, ends included
        assert sum(sizes) > 90_000


def test_slices_join_without_seam(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("drivers.replay.SLICE", 7)
    times_s = np.repeat(np.arange(50) / 10, 2)  # equal times are allowed
    values = np.arange(100.0)
    path = write_recording(tmp_path / "a.h5", times_s, values)
    source, _ = opened(f"replay:{path}?speed=50")
    with source:
        deliveries, _ = read_until(SourceEnded, source)
    assert np.concatenate([b.values for b in blocks_of(deliveries)]).tolist() == values.tolist()
    assert max(len(b) for b in blocks_of(deliveries)) == 7
    seen_s = 0.0
    for delivery in deliveries:  # a moment never overtakes the samples before it
        seen_s = max([seen_s, *(b.times_s[-1] for b in delivery.samples)])
        assert all(m.time_s <= seen_s + 0.1 or seen_s == times_s[-1] for m in delivery.moments)


def test_a_long_recording_is_not_held_in_memory(tmp_path: Path) -> None:
    count = 2_000_000  # 32 MB of times and values
    times_s = np.arange(count) / 1000
    path = write_recording(tmp_path / "a.h5", times_s, np.zeros(count))
    del times_s
    tracemalloc.start()
    try:
        source, clock = opened(f"replay:{path}?speed=10000")
        with source:
            clock.advance_s(1000.0)
            for _ in range(10):
                source.read(0.0)
        peak = tracemalloc.get_traced_memory()[1]
    finally:
        tracemalloc.stop()
    assert peak < 6e6


def test_what_was_missed_between_close_and_open_stays_missed(recording: Path) -> None:
    source, clock = opened(f"replay:{recording}")
    first = blocks_of([source.read(1.0) for _ in range(6)])
    source.close()
    with pytest.raises(SourceLost, match="not open"):
        source.read(0.0)
    clock.advance_s(10.0 - clock.now_s())
    source.open(clock)
    with source:
        deliveries, _ = read_until(SourceEnded, source)
    assert first[-1].times_s[-1] < 3
    assert blocks_of(deliveries)[0].times_s[0] == 10.0
    assert blocks_of(deliveries)[-1].times_s[-1] == 33


def test_a_damaged_stretch_is_told_and_passed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("drivers.replay.SLICE", 10)
    times_s = np.arange(100.0)
    times_s[25] = 3.0  # goes back
    source, clock = opened(f"replay:{write_recording(tmp_path / 'a.h5', times_s, np.zeros(100))}?speed=10")
    deliveries, reason = read_until(SourceLost, source)
    assert np.concatenate([b.times_s for b in blocks_of(deliveries)]).tolist() == list(range(20))
    assert "damaged" in str(reason)
    assert "goes back" in str(reason)
    clock.advance_s(35 - clock.now_s())
    source.open(clock)
    with source:
        deliveries, _ = read_until(SourceEnded, source)
    assert np.concatenate([b.times_s for b in blocks_of(deliveries)]).tolist() == list(range(35, 100))


def spoil_chunk(path: Path, dataset: str, number: int) -> None:
    with h5py.File(path) as file:
        begin = file[dataset].id.get_chunk_info(number).byte_offset
    damaged = bytearray(path.read_bytes())
    damaged[begin : begin + 200] = bytes(200)
    path.write_bytes(damaged)


@pytest.mark.parametrize("column", ["time", "value"])
def test_bytes_that_cannot_be_unpacked_are_told(tmp_path: Path, column: str) -> None:
    path = write_recording(tmp_path / "a.h5", np.arange(10_000.0), np.random.default_rng(1).random(10_000))
    spoil_chunk(path, f"run/cell_voltage/{column}", 1)
    source, _ = opened(f"replay:{path}?speed=1000")
    with source:
        _, reason = read_until(SourceLost, source)
    assert "cannot be read" in str(reason)


def test_a_place_that_cannot_be_found_again_is_told(tmp_path: Path) -> None:
    path = write_recording(tmp_path / "a.h5", np.arange(10_000.0), np.zeros(10_000))
    spoil_chunk(path, "run/cell_voltage/time", 1)
    source, clock = opened(f"replay:{path}?speed=1000")
    source.close()
    clock.advance_s(5000.0)
    with pytest.raises(CannotOpen, match=r"damaged.*cannot be read"):
        source.open(clock)
    source.close()


class TestSeveralChannels:
    @pytest.fixture
    def two(self, tmp_path: Path) -> Path:
        times_s = np.arange(50) / 5
        return write_recording(tmp_path / "two.h5", times_s, np.full(50, 2.0), anode=np.full(50, 0.7))

    def test_all_are_replayed_the_default_first(self, two: Path) -> None:
        source, _ = opened(f"replay:{two}?speed=10")
        with source:
            assert [(c.name, c.role) for c in source.channels] == [
                ("cell_voltage", "cell_voltage"),
                ("anode", "anode_potential"),
            ]
            deliveries, _ = read_until(SourceEnded, source)
        for name, value in (("cell_voltage", 2.0), ("anode", 0.7)):
            values = np.concatenate([b.values for b in blocks_of(deliveries) if b.channel == name])
            assert values.tolist() == [value] * 50

    def test_one_may_be_picked_and_treated(self, two: Path) -> None:
        source, _ = opened(f"replay:{two}?channel=anode&scale=10&offset=1&role=other")
        with source:
            assert [(c.name, c.role) for c in source.channels] == [("anode", "other")]
            assert source.read(0.1).samples[0].values[0] == 8.0
            assert dict(source.instrument.calibration) == {"scale": 10.0, "offset": 1.0}

    def test_a_scale_for_several_is_refused(self, two: Path) -> None:
        with pytest.raises(CannotOpen, match=r"one channel.*cell_voltage, anode"):
            opened(f"replay:{two}?scale=2")

    def test_a_channel_that_is_not_there_is_refused(self, two: Path) -> None:
        with pytest.raises(CannotOpen, match="no channel cathode"):
            opened(f"replay:{two}?channel=cathode")


def test_the_instrument_says_what_was_replayed_and_keeps_the_truth(recording: Path) -> None:
    source, _ = opened(f"replay:{recording}?name=again")
    with source:
        instrument = source.instrument
    assert instrument.identity == "replay of Monday, recorded 2025-11-24T10:00:00+01:00"
    assert dict(instrument.details) == {
        "name": "again",
        "original_address": "cell:demo",
        "original_identity": "simulated cell (invented data)",
        "truth_saved_V": 0.25,
    }


def test_an_empty_recording_is_over_at_once(tmp_path: Path) -> None:
    path = write_recording(tmp_path / "a.h5", np.empty(0), np.empty(0))
    with h5py.File(path, "r+") as file:
        del file["run/moments"]
    source, _ = opened(f"replay:{path}")
    with source, pytest.raises(SourceEnded, match="over"):
        source.read(1.0)


class TestRefusals:
    def refuse(self, path: Path, message: str) -> None:
        with pytest.raises(CannotOpen, match=message) as refusal:
            opened(f"replay:{path}")
        assert str(refusal.value).count(str(path)) in (1, 2)  # said once, perhaps again in the remedy
        assert str(refusal.value).count("cannot replay") == 1

    def test_no_such_file(self, tmp_path: Path) -> None:
        self.refuse(tmp_path / "none.h5", "no such file")

    def test_a_folder(self, tmp_path: Path) -> None:
        self.refuse(tmp_path, "not an HDF5 file")

    def test_not_hdf5(self, tmp_path: Path) -> None:
        (tmp_path / "a.h5").write_text("time_s,cell_voltage_V\n0,2.1\n")
        self.refuse(tmp_path / "a.h5", "not an HDF5 file.*galvanote recover")

    def test_cut_short(self, recording: Path) -> None:
        recording.write_bytes(recording.read_bytes()[:-500])
        self.refuse(recording, "not a whole one|no whole recording")

    def test_another_hdf5_file(self, tmp_path: Path) -> None:
        with h5py.File(tmp_path / "a.h5", "w") as file:
            file["run/data"] = [1, 2, 3]
        self.refuse(tmp_path / "a.h5", "no recording")

    def test_no_channel(self, recording: Path) -> None:
        with h5py.File(recording, "r+") as file:
            del file["run/cell_voltage"]
        self.refuse(recording, "no channel")

    def test_columns_of_different_length(self, recording: Path) -> None:
        with h5py.File(recording, "r+") as file:
            del file["run/cell_voltage/value"]
            file["run/cell_voltage/value"] = [1.0, 2.0]
        self.refuse(recording, "differ in length")

    def test_values_that_are_text(self, recording: Path) -> None:
        with h5py.File(recording, "r+") as file:
            del file["run/cell_voltage/value"]
            file["run/cell_voltage/value"] = ["a"] * 100
        self.refuse(recording, "not a column of numbers")

    def test_values_in_another_file(self, recording: Path, tmp_path: Path) -> None:
        with h5py.File(recording, "r+") as file:
            del file["run/cell_voltage/value"]
            file["run/cell_voltage/value"] = h5py.ExternalLink(str(tmp_path / "other.h5"), "/x")
        self.refuse(recording, "no channel|not a column")

    def test_moments_of_different_length(self, recording: Path) -> None:
        with h5py.File(recording, "r+") as file:
            del file["run/moments/label"]
            file["run/moments/label"] = ["one"]
        self.refuse(recording, "no whole recording")

    @pytest.mark.parametrize("speed", ["0.5", "10001", "fast"])
    def test_a_speed_out_of_range(self, speed: str) -> None:
        with pytest.raises(AddressError, match="speed"):
            make_source(f"replay:run.h5?speed={speed}")


def test_pictures_of_a_recording_are_said_to_stay_there(recording: Path) -> None:
    for count in (0, 2):
        with h5py.File(recording, "r+") as file:
            for number in range(count):
                file.create_group(f"run/attachments/{number}")
        source, _ = opened(f"replay:{recording}")
        deliveries, _ = read_until(SourceEnded, source)
        said = [notice.text for delivery in deliveries for notice in delivery.notices]
        assert len(said) == (1 if count else 0)
        assert all("2 of them" in text and "stay in the recording" in text for text in said)
        source.close()
