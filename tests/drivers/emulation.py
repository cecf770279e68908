"""An emulated instrument as a process of its own, for tests on real lines."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from pathlib import Path
from typing import Self

ROOT = Path(__file__).parents[2]
_END_S = 10.0


class EmulatorProcess:
    """Runs ``python -m drivers.simulated.emulator`` with the given arguments; always killed in the end.

    `address` is what it printed after READY.
    """

    def __init__(self, *arguments: str) -> None:
        self._arguments = arguments
        self._process: subprocess.Popen[str] | None = None
        self.address = ""

    def start(self) -> None:
        """Start it and wait until it is ready; it then keeps its TCP port over restarts."""
        self._process = subprocess.Popen(
            [sys.executable, "-m", "drivers.simulated.emulator", *self._arguments],
            cwd=ROOT,
            env=os.environ | {"PYTHONPATH": str(ROOT)},
            stdout=subprocess.PIPE,
            text=True,
        )
        assert self._process.stdout is not None
        line = self._process.stdout.readline()  # ends at once if the process does
        assert line.startswith("READY "), f"the emulator said {line!r}"
        self.address = line.split()[1]
        if "--port" in self._arguments:
            number = self.address.rpartition(":")[2]
            place = self._arguments.index("--port") + 1
            self._arguments = (*self._arguments[:place], number, *self._arguments[place + 1 :])

    def end(self, number: int = signal.SIGKILL) -> int:
        """Send the signal and wait for the end; return the exit status."""
        process, self._process = self._process, None
        if process is None:
            return 0
        process.send_signal(number)
        if number == signal.SIGKILL:
            process.send_signal(signal.SIGCONT)
        try:
            return process.wait(_END_S)
        finally:
            process.kill()
            process.wait(_END_S)
            assert process.stdout is not None
            process.stdout.close()

    def freeze(self) -> None:
        """Let it say nothing, though its line stays."""
        assert self._process is not None
        self._process.send_signal(signal.SIGSTOP)

    def thaw(self) -> None:
        """Let it go on, or start it if it has ended."""
        if self._process is None:
            self.start()
        else:
            self._process.send_signal(signal.SIGCONT)

    def __enter__(self) -> Self:
        self.start()
        return self

    def __exit__(self, *_: object) -> None:
        self.end()
