"""The real commands, each a process of its own, on real lines: TCP and pseudo-terminals."""

from __future__ import annotations

import contextlib
import json
import os
import queue
import signal
import socket
import subprocess
import sys
import threading
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest

from drivers.simulated.cell import LessonCell
from logger.commands import main
from logger.reader import read_recording

ROOT = Path(__file__).resolve().parents[3]
BENCH = str(ROOT / "recordings" / "example-bench.toml")
WAIT_S = 30.0


class Process:
    """A command running in a process of its own, its lines read as they come."""

    def __init__(self, *arguments: str) -> None:
        self.lines: queue.Queue[str] = queue.Queue()
        self.seen: list[str] = []
        self._process = subprocess.Popen(
            [sys.executable, "-u", *arguments],
            cwd=ROOT,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
            bufsize=1,
        )
        self._reader = threading.Thread(target=self._read, daemon=True)
        self._reader.start()

    def _read(self) -> None:
        for line in self._process.stdout:
            self.lines.put(line.rstrip("\n"))

    def wait_for(self, part: str) -> str:
        """Return the next line that holds `part`."""
        while True:
            line = self.lines.get(timeout=WAIT_S)
            self.seen.append(line)
            if part in line:
                return line

    def type(self, line: str) -> None:
        self._process.stdin.write(line + "\n")

    def end(self, number: int | None = signal.SIGTERM) -> int:
        if number is not None and self._process.poll() is None:
            self._process.send_signal(number)
        status = self._process.wait(WAIT_S)
        self._reader.join(WAIT_S)
        self._process.stdout.close()
        with contextlib.suppress(OSError):
            self._process.stdin.close()
        return status


@contextlib.contextmanager
def command(*arguments: str) -> Iterator[Process]:
    code = "import sys; from logger.commands import main; sys.exit(main())"
    process = Process("-c", code, *arguments)
    try:
        yield process
    finally:
        process.end(signal.SIGKILL if hasattr(signal, "SIGKILL") else signal.SIGTERM)


def ready(emulator: Process) -> str:
    return emulator.wait_for("READY").split()[1]


def acknowledged(recorder: Process, at_least: int) -> None:
    while True:
        line = recorder.wait_for("ACK")
        if int(line.split("samples=")[1].split()[0]) >= at_least:
            return


LINES = ["tcp", pytest.param("pty", marks=pytest.mark.skipif(os.name == "nt", reason="no ptys"))]


@pytest.mark.parametrize("kind", ["scpi", "text"])
@pytest.mark.parametrize("line", LINES)
def test_an_emulated_instrument_is_recorded_and_analysed(tmp_path, capsys, kind, line):
    out = tmp_path / "run.h5"
    port = ["--port", "0"] if line == "tcp" else []
    with command("emulate", kind, *port) as emulator:
        address = ready(emulator)
        if kind == "scpi":
            address += "?rate=10"
        with command(
            "record", "--source", address, "--bench", BENCH, "--out", str(out), "--acks"
        ) as recorder:
            acknowledged(recorder, 15)
            recorder.type("salt_added 2 drops")
            recorder.wait_for("salt_added 2 drops")
            acknowledged(recorder, 25)
            assert recorder.end() == 0
        assert emulator.end() == 0
    recording = read_recording(out)
    (channel,) = recording.channels
    assert [m.label for m in recording.moments] == ["2 drops"]
    # The demonstration lesson begins with a dry cell: the whole stack, 26.97 V.
    np.testing.assert_allclose(channel.values, LessonCell("demo").truth["open_circuit_voltage_V"], atol=0.05)
    assert 0.08 < np.median(np.diff(channel.times_s)) < 0.12
    assert main(["analyse", "--json", str(out)]) == 0
    (found,) = json.loads(capsys.readouterr().out)
    assert found["states"][0]["state"] == "open"
    assert found["voltage_saved"] is None
    assert found["warnings"]


