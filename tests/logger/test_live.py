"""The live file: another program sees the readings while the run goes on, and it leaves no trace."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import threading
import time

import h5py
import pytest

from drivers.samples import TaggedMoment
from logger import live
from logger.errors import LoggerError, OutputExists
from logger.journal import JournalFollower
from logger.ledger import Ledger
from logger.run import Run
from tests.logger.fakes import Delivery, ScriptedSource, block, delivered
from tests.logger.test_archive import journal

WAIT_S = 20.0


def rows(path):
    try:
        with h5py.File(path, "r", swmr=True) as file:
            return file["run/cell_voltage/value"][()], [k.decode() for k in file["run/moments/label"][()]]
    except (OSError, KeyError):
        return [], []


def wait_for(true):
    deadline_s = time.monotonic() + WAIT_S
    while time.monotonic() < deadline_s:
        if true():
            return
        threading.Event().wait(0.02)
    raise AssertionError("it never came true")


@pytest.fixture
def run(tmp_path):
    steps = [delivered(block(100 * k, 100)) for k in range(10)]
    steps.append(Delivery(moments=(TaggedMoment(0.5, "salt_added", "2 Tropfen µ"),)))
    run = Run([ScriptedSource(steps)], tmp_path / "run.h5", live=tmp_path / "live.h5")
    run.start()
    yield run
    run.stop()


def test_readings_and_moments_can_be_followed(run, tmp_path):
    wait_for(lambda: len(rows(tmp_path / "live.h5")[0]) == 1000 and rows(tmp_path / "live.h5")[1])
    values, labels = rows(tmp_path / "live.h5")
    assert values[-1] == 2.0 + 999 * 1e-6
    assert labels == ["2 Tropfen µ"]
    run.stop()
    assert [p.name for p in tmp_path.iterdir()] == ["run.h5"]


@pytest.mark.skipif(os.name == "nt", reason="SIGKILL")
def test_it_is_begun_anew_when_its_process_dies(run, tmp_path):
    wait_for(lambda: len(rows(tmp_path / "live.h5")[0]) == 1000)
    os.kill(run._live.process_id, signal.SIGKILL)
    wait_for(lambda: run._live.restarts == 1 and len(rows(tmp_path / "live.h5")[0]) == 1000)
    assert run.status().notices[-1].code == "live_restarted"


@pytest.mark.skipif(os.name == "nt", reason="SIGKILL")
def test_it_goes_with_a_recorder_that_is_killed(tmp_path):
    live = tmp_path / "live.h5"
    command = [sys.executable, "-m", "tests.logger.record_command", "cell:bench?speed=50&rate=40"]
    with subprocess.Popen(
        [*command, str(tmp_path / "run.h5"), "--live", str(live)],
        stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    ) as process:
        wait_for(live.exists)
        process.kill()
    wait_for(lambda: not live.exists())


def test_a_file_that_is_there_is_kept(tmp_path):
    (tmp_path / "live.h5").write_text("mine")
    with pytest.raises(OutputExists):
        Run([ScriptedSource([])], tmp_path / "run.h5", live=tmp_path / "live.h5")
    with pytest.raises(LoggerError, match="make it first"):
        Run([ScriptedSource([])], tmp_path / "run.h5", live=tmp_path / "no" / "live.h5")
    assert (tmp_path / "live.h5").read_text() == "mine"


def test_the_live_file_is_not_the_recording(tmp_path):
    with pytest.raises(LoggerError, match="another than the recording"):
        Run([ScriptedSource([])], tmp_path / "run.h5", live=tmp_path / "run.h5")


def test_one_that_begins_late_takes_the_journal_in_pieces(tmp_path, monkeypatch):
    monkeypatch.setattr(live, "READ_AT_ONCE", 250)
    path = journal(tmp_path / "run.h5", [block(100 * k, 100) for k in range(10)])
    ledger = Ledger()
    with path.open("rb") as source:
        follower = JournalFollower(source)
        sizes = []
        while blocks := live._take(follower, ledger):
            sizes.append(sum(len(samples) for _, samples in blocks))
    assert sizes == [300, 300, 300, 100]
    assert len(ledger.moments) == 1
