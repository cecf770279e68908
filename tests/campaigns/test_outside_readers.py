"""The quick half of the campaign: every export is opened by readers that no one here wrote."""

from __future__ import annotations

import pytest

from tests.campaigns import outside_readers


@pytest.mark.usefixtures("qapp")
def test_short_form(capsys):
    assert outside_readers.main(["--quick"]) == 0, capsys.readouterr().out
    told = capsys.readouterr().out
    assert "frictionless | 5 tables valid, 5 tables valid" in told
    assert "FAILED" not in told
