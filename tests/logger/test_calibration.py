"""Meters held against known voltages: the line, the file, and the correction of a run."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import h5py
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from drivers.address import parse_address
from drivers.registry import make_source
from drivers.simulated.emulated import Emulation, make_device
from drivers.simulated.faults import Faults
from drivers.source import Channel, Instrument
from drivers.testing import FakeClock, FakeWire
from logger.bench import Bench, parse_bench
from logger.calibrated_source import CalibratedSource, corrected_sources
from logger.calibration import Calibration, CalibrationError, Point, add_point, point_from_readings
from logger.calibration_store import CalibrationStore, settings_folder
from logger.input_range import divider_advice
from logger.instrument_identity import identity_of
from tests.drivers.contract import InstrumentBench, InstrumentContract, collect
from tests.drivers.emulation import ROOT, EmulatorProcess

DAY = "2024-03-01"


def point(true_V: float, shown_V: float, day: str = DAY) -> Point:
    return Point(true_V, shown_V, 0.0, 10, day)


class TestLine:
    def test_zero_alone_corrects_the_zero(self):
        one = Calibration((point(0.0, 0.012),))
        assert (one.zero_V, one.gain) == (pytest.approx(0.012), 1.0)
        assert one.apply(np.array([2.512, 0.012])) == pytest.approx([2.5, 0.0])

    def test_one_known_voltage_corrects_the_gain(self):
        one = Calibration((point(2.5, 2.525),))
        assert (one.zero_V, one.gain) == (pytest.approx(0.0, abs=1e-12), pytest.approx(1.01))
        assert one.apply(np.array([2.525, 1.01])) == pytest.approx([2.5, 1.0])

    def test_the_worked_two_point_example_of_the_reference_document(self):
        """Reference document, section 3.4: shorted code 3, 36.000 V at code 28713, code 9600 is 12.0339 V."""
        one = Calibration((point(0.0, 3 * 1.25e-3), point(36.0, 28713 * 1.25e-3)))
        assert one.apply(np.array([9600 * 1.25e-3]))[0] == pytest.approx(12.0339, abs=5e-5)

    @given(
        st.floats(0.8, 1.2),
        st.floats(-0.1, 0.1),
        st.lists(st.floats(-30, 30), min_size=2, max_size=5, unique_by=lambda one: round(one / 2)),
    )
    def test_like_polyfit(self, gain, zero_V, true_V):
        """Against numpy's own least squares."""
        noise = np.random.default_rng(1).normal(0, 1e-3, len(true_V))
        shown_V = gain * np.array(true_V) + zero_V + noise
        one = Calibration(tuple(map(point, true_V, shown_V)))
        if np.ptp(true_V) < 0.1:
            return
        slope, intercept = np.polyfit(true_V, shown_V, 1)
        assert one.gain == pytest.approx(slope, rel=1e-6)
        assert one.zero_V == pytest.approx(intercept, abs=1e-6)

    def test_overload_stays(self):
        one = Calibration((point(0.0, 0.01), point(2.5, 2.525)))
        assert np.isinf(one.apply(np.array([np.inf, -np.inf]))).all()

    def test_a_new_point_takes_the_place_of_the_one_it_repeats(self):
        one = add_point(add_point(add_point(None, point(0.0, 0.01)), point(2.5, 2.52)), point(2.49, 2.49))
        assert [p.true_V for p in one.points] == [0.0, 2.49]

    @pytest.mark.parametrize("known", [(0.05,), (0.0, 0.05), (0.01, 0.05, 0.08), (-0.04,)])
    def test_voltages_near_zero_tell_the_zero_and_not_the_gain(self, known):
        """A meter 10 mV off, with a sound gain: at 50 mV its zero must not pass for a gain of 1.2."""
        one = None
        for true_V in known:
            one = add_point(one, point(true_V, true_V + 0.010))
        assert one is not None
        assert (one.zero_V, one.gain) == (pytest.approx(0.010), 1.0)
        assert any("not the gain" in remark for remark in one.remarks)

    def test_reversed_leads_are_called_so(self):
        for known in (None, Calibration((point(0.0, 0.002),))):
            with pytest.raises(CalibrationError, match="reversed"):
                add_point(known, point(2.5, -2.5))

    def test_a_large_zero_is_remarked_upon(self):
        assert Calibration((point(0.0, 0.002),)).remarks == ()
        assert "leads held together" in Calibration((point(0.0, 0.49),)).remarks[0]

    @pytest.mark.parametrize("wrong", [point(2.5, 27.0), point(2.5, -25.0), point(2.5, 0.001)])
    def test_what_no_sound_meter_shows_is_refused(self, wrong):
        with pytest.raises(CalibrationError, match="known voltage"):
            add_point(None, wrong)

    def test_three_points_tell_how_far_from_straight(self):
        one = Calibration((point(0.0, 0.0), point(18.0, 18.03), point(36.0, 36.0)))
        assert one.largest_misfit_V == pytest.approx(0.02, abs=1e-4)


