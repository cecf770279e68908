"""Sources on real lines: an emulated instrument as a separate process, over TCP and a pseudo-terminal."""

from __future__ import annotations

import os
import signal
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest

from drivers.errors import AddressError, CannotOpen, SourceLost
from drivers.registry import make_source
from drivers.run_clock import HostClock
from drivers.samples import Samples
from drivers.simulated.emulated import Emulation
from drivers.simulated.emulator import main, run_emulator
from tests.drivers.contract import InstrumentBench, InstrumentContract, check_order, collect
from tests.drivers.emulation import EmulatorProcess

pytestmark = pytest.mark.skipif(os.name != "posix", reason="uses POSIX signals and pseudo-terminals")

RAMP = "0.001"  # volts per second: a reading tells when it was taken


class OnALine(InstrumentContract):
    """The contract, with a process at the far end that is killed to unplug it."""

    kind = ""
    query = ""
    uses_tcp = False
    options: tuple[str, ...] = ()

    @pytest.fixture(scope="class")
    @classmethod
    def emulator(cls, tmp_path_factory: pytest.TempPathFactory) -> Iterator[EmulatorProcess]:
        where = (
            ["--port", "0"] if cls.uses_tcp else ["--link", str(tmp_path_factory.mktemp("line") / "meter")]
        )
        with EmulatorProcess(cls.kind, *where, "--ramp", RAMP, *cls.options) as emulator:
            yield emulator

    @pytest.fixture
    def bench(self, emulator: EmulatorProcess) -> InstrumentBench:
        emulator.thaw()
        return InstrumentBench(
            make=lambda: make_source(emulator.address + self.query),
            clock=HostClock(),
            unplug=lambda: unplug(emulator),
            replug=emulator.thaw,
            hush=emulator.freeze,
        )


def unplug(emulator: EmulatorProcess) -> None:
    """Kill the process, and remove the name that it leaves, as the system does for a device."""
    emulator.end()
    port = emulator.address.partition(":")[2]
    if port.startswith("/"):
        Path(port).unlink()


class TestMeterOverTcp(OnALine):
    kind, query, uses_tcp = "scpi", "?rate=20", True


class TestMeterOverPseudoTerminal(OnALine):
    kind, query = "scpi", "?rate=20&baud=115200"
    options = ("--line-baud", "115200")


class TestBoardOverTcp(OnALine):
    kind, uses_tcp = "text", True
    options = ("--rate", "50")


class TestBoardOverPseudoTerminal(OnALine):
    kind = "text"
    options = ("--rate", "50")


class TestBoardOfSeveralColumns(OnALine):
    kind, query = "text", "?column=2,3&role=cell_voltage,shunt_voltage"
    options = ("--rate", "50", "--columns", "time_ms,cell_voltage,shunt_voltage")


def read_through(source, clock: HostClock, samples: int) -> list[Samples]:
    """Read so many samples, opening again after each loss as a recorder does."""
    blocks: list[Samples] = []
    until_s = clock.now_s() + 30.0
    while sum(map(len, blocks)) < samples and clock.now_s() < until_s:
        try:
            blocks += source.read(0.2).samples
        except SourceLost:
            source.close()
            reopen(source, clock, until_s)
    return blocks


def reopen(source, clock: HostClock, until_s: float) -> None:
    while clock.now_s() < until_s:
        try:
            source.open(clock)
        except CannotOpen:
            clock.sleep_s(0.1)
            continue
        return


@pytest.mark.parametrize("kind", ["scpi", "text"])
def test_unplugged_and_back_under_the_same_name(kind: str, tmp_path: Path):
    """Deaf for 0.5 s after 30 messages; the run goes on with a gap and nothing invented in it."""
    faults = ["--fault", "unplug_after=30", "--fault", "away_s=0.5"]
    rate = ["--rate", "20"] if kind == "text" else []
    with EmulatorProcess(kind, "--link", str(tmp_path / "meter"), "--ramp", RAMP, *rate, *faults) as emulator:
        source, clock = make_source(emulator.address + ("?rate=20" if kind == "scpi" else "")), HostClock()
        source.open(clock)
        blocks = read_through(source, clock, 45)
        source.close()
    check_order(blocks)
    steps_s = np.diff(np.concatenate([block.times_s for block in blocks]))
    assert (steps_s > 0.5).sum() >= 1
    assert sum(map(len, blocks)) >= 45


def test_times_over_a_real_line_are_true():
    """The ramp tells the moment of each conversion, up to the constant between the two processes' starts."""
    with EmulatorProcess("scpi", "--port", "0", "--ramp", "0.01") as emulator:
        source, clock = make_source(emulator.address + "?rate=20"), HostClock()
        source.open(clock)
        blocks = collect(source, InstrumentBench(lambda: source, clock), 40)
        source.close()
    times_s = np.concatenate([block.times_s for block in blocks])
    volts = np.concatenate([block.values for block in blocks])
    apart_s = times_s - volts / 0.01
    assert np.median(np.abs(apart_s - np.median(apart_s))) < 0.005


@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGINT])
def test_a_signal_ends_it_with_status_0(number: int):
    emulator = EmulatorProcess("scpi", "--port", "0")
    emulator.start()
    assert emulator.end(number) == 0


def test_the_demonstration_cell_is_behind_it_by_default():
    with EmulatorProcess("scpi", "--port", "0", "--speed", "100") as emulator:
        source, clock = make_source(emulator.address), HostClock()
        source.open(clock)
        block = source.read(1.0).samples[0]
        source.close()
    assert 0.0 < abs(block.values[0]) < 40.0


def test_a_second_program_finds_the_line_busy():
    with EmulatorProcess("text", "--port", "0") as emulator:
        first, second, clock = make_source(emulator.address), make_source(emulator.address), HostClock()
        first.open(clock)
        with pytest.raises(CannotOpen, match="ended"):
            second.open(clock)
        assert collect(first, InstrumentBench(lambda: first, clock), 3)
        first.close()


def test_an_unknown_kind_names_the_nearest():
    with pytest.raises(AddressError, match="did you mean scpi"):
        run_emulator(Emulation("scip", np.zeros_like))


def test_a_taken_port_is_told(capsys: pytest.CaptureFixture[str]):
    with EmulatorProcess("text", "--port", "0") as emulator:
        number = emulator.address.rpartition(":")[2]
        assert main(["text", "--port", number, "--ramp", "0"]) == 1
    assert "Choose another" in capsys.readouterr().err


def test_an_unknown_fault_is_told(capsys: pytest.CaptureFixture[str]):
    assert main(["text", "--fault", "fire=1"]) == 1
    assert "no fault 'fire'" in capsys.readouterr().err
