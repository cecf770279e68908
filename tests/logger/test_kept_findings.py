"""Findings are kept in the recording, once, and never at the price of the readings."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest

from logger.archive import finish
from logger.editing import editing
from logger.kept_findings import keep
from logger.moment_edits import add
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
