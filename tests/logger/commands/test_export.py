"""The export command as a user runs it, with an interrupt too."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time

import numpy as np
import pytest

from logger.commands import main
from tests.logger.shelf_files import write_recording

# A process begun in the background by a shell ignores SIGINT, and so would what it starts.
COMMAND = (
    "import signal, sys; signal.signal(signal.SIGINT, signal.default_int_handler);"
    "from logger.commands import main; sys.exit(main(sys.argv[1:]))"
)


def run_of(folder, samples, name="run.h5"):
    times_s = np.arange(samples) / 1000
    return write_recording(folder / name, times_s, 2 + 0.1 * np.sin(times_s / 10))


@pytest.mark.parametrize("ending", ["csv", "xlsx", "svg", "html"])
def test_it_says_what_it_wrote_and_takes_any_file_name(tmp_path, capsys, ending):
    path = run_of(tmp_path, 3000, "Größe 1 & Co.h5")
    out = tmp_path / f"Übergabe 100 %.{ending}"
    assert main(["export", str(path), "--to", str(out)]) == 0
    printed = capsys.readouterr()
    assert f"Wrote {out}" in printed.out
    assert printed.err == ""
    assert main(["export", str(path), "--to", str(out)]) == 1
    assert "exists; choose another name, or add --replace" in capsys.readouterr().err
    assert main(["export", str(path), "--to", str(out), "--replace"]) == 0


def test_sizes_of_pictures_are_taken_from_those_there_are(tmp_path, capsys):
    path = run_of(tmp_path, 3000)
    assert main(["export", str(path), "--to", str(tmp_path / "a.svg"), "--size", "column"]) == 0
    assert 'width="85mm"' in (tmp_path / "a.svg").read_text("utf-8")
    assert main(["export", str(path), "--to", str(tmp_path / "b.svg"), "--size", "poster"]) == 2
    assert "invalid choice" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("name", "option", "words"),
    [
        ("a.xlsx", ["--decimal-comma"], "a decimal comma is only for .csv"),
        ("a.svg", ["--decimal-comma"], "a decimal comma is only for .csv"),
        ("a.csv", ["--size", "slide"], "a size is only for pictures"),
        ("a.html", ["--size", "a4"], "a size is only for pictures"),
        ("a.docx", [], "a.docx: no export has the ending .docx; known: .csv, .xlsx,"),
        (
            "a",
            [],
            "a has no ending, which says what to write; name it for example a.csv (known endings: .csv,",
        ),
        ("a.csv ", [], "no export has the ending '.csv '; known:"),
        ("ä" * 130 + ".csv", [], "cannot be written (File name too long); choose a shorter name"),
        (
            "x" * 240 + ".csv",
            [],
            ".datapackage.json cannot be written (File name too long); choose a shorter name",
        ),
        ("a.", [], "name it for example a.csv"),
        (".PDF", [], "name it for example run.PDF"),
        (".", [], "is a folder; name a file in it, such as"),
        ("nowhere/a.csv", [], "nowhere is not there; make it first"),
    ],
)
def test_a_name_or_choice_that_cannot_be_is_refused_with_what_would_do(tmp_path, capsys, name, option, words):
    path = run_of(tmp_path, 300)
    assert main(["export", str(path), "--to", str(tmp_path / name), *option]) == 1
    assert words in capsys.readouterr().err
    assert [p.name for p in tmp_path.iterdir()] == ["run.h5"]


def killed_while_writing(folder, number):
    """Export a workbook of many readings, and send the signal while its sheets grow in working files."""
    path = run_of(folder, 400_000)
    (folder / "temporary").mkdir()
    child = subprocess.Popen(
        [sys.executable, "-c", COMMAND, "export", str(path), "--to", str(folder / "out.xlsx")],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        env={**os.environ, "TMPDIR": str(folder / "temporary")},
    )
    try:
        deadline_s = time.monotonic() + 120
        while not list(folder.glob(".galvanote-*.work/*")) and time.monotonic() < deadline_s:
            assert child.poll() is None, child.communicate()
            time.sleep(0.02)
        child.send_signal(number)
        _, err = child.communicate(timeout=60)
    finally:
        if child.poll() is None:
            child.kill()
            child.communicate()
    assert list((folder / "temporary").iterdir()) == [], "working files in the system's folder"
    return child.returncode, err


@pytest.mark.skipif(os.name == "nt", reason="Ctrl-C is sent otherwise there")
@pytest.mark.parametrize("name", ["SIGINT", "SIGTERM"])
def test_an_export_that_is_ended_leaves_no_part_of_a_file(tmp_path, name):
    assert killed_while_writing(tmp_path, getattr(signal, name)) == (130, "")
    assert sorted(p.name for p in tmp_path.rglob("*")) == ["run.h5", "temporary"]


@pytest.mark.skipif(os.name == "nt", reason="killed otherwise there")
def test_what_a_killed_export_left_goes_with_the_next_one(tmp_path, capsys):
    assert killed_while_writing(tmp_path, signal.SIGKILL)[0] == -signal.SIGKILL
    left = [p.name for p in tmp_path.iterdir() if p.name.startswith(".galvanote-")]
    assert {name.rpartition(".")[2] for name in left} == {"part", "work"}
    assert main(["export", str(tmp_path / "run.h5"), "--to", str(tmp_path / "out.svg")]) == 0
    capsys.readouterr()
    assert sorted(p.name for p in tmp_path.rglob("*")) == ["out.svg", "run.h5", "temporary"]


@pytest.mark.parametrize("command", ["export", "compare"])
@pytest.mark.parametrize("name", ["", "  "])
def test_an_empty_name_is_wrong_use(tmp_path, capsys, command, name):
    path = run_of(tmp_path, 300)
    assert main([command, str(path), "--to", name]) == 2
    assert "argument --to: the name is empty; give one, for example run.pdf" in capsys.readouterr().err
    assert [p.name for p in tmp_path.iterdir()] == ["run.h5"]


COMMAND_THAT_WAITS = (
    """
