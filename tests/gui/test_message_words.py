"""What drivers and logger say is recognised by its wording, whatever its values are, and said in German."""

from __future__ import annotations

import re
import string
import time
from collections.abc import Iterator

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PySide6.QtWidgets import QApplication

from drivers.link_failure import cannot_open
from gui.field_names import mark_keys
from gui.message_words import _COMPLAINT, _IN_WINDOW, message_sentence, message_words
from gui.translations.message_list import MESSAGES
from gui.words import translate
from logger.analysis.run_analysis import _assumed_words
from logger.assessment_text import live_cautions, sentence
from logger.bench import parse_bench
from logger.bench_defaults import bench_conditions
from logger.bench_form import FieldError, parse_number
from logger.bench_tables import Bench
from logger.cautions import CAUTIONS, DEFERENCE, IN_SHORT
from logger.errors import BenchError
from tests.gui.languages import speaking

VALUES = st.one_of(
    st.integers(-9999, 9999).map(str),
    st.floats(-1e6, 1e6).map(lambda value: f"{value:.3f}"),
    st.text(string.ascii_letters + string.digits + "/_.äß", min_size=1, max_size=12),
    st.sampled_from(["/dev/ttyUSB0", "socket://10.0.0.1:5025", "run 2.4.h5", "", "a, b", "[Errno 5] no"]),
)


@pytest.fixture
def german(qapp: QApplication) -> Iterator[None]:
    with speaking(qapp, "de"):
        yield


def places(template: str) -> list[str]:
    return [name for _, name, _, _ in string.Formatter().parse(template) if name is not None]


OTHERWISE = frozenset(one for one in MESSAGES if mark_keys(one) != one) | _IN_WINDOW.keys()
"""Wordings that name keys of the bench file or options of the command line; the window words them anew."""


@given(st.data())
@settings(max_examples=300)
def test_in_english_every_message_stays_as_it_is(data: st.DataObject) -> None:
    template = data.draw(st.sampled_from([one for one in MESSAGES if one not in OTHERWISE]))
    text = template.format(**{name: data.draw(VALUES) for name in places(template)})
    assert message_words(text) == text


@given(st.text(max_size=200))
def test_in_english_any_text_stays_as_it_is(text: str) -> None:
    assert message_words(text) == text


def test_every_wording_is_recognised_and_keeps_its_values(german: None) -> None:
    for template in MESSAGES:
        values = {name: f"q{number}z" for number, name in enumerate(places(template))}
        said = message_words(template.format(**values))
        assert all(value in said for value in values.values()), template
        if template not in OTHERWISE:
            assert said == translate("Messages", template).format(**values), template


def test_a_calibration_is_told_in_one_language(german: None) -> None:
    said = message_words(
        "Calibration of 2026-11-27 is applied to cell voltage: zero −0.2 mV, gain 0.97966. "
        "It is older than a year: accuracy not verified."
    )
    assert said.startswith("Die Kalibrierung vom 2026-11-27 wird auf Zellspannung angewendet: Nullpunkt −0,2")
    assert "older" not in said


def test_a_port_that_is_missing(german: None) -> None:
    error = cannot_open("/dev/ttyUSB0", 9600, FileNotFoundError(2, "No such file or directory"))
    assert message_words(str(error)) == (
        "/dev/ttyUSB0 ist nicht da. Das Kabel einstecken oder einen anderen Anschluss wählen."
    )


def test_every_state_and_caution_of_a_run_is_said_in_german(german: None) -> None:
    states = ("open", "poor_contact", "electrolysing", "below_reversible", "touching", "no_reading", None)
    for state in states:
        for phase in ("dry", "before", "growth", "after", None):
            for verdict in ("settled", "not_yet", "cannot_tell"):
                for falling in (True, False):
                    for before in (True, False):
                        said = sentence(state, phase, verdict, is_falling=falling, has_electrolysed=before)
                        assert message_words(said) != said
    for state in states[:-1]:
        everything = {"is_overload": True, "is_reversed": True, "is_meter_changed": True}
        for one in live_cautions(str(state), silent_s=12.0, since_s=3.0, **everything):
            assert message_words(one.message) != one.message
    parts = [part for one in CAUTIONS for part in one]
    for text in (IN_SHORT, DEFERENCE, f"{IN_SHORT} {DEFERENCE}", *parts):
        assert message_words(text) != text
        assert " the " not in message_words(text)


