"""What a meter's accuracy statement means for a reading, and for the difference of two."""

from __future__ import annotations

import math
from dataclasses import dataclass

from logger.analysis.refusal import require_finite, require_positive, require_within
from logger.analysis.uncertainty import rectangular_standard_uncertainty

__all__ = ["MeterAccuracy"]


@dataclass(frozen=True, slots=True)
class MeterAccuracy:
    """The accuracy statement +- (percent of reading + counts) of a meter on one fixed range.

    The statement gives limits between which nothing is preferred: the standard uncertainty is the limit
    over the square root of three (JCGM 100:2008, 4.3.7). All zeros mean a meter taken as exact.

    Attributes
    ----------
    percent_of_reading : float
        0 to 100.
    counts : float
        Zero or more, in units of the last digit.
    resolution_V : float
        One count of the last digit, in volt, zero or more.
    in_whole_counts : bool
        Whether the voltages are known to be multiples of a count: not once they were shifted or scaled.

    Raises
    ------
    Refused
        A value is outside its range.
    """

    percent_of_reading: float = 0.0
    counts: float = 0.0
    resolution_V: float = 0.0
    in_whole_counts: bool = False

    def __post_init__(self) -> None:
        require_within(
            "accuracy in percent of reading",
            self.percent_of_reading,
            0.0,
            100.0,
            "it is a share of the reading",
        )
        require_positive("accuracy in counts", self.counts, zero_allowed=True)
        require_positive("resolution in V", self.resolution_V, zero_allowed=True)

    def gain_uncertainty_V(self, voltage_V: float) -> float:
        """Return the part in proportion to the reading, or to a difference of readings, in volt."""
        share = rectangular_standard_uncertainty(self.percent_of_reading / 100.0)
        return share * abs(require_finite("voltage in V", voltage_V))

    @property
    def offset_uncertainty_V(self) -> float:
        """The part that is the same for all readings of the range, in volt."""
        return rectangular_standard_uncertainty(self.counts * self.resolution_V)

    @property
    def resolution_uncertainty_V(self) -> float:
        """What rounding to the last digit leaves open, in volt: one count over the square root of twelve."""
        return self.resolution_V / math.sqrt(12.0)

    def single_reading_uncertainty_V(self, voltage_V: float) -> float:
        """Return the standard uncertainty of one absolute voltage.

        The two limits are added before the division by the square root of three: they belong to one
        statement, and nothing says that they are independent.
        """
        return self.gain_uncertainty_V(voltage_V) + self.offset_uncertainty_V

    def independent_reading_uncertainty_V(self, voltage_V: float) -> float:
        """Return the standard uncertainty of one absolute voltage, gain and offset taken as independent."""
        return math.hypot(self.gain_uncertainty_V(voltage_V), self.offset_uncertainty_V)
