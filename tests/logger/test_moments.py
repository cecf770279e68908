"""Moments: kinds, labels, revisions, and edits of finished recordings."""

from __future__ import annotations

import math
import os
import threading
from dataclasses import replace

import h5py
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from logger import editing
from logger.amend import copy_of
from logger.archive import finish
from logger.attachments import entry_of, new_attachment, removal_of
from logger.disk import Disk
from logger.edit_journal import edits_of, merge
from logger.errors import LoggerError, RecordingBusy, RecordingError
from logger.journal import FrameType, JournalWriter, begun_of, journal_of
from logger.moment_edits import Changes, add, changes_beyond, edit, keep_changes, moments_of
from logger.moments import KINDS, MOST_REVISIONS, MomentError, clean_label, new_moment, parse_line
from logger.payload import encode_json
from logger.reader import read_recording
from logger.recovery import find_journals, recover
from logger.vetting import vet
from tests.logger.fakes import FaultyDisk, block
from tests.logger.nexus_rules import broken_rules
from tests.logger.test_archive import journal
from tests.logger.test_attachments import png


@pytest.fixture
def recording(tmp_path):
    return finish(journal(tmp_path / "run.h5", [block(0, 100)]))


def test_a_line_is_kind_and_label_or_a_note():
    assert parse_line("salt_added 2 drops") == ("salt_added", "2 drops")
    assert parse_line("  dry_cell ") == ("dry_cell", "")
    assert parse_line("anode has darkened") == ("note", "anode has darkened")


def test_an_unknown_kind_names_the_nearest():
    with pytest.raises(MomentError, match="did you mean buffer_in"):
        new_moment(1.0, "bufer_in")


@pytest.mark.parametrize("time_s", [-0.1, float("nan"), float("inf")])
def test_a_time_that_cannot_be_is_refused(time_s):
    with pytest.raises(MomentError):
        new_moment(time_s, "note")


@given(st.text())
def test_a_label_has_no_control_or_direction_characters(text):
    label = clean_label(text)
    assert len(label) <= 500
    assert label.isprintable() or all(c.isprintable() or c.isspace() or ord(c) > 127 for c in label)
    assert not any(c in label for c in "\n\r\t\x00\x1b\u202e\u2066")


def test_every_kind_has_a_name_for_people():
    assert all(KINDS.values())


def test_edits_keep_what_was(recording):
    (salt,) = moments_of(recording)
    note = add(recording, 0.5, "note", "=1+1")
    edit(recording, salt.id[:6], time_s=0.4)
    edit(recording, salt.id, label="3 drops", kind="note")
    edit(recording, note.id, removed=True)
    (left,) = moments_of(recording)
    assert (left.time_s, left.kind, left.label, left.revision) == (0.4, "note", "3 drops", 2)
    history = read_recording(recording).moments_history
    assert [(m.time_s, m.kind, m.label) for m, _ in history] == [
        (0.2, "salt_added", "2 Tropfen µ"),
        (0.4, "salt_added", "2 Tropfen µ"),
        (0.5, "note", "=1+1"),
    ]


def test_edits_leave_the_readings_as_they_were(recording):
    before = read_recording(recording)
    add(recording, 0.5, "note")
    after = read_recording(recording)
    np.testing.assert_array_equal(before.channels[0].values, after.channels[0].values)
    assert before.uuid == after.uuid
    assert [p.name for p in recording.parent.iterdir()] == ["run.h5"]


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (lambda p: add(p, 61.0, "note"), "after the end"),
        (lambda p: add(p, -1.0, "note"), "zero or more"),
        (lambda p: add(p, 1.0, "salt"), "salt_added"),
        (lambda p: add(p, 0.5, "note", "x" * 501), "has 501 characters, 500 are the most"),
        (lambda p: edit(p, "", label="x" * 501), "has 501 characters, 500 are the most"),
        (lambda p: edit(p, "zzzz", label="x"), "not one of the moments"),
        (lambda p: edit(p, "", label="x"), "not one of the moments"),
    ],
)
def test_an_edit_that_cannot_be_changes_nothing(recording, change, said):
    before = recording.read_bytes()
    with pytest.raises(MomentError, match=said):
        change(recording)
    assert recording.read_bytes() == before


