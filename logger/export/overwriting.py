"""What an export would do to files that are there already, for those who ask before it does."""

from __future__ import annotations

import os
from dataclasses import dataclass
from pathlib import Path

from logger.export.channel_files import channel_files
from logger.export.formats import has_findings_table
from logger.export.table import left_over_by_tables, table_files
from logger.recording import Recording

__all__ = ["Overwriting", "overwriting"]


@dataclass(frozen=True, slots=True)
class Overwriting:
    """Files that are there: those that the export replaces, and those of an older set that it removes."""

    replaced: tuple[Path, ...] = ()
    removed: tuple[Path, ...] = ()

    def __bool__(self) -> bool:
        return bool(self.replaced or self.removed)


def overwriting(recording: Recording, out: Path) -> Overwriting:
    """Return what exporting to `out`, where it may replace, would do to the files that are there.

    Raises
    ------
    LoggerError : it would be refused, since a file to be removed was changed since it was written.
    """
    ending = out.suffix.lower()
    removed: list[Path] = []
    if ending == ".csv":
        files = table_files(recording, out, has_findings=has_findings_table(recording))
        removed = left_over_by_tables(files)
    elif ending == ".parquet":
        files = list(channel_files(recording, out))
    else:
        files = [out]
    # A folder of that name refuses the export: nobody needs to agree to that.
    there = (path for path in files if os.path.lexists(path) and not path.is_dir())
    return Overwriting(tuple(there), tuple(removed))
