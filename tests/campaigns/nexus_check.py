"""Lets the NeXus definitions' own checker read a recording: python tests/campaigns/nexus_check.py FILE.h5

Installs the registry package nexusformat (about 480 MB with what it needs) into an environment of its own in
the temporary folder, since it must not come near the product. Exit status 1 when it finds an error.
"""

from __future__ import annotations

import re
import subprocess
import sys
import tempfile
import venv
from pathlib import Path


def main(arguments: list[str]) -> int:
    folder = Path(tempfile.gettempdir()) / "galvanote-nexus-check"
    checker = folder / ("Scripts" if sys.platform == "win32" else "bin") / "nxcheck"
    if not checker.exists():
        venv.create(folder, with_pip=True)
        subprocess.run([checker.with_name("pip"), "install", "--quiet", "nexusformat==2.1.0"], check=True)
    wrong = 0
    for name in arguments:
        told = subprocess.run([checker, name], capture_output=True, text=True, check=False).stdout
        counts = {word: int(n) for word, n in re.findall(r"Total number of (warnings|errors): (\d+)", told)}
        if "errors" not in counts:
            print(told)
            print(f"{name}: the checker gave no verdict")
            wrong += 1
            continue
        print(f"{name}: {counts['errors']} errors, {counts.get('warnings', 0)} warnings")
        wrong += counts["errors"] > 0
    return 1 if wrong or not arguments else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
