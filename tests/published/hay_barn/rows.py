"""Every row of the hay barn by hand: the gust at which it lets go, and how sure that is."""

import sys
from collections.abc import Callable
from math import exp, log, sqrt

from tests.published.hay_barn import ground, joints, welds
from tests.published.hay_barn.given import COEFFICIENTS, MIDDLE, SPREADS, Inputs, Wind, wind

Use = Callable[[Wind, Inputs], float]
MOST = 250.0  # mph

ROWS: dict[tuple[str, str], Use] = {
    ("post", "post turning in the ground"): ground.turning,
    ("set bolt", "grip against swing"): joints.set_bolt,
    ("post", "post in ground, pressed down"): ground.pressed_down,
    ("post", "post in ground, pulled up"): ground.pulled_up,
    ("post", "post in ground, sideways"): ground.sideways,
    ("post", "post in ground, leaning"): ground.leaning,
    ("post", "bending, axial force and twist together"): ground.post,
    ("beam", "bending, axial force and twist together"): joints.beam,
    ("rail", "bending of the rail, both ways"): joints.rail,
    ("rail", "bending of the rail in a local gust"): joints.rail_local,
    ("U-bolt", "grip of the U-bolt"): joints.u_bolt_grip,
    ("U-bolt", "tension of the U-bolt"): joints.u_bolt_tension,
    ("panel clamp", "clamp bolt against lift"): joints.clamp,
    ("beam wall at sleeve", "chord wall"): joints.chord_wall,
    ("post wall at foot of sleeve", "wall bearing at the sleeve"): joints.post_at_foot,
    ("post wall at its top", "wall bearing at the sleeve"): joints.post_at_top,
    ("sleeve wall at its foot", "wall bearing at the sleeve"): joints.sleeve_at_foot,
    ("weld, beam to sleeve", "weld metal"): welds.weld,
    ("weld, beam to sleeve", "base metal at weld"): welds.weld_metal,
}


def gust(use: Use, tilt: int, given: Inputs) -> float:
    """Lowest gust [mph] at which a use reaches one, over wind from either way; MOST if none."""

    def worst(mph: float) -> float:
        return max(use(wind(mph, tilt, case, given), given) for case in COEFFICIENTS[tilt])

    below, above = 0.0, MOST
    if worst(MOST) < 1:
        return MOST
    while above - below > 1e-3:
        middle = (below + above) / 2
        below, above = (middle, above) if worst(middle) < 1 else (below, middle)
    return above


def ranged(use: Use, tilt: int) -> tuple[float, float, float]:
    """Low, middle and high gust [mph]: each input at its ends, squares of shifts of ln V added."""
    middle = gust(use, tilt, MIDDLE)
    down = up = 0.0
    for name, (weak, _, strong) in SPREADS.items():
        down += log(gust(use, tilt, MIDDLE | {name: weak}) / middle) ** 2
        up += log(gust(use, tilt, MIDDLE | {name: strong}) / middle) ** 2
    return middle * exp(-sqrt(down)), middle, middle * exp(sqrt(up))


if __name__ == "__main__":
    for at in COEFFICIENTS:
        found = {" | ".join(row): ranged(use, at) for row, use in ROWS.items()}
        for row, (low, middle, high) in sorted(found.items(), key=lambda item: item[1][1]):
            sys.stdout.write(f"{at} deg {row:56} {middle:6.1f} ({low:.1f} to {high:.1f})\n")
