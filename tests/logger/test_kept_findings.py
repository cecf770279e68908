"""Findings are kept in the recording, once, and never at the price of the readings."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest

from logger.archive import finish
from logger.editing import editing
from logger.export.formats import export
from logger.kept_findings import cautions_of_age, keep
from logger.moment_edits import add, edit
from logger.moments import new_moment, now_iso
from logger.reader import read_recording
from tests.logger.fakes import block
from tests.logger.test_archive import journal

FOUND = {"file": "here.h5", "voltage_saved": None, "warnings": [{"code": "x", "message": "y", "at_s": None}]}


@pytest.fixture
def recording(tmp_path):
    return finish(journal(tmp_path / "run.h5", [block(0, 100)]))


def test_they_are_kept_once(recording):
    assert keep(read_recording(recording), FOUND) is None
    kept = read_recording(recording)
    assert json.loads(kept.findings_json) == FOUND
    before = recording.stat()
    assert keep(kept, {**FOUND, "file": "moved.h5"}) is None
    assert recording.stat().st_ino == before.st_ino
    assert keep(kept, {**FOUND, "voltage_saved": 1.0}) is None
    assert json.loads(read_recording(recording).findings_json)["voltage_saved"] == 1.0


def test_a_run_that_goes_on_keeps_none(tmp_path):
    path = journal(tmp_path / "run.h5", [block(0, 10)])
    assert "not finished" in keep(read_recording(path), FOUND)


def test_a_large_recording_is_not_copied(recording, monkeypatch):
    monkeypatch.setattr("logger.kept_findings.SIZE_LIMIT_BYTES", 100)
    assert "large" in keep(read_recording(recording), FOUND)
    assert read_recording(recording).findings_json is None


def test_what_was_kept_and_is_no_json_is_replaced(recording):
    with editing(recording) as editor:
        editor.keep_findings("{not json")
    assert keep(read_recording(recording), FOUND) is None
    assert json.loads(read_recording(recording).findings_json) == FOUND


def test_findings_nested_beyond_what_can_be_read_are_replaced(recording):
    assert keep(replace(read_recording(recording), findings_json="[" * 300_000), FOUND) is None
    assert json.loads(read_recording(recording).findings_json) == FOUND


def test_findings_do_not_go_into_another_recording_that_took_the_place_of_the_file(recording, tmp_path):
    """They were written there, while what was found of a long run was worked out."""
    found_of = read_recording(recording)
    other = finish(journal(tmp_path / "other.h5", [block(0, 50)]))
    other.replace(recording)
    assert "another recording" in keep(found_of, FOUND)
    assert read_recording(recording).findings_json is None


def test_findings_of_other_moments_than_those_in_the_file_are_not_kept(recording):
    found_of = read_recording(recording)
    add(recording, 0.5, "note", "hums")
    assert "have been changed" in keep(found_of, FOUND)
    assert read_recording(recording).findings_json is None
    assert keep(read_recording(recording), FOUND) is None


def test_findings_are_kept_by_a_link(recording, tmp_path):
    """Whether its own folder may be written does not count."""
    folder = tmp_path / "links"
    folder.mkdir()
    link = folder / "run.h5"
    link.symlink_to(recording)
    asked = []

    def may_write(path, _mode):
        asked.append(path)
        return True

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("logger.kept_findings.os.access", may_write)
        assert keep(read_recording(link), FOUND) is None
    assert link.is_symlink()
    assert folder not in asked
    assert json.loads(read_recording(recording).findings_json) == FOUND


def test_findings_that_are_older_than_the_moments_are_told_until_they_are_found_again(recording):
    assert cautions_of_age(read_recording(recording)) == ()
    keep(read_recording(recording), FOUND)
    assert cautions_of_age(read_recording(recording)) == ()
    kept = read_recording(recording)
    later = replace(kept, findings_date="2026-03-05T10:00:00.000+01:00")
    with_one = replace(later, moments=(new_moment(3.0, "note", "later"),))  # it was noted just now
    (told,) = cautions_of_age(with_one)
    assert told.code == "older_findings"
    assert told.message.endswith("or export it from the window.")  # opening it there keeps no findings
    assert cautions_of_age(replace(with_one, findings_date="2126-03-05T10:00:00.000+01:00")) == ()
    removed = replace(later, moments_history=((with_one.moments[0], now_iso()),))
    assert len(cautions_of_age(removed)) == 1


@pytest.mark.parametrize("date", [None, "", "yesterday", "2026-03-05T10:00:00"])
def test_a_date_that_tells_nothing_is_no_reason_for_a_word(recording, date):
    with_one = replace(read_recording(recording), moments=(new_moment(3.0, "note", "later"),))
    assert cautions_of_age(replace(with_one, findings_date=date)) == ()


def test_the_table_of_a_long_run_tells_that_its_findings_are_older(recording, tmp_path, monkeypatch):
    monkeypatch.setattr("logger.export.formats.EASILY_ANALYSED", 0)
    keep(read_recording(recording), FOUND)
    add(recording, 3.0, "note", "later")
    export(lambda: read_recording(recording), tmp_path / "a.csv")
    assert "older_findings" in (tmp_path / "a.findings.csv").read_text("utf-8")
    keep(read_recording(recording), {**FOUND, "voltage_saved": 1.0})
    export(lambda: read_recording(recording), tmp_path / "b.csv")
    assert "older_findings" not in (tmp_path / "b.findings.csv").read_text("utf-8")


def test_the_same_findings_of_moments_that_were_changed_since_are_not_older(recording, tmp_path, monkeypatch):
    """A corrected label changes no figure: the table told to analyse again however often that was done."""
    monkeypatch.setattr("logger.export.formats.EASILY_ANALYSED", 0)
    moment = add(recording, 3.0, "note", "latr")
    keep(read_recording(recording), FOUND)
    edit(recording, moment.id, label="later")
    assert len(cautions_of_age(read_recording(recording))) == 1
    keep(read_recording(recording), FOUND)
    export(lambda: read_recording(recording), tmp_path / "a.csv")
    assert "older_findings" not in (tmp_path / "a.findings.csv").read_text("utf-8")
