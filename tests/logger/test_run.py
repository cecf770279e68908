"""A whole run on scripted sources: threads, moments, listeners, names, beginning and end."""

from __future__ import annotations

import threading

import numpy as np
import pytest

from drivers.errors import CannotOpen
from drivers.samples import Delivery, Notice, TaggedMoment
from drivers.source import Channel
from logger.errors import LoggerError, OutputExists, RecordingBusy, RunAbandoned
from logger.feed import Feed
from logger.journal import journal_of
from logger.moments import MomentError
from logger.reader import read_recording
from logger.recovery import recover
from logger.run import Run
from tests.logger.fakes import GONE, LOST, OVER, ScriptedSource, block, delivered
from tests.logger.running import WAIT_S, recorded, wait_until

pytestmark = pytest.mark.usefixtures("no_thread_stays", "quick_retry")


def test_every_sample_is_in_the_finished_file(tmp_path):
    run = recorded(
        tmp_path, ScriptedSource([delivered(block(10 * k, 10)) for k in range(50)]), title="Strip 4"
    )
    saved = run.stop()
    recording = read_recording(saved)
    np.testing.assert_array_equal(recording.channels[0].values, 2.0 + np.arange(500) * 1e-6)
    np.testing.assert_array_equal(recording.channels[0].times_s, np.arange(500) / 100)
    assert recording.title == "Strip 4"
    assert recording.channels[0].instrument["details"] == {"counts": 4000.0}
    assert recording.gaps == ()
    assert [p.name for p in tmp_path.iterdir()] == ["run.h5"]
    assert run.status().phase == "finished"
    assert run.status().durable_samples == 500


def test_one_thread_touches_the_source(tmp_path):
    source = ScriptedSource([delivered(block(0, 10)), LOST, delivered(block(10, 10))])
    recorded(tmp_path, source).stop()
    assert len(source.threads) == 1
    assert source.closed == 2