def test_a_moment_after_the_end_of_the_run_can_be_removed(recording):
    """Files of other makers hold such; it was refused, and a time within the run asked for."""
    beyond = new_moment(61.0, "note", "late")
    keep_changes(read_recording(recording), Changes((beyond,)))
    edit(recording, beyond.id, removed=True)
    assert beyond.id not in {one.id for one in moments_of(recording)}


def test_a_run_that_was_cut_off_is_to_be_recovered_first(tmp_path):
    journal(tmp_path / "run.h5", [block(0, 10)])
    with pytest.raises(RecordingBusy, match="galvanote recover"):
        add(tmp_path / "run.h5", 0.0, "note")


def test_a_file_that_is_not_there_is_not_made(tmp_path):
    with pytest.raises(RecordingError):
        add(tmp_path / "run.h5", 0.0, "note")
    assert list(tmp_path.iterdir()) == []


def test_an_edit_is_kept_beside_where_there_is_no_room_for_the_copy(recording, monkeypatch):
    before = recording.read_bytes()

    def no_room(source, target):
        target.write_bytes(source.read_bytes()[:100])
        raise OSError(28, "No space left on device", str(source), None, str(target))

    monkeypatch.setattr("logger.amend.shutil.copyfile", no_room)
    add(recording, 0.5, "note", "kept")
    assert recording.read_bytes() == before
    assert sorted(p.name for p in recording.parent.iterdir()) == ["run.h5", "run.h5.edits"]
    assert [m.label for m in moments_of(recording)] == ["2 Tropfen µ", "kept"]
    with pytest.raises(LoggerError, match=r"changed \(No space left on device\); it is as it was"):
        add(recording, 0.6, "note", "refused")
    monkeypatch.undo()
    (found,) = find_journals(recording.parent)
    assert recover(found).outcome == "recovered"
    assert find_journals(recording.parent) == []
    assert [p.name for p in recording.parent.iterdir()] == ["run.h5"]
    assert [m.label for m in moments_of(recording)] == ["2 Tropfen µ", "kept"]


def write_edit(recording, uuid, revision):
    """Leave a side journal as an editor does that is killed before it changes the recording."""
    journal = JournalWriter(edits_of(recording), {"uuid": uuid})
    journal.append(FrameType.MOMENT, encode_json(revision.as_dict()))
    journal.close()


def test_the_copy_of_an_editor_that_was_cut_off_goes_too(recording):
    (salt,) = moments_of(recording)
    write_edit(recording, read_recording(recording).uuid, salt)  # folded in already: no copy is made again
    copy_of(recording).write_bytes(b"half a copy")
    assert recover(edits_of(recording)).outcome == "recovered"
    assert [p.name for p in recording.parent.iterdir()] == ["run.h5"]


def test_a_beginning_that_was_cut_off_is_removed_but_not_one_that_goes_on(recording):
    begun = begun_of(journal_of(recording))
    disk = Disk()
    fd = disk.create(begun)
    disk.lock(fd, begun)
    assert [recover(found).outcome for found in find_journals(recording.parent)] == ["running"]
    disk.close(fd)
    assert [recover(found).outcome for found in find_journals(recording.parent)] == ["empty"]
    assert [p.name for p in recording.parent.iterdir()] == ["run.h5"]


def test_an_edit_cut_off_between_copy_and_removal_is_not_made_twice(recording):
    (salt,) = moments_of(recording)
    uuid = read_recording(recording).uuid
    write_edit(recording, uuid, salt.edited(label="3 drops"))
    kept = edits_of(recording).read_bytes()
    assert recover(edits_of(recording)).outcome == "recovered"
    edits_of(recording).write_bytes(kept)
    assert len(read_recording(recording).moments_history) == 1
    recover(edits_of(recording))
    assert len(read_recording(recording).moments_history) == 1
    assert moments_of(recording)[0].label == "3 drops"