def test_numbers_in_a_message_get_the_decimal_sign_and_addresses_do_not(german: None) -> None:
    text = (
        "The voltage before had not settled: its drift lies between −121.7 and −85.9 mV/min, the limit is 5. "
    )
    assert "zwischen −121,7 und −85,9 mV/min, die Grenze ist 5." in message_words(
        text + "Wait longer next time."
    )
    gone = "socket://10.0.0.1:5025 does not answer. Is that computer on, and on the same network?"
    assert message_words(gone).startswith("socket://10.0.0.1:5025 antwortet nicht.")
    assert message_words("run 2.4.h5 is not there; check the name and the folder").startswith(
        "run 2.4.h5 ist"
    )


def test_a_meter_that_does_not_answer_is_told_in_one_language(german: None) -> None:
    """It was "Maker,Model,1,2 on COM5 antwortet nicht": a part put together beforehand stays as it is."""
    said = message_words(
        "Maker,Model,1,2 on COM5 does not answer READ?. Is the meter on, is its remote interface set to 9600 "
        "baud 8N1, and is the cable the right one (crossed or straight)?"
    )
    assert said.startswith("Maker,Model,1,2 an COM5 antwortet nicht auf READ?.")


def test_messages_within_messages_and_one_after_the_other(german: None) -> None:
    text = (
        "The growth was not fitted: the curve has another shape, for example a delay and then a ramp; "
        "no time constant is reported (models tried: exponential, logarithmic)."
    )
    said = message_words(text)
    assert "eine Zeitkonstante wird nicht angegeben" in said
    assert "ausprobierte Modelle: Exponentialfunktion, Logarithmusfunktion" in said
    two = "The circuit is open. The meter shows overload. Choose a larger range and keep it."
    assert message_words(two) == (
        "Der Stromkreis ist offen. Das Messgerät zeigt Überlauf. Einen größeren Messbereich wählen und dabei "
        "bleiben."
    )


def test_sentences_that_became_part_of_another_are_said_in_german_without_their_full_stop(
    german: None,
) -> None:
    """As in the table of runs: why one of them shows no voltage saved."""
    lost = (
        "it shows no voltage saved (No swap to fresh buffer was tagged or seen, so there is no voltage "
        "after. Lift the electrodes out for some seconds when swapping, or tag the swap; No settled voltage "
        "before: so few say nothing; record 30 or more (readings in the phase: 16))"
    )
    said = message_words(lost)
    assert said == (
        "sie zeigt keine eingesparte Spannung (Ein Wechsel zu frischem Puffer wurde weder festgehalten noch "
        "gesehen, daher gibt es keine Spannung nachher. Beim Wechseln die Elektroden einige Sekunden "
        "herausheben, oder den Wechsel festhalten; Keine eingeschwungene Spannung vorher: so wenige sagen "
        "nichts; 30 oder mehr aufzeichnen (Messwerte in der Phase: 16))"
    )


def test_both_assumed_conditions_are_said_in_german(german: None) -> None:
    """Temperature and pressure missing is the common case of a bench that nobody filled in."""
    said = message_words(_assumed_words(bench_conditions(Bench()).assumed))
    assert said.startswith("Angenommen: die Zelle bei 22 °C und ein Luftdruck von 101,325 kPa.")


def test_what_is_wrong_with_a_typed_number(german: None) -> None:
    with pytest.raises(FieldError) as refused:
        parse_number("1.234,5")
    assert message_words(str(refused.value)).startswith("hat Zeichen zwischen den Tausendern")


def refusal(bench: str) -> BenchError:
    with pytest.raises(BenchError) as refused:
        parse_bench(bench, "lesson.toml")
    return refused.value


def test_keys_of_the_bench_file_are_said_as_the_fields_of_the_window_are_called(qapp: QApplication) -> None:
    assert OTHERWISE
    contradiction = refusal("[supply]\ncurrent_A = 0.5\nresistor_ohm = 1000")
    too_dense = refusal("[supply]\ncurrent_A = 0.9\n[cell]\nanode_area_cm2 = 0.5")
    cases = (
        (
            "Assumed: the cell at 22 °C. Give temperature_C and pressure_kPa in the bench file.",
            "Assumed: the cell at 22 °C. Give “Temperature” and “Air pressure” on the page Bench.",
            "Angenommen: die Zelle bei 22 °C. Auf der Seite Aufbau „Temperatur“ und „Luftdruck“ angeben.",
        ),
        (
            "Current, charge and gas need supply.stack_voltage_V and supply.resistor_ohm in the bench file.",
            "Current, charge and gas need “Stack voltage, measured” and “Series resistor” on the page Bench.",
            "Strom, Ladung und Gas brauchen „Stapelspannung, gemessen“ und „Vorwiderstand“ "
            "auf der Seite Aufbau.",
        ),
        (
            contradiction.without_place,
            "“Held current” contradicts “Series resistor”; "
            "keep “Held current” only for a supply that holds the current by itself",
            "„Geregelter Strom“ widerspricht „Vorwiderstand“; "
            "„Geregelter Strom“ nur für ein Netzgerät behalten, das den Strom selbst hält",
        ),
        (
            too_dense.without_place,  # 0.9 A in the file is 900 mA in the field
            "“Held current” = 900\u00a0mA on 0.5 cm2 makes 1800 mA/cm2; "
            "check both units; up to 500 mA/cm2 is expected",
            "„Geregelter Strom“ = 900\u00a0mA auf 0,5 cm2 ergibt 1800 mA/cm2; "
            "beide Einheiten prüfen; bis 500 mA/cm2 sind zu erwarten",
        ),
    )
    for said, english, german in cases:
        for language, expected in (("en", english), ("de", german)):
            with speaking(qapp, language):
                assert message_words(said) == expected


