"""The vapour pressure of water."""

from __future__ import annotations

import math

from logger.analysis.constants import ZERO_CELSIUS_K
from logger.analysis.refusal import require_within

__all__ = ["water_vapour_pressure_Pa"]

_CRITICAL_TEMPERATURE_K = 647.096
_CRITICAL_PRESSURE_PA = 22.064e6
_TERMS = (
    (1.0, -7.85951783),
    (1.5, 1.84408259),
    (3.0, -11.7866497),
    (3.5, 22.6807411),
    (4.0, -15.9618719),
    (7.5, 1.80122502),
)


def water_vapour_pressure_Pa(temperature_C: float) -> float:
    """Return the saturation pressure of water over its liquid.

    Parameters
    ----------
    temperature_C : float
        Temperature in degrees Celsius, 0 to 373.9. The equation is stated from the triple point,
        0.01 degC; the last hundredth of a degree below is its smooth continuation.

    Returns
    -------
    float
        Saturation pressure in pascal.

    Raises
    ------
    Refused
        Not finite, or outside the range of the equation.

    Notes
    -----
    Source: W. Wagner, A. Pruss, J. Phys. Chem. Ref. Data 22 (1993) 783; IAPWS SR1-86(1992).
    """
    temperature_C = require_within(
        "temperature in degC", temperature_C, 0.0, 373.9, "liquid water has no vapour pressure there"
    )
    temperature_K = temperature_C + ZERO_CELSIUS_K
    distance = 1.0 - temperature_K / _CRITICAL_TEMPERATURE_K
    series = sum(factor * distance**power for power, factor in _TERMS)
    return _CRITICAL_PRESSURE_PA * math.exp(_CRITICAL_TEMPERATURE_K / temperature_K * series)