import sys
from logger.export import atomic
give_names = atomic._give_names
def wait(*arguments, **options):
    print("WRITTEN", flush=True)
    sys.stdin.readline()
    give_names(*arguments, **options)
atomic._give_names = wait
"""
    + COMMAND
)


@pytest.mark.parametrize("ending", ["csv", "html"])
def test_of_two_commands_at_once_to_one_name_the_later_to_end_is_refused(tmp_path, ending):
    """One waits once it has written everything but given no name, while the other does all of its own."""
    path, out = run_of(tmp_path, 3000), tmp_path / f"out.{ending}"
    command = ["export", str(path), "--to", str(out)]
    late = subprocess.Popen(
        [sys.executable, "-c", COMMAND_THAT_WAITS, *command],
        stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
    )  # fmt: skip
    try:
        assert late.stdout.readline() == "WRITTEN\n"
        assert not out.exists()
        subprocess.run([sys.executable, "-c", COMMAND, *command], check=True, capture_output=True)
        there = {p.name: p.stat().st_mtime_ns for p in tmp_path.iterdir() if not p.name.endswith(".part")}
        assert out.name in there
        printed, err = late.communicate("\n", timeout=120)
    finally:
        if late.poll() is None:
            late.kill()
            late.communicate()
    assert (late.returncode, printed) == (1, "")
    assert err == f"galvanote: {out} exists; choose another name, or add --replace\n"
    assert {p.name: p.stat().st_mtime_ns for p in tmp_path.iterdir()} == there


def test_in_place_of_a_folder_a_file_of_the_same_ending_is_proposed(tmp_path, capsys):
    path = run_of(tmp_path, 300)
    (tmp_path / "reports.pdf").mkdir()
    assert main(["export", str(path), "--to", str(tmp_path / "reports.pdf"), "--replace"]) == 1
    assert f"such as {tmp_path / 'reports.pdf' / 'run.pdf'}" in capsys.readouterr().err
