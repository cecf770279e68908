"""Time in a run: gaps, silence, jumps of a clock."""

from __future__ import annotations

import threading
import time

import numpy as np
import pytest

from drivers.errors import NotReadable, SourceRefused
from drivers.samples import Delivery, Notice, Samples
from logger.clock_watch import ClockEvent
from logger.reader import read_recording
from logger.run import Run
from tests.logger.fakes import GONE, LOST, OVER, ScriptedSource, block, delivered
from tests.logger.running import WAIT_S, recorded

pytestmark = pytest.mark.usefixtures("no_thread_stays", "quick_retry")


def test_a_jump_in_the_times_is_a_gap_however_quickly_it_passed(tmp_path):
    source = ScriptedSource(
        [delivered(block(0, 100)), delivered(block(1000, 50)), delivered(block(1050, 50))]
    )
    source.silent_after_s = 3.0
    recording = read_recording(recorded(tmp_path, source).stop())
    assert [(g.begin_s, g.end_s) for g in recording.gaps] == [(0.99, 10.0)]


def test_no_recording_holds_a_backward_time(tmp_path):
    """A driver whose clock jumps back, or gives no number: those readings are left out, the rest stands."""
    wrong = Samples(
        "cell_voltage",
        np.array([0.20, 0.21, 0.05, np.nan, 0.215, 0.22]),
        2.0 + 1e-6 * np.arange(20, 26),
        np.zeros(6, np.uint8),
    )
    source = ScriptedSource([delivered(block(0, 20)), delivered(wrong), delivered(block(5, 3)), OVER])
    run = recorded(tmp_path, source)
    recording = read_recording(run.stop())
    (channel,) = recording.channels
    np.testing.assert_allclose(channel.times_s, [*np.arange(22) / 100, 0.215, 0.22])
    np.testing.assert_allclose(channel.values, 2.0 + 1e-6 * np.array([*range(22), 24, 25]))
    assert [(g.begin_s, g.end_s) for g in recording.gaps] == [(0.21, 0.215), (0.22, 0.22)]
    assert [n.code for n in run.status().notices].count("backwards") == 1


def test_sleep_and_a_clock_that_is_set_are_anchored_and_told(tmp_path, monkeypatch):
    events = [[], [ClockEvent("slept", 60.0, "The computer slept for 60 s.")]]

    class Watch:
        def look(self):
            return events.pop() if len(events) > 1 else []

    monkeypatch.setattr("logger.recorder.ClockWatch", Watch)
    run = recorded(tmp_path, ScriptedSource([delivered(block(0, 10))]))
    recording = read_recording(run.stop())
    assert [n.code for n in run.status().notices] == ["slept"]
    assert len(recording.anchors) == 3, "at the begin, at the event, at the end"
    times_s = [anchor.time_s for anchor in recording.anchors]
    assert times_s == sorted(times_s)


def test_a_slow_rhythm_is_no_gap(tmp_path):
    source = ScriptedSource([delivered(block(k, 1, rate=0.2)) for k in range(20)])
    source.silent_after_s = 3.0
    recording = read_recording(recorded(tmp_path, source).stop())
    assert recording.gaps == ()


def test_a_lost_source_leaves_a_gap_and_the_run_goes_on(tmp_path):
    steps = [delivered(block(0, 10)), LOST, delivered(block(500, 10))]
    source = ScriptedSource(steps, open_errors=[None, GONE, GONE, None])
    run = recorded(tmp_path, source)
    codes = [n.code for n in run.status().notices]
    assert codes == ["lost", "back"]
    recording = read_recording(run.stop())
    assert recording.channels[0].values.size == 20
    (gap,) = recording.gaps
    assert (gap.begin_s, gap.end_s, gap.channel) == (0.09, 5.0, "cell_voltage")
    assert "cable was pulled" in gap.reason


OTHER = SourceRefused("On COM5 now answers another meter. Put that one back.")
SILENT = NotReadable("COM5 does not answer. Is the meter on?")


