"""Which exports there are, by the ending of the output's name."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from logger.errors import LoggerError, OutputExists
from logger.recording import Recording

__all__ = ["FORMATS", "export"]


def _csv(recording: Recording, out: Path, replace: bool) -> list[Path]:
    from logger.export.table import export_csv

    return export_csv(recording, out, replace=replace)


def _png(recording: Recording, out: Path, replace: bool) -> list[Path]:
    from logger.analysis.findings import findings
    from logger.export.picture import export_png

    export_png(recording, findings(recording), out)
    return [out]


FORMATS: dict[str, Callable[[Recording, Path, bool], list[Path]]] = {".csv": _csv, ".png": _png}


def export(read: Callable[[], Recording], out: Path, *, replace: bool = False) -> list[Path]:
    """Write the recording that `read` returns to `out`; return the files written.

    Raises
    ------
    LoggerError : an ending that is not known, or a folder that is not there; nothing was written.
    OutputExists : `out` exists and may not be replaced.
    """
    write = FORMATS.get(out.suffix.lower())
    if write is None:
        raise LoggerError(
            f"{out}: no export has the ending {out.suffix or '(none)'}; known: {', '.join(FORMATS)}"
        )
    if out.is_dir():
        raise LoggerError(f"{out} is a folder; name a file in it")
    if not out.absolute().parent.is_dir():
        raise LoggerError(f"the folder {out.absolute().parent} is not there; make it first")
    if out.exists() and not replace:
        raise OutputExists(f"{out} exists; choose another name, or add --replace")
    return write(read(), out, replace)
