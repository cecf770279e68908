"""Recognising instruments by listening only, on a fake clock and on pseudo-terminals of every format."""

from __future__ import annotations

import os
import random
import time

import numpy as np
import pytest

from drivers.address import parse_address
from drivers.formats.packet import encode_text
from drivers.listening import BUDGET_S, address_of, ask_identity, listen, listen_through_optics, listen_to_all
from drivers.recognition import judge, recognise
from drivers.registry import make_source
from drivers.simulated.emulated import EMULATED, Emulation, make_device
from drivers.simulated.emulated_board import FORMS
from drivers.simulated.faults import Faults
from drivers.simulated.frame_encoder import ENCODED_KINDS, encode_frame
from drivers.simulated.printed_columns import LINE_STYLES
from drivers.testing import FakeClock, FakePort, FakeWire, ScriptedDevice
from drivers.transmission import CONTROL_LINES
from tests.drivers.emulation import EmulatorProcess
from tests.drivers.simulated.test_emulated import ramp

SENDERS = tuple(kind for kind in EMULATED if kind != "scpi")
SEEDS = range(3)


def wire_of(kind: str, *, form: str = "micros", line_baud: int = 0, rate: float = 20.0) -> FakeWire:
    emulation = Emulation(kind, ramp, form=form, rate=rate if kind in ("text", "packet") else None)
    device = make_device(emulation, Faults())
    return FakeWire(device, FakeClock(), line_baud=line_baud or emulation.baud)


def board_of_columns(
    lines: str,
    columns: tuple[str, ...] = ("time_ms", "cell_voltage", "shunt_voltage"),
    *,
    line_baud: int = 115200,
    rate: float = 10.0,
    has_header: bool = False,
) -> FakeWire:
    others = {
        "shunt_voltage": lambda times_s: 10 * np.round(ramp(times_s), 4),
        "temperature": lambda times_s: 22.0 + 0 * times_s,
    }
    emulation = Emulation(
        "text", ramp, rate=rate, columns=columns, lines=lines, has_header=has_header, others=others
    )
    return FakeWire(make_device(emulation, Faults()), FakeClock(), line_baud=line_baud)


def heard_on(wire: FakeWire, port: str = "/dev/ttyS9"):
    begin_s = wire.clock.now_s()
    heard = listen(port, clock=wire.clock, opener=wire.open_port)
    assert wire.written == b"", "listening sends nothing"
    assert wire.clock.now_s() - begin_s < 5.0
    assert all(port.is_closed for port in wire.ports)
    return heard


