"""A command works on one thread, unless the environment says otherwise."""

from __future__ import annotations

import os
import subprocess
import sys

import pytest

from logger.own_threads import VARIABLE, calculate_on_one

COUNTED = """
import os, sys
from logger.commands import main
status = main(["plan", "--current", "0.002"])
assert "numpy" in sys.modules
print(len(os.listdir("/proc/self/task")), file=sys.stderr)
sys.exit(status)
"""


def test_what_the_environment_says_is_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(VARIABLE, "3")
    calculate_on_one()
    assert os.environ[VARIABLE] == "3"
    monkeypatch.delenv(VARIABLE)
    calculate_on_one()
    assert os.environ[VARIABLE] == "1"


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="threads are counted where Linux lists them")
def test_a_command_has_no_thread_that_waits_for_work() -> None:
    environment = {name: value for name, value in os.environ.items() if name != VARIABLE}
    environment["PYTHONPATH"] = os.pathsep.join(p for p in sys.path if p)
    done = subprocess.run(
        [sys.executable, "-c", COUNTED],
        env=environment,
        capture_output=True,
        text=True,
        timeout=90,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    assert int(done.stderr.split()[-1]) == 1