def test_options_and_addresses_are_no_remedy_in_a_window(qapp: QApplication) -> None:
    assert _IN_WINDOW.keys() <= set(MESSAGES)
    for language in ("en", "de"):
        with speaking(qapp, language):
            for template in _IN_WINDOW:
                values = {name: f"q{number}z" for number, name in enumerate(places(template))}
                said = message_words(template.format(**values))
                assert "--" not in said
                assert re.search(r"[a-z]=", said) is None
                assert "address" not in said
                assert "Adresse" not in said
                assert all(value in said for value in values.values())
    out = "/data/strip4.h5"
    with speaking(qapp, "en"):
        exists = f"{out} exists; choose another name, or add --replace to replace it"
        assert message_words(exists) == f"{out} exists; choose another name"
    with speaking(qapp, "de"):
        assert message_words(exists) == f"{out} gibt es schon; einen anderen Namen wählen"


def test_where_the_line_of_a_file_is_named_its_keys_stay(german: None) -> None:
    assert _COMPLAINT in MESSAGES
    assert message_words(str(refusal("[supply]\nresistor_ohm = 50"))) == (
        "lesson.toml, Zeile 2: supply.resistor_ohm = 50 sieht aus wie Kiloohm (dann 50000 schreiben); das "
        "Verfahren hält den Strom durch einen großen Vorwiderstand, 100 Ohm bis 10 MOhm (stattdessen "
        "current_A für ein Netzgerät, das den Strom selbst hält)"
    )
    assert message_words(str(refusal("[supply]\nstack_voltag_V = 27"))) == (
        "lesson.toml, Zeile 2: supply.stack_voltag_V ist in Tabelle [supply] nicht bekannt; "
        "ist stack_voltage_V gemeint?"
    )


def test_what_only_looks_like_a_key_is_not_named(german: None) -> None:
    for text in (
        "resistor_ohm",
        "supply.cells",
        "supply.cells or so; perhaps",
        "/data/current_A.h5",
        "run.current_A",
        "current_A.h5 ist",
        "my current_A",
        "gain",
        "cells",
    ):
        assert "„" not in message_words(text)
    assert "temperature_C.h5 " in message_words(
        "temperature_C.h5 is not there; check the name and the folder"
    )


def test_what_is_not_ours_stays(german: None) -> None:
    for text in ("[Errno 33] Numerical argument out of domain", "Strip 4", "Meine Messung 2", "", "…"):
        assert message_words(text) == text


@pytest.mark.parametrize(
    "hostile",
    [
        ", line : " * 150 + "; " + ": = { " * 300,
        "dry. " * 790,
        "(" * 1900 + "dry" + ")" * 1900,
        "dry: " * 790,
    ],
)
def test_what_somebody_wrote_into_a_file_costs_no_time(german: None, hostile: str) -> None:
    """A search that tried every division of the places would take hours, and one without end the stack."""
    began_s = time.process_time()
    message_words(hostile)
    assert time.process_time() - began_s < 5.0


def test_alone_in_a_bar_a_message_begins_with_a_capital_and_a_name_stays() -> None:
    said = "no recording can be begun in /tmp/x (Read-only file system); choose another folder"
    assert message_sentence(said).startswith("No recording can be begun in /tmp/x")
    assert message_sentence("run 4.h5 is not there; check the name and the folder").startswith("run 4.h5 ")
    assert message_sentence("/dev/ttyUSB0 is in use by another program. Close it.")[:12] == "/dev/ttyUSB0"
    assert message_sentence("whatever no one of us wrote") == "whatever no one of us wrote"
    assert message_sentence("") == ""
