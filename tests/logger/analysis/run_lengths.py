"""Average run lengths of a cumulative sum chart by the Markov chain of Brook and Evans: a second way.

D. Brook, D. A. Evans, "An approach to the probability distribution of cusum run length", Biometrika 59 (1972)
539: the sum is cut into states, the chance of every step comes from the normal distribution, and the mean
number of values until the alarm solves one linear system.
"""

import numpy as np
from scipy.stats import norm

STATES = 400


def one_sided_run_length(limit, allowance, shift=0.0, states=STATES):
    """Mean number of independent normal values until a one-sided chart, started at 0, goes off."""
    width = 2.0 * limit / (2 * states - 1)
    steps = np.arange(states)
    upper = (steps[None, :] - steps[:, None] + 0.5) * width + allowance - shift
    chances = norm.cdf(upper) - norm.cdf(upper - width)
    chances[:, 0] = norm.cdf(upper[:, 0])
    return float(np.linalg.solve(np.eye(states) - chances, np.ones(states))[0])


def two_sided_run_length(limit, allowance, shift=0.0):
    """The same for both sides together: 1/ARL = 1/ARL(up) + 1/ARL(down)."""
    up = one_sided_run_length(limit, allowance, shift)
    down = one_sided_run_length(limit, allowance, -shift)
    return 1.0 / (1.0 / up + 1.0 / down)
