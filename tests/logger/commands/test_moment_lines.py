"""Typed lines: each is stamped with the moment at which it was begun."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logger.commands.moment_lines import LineStamper
from logger.commands.record import _take_line
from logger.moments import new_moment
from logger.reader import read_recording

ROOT = Path(__file__).resolve().parents[3]


def test_a_line_has_the_time_of_its_first_character():
    stamper = LineStamper()
    assert stamper.feed(b"salt_", 1.0) == []
    assert stamper.feed(b"added 2 drops", 5.0) == []
    assert stamper.feed(b"\nnote", 6.0) == [(1.0, "salt_added 2 drops")]
    assert stamper.feed(b"\r\n", 9.0) == [(6.0, "note")]


def test_lines_that_arrive_together_have_the_time_of_arrival():
    assert LineStamper().feed(b"dry_cell\nbuffer_in\n\n  \n", 2.0) == [(2.0, "dry_cell"), (2.0, "buffer_in")]


def test_a_line_erased_and_begun_anew_has_the_later_time():
    stamper = LineStamper()
    stamper.feed(b"sl\x7f\x7f", 1.0)
    assert stamper.feed(b"salt_added\n", 4.0) == [(4.0, "salt_added")]


TYPED = st.characters(exclude_characters="\r\n\x7f\b", exclude_categories=["Cs"])


@given(st.text(TYPED, max_size=30), st.integers(1, 9))
def test_any_chunking_gives_the_same_line(text, size):
    data = (text + "\n").encode()
    whole = LineStamper().feed(data, 0.0)
    stamper = LineStamper()
    parts = [line for i in range(0, len(data), size) for line in stamper.feed(data[i : i + size], 0.0)]
    assert parts == whole


def start(out, **keys):
    process = subprocess.Popen(
        [sys.executable, "-m", "tests.logger.record_command", "cell:demo?rate=20", str(out)],
        cwd=ROOT,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
        **keys,
    )
    assert process.stdout.readline().startswith("ACK")
    return process


def end(process):
    process.send_signal(signal.SIGTERM)
    out, _ = process.communicate(timeout=20)
    assert process.returncode == 0
    return out


@pytest.mark.skipif(os.name == "nt", reason="needs a terminal")
def test_on_a_terminal_the_first_key_counts(tmp_path):
    import pty

    master, slave = pty.openpty()
    out = tmp_path / "run.h5"
    process = start(out, stdin=slave, start_new_session=True, preexec_fn=lambda: _own_terminal(slave))
    os.close(slave)
    began = time.monotonic()
    for key in b"salt_added 2 drops\x7fS":
        os.write(master, bytes([key]))
        time.sleep(0.03)  # a person types; there is nothing to wait for
    took_s = time.monotonic() - began
    os.write(master, b"\n")
    time.sleep(0.3)
    end(process)
    os.close(master)
    recording = read_recording(out)
    salt = next(m for m in recording.moments if m.kind == "salt_added")
    assert salt.label == "2 dropS"
    assert took_s > 0.5
    # Typing took over half a second; the end of the run was later still.
    assert salt.time_s < recording.duration_s - took_s - 0.2


def _own_terminal(fd):
    import fcntl
    import termios

    fcntl.ioctl(fd, termios.TIOCSCTTY, 0)


def test_piped_lines_and_the_end_of_stdin_do_not_end_the_run(tmp_path):
    out = tmp_path / "run.h5"
    process = start(out, stdin=subprocess.PIPE)
    process.stdin.write("salt_added\nanode has darkened\nhalf a line")
    process.stdin.close()
    process.stdin = None
    before = process.stdout.readline()
    assert before.startswith("ACK")
    time.sleep(0.5)
    assert process.poll() is None
    end(process)
    typed = [(m.kind, m.label) for m in read_recording(out).moments if "simulated" not in m.label]
    assert typed == [("salt_added", ""), ("note", "anode has darkened"), ("note", "half a line")]


def test_a_line_that_is_too_long_is_kept_as_far_as_it_goes_and_told(capsys):
    labels = []

    class Session:
        def add_moment(self, kind, label, at_s):
            labels.append(label)
            return new_moment(at_s, kind, label)

    _take_line(Session(), 2.0, "note " + "x" * 501)
    assert labels == ["x" * 501]
    assert "too long: what stood behind its first 500 characters is left out" in capsys.readouterr().err
    _take_line(Session(), 2.0, "note " + "x" * 500)
    assert "too long" not in capsys.readouterr().err