class TestPoint:
    def test_mean_and_scatter(self):
        one = point_from_readings(2.5, [2.501, 2.502, 2.503, 2.502, 2.502], [0] * 5, day=DAY, against="x")
        assert (one.shown_V, one.readings) == (pytest.approx(2.502), 5)
        assert one.spread_V == pytest.approx(np.std([1, 2, 3, 2, 2], ddof=1) * 1e-3)

    @pytest.mark.parametrize(
        ("values", "quality", "words"),
        [
            ([2.5] * 4, [0] * 4, "too few"),
            ([2.5] * 9, [0] * 8 + [2], "HOLD"),
            ([2.5] * 8 + [np.inf], [0] * 9, "range"),
            ([2.5, 2.6, 2.4, 2.5, 2.5], [0] * 5, "wander"),
            ([], [], "too few"),
        ],
    )
    def test_readings_that_make_none(self, values, quality, words):
        with pytest.raises(CalibrationError, match=words):
            point_from_readings(2.5, values, quality, day=DAY)

    def test_a_zero_that_is_none(self):
        with pytest.raises(CalibrationError, match="leads together"):
            point_from_readings(0.0, [1.2] * 6, [0] * 6, day=DAY)


class TestStore:
    def test_kept_found_forgotten(self, tmp_path):
        store = CalibrationStore(tmp_path / "deep" / "er")
        assert store.find("x") is None
        one = Calibration((point(0.0, 0.01), point(2.5, 2.52)))
        store.keep("x", one)
        store.keep("y", Calibration((point(0.0, 0.02),)))
        assert CalibrationStore(tmp_path / "deep" / "er").find("x") == one
        store.forget("x")
        assert list(store.all()) == ["y"]
        with pytest.raises(CalibrationError, match="show"):
            store.forget("x")
        assert [path.name for path in store.path.parent.iterdir()] == ["calibrations.json"]

    @pytest.mark.parametrize(
        "text",
        ["", "{", "[]", '{"version": 9, "instruments": {}}', '{"version": 1, "instruments": {"x": [{}]}}'],
    )
    def test_a_file_that_is_none_is_told_and_left(self, tmp_path, text):
        store = CalibrationStore(tmp_path)
        store.path.write_text(text)
        for attempt in (store.all, lambda: store.keep("x", Calibration((point(0.0, 0.0),)))):
            with pytest.raises(CalibrationError, match="calibrate again"):
                attempt()
        assert store.path.read_text() == text

    def test_where_settings_lie(self, monkeypatch, tmp_path):
        monkeypatch.setattr(sys, "platform", "linux")
        monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path))
        assert settings_folder() == tmp_path / "galvanote"


