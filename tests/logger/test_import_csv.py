"""Readings of other origin: taken as they are, or refused with file, line and remedy."""

from __future__ import annotations

import csv
import os

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from logger.attachments import AttachmentError
from logger.commands import main
from logger.errors import LoggerError, OutputExists
from logger.import_csv import ImportRefused, read_gaps, read_moments, read_readings
from logger.import_package import PackageRefused, read_package
from logger.imported_recording import import_recording
from logger.picture_edits import read_picture_file
from logger.progress import Progress
from logger.reader import read_recording
from logger.recording import Gap
from tests.logger.export.hostile import is_harmless

GOOD = "time_s,cell_voltage_V\n0,2.25\n1,2.249\n2.5,2.248\n"


def text(tmp_path, content, name="r.csv"):
    path = tmp_path / name
    path.write_bytes(content if isinstance(content, bytes) else content.encode())
    return path


def test_readings_are_taken_as_they_are(tmp_path):
    readings = read_readings(text(tmp_path, GOOD))
    assert readings.times_s.tolist() == [0.0, 1.0, 2.5]
    assert readings.values.tolist() == [2.25, 2.249, 2.248]


@pytest.mark.parametrize(
    "content",
    [
        "\ufeff" + GOOD,
        GOOD.replace("\n", "\r\n"),
        GOOD + "\n\n",
        'time_s,"cell_voltage_V",note\n0,2.25,"a, b"\n1,2.249,\n2.5,2.248,x\n',
        " time_s , cell_voltage_V \n0, 2.25\n1, 2.249\n2.5, 2.248\n",
        GOOD.replace(".", ",")
        .replace("s,", "s\t")
        .replace("\n0,", "\n0\t")
        .replace("\n1,", "\n1\t")
        .replace("2,5,", "2,5\t"),
    ],
    ids=["bom", "crlf", "empty lines", "further columns", "blanks", "tabs and decimal commas"],
)
def test_forms_that_spreadsheets_write(tmp_path, content):
    assert read_readings(text(tmp_path, content)).values.tolist() == [2.25, 2.249, 2.248]


@pytest.fixture
def usual_field_size():
    """That of Python's own csv; other libraries raise it for the whole process."""
    before = csv.field_size_limit(131_072)
    yield
    csv.field_size_limit(before)


@pytest.mark.usefixtures("usual_field_size")
def test_a_line_that_is_no_csv_is_named(tmp_path):
    for line in (f"3,{'2' * 200_000}", '3,"2.2"x', '3,"2.2'):
        with pytest.raises(ImportRefused, match=r"r\.csv, line 5 is no line of CSV .*; correct or remove it"):
            read_readings(text(tmp_path, GOOD + line + "\n"))


@pytest.mark.parametrize(("name", "said"), [("", "cannot be read"), ("run.H5", "is a recording already")])
def test_what_is_no_table_is_refused_by_the_command(tmp_path, monkeypatch, capsys, name, said):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "run.H5").write_bytes(b"\x89HDF\r\n\x1a\n")
    assert main(["import", name, "--out", "new.h5"]) == 1
    told = capsys.readouterr().err
    assert said in told
    assert "internal" not in told


def test_it_tells_how_much_of_a_long_table_is_read(tmp_path):
    lines = [f"{number},2.25\n" for number in range(20_000)]
    path = text(tmp_path, "time_s,cell_voltage_V\n" + "".join(lines))
    shares = []
    assert read_readings(path, progress=Progress(shares.append)).times_s.size == 20_000
    assert shares == sorted(shares)
    assert len(shares) >= 4
    assert shares[0] < 0.5
    assert 0.7 < shares[-1] <= 1


@pytest.mark.parametrize(
    "content",
    [
        "x" * 100_000 + ",cell_voltage_V\n0,1\n",
        "time_s,\x1b]0;owned\x07\u202e\n0,1\n",
        GOOD + "3," + "9" * 5000 + "\n",
        GOOD + "3,\x1b[31m\x00" + "y" * 5000 + "\n",
        GOOD.replace("V\n", "V,quality\n", 1)
        .replace("5\n", "5,0\n", 1)
        .replace("9\n", "9," + "7" * 900 + "\n"),
    ],
)
def test_what_is_quoted_from_a_file_is_short_and_does_nothing_to_the_terminal(tmp_path, capsys, content):
    assert main(["import", str(text(tmp_path, content)), "--out", str(tmp_path / "x.h5")]) == 1
    told = capsys.readouterr().err
    assert len(told) < 800
    assert is_harmless(told)


