"""The whole rack against swaying over under its own loads."""

import numpy as np

from frame.checks.check import Check, Kind, Numbers, Step
from frame.named.limit_state import LimitState

FAR = 1000.0
"""Factor from which a rack counts as far from buckling as this."""


def toppling(lowest: Numbers, alpha: Numbers) -> Check:
    """How many times the forces count against the factor on them at which the rack sways over.

    `lowest`: buckling factor of the whole frame under the forces of the case, guys in that are
    taut, infinite where nothing is pressed (McGuire, Gallagher and Ziemian, Matrix Structural
    Analysis, 2nd ed., sec. 9.6). `alpha`: 1 as the forces are; for the code's margin 1.6 on ASD
    loads over 0.8 on the stiffness, AISC 360-22 C2.1 and C2.3. At alpha = lowest second-order
    moments have no end. Bends of the steel past its yield are not in it: those are other checks.
    """
    factor = np.minimum(lowest, FAR)
    return Check(
        name=LimitState.TOPPLES,
        demand=alpha,
        allowable=factor,
        nominal=factor,
        unit="",
        source="AISC 360-22 C2",
        steps=(
            Step("a", "how many times the forces count", "", alpha, "", "AISC 360-22 C2.1, C2.3"),
            Step("l", "forces times this sway it over", "", factor, ""),
            Step("U", "use", "a/l", np.divide(alpha, factor), ""),
        ),
        kind=Kind.BREAKS,
    )
