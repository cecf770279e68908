"""Name and version of the program, as written into files."""

from importlib.metadata import PackageNotFoundError, version

__all__ = ["PROGRAM", "VERSION"]

PROGRAM = "Galvanote"

try:
    VERSION = version("galvanote")
except PackageNotFoundError:  # run from a source tree that was never installed
    VERSION = "0+unknown"
