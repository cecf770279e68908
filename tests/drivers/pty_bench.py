"""Devices behind a pseudo-terminal, in real time, for tests of sources over a port of the system."""

from __future__ import annotations

import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from drivers.run_clock import HostClock
from drivers.simulated.device import Device
from drivers.simulated.endpoint import PseudoTerminal
from drivers.source import Source
from drivers.testing import ScriptedDevice
from tests.drivers.contract import InstrumentBench

WAIT_S = 0.02


class PtyBench(InstrumentBench):
    """Serves `device` from a thread of its own; `path` is what a source opens, also after a replug."""

    def __init__(self, device: Device, make: Callable[[str], Source], path: Path) -> None:
        self.device: Device = device
        self._endpoint = PseudoTerminal(path)
        self._lock = threading.Lock()
        self._is_plugged = True
        self._stop = threading.Event()
        self._pump = threading.Thread(target=self._serve, name="pty bench")
        super().__init__(
            make=lambda: make(str(path)),
            clock=HostClock(),
            unplug=self._unplug,
            replug=self._replug,
            hush=self._hush,
        )

    @contextmanager
    def served(self) -> Iterator[PtyBench]:
        self._pump.start()
        try:
            yield self
        finally:
            self._stop.set()
            self._pump.join()
            self._endpoint.close()

    def _serve(self) -> None:
        clock = HostClock()
        while not self._stop.is_set():
            with self._lock:
                if self._is_plugged:
                    due_s = self.device.next_due_s()
                    wait_s = WAIT_S if due_s is None else min(WAIT_S, max(due_s - clock.now_s(), 0.0))
                    has_opened, data = self._endpoint.poll(wait_s)
                    now_s = clock.now_s()
                    out = self.device.take(now_s)
                    if has_opened:
                        self.device.attach(now_s)
                    elif self._endpoint.is_open:
                        self._endpoint.send(out)
                    if data:
                        self.device.receive(data, now_s)
            self._stop.wait(1e-4)  # lets the other side have the lock

    def _unplug(self) -> None:
        with self._lock:
            self._is_plugged = False
            self._endpoint.unplug()

    def _replug(self) -> None:
        with self._lock:
            self._endpoint.replug()
            self._is_plugged = True

    def _hush(self) -> None:
        with self._lock:
            self.device = ScriptedDevice()
