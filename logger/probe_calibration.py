"""Calibrating an instrument that is being listened to: one more point, kept for that instrument."""

from __future__ import annotations

from datetime import date

from logger.bench_form import FieldError, parse_number
from logger.calibration import Calibration, CalibrationError, add_point, point_from_readings
from logger.calibration_store import CalibrationStore
from logger.source_probe import ProbedChannel

__all__ = ["forget_calibration", "keep_again", "kept_calibration", "take_point"]


def take_point(
    channel: ProbedChannel,
    typed_V: str,
    against: str,
    *,
    store: CalibrationStore | None = None,
    today: date | None = None,
) -> Calibration:
    """Keep what a channel shows at a known voltage, and return the calibration with that point.

    Parameters
    ----------
    channel : what was read in the last seconds, without any calibration.
    typed_V : the known voltage, with either decimal sign; 0 with the meter's leads together.
    against : what it is known by, in the user's words.

    Raises
    ------
    CalibrationError : no voltage, an instrument that is not known again, or readings that make no point.
    """
    if channel.unit != "V":
        raise CalibrationError(f"{channel.name} is no voltage; only voltages are calibrated here")
    if not channel.identity:
        raise CalibrationError(
            "nothing tells this instrument from another one of its kind; give it a name (More settings), "
            "then the calibration can be kept for it"
        )
    try:
        true_V = float(parse_number(typed_V))
    except FieldError as error:
        raise CalibrationError(f"the known voltage {error}") from error
    day = (today or date.today()).isoformat()
    point = point_from_readings(true_V, channel.recent, channel.recent_quality, day=day, against=against)
    store = store or CalibrationStore()
    calibration = add_point(store.find(channel.identity), point)
    store.keep(channel.identity, calibration)
    return calibration


def kept_calibration(channel: ProbedChannel, store: CalibrationStore | None = None) -> Calibration | None:
    """Return the calibration that a run with this instrument would be corrected by, if there is one.

    Raises
    ------
    CalibrationError : what is kept cannot be read.
    """
    return (store or CalibrationStore()).find(channel.identity)


def forget_calibration(channel: ProbedChannel, store: CalibrationStore | None = None) -> None:
    """Correct runs with this instrument no longer.

    Raises
    ------
    CalibrationError : there is none, or what is kept cannot be read or written.
    """
    (store or CalibrationStore()).forget(channel.identity)


def keep_again(
    channel: ProbedChannel, forgotten: Calibration, store: CalibrationStore | None = None
) -> Calibration:
    """Keep a calibration of this instrument that had been forgotten, and return it.

    Raises
    ------
    CalibrationError : what is kept cannot be read or written.
    """
    (store or CalibrationStore()).keep(channel.identity, forgotten)
    return forgotten
