"""Side pull and pluck of a guy against numerical solutions by another route."""

import numpy as np
import pytest
from scipy.linalg import eigh
from scipy.optimize import minimize

from frame.shop.yard.pull import pitch, pluck, side_movement, tension_card
from tests.builders import INCH, POUND, case

G = 9.80665
LENGTH, EA = 102 * INCH, 845_000 * POUND


@pytest.mark.parametrize("pounds", [100, 200, 400, 665])
def test_a_chain_of_springs_moves_aside_as_far(pounds: float) -> None:
    """Least energy of forty springs, pulled aside at the middle one."""
    count, side = 40, 20 * POUND
    tension = pounds * POUND
    rest = LENGTH / count / (1 + tension / EA)
    x0 = np.linspace(0, LENGTH, count + 1)
    scale = tension * 1e-3

    def energy(free: np.ndarray) -> tuple[float, np.ndarray]:
        x, y = x0.copy(), np.zeros(count + 1)
        x[1:-1] += free[: count - 1] * 1e-3
        y[1:-1] = free[count - 1 :] * 1e-3
        dx, dy = np.diff(x), np.diff(y)
        long = np.hypot(dx, dy)
        pull = EA * (long / rest - 1)
        total = 0.5 * np.sum(pull * (long - rest)) - side * y[count // 2]
        fx, fy = pull * dx / long, pull * dy / long
        gx, gy = fx[:-1] - fx[1:], fy[:-1] - fy[1:]
        gy[count // 2 - 1] -= side
        return total / scale, np.concatenate([gx, gy]) * 1e-3 / scale

    start = np.zeros(2 * (count - 1))
    start[count - 1 :] = 10.0
    found = minimize(energy, start, jac=True, method="BFGS", options={"gtol": 1e-7})
    aside = found.x[count - 1 :][count // 2 - 1] * 1e-3
    assert side_movement(tension, side, LENGTH, EA) == pytest.approx(aside, rel=2e-3)


def test_the_straight_formula_is_the_limit_of_a_tight_wire() -> None:
    """P L / 4 T, any text on statics, where the pull hardly changes."""
    tight = 1e7
    assert side_movement(tight, 10.0, LENGTH, EA) == pytest.approx(
        10.0 * LENGTH / (4 * tight), rel=1e-3
    )


def test_pluck_is_the_lowest_frequency_of_a_string_of_beads() -> None:
    count, weight, tension = 200, 1.77, 900.0
    step = LENGTH / count
    stiff = (
        tension / step * (2 * np.eye(count - 1) - np.eye(count - 1, k=1) - np.eye(count - 1, k=-1))
    )
    mass = weight / G * step * np.eye(count - 1)
    lowest = np.sqrt(eigh(stiff, mass, eigvals_only=True, subset_by_index=[0, 0])[0])
    assert pluck(tension, weight, LENGTH) == pytest.approx(lowest / (2 * np.pi), rel=1e-4)


def test_turns_bring_the_wanted_pull() -> None:
    """1/2-13 thread: a full turn takes up 2/13 in (right and left thread)."""
    (group,) = case("boat_shed").guys
    assert pitch(0.5 * INCH) == pytest.approx(INCH / 13)
    card = tension_card(group, group.name, LENGTH)
    low, high = card.turn
    assert (
        low < high <= group.wire.area * group.wire.E_high * 2 * pitch(group.fitting_size) / LENGTH
    )
    assert card.turns[0] * high == pytest.approx(card.wanted)
    asides = [r.aside for r in card.readings]
    assert asides == sorted(asides, reverse=True)
