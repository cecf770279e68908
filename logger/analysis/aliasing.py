"""What a fast rhythm looks like when it is sampled slowly."""

from __future__ import annotations

import math

from logger.analysis.refusal import require_positive

__all__ = ["alias_frequency_Hz", "stirring_frequency_Hz"]


def alias_frequency_Hz(frequency_Hz: float, samples_per_s: float) -> float:
    """Return the frequency at which a rhythm appears in the samples.

    Parameters
    ----------
    frequency_Hz : float
        Of the rhythm (stirrer, mains), in hertz, zero or more.
    samples_per_s : float
        Instantaneous samples in a second, above zero. A meter that averages over the rhythm weakens it.

    Returns
    -------
    float
        In hertz, zero to half the sampling rate. Near zero the rhythm looks like drift, at zero like an
        offset that no averaging shows.

    Raises
    ------
    Refused
        A value is not finite or outside its range.

    Notes
    -----
    Distance to the nearest multiple of the sampling rate; the sampling theorem.
    """
    frequency = require_positive("frequency in Hz", frequency_Hz, zero_allowed=True)
    return abs(math.remainder(frequency, require_positive("samples in a second", samples_per_s)))


def stirring_frequency_Hz(turns_per_minute: float) -> float:
    """Return the frequency of a stirrer bar's turns in hertz.

    Raises
    ------
    Refused
        Not finite or negative.
    """
    return require_positive("turns in a minute", turns_per_minute, zero_allowed=True) / 60.0
