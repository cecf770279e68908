"""How much a slow noise repeats itself, and what that costs when readings are averaged.

Neighbouring readings of a cell are alike, because a bubble stays for seconds: ten readings may be worth
one. The *inflation factor* g says how many: n readings have the effective size n/g.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

__all__ = [
    "ar1_coefficient",
    "ar1_effective_samples",
    "ar1_inflation",
    "autocorrelation",
    "deviations",
    "lagged_products",
    "monotone_inflation",
]

HIGHEST_COEFFICIENT = 0.995
"""Above this lag-1 coefficient a window shorter than some 400 readings tells nothing about its mean."""


def deviations(values: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return the values less their mean, in two passes.

    The second pass removes the rounding of the first, which matters when the scatter is many orders
    smaller than the mean (NIST StRD, NumAcc4).

    Parameters
    ----------
    values : ndarray, shape (n,)
        Any unit, n >= 1, finite.

    Returns
    -------
    ndarray, shape (n,)
        Deviations in the same unit.
    """
    first = values - values.mean()
    centred: NDArray[np.float64] = first - first.mean()
    return centred


def lagged_products(centred: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return the sums of ``centred[i] * centred[i + k]`` for all lags k, in O(n log n).

    Parameters
    ----------
    centred : ndarray, shape (n,)
        Values whose mean was taken off.

    Returns
    -------
    ndarray, shape (n,)
        Entry k is the sum over i = 0 .. n - k - 1.

    Notes
    -----
    By the convolution theorem; padding with zeros to at least 2n - 1 keeps the ends from wrapping round.
    """
    n = centred.size
    padded = 1 << (2 * n - 1).bit_length()
    spectrum = np.fft.rfft(centred, padded)
    products: NDArray[np.float64] = np.fft.irfft(spectrum.real**2 + spectrum.imag**2, padded)[:n]
    return products


def autocorrelation(values: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return the autocorrelation r_k of a series for all lags.

    Parameters
    ----------
    values : ndarray, shape (n,)
        Equally spaced, n >= 2, finite.

    Returns
    -------
    ndarray, shape (n,)
        r_k = sum of d_i d_(i+k) over i, divided by the sum of d_i squared, d the deviations from the mean;
        r_0 = 1. All zero after r_0 when the values do not vary.

    References
    ----------
    NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.12 "Autocorrelation".
    """
    products = lagged_products(deviations(values))
    if products[0] <= 0.0:
        products = np.zeros(values.size)
        products[0] = 1.0
    correlation: NDArray[np.float64] = products / products[0]
    return correlation


def ar1_coefficient(lag1: float, n: int, fitted: int = 1, highest: float = HIGHEST_COEFFICIENT) -> float:
    """Return the coefficient phi of a first-order process from the lag-1 autocorrelation.

    Parameters
    ----------
    lag1 : float
        r_1 of the series, or of the residuals of a fit.
    n : int
        Length of the series, n > 4 + `fitted`.
    fitted : int
        Number of parameters taken off the series before: 1 for a mean, 2 for a line.
    highest : float
        phi is kept within 0 .. `highest`.

    Returns
    -------
    float
        (n r_1 + fitted)/(n - 3 - fitted), the first-order correction of the bias that comes from taking
        off a mean or a line, then clipped.

    References
    ----------
    Kendall, M. G., "Note on bias in the estimation of autocorrelation", Biometrika 41 (1954) 403 (from
    memory); the form with the number of fitted parameters was checked by simulation.
    """
    return float(np.clip((n * lag1 + fitted) / (n - 3 - fitted), 0.0, highest))


def ar1_inflation(phi: float, n: int) -> float:
    """Return the inflation factor of the variance of the mean of n values of a first-order process.

    Parameters
    ----------
    phi : float
        Lag-1 coefficient, 0 <= phi < 1.
    n : int
        Length of the series.

    Returns
    -------
    float
        g = 1 + 2 sum over k = 1 .. n-1 of (1 - k/n) phi^k, in closed form; at least 1.

    References
    ----------
    Zieba, A., "Effective number of observations and unbiased estimators of variance for autocorrelated
    data", Metrol. Meas. Syst. 17 (2010) 3, doi 10.2478/v10178-010-0001-0.
    """
    rest = 1.0 - phi
    return 1.0 + 2.0 * (phi / rest - phi * (1.0 - phi**n) / (n * rest * rest))


def ar1_effective_samples(phi: float, n: int) -> float:
    """Return how many independent readings n readings of a first-order process are worth: n/g."""
    return n / ar1_inflation(phi, n)


def monotone_inflation(correlation: NDArray[np.float64]) -> float:
    """Return the inflation factor by the initial monotone sequence.

    It assumes no model, so it sees the slow part of a mixture whose fast part hides it at lag 1.

    Parameters
    ----------
    correlation : ndarray, shape (n,)
        r_k from `autocorrelation`.

    Returns
    -------
    float
        max(1, 2 sum Gam_j - 1) with Gam_j = r_2j + r_(2j+1), made non-increasing and summed while positive.

    References
    ----------
    Geyer, C. J., "Practical Markov chain Monte Carlo", Statistical Science 7 (1992) 473 (from memory).
    """
    pairs = correlation[: correlation.size // 2 * 2].reshape(-1, 2).sum(axis=1)
    falling = np.minimum.accumulate(pairs)
    return max(1.0, 2.0 * float(falling[falling > 0.0].sum()) - 1.0)
