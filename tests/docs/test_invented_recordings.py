"""The kept recordings are what their script makes, whole, small, and say that they are invented.

What each should show comes from the simulator's own truth, which stands in every file.
"""

import json
from pathlib import Path

import numpy as np
import pytest

from drivers.errors import SourceEnded
from drivers.registry import make_source
from logger.analysis.findings import findings
from logger.analysis.findings_text import findings_text
from logger.commands import main
from logger.reader import read_recording
from recordings.invented.make import HERE, RECORDINGS, make_recording

LARGEST_FILE, LARGEST_SUM = 300_000, 2_000_000  # bytes: a clone stays small
HEADER_LINES = 3  # of the findings: file, title and date
BY_NAME = {one.name: one for one in RECORDINGS}
every_recording = pytest.mark.parametrize("name", BY_NAME)


class FarAheadClock:
    """A run clock that stands behind the end of every lesson."""

    speed = 1e9

    def restart(self):
        pass

    def now_s(self):
        return 1e6

    def sleep_s(self, duration_s):
        pass


def kept(name):
    return read_recording(HERE / f"{name}.h5")


def next_of(source):
    try:
        return source.read(0.0)
    except SourceEnded:
        return None


def all_of_source(address):
    source = make_source(address)
    source.open(FarAheadClock())
    blocks, moments = [], []
    while (delivery := next_of(source)) is not None:
        blocks += delivery.samples
        moments += delivery.moments
    times_s = np.concatenate([block.times_s for block in blocks])
    return times_s, np.concatenate([block.values for block in blocks]), moments


@every_recording
def test_the_readings_and_moments_are_those_of_the_simulator(name):
    times_s, volts, moments = all_of_source(BY_NAME[name].address)
    recording = kept(name)
    channel = recording.channel("cell_voltage")
    assert channel.times_s.tolist() == times_s.tolist()
    assert np.max(np.abs(channel.values - volts)) < 1.5e-3  # one step of a rounded reading, at most
    assert np.mean(channel.values != volts) < 1e-3
    assert [(m.time_s, m.kind, m.label) for m in recording.moments] == [
        (m.time_s, m.kind, m.label) for m in moments
    ]


@pytest.mark.parametrize("name", ["good-lesson", "class/bench-7"])
def test_made_anew_a_recording_shows_the_same_within_the_printed_digits(name, tmp_path):
    again = read_recording(make_recording(BY_NAME[name], tmp_path))
    before = kept(name)
    assert again.title == before.title
    assert again.bench_toml == before.bench_toml
    texts = [findings_text(findings(one)).splitlines()[HEADER_LINES:] for one in (before, again)]
    assert texts[0] == texts[1]
    assert json.loads(again.findings_json)["file"] == f"{Path(name).name}.h5"  # no folder of ours in it


@every_recording
def test_check_is_happy(name, capsys):
    assert main(["check", str(HERE / f"{name}.h5")]) == 0
    assert "NOT WHOLE" not in capsys.readouterr().out


@every_recording
def test_every_file_says_that_it_is_invented(name):
    recording = kept(name)
    assert recording.title.startswith("Invented:")
    assert recording.bench_toml.startswith("# Invented")
    assert all(moment.label.endswith("(simulated)") for moment in recording.moments)
    (channel,) = recording.channels
    assert "invented" in channel.instrument["identity"]


def test_they_are_small_and_all_there():
    sizes = {path.relative_to(HERE).as_posix(): path.stat().st_size for path in HERE.rglob("*.h5")}
    assert sizes.keys() == {f"{name}.h5" for name in BY_NAME}
    assert max(sizes.values()) < LARGEST_FILE
    assert sum(sizes.values()) < LARGEST_SUM


def truth_of(recording):
    return recording.channels[0].instrument["details"]


def test_the_good_lesson_finds_what_the_simulator_knows():
    recording = kept("good-lesson")
    found = findings(recording)
    low_V, high_V = found["voltage_saved"]["interval95_V"]
    assert low_V <= truth_of(recording)["truth_saved_V"] <= high_V
    assert all(found["settled"][name]["is_settled"] for name in ("before", "after"))


def test_salt_too_early_is_told_and_makes_the_saving_provisional():
    found = findings(kept("salt-too-early"))
    assert not found["settled"]["before"]["is_settled"]
    assert "(provisional)" in findings_text(found)
    assert "The salt went in before the voltage had settled" in findings_text(found)


def test_touching_electrodes_are_seen_when_they_touched():
    recording = kept("touching-electrodes")
    volts, times_s = recording.channels[0].values, recording.channels[0].times_s
    short_s = times_s[(volts < 0.1) & (times_s < 1185)]  # touching electrodes hold 5 mV in the simulator
    found = findings(recording)
    (touched,) = [one for one in found["states"] if one["state"] == "touching"]
    assert touched["begin_s"] == pytest.approx(short_s[0], abs=1.0)
    assert touched["end_s"] == pytest.approx(short_s[-1], abs=1.0)
    low_V, high_V = found["voltage_saved"]["interval95_V"]
    assert low_V <= truth_of(recording)["truth_saved_V"] <= high_V


def test_the_blank_shows_no_effect():
    recording = kept("blank")
    found = findings(recording)
    assert truth_of(recording)["truth_saved_V"] == 0.0
    assert {"no_salt", "no_effect_shown"} <= {one["code"] for one in found["warnings"]}


def test_the_class_has_one_bench_off_the_others_and_two_blanks(capsys):
    files = sorted(str(path) for path in (HERE / "class").glob("*.h5"))
    assert main(["compare", "--json", *files]) == 0
    runs = json.loads(capsys.readouterr().out)["runs"]
    assert [one["kind"] for one in runs] == ["run"] * 5 + ["blank"] * 2
    assert [one["outlier"] for one in runs] == ["none"] * 4 + ["outlier"] + ["none"] * 2
