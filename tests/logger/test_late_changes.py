"""Changes that could not be kept when they were made, and are made later."""

from __future__ import annotations

import json

import pytest

from logger.archive import finish
from logger.errors import RecordingBusy
from logger.late_changes import LateChange, late_changes, make_late
from logger.moment_edits import Changes, add, edit, keep_changes, moments_of
from logger.moments import MomentError, new_moment
from logger.reader import read_recording
from tests.logger.fakes import block
from tests.logger.test_archive import journal


@pytest.fixture
def recording(tmp_path):
    path = finish(journal(tmp_path / "run.h5", [block(0, 100)]))
    add(path, 0.2, "note", "first")
    return path


def kept(changes):
    """Return them as they are after having been written down."""
    return tuple(LateChange.of(json.loads(json.dumps(one.as_dict()))) for one in late_changes(changes))


def note_of(path, label):
    return next(one for one in moments_of(path) if one.label == label)


def uuid_of(path):
    return read_recording(path).uuid


def test_moments_are_changed_added_and_removed(recording):
    (salt,) = [one for one in moments_of(recording) if one.label != "first"]
    first, new = note_of(recording, "first"), new_moment(0.4, "stirring_on", "slowly")
    moved = first.edited(time_s=0.3)
    changes = kept(Changes((moved, new, moved.edited(label="second"), salt.edited(removed=True))))
    make_late(recording, uuid_of(recording), changes)
    found = {(one.time_s, one.kind, one.label) for one in moments_of(recording)}
    assert found == {(0.3, "note", "second"), (0.4, "stirring_on", "slowly")}
    history = {one.label for one, _ in read_recording(recording).moments_history}
    assert {"first", salt.label} <= history, "what they were is kept"
    before = recording.read_bytes()
    make_late(recording, uuid_of(recording), changes)
    assert recording.read_bytes() == before, "what is made already is left out"


def test_a_moment_that_was_changed_since_stays_and_the_others_are_made(recording):
    """One that could not be made, and none of them was."""
    first, new = note_of(recording, "first"), new_moment(0.4, "note", "new")
    changes = kept(Changes((new, first.edited(label="second"))))
    edit(recording, first.id, label="third")
    ((refused, why),) = make_late(recording, uuid_of(recording), changes)
    assert refused.label == "second"
    assert "the moment at 0:00 has been changed in run.h5 since" in why
    assert {"third", "new"} <= {one.label for one in moments_of(recording)}
    before = recording.read_bytes()
    assert make_late(recording, uuid_of(recording), changes) == ((refused, why),)
    assert recording.read_bytes() == before


def test_a_moment_that_was_removed_since_stays_so(recording):
    first = note_of(recording, "first")
    changes = kept(Changes((first.edited(label="second"),)))
    edit(recording, first.id, removed=True)
    ((_, why),) = make_late(recording, uuid_of(recording), changes)
    assert "since" in why
    added = new_moment(0.4, "note", "new")
    assert make_late(recording, uuid_of(recording), kept(Changes((added,)))) == ()
    edit(recording, added.id, removed=True)
    ((_, why),) = make_late(recording, uuid_of(recording), kept(Changes((added,))))
    assert "since" in why


def test_a_moment_may_be_again_what_it_was_at_the_bench(recording):
    """A resistor was tagged without its ohms, removed, and brought back: that was refused."""
    tagged = new_moment(0.3, "resistor_changed", "")
    keep_changes(read_recording(recording), Changes((tagged,)))  # as it comes from the bench: not checked
    removed = edit(recording, tagged.id, removed=True)
    assert make_late(recording, uuid_of(recording), kept(Changes((removed.edited(removed=False),)))) == ()
    (back,) = [one for one in moments_of(recording) if one.id == tagged.id]
    ((_, why),) = make_late(recording, uuid_of(recording), kept(Changes((back.edited(time_s=0.35),))))
    assert "ohms" in why, "what it never was it cannot be without them"


def test_another_recording_of_that_name_is_left_alone(recording):
    first = note_of(recording, "first")
    before = recording.read_bytes()
    with pytest.raises(RecordingBusy, match="replaced"):
        make_late(recording, "another", kept(Changes((first.edited(label="second"),))))
    assert recording.read_bytes() == before


@pytest.mark.parametrize(
    ("changed", "said"), [({"time_s": 1e9}, "after the end"), ({"kind": "temperature"}, "degrees")]
)
def test_what_cannot_be_is_refused(recording, changed, said):
    first = note_of(recording, "first")
    entry = {**late_changes(Changes((first.edited(label="second"),)))[0].as_dict(), **changed}
    before = recording.read_bytes()
    ((_, why),) = make_late(recording, uuid_of(recording), [LateChange.of(entry)])
    assert said in why
    assert recording.read_bytes() == before


@pytest.mark.parametrize(
    ("changed", "said"), [({"kind": "teatime"}, "no kind"), ({"time_s": -1.0}, "zero or more")]
)
def test_what_no_moment_can_be_is_no_change(recording, changed, said):
    first = note_of(recording, "first")
    entry = {**late_changes(Changes((first.edited(label="second"),)))[0].as_dict(), **changed}
    with pytest.raises(MomentError, match=said):
        LateChange.of(entry)


@pytest.mark.parametrize(
    "damaged",
    [
        {},
        {"moment_id": "../x"},
        {"base_revision": -2},
        {"base_revision": "many"},
        {"time_s": None},
        {"removed": "no"},
        {"kind": "?"},
    ],
)
def test_what_is_no_change_is_told_from_one(damaged):
    whole = late_changes(Changes((new_moment(1.0, "note"),)))[0].as_dict()
    assert LateChange.of(whole).as_dict() == whole
    with pytest.raises((TypeError, ValueError, KeyError)):
        LateChange.of({**whole, **damaged} if damaged else {})


def test_pictures_are_not_made_later():
    assert late_changes(Changes((new_moment(1.0, "note"),), ({},))) == ()


def test_a_moment_whose_removal_was_undone_comes_back(recording):
    """That was refused as changed since, though nothing had been."""
    first = note_of(recording, "first")
    removed = edit(recording, first.id, removed=True)
    changes = kept(Changes((removed.edited(removed=False),)))
    make_late(recording, uuid_of(recording), changes)
    assert note_of(recording, "first").id == first.id
    before = recording.read_bytes()
    make_late(recording, uuid_of(recording), changes)
    assert recording.read_bytes() == before
