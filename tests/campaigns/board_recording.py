"""The real firmware recorded by the real command for two minutes: python -m tests.campaigns.board_recording

The packet firmware runs in an emulated microcontroller (simavr) with its USART on a pseudo-terminal, once
with its own converter and once with an emulated 16-bit one on the two-wire bus. Exit status 1 if a packet was
lost, a gap was kept, or a reading is further from the voltage than the converter's step allows.
"""

from __future__ import annotations

import argparse
import sys
import tempfile
from pathlib import Path

import h5py
import numpy as np

from tests.board.emulated import STEP_V, Board, Profile, build_firmware, build_harness, missing_packages
from tests.campaigns.record_command import galvanote
from tests.campaigns.table import print_table

TRUE_V = 1.9960
CONVERTERS = {"own, 10 bit": ((), STEP_V, 1000.0), "I2C, 16 bit": (("--i2c-converter",), 125e-6, 500.0)}
SECONDS, QUICK_SECONDS = 120, 10


def one(name: str, elf: Path, harness: Path, folder: Path, seconds: int) -> tuple[list[object], bool]:
    """Record one converter; return a row of the table and whether all was right."""
    options, step_V, rate = CONVERTERS[name]
    profile, out = folder / "profile.txt", folder / f"{rate:g}.h5"
    Profile(((0.0, TRUE_V),)).write(profile)
    board = Board(harness, elf, "--profile", str(profile), *options)
    try:
        done = galvanote(
            "record", "--source", f"packet:{board.port}", "--out", out, "--for", f"{seconds}s",
            timeout_s=seconds + 120,
        )  # fmt: skip
    finally:
        said = board.unplug()
    if done.returncode:
        raise SystemExit(done.stderr)
    with h5py.File(out) as file:
        times_s, volts = file["run/cell_voltage/time"][:], file["run/cell_voltage/value"][:]
        gaps = file["run/gaps/begin"].shape[0]
        details = file["run/instrument/cell_voltage/details"]
        dropped, damaged = (
            float(details.attrs[key] if key in details.attrs else details[key][()])
            for key in ("dropped", "crc_errors")
        )
    expected = (times_s[-1] - times_s[0]) * rate + 1
    off_V = float(np.abs(volts - TRUE_V).max())
    row = [name, f"{times_s[-1] - times_s[0]:.1f}", times_s.size, f"{expected:.0f}", f"{dropped:g}",
           f"{damaged:g}", gaps, f"{1000 * off_V:.3f}", said.strip()]  # fmt: skip
    is_right = (
        not (dropped or damaged or gaps) and abs(times_s.size - expected) < 3 and off_V <= step_V / 2 + 1e-9
    )
    return row, is_right


def main(arguments: list[str]) -> int:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--quick", action="store_true", help=f"{QUICK_SECONDS} s each")
    seconds = QUICK_SECONDS if parser.parse_args(arguments).quick else SECONDS
    missing = missing_packages()
    if missing:
        raise SystemExit(f"the emulated board needs: sudo apt install {' '.join(missing)}")
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        elf = build_firmware(folder / "firmware").with_name("galvanote-board-packets.elf")
        harness = build_harness(folder)
        found = [one(converter, elf, harness, folder, seconds) for converter in CONVERTERS]
    print_table(
        [
            "converter",
            "s",
            "readings",
            "expected",
            "packets lost",
            "damaged",
            "gaps",
            "worst mV off",
            "emulator",
        ],
        [row for row, _ in found],
    )
    return 0 if all(is_right for _, is_right in found) else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