def test_edits_of_another_recording_of_that_name_are_not_taken(recording):
    (salt,) = moments_of(recording)
    write_edit(recording, "another uuid", salt.edited(label="3 drops"))
    assert moments_of(recording)[0].label == "2 Tropfen µ"


def test_the_edit_is_durable_first_and_the_copy_before_it_takes_the_name(recording):
    disk = FaultyDisk()
    add(recording, 0.5, "note", disk=disk)
    head = ["write", "sync_data", "give_name", "sync_folder"]
    edit_made_durable = ["write", "sync_data"]
    folded = ["sync_file run.h5.edit", "replace run.h5.edit run.h5", "sync_folder", "remove run.h5.edits"]
    assert disk.operations == [*head, *edit_made_durable, *folded]


def looks_at(monkeypatch):
    """Return a list that grows with each look at a file in a process of its own."""
    looks = []

    def look(path):
        looks.append(path)
        vet(path)

    monkeypatch.setattr("logger.reader.vet", look)
    return looks


def test_an_edit_has_the_file_looked_at_once(recording, monkeypatch):
    """Each look takes a process: three of them were most of what an edit took."""
    looks = looks_at(monkeypatch)
    add(recording, 0.5, "note")
    assert looks == [recording]
    assert "note" in {m.kind for m in moments_of(recording)}


@pytest.mark.parametrize("changed", ["in place", "replaced"])
def test_a_file_that_changes_before_the_edit_holds_it_is_looked_at_again(recording, monkeypatch, changed):
    looks, begin = looks_at(monkeypatch), editing._begin

    def change(path, uuid, disk):
        if changed == "replaced":
            copy = path.with_name("copy.h5")
            copy.write_bytes(path.read_bytes())
            copy.replace(path)
        else:
            with path.open("ab") as file:
                file.write(b"more")
        return begin(path, uuid, disk)

    monkeypatch.setattr(editing, "_begin", change)
    add(recording, 0.5, "note")
    assert looks == [recording, recording]


