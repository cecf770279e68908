"""How many threads the program takes for itself where nobody has asked for them."""

from __future__ import annotations

import os

__all__ = ["calculate_on_one"]

VARIABLE = "OPENBLAS_NUM_THREADS"


def calculate_on_one() -> None:
    """Let the linear algebra below numpy work on one thread, unless the environment says otherwise.

    To be called before numpy is loaded, by a program and not by a library. The problems here are small: a
    second thread would only wait for work, and keep a processor busy with waiting. Sums are also added up in
    the same order then, however many processors there are.
    """
    os.environ.setdefault(VARIABLE, "1")
