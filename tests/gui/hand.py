"""A hand at a program of a test: real events of a virtual screen, by xdotool."""

from __future__ import annotations

import os
import subprocess
import sys
from typing import Self

PATIENCE_S = 30.0


class Hand:
    """A program on a virtual screen, a hand at its mouse and keys, and what it tells line by line."""

    def __init__(self, display: str, program: str) -> None:
        self._environment = os.environ | {
            "DISPLAY": display,
            "QT_QPA_PLATFORM": "xcb",
            "PYTHONPATH": os.pathsep.join(p for p in sys.path if p),
        }
        self.process = subprocess.Popen(
            [sys.executable, "-c", program], env=self._environment, stdout=subprocess.PIPE, text=True
        )

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self.process.kill()
        self.process.wait(10)
        assert self.process.stdout is not None
        self.process.stdout.close()

    def told(self, until: str) -> dict[str, list[float]]:
        """Wait for a line that begins with `until`; return the numbers that each word was told with last."""
        assert self.process.stdout is not None
        found: dict[str, list[float]] = {}
        for line in self.process.stdout:
            word, *numbers = line.split()
            found[word] = [float(number) for number in numbers]
            if word == until:
                return found
        raise AssertionError(f"the program ended before it told {until!r}")

    def do(self, *words: object) -> None:
        command = ["xdotool", *(str(word) for word in words)]
        subprocess.run(command, env=self._environment, timeout=PATIENCE_S, check=True)

    def drag(self, begin: tuple[int, int], by_x: int) -> None:
        """Press, move in steps, let go."""
        x, y = begin
        self.do("mousemove", x, y, "mousedown", 1)
        for step in range(1, 5):
            self.do("mousemove", x + by_x * step // 4, y)
        self.do("mouseup", 1)