def test_two_editors_take_turns(recording, monkeypatch):
    monkeypatch.setattr("logger.editing.WAIT_S", math.inf)  # a busy machine takes its time over each turn

    def tag(number):
        add(recording, 0.1 * number, "note", f"number {number}")

    threads = [threading.Thread(target=tag, args=(n,)) for n in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    labels = {m.label for m in moments_of(recording)}
    assert {f"number {n}" for n in range(4)} <= labels
    assert [p.name for p in recording.parent.iterdir()] == ["run.h5"]


def store_findings(path, findings_json):
    with editing.editing(path) as editor:
        editor.keep_findings(findings_json)


def test_findings_are_kept_beside_the_readings(recording):
    store_findings(recording, '{"voltage_saved": null}')
    found = read_recording(recording)
    assert found.findings_json == '{"voltage_saved": null}'
    assert [m.label for m in found.moments] == ["2 Tropfen µ"]
    with h5py.File(recording) as file:
        assert file["run/findings"].attrs["NX_class"] == "NXprocess"
        assert broken_rules(file) == []
    store_findings(recording, "{}")
    assert read_recording(recording).findings_json == "{}"


@pytest.mark.parametrize(
    ("kind", "label", "good"),
    [
        ("resistor_changed", "4.7k", True),
        ("resistor_changed", "12000 ohm", True),
        ("resistor_changed", "minus", False),
        ("resistor_changed", "0", False),
        ("temperature", "22,5", True),
        ("temperature", "-300", False),
        ("temperature", "warm", False),
    ],
)
def test_labels_that_must_hold_a_number_are_checked_when_edited(recording, kind, label, good):
    if good:
        assert add(recording, 0.5, kind, label).label == label
    else:
        with pytest.raises(MomentError, match="for example"):
            add(recording, 0.5, kind, label)


def by_others(path, moment, *labels):
    """Change a moment in the file, as another program does meanwhile; return what was read before that."""
    read_before = read_recording(path)
    for label in labels:
        edit(path, moment.id, label=label)
    return read_before


@pytest.mark.parametrize("others", [("one",), ("one", "two")])
def test_a_change_of_what_others_changed_meanwhile_is_kept_and_so_is_what_they_made(recording, others):
    """Two windows on one recording: with fewer edits than the other's a change was lost without a word, and
    with as many the other's was, from the history too."""
    (salt,) = moments_of(recording)
    read_before = by_others(recording, salt, *others)
    first = salt.edited(label="mine")
    seen = keep_changes(read_before, Changes((first, first.edited(label="mine, too"))))
    found = read_recording(recording)
    assert [m.label for m in found.moments] == ["mine, too"]
    assert [m.label for m, _ in found.moments_history] == [salt.label, *others, "mine"]
    assert (seen.moments, seen.moments_history) == (found.moments, found.moments_history)


def test_what_others_changed_meanwhile_is_seen_with_the_own_change(recording):
    (salt,) = moments_of(recording)
    read_before = by_others(recording, salt, "theirs")
    new = new_moment(0.5, "note", "mine")
    seen = keep_changes(read_before, Changes((new,)))
    assert [m.label for m in seen.moments] == ["theirs", "mine"]


def test_what_others_removed_meanwhile_comes_back_with_the_own_words(recording):
    (salt,) = moments_of(recording)
    read_before = read_recording(recording)
    edit(recording, salt.id, removed=True)
    keep_changes(read_before, Changes((salt.edited(label="mine"),)))
    (found,) = moments_of(recording)
    assert (found.label, found.revision) == ("mine", 2)


def test_changes_that_are_kept_already_are_not_kept_again(recording):
    (salt,) = moments_of(recording)
    read_before = by_others(recording, salt, "theirs")
    first = salt.edited(label="mine")
    keep_changes(read_before, Changes((first,)))
    keep_changes(read_before, Changes((first, first.edited(label="mine, too"))))
    found = read_recording(recording)
    assert [m.label for m, _ in found.moments_history] == [salt.label, "theirs", "mine"]
    assert [(m.label, m.revision) for m in found.moments] == [("mine, too", 3)]


def test_by_a_link_the_recording_itself_is_changed(recording):
    """A changed copy took the place of the link, and the recording stayed as it was."""
    link = recording.parent / "link" / "run.h5"
    link.parent.mkdir()
    link.symlink_to("../run.h5")
    (salt,) = moments_of(link)
    edit(link, salt.id, label="3 drops")
    assert link.is_symlink()
    assert [m.label for m in moments_of(recording)] == [m.label for m in moments_of(link)] == ["3 drops"]
    assert [p.name for p in link.parent.iterdir()] == ["run.h5"]


def test_edits_beside_a_recording_are_read_and_folded_in_by_a_link_too(recording):
    (salt,) = moments_of(recording)
    link = recording.parent / "link.h5"
    link.symlink_to("run.h5")
    write_edit(recording, read_recording(recording).uuid, salt.edited(label="3 drops"))
    assert [m.label for m in moments_of(link)] == ["3 drops"]
    assert editing.finish_leftover(link)
    assert link.is_symlink()
    assert not edits_of(recording).exists()
    assert [m.label for m in moments_of(recording)] == ["3 drops"]


def test_a_moment_that_was_changed_and_removed_at_once_is_not_in_the_history_twice(recording):
    """Cut off before the side journal went, the edits in it were folded in once more."""
    (salt,) = moments_of(recording)
    changed = salt.edited(label="3 drops")
    revisions = (changed, changed.edited(removed=True))
    keep_changes(read_recording(recording), Changes(revisions))
    kept = read_recording(recording)
    assert [m.label for m, _ in kept.moments_history] == [salt.label, "3 drops"]
    assert merge(kept.moments, kept.moments_history, revisions) == (kept.moments, kept.moments_history)
    for revision in revisions:
        write_edit(recording, kept.uuid, revision)
        assert read_recording(recording).moments_history == kept.moments_history
        assert editing.finish_leftover(recording)
        assert read_recording(recording).moments_history == kept.moments_history


def test_a_link_that_leads_to_itself_is_said_not_to_be_there(tmp_path):
    link = tmp_path / "run.h5"
    link.symlink_to("run.h5")
    with pytest.raises(RecordingError, match=r"run\.h5 is not there"):
        add(link, 0.5, "note")
    with pytest.raises(LoggerError):
        find_journals(link)


@pytest.mark.parametrize("revision", [-5, 2**31 - 1])
def test_a_moment_that_no_edit_could_follow_is_refused(recording, revision):
    """An edit was taken, and from then on the recording could not be read."""
    with h5py.File(recording, "r+") as file:
        file["run/moments/revision"][...] = revision
    with pytest.raises(RecordingError, match="has another form than in a recording"):
        edit(recording, moments_of(recording)[0].id, label="3 drops")
    assert not edits_of(recording).exists()


def test_the_last_edit_that_can_be_numbered_is_followed_by_none(recording):
    """It was taken, and from then on the recording could not be read."""
    with h5py.File(recording, "r+") as file:
        file["run/moments/revision"][...] = MOST_REVISIONS - 1
    before = moments_of(recording)
    for change in ({"label": "3 drops"}, {"removed": True}):
        with pytest.raises(MomentError, match="add another moment in its place"):
            edit(recording, before[0].id, **change)
    assert moments_of(recording) == before
    assert not edits_of(recording).exists()


def test_a_write_protected_recording_is_not_changed(recording, monkeypatch):
    """The first edit stayed beside it for good, and so was missing in every copy; the next were refused."""
    recording.chmod(0o444)
    may = os.access
    # As for who is not root, and on Windows.
    monkeypatch.setattr(os, "access", lambda path, mode: mode != os.W_OK and may(path, mode))
    with pytest.raises(LoggerError, match=r"it is write-protected.*it is as it was\. Take the protection"):
        add(recording, 3.0, "note", "later")
    assert not edits_of(recording).exists()
    assert all(one.label != "later" for one in moments_of(recording))


def test_an_edit_that_waits_beside_a_write_protected_recording_stays_and_is_told(recording, monkeypatch):
    moment = new_moment(3.0, "note", "later")
    write_edit(recording, read_recording(recording).uuid, moment)
    monkeypatch.setattr(os, "access", lambda _path, mode: mode != os.W_OK)
    with pytest.raises(LoggerError, match="it is write-protected"):
        editing.finish_leftover(recording)
    assert moment in moments_of(recording)


def test_a_change_that_was_undone_is_none(recording):
    read = read_recording(recording)
    (salt,) = read.moments
    new = new_moment(0.5, "note", "hums")
    changed = salt.edited(label="3 drops")
    undone = changed.edited(label=salt.label)
    for nothing in ((changed, undone), (new, new.edited(removed=True)), ()):
        assert not changes_beyond(read, Changes(nothing))
    for something in ((changed,), (changed, undone, undone.edited(removed=True)), (new,)):
        assert changes_beyond(read, Changes((*something, new))).revisions == (*something, new)
    picture = {"id": "a", "removed": False}
    assert changes_beyond(read, Changes((changed, new, undone), (picture,))) == Changes((new,), (picture,))


def test_a_picture_that_was_attached_or_removed_and_that_was_undone_is_no_change(recording):
    none = read_recording(recording)
    one = new_attachment(none.moments[0].id, "rim.png", png())
    some = replace(none, attachments=(one,))
    attached, removed = entry_of(one, png()), removal_of(one)
    for read, nothing in ((none, (attached, removed)), (some, (removed, attached))):
        assert not changes_beyond(read, Changes((), nothing))
        for something in (
            (attached,),
            (removed,),
            (*nothing, nothing[0]),
        ):  # the file may hold more than read
            assert changes_beyond(read, Changes((), something)).pictures == something


def test_what_was_undone_of_a_change_that_is_in_the_file_is_a_change(recording):
    """The file holds more than was read of it."""
    read = read_recording(recording)
    (salt,) = read.moments
    changed = edit(recording, salt.id, label="3 drops")
    undone = changed.edited(label=salt.label)
    assert changes_beyond(read, Changes((undone,))).revisions == (undone,)
