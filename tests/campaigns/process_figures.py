"""What a process uses: memory, descriptors, threads. Linux only."""

from __future__ import annotations

import os
from pathlib import Path

__all__ = ["ProcessFigures"]


class ProcessFigures:
    """Reads /proc of one process, by default of this one."""

    def __init__(self, pid: int | None = None) -> None:
        self._folder = Path("/proc") / str(os.getpid() if pid is None else pid)

    def rss_MB(self) -> float:
        """Memory in use now."""
        return self._status("VmRSS") / 1024

    def own_MB(self) -> float:
        """What of it is the process's own: no page of a file, which the system takes back as it likes."""
        return self._status("RssAnon") / 1024

    def peak_MB(self) -> float:
        """Memory in use at most, so far."""
        return self._status("VmHWM") / 1024

    def descriptors(self) -> int:
        return len(os.listdir(self._folder / "fd"))

    def threads(self) -> int:
        return self._status("Threads")

    def cpu_s(self) -> float:
        """Processor seconds used so far."""
        fields = (self._folder / "stat").read_text().rpartition(")")[2].split()
        return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")

    def children(self) -> dict[int, str]:
        """Process ids of the children, and the commands that they run."""
        found = {}
        for threads in self._folder.glob("task/*/children"):
            for child in threads.read_text().split():
                command = Path("/proc", child, "cmdline").read_bytes()
                found[int(child)] = command.replace(b"\0", b" ").decode(errors="replace").strip()
        return found

    def _status(self, name: str) -> int:
        for line in (self._folder / "status").read_text().splitlines():
            if line.startswith(name + ":"):
                return int(line.split()[1])
        raise ProcessLookupError(f"{self._folder} has no {name}: has the process ended?")
