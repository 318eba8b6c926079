"""Arrays as text in a page: whole numbers of two bytes, each row with its own step."""

import base64
from typing import Any

import numpy as np

from frame.fem.element import Array

MOST = 32767
"""Largest whole number of two bytes."""


def packed(rows: Array) -> dict[str, Any]:
    """Pack an array (c, ...) so that each of its c rows is told to 1 in 32,767 of its largest.

    `step` (c,) of each row; `bits`: the whole numbers, little-endian, in base 64.
    """
    flat = rows.reshape(len(rows), -1)
    largest = np.abs(flat).max(axis=1, initial=0.0)
    step = np.where(largest > 0.0, largest, 1.0) / MOST
    whole = np.rint(flat / step[:, None]).astype("<i2")
    return {
        "step": rounded_lists(step),
        "bits": base64.b64encode(whole.tobytes()).decode("ascii"),
    }


def rounded_lists(values: Array, digits: int = 9) -> Any:
    """Return an array as nested lists of numbers of some significant digits."""
    if values.ndim:
        return [rounded_lists(v, digits) for v in values]
    return float(f"{float(values):.{digits}g}")