class TestOneInstrument:
    @pytest.mark.parametrize("kind", SENDERS)
    def test_each_kind_at_its_usual_speed(self, kind: str):
        heard = heard_on(wire_of(kind))
        assert heard.state == "recognised"
        assert heard.addresses == (f"{kind}:/dev/ttyS9",)
        value = float(heard.candidates[0].shown.replace("−", "-").split()[0])
        factor = 1e-3 if heard.candidates[0].shown.endswith("mV") else 1.0
        assert ramp(0.0) - 0.01 <= value * factor <= ramp(5.0) + 0.01

    @pytest.mark.parametrize("form", sorted(set(FORMS) - {"counts", "columns", "pairs", "volts"}))
    @pytest.mark.parametrize("baud", [115200, 9600])
    def test_boards_that_print(self, form: str, baud: int):
        heard = heard_on(wire_of("text", form=form, line_baud=baud))
        assert heard.state == "recognised"
        assert parse_address(heard.addresses[0]).kind == "text"
        assert heard.baud == baud

    @pytest.mark.parametrize("form", ["volts", "pairs"])
    def test_volts_without_a_time(self, form: str):
        assert heard_on(wire_of("text", form=form)).state == "recognised"

    @pytest.mark.parametrize(("form", "words"), [("counts", "scale="), ("columns", "column=")])
    def test_what_needs_a_word_is_asked(self, form: str, words: str):
        heard = heard_on(wire_of("text", form=form))
        assert heard.state == "ambiguous"
        assert words in heard.message

    @pytest.mark.parametrize("lines", LINE_STYLES)
    @pytest.mark.parametrize("baud", [115200, 9600])
    def test_columns_are_listed_and_asked_for(self, lines: str, baud: int):
        """Both voltages are offered, and both at once; which is the cell's is never guessed."""
        heard = heard_on(board_of_columns(lines, line_baud=baud))
        assert heard.state == "ambiguous"
        assert heard.baud == baud
        columns = heard.candidates[0].columns
        is_named = lines in ("json", "pairs")
        volts = "volts" if is_named else "maybe_volts"
        assert [one.looks_like for one in columns] == ["time", volts, volts]
        first, second = ("cell_voltage", "shunt_voltage") if is_named else ("2", "3")
        speed = "" if baud == 115200 else "baud=9600&"
        assert heard.addresses == tuple(
            f"text:/dev/ttyS9?{speed}column={column}" for column in (first, second, f"{first},{second}")
        )
        value = float(heard.candidates[0].shown.split()[0])
        assert heard.candidates[1].shown == f"{10 * value:.4f} V"
        assert heard.candidates[2].shown == f"{value:.4f} V and {10 * value:.4f} V"
        assert "Each line has 3 columns" in heard.message
        assert "(the board's time)" in heard.message

    def test_names_that_are_printed_first_settle_it(self):
        """The temperature is no voltage by its name; the address has the number, which each line has."""
        columns = ("time_us", "temperature", "cell_voltage")
        heard = heard_on(board_of_columns("tabs", columns, has_header=True))
        assert heard.state == "recognised"
        assert heard.addresses == ("text:/dev/ttyS9?column=3",)
        assert [(one.name, one.looks_like) for one in heard.candidates[0].columns] == [
            ("time_us", "time"),
            ("temperature", "other"),
            ("cell_voltage", "volts"),
        ]

    def test_names_that_are_not_needed_are_not_written(self):
        """Time and one voltage are told apart without them: the address stays what it is without a header."""
        wire = board_of_columns("commas", ("time_ms", "cell_voltage"), has_header=True)
        assert heard_on(wire).addresses == ("text:/dev/ttyS9",)

    def test_units_settle_it(self):
        heard = heard_on(board_of_columns("pairs", ("temperature", "cell_voltage")))
        assert heard.addresses == ("text:/dev/ttyS9",)
        assert "temperature (C), cell_voltage (volts)" in heard.message

    def test_every_proposed_address_can_be_read(self):
        for address in heard_on(board_of_columns("semicolons")).addresses:
            wire = board_of_columns("semicolons")
            source = make_source(address, opener=wire.open_port)
            source.open(wire.clock)
            delivered = [source.read(0.2) for _ in range(30)]
            assert {block.channel for one in delivered for block in one.samples} == {
                channel.name for channel in source.channels
            }
            source.close()

    @pytest.mark.parametrize("rate", [1.5, 5.0])
    def test_long_lines_are_waited_for(self, rate: float):
        """Two lines of 90 bytes a second and more: the first one alone tells nothing."""
        columns = ("time_us", "cell_voltage", "shunt_voltage", "temperature")
        wire = board_of_columns("json", columns, rate=rate, line_baud=0)
        heard = heard_on(wire, "socket://127.0.0.1:9")
        assert heard.state == "ambiguous", heard
        assert len(heard.candidates[0].columns) == 4

    def test_inputs_of_a_packet_board_are_listed(self):
        emulation = Emulation(
            "packet",
            ramp,
            rate=200.0,
            columns=("cell_voltage", "shunt_voltage"),
            others={"shunt_voltage": lambda times_s: 10 * ramp(times_s)},
        )
        heard = heard_on(FakeWire(make_device(emulation, Faults()), FakeClock(), line_baud=115200))
        assert heard.addresses == ("packet:/dev/ttyS9",)
        cell_V, shunt_V = (float(one.last.split()[0]) for one in heard.candidates[0].columns)
        assert shunt_V == pytest.approx(10 * cell_V, abs=0.02)  # steps of 1.5 mV
        assert "samples 2 inputs: 0 (" in heard.message

    def test_packets_that_arrive_in_pieces(self):
        device = make_device(Emulation("packet", ramp, rate=860.0), Faults())
        heard = heard_on(FakeWire(device, FakeClock(), chunk=16, line_baud=115200))
        assert heard.addresses == ("packet:/dev/ttyS9",)

    def test_a_slow_meter_is_waited_for(self):
        heard = heard_on(wire_of("stx16"))  # one frame a second
        assert heard.state == "recognised"

    def test_a_meter_on_ac_is_recognised_and_told_to_turn(self):
        frames = [(0.4 * k, encode_frame("lcd14", 1.5, is_ac=True)) for k in range(20)]
        heard = heard_on(FakeWire(ScriptedDevice(frames), FakeClock(), line_baud=2400))
        assert heard.addresses == ("lcd14:/dev/ttyS9",)
        assert "DC volts" in heard.message

    def test_a_meter_that_answers_is_silent_until_it_is_asked(self):
        wire = wire_of("scpi")
        heard = heard_on(wire)
        assert heard.state == "silent"
        assert "--ask /dev/ttyS9" in heard.message
        address, identity = ask_identity("/dev/ttyS9", clock=wire.clock, opener=wire.open_port)
        assert address == "scpi:/dev/ttyS9"
        assert identity.startswith("Galvanote,emulated meter")

    def test_asked_at_the_other_speed(self):
        wire = wire_of("scpi", line_baud=115200)
        assert ask_identity("/dev/ttyS9", clock=wire.clock, opener=wire.open_port)[0] == (
            "scpi:/dev/ttyS9?baud=115200"
        )

    def test_nobody_answers(self):
        wire = FakeWire(ScriptedDevice(), FakeClock())
        assert ask_identity("/dev/ttyS9", clock=wire.clock, opener=wire.open_port) == ("", "")

    def test_a_missing_port(self):
        wire = wire_of("text")
        wire.is_plugged = False
        heard = listen("/dev/ttyS9", clock=wire.clock, opener=wire.open_port)
        assert heard.state == "unavailable"
        assert "Plug in the cable" in heard.message

    def test_pulled_out_while_listening(self):
        device = make_device(Emulation("text", ramp, rate=2.0), Faults(unplug_after=1))
        wire = FakeWire(device, FakeClock())
        heard = listen("/dev/ttyS9", clock=wire.clock, opener=wire.open_port)
        assert heard.state == "unavailable"
        assert "disconnected" in heard.message

    def test_an_unusual_speed_is_not_understood(self):
        heard = heard_on(wire_of("text", line_baud=57600))
        assert heard.state == "not_understood"
        assert "speed" in heard.message