def test_stop_may_be_called_twice_and_from_any_thread(tmp_path):
    run = recorded(tmp_path, ScriptedSource([delivered(block(0, 10))]))
    found = []
    threads = [threading.Thread(target=lambda: found.append(run.stop())) for _ in range(3)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(WAIT_S)
    assert found == [tmp_path / "run.h5"] * 3


def test_a_fault_in_a_driver_does_not_end_the_run(tmp_path):
    run = recorded(
        tmp_path, ScriptedSource([delivered(block(0, 10)), KeyError("oops"), delivered(block(10, 10))])
    )
    assert "internal fault" in run.status().notices[0].text
    assert read_recording(run.stop()).channels[0].values.size == 20


def test_a_source_that_ends_is_told(tmp_path):
    run = Run([ScriptedSource([delivered(block(0, 10)), OVER])], tmp_path / "run.h5")
    run.start()
    assert run.wait_ended(WAIT_S)
    assert run.status().sources[0].state == "ended"
    run.stop()


def test_an_instrument_that_is_not_there_leaves_no_file(tmp_path):
    source = ScriptedSource([], open_errors=[CannotOpen("/dev/ttyUSB9 is not there")])
    run = Run([source], tmp_path / "run.h5")
    with pytest.raises(CannotOpen, match="ttyUSB9"):
        run.start()
    assert list(tmp_path.iterdir()) == []
    assert source.closed == 1


def test_one_missing_instrument_of_two_closes_the_other(tmp_path):
    good = ScriptedSource([])
    bad = ScriptedSource([], open_errors=[GONE], channel=Channel("shunt_voltage", "shunt_voltage"))
    with pytest.raises(CannotOpen):
        Run([good, bad], tmp_path / "run.h5").start()
    assert good.closed == 1


def test_every_instrument_that_cannot_be_opened_is_named(tmp_path):
    slow = ScriptedSource([], open_errors=[CannotOpen("the meter does not answer")])
    gone = ScriptedSource([], open_errors=[GONE], channel=Channel("shunt_voltage", "shunt_voltage"))
    run = Run([slow, gone], tmp_path / "run.h5")
    slow.may_open.clear()

    def start():
        with pytest.raises(CannotOpen):
            run.start()

    began = threading.Thread(target=start)
    began.start()
    try:
        wait_until(lambda: bool(run.open_troubles))
        assert run.open_troubles == (str(GONE),)
    finally:
        slow.may_open.set()
        began.join(WAIT_S)
    assert run.open_troubles == ("the meter does not answer", str(GONE))


def test_a_run_whose_instrument_does_not_answer_can_be_given_up(tmp_path):
    quick, silent = ScriptedSource([], name="scripted:quick"), ScriptedSource([], name="scripted:silent")
    silent.may_open.clear()
    run = Run([quick, silent], tmp_path / "a.h5")
    raised = []

    def start():
        try:
            run.start()
        except RunAbandoned as error:
            raised.append(error)

    starting = threading.Thread(target=start)
    starting.start()
    wait_until(lambda: silent.threads)
    assert run.abandon()
    starting.join(WAIT_S)
    assert len(raised) == 1
    assert "Nothing was recorded" in str(raised[0])
    assert list(tmp_path.iterdir()) == []
    assert quick.closed == 1
    silent.may_open.set()  # when the system lets go of it at last, it is closed, too
    wait_until(lambda: silent.closed)
    assert silent.opened == 1


def test_a_run_that_is_given_up_blames_no_instrument(tmp_path, monkeypatch):
    """The failure of a port that was let go of came first now and then, and was told as the meter's."""

    class LetGo(ScriptedSource):
        def open(self, clock):
            assert run.abandon()
            raise GONE

    wait_open = Feed.wait_open

    def wait_for_failure(feed):
        wait_until(lambda: feed.open_trouble)
        wait_open(feed)

    monkeypatch.setattr(Feed, "wait_open", wait_for_failure)
    run = Run([LetGo([])], tmp_path / "a.h5")
    with pytest.raises(RunAbandoned):
        run.start()
    assert list(tmp_path.iterdir()) == []


def test_a_run_given_up_before_it_starts_opens_nothing(tmp_path):
    source = ScriptedSource([])
    run = Run([source], tmp_path / "a.h5")
    assert run.abandon()
    with pytest.raises(RunAbandoned):
        run.start()
    assert source.opened == 0
    assert list(tmp_path.iterdir()) == []


def test_a_run_that_has_begun_cannot_be_given_up(tmp_path):
    source = ScriptedSource([delivered(block(0, 5))])
    run = Run([source], tmp_path / "a.h5")
    run.start()
    source.drained.wait(WAIT_S)
    assert not run.abandon()
    assert read_recording(run.stop()).channel("cell_voltage").values.size == 5


def test_two_sources_keep_their_own_clocks_and_names(tmp_path):
    cell = ScriptedSource([delivered(block(10 * k, 10)) for k in range(5)])
    shunt = ScriptedSource(
        [delivered(block(0, 3, rate=1.0, channel="shunt_voltage"))],
        channel=Channel("shunt_voltage", "shunt_voltage"),
    )
    recording = read_recording(recorded(tmp_path, cell, shunt).stop())
    assert [(c.name, c.role, c.values.size) for c in recording.channels] == [
        ("cell_voltage", "cell_voltage", 50),
        ("shunt_voltage", "shunt_voltage", 3),
    ]


def test_two_channels_of_one_name_are_refused(tmp_path):
    with pytest.raises(LoggerError, match="channel="):
        Run([ScriptedSource([]), ScriptedSource([])], tmp_path / "run.h5").start()


def test_moments_keep_the_time_they_were_stamped_at(tmp_path):
    run = recorded(tmp_path, ScriptedSource([delivered(block(0, 10))]))
    first = run.add_moment("salt_added", "2 drops", time_s=1.25)
    run.add_moment("note", time_s=0.5)
    run.edit_moment(first.id, label="3 drops")
    assert [m.label for m in run.moments] == ["", "3 drops"]
    with pytest.raises(MomentError, match="salt_added"):
        run.add_moment("salt_add")
    recording = read_recording(run.stop())
    assert [(m.time_s, m.kind, m.label, m.revision) for m in recording.moments] == [
        (0.5, "note", "", 0),
        (1.25, "salt_added", "3 drops", 1),
    ]
    ((old, changed_at),) = recording.moments_history
    assert (old.label, changed_at) == ("2 drops", recording.moments[1].noted_at)


def test_a_removed_moment_stays_in_the_history(tmp_path):
    run = recorded(tmp_path, ScriptedSource([]))
    moment = run.add_moment("note", "by mistake", time_s=0.0)
    run.edit_moment(moment.id, removed=True)
    assert run.moments == ()
    recording = read_recording(run.stop())
    assert recording.moments == ()
    assert recording.moments_history[0][0].label == "by mistake"


def test_a_moment_is_durable_at_once(tmp_path):
    acknowledged = []
    done = threading.Event()

    def on_durable(samples, moments):
        acknowledged.append((samples, moments))
        if moments:
            done.set()

    run = recorded(tmp_path, ScriptedSource([delivered(block(0, 10))]), on_durable=on_durable)
    run.add_moment("note")
    assert done.wait(0.9)  # not only with the next second's sync
    run.stop()
    assert acknowledged[-1] == (10, 1)


def test_moments_and_notices_of_a_source_are_taken(tmp_path):
    tagged = Delivery(
        samples=(block(0, 10),),
        notices=(Notice("echo", "The adapter echoes."),),
        moments=(TaggedMoment(0.05, "buffer_in", "(simulated)"),),
    )
    run = recorded(tmp_path, ScriptedSource([tagged]))
    assert run.moments[0].kind == "buffer_in"
    assert run.status().notices[0].text == "The adapter echoes."
    run.stop()


def test_a_listener_that_fails_does_not_end_the_recording(tmp_path):
    class Broken:
        def add(self, samples):
            raise RuntimeError("no picture")

    source = ScriptedSource([delivered(block(0, 10)), delivered(block(10, 10))])
    run = Run([source], tmp_path / "run.h5")
    run.add_listener(Broken())
    run.start()
    assert source.drained.wait(WAIT_S)
    assert read_recording(run.stop()).channels[0].values.size == 20
    assert "listener" in [n.code for n in run.status().notices]


def test_an_existing_recording_is_not_touched(tmp_path):
    (tmp_path / "run.h5").write_text("mine")
    with pytest.raises(OutputExists, match="--replace"):
        Run([ScriptedSource([])], tmp_path / "run.h5").start()
    assert (tmp_path / "run.h5").read_text() == "mine"


def test_an_unfinished_run_of_that_name_must_be_recovered_first(tmp_path):
    journal_of(tmp_path / "run.h5").write_bytes(b"precious")
    with pytest.raises(OutputExists, match="galvanote recover"):
        Run([ScriptedSource([])], tmp_path / "run.h5").start()
    assert journal_of(tmp_path / "run.h5").read_bytes() == b"precious"


def test_replace_keeps_the_old_file_until_the_new_one_is_whole(tmp_path):
    out = tmp_path / "run.h5"
    recorded(tmp_path, ScriptedSource([delivered(block(0, 10))])).stop()
    first = read_recording(out).uuid
    run = recorded(tmp_path, ScriptedSource([delivered(block(0, 30))]), replace=True)
    assert read_recording(out).uuid == first
    run.stop()
    assert read_recording(out).channels[0].values.size == 30


def test_a_running_recording_can_be_read(tmp_path):
    run = recorded(tmp_path, ScriptedSource([delivered(block(0, 10))]))
    while run.status().durable_samples < 10:
        threading.Event().wait(0.01)
    recording = read_recording(tmp_path / "run.h5")
    assert recording.is_running
    assert recording.channels[0].values.size == 10
    assert recover(journal_of(tmp_path / "run.h5")).outcome == "running"
    run.stop()


def test_a_run_without_a_reading_is_saved_too(tmp_path):
    recording = read_recording(recorded(tmp_path, ScriptedSource([])).stop())
    assert recording.channels[0].values.size == 0


def test_the_simulated_operator_signs_as_the_logger_expects():
    from drivers.simulated.lesson import SIMULATED as DRIVER
    from logger.moments import SIMULATED as LOGGER

    assert DRIVER == LOGGER


def test_a_second_recorder_of_one_file_is_told_that_the_first_goes_on(tmp_path):
    run = recorded(tmp_path, ScriptedSource([delivered(block(0, 10))]))
    with pytest.raises(RecordingBusy, match="being recorded by another process"):
        Run([ScriptedSource([])], tmp_path / "run.h5").start()
    assert read_recording(run.stop()).channels[0].values.size == 10


def test_a_reader_of_acknowledgements_that_goes_away_does_not_end_the_recording(tmp_path):
    def gone(samples, moments):
        raise BrokenPipeError

    run = recorded(
        tmp_path, ScriptedSource([delivered(block(10 * k, 10)) for k in range(20)]), on_durable=gone
    )
    wait_until(lambda: "acks" in [n.code for n in run.status().notices])
    run.add_moment("note")
    assert read_recording(run.stop()).channels[0].values.size == 200


def test_a_moment_cannot_be_moved_to_what_is_still_to_come(tmp_path):
    """A slip in a typed time would otherwise make the run as long as that."""
    run = recorded(tmp_path, ScriptedSource([delivered(block(0, 10))]))
    moment = run.add_moment("note", "first", time_s=0.5)
    with pytest.raises(MomentError, match=r"1:40:00 is still to come, the run has reached 0:0\d"):
        run.edit_moment(moment.id, time_s=6000.0)
    run.edit_moment(moment.id, time_s=0.0)
    recording = read_recording(run.stop())
    assert [one.time_s for one in recording.moments] == [0.0]
    assert recording.duration_s < 60.0


def test_a_moment_tagged_while_the_run_ends_belongs_to_it(tmp_path):
    run = recorded(tmp_path, ScriptedSource([delivered(block(0, 10))]))
    run.add_moment("note", time_s=run.clock.now_s() + 5.0)
    recording = read_recording(run.stop())
    assert recording.moments[0].time_s <= recording.duration_s
