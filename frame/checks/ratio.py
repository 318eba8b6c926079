"""A demand over a strength, safe where either is nil."""

import numpy as np

from frame.checks.check import Numbers


def over(demand: Numbers, strength: Numbers) -> Numbers:
    """Demand over strength [1]: 0 without demand, infinite where a demand meets no strength."""
    with np.errstate(divide="ignore", invalid="ignore"):
        ratio: Numbers = np.where(np.equal(demand, 0), 0.0, np.divide(demand, strength))
    return ratio
