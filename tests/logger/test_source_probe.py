"""Listening to a source outside a run: the same readings as a run would get, and the bytes they came in."""

from __future__ import annotations

import os
import time
from collections.abc import Callable
from typing import Any

import pytest

from drivers.errors import CannotOpen, SourceLost
from drivers.samples import Delivery, Notice
from drivers.source import Source
from logger.source_form import SourceForm, SourceFormError, options_of
from logger.source_probe import RAW_KEPT_BYTES, SourceProbe, raw_lines
from tests.drivers.emulation import EmulatorProcess
from tests.logger.fakes import ScriptedSource, block, delivered

LIMIT_S = 30.0


def wait(done: Callable[[], bool]) -> None:
    deadline_s = time.monotonic() + LIMIT_S
    while not done():
        assert time.monotonic() < deadline_s
        time.sleep(0.005)


def probe_of(source: Source) -> SourceProbe:
    return SourceProbe("scripted:port", make=lambda _address, **_options: source)


def ended(probe: SourceProbe) -> None:
    probe.stop()
    assert probe.join(LIMIT_S)


def test_readings_and_what_the_instrument_says_are_shown() -> None:
    source = ScriptedSource(
        [delivered(block(0, 5)), Delivery(notices=(Notice("low", "the battery is low"),))]
    )
    probe = probe_of(source)
    try:
        wait(lambda: probe.message != "")
        (channel,) = probe.channels()
        assert channel.value == pytest.approx(2.000004)
        assert len(channel.recent) == 5
        assert channel.age_s is not None
        assert (probe.state, probe.message, probe.identity) == ("listening", "the battery is low", "scripted")
    finally:
        ended(probe)
    assert source.closed >= 1
    assert len(source.threads) == 1


def test_while_it_opens_it_says_what_it_waits_for() -> None:
    source = ScriptedSource([delivered(block(0, 5))])
    source.words = "The meter was asked who it is."
    source.may_open.clear()
    probe = probe_of(source)
    try:
        wait(lambda: bool(source.threads))
        assert (probe.state, probe.waits_for) == ("opening", "The meter was asked who it is.")
        source.may_open.set()
        wait(lambda: probe.state == "listening")
        assert probe.waits_for == ""
    finally:
        source.may_open.set()
        ended(probe)


@pytest.mark.skipif(not hasattr(os, "openpty"), reason="no pseudo-terminals here")
def test_a_meter_that_is_being_opened_is_given_back_without_its_answer() -> None:
    """It is asked for 20 s whether it is there, and the next run waits six of them for the port."""
    master, slave = os.openpty()
    try:
        probe = SourceProbe(f"scpi:{os.ttyname(slave)}")
        wait(lambda: probe.waits_for != "")
        ended(probe)
        assert (probe.state, probe.message) == ("ended", "")
    finally:
        os.close(slave)
        os.close(master)


@pytest.mark.parametrize(
    "source",
    [
        ScriptedSource([], open_errors=[CannotOpen("the cable is not there")]),
        ScriptedSource([SourceLost("the cable is not there")]),
    ],
    ids=["not opened", "lost"],
)
def test_a_source_that_fails_says_why_and_is_given_back(source: ScriptedSource) -> None:
    probe = probe_of(source)
    wait(lambda: probe.state == "failed")
    assert probe.message == "the cable is not there"
    ended(probe)
    assert source.closed >= 1


def test_a_fault_of_ours_is_shown_too() -> None:
    def make(_address: str, **_options: Any) -> Source:
        raise ZeroDivisionError("oh")

    probe = SourceProbe("cell:demo", make=make)
    wait(lambda: probe.state == "failed")
    assert "fault of the program" in probe.message
    ended(probe)


def test_bytes_of_a_real_line_are_shown_as_they_came() -> None:
    emulator = EmulatorProcess("text", "--port", "0")
    emulator.start()
    probe = SourceProbe(emulator.address)
    try:
        wait(lambda: bool(probe.channels()) and probe.channels()[0].value is not None)
        raw = probe.raw
        assert 0 < len(raw) <= RAW_KEPT_BYTES
        assert probe.raw_count >= len(raw)
        assert b"\n" in raw
        assert any(chr(byte).isdigit() for byte in raw)
    finally:
        ended(probe)
        emulator.end()


def test_a_simulated_cell_has_readings_but_no_bytes() -> None:
    probe = SourceProbe("cell:demo?speed=20")
    try:
        wait(lambda: bool(probe.channels()) and probe.channels()[0].value is not None)
        assert probe.raw == b""
    finally:
        ended(probe)


def test_raw_lines_show_numbers_and_letters() -> None:
    data = b"+2.251 V\r\n" + bytes(range(16))
    lines = raw_lines(data, 2)
    assert lines[0] == "2B 32 2E 32 35 31 20 56 0D 0A 00 01 02 03 04 05  +2.251 V········"
    assert lines[1].startswith("06 07")
    assert raw_lines(data, 1) == lines[1:]
    assert raw_lines(b"", 3) == ()


def test_a_form_makes_an_address_and_back() -> None:
    form = SourceForm("text", "/dev/ttyUSB0", {"baud": "9600", "name": "", "speed": "3"})
    assert form.address == "text:/dev/ttyUSB0?baud=9600"
    assert SourceForm.of(form.address).options == {"baud": "9600"}
    assert form.checked_address() == form.address
    url = "scpi:socket://127.0.0.1:5025?rate=2"
    assert SourceForm.of(url).address == url


@pytest.mark.parametrize(
    ("form", "words"),
    [
        (SourceForm("text", " "), "No port"),
        (SourceForm("text", "COM5", {"baud": "fast"}), "not a number"),
        (SourceForm("text", "COM5", {"role": "voltage"}), "cell_voltage"),
        (SourceForm("text", "COM5", {"name": "a&b=c"}), "&"),
    ],
)
def test_a_form_that_makes_no_source_says_why(form: SourceForm, words: str) -> None:
    with pytest.raises(SourceFormError, match=words):
        form.checked_address()


def test_keys_belong_to_kinds() -> None:
    assert "baud" in options_of("scpi")
    assert "baud" not in options_of("cell")
    assert options_of("nothing") == ()
