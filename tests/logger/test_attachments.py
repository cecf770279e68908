"""Pictures of moments: kept byte for byte through journal and recording, edited safely, gone when removed."""

from __future__ import annotations

import json
import re
import struct
import zlib
from pathlib import Path

import h5py
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from logger.archive import finish
from logger.attachments import (
    PICTURE_LIMIT_BYTES,
    AttachmentError,
    attachment_of,
    data_of,
    entry_of,
    living,
    new_attachment,
    removal_of,
)
from logger.commands import main
from logger.errors import LoggerError, RecordingBusy, RecordingError
from logger.inspection import inspect
from logger.intake import Intake
from logger.journal import FrameType, JournalWriter
from logger.payload import encode_json
from logger.picture_edits import attach, detach, load_picture, read_picture_file
from logger.reader import read_recording
from logger.recovery import find_journals, recover
from logger.run_pictures import RunPictures
from logger.vetting import vet
from tests.logger.fakes import block
from tests.logger.nexus_rules import broken_rules
from tests.logger.test_archive import journal


def png(width: int = 3, height: int = 2, grey: int = 200) -> bytes:
    """Return a small PNG, made by hand after the W3C Recommendation, section 11."""

    def chunk(name: bytes, body: bytes) -> bytes:
        return struct.pack(">I", len(body)) + name + body + struct.pack(">I", zlib.crc32(name + body))

    head = struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0)
    rows = b"".join(b"\0" + bytes([grey]) * width for _ in range(height))
    body = chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(rows)) + chunk(b"IEND", b"")
    return b"\x89PNG\r\n\x1a\n" + body


def jpeg(rest: bytes = b"", width: int = 4, height: int = 3) -> bytes:
    """Return the markers of a JPEG, after ITU-T T.81, Annex B; what is coded is not looked at."""
    frame = b"\xff\xc0" + struct.pack(">HBHHB", 11, 8, height, width, 1) + b"\x01\x11\x00"
    scan = b"\xff\xda" + struct.pack(">HB", 8, 1) + b"\x01\x00\x00\x3f\x00" + b"\x12\x34"
    comment = b"\xff\xfe" + struct.pack(">H", 2 + len(rest)) + rest
    return b"\xff\xd8" + comment + frame + scan + b"\xff\xd9"


def webp() -> bytes:
    """Return the head of a lossless WebP of 5 by 3 pixels, after RFC 9649, 2.6 and 3.4."""
    bits = (5 - 1) | (3 - 1) << 14
    body = b"VP8L" + struct.pack("<I", 10) + b"\x2f" + struct.pack("<I", bits) + bytes(5)
    return b"RIFF" + struct.pack("<I", 4 + len(body)) + b"WEBP" + body


@pytest.fixture
def recording(tmp_path: Path) -> Path:
    return finish(journal(tmp_path / "run.h5", [block(0, 100)]))


def whole(path: Path) -> bool:
    return all(finding.is_whole is not False for finding in inspect(path).findings)


def test_the_kind_is_seen_by_the_bytes_and_not_by_the_name() -> None:
    assert new_attachment("m", "a.txt", png()).media_type == "image/png"
    assert new_attachment("m", "a", jpeg()).media_type == "image/jpeg"
    assert new_attachment("m", "a", webp()).media_type == "image/webp"
    for no_picture in (b"", b"GIF89a", b"<svg xmlns='http://www.w3.org/2000/svg'/>", b"%PDF-1.7", b"RIFF"):
        with pytest.raises(AttachmentError, match="PNG, JPEG or WebP"):
            new_attachment("m", "a.png", no_picture)


def test_ids_can_be_names_of_nexus_groups() -> None:
    """Source: NeXus manual, "NeXus data file naming rules": a name begins with a letter or underscore."""
    ids = [new_attachment("m", "a.png", png()).id for _ in range(200)]
    assert len(set(ids)) == len(ids)
    assert all(re.fullmatch(r"[a-zA-Z_][a-zA-Z0-9_]*", one) for one in ids)


def test_one_that_is_too_large_is_refused_with_its_size() -> None:
    with pytest.raises(AttachmentError, match=r"larger than the 16 MB that a picture may have"):
        new_attachment("m", "a.png", png() + bytes(PICTURE_LIMIT_BYTES))