class TestAmbiguous:
    """The cases of the document's section 5 on structural false positives."""

    def test_nine_digit_numbers_may_be_frames_or_counts(self):
        lines = b"".join(b"%09d\r\n" % (100000000 + 7 * k) for k in range(60))
        verdict = judge(recognise(lines))
        assert verdict.state == "ambiguous"
        assert {one.kind for one in verdict.candidates} == {"digit11", "text"}
        assert all(not one.shown for one in verdict.candidates), "bare whole numbers are never volts"

    def test_twelve_digit_numbers(self):
        lines = b"".join(b"%012d\r\n" % (100000000000 + 7 * k) for k in range(60))
        verdict = judge(recognise(lines))
        assert verdict.state == "ambiguous"
        assert "text" in {one.kind for one in verdict.candidates}
        assert all(not one.shown for one in verdict.candidates)

    def test_volts_of_a_digit_meter_are_no_numbers(self):
        verdict = judge(recognise(b"".join(encode_frame("digit11", 1.0 + k / 1000) for k in range(20))))
        assert verdict.state == "recognised"
        assert verdict.candidates[0].kind == "digit11"

    def test_the_other_order_of_signs_is_offered_and_not_taken(self):
        frames = bytes.fromhex("31 31 32 33 34 3B 30 30 3C 0D 0A") * 8  # profile B: DC, AUTO (ES51960)
        verdict = judge(recognise(frames))
        assert verdict.state == "ambiguous"
        assert {one.options for one in verdict.candidates} == {(), (("column", "b"),)}
        assert [one.shown for one in verdict.candidates if one.options] == ["1.234 V"]

    def test_a_decimal_comma_or_two_columns(self):
        verdict = judge(recognise(b"1,2345\r\n" * 40))
        assert verdict.state == "ambiguous"
        assert "decimal comma" in verdict.candidates[0].problem


@pytest.mark.parametrize("seed", SEEDS)
def test_noise_is_nothing(seed: int):
    assert judge(recognise(random.Random(seed).randbytes(20000))).state == "unknown"
    assert recognise(b"") == ()


