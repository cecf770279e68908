"""The SCPI source against a meter that no one here wrote: PyVISA-sim 0.7.1 behind a pseudo-terminal."""

from __future__ import annotations

import os
import select
import threading
import tty
from collections.abc import Iterator
from pathlib import Path

import h5py
import numpy as np
import pytest

from drivers.errors import SourceRefused
from drivers.registry import make_source
from drivers.run_clock import HostClock
from drivers.samples import Samples
from tests.drivers.contract import InstrumentBench, collect, read_on
from tests.drivers.test_recorded_instruments import record

pyvisa = pytest.importorskip("pyvisa")
pytest.importorskip("pyvisa_sim")
pytestmark = pytest.mark.skipif(os.name != "posix", reason="pseudo-terminals")

DEVICE = Path(__file__).with_name("visa_peer.yaml")
FIRST_V = 2.2507
OVERLOAD = 9.9e37  # SCPI-1999 volume 1, section 7.2.1


class Bridge:
    """Carries the lines of a pseudo-terminal to the simulated instrument, and its answers back."""

    def __init__(self) -> None:
        self._master, self._slave = os.openpty()
        tty.setraw(self._slave)
        self.port = os.ttyname(self._slave)
        self.asked: list[str] = []
        self._manager = pyvisa.ResourceManager(f"{DEVICE}@sim")
        self._meter = self._manager.open_resource(
            "ASRL1::INSTR", read_termination="\r\n", write_termination="\n"
        )
        self._lock = threading.Lock()
        self._ending = threading.Event()
        self._pump = threading.Thread(target=self._carry, name="bridge")
        self._pump.start()

    def tell(self, command: str) -> None:
        """Change the instrument behind the program's back."""
        with self._lock:
            self._meter.write(command)
            assert self._meter.read() == "OK"

    def close(self) -> None:
        self._ending.set()
        self._pump.join(10)
        self._meter.close()
        self._manager.close()
        os.close(self._slave)
        os.close(self._master)

    def _carry(self) -> None:
        kept = b""
        while not self._ending.is_set():
            if not select.select([self._master], [], [], 0.05)[0]:
                continue
            kept += os.read(self._master, 4096)
            *lines, kept = kept.split(b"\n")
            for line in lines:
                self._ask(line.decode("ascii").strip())

    def _ask(self, line: str) -> None:
        self.asked.append(line)
        with self._lock:
            self._meter.write(line)
            if line.endswith("?"):
                os.write(self._master, self._meter.read().encode() + b"\r\n")


@pytest.fixture
def bridge() -> Iterator[Bridge]:
    made = Bridge()
    yield made
    made.close()


def test_it_is_recognised_asked_and_read_right(bridge: Bridge):
    source, clock = make_source(f"scpi:{bridge.port}?rate=20"), HostClock()
    bench = InstrumentBench(lambda: source, clock)
    source.open(clock)
    assert source.instrument.identity == "Independent peer,simulated meter,4711,1.0"
    values = np.concatenate([block.values for block in collect(source, bench, 10)])
    assert (values == FIRST_V).all()
    bridge.tell("SET -0.000020")
    for _ in range(3):
        last = collect(source, bench, 1)[-1]
    assert last.values[-1] == -0.00002
    bridge.tell(f"SET {OVERLOAD:e}")
    for _ in range(3):
        last = collect(source, bench, 1)[-1]
    assert np.isposinf(last.values[-1])
    source.close()
    assert "*RST" not in bridge.asked


def test_turned_to_another_function_it_is_refused(bridge: Bridge):
    source, clock = make_source(f"scpi:{bridge.port}?rate=20"), HostClock()
    source.open(clock)
    collect(source, InstrumentBench(lambda: source, clock), 3)
    bridge.tell("FUNC CURR")
    bridge.tell("SET 0.001000")
    blocks: list[Samples] = []
    with pytest.raises(SourceRefused, match="CURR"):
        read_on(source, InstrumentBench(lambda: source, clock), blocks)
    assert all((block.values == FIRST_V).all() for block in blocks)
    source.close()


def test_the_real_command_records_it(bridge: Bridge, tmp_path: Path):
    out = tmp_path / "run.h5"
    done = record(out, "3s", f"scpi:{bridge.port}?rate=10")
    assert done.returncode == 0, done.stderr
    with h5py.File(out) as file:
        volts = file["run/cell_voltage/value"][:]
        identity = file["run/instrument/cell_voltage"].attrs.get("identity")
        if identity is None:
            identity = file["run/instrument/cell_voltage/identity"][()]
    assert volts.size >= 10
    assert (volts == FIRST_V).all()
    assert "Independent peer" in (identity.decode() if isinstance(identity, bytes) else str(identity))
