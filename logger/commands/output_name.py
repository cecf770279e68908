"""The name of a file to be written, as given on the command line."""

from __future__ import annotations

import argparse
from pathlib import Path

__all__ = ["output_name"]


def output_name(text: str) -> Path:
    """Return the path; an empty name would otherwise stand for the folder where one is.

    Raises
    ------
    argparse.ArgumentTypeError : it is empty.
    """
    if not text.strip():
        raise argparse.ArgumentTypeError("the name is empty; give one, for example run.pdf")
    return Path(text)
