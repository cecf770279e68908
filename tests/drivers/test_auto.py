"""The source that recognises its instrument: the contract, and what it does where it must not guess."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import time

import pytest

from drivers.errors import AddressError, CannotOpen, SourceRefused
from drivers.registry import make_source
from drivers.simulated.emulated import Emulation, make_device
from drivers.simulated.faults import Faults
from drivers.testing import FakeClock, FakeWire, ScriptedDevice
from tests.drivers.contract import InstrumentBench, InstrumentContract, collect
from tests.drivers.emulation import ROOT, EmulatorProcess
from tests.drivers.simulated.test_emulated import ramp


class AutoBench(InstrumentBench):
    def __init__(self, kind: str, query: str = "", form: str = "micros") -> None:
        emulation = Emulation(kind, ramp, form=form, rate=20.0 if kind in ("text", "packet") else None)
        self.wire = FakeWire(make_device(emulation, Faults()), FakeClock(), line_baud=emulation.baud)
        super().__init__(
            make=lambda: make_source("auto:/dev/ttyFAKE0" + query, opener=self.wire.open_port),
            clock=self.wire.clock,
            unplug=lambda: setattr(self.wire, "is_plugged", False),
            replug=lambda: setattr(self.wire, "is_plugged", True),
            hush=lambda: setattr(self.wire, "device", ScriptedDevice()),
        )


class TestMeter(InstrumentContract):
    @pytest.fixture
    def bench(self) -> InstrumentBench:
        return AutoBench("lcd14")


class TestBoard(InstrumentContract):
    @pytest.fixture
    def bench(self) -> InstrumentBench:
        return AutoBench("packet")


def test_it_says_what_it_took_it_for_and_asks_for_the_display():
    bench = AutoBench("ascii14", "?channel=anode&role=anode_potential")
    source = bench.make()
    source.open(bench.clock)
    assert source.channels[0].name == "anode"
    notice = source.read(0.2).notices[0]
    assert notice.code == "recognised"
    assert "ascii14:/dev/ttyFAKE0" in notice.text
    assert "display" in notice.text
    recognised = source.instrument.details["recognised_as"]
    assert recognised == "ascii14:/dev/ttyFAKE0?channel=anode&role=anode_potential"
    assert bench.wire.written == b""
    source.close()


def test_it_says_that_it_listens_until_it_knows_what_is_there():
    bench = AutoBench("ascii14")
    source = bench.make()
    assert source.waits_for.startswith("Listening to /dev/ttyFAKE0")
    source.open(bench.clock)
    assert source.waits_for == ""
    source.close()


def test_what_is_ambiguous_is_refused_with_the_ways():
    bench = AutoBench("text", form="columns")
    with pytest.raises(SourceRefused, match=r"column=.*text:/dev/ttyFAKE0"):
        bench.make().open(bench.clock)
    assert all(port.is_closed for port in bench.wire.ports)


def test_a_meter_that_has_to_be_asked_is_not_asked():
    bench = AutoBench("scpi")
    with pytest.raises(CannotOpen, match="--ask"):
        bench.make().open(bench.clock)
    assert bench.wire.written == b""


def test_a_wrong_option_is_refused_before_anything_is_opened():
    with pytest.raises(AddressError):
        make_source("auto:/dev/x?role=cell")
    with pytest.raises(AddressError):
        make_source("auto:/dev/x?column=2")


def test_a_given_speed_is_the_only_one():
    bench = AutoBench("lcd14", "?baud=9600")
    with pytest.raises(SourceRefused, match="speed"):
        bench.make().open(bench.clock)
    assert {port.baudrate for port in bench.wire.ports} == {9600}


def sources(*arguments: str) -> subprocess.CompletedProcess[str]:
    code = "import sys; from logger.commands import main; sys.exit(main())"
    return subprocess.run(
        [sys.executable, "-c", code, "sources", *arguments],
        cwd=ROOT,
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )


@pytest.mark.skipif(os.name != "posix", reason="pseudo-terminals")
class TestCommand:
    def test_two_ports_as_json(self):
        with EmulatorProcess("lcd14", "--ramp", "0.01") as meter, EmulatorProcess("scpi") as silent:
            ports = [one.address.partition(":")[2] for one in (meter, silent)]
            done = sources(*ports, "--json")
        found = json.loads(done.stdout)
        assert done.returncode == 0
        assert [one["port"] for one in found] == ports
        assert [one["state"] for one in found] == ["recognised", "silent"]
        assert found[0]["address"] == meter.address
        assert found[0]["shown"].endswith("V")
        assert found[1]["address"] == ""

    def test_asked_on_the_users_word(self):
        with EmulatorProcess("scpi") as meter:
            done = sources("--ask", meter.address.partition(":")[2])
        assert done.returncode == 0, done.stderr
        assert meter.address in done.stdout
        assert "Galvanote,emulated meter" in done.stdout

    def test_nobody_there(self):
        done = sources("/dev/no-such-port")
        assert "unavailable" in done.stdout
        assert "Plug in the cable" in done.stdout

    def test_what_is_recognised_is_recorded(self):
        """auto: on a real pseudo-terminal, read for a second."""
        from drivers.run_clock import HostClock

        with EmulatorProcess("text", "--ramp", "0.01", "--line-baud", "9600") as board:
            source = make_source("auto:" + board.address.partition(":")[2])
            clock = HostClock()
            source.open(clock)
            begin_s = time.monotonic()
            collect(source, InstrumentBench(lambda: source, clock), 5)
            source.close()
        assert time.monotonic() - begin_s < 30