def test_a_thousands_mark_is_quoted_as_it_stands(tmp_path):
    with pytest.raises(ImportRefused, match=r"line 2: time_s '1\.000,5' is not a number"):
        read_readings(text(tmp_path, "time_s;cell_voltage_V\n1.000,5;2,25\n"))


def test_columns_may_have_other_names(tmp_path):
    path = text(tmp_path, "t,U\n0,1\n")
    assert read_readings(path, time="t", voltage="U").values.tolist() == [1.0]


def test_a_label_that_is_too_long_is_refused_by_line(tmp_path):
    path = text(tmp_path, f"time_s,kind,label\n0,note,ok\n1,note,{'x' * 501}\n", "m.csv")
    with pytest.raises(ImportRefused, match=r"m\.csv.*line 3: the label has 501 characters"):
        read_moments(path)


@pytest.mark.parametrize(
    ("content", "said"),
    [
        ("", "is empty"),
        ("time_s,cell_voltage_V\n", "no reading"),
        ("time,cell_voltage_V\n0,1\n", "time_s is not there"),
        ("time_s,cell_voltage_V,time_s\n0,1,2\n", "stands there twice"),
        ("time_s,cell_voltage_V\n0,1\n2\n", "line 3: 1 fields"),
        ("time_s,cell_voltage_V\n0,1\n2,1,2\n", "line 3: 3 fields"),
        ("time_s,cell_voltage_V\n0,1\n2,1\n1,1\n", "line 4: time runs backwards"),
        ("time_s,cell_voltage_V\n-1,1\n", "from 0"),
        ("time_s,cell_voltage_V\n0,nan\n", "line 2: cell_voltage_V is nan"),
        ("time_s,cell_voltage_V\n0,inf\n", "not a finite number"),
        ("time_s,cell_voltage_V\ninf,1\n", "not a finite number"),
        ("time_s,cell_voltage_V\n0,\n", "not a number"),
        ('time_s,cell_voltage_V\n0,"2,25"\n', "decimals take a dot"),
        ("time_s,cell_voltage_V,quality\n0,1,300\n", "quality"),
        ("time_s,cell_voltage_V,quality\n0,1," + "9" * 5000, "quality"),
        ("time_s,cell_voltage_V,quality\n0,1,٣\n", "quality"),
        ("time_s,cell_voltage_V\n0,1_0\n", "'1_0' is not a number"),
        ("time_s,cell_voltage_V\n0,٢\n", "'٢' is not a number"),
        ("time_s,cell_voltage_V\n1e308,1\n", "over a year"),
        ("time_s,cell_voltage_V\n0,1e308\n", "in volts"),
        (b"\x00\xff\xfe" * 20, "UTF-8"),
        ('time_s,cell_voltage_V\n0,"1\n', "CSV"),
    ],
)
def test_what_is_no_reading_is_refused_by_line(tmp_path, content, said):
    with pytest.raises(ImportRefused, match=said):
        read_readings(text(tmp_path, content))


def test_a_missing_file_is_said(tmp_path):
    with pytest.raises(ImportRefused, match="cannot be read"):
        read_readings(tmp_path / "no.csv")
    with pytest.raises(ImportRefused, match="cannot be read"):
        read_readings(tmp_path)


def test_what_may_never_end_is_refused_and_not_waited_for(tmp_path):
    for name in ("pipe.csv", "pipe.datapackage.json"):
        os.mkfifo(tmp_path / name)
    with pytest.raises(ImportRefused, match="no ordinary file"):
        read_readings(tmp_path / "pipe.csv")
    with pytest.raises(AttachmentError, match="no ordinary file"):
        read_picture_file(tmp_path / "pipe.csv")
    with pytest.raises(PackageRefused, match="no file of the size"):
        read_package(tmp_path / "pipe.datapackage.json")
    (tmp_path / "zeros.csv").symlink_to("/dev/zero")
    with pytest.raises(ImportRefused, match="no ordinary file"):
        read_gaps(tmp_path / "zeros.csv", {"cell_voltage": "cell_voltage"})


def test_a_gap_that_ends_beyond_any_run_is_refused(tmp_path):
    path = text(tmp_path, "begin_s,end_s,channel,reason\n0,1e300,cell_voltage,x\n", "g.csv")
    with pytest.raises(ImportRefused, match="line 2: a gap from 0 s to 1e\\+300 s cannot be"):
        read_gaps(path, {"cell_voltage": "cell_voltage"})


def test_overload_is_taken_only_with_its_quality(tmp_path):
    readings = read_readings(text(tmp_path, "time_s,cell_voltage_V,quality\n0,inf,1\n1,2.2,0\n"))
    assert readings.values[0] == np.inf
    assert readings.quality.tolist() == [1, 0]