class TestIdentity:
    class Known:
        def __init__(self, address: str, **facts) -> None:
            self.address = parse_address(address)
            self.instrument = Instrument(address=address, **facts)
            self.channels = (Channel("cell_voltage"),)

    @pytest.mark.parametrize(
        ("address", "facts", "expected"),
        [
            ("scpi:/dev/x", {"identity": "A,B,123,1"}, "scpi A,B,123,1"),
            ("text:/dev/x", {"identity": "ADC ready v1.2"}, ""),
            ("lcd14:/dev/x", {"details": {"name": "red meter"}}, "lcd14 named red meter"),
            (
                "text:/dev/x",
                {"details": {"adapter_serial": "S1", "adapter_vid": 6790.0, "adapter_pid": 29987.0}},
                "text at adapter 1a86:7523:S1",
            ),
            (
                "auto:/dev/x",
                {"details": {"recognised_as": "lcd14:/dev/x", "name": "red"}},
                "lcd14 named red",
            ),
            ("cell:demo", {"details": {"name": "red"}}, ""),
        ],
    )
    def test_by_what_it_is_known_again(self, address, facts, expected):
        known = self.Known(address, **facts)
        assert identity_of(known, known.channels[0]) == expected

    def test_another_divider_is_another_instrument(self):
        known = self.Known("scpi:/dev/x", identity="A", calibration={"scale": 11.0})
        assert identity_of(known, Channel("cell_voltage", input="2")) == "scpi A, input 2, scale 11.0"


def ramp(times_s):
    return 0.5 + 0.05 * times_s


class CalibratedBench(InstrumentBench):
    """A meter that shows 1 % too much and 12 mV more, known by name."""

    def __init__(self, folder: Path, query: str = "&rate=5", bench: Bench | None = None) -> None:
        device = make_device(Emulation("scpi", lambda t: 1.01 * ramp(t) + 0.012), Faults())
        self.wire = FakeWire(device, FakeClock())
        self.store = CalibrationStore(folder)
        self.store.keep("scpi named red", Calibration((point(0.0, 0.012), point(2.5, 2.537))))
        super().__init__(
            make=lambda: corrected_sources(
                [make_source(f"scpi:/dev/ttyFAKE0?name=red{query}", opener=self.wire.open_port)],
                bench or Bench(),
                store=self.store,
            )[0],
            clock=self.wire.clock,
            unplug=lambda: setattr(self.wire, "is_plugged", False),
            replug=lambda: setattr(self.wire, "is_plugged", True),
            hush=lambda: setattr(device, "receive", lambda *_: None),
        )


class TestCalibratedSource(InstrumentContract):
    @pytest.fixture
    def bench(self, tmp_path) -> InstrumentBench:
        return CalibratedBench(tmp_path)

    def read(self, bench, samples=10):
        source = bench.make()
        source.open(bench.clock)
        blocks = collect(source, bench, samples)
        source.close()
        times_s = np.concatenate([b.times_s for b in blocks])
        return source, times_s, np.concatenate([b.values for b in blocks])

    def test_readings_are_true_and_what_was_shown_can_be_had_back(self, tmp_path):
        bench = CalibratedBench(tmp_path)
        source, times_s, values = self.read(bench)
        assert np.abs(values - ramp(times_s)).max() < 1e-3
        facts = source.instrument.calibration
        shown = (values - facts["offset"]) / facts["scale"]
        assert np.abs(shown - (1.01 * ramp(times_s) + 0.012)).max() < 1e-3
        assert facts["calibrated_on"] == DAY
        assert facts["meter_gain"] == pytest.approx(1.01)

    def test_another_instrument_is_left_as_it_is(self, tmp_path):
        bench = CalibratedBench(tmp_path)
        bench.store.forget("scpi named red")
        _, times_s, values = self.read(bench)
        assert np.abs(values - (1.01 * ramp(times_s) + 0.012)).max() < 1e-3

    def test_what_is_applied_is_told_with_the_words_of_the_channel(self, tmp_path):
        bench = CalibratedBench(tmp_path)
        source = bench.make()
        source.open(bench.clock)
        (told,) = [one.text for one in source.read(0.2).notices if one.code == "calibrated"]
        source.close()
        assert f"Calibration of {DAY} is applied to cell voltage: zero 12 mV, gain 1.01." in told

    def test_calibrated_with_another_divider_is_not_applied_and_said(self, tmp_path):
        bench = CalibratedBench(tmp_path, "&rate=5&scale=2")
        source = bench.make()
        source.open(bench.clock)
        notices = [notice for _ in range(5) for notice in source.read(0.2).notices]
        source.close()
        (told,) = [one.text for one in notices if one.code == "calibrated_otherwise"]
        assert "scpi named red, scale 2" in told
        assert "(scpi named red)" in told

    def test_the_bench_file_comes_first(self, tmp_path):
        bench = CalibratedBench(tmp_path, bench=parse_bench("[meter]\nzero_V = 0.012\n", "b.toml"))
        source = bench.make()
        source.open(bench.clock)
        codes = {notice.code for _ in range(3) for notice in source.read(0.2).notices}
        assert "calibration_in_bench" in codes
        assert "scale" not in source.instrument.calibration
        source.close()

    def test_a_broken_file_is_told_and_the_run_goes_on(self, tmp_path):
        bench = CalibratedBench(tmp_path)
        bench.store.path.write_text("{")
        source = bench.make()
        source.open(bench.clock)
        codes = {notice.code for _ in range(3) for notice in source.read(0.2).notices}
        assert "calibration_unread" in codes
        source.close()

    def test_an_old_one_is_applied_and_said_to_be_old(self, tmp_path):
        bench = CalibratedBench(tmp_path)
        source = bench.make()
        assert isinstance(source, CalibratedSource)
        source.open(bench.clock)
        texts = [notice.text for notice in source.read(0.2).notices if notice.code == "calibrated"]
        assert "accuracy not verified" in texts[0]
        source.close()


