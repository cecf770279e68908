"""Faradaic efficiency of a run by the real commands: import, a note with the volume, analyse, export.

Source of the figures: Faraday's law and the ideal gas law (CODATA constants). 4.30 mL of wet hydrogen at
20 degC and 101 325 Pa for 36 C are 93.60652 %, with a water column of 50 mm 93.14366 %; see test_gas.py.
"""

import numpy as np
import pytest

from logger.commands import main
from tests.logger.analysis.by_command import imported_and_analysed

# A supply that holds 20 mA: 1800 s make 36 C, whatever the voltage does.
BENCH = "[supply]\ncurrent_A = 0.020\n[cell]\ntemperature_C = 20.0\npressure_kPa = 101.325\n"
T = np.arange(0.0, 2400.01, 0.5)
VOLTS = np.round(2.25 + 0.001 * np.random.default_rng(1).normal(size=T.size), 3)


@pytest.fixture
def analysed(tmp_path, capsys):
    """Return a function of notes and bench that makes the recording; gives document, text and path."""

    def run(*notes, bench=BENCH):
        moments = [(at_s, "note", text) for at_s, text in notes]
        readings = (T.tolist(), VOLTS.tolist())
        return *imported_and_analysed(tmp_path, capsys, readings, moments, bench), tmp_path / "run.h5"

    return run


def codes(document):
    return {one["code"] for one in document["warnings"]}


def test_one_reading_counts_from_the_beginning(analysed):
    document, text, _ = analysed((1800.0, "hydrogen 4.30 ± 0.05 mL"))
    found = document["faradaic_efficiency"]["hydrogen"]
    assert found["charge_C"] == pytest.approx(36.0, rel=1e-9)
    assert 100 * found["value"] == pytest.approx(93.60652, abs=1e-4)
    # By hand: 0.05/sqrt(3)/4.30 and 0.3/293.15; this supply states no uncertainty of its current.
    relative = np.hypot(0.05 / np.sqrt(3) / 4.30, 0.3 / 293.15)
    assert found["standard_uncertainty"] == pytest.approx(found["value"] * relative, rel=1e-6)
    assert "Faradaic efficiency: 93.6 ± 1.3 % (hydrogen: 4.30 mL over water, 20 °C, 101.325 kPa, for" in text
    assert "36.0 C from 0:00 to 30:00)" in text
    # 26.588771 kWh for a kilogram and a volt (2 F over the molar mass), 2.25 V, over 0.9361.
    assert "with it, the energy for hydrogen is 63.9 ± 0.9 kWh per kg before" in text


def test_a_water_column_lowers_the_pressure(analysed):
    document, *_ = analysed((1800.0, "H2 4.30 mL column 50 mm"))
    assert 100 * document["faradaic_efficiency"]["hydrogen"]["value"] == pytest.approx(93.14366, abs=1e-4)


def test_of_two_readings_the_difference_counts(analysed):
    notes = ((400.0, "hydrogen 0.20 mL"), (2200.0, "hydrogen 4.50 mL"), (2200.0, "oxygen 2.15 mL"))
    document, *_ = analysed(*notes)
    hydrogen = document["faradaic_efficiency"]["hydrogen"]
    assert (hydrogen["begin_s"], hydrogen["end_s"]) == (400.0, 2200.0)
    assert 100 * hydrogen["value"] == pytest.approx(93.60652, abs=1e-4)
    oxygen = document["faradaic_efficiency"]["oxygen"]
    # Half the volume at twice the electrons, for 44 C instead of 36 C.
    assert 100 * oxygen["value"] == pytest.approx(93.60652 * 36.0 / 44.0, abs=1e-4)


@pytest.mark.parametrize(
    ("notes", "bench", "words"),
    [
        (((1800.0, "hydrogen 9.30 mL"),), BENCH, "more gas was found than the charge can have made"),
        (((1800.0, "hydrogen 4.30 mL"),), "[cell]\ntemperature_C = 20\n", "no charge is known"),
        (((0.0, "hydrogen 4.30 mL"),), BENCH, "no charge is known"),
        (((100.0, "hydrogen 4.30 mL"), (1900.0, "hydrogen 4.30 mL")), BENCH, "it must be more than zero"),
    ],
)
def test_what_gives_no_efficiency_says_why(analysed, notes, bench, words):
    document, text, _ = analysed(*notes, bench=bench)
    assert "faradaic_efficiency" not in document
    assert "no_faradaic_efficiency" in codes(document)
    assert words in text


def test_the_mixture_is_never_asked_for(analysed):
    document, text, _ = analysed((1800.0, "gas 6.9 mL"))
    assert "faradaic_efficiency" not in document
    assert "one gas alone, never their mixture" in text


def test_without_a_note_the_document_has_its_fixed_keys(analysed):
    document, text, _ = analysed((1800.0, "poured"))
    assert "faradaic_efficiency" not in document
    assert "Faradaic" not in text


def test_the_note_can_be_added_afterwards_and_goes_into_the_report(analysed, capsys, tmp_path):
    *_, out = analysed((100.0, "poured"))
    assert main(["moment", str(out), "add", "--at", "1800", "note", "hydrogen 4.30 mL"]) == 0
    report = tmp_path / "report.html"
    assert main(["export", str(out), "--to", str(report)]) == 0
    text = report.read_text("utf-8").replace("\N{NO-BREAK SPACE}", " ")
    assert "Faradaic efficiency, hydrogen" in text
    assert "93.6 ± " in text
