"""Name and version of the program, as written into files. The package takes its version from here."""

__all__ = ["PROGRAM", "VERSION"]

PROGRAM = "Galvanote"

VERSION = "0.1.0"