class TestDivider:
    BENCH = "[supply]\ncells = 18\ncell_voltage_V = 1.5\n[meter]\nrange_V = 20\n"

    def test_the_open_stack_is_too_much(self):
        advice = divider_advice(parse_bench(self.BENCH, "b"))
        assert "27 V" in advice
        assert "scale=2" in advice

    @pytest.mark.parametrize("scale", [2.0, -2.0])
    def test_a_divider_that_is_there(self, scale):
        assert divider_advice(parse_bench(self.BENCH, "b"), scale) == ""

    def test_nothing_told_nothing_said(self):
        assert divider_advice(Bench()) == ""
        assert divider_advice(parse_bench(self.BENCH.replace("20", "40"), "b")) == ""


def galvanote(home: Path, *arguments: str) -> subprocess.CompletedProcess[str]:
    code = "import sys; from logger.commands import main; sys.exit(main())"
    return subprocess.run(
        [sys.executable, "-c", code, *arguments],
        cwd=ROOT,
        env=os.environ | {"XDG_CONFIG_HOME": str(home)},
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        timeout=90,
        check=False,
    )


@pytest.mark.skipif(sys.platform != "linux", reason="pseudo-terminals, and where settings lie")
def test_calibrated_once_and_recorded_corrected(tmp_path: Path):
    """By the real commands: a meter that reads 0.02 V with its leads together, and a recording afterwards."""
    with EmulatorProcess("scpi", "--ramp", "0", "--level", "0.02") as meter:
        address = f"{meter.address}?rate=10"
        unknown = galvanote(tmp_path, "calibrate", "zero", "cell:demo")
        assert unknown.returncode == 1
        assert "nothing to calibrate" in unknown.stderr
        done = galvanote(tmp_path, "calibrate", "zero", address, "--for", "3s", "--json")
        assert done.returncode == 0, done.stderr
        ((identity, kept),) = json.loads(done.stdout).items()
        assert identity.startswith("scpi Galvanote,emulated meter")
        assert kept["zero_V"] == pytest.approx(0.02, abs=1e-5)
        recorded = galvanote(
            tmp_path, "record", "--source", address, "--for", "2s", "--out", str(tmp_path / "r.h5")
        )
        assert recorded.returncode == 0, recorded.stderr
        assert "Calibration of" in recorded.stderr
    with h5py.File(tmp_path / "r.h5") as file:
        assert np.abs(file["run/cell_voltage/value"][:]).max() < 1e-5
        facts = file["run/instrument/cell_voltage/calibration"]
        kept_V = facts.attrs["meter_zero_V"] if "meter_zero_V" in facts.attrs else facts["meter_zero_V"][()]
        assert kept_V == pytest.approx(0.02, abs=1e-5)
    shown = galvanote(tmp_path, "calibrate", "show")
    assert identity in shown.stdout
    assert "zero 20 mV" in shown.stdout
    assert galvanote(tmp_path, "calibrate", "forget", identity).returncode == 0
    assert "No calibration" in galvanote(tmp_path, "calibrate", "show").stdout
