"""The calibrations that the user has made, kept by instrument in the folder of the user's settings.

One JSON file, replaced as a whole (written beside, synced, renamed), so that it is never half written.
"""

from __future__ import annotations

import json
import math
import os
import sys
from collections.abc import Mapping
from dataclasses import asdict
from datetime import date
from pathlib import Path
from typing import Any

from logger.calibration import Calibration, CalibrationError, Point

__all__ = ["CalibrationStore", "settings_folder"]

FILE_NAME = "calibrations.json"
_VERSION = 1


def settings_folder() -> Path:
    """Return the folder of this user's settings, by the custom of the system; it need not exist."""
    if sys.platform == "win32":
        base = Path(os.environ.get("APPDATA") or Path.home() / "AppData" / "Roaming")
    elif sys.platform == "darwin":
        base = Path.home() / "Library" / "Application Support"
    else:
        base = Path(os.environ.get("XDG_CONFIG_HOME") or Path.home() / ".config")
    return base / "galvanote"


class CalibrationStore:
    """Calibrations by the instrument's identity (`logger.instrument_identity`).

    Parameters
    ----------
    folder : where the file lies; the user's settings by default.
    """

    def __init__(self, folder: Path | None = None) -> None:
        self.path = (folder or settings_folder()) / FILE_NAME

    def all(self) -> Mapping[str, Calibration]:
        """Return all calibrations by identity; none if there is no file yet.

        Raises
        ------
        CalibrationError : the file cannot be read or understood; it is left as it is.
        """
        try:
            text = self.path.read_text(encoding="utf-8")
        except FileNotFoundError:
            return {}
        except (OSError, UnicodeDecodeError) as error:
            raise CalibrationError(f"{self.path} cannot be read ({error}); check its permissions") from error
        try:
            kept = json.loads(text)
            if kept["version"] != _VERSION:
                raise ValueError(f"version {kept['version']}")
            return {identity: _calibration(points) for identity, points in kept["instruments"].items()}
        except (ValueError, KeyError, TypeError, AttributeError, RecursionError) as error:
            raise CalibrationError(
                f"{self.path} is no list of calibrations ({error}); move it away, and calibrate again"
            ) from error

    def find(self, identity: str) -> Calibration | None:
        """Return the calibration of one instrument, None if there is none. Raises as `all` does."""
        return self.all().get(identity) if identity else None

    def keep(self, identity: str, calibration: Calibration) -> None:
        """Keep a calibration in place of the one there was.

        Raises
        ------
        CalibrationError : the file cannot be read or written.
        """
        self._write({**self.all(), identity: calibration})

    def forget(self, identity: str) -> None:
        """Remove the calibration of one instrument.

        Raises
        ------
        CalibrationError : there is none, or the file cannot be read or written.
        """
        kept = dict(self.all())
        if kept.pop(identity, None) is None:
            raise CalibrationError(f"no calibration is kept for {identity!r}; see galvanote calibrate show")
        self._write(kept)

    def _write(self, calibrations: Mapping[str, Calibration]) -> None:
        document = {
            "version": _VERSION,
            "instruments": {
                identity: [asdict(point) for point in one.points] for identity, one in calibrations.items()
            },
        }
        beside = self.path.with_suffix(f".{os.getpid()}.part")
        try:
            self.path.parent.mkdir(parents=True, exist_ok=True)
            with beside.open("w", encoding="utf-8") as file:
                json.dump(document, file, ensure_ascii=False, indent=2)
                file.flush()
                os.fsync(file.fileno())
            beside.replace(self.path)
        except OSError as error:
            beside.unlink(missing_ok=True)
            raise CalibrationError(
                f"the calibration cannot be kept in {self.path} ({error}); check space and permissions there"
            ) from error


def _calibration(points: list[dict[str, Any]]) -> Calibration:
    found = tuple(Point(**point) for point in points)
    if not found:
        raise ValueError("an instrument without points")
    for point in found:
        numbers = (point.true_V, point.shown_V, point.spread_V)
        if not all(isinstance(one, int | float) and math.isfinite(one) for one in numbers):
            raise ValueError("a point that is no number")
    calibration = Calibration(found).checked()
    date.fromisoformat(calibration.day)  # raises where it is no day
    return calibration
