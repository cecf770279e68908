"""Which warnings are mere remarks, and that a document keeps them all the same."""

from logger.analysis.findings import findings
from logger.analysis.findings_text import findings_text
from logger.remarks import REMARKS, worth_saying
from tests.logger.simulated_run import lesson


def test_the_document_says_why_there_is_no_tafel_line_and_the_text_does_not() -> None:
    document = findings(lesson(3)[0])
    assert "no_tafel" in {one["code"] for one in document["warnings"]}
    assert document["tafel"] is None
    text = findings_text(document)
    assert "Tafel slope needs" not in text
    assert [one["code"] for one in worth_saying(document["warnings"])] == [
        "kinetics_assumed",
        "temperature_assumed",
        "no_growth_fit",
    ]


def test_nothing_is_worth_saying_of_nothing() -> None:
    assert worth_saying(None) == []
    assert worth_saying([{"code": code, "message": "", "at_s": None} for code in REMARKS]) == []
