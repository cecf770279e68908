"""The real record command as a process, with what it acknowledges and what it says."""

from __future__ import annotations

import contextlib
import os
import re
import signal
import subprocess
import sys
import threading
import time
from pathlib import Path

__all__ = ["ROOT", "RecordCommand", "galvanote"]

ROOT = Path(__file__).resolve().parents[2]
MAIN = "import sys; from logger.commands import main; sys.exit(main())"


def galvanote(*arguments: object, timeout_s: float = 120) -> subprocess.CompletedProcess[str]:
    """Run one command to its end."""
    return subprocess.run(
        [sys.executable, "-c", MAIN, *map(str, arguments)],
        cwd=ROOT,
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        timeout=timeout_s,
        check=False,
    )


class RecordCommand:
    """`galvanote record --acks` in a process group of its own. Lines given to `type` tag moments."""

    def __init__(self, out: Path, *sources: str, options: tuple[str, ...] = ()) -> None:
        addresses = [part for source in sources for part in ("--source", source)]
        self.process = subprocess.Popen(
            [sys.executable, "-c", MAIN, "record", "--acks", *addresses, "--out", str(out), *options],
            cwd=ROOT,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
            bufsize=1,
            start_new_session=True,
        )
        self.samples = self.moments = 0
        self.said: list[str] = []
        self._changed = threading.Condition()
        self._threads = [threading.Thread(target=work, daemon=True) for work in (self._acks, self._says)]
        for thread in self._threads:
            thread.start()

    def type(self, line: str) -> bool:
        """Type a line; False when nobody reads any more."""
        assert self.process.stdin is not None
        try:
            self.process.stdin.write(line + "\n")
        except (BrokenPipeError, ValueError):
            return False
        return True

    def wait_said(self, text: str, limit_s: float = 60) -> bool:
        """Wait until a line on stderr holds `text`; False when the command ends or the time passes before."""
        with self._changed:
            self._changed.wait_for(lambda: self._has_said(text) or self.process.poll() is not None, limit_s)
            return self._has_said(text)

    def wait_acknowledged(self, samples: int, limit_s: float = 60) -> bool:
        """Wait until that many samples have been acknowledged."""
        with self._changed:
            return self._changed.wait_for(lambda: self.samples >= samples, limit_s)

    def interrupt(self) -> None:
        """Ctrl-C."""
        self.process.send_signal(signal.SIGINT)

    def kill(self, *, group: bool = True) -> bool:
        """Kill -9, with its children or alone; False when it had ended by itself."""
        hit = self.process.poll() is None
        with contextlib.suppress(ProcessLookupError):
            if group:
                os.killpg(self.process.pid, signal.SIGKILL)
            elif hit:
                self.process.kill()
        self.wait()
        return hit

    def wait(self, limit_s: float = 60) -> int:
        """Wait for its end; return its status."""
        status = self.process.wait(limit_s)
        for thread in self._threads:
            thread.join(10)
        for stream in (self.process.stdout, self.process.stderr, self.process.stdin):
            with contextlib.suppress(BrokenPipeError):
                stream.close()  # type: ignore[union-attr]
        return status

    def _acks(self) -> None:
        assert self.process.stdout is not None
        for line in self.process.stdout:
            found = re.fullmatch(r"ACK samples=(\d+) moments=(\d+)\n", line)
            if found:
                with self._changed:
                    self.samples, self.moments = int(found[1]), int(found[2])
                    self._changed.notify_all()

    def _says(self) -> None:
        assert self.process.stderr is not None
        for line in self.process.stderr:
            with self._changed:
                self.said.append(line.rstrip())
                self._changed.notify_all()
        time.sleep(0.01)  # let the process be seen to have ended
        with self._changed:
            self._changed.notify_all()

    def _has_said(self, text: str) -> bool:
        return any(text in line for line in self.said)