@pytest.mark.parametrize(
    ("given_name", "kept"),
    [
        ("/home/somebody/Bücher/anode 2.png", "anode 2.png"),
        ("C:\\Users\\x\\anode.png", "anode.png"),
        ("", "picture.png"),
        ("..", "picture.png"),
        ("a\nb\u202e.png", "a b.png"),
        ("x" * 300, "x" * 120),
    ],
)
def test_only_the_last_part_of_a_name_is_kept(given_name: str, kept: str) -> None:
    assert new_attachment("m", given_name, png()).file_name == kept


@given(st.binary(max_size=2000))
def test_an_entry_gives_the_bytes_back(rest: bytes) -> None:
    data = jpeg(rest)
    one = new_attachment("m", "a.jpg", data)
    entry = json.loads(json.dumps(entry_of(one, data)))
    assert data_of(entry) == data
    assert attachment_of(entry) == one
    with pytest.raises(RecordingError):
        data_of({**entry, "size_bytes": len(data) + 1})
    with pytest.raises(RecordingError):
        data_of({**entry, "data": "!"})


def test_the_last_word_on_a_picture_counts() -> None:
    one, two = new_attachment("m", "1", png()), new_attachment("m", "2", png())
    gone = attachment_of(removal_of(one))
    assert living([one, two, gone]) == (two,)
    assert living([one, gone, one]) == (one,)


def test_pictures_go_through_journal_and_recording(tmp_path: Path) -> None:
    path = journal(tmp_path / "run.h5", [block(0, 100)], ended=False)
    kept, removed = new_attachment("m1", "a.png", png(grey=1)), new_attachment("m1", "b.png", png(grey=2))
    lines = [entry_of(kept, png(grey=1)), entry_of(removed, png(grey=2)), removal_of(removed)]
    add_entries(path, lines)
    assert read_recording(path).attachments == (kept,)
    assert all(finding.is_whole is not False for finding in inspect(path).findings)
    (found,) = find_journals(tmp_path)
    assert recover(found).outcome == "recovered"
    recording = read_recording(tmp_path / "run.h5")
    assert recording.attachments == (kept,)
    assert load_picture(recording, kept.id) == png(grey=1)
    assert whole(tmp_path / "run.h5")
    with h5py.File(tmp_path / "run.h5") as file:
        note = file[f"run/attachments/{kept.id}"]
        assert note.attrs["NX_class"] == "NXnote"
        assert note["type"][()] == b"image/png"
        np.testing.assert_array_equal(note["data"][()], np.frombuffer(png(grey=1), np.uint8))


def add_entries(path: Path, entries: list[dict[str, object]]) -> None:
    """Write a journal anew with entries of pictures behind its readings."""
    from logger.journal import read_frames

    frames = list(read_frames(path))
    head = frames[0].json()
    path.unlink()
    writer = JournalWriter(path, head)
    for frame in frames[1:]:
        writer.append(frame.type, frame.payload)
    for entry in entries:
        writer.append(FrameType.ATTACHMENT, encode_json(entry))
    writer.sync()
    writer.close()


def test_a_finished_recording_takes_pictures_and_gives_them_up(recording: Path) -> None:
    (moment,) = read_recording(recording).moments
    before = read_recording(recording).channels[0].values
    opened, one = attach(read_recording(recording), moment.id, "anode.png", png())
    assert opened.attachments == (one,)
    assert read_recording(recording).attachments == (one,)
    assert load_picture(opened, one.id) == png()
    assert whole(recording)
    vet(recording)
    np.testing.assert_array_equal(read_recording(recording).channels[0].values, before)
    left = detach(opened, one.id)
    assert left.attachments == () == read_recording(recording).attachments
    assert whole(recording)
    assert png() not in recording.read_bytes()
    with pytest.raises(LoggerError, match="not there any more"):
        load_picture(left, one.id)
    with pytest.raises(AttachmentError, match="not there any more"):
        detach(left, one.id)
    assert [p.name for p in recording.parent.iterdir()] == ["run.h5"]


def test_two_pictures_and_one_taken_back_leave_the_other(recording: Path) -> None:
    (moment,) = read_recording(recording).moments
    opened, one = attach(read_recording(recording), moment.id, "1.png", png(grey=1))
    opened, two = attach(opened, moment.id, "2.png", png(grey=2))
    opened = detach(opened, one.id)
    assert read_recording(recording).attachments == (two,) == opened.attachments
    assert load_picture(opened, two.id) == png(grey=2)
    assert whole(recording)


