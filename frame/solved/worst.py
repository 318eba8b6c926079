"""Which of many cases is the worst."""

import numpy as np

from frame.solved.frames import FloatArray

SAME = 1e-9
"""Part of a value by which mirrored cases may differ from rounding."""


def worst_case(values: FloatArray) -> int:
    """Position of the largest of values (n,), the first of those that rounding alone sets apart.

    Cases that mirror each other are as good as equal, and which comes out larger would differ from
    machine to machine.
    """
    most = values.max()
    return int(np.argmax(values >= most * (1 - np.sign(most) * SAME)))