@pytest.mark.parametrize("kind", ENCODED_KINDS)
def test_frames_in_any_portion_of_a_stream(kind: str):
    """However the first frame is cut, all frames but it are explained."""
    frame_bytes = b"".join(encode_frame(kind, v) for v in np.linspace(0.5, 3.5, 12))
    for cut in range(1, 16):
        verdict = judge(recognise(frame_bytes[cut:]))
        assert verdict.state == "recognised"
        assert verdict.candidates[0].kind == kind
        assert verdict.candidates[0].share == pytest.approx(1.0)


def test_a_greeting_in_front_does_not_hide_packets():
    device = make_device(Emulation("packet", ramp, rate=200.0), Faults(banner="hello"))
    device.attach(0.0)
    data = b"boot\r\n" + device.take(1.5)
    assert encode_text("hello") in data
    assert judge(recognise(data)).candidates[0].kind == "packet"


def test_addresses():
    assert address_of("text", "/dev/x", 115200, {}) == "text:/dev/x"
    assert address_of("text", "/dev/x", 9600, {"column": "2"}) == "text:/dev/x?baud=9600&column=2"
    assert address_of("lcd14", "socket://h:1", 2400, {}) == "lcd14:socket://h:1"


@pytest.mark.skipif(os.name != "posix", reason="pseudo-terminals")
def test_every_format_at_once_on_pseudo_terminals():
    """Eight talking instruments and a silent one, each at its own line speed, heard in one budget."""
    running = {kind: EmulatorProcess(kind, "--ramp", "0.05") for kind in SENDERS}
    running["slow text"] = EmulatorProcess("text", "--ramp", "0.05", "--line-baud", "9600")
    running["scpi"] = EmulatorProcess("scpi", "--ramp", "0.05")
    try:
        for one in running.values():
            one.start()
        ports = {name: one.address.partition(":")[2] for name, one in running.items()}
        begin_s = time.monotonic()
        found = {one.port: one for one in listen_to_all(ports.values())}
        took_s = time.monotonic() - begin_s
    finally:
        for one in running.values():
            one.end()
    for kind in SENDERS:
        assert found[ports[kind]].state == "recognised", (kind, found[ports[kind]])
        assert found[ports[kind]].addresses == (f"{kind}:{ports[kind]}",)
    assert found[ports["slow text"]].addresses == (f"text:{ports['slow text']}?baud=9600",)
    assert found[ports["scpi"]].state == "silent"
    assert took_s < 2 * BUDGET_S, "all at once, not one after the other"


def test_what_is_recognised_can_be_opened():
    wire = wire_of("digit14")
    source = make_source(heard_on(wire).addresses[0], opener=wire.open_port)
    source.open(wire.clock)
    source.close()


class OpticalPort(FakePort):
    """What comes through the optical cable comes only while its supply stands as it needs it."""

    needs = (True, False)
    dtr = rts = True

    def _through_line(self, data: bytes) -> bytes:
        return super()._through_line(data) if (self.dtr, self.rts) == self.needs else b""


class TestThroughOptics:
    def heard(self, needs: tuple[bool, bool], kind: str = "lcd14"):
        wire = wire_of(kind)
        wire_open = wire.open_port

        def open_port(name: str, baud: int) -> FakePort:
            opened = wire_open(name, baud)
            port = wire.ports[-1] = OpticalPort(wire, 4096, opened.baudrate)
            port.needs = needs
            return port

        begin_s = wire.clock.now_s()
        found = listen_through_optics("/dev/ttyS9", clock=wire.clock, opener=open_port)
        assert wire.written == b""
        assert all(port.is_closed for port in wire.ports)
        return found, wire.clock.now_s() - begin_s

    @pytest.mark.parametrize("needs", CONTROL_LINES)
    @pytest.mark.parametrize("kind", ENCODED_KINDS)
    def test_the_meter_is_found_whatever_its_cable_needs(self, kind: str, needs: tuple[bool, bool]):
        found, took_s = self.heard(needs, kind)
        assert found.addresses == (f"{kind}:/dev/ttyS9",)
        assert took_s < 10.0

    def test_a_cable_that_stays_dark_is_said_to_be(self):
        found, took_s = self.heard((False, False))
        assert found.state == "silent"
        assert "seated on the meter" in found.message
        assert took_s < 10.0

    def test_a_silent_port_offers_it(self):
        wire = FakeWire(ScriptedDevice(), FakeClock())
        assert "sources --optical /dev/ttyS9" in heard_on(wire).message