def test_what_does_not_fit_is_refused(recording: Path, tmp_path: Path) -> None:
    opened = read_recording(recording)
    before = recording.read_bytes()
    with pytest.raises(AttachmentError, match="moment is not there"):
        attach(opened, "nobody", "a.png", png())
    with pytest.raises(AttachmentError, match="PNG, JPEG or WebP"):
        attach(opened, opened.moments[0].id, "a.png", b"text")
    with pytest.raises(AttachmentError, match="cannot be read"):
        read_picture_file(tmp_path / "nothing.png")
    with pytest.raises(AttachmentError, match="cannot be read"):
        read_picture_file(tmp_path)
    assert recording.read_bytes() == before
    other = finish(journal(tmp_path / "other.h5", [block(0, 10)]))
    other.replace(recording)
    with pytest.raises(RecordingBusy, match="replaced"):
        attach(opened, opened.moments[0].id, "a.png", png())


def test_a_picture_that_could_not_be_folded_in_lies_beside_and_is_recovered(
    recording: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    opened = read_recording(recording)

    def no_room(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("logger.amend.shutil.copyfile", no_room)
    _, one = attach(opened, opened.moments[0].id, "a.png", png())
    assert read_recording(recording).attachments == (one,)
    assert load_picture(read_recording(recording), one.id) == png()
    monkeypatch.undo()
    (found,) = find_journals(recording.parent)
    assert recover(found).outcome == "recovered"
    assert load_picture(read_recording(recording), one.id) == png()
    assert whole(recording)


@pytest.mark.parametrize(
    "change",
    [
        {"id": "a/b"},
        {"id": ""},
        {"file_name": "../x"},
        {"file_name": "a\0b"},
        {"media_type": "text/html"},
        {"size_bytes": -1},
        {"removed": "no"},
        {"data": 5},
    ],
)
def test_an_entry_of_unknown_origin_is_refused(tmp_path: Path, change: dict[str, object]) -> None:
    path = journal(tmp_path / "run.h5", [block(0, 10)], ended=False)
    add_entries(path, [{**entry_of(new_attachment("m", "a.png", png()), png()), **change}])
    with pytest.raises(RecordingError, match="ATTACHMENT"):
        read_recording(path)


def test_the_pictures_of_a_run_have_a_limit_together(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("logger.run_pictures.TOGETHER_LIMIT_BYTES", 2 * len(png()))
    intake = Intake()
    pictures = RunPictures(intake, lambda moment_id: moment_id == "m")
    one = pictures.attach("m", "1.png", png())
    pictures.attach("m", "2.png", png())
    with pytest.raises(AttachmentError, match="once the run is saved"):
        pictures.attach("m", "3.png", png())
    pictures.detach(one.id)
    three = pictures.attach("m", "3.png", png(grey=9))
    assert pictures.picture(three.id) == png(grey=9)
    assert [one.file_name for one in pictures.attachments] == ["2.png", "3.png"]
    with pytest.raises(AttachmentError, match="not there any more"):
        pictures.picture(one.id)
    with pytest.raises(AttachmentError, match="moment is not there"):
        pictures.attach("x", "4.png", png())
    kinds = [entry.type for entry in intake.take(0.0)]
    assert kinds == [FrameType.ATTACHMENT] * 4
    intake.close()
    with pytest.raises(LoggerError, match="ended"):
        pictures.detach(three.id)


def test_the_command_attaches_lists_and_removes(
    recording: Path, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    picture = tmp_path / "Bild ü.png"
    picture.write_bytes(png())
    (moment,) = read_recording(recording).moments
    assert main(["moment", str(recording), "attach", moment.id[:8], str(picture)]) == 0
    (one,) = read_recording(recording).attachments
    assert main(["moment", str(recording), "list"]) == 0
    assert f"{one.id[:8]}  picture Bild ü.png ({len(png())} bytes)" in capsys.readouterr().out
    assert main(["moment", str(recording), "list", "--json"]) == 0
    (told,) = json.loads(capsys.readouterr().out)[0]["pictures"]
    assert told == {
        "id": one.id, "file_name": "Bild ü.png", "media_type": "image/png", "size_bytes": len(png())
    }  # fmt: skip
    with h5py.File(recording) as file:
        assert broken_rules(file) == []
    picture.write_text("<svg/>")
    assert main(["moment", str(recording), "attach", moment.id, str(picture)]) == 1
    assert main(["moment", str(recording), "detach", one.id[:6]]) == 0
    assert read_recording(recording).attachments == ()
