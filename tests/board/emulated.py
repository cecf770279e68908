"""Builds the board's firmware and the emulator that runs it, and talks to a running emulator."""

from __future__ import annotations

import select
import shutil
import subprocess
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

__all__ = ["FIRMWARE", "STEP_V", "Board", "Profile", "build_firmware", "build_harness", "missing_packages"]

FIRMWARE = Path(__file__).parents[2] / "drivers" / "firmware"
HARNESS = tuple(
    Path(__file__).with_name(name) for name in ("harness.c", "port.c", "voltage.c", "i2c_converter.c")
)
SIMAVR_HEADERS = "/usr/include/simavr"

STEP_V = 5.0 / 1024
"""One step of the converter: reference / 1024 (ATmega328P data sheet, "ADC Conversion Result")."""


def missing_packages() -> list[str]:
    """Return the Debian names of what is needed and not there."""
    programs = {"gcc": "gcc", "make": "make", "avr-gcc": "gcc-avr", "avr-objcopy": "binutils-avr"}
    missing = [package for program, package in programs.items() if shutil.which(program) is None]
    if not _compiles("gcc", "sim_avr.h", "-isystem", SIMAVR_HEADERS):
        missing.append("libsimavr-dev")
    if not _compiles("gcc", "libelf.h"):
        missing.append("libelf-dev")
    if not _compiles("avr-gcc", "avr/io.h", "-mmcu=atmega328p"):
        missing.append("avr-libc")
    return missing


def _compiles(compiler: str, header: str, *options: str) -> bool:
    if shutil.which(compiler) is None:
        return False
    command = [compiler, *options, "-fsyntax-only", "-xc", "-"]
    program = f"#include <stdint.h>\n#include <{header}>\n"
    return subprocess.run(command, input=program, text=True, capture_output=True, check=False).returncode == 0


def build_firmware(folder: Path, *options: str) -> Path:
    """Build the firmware in `folder` with extra compiler options and return the ELF file."""
    _run(["make", "-C", str(FIRMWARE), f"BUILD={folder}", f"OPTIONS={' '.join(options)}"])
    return folder / "galvanote-board.elf"


def build_harness(folder: Path) -> Path:
    """Build the emulator program in `folder` and return it."""
    program = folder / "harness"
    warnings = ["-Wall", "-Wextra", "-Werror"]
    source = ["-isystem", SIMAVR_HEADERS, *map(str, HARNESS), "-o", str(program), "-lsimavr", "-lelf", "-lm"]
    _run(["gcc", "-std=c11", "-O2", *warnings, *source])
    return program


def _run(command: list[str]) -> None:
    done = subprocess.run(command, text=True, capture_output=True, check=False)
    assert done.returncode == 0, f"{' '.join(command)}\n{done.stdout}{done.stderr}"


@dataclass(frozen=True)
class Profile:
    """A voltage over time: linear between corners (time in seconds, volts); two at one time are a step."""

    corners: tuple[tuple[float, float], ...]

    def write(self, path: Path) -> None:
        """Write the file that the emulator reads."""
        path.write_text("".join(f"{time_s!r} {volts!r}\n" for time_s, volts in self.corners))

    def at(self, times_s: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return the voltage at each time; at a step, what comes after it."""
        volts = np.full(times_s.shape, self.corners[0][1])
        for (begin_s, begin_V), (end_s, end_V) in pairwise(self.corners):
            if end_s > begin_s:
                inside = (times_s >= begin_s) & (times_s < end_s)
                volts[inside] = begin_V + (end_V - begin_V) * (times_s[inside] - begin_s) / (end_s - begin_s)
        volts[times_s >= self.corners[-1][0]] = self.corners[-1][1]
        return volts

    def mean_around(self, middle_s: float, width_s: float = 0.1, parts: int = 100) -> float:
        """Return the mean voltage over `width_s` around `middle_s`, as a true averaging meter would."""
        offsets_s = (np.arange(parts) + 0.5) / parts * width_s - width_s / 2
        return float(np.mean(self.at(middle_s + offsets_s)))


class Board:
    """A running emulated board. `port` is its pseudo terminal.

    Parameters
    ----------
    harness, elf : what `build_harness` and `build_firmware` returned.
    options : command line options of the emulator (see the head of harness.c).
    """

    def __init__(self, harness: Path, elf: Path, *options: str) -> None:
        self._process = subprocess.Popen(
            [str(harness), str(elf), "--end-with-stdin", *options],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
        )
        assert self._process.stdout is not None
        ready, _, _ = select.select([self._process.stdout], [], [], 10)
        first = self._process.stdout.readline().split() if ready else []
        if first[:1] != ["READY"]:
            self._process.kill()
            raise AssertionError(f"the emulator did not get ready: {first} {self._process.communicate()[1]}")
        self.port = first[1]

    def tell(self, command: str) -> None:
        """Send a command line: ``volts X``, ``reset`` or ``hang``."""
        assert self._process.stdin is not None
        self._process.stdin.write(command + "\n")
        self._process.stdin.flush()

    def cpu_s(self) -> float:
        """Return the processor time used so far, in seconds (Linux: /proc, fields 14 and 15)."""
        fields = Path(f"/proc/{self._process.pid}/stat").read_text().rpartition(")")[2].split()
        return (int(fields[11]) + int(fields[12])) / 100.0

    def unplug(self) -> str:
        """End the emulator, which hangs up the port; return what it wrote to stderr.

        It must end by itself within ten seconds of SIGTERM, with status 0.
        """
        if self._process.poll() is None:
            self._process.terminate()
        try:
            _, errors = self._process.communicate(timeout=10)
        except subprocess.TimeoutExpired:
            self._process.kill()
            self._process.communicate()
            raise
        assert self._process.returncode == 0, errors
        return errors