@pytest.mark.parametrize("kind", ["scpi", "text"])
def test_an_unplugged_instrument_leaves_a_gap_and_the_run_goes_on(tmp_path, kind):
    out = tmp_path / "run.h5"
    with command("emulate", kind, "--port", "0") as emulator:
        address = ready(emulator)
        with command("record", "--source", address, "--out", str(out), "--acks") as recorder:
            acknowledged(recorder, 3)
            emulator.end(signal.SIGKILL if hasattr(signal, "SIGKILL") else signal.SIGTERM)
            told = recorder.wait_for("disconnected")
            assert "Traceback" not in told
            with command("emulate", kind, "--port", address.rpartition(":")[2]) as again:
                ready(again)
                recorder.wait_for("is back")
                count = int(recorder.wait_for("ACK").split("samples=")[1].split()[0])
                acknowledged(recorder, count + 3)
                assert recorder.end() == 0
    recording = read_recording(out)
    assert len(recording.gaps) == 1
    (gap,) = recording.gaps
    times = recording.channels[0].times_s
    assert gap.begin_s in times
    assert gap.end_s in times
    assert not ((times > gap.begin_s) & (times < gap.end_s)).any()


def test_a_whole_simulated_lesson_by_the_commands(tmp_path, capsys):
    """Short form of tests/campaigns/lesson.py."""
    from tests.campaigns.lesson import run_once

    for variant in ("plain", "reversed leads", "1 mV rounding"):
        held = run_once(3, variant, 2000.0, tmp_path)
        assert sum(held.values()) >= 3, (variant, held)


def test_a_lesson_exported_to_csv_and_imported_gives_the_same_findings(tmp_path, capsys):
    out = tmp_path / "a.h5"
    with command(
        "record", "--source", "cell:demo?seed=5&speed=2000", "--bench", BENCH, "--out", str(out)
    ) as recorder:
        recorder.wait_for("Saved")
        assert recorder.end(None) == 0
    assert main(["export", str(out), "--to", str(tmp_path / "a.csv")]) == 0
    moments = str(tmp_path / "a.moments.csv")
    again = str(tmp_path / "b.h5")
    assert (
        main(["import", str(tmp_path / "a.csv"), "--moments", moments, "--bench", BENCH, "--out", again]) == 0
    )
    capsys.readouterr()
    assert main(["analyse", "--json", str(out), again]) == 0
    first, second = json.loads(capsys.readouterr().out)
    for key in ("states", "phases", "settled", "voltage_saved", "current", "efficiency", "gas"):
        assert first[key] == second[key], key


@pytest.mark.skipif(os.name == "nt", reason="needs a shell's redirections")
def test_closed_streams_do_not_spoil_a_recording_or_its_document(tmp_path):
    out = tmp_path / "run.h5"
    code = "import sys; from logger.commands import main; sys.exit(main())"
    words = f"record --source 'cell:demo?speed=100' --for 1 --json --out '{out}'"
    result = subprocess.run(
        f"'{sys.executable}' -c '{code}' {words} <&- 2>&-",
        shell=True,
        cwd=ROOT,
        capture_output=True,
        check=False,
    )
    assert result.returncode == 0
    assert json.loads(result.stdout)["file"] == str(out)


@pytest.mark.parametrize("ending", ["--for", "SIGTERM"])
def test_an_instrument_that_takes_the_call_and_says_nothing_can_be_given_up(tmp_path, ending):
    out = tmp_path / "run.h5"
    with socket.create_server(("127.0.0.1", 0)) as mute:
        source = f"scpi:socket://127.0.0.1:{mute.getsockname()[1]}"
        limit = ["--for", "3"] if ending == "--for" else []
        with command("record", "--source", source, "--out", str(out), *limit) as recorder:
            recorder.wait_for("Waiting for the instrument")
            status = recorder.end(None if limit else signal.SIGTERM)
    assert status == 1
    assert list(tmp_path.iterdir()) == []