def test_moments_are_read(tmp_path):
    path = text(tmp_path, "time_s,kind,label\n1,salt_added,2 drops\n0.5,note,'=1+1\n", "m.csv")
    assert [(m.time_s, m.kind, m.label) for m in read_moments(path)] == [
        (1.0, "salt_added", "2 drops"),
        (0.5, "note", "=1+1"),
    ]


def test_an_unknown_kind_of_moment_is_refused_by_line(tmp_path):
    with pytest.raises(ImportRefused, match=r"line 2: .*did you mean salt_added"):
        read_moments(text(tmp_path, "time_s,kind,label\n1,salt_aded,\n", "m.csv"))


@pytest.mark.parametrize("row", ["1e6,note,late", "1,resistor_changed,abc", "1,temperature,-300"])
def test_a_moment_that_cannot_be_is_refused_by_line(tmp_path, row):
    with pytest.raises(ImportRefused, match="line 2"):
        read_moments(text(tmp_path, f"time_s,kind,label\n{row}\n", "m.csv"), last_reading_s=60.0)


def test_the_recording_appears_whole(tmp_path):
    origin = text(tmp_path, GOOD)
    out = import_recording(read_readings(origin), (), tmp_path / "r.h5", origin=origin)
    recording = read_recording(out)
    assert recording.channels[0].values.tolist() == [2.25, 2.249, 2.248]
    assert recording.channels[0].instrument["address"] == "import:r.csv"
    assert sorted(p.name for p in tmp_path.iterdir()) == ["r.csv", "r.h5"]


def test_an_existing_recording_is_kept(tmp_path):
    origin = text(tmp_path, GOOD)
    (tmp_path / "r.h5").write_text("mine")
    with pytest.raises(OutputExists):
        import_recording(read_readings(origin), (), tmp_path / "r.h5", origin=origin)
    assert (tmp_path / "r.h5").read_text() == "mine"
    import_recording(read_readings(origin), (), tmp_path / "r.h5", origin=origin, replace=True)
    assert read_recording(tmp_path / "r.h5").channels[0].values.size == 3


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    st.one_of(st.binary(max_size=200), st.text(alphabet="0123456789.,-;\n\"'eE ntimes_cvoltgV", max_size=200))
)
def test_anything_else_is_refused_in_words(tmp_path, content):
    try:
        readings = read_readings(text(tmp_path, content))
    except ImportRefused:
        return
    assert np.isfinite(readings.values).all()


def test_gaps_of_the_channel_are_taken_and_impossible_ones_refused(tmp_path):
    path = tmp_path / "g.csv"
    path.write_text("begin_s,end_s,channel,reason\n1,2.5,cell_voltage,'=asleep\n3,4,other,unplugged\n")
    assert read_gaps(path, {"cell_voltage": "cell_voltage"}) == (Gap(1.0, 2.5, "cell_voltage", "=asleep"),)
    assert read_gaps(path, {"other": "cell_voltage"}) == (Gap(3.0, 4.0, "cell_voltage", "unplugged"),)
    path.write_text("begin_s,end_s,channel,reason\n2,1,cell_voltage,x\n")
    with pytest.raises(ImportRefused, match="line 2: a gap from 2 s to 1 s cannot be"):
        read_gaps(path, {"cell_voltage": "cell_voltage"})


@pytest.mark.parametrize(
    "text",
    ["time_s;cell_voltage_V\n0,5;2,25\n1,0;2,5\n", "\ufefftime_s;cell_voltage_V\r\n0.5;2.25\r\n1;2.5\r\n"],
)
def test_semicolons_bring_decimal_commas(tmp_path, text):
    path = tmp_path / "a.csv"
    path.write_text(text, "utf-8")
    readings = read_readings(path)
    assert readings.times_s.tolist() == [0.5, 1.0]
    assert readings.values.tolist() == [2.25, 2.5]


@pytest.mark.parametrize("step", ["sync_file", "replace"])
@pytest.mark.parametrize("stop", [KeyboardInterrupt, OSError(28, "No space left on device")])
def test_an_import_that_is_stopped_leaves_nothing(tmp_path, monkeypatch, step, stop):
    readings = read_readings(text(tmp_path, GOOD))

    def stopped(*_):
        raise stop

    monkeypatch.setattr(f"logger.disk.Disk.{step}", stopped)
    with pytest.raises((KeyboardInterrupt, LoggerError)) as told:
        import_recording(readings, (), tmp_path / "run.h5", origin=tmp_path / "r.csv")
    assert told.type is KeyboardInterrupt or "could not be written (No space left" in str(told.value)
    assert [path.name for path in tmp_path.iterdir()] == ["r.csv"]