@pytest.mark.parametrize("reason", [OTHER, SILENT])
def test_what_keeps_a_source_from_coming_back_is_told(tmp_path, reason):
    """It had been plugged in again, and the window went on asking for just that."""
    steps = [delivered(block(0, 10)), LOST, delivered(block(500, 10))]
    source = ScriptedSource(steps, open_errors=[None, GONE, GONE, reason, reason, reason, None])
    run = recorded(tmp_path, source)
    notices = run.status().notices
    assert [n.code for n in notices] == ["lost", "lost", "back"]
    assert {n.source for n in notices} == {run.status().sources[0].address}
    assert (notices[1].level, notices[1].text) == ("danger", str(reason))
    run.stop()


def test_one_long_try_is_enough_to_tell_what_keeps_a_source_from_coming_back(tmp_path, monkeypatch):
    """A meter that is off is waited for half a minute in each try: twice would be long."""
    monkeypatch.setattr("logger.feed.SURE_AFTER_S", -1.0)
    steps = [delivered(block(0, 10)), LOST, delivered(block(500, 10))]
    run = recorded(tmp_path, ScriptedSource(steps, open_errors=[None, GONE, SILENT, None]))
    assert [n.text for n in run.status().notices][1] == str(SILENT)
    run.stop()


def test_a_source_that_needs_a_moment_to_wake_up_is_not_called_wrong(tmp_path):
    steps = [delivered(block(0, 10)), LOST, delivered(block(500, 10))]
    source = ScriptedSource(steps, open_errors=[None, SILENT, GONE, SILENT, None])
    run = recorded(tmp_path, source)
    assert [n.code for n in run.status().notices] == ["lost", "back"]
    run.stop()


def test_a_source_that_never_comes_back_leaves_a_gap_to_the_end(tmp_path):
    source = ScriptedSource([delivered(block(0, 1)), LOST], open_errors=[None, *[GONE] * 10_000])
    run = Run([source], tmp_path / "run.h5")
    run.start()
    while run.status().sources[0].state != "lost":
        threading.Event().wait(0.001)
    recording = read_recording(run.stop())
    (gap,) = recording.gaps
    assert gap.end_s == recording.duration_s


def test_silence_is_said_and_becomes_a_gap(tmp_path):
    source = ScriptedSource([delivered(block(0, 10)), *[None] * 40, delivered(block(900, 10))])
    run = Run([source], tmp_path / "run.h5")
    run.start()
    while run.status().sample_count < 20:
        threading.Event().wait(0.001)
    assert "silent" in [n.code for n in run.status().notices]
    (gap,) = read_recording(run.stop()).gaps
    assert (gap.begin_s, gap.end_s) == (0.09, 9.0)


def test_a_run_lasts_until_its_last_reading(tmp_path):
    """Readings that come while the run ends, as from a simulated cell at high speed, lie within it."""
    is_late, may_return = threading.Event(), threading.Event()

    class Late(ScriptedSource):
        def read(self, timeout_s):
            if self.drained.is_set() and not is_late.is_set():
                is_late.set()
                may_return.wait(WAIT_S)
                return delivered(block(5000, 10))  # 50 s, long after the moment of stopping
            return super().read(timeout_s)

    run = recorded(tmp_path, Late([delivered(block(0, 10))]))
    assert is_late.wait(WAIT_S)
    threading.Timer(0.2, may_return.set).start()
    recording = read_recording(run.stop())
    assert recording.channels[0].values.size == 20
    assert recording.duration_s >= recording.channels[0].times_s[-1]


@pytest.mark.parametrize(
    ("notice", "reason"),
    [
        (Notice("refused_mode", "The meter shows AC volts.", is_refusal=True), "The meter shows AC volts."),
        (Notice("compare_display", "Compare once."), "no data arrived"),
    ],
)
def test_what_was_refused_is_why_nothing_came(tmp_path, notice, reason):
    """A meter turned to AC goes on sending: it is neither asleep nor is its cable off."""
    source = ScriptedSource([delivered(block(0, 10)), Delivery(notices=(notice,))])
    run = recorded(tmp_path, source)
    deadline_s = time.monotonic() + WAIT_S
    while run.status().sources[0].state != "silent" and time.monotonic() < deadline_s:
        threading.Event().wait(0.001)
    told = {one.code: one.text for one in run.status().notices}
    assert ("asleep" in told["silent"]) == (not notice.is_refusal)
    (gap,) = read_recording(run.stop()).gaps
    assert gap.reason == reason
