"""How tight a man makes a nut or set bolt with the wrench of its size."""

from itertools import pairwise

from frame.tables.reader import rows, si


def wrench_torque(diameter: float) -> float:
    """Return the torque [N m] on a nut or set bolt of thread `diameter` [m] that nobody measured.

    Rows of `wrench_torques.csv` (judgement), in proportion between them; beyond the first and the
    last with the cube of the diameter, as a rod's strength in torque goes. NaN stays NaN. No range
    is taken of it: what is kept of a torque is uncertain by more (`kept` in `expected.csv`).
    """
    listed = [(si(row, "diameter_in"), si(row, "torque_ft_lb")) for row in rows("wrench_torques")]
    for (size, torque), (bigger, more) in pairwise(listed):
        if size <= diameter <= bigger:
            return torque + (more - torque) * (diameter - size) / (bigger - size)
    size, torque = listed[0] if diameter < listed[0][0] else listed[-1]
    return torque * (diameter / size) ** 3
